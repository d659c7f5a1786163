"""Rims of holes as views show them: round where they are bored square, else ellipses of the true size."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.lists.hole_entry import entry
from drawings.paper.arcs import flattened
from drawings.paper.measured import Shown
from drawings.paper.sheet import Circle, Pen, Polyline, ViewPort
from drawings.parts.rim import rim
from model.part import Part
from model.stock import board

BOARD = Part(board(300, 100, 30, "red oak"))
PLAN = ViewPort(0.5, (10.0, 20.0), Shown())


def test_a_square_hole_is_a_circle() -> None:
    found = rim(entry((100.0, 50.0, 30.0), (0.0, 0.0, -1.0), BOARD), 8.0, PLAN, Pen.VISIBLE)

    assert isinstance(found, Circle)
    assert (found.centre, found.radius) == ((60.0, 45.0), 2.0)


@given(lean=st.floats(5.0, 70.0), turn=st.floats(0.0, 360.0))
def test_a_leaning_hole_is_as_much_longer_as_its_angle_says(lean: float, turn: float) -> None:
    a, b = math.radians(lean), math.radians(turn)
    way = math.cos(b), math.sin(b)
    into = (way[0] * math.sin(a), way[1] * math.sin(a), -math.cos(a))
    found = rim(entry((100.0, 50.0, 30.0), into, BOARD), 8.0, PLAN, Pen.VISIBLE)

    assert isinstance(found, Polyline)
    points = flattened(found, 0.001)
    long = [(x - 60.0) * way[0] + (y - 45.0) * way[1] for x, y in points]
    wide = [(y - 45.0) * way[0] - (x - 60.0) * way[1] for x, y in points]
    assert max(long) - min(long) == pytest.approx(4.0 / math.cos(a), abs=0.02)
    assert max(wide) - min(wide) == pytest.approx(4.0, abs=0.02)
