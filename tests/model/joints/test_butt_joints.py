"""Parts that meet surface to surface: resting, biscuited, nailed, and a bent band screwed on."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.faces import BISCUITS, BiscuitSlot, Bore, Counterbore
from model.cuts.sawn import SawCut
from model.cuts.through import Opening
from model.errors import DesignError
from model.joints.butt import biscuited, glued, nailed, rests, screwed
from model.layout.outline import rectangle
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board

few = settings(max_examples=5)


@few
@given(st.floats(1, 25), st.floats(900, 4000), st.floats(70, 240))
def test_biscuits_at_toed_sides_face_each_other(toed, sound, mirror_images, toe, radius, depth) -> None:  # type: ignore[no-untyped-def]
    bench = toed(toe, radius, depth)
    rail = bench.member("rail", 200.0)
    joints = biscuited(rail, to=bench.left), biscuited(rail, to=bench.right)
    bench.piece.join(*joints)
    shapes = sound(bench.piece)

    for joint, side in zip(joints, (bench.left, bench.right), strict=True):
        assert len(joint.first_cuts) == len(joint.second_cuts) == len(joint.hardware) >= 1
        for end, face in zip(joint.first_cuts, joint.second_cuts, strict=True):
            assert isinstance(end, BiscuitSlot)
            assert rail.at.point(end.at) == pytest.approx(side.at.point(face.at), abs=1e-4)
            into, out = rail.at.direction(end.into), side.at.direction(face.into)
            assert into == pytest.approx([-c for c in out], abs=1e-9)
            assert rail.at.point(end.at)[2] == pytest.approx(200 + 19 / 2)
            length, width, slot = BISCUITS[end.size]
            assert 2 * slot > width, "the two slots hold the biscuit with room"
            assert end.length > length
    mirror_images(shapes["left side"], shapes["right side"])


def test_the_largest_biscuit_that_goes_in_is_taken(toed) -> None:  # type: ignore[no-untyped-def]
    sizes = {}
    for depth in (64.0, 70.0, 240.0):
        bench = toed(5.0, depth=depth)
        joint = biscuited(bench.member("rail", 100.0), to=bench.left)
        sizes[depth] = joint.first_cuts[0].size, len(joint.first_cuts)

    assert sizes == {64.0: ("0", 1), 70.0: ("10", 1), 240.0: ("20", 2)}


def test_biscuits_are_refused_where_parts_do_not_touch_or_are_too_short(toed) -> None:  # type: ignore[no-untyped-def]
    bench = toed(5.0)
    with pytest.raises(DesignError, match=r"long rail runs into left side by 3\.00 mm; a butt joint needs them"):
        biscuited(bench.member("long rail", 100.0, 3.0), to=bench.left)
    with pytest.raises(DesignError, match=r"short rail stops short of left side by 3\.00 mm"):
        biscuited(bench.member("short rail", 200.0, -3.0), to=bench.left)
    narrow = toed(5.0, depth=40.0)
    with pytest.raises(DesignError, match="rail meets left side over 40 mm only, too little for a biscuit; make"):
        biscuited(narrow.member("rail", 100.0), to=narrow.left)


@few
@given(st.floats(50, 300), st.floats(50, 300), st.floats(0, 40))
def test_a_board_rests_on_another(sound, width, length, over) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("stack", Parameters())
    below = piece.add("below", board(400, 300), place())
    above = piece.add("above", board(length, width), place((over, over, 19.0)))
    piece.join(rests(above, on=below))

    assert piece.joints[0].closes == pytest.approx((0, 0, -1))
    sound(piece)


def test_a_board_does_not_rest_on_a_hole(sound) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("stack", Parameters())
    below = piece.add("below", board(400, 300), place(), Opening(rectangle(200, 200, x=20, y=20)))
    above = piece.add("above", board(300, 250), place((10.0, 10.0, 19.0)))
    piece.join(rests(above, on=below))

    sound(piece)


def test_a_board_off_the_other_is_refused_unless_its_gap_is_allowed() -> None:
    piece = Piece("stack", Parameters())
    below = piece.add("below", board(400, 300), place())
    above = piece.add("above", board(300, 200), place((0.0, 0.0, 19.5)))
    beside = piece.add("beside", board(300, 200), place((500.0, 0.0, 19.0)))

    with pytest.raises(DesignError, match=r"above stands 0\.50 mm off below; they must touch"):
        rests(above, on=below)
    assert rests(above, on=below, gap=0.5).contacts[0].gap == 0.5
    with pytest.raises(DesignError, match="beside and below lie in the same plane but beside each other"):
        rests(beside, on=below)


def test_an_edge_glued_to_a_face_closes_square_to_it(sound) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("plinth", Parameters())
    top = piece.add("top", board(400, 300), place((0.0, 0.0, 80.0)))
    foot = piece.add("foot", board(300, 80), place((50.0, 100.0, 80.0), grain="right", face="front").moved(dz=-80.0))
    piece.join(glued(foot, to=top))

    assert piece.joints[0].glue_area == pytest.approx(300 * 19.0)
    assert glued(foot, to=top, area=1000.0).glue_area == 1000.0
    assert piece.joints[0].closes == pytest.approx((0, 0, 1))
    sound(piece)


def test_a_board_nailed_through_its_thickness_to_a_rim(sound) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("case", Parameters())
    shelf = piece.add("shelf", board(500, 200), place((0.0, 0.0, 300.0)))
    back = piece.add("back", board(600, 120, 12), place((220.0, 212.0, 0.0), grain="up", face="front"))
    piece.join(nailed(back, to=shelf, penny="4d"))
    first, second = piece.hardware

    sound(piece)
    assert first.direction == pytest.approx((0, -1, 0))
    for nail in (first, second):
        assert nail.at[1] == pytest.approx(212.0)
        assert nail.at[2] == pytest.approx(309.5)
        assert nail.parts == ("back", "shelf")
    assert abs(first.at[0] - second.at[0]) == pytest.approx(120 - 2 * 25)
    with pytest.raises(DesignError, match='no finish nail has size "5d"; there are 2d, 3d'):
        nailed(back, to=shelf, penny="5d")


@few
@given(st.floats(2, 15), st.booleans())
def test_a_board_nailed_on_a_side_that_splays_and_is_sawn_level(sound, splay, rested) -> None:  # type: ignore[no-untyped-def]
    s, c = math.sin(math.radians(splay)), math.cos(math.radians(splay))
    piece = Piece("step", Parameters())
    at = place((0.0, 160.0, 0.0), grain=(s, 0.0, c), face=(c, 0.0, -s))
    foot, top = SawCut((0.0, 0.0, 0.0), (-c, 0.0, s)), SawCut((200.0, 0.0, 0.0), (c, 0.0, -s))
    side = piece.add("side", board(220.0, 160.0), at, foot, top)
    under = 200.0 * c
    tread = piece.add("tread", board(300.0, 160.0), place((200.0 * s - 40.0, 0.0, under)))
    piece.join(rests(tread, on=side) if rested else nailed(tread, to=side))
    sound(piece)

    (joint,) = piece.joints
    assert joint.closes == pytest.approx((0.0, 0.0, -1.0), abs=1e-9)
    assert [p[2] for p in joint.contacts[0].points] == pytest.approx([under] * 5, abs=1e-6)
    for nail in joint.hardware:
        half_way = (nail.at[0], nail.at[1], (under + nail.at[2] - nail.length) / 2.0)
        assert side.at.own_point(half_way)[2] == pytest.approx(19.0 / 2.0, abs=1e-6)


def test_a_board_off_a_sawn_side_is_refused() -> None:
    piece = Piece("step", Parameters())
    at = place((0.0, 160.0, 0.0), grain=(0.1, 0.0, 0.995), face=(0.995, 0.0, -0.1))
    out = at.own_direction((0.0, 0.0, 1.0))
    side = piece.add("side", board(220.0, 160.0), at, SawCut((200.0, 0.0, 0.0), out))
    high = at.point((200.0, 0.0, 0.0))[2] + 3.0
    tread = piece.add("tread", board(300.0, 160.0), place((-40.0, 0.0, high)))
    with pytest.raises(DesignError, match=r"tread stands 3\.00 mm off side; they must touch"):
        rests(tread, on=side)


@few
@given(st.floats(4, 20), st.floats(900, 4000), st.floats(6, 14))
def test_a_bent_band_screwed_round_toed_sides(toed, sound, toe, radius, thickness) -> None:  # type: ignore[no-untyped-def]
    bench = toed(toe, radius)
    p, outside = bench.piece, toe + math.degrees(math.asin(19.0 / radius))
    length = 2 * math.radians(outside) * (radius + thickness / 2)
    for side in (bench.left, bench.right):
        # drawn in so that the outer back corner stands on the arc, the inside face on its radial line
        drop = 10.0 + radius - math.sqrt(radius**2 - 19.0**2)
        backward = side.at.y if side.at.y[1] > 0 else tuple(-c for c in side.at.y)
        side.at = side.at.moved(*(-drop * c for c in backward))
    at = place((length / 2, bench.outer - bench.inner, 30.0), grain="left", face="back")
    band = p.add("band", board(length, 120.0, thickness), at).bent(radius)
    for side, x in ((bench.right, 9.5), (bench.left, length - 9.5)):
        p.join(screwed(band, to=side, at=[(x, 30.0), (x, 90.0)], plug_depth=thickness / 2, gap=0.4 * 19.0**2 / radius))

    sound(p)
    screws = [h for h in p.hardware if h.kind == "wood screw"]
    centre = (0.0, -bench.inner)
    for screw in screws:
        arm = (centre[0] - screw.at[0], centre[1] - screw.at[1])
        size = math.hypot(*arm)
        assert screw.direction == pytest.approx((arm[0] / size, arm[1] / size, 0), abs=1e-6)
        assert size == pytest.approx(radius + thickness / 2)
    assert sum(isinstance(c, Counterbore) for c in band.wood.cuts) == 4
    assert all(sum(isinstance(c, Bore) for c in side.wood.cuts) == 2 for side in (bench.left, bench.right))


def test_an_unknown_screw_is_refused(toed) -> None:  # type: ignore[no-untyped-def]
    bench = toed(5.0)
    band = bench.piece.add("band", board(900, 120, 12), place())
    with pytest.raises(DesignError, match=r'no wood screw has gauge "9\.5"; there are 6, 7, 8, 9, 10, 12'):
        screwed(band, to=bench.left, at=[(10, 10)], gauge="9.5")
