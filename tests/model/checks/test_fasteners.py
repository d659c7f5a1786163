"""Fasteners: what is planted is found, nothing else is accused, and the examples are clean."""

from __future__ import annotations

import copy
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.fasteners import fasteners, pilots
from model.checks.fastening.clear import _between
from model.checks.fastening.edges import distances
from model.checks.fastening.limits import hold, pilot
from model.cuts.faces import Bore, Channel
from model.cuts.through import Notch, Opening
from model.hardware import FINISH_NAILS, Hardware, finish_nail, nail_through, wood_screw
from model.joints.butt import nailed, rests, screwed
from model.joints.dowelled import dowelled
from model.layout.outline import rectangle
from model.order import read_order
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece
from model.pieces import design
from model.placement import Placement, added, place, scaled
from model.stock import board
from tests.model.checks.planted import BENCH, BOOKCASE, changed, sound
from tests.model.checks.whole_piece import carried, mirrored, shuffled


def graver(answer):
    return [f for f in answer.findings if f.severity != "note"]


def said(answer):
    return [(f.severity, f.value) for f in graver(answer)]


def planted(piece, number, **changes):
    """One item changed, the wood left as it is."""
    other = copy.copy(piece)
    other.hardware = [replace(h, **changes) if n == number else h for n, h in enumerate(piece.hardware)]
    return other


def nth(piece, first, second, kind="finish nail", last=False):
    found = [n for n, h in enumerate(piece.hardware) if h.parts == (first, second) and h.kind == kind]
    return found[-1 if last else 0]


def shifted(piece, number, *by):
    return planted(piece, number, at=added(piece.hardware[number].at, by))


def only(answer, *parts):
    """The one grave finding there is, which accuses no other parts."""
    assert len(graver(answer)) == 1, [f.message for f in graver(answer)]
    found = graver(answer)[0]
    assert set(found.parts) == set(parts)
    return found


@cache
def corner():
    """An upright on a base, nailed from below; a shelf screwed to the upright; a lid that swings on top."""
    piece = Piece("corner", Parameters())
    base = piece.add("base", board(300.0, 120.0, 19.0), place((0.0, 0.0, 0.0)))
    upright = piece.add("upright", board(200.0, 120.0, 19.0), place((119.0, 0.0, 19.0), grain="up", face="left"))
    piece.join(rests(upright, on=base))
    for y in (30.0, 90.0):
        piece.fit(finish_nail("8d", (109.5, y, 0.0), (0.0, 0.0, 1.0), ("base", "upright")))
    block = piece.add("block", board(60.0, 120.0, 30.0), place((119.0, 0.0, 19.0)))
    for y in (40.0, 80.0):
        piece.fit(wood_screw("8", 50.0, (100.0, y, 34.0), (1.0, 0.0, 0.0), ("upright", "block")))
    piece.step("Nail up the base", base, upright)
    piece.step("Screw on the block", block)
    return piece


@pytest.mark.parametrize("piece", [BENCH, BOOKCASE, "corner"])
def test_the_sound_ones_are_clean(piece):
    answer = fasteners(corner() if piece == "corner" else sound(piece))
    assert graver(answer) == []
    assert len(answer.proofs) == 4
    assert all(p.held == p.checked for p in answer.proofs)
    assert answer.proofs[0].checked >= 4


@pytest.mark.parametrize(
    ("length", "out"),
    [(268.0, 18.0), (251.5, 1.5)],
)
def test_a_nail_out_of_the_front_of_a_shelf(length, out):
    piece = sound(BOOKCASE)
    back = next(h for h in piece.hardware if h.parts[1] == "shelf 2")
    found = only(fasteners(planted(piece, piece.hardware.index(back), length=length)), *back.parts)
    assert (found.severity, found.value) == ("fault", pytest.approx(out, abs=0.01))
    assert f"comes {out:.1f} mm out of shelf 2" in found.message


def test_a_nail_out_of_the_floor_cleat():
    piece = sound(BENCH)
    number = nth(piece, "front board 3", "floor cleat")
    found = only(fasteners(planted(piece, number, length=76.2)), "front board 3", "floor cleat")
    assert found.severity == "fault"
    assert "out of floor cleat" in found.message


def test_a_point_with_too_little_over_it():
    piece = corner()
    found = only(fasteners(planted(piece, 2, length=77.0)), "upright", "block")
    assert (found.severity, found.value, found.limit) == ("caution", pytest.approx(2.0), 3.0)


def test_a_short_nail_holds_nothing_and_a_middling_one_too_little():
    piece = sound(BOOKCASE)
    number = nth(piece, "back board 4", "top")
    nail = piece.hardware[number]
    found = only(fasteners(planted(piece, number, length=20.0)), "back board 4", "top")
    assert (found.severity, found.value, found.limit) == ("fault", 8.0, pytest.approx(6 * nail.diameter))
    found = only(fasteners(planted(piece, number, length=30.0)), "back board 4", "top")
    assert (found.severity, found.value, found.limit) == ("caution", 18.0, pytest.approx(14 * nail.diameter))


def test_a_nail_a_little_short_of_its_full_hold_is_as_good():
    piece = sound(BOOKCASE)
    number = nth(piece, "back board 4", "top")
    full = 12.0 + 14 * piece.hardware[number].diameter
    assert graver(fasteners(planted(piece, number, length=full - 0.4))) == []
    found = only(fasteners(planted(piece, number, length=full - 0.6)), "back board 4", "top")
    assert "so use a longer one" in found.message


def test_where_a_longer_hinge_screw_would_come_out_none_is_asked_for():
    order, drawn = read_order("refuge-chest"), design("chest")
    order = replace(order, wood=order.wood.model_copy(update={"thickness": 15.0}))
    found = only(fasteners(drawn.make(order.parameters(drawn.parameters))), "back lid rail")
    assert "one of 12.7 mm would leave 2.3 mm of wood over its point: take more of them" in found.message


def test_a_nail_that_misses_what_it_should_hold():
    piece = sound(BOOKCASE)
    number = nth(piece, "back board 4", "shelf 2")
    found = only(fasteners(shifted(piece, number, 0.0, 0.0, 40.0)), "back board 4", "shelf 2")
    assert found.severity == "fault"
    assert "does not reach shelf 2" in found.message


def test_a_nail_out_of_the_underside_of_a_shelf():
    piece = sound(BOOKCASE)
    number = nth(piece, "back board 4", "shelf 2")
    answer = fasteners(shifted(piece, number, 0.0, 0.0, 9.0))
    assert {f.severity for f in graver(answer)} == {"fault", "caution"}
    assert any("lies open" in f.message for f in graver(answer))
    assert {n for f in graver(answer) for n in f.parts} == {"back board 4", "shelf 2"}


def test_a_nail_into_another():
    piece = sound(BENCH)
    number = nth(piece, "back board 1", "seat")
    side = piece.hardware[nth(piece, "left side", "seat")]
    into = added(side.at, scaled(side.direction, 30.0))
    nail = piece.hardware[number]
    away = [into[k] - nail.at[k] for k in range(3)]
    along = sum(away[k] * nail.direction[k] for k in range(3))
    answer = fasteners(shifted(piece, number, *(away[k] - along * nail.direction[k] for k in range(3))))
    assert any("runs into the finish nail" in f.message and f.severity == "fault" for f in answer.findings)
    assert {n for f in graver(answer) for n in f.parts} <= {"back board 1", "seat", "left side"}


def test_a_nail_through_a_biscuit():
    piece = sound(BOOKCASE)
    biscuit = next(h for h in piece.hardware if h.kind == "biscuit")
    nail = finish_nail("4d", added(biscuit.at, (5.0 * biscuit.direction[0], -13.0, 0.0)), (0.0, 1.0, 0.0), ("plinth",))
    other = copy.copy(piece)
    other.hardware = [*piece.hardware, nail]
    found = [f for f in graver(fasteners(other)) if "runs into" in f.message]
    assert [set(f.parts) for f in found] == [{"plinth", *biscuit.parts}]
    assert found[0].value > 2.0


def test_a_screw_into_a_hole_bored_for_something_else():
    piece = corner()
    upright = piece["upright"].wood.cut(Bore((15.0, 0.0, 9.5), (0.0, 1.0, 0.0), 8.0, 60.0))
    answer = fasteners(changed(piece, "upright", part=upright))
    assert [f.severity for f in graver(answer)].count("fault") >= 1
    assert all("hole" in f.message or "bore" in f.message for f in graver(answer))
    assert {n for f in graver(answer) for n in f.parts} <= {"upright", "block", "base"}


def test_a_nail_that_pins_the_hatch():
    piece = sound(BENCH)
    hatch = piece["hatch"]
    _, near, right, far = hatch.wood.outline.bounds
    edge = hatch.at.point((right, (near + far) / 2.0, 9.5))
    nail = finish_nail("8d", added(edge, (25.0, 0.0, 0.0)), (-1.0, 0.0, 0.0), ("seat",))
    other = copy.copy(piece)
    other.hardware = [*piece.hardware, nail]
    answer = fasteners(other)
    assert any("into hatch and pins what must move" in f.message and f.severity == "fault" for f in answer.findings)
    assert {n for f in graver(answer) for n in f.parts} == {"seat", "hatch"}


@pytest.mark.parametrize(("x", "says"), [(4.0, "end of base"), (296.0, "end of base")])
def test_a_nail_near_an_end(x, says):
    piece = Piece("strip", Parameters())
    base = piece.add("base", board(300.0, 60.0, 19.0), place())
    piece.add("strip", board(300.0, 60.0, 19.0), place((0.0, 0.0, 19.0)))
    piece.step("Nail on the strip", base, piece["strip"])
    piece.fit(finish_nail("3d", (x, 30.0, 38.0), (0.0, 0.0, -1.0), ("strip", "base")))
    answer = fasteners(piece)
    near = [f for f in graver(answer) if "split" in f.message]
    assert [f.value for f in near] == [pytest.approx(4.0)]
    assert near[0].limit == pytest.approx(19.0 * 2.0 / 3.0, abs=1e-3)


def test_a_screw_that_no_driver_reaches():
    piece = corner()
    wall = copy.copy(piece)
    wall.parts = dict(piece.parts)
    wall.steps = list(piece.steps)
    stop = wall.add("stop", board(200.0, 120.0, 19.0), place((60.0, 0.0, 19.0), grain="up", face="left"))
    wall.steps.insert(1, type(piece.steps[0])("Put up the stop", (stop.name,)))
    found = only(fasteners(wall), "upright", "block", "stop")
    assert (found.severity, found.value, found.limit) == ("fault", pytest.approx(40.0), 150.0)
    assert graver(fasteners(wall, driver_room=35.0)) == []


def test_a_part_of_a_later_step_hides_no_head():
    piece = corner()
    wall = copy.copy(piece)
    wall.parts = dict(piece.parts)
    wall.steps = list(piece.steps)
    wall.step("Put up the stop", wall.add("stop", board(200.0, 120.0), place((60.0, 0.0, 19.0), "up", "left")))
    assert graver(fasteners(wall)) == []


def test_a_shallow_plug_may_fall_out():
    piece = sound(BENCH)
    number = next(n for n, h in enumerate(piece.hardware) if h.kind == "plug")
    found = only(fasteners(planted(piece, number, length=4.0)), "band")
    assert (found.severity, found.value, found.limit) == ("caution", 4.0, 6.0)


def dowelled_pair(**more):
    piece = Piece("pair", Parameters())
    post = piece.add("post", board(300.0, 60.0, 40.0), place((-40.0, 0.0, 0.0), grain="up", face="right"))
    rail = piece.add("rail", board(200.0, 50.0, 25.0), place((0.0, 5.0, 100.0), grain="right", face="front"))
    piece.join(dowelled(rail, to=post, **more))
    piece.step("Glue the rail to the post", post, rail)
    return piece


def test_dowels_hold_in_both_parts():
    piece = dowelled_pair()
    assert graver(fasteners(piece)) == []
    slid = piece.hardware[0]
    far = planted(piece, 0, at=added(slid.at, scaled(slid.direction, 15.0)))
    assert {f.severity for f in graver(fasteners(far))} == {"caution"}
    gone = planted(piece, 0, at=added(slid.at, scaled(slid.direction, 2.0 * slid.length)))
    assert any("does not reach" in f.message for f in graver(fasteners(gone)))
    long = planted(piece, 0, length=120.0)
    assert any("comes" in f.message and "out of" in f.message for f in graver(fasteners(long)))


def faulty():
    piece = sound(BOOKCASE)
    return planted(planted(piece, nth(piece, "back board 4", "top"), length=30.0), 3, length=260.0)


@settings(max_examples=8, deadline=None)
@given(st.floats(-180, 180), st.tuples(*[st.floats(-3000, 3000)] * 3))
def test_moving_the_whole_piece_changes_nothing(degrees, to):
    motion = Placement(to).swung(degrees, (100.0, 0.0)) @ place((0.0, 0.0, 0.0), "back", "left")
    here, there = fasteners(faulty()), fasteners(carried(faulty(), motion))
    assert [(f.severity, f.parts) for f in here.findings] == [(f.severity, f.parts) for f in there.findings]
    assert [f.value for f in here.findings] == pytest.approx([f.value for f in there.findings], abs=1e-3)
    assert here.proofs == there.proofs


@pytest.mark.parametrize("seed", range(3))
def test_the_order_of_parts_changes_nothing(seed):
    here, there = fasteners(faulty()), fasteners(shuffled(faulty(), seed))
    assert said(here) == said(there)


def test_the_mirror_image_has_the_mirror_findings():
    piece = corner()
    bad = planted(piece, 0, length=25.0)
    mirror = mirrored(bad)
    assert said(fasteners(bad)) == said(fasteners(mirror)) != []


def test_every_nail_holds_in_the_lightest_wood():
    for tenths in range(60, 360):
        thick = tenths / 10.0
        nail = FINISH_NAILS[nail_through(thick)]
        assert nail.length - thick >= 14.0 * nail.diameter


@pytest.mark.parametrize(
    ("start", "stop", "edge", "end"),
    [
        ((50, 20, 19), (50, 20, 0), 20, 50),
        ((395, 80, 19), (395, 80, 0), 20, 5),
        ((40, 0, 7), (40, 40, 7), 7, 40),
        ((400, 50, 9.5), (360, 50, 9.5), 9.5, float("inf")),
        ((150, 50, 19), (150, 50, 0), 200**0.5, 10),
        ((250, 88, 19), (250, 88, 0), 7, (40**2 + 7**2) ** 0.5),
    ],
)
def test_distances_from_edge_and_end(start, stop, edge, end):
    """In a board 400 by 100 by 19 with an opening from x = 160 to 180 and a notch 5 mm deep from 210 to 300."""
    part = Part(board(400.0, 100.0, 19.0, "eastern white pine")).cut(
        Opening(rectangle(20.0, 20.0, 160.0, 40.0)), Notch(rectangle(90.0, 6.0, 210.0, 95.0))
    )
    found = distances(part, tuple(map(float, start)), tuple(map(float, stop)))
    assert found == pytest.approx((edge, end))


def test_a_bent_part_is_measured_on_the_flat():
    flat = Part(board(600.0, 100.0, 10.0, "eastern white pine"))
    bent = flat.bent(800.0)
    for x, y in ((20.0, 30.0), (450.0, 90.0)):
        ends = [bent.station((x, y, z)) for z in (10.0, 0.0)]
        assert distances(bent, *ends) == pytest.approx(distances(flat, (x, y, 10.0), (x, y, 0.0)), abs=1e-6)


points = st.tuples(*[st.floats(-50, 50)] * 3)


@given(points, points, points, points)
def test_rods_are_as_far_apart_as_their_nearest_points(p, q, r, s):
    if min(sum((a - b) ** 2 for a, b in zip(*pair, strict=True)) for pair in ((p, q), (r, s))) < 1.0:
        return
    shares = [n / 60.0 for n in range(61)]

    def on(a, b):
        return [tuple(x + t * (y - x) for x, y in zip(a, b, strict=True)) for t in shares]

    sampled = min(sum((a - b) ** 2 for a, b in zip(u, v, strict=True)) ** 0.5 for u in on(p, q) for v in on(r, s))
    assert sampled - 3.0 <= _between(p, q, r, s) <= sampled + 1e-9


def test_pilots_follow_the_wood():
    screw = Hardware("wood screw", "No. 8", (0, 0, 0), (1, 0, 0), ("a",), 38.0, 4.17)
    soft, hard = pilot(screw, "eastern white pine").pilot, pilot(screw, "white oak").pilot
    assert (soft, hard) == (pytest.approx(0.7 * 4.17 * 2 / 3, abs=0.01), pytest.approx(0.9 * 4.17 * 2 / 3, abs=0.01))
    assert {p.label.split(",")[0] for p in pilots(sound(BENCH))} == {
        "finish nail",
        "wood screw",
        "hinge screw",
    }


def test_dense_wood_needs_less_depth():
    nail = finish_nail("6d", (0, 0, 0), (1, 0, 0), ("a", "b"))
    pine, oak = hold(nail, "eastern white pine").full, hold(nail, "white oak").full
    assert pine == pytest.approx(14.0 * nail.diameter)
    assert 10.0 * nail.diameter <= oak < pine


def test_joints_that_drive_nails_and_screws_are_sound():
    piece = Piece("bench", Parameters())
    rail = piece.add("rail", board(400.0, 80.0, 19.0), place((0.0, 0.0, 0.0)))
    batten = piece.add("batten", board(80.0, 60.0, 19.0), place((160.0, 0.0, 19.0), grain="back"))
    piece.join(screwed(batten, to=rail, at=[(25.0, 30.0), (55.0, 30.0)], length=28.0))
    piece.step("Screw down the batten", rail, batten)
    assert [f for f in graver(fasteners(piece)) if f.severity == "fault"] == []


def test_a_nail_across_a_groove_that_nobody_fills():
    piece = corner()
    grooved = piece["block"].wood.cut(Channel((20.0, 0.0), (20.0, 120.0), 10.0, 20.0))
    answer = fasteners(changed(piece, "block", part=grooved))
    assert any("hollow in block" in f.message and f.severity == "fault" for f in answer.findings)
    assert {n for f in graver(answer) for n in f.parts} == {"upright", "block"}


def test_nailed_boards_are_told_once():
    piece = Piece("row", Parameters())
    rail = piece.add("rail", board(900.0, 60.0, 40.0), place((0.0, 0.0, 0.0), grain="right", face="front"))
    for n in range(6):
        at = place((n * 150.0 + 140.0, -40.0, 0.0), grain="up", face="front")
        slat = piece.add(f"slat {n}", board(60.0, 140.0, 19.0), at)
        piece.join(nailed(slat, to=rail, penny="3d"))
    piece.step("Nail on the slats", *piece)
    thin = [f for f in graver(fasteners(piece)) if "full hold" in f.message]
    assert len(thin) == 1
    assert "11 more like it" in thin[0].message
