"""Dadoes and rabbets: no overlap, real contact, a way home, true mirror images, and refusals that say what to do."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.edges import Rabbet
from model.cuts.faces import Channel
from model.cuts.slanted_dado import SlantedDado
from model.cuts.through import Notch
from model.errors import CutError, DesignError
from model.joints.housed import dado, rabbet
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board

few = settings(max_examples=5)


@few
@given(st.floats(1, 25), st.floats(3, 16), st.floats(900, 4000))
def test_dado_in_toed_sides(toed, sound, comes_apart, mirror_images, toe, depth, radius) -> None:  # type: ignore[no-untyped-def]
    bench = toed(toe, radius)
    seat = bench.member("seat", 200.0, depth)
    bench.piece.join(dado(seat, into=bench.left), dado(seat, into=bench.right))
    shapes = sound(bench.piece)

    assert [c.depth for c in bench.left.wood.cuts] == pytest.approx([depth], abs=1e-5)
    comes_apart(bench.piece, shapes, 0)
    comes_apart(bench.piece, shapes, 1)
    mirror_images(shapes["left side"], shapes["right side"])
    assert bench.left.part.mirrored().outline == bench.right.part.outline


@few
@given(st.floats(3, 15), st.floats(60, 220), st.floats(12, 40))
def test_dado_square_across_the_grain(shelf_on_side, sound, comes_apart, depth, width, thickness) -> None:  # type: ignore[no-untyped-def]
    depth = min(depth, thickness - 2)
    piece, side, shelf = shelf_on_side(depth, width, thickness)
    piece.join(dado(shelf, into=side, nails="6d"))
    (cut,) = side.wood.cuts

    assert isinstance(cut, Channel)
    assert cut.name == "dado"
    assert (cut.width, cut.length) == pytest.approx((thickness, min(width, 210.0)), abs=1e-5)
    assert cut.depth == pytest.approx(depth, abs=1e-5)
    comes_apart(piece, sound(piece))
    for nail in piece.hardware:
        assert nail.at[2] == pytest.approx(300 + thickness / 2)
        assert nail.at[0] == pytest.approx(-thickness)
        assert nail.direction == pytest.approx((1, 0, 0))


@few
@given(st.floats(4, 12), st.floats(5, 60))
def test_stopped_dado_with_its_notched_shelf(shelf_on_side, sound, comes_apart, depth, stop) -> None:  # type: ignore[no-untyped-def]
    piece, side, shelf = shelf_on_side(depth)
    piece.join(dado(shelf, into=side, stopped=stop))
    shapes = sound(piece)

    assert [type(c) for c in shelf.wood.cuts] == [Notch]
    assert side.wood.cuts[0].length == pytest.approx(200 - stop)
    assert 400 * 200 * 19 - shapes["shelf"].Volume() == pytest.approx(stop * depth * 19, rel=1e-6)
    comes_apart(piece, shapes)


def test_a_dado_along_the_grain_is_a_groove(sound, comes_apart) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("drawer", Parameters())
    side = piece.add("side", board(500, 120, 15), place((-15.0, 0.0, 120.0), grain="front", face="right"))
    bottom = piece.add("bottom", board(300, 400, 6), place((-6.0, -450.0, 40.0)))
    piece.join(dado(bottom, into=side))

    assert side.wood.cuts[0].name == "groove"
    comes_apart(piece, sound(piece))


def test_fit_widens_the_dado(shelf_on_side, sound) -> None:  # type: ignore[no-untyped-def]
    piece, side, shelf = shelf_on_side(6.0)
    piece.join(dado(shelf, into=side, fit=0.2))

    assert side.wood.cuts[0].width == pytest.approx(19.2)
    sound(piece)


@pytest.mark.parametrize("face", ["front", "back"])
@few
@given(st.floats(4, 14), st.floats(6, 19))
def test_rabbet_for_a_back(sound, comes_apart, face, lap, thickness) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("case", Parameters())
    side = piece.add("side", board(800, 250), place((-19.0, 250.0, 0.0), grain="up", face="right"))
    x = -lap if face == "back" else 300.0 - lap
    back = piece.add("back", board(700, 300, thickness), place((x, 250.0, 50.0), grain="up", face=face))
    if face == "back":
        back.at = back.at.moved(dx=300.0, dy=-thickness) if back.at.y[0] < 0 else back.at.moved(dy=-thickness)
    piece.join(rabbet(back, into=side, nails="3d"))
    (cut,) = side.wood.cuts

    assert isinstance(cut, Rabbet)
    assert cut.edge == "near"
    assert sorted((cut.width, cut.depth)) == pytest.approx(sorted((lap, thickness)), abs=1e-4)
    assert not cut.full
    sound(piece)


def test_a_shelf_that_stops_short_is_refused(shelf_on_side) -> None:  # type: ignore[no-untyped-def]
    _, side, shelf = shelf_on_side(-2.0)
    with pytest.raises(DesignError, match=r"shelf stops 2\.00 mm short of side; a dado needs it to run in"):
        dado(shelf, into=side)


def test_a_dado_right_through_is_refused_with_common_practice(shelf_on_side) -> None:  # type: ignore[no-untyped-def]
    _, side, shelf = shelf_on_side(19.0)
    with pytest.raises(CutError, match=r"shelf runs 19 mm into side, which is 19 mm thick; a dado 9\.5 mm deep, half"):
        dado(shelf, into=side)


def test_a_shelf_that_leans_is_let_in_at_its_slant(shelf_on_side, sound) -> None:  # type: ignore[no-untyped-def]
    piece, side, level = shelf_on_side(6.0)
    at = place((-6.0, 10.0, 100.0), grain=(1.0, 0.0, 0.1), face=(-0.1, 0.0, 1.0))
    leaning = piece.add("leaning shelf", board(400, 150), at)
    joint = dado(leaning, into=side)
    piece.join(joint, dado(level, into=side))
    cut, _ = side.wood.cuts

    assert (joint.kind, type(cut)) == ("slanted dado", SlantedDado)
    assert joint.closes == pytest.approx(tuple(-c for c in at.x))
    sound(piece)


def test_a_dado_that_would_stop_past_its_end_is_refused(shelf_on_side) -> None:  # type: ignore[no-untyped-def]
    _, side, shelf = shelf_on_side(6.0)
    with pytest.raises(DesignError, match=r"a dado 200\.0 mm long can't stop 250 mm short"):
        dado(shelf, into=side, stopped=250.0)


def test_a_panel_away_from_every_edge_takes_no_rabbet(shelf_on_side) -> None:  # type: ignore[no-untyped-def]
    piece, side, _ = shelf_on_side(6.0)
    panel = piece.add("panel", board(300, 100, 9), place((5.0, 100.0, 100.0), grain="up", face="front"))
    with pytest.raises(DesignError, match="panel does not run into an edge of side; a rabbet needs it to overlap"):
        rabbet(panel, into=side)


def test_a_shelf_above_the_side_is_refused(shelf_on_side) -> None:  # type: ignore[no-untyped-def]
    piece, side, _ = shelf_on_side(6.0)
    high = piece.add("high shelf", board(400, 150), place((-6.0, 10.0, 700.0)))
    with pytest.raises(DesignError, match="high shelf passes side where it has no wood; move one of them"):
        dado(high, into=side)


def test_a_dado_with_room_is_deeper_than_the_shelf_runs_in_and_dry() -> None:
    piece = Piece("case", Parameters())
    side = piece.add("side", board(600.0, 300.0), place((0.0, 300.0, 0.0), grain="up", face="right"))
    shelf = piece.add("shelf", board(400.0, 300.0), place((13.0, 0.0, 200.0)))
    tight, loose = dado(shelf, into=side), dado(shelf, into=side, room=2.0)

    assert loose.second_cuts[0].depth == tight.second_cuts[0].depth + 2.0  # type: ignore[attr-defined]
    assert (tight.contacts[0].gap, loose.contacts[0].gap) == (0.0, 2.0)
    assert tight.glue_area > 0.0 == loose.glue_area
