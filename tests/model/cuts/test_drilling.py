"""Holes at any angle leave nothing standing over their mouths: what they take is their section by their depth."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.cut import Cut
from model.cuts.drilling import leaning
from model.cuts.faces import Bore, Counterbore
from model.cuts.removal import RUN_OUT, Prism
from model.part import Part
from model.placement import Vector
from model.solids import solid
from model.stock import board

WOOD = Part(board(400, 200, 60))
few = settings(max_examples=10, deadline=None)
leans, turns = st.floats(0.0, 50.0), st.floats(0.0, 360.0)


def slanting(lean: float, turn: float, down: float = -1.0) -> Vector:
    """Into a side, so many degrees off square to it, the lean turned so far from the grain."""
    a, b = math.radians(lean), math.radians(turn)
    return (math.sin(a) * math.cos(b), math.sin(a) * math.sin(b), down * math.cos(a))


def taken(cut: Cut) -> float:
    return WOOD.outline.area * WOOD.thickness - solid(WOOD.cut(cut)).Volume()


@few
@given(leans, turns, st.sampled_from([(60.0, -1.0), (0.0, 1.0)]), st.floats(4.0, 25.0))
def test_a_hole_into_a_side_takes_its_section_by_its_depth(
    lean: float, turn: float, side: tuple[float, float], diameter: float
) -> None:
    cut = Bore((200.0, 100.0, side[0]), slanting(lean, turn, side[1]), diameter, 40.0)

    assert taken(cut) == pytest.approx(math.pi / 4.0 * diameter**2 * 40.0, rel=1e-6)


@few
@given(st.floats(-50.0, 50.0), st.sampled_from(["near", "right"]))
def test_a_hole_into_an_edge_takes_its_section_by_its_depth(lean: float, edge: str) -> None:
    along, in_ = math.sin(math.radians(lean)), math.cos(math.radians(lean))
    at, into = ((200.0, 0.0), (along, in_)) if edge == "near" else ((400.0, 100.0), (-in_, along))
    cut = Bore((*at, 30.0), (*into, 0.0), 16.0, 50.0)

    assert taken(cut) == pytest.approx(math.pi * 64.0 * 50.0, rel=1e-6)


@few
@given(leans, turns)
def test_a_leaning_counterbore_goes_right_through(lean: float, turn: float) -> None:
    cut = Counterbore((200.0, 100.0, 60.0), slanting(lean, turn), 20.0, 25.0, 8.0)
    through = 60.0 / math.cos(math.radians(lean))
    mouth, shank = math.pi * 100.0 * 25.0, math.pi * 16.0 * (through - 25.0)

    assert taken(cut) == pytest.approx(mouth + shank, rel=1e-6)


def test_a_square_hole_runs_out_no_further_than_any_cut() -> None:
    cut = Bore((200.0, 100.0, 60.0), (0.0, 0.0, -1.0), 16.0, 30.0)
    (hole,) = cut.removals(WOOD.blank)

    assert isinstance(hole, Prism)
    assert hole.height == cut.depth + RUN_OUT
    assert leaning(cut.at, cut.into, WOOD.blank) == 0.0


@few
@given(st.floats(1.0, 40.0), turns)
def test_a_leaning_hole_begun_on_an_inner_floor_leaves_no_sliver_over_it(lean: float, turn: float) -> None:
    cut = Bore((200.0, 100.0, 40.0), slanting(lean, turn), 16.0, 20.0)
    (hole,) = cut.removals(WOOD.blank)
    tangent = math.tan(math.radians(lean))

    assert isinstance(hole, Prism)
    assert hole.height == pytest.approx(cut.depth + RUN_OUT + tangent * cut.diameter / 2.0)
    assert leaning(cut.at, cut.into, WOOD.blank) == pytest.approx(tangent)
