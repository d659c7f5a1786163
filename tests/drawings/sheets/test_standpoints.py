"""Standpoints: the usual one, until what is new would be hidden from it."""

import numpy as np
import pytest

from drawings.sheets.standpoints import STANDPOINTS, standpoints
from drawings.views.foremost import Foremost


def box(x, y, z, wide, deep, high):
    """Twelve facets, anticlockwise from outside."""
    corners = np.array([[i, j, k] for i in (x, x + wide) for j in (y, y + deep) for k in (z, z + high)], float)
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    return np.array([corners[[a, b, c]] for p, q, r, s in quads for a, b, c in ((p, q, r), (p, r, s))])


def chosen(things, counts):
    return standpoints({name: Foremost(things, spec) for name, spec in STANDPOINTS.items()}, counts)


WALL = box(0, 0, 0, 1000, 20, 1000)


def test_in_the_open_it_is_the_usual_one():
    assert chosen([WALL, box(200, -300, 0, 300, 100, 300)], [1, 2]) == ["", ""]


@pytest.mark.parametrize("new", [box(400, 30, 0, 200, 20, 200), box(300, 25, 300, 300, 15, 100)])
def test_what_hides_behind_a_wall_is_seen_from_behind(new):
    usual, then = chosen([WALL, new], [1, 2])
    assert usual == ""
    assert then.startswith("from behind")


def test_what_comes_later_hides_nothing_yet():
    shelf, screen = box(300, -15, 300, 300, 15, 20), box(0, -40, 0, 1000, 20, 1000)
    assert chosen([WALL, shelf, screen], [1, 2, 3])[1] == ""
    assert chosen([screen, box(300, 0, 300, 300, 15, 20)], [1, 2])[1] != ""


def test_every_standpoint_is_a_standing_person_s():
    assert all(spec.direction[2] > 0.3 for spec in STANDPOINTS.values())
