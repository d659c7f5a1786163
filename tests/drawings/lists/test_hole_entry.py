"""Where holes enter their part: side, end or edge, the true middle of the mouth, how they lean."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.lists.hole_entry import bored_through, entry
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Profile
from model.layout.outline import Outline
from model.part import Part
from model.placement import Vector, added, dot, scaled, unit
from model.stock import board

BOARD = Part(board(300, 100, 30, "red oak"))
BEVEL = SawCut((300.0, 0.0, 0.0), unit((1.0, 0.0, 0.4)))
BEVELED = replace(BOARD, cuts=(BEVEL,))
MITERED = replace(BOARD, cuts=(SawCut((300.0, 0.0, 0.0), unit((1.0, 1.0, 0.0))),))
SKEW = replace(BOARD, cuts=(Profile(Outline(((0.0, 0.0), (300.0, 40.0), (300.0, 100.0), (0.0, 100.0)))),))

#: Begun at, going into; then the side or the edge, and the mouth.
HOLES = [
    ((100.0, 50.0, 30.0), (0.0, 0.0, -1.0), "face", "", (100.0, 50.0, 30.0)),
    ((100.0, 50.0, 0.0), unit((0.3, 0.2, 1.0)), "back", "", (100.0, 50.0, 0.0)),
    ((100.0, 50.0, 20.0), unit((0.3, 0.2, -1.0)), "face", "", (100.0, 50.0, 20.0)),
    ((100.0, 0.0, 15.0), (0.0, 1.0, 0.0), None, "near", (100.0, 0.0, 15.0)),
    ((100.0, 3.0, 15.0), (0.0, 1.0, 0.0), None, "near", (100.0, 3.0, 15.0)),
    ((100.0, 0.3, 15.0), (0.0, 1.0, 0.0), None, "near", (100.0, 0.0, 15.0)),
    ((100.0, -10.0, 15.0), unit((0.5, 1.0, 0.2)), None, "near", (105.0, 0.0, 17.0)),
    ((0.0, 50.0, 15.0), unit((1.0, 0.3, 0.25)), None, "left", (0.0, 50.0, 15.0)),
]


@pytest.mark.parametrize(("at", "into", "side", "edge", "mouth"), HOLES)
def test_a_hole_is_told_from_where_its_middle_line_enters(
    at: Vector, into: Vector, side: str | None, edge: str, mouth: Vector
) -> None:
    found = entry(at, into, BOARD)

    assert (found.side, found.edge) == (side, edge)
    assert found.at == pytest.approx(mouth)


@pytest.mark.parametrize("part", [BEVELED, MITERED])
def test_a_hole_square_to_a_sawn_end_needs_no_angle_of_its_own(part: Part) -> None:
    (sawn,) = part.cuts
    assert isinstance(sawn, SawCut)
    on_it = added(sawn.at, (-50.0 * sawn.out[1] / sawn.out[0], 50.0, 0.0))
    found = entry(on_it, scaled(sawn.out, -1.0), part)

    assert (found.side, found.edge, found.leaning) == (None, "right", False)
    assert found.lean == pytest.approx(0.0, abs=1e-6)
    assert found.slanting is (abs(sawn.out[2]) > 1e-9)


def test_a_hole_along_the_part_into_a_slanting_edge_does_not_lean() -> None:
    found = entry((150.0, 20.0, 15.0), (0.0, 1.0, 0.0), SKEW)

    assert not found.leaning
    assert not found.slanting
    assert found.lean == pytest.approx(math.degrees(math.atan2(40.0, 300.0)))


@given(
    x=st.floats(60.0, 240.0), z=st.floats(5.0, 25.0), off=st.floats(0.0, 20.0),
    turn=st.floats(-40.0, 40.0), rise=st.floats(-30.0, 30.0),
)  # fmt: skip
def test_the_mouth_of_a_hole_into_an_edge_lies_on_the_edge_and_on_its_middle_line(
    x: float, z: float, off: float, turn: float, rise: float
) -> None:
    a, b = math.radians(turn), math.radians(rise)
    into = (math.sin(a) * math.cos(b), math.cos(a) * math.cos(b), math.sin(b))
    begun = added((x, 0.0, z), scaled(into, -off))
    found = entry(begun, into, BOARD)

    assert found.edge == "near"
    assert found.at == pytest.approx((x, 0.0, z), abs=1e-6)
    assert found.off == pytest.approx(off, abs=1e-6)
    assert math.cos(math.radians(found.lean)) == pytest.approx(dot(into, (0.0, 1.0, 0.0)))


TENONED = replace(BOARD, cuts=(TenonedEnd(Plane((1.0, 0.0, 0.0), 250.0), (Tenon(20.0, 60.0, 10.0, 10.0),)),))

#: Begun at, going into, so deep, and whether it comes out again.
DEEP = [
    ((100.0, 50.0, 30.0), (0.0, 0.0, -1.0), 30.0, BOARD, True),
    ((100.0, 50.0, 30.0), (0.0, 0.0, -1.0), 29.0, BOARD, False),
    ((100.0, 50.0, 30.0), unit((0.5, 0.0, -1.0)), 32.0, BOARD, False),
    ((100.0, 50.0, 30.0), unit((0.5, 0.0, -1.0)), 34.0, BOARD, True),
    ((100.0, 0.0, 15.0), (0.0, 1.0, 0.0), 99.0, BOARD, False),
    ((100.0, -5.0, 15.0), (0.0, 1.0, 0.0), 104.0, BOARD, False),
    ((100.0, -5.0, 15.0), (0.0, 1.0, 0.0), 106.0, BOARD, True),
    ((280.0, 50.0, 20.0), unit((0.1, 0.0, -1.0)), 12.0, TENONED, True),
    ((280.0, 50.0, 20.0), unit((0.1, 0.0, -1.0)), 8.0, TENONED, False),
]


@pytest.mark.parametrize(("at", "into", "depth", "part", "out"), DEEP)
def test_a_hole_that_comes_out_again_is_told_from_one_that_does_not(
    at: Vector, into: Vector, depth: float, part: Part, out: bool
) -> None:
    assert bored_through(entry(at, into, part), depth, part) is out
