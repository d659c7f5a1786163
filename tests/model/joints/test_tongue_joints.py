"""Tongue and groove between boards in one plane and boards that stand at an angle round an arc."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from model.cuts.edges import EdgeGroove, Tongue
from model.errors import DesignError
from model.joints.edge import BOTTOM_ROOM, PLAY, fullest_tongue, tongue_and_groove
from model.layout.boards import half_span, joint_gap, tangent_boards
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import place
from model.stock import board


def round_an_arc(radius: float, widths: list[float], tongue: float, thickness: float) -> tuple[Piece, list[Placed]]:
    """Boards tangent to an arc about the origin, every other one wider by its tongues."""
    stands = tangent_boards(radius, widths, sum(2 * half_span(radius, width) for width in widths))
    piece = Piece("back", Parameters(thickness=thickness))
    boards = []
    for n, stand in enumerate(stands):
        extra = tongue * (n % 2)
        at = place((stand.width / 2 + extra, radius + thickness, 0.0), grain="up", face="front")
        stock = board(300.0, stand.width + 2 * extra)
        boards.append(piece.add(f"board {n + 1}", stock, at.swung(-stand.angle, about=(0.0, 0.0))))
    return piece, boards


@settings(max_examples=8)
@given(st.floats(1200, 9000), st.lists(st.floats(60, 160), min_size=3, max_size=3), st.floats(15, 25))
def test_boards_round_an_arc_join_without_overlap(sound, radius, widths, thickness) -> None:  # type: ignore[no-untyped-def]
    tongue = thickness * 5 / 12 - BOTTOM_ROOM
    piece, (left, middle, right) = round_an_arc(radius, widths, tongue, thickness)
    groove = thickness / 3
    try:
        full = min(fullest_tongue(middle, b, groove) for b in (left, right))
    except DesignError:
        assume(False)
        raise
    for side in (left, right):
        piece.join(tongue_and_groove(middle, into=side, width=groove, tongue=full))
    sound(piece)

    tongues = [c for c in middle.wood.cuts if isinstance(c, Tongue)]
    grooves = [c for b in (left, right) for c in b.wood.cuts if isinstance(c, EdgeGroove)]
    assert {c.edge for c in tongues} == {"near", "far"}
    assert [g.width for g in grooves] == pytest.approx([groove, groove], abs=1e-5)
    for t, g in zip(tongues, grooves, strict=True):
        assert 0 < t.thickness < g.width
        assert g.depth == pytest.approx(t.length + BOTTOM_ROOM)
        # unequal boards stand a hair apart along their joint and lean by as much again, which lengthens the tongue
        apart = max(joint_gap(radius, widths[1], w) for w in (widths[0], widths[2]))
        assert g.depth == pytest.approx(5 / 12 * thickness, abs=min(0.1, 0.02 + 2.0 * apart))


def flat_pair(overlap: float) -> tuple[Piece, Placed, Placed]:
    piece = Piece("panel", Parameters())
    grooved = piece.add("grooved", board(400, 100), place())
    tongued = piece.add("tongued", board(400, 120), place((0.0, 100.0 - overlap, 0.0)))
    return piece, tongued, grooved


def test_boards_in_one_plane_slide_home(sound, comes_apart) -> None:  # type: ignore[no-untyped-def]
    piece, tongued, grooved = flat_pair(6.0)
    piece.join(tongue_and_groove(tongued, into=grooved))
    (tongue,), (groove,) = tongued.wood.cuts, grooved.wood.cuts

    assert (tongue.edge, groove.edge) == ("near", "far")
    assert groove.width == pytest.approx(19 / 3, abs=1e-5)
    assert tongue.thickness == pytest.approx(19 / 3 - PLAY, abs=1e-5)
    assert groove.rise == pytest.approx((19 - groove.width) / 2, abs=1e-5)
    assert piece.joints[0].closes == pytest.approx((0, -1, 0))
    comes_apart(piece, sound(piece))


def test_boards_that_do_not_run_into_each_other_are_refused() -> None:
    _, tongued, grooved = flat_pair(-2.0)
    with pytest.raises(DesignError, match=r"tongued stops 2\.00 mm short of grooved; a tongue must run past its edge"):
        tongue_and_groove(tongued, into=grooved)
    _, tongued, grooved = flat_pair(70.0)
    with pytest.raises(DesignError, match="do not meet edge to edge; check where they stand"):
        tongue_and_groove(tongued, into=grooved)


def test_a_tongue_too_thick_for_its_groove_is_refused_with_the_fullest() -> None:
    _, tongued, grooved = flat_pair(6.0)
    with pytest.raises(DesignError, match=r"a tongue 7\.00 mm thick does not go .* 6\.18 mm is the fullest; widen"):
        tongue_and_groove(tongued, into=grooved, tongue=7.0)


def test_boards_at_too_steep_an_angle_are_refused() -> None:
    _, (left, middle, _) = round_an_arc(60.0, [60.0, 60.0, 60.0], 7.0, 19.0)
    with pytest.raises(DesignError, match=r"at such an angle that no tongue goes .* narrower or the radius larger"):
        fullest_tongue(middle, left, 19 / 3)
