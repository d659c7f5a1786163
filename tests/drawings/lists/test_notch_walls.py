"""A notch is as long and wide as from wall to wall: reliefs and sides off the wood do not count."""

from __future__ import annotations

import pytest

from drawings.lists.cut_words import cut_in_words
from drawings.lists.notch_walls import notch_walls
from model.cuts.through import Notch, Profile
from model.layout.outline import Outline, rectangle
from model.part import Part
from model.stock import board


def size(walls: object, axis: int) -> float:
    assert isinstance(walls, tuple)
    return float(walls[1][axis] - walls[0][axis])


def test_a_plain_notch_is_measured_to_the_parts_edge() -> None:
    part = Part(board(400.0, 100.0, 20.0))
    along, across = notch_walls(Notch(rectangle(61.0, 41.0).moved(-1.0, -1.0)), part)

    assert size(along, 0) == pytest.approx(60.0)
    assert size(across, 1) == pytest.approx(40.0)


def test_reliefs_in_its_corners_do_not_count() -> None:
    """A corner rounded out past both walls by a half circle, as a router leaves it."""
    part = Part(board(400.0, 100.0, 20.0))
    corners = ((100.0, -1.0), (160.0, -1.0), (160.0, 36.0), (156.0, 40.0), (100.0, 40.0))
    relieved = Outline(corners, (0.0, 0.0, 1.0, 0.0, 0.0), ("",) * 5)
    assert relieved.bounds[2] > 160.0
    assert relieved.bounds[3] > 40.0
    along, across = notch_walls(Notch(relieved), part)

    assert size(along, 0) == pytest.approx(60.0)
    assert size(across, 1) == pytest.approx(40.0)
    assert cut_in_words(Notch(relieved), part) == "notch 60 × 40 right through, at 100 from left end and near edge"


def test_a_side_whose_middle_another_cut_took_is_a_wall_still() -> None:
    scoop = ((300.0, 40.0), (270.0, 50.0), (300.0, 60.0))
    scooped = Outline(((0.0, 0.0), (300.0, 0.0), *scoop, (300.0, 100.0), (0.0, 100.0)))
    part = Part(board(300.0, 100.0, 20.0), (Profile(scooped),))
    along, _ = notch_walls(Notch(rectangle(21.0, 60.0).moved(280.0, 20.0)), part)

    assert size(along, 0) == pytest.approx(20.0)
