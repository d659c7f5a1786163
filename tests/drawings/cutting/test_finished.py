"""The finished part's outline and size, held against the solid that the kernel makes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.cutting.finished import finished_bounds, finished_outline, finished_size, outline_at, sawn_lines
from model.cuts.legs import Turned
from model.cuts.sawn import SawCut
from model.layout.outline import Outline
from model.part import Part
from model.solids import solid
from model.stock import board

LENGTH, WIDTH, THICK = 400.0, 90.0, 24.0
BOARD = Part(board(LENGTH, WIDTH, THICK, "red oak"))


def leaning(end: str, at: float, miter: float, bevel: float) -> SawCut:
    """A cut near an end, through its near edge's back arris `at` mm from there."""
    sign = 1.0 if end == "right" else -1.0
    m, b = math.radians(miter), math.radians(bevel)
    out = (sign * math.cos(m) * math.cos(b), math.sin(m) * math.cos(b), -math.sin(b))
    return SawCut((LENGTH - at if end == "right" else at, 0.0, 0.0), out)


angles = st.one_of(st.just(0.0), st.floats(-45, 45))
ends = st.builds(leaning, st.sampled_from(["left", "right"]), st.floats(1, 30), st.floats(-40, 40), angles)


@settings(max_examples=25, deadline=None)
@given(st.lists(ends, min_size=1, max_size=3))
def test_the_finished_part_reaches_as_far_as_its_solid(cuts: list[SawCut]) -> None:
    part = Part(BOARD.stock, tuple(cuts))
    box = solid(part).BoundingBox(1e-7)
    bounds = finished_bounds(part)

    assert bounds == pytest.approx((box.xmin, box.ymin, box.xmax, box.ymax), abs=1e-5)
    assert finished_size(part) == pytest.approx((box.xlen, box.ylen, THICK), abs=1e-5)


def test_two_bevels_that_meet_leave_the_end_where_they_do() -> None:
    """A point in the middle of the thickness: both bevels lean out from it."""
    part = BOARD.cut(leaning("right", 20.0, 0.0, 45.0), leaning("right", -4.0, 0.0, -45.0))

    assert finished_bounds(part)[2] == pytest.approx(solid(part).BoundingBox(1e-7).xmax, abs=1e-6)
    assert finished_bounds(part)[2] < LENGTH - 1.0


def test_what_a_leaning_cut_leaves_on_each_side_is_found_there() -> None:
    cut = leaning("right", 10.0, 20.0, 30.0)
    part = BOARD.cut(cut)
    solids_corners = [v.toTuple() for v in solid(part).Vertices()]

    for height in (0.0, THICK):
        (line,) = sawn_lines(cut, part, height)
        for x, y in (line.start, line.end):
            assert any(math.dist((x, y, height), p) < 1e-6 for p in solids_corners)


def test_the_outline_of_a_part_without_leaning_cuts_is_the_same_at_every_height() -> None:
    part = BOARD.cut(SawCut((380.0, 0.0, 0.0), (1.0, 0.0, 0.0)))
    outlines: set[Outline] = {outline_at(part, z) for z in (0.0, 7.0, THICK)}

    assert outlines == {finished_outline(part)[0]}
    assert finished_size(part) == (380.0, WIDTH, THICK)


def test_a_part_turned_from_end_to_end_is_as_thick_as_it_is_round() -> None:
    leg = Part(board(500, 45, 45, "red oak")).cut(Turned(((0.0, 30.0), (250.0, 40.0), (500.0, 24.0))))

    assert finished_size(leg) == (500.0, 40.0, 40.0)
