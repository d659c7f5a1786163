"""This shop: what it can't make is found with a way round, what it can is assigned, and stacks are named."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.machines.tasks import board_width, hollow, tasks
from model.checks.machines.ways import WAYS
from model.checks.shop import assignments, shop_can, stacks
from model.cuts.edges import Bead, EdgeGroove, Rabbet
from model.cuts.faces import Bore, dado
from model.cuts.legs import Station, Turned
from model.cuts.mortises import Mortise
from model.cuts.slanted_dado import SlantedDado
from model.cuts.through import Opening, Profile
from model.layout.outline import Outline, circle, rectangle
from model.order import read_order
from model.order_sections import Shop
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece
from model.placement import place
from model.stock import board, panel, sheet
from tests.model.checks.planted import BENCH, BOOKCASE, changed, sound
from tests.model.checks.whole_piece import shuffled

NO_MACHINES = Shop(
    planer_width=0,
    jointer_width=0,
    saw_depth=0,
    crosscut_width=0,
    bandsaw_throat=0,
    bandsaw_depth=0,
    jigsaw_depth=0,
    router_depth=0,
    cnc_depth=0,
    lathe=(0, 0),
    clamps=0,
)

#: No bandsaw, and a CNC for thin wood only.
LOW = Shop(bandsaw_throat=0, cnc_depth=40)
#: For a shelf 19 mm thick in a side that splays 10 degrees.
SLANTED = SlantedDado((100.0, 50.0, 19.0), (0.17364818, 0.0, -0.98480775), (0.98480775, 0.0, 0.17364818), 19.0, 8.0)


def one(stock, *cuts):
    piece = Piece("one", Parameters())
    piece.add("part", stock, place(), *cuts)
    return piece


def faults(answer):
    return [f for f in answer.findings if f.severity == "fault"]


def machine(piece, shop, work):
    return {a.machine for a in assignments(piece, shop) if a.task.work == work}


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_a_small_shop_makes_the_examples(name):
    answer = shop_can(sound(name), read_order(name).shop)
    assert {f.severity for f in answer.findings} <= {"note"}
    assert answer.proofs[0].held == answer.proofs[0].checked > 50


def test_a_side_too_wide_for_the_planer():
    found = faults(shop_can(sound(BOOKCASE), Shop(planer_width=245)))
    assert [set(f.parts) for f in found] == [{"left side", "right side"}]
    assert (found[0].value, found[0].limit) == (250.0, 245.0)
    assert "glue it up in two widths of 125.0 mm" in found[0].message


def test_a_back_that_no_planer_takes_is_glued_up_in_three():
    found = faults(shop_can(one(board(500.0, 620.0)), Shop(planer_width=250)))
    assert "three widths of 206.7 mm" in found[0].message


def test_a_panel_is_planed_board_by_board_and_leveled_by_hand():
    piece = sound(BENCH)
    answer = shop_can(piece, Shop())
    leveled = {n for f in answer.findings if "leveling" in f.message for n in f.parts}
    assert leveled == {p.name for p in piece if p.wood.stock.kind == "panel" and p.wood.stock.width > 330.0}


def test_a_frame_larger_than_any_sheet():
    found = faults(shop_can(one(sheet(2500.0, 600.0, 18.0)), Shop()))
    assert [(f.value, f.limit) for f in found] == [(2500.0, 2440.0)]
    assert "it is 2500.0 mm long, and the largest sheet is 2440 mm; join it from two sheets" in found[0].message


def test_a_post_too_long_for_the_lathe():
    post = one(board(1000.0, 60.0, 60.0), Turned((Station(100.0, 50.0), Station(900.0, 40.0))))
    found = faults(shop_can(post, Shop()))
    assert [(f.value, f.limit) for f in found] == [(1000.0, 900.0)]
    assert "two lengths" in found[0].message
    assert "there is no lathe" in faults(shop_can(post, Shop(lathe=(0, 0))))[0].message


def test_a_stopped_groove_narrower_than_any_bit():
    narrow = one(board(400.0, 100.0), EdgeGroove(edge="near", width=2.0, depth=6.0, rise=8.0, start=50.0, stop=300.0))
    found = faults(shop_can(narrow, Shop()))
    assert [(f.value, f.limit) for f in found] == [(2.0, 3.175)]
    assert "3.175 mm wide" in found[0].message


def test_a_bookcase_part_with_such_a_groove_is_the_only_one_accused():
    piece = sound(BOOKCASE)
    groove = EdgeGroove(edge="near", width=1.5, depth=6.0, rise=8.0, start=50.0, stop=300.0)
    other = changed(piece, "shelf 2", part=piece["shelf 2"].wood.cut(groove))
    assert [f.parts for f in faults(shop_can(other, Shop()))] == [("shelf 2",)]


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_without_machines_all_is_left_to_hands_and_the_mill(name):
    piece = sound(name)
    answer = shop_can(piece, NO_MACHINES)
    assert {f.severity for f in answer.findings} == {"note"}
    assert any("planing to thickness is left to the mill: there is no planer" in f.message for f in answer.findings)
    assert {n for f in answer.findings for n in f.parts} == set(piece.parts)


@pytest.mark.parametrize(
    ("stock", "cut", "shop", "work", "by"),
    [
        (board(400, 100), dado(100, 19, 8, 0, 100), Shop(), "trench", "router"),
        (board(400, 100), dado(100, 19, 60, 0, 100), Shop(), "trench", "table saw"),
        (board(400, 100), dado(100, 19, 8, 0, 100), Shop(router_depth=5), "trench", "table saw"),
        (board(400, 100), dado(100, 19, 8, 20, 100), Shop(router_depth=5), "trench", "CNC"),
        (board(400, 100), dado(100, 19, 8, 20, 100), Shop(router_depth=5, cnc_depth=0), "trench", "saw and chisel"),
        (board(3000, 100), dado(100, 19, 8, 20, 100), Shop(router_depth=5), "trench", "saw and chisel"),
        (board(400, 100), SLANTED, Shop(), "slanted trench", "table saw with the blade tilted"),
        (board(400, 100), SLANTED, Shop(saw_depth=5), "slanted trench", "router on a wedge"),
        (board(400, 100), SLANTED, Shop(saw_depth=5, router_depth=5), "slanted trench", "saw and chisel"),
        (board(400, 100), Rabbet(edge="far", width=9, depth=9), Shop(), "rabbet", "table saw"),
        (board(400, 100), Rabbet(edge="far", width=9, depth=9, start=20, stop=200), Shop(), "rabbet", "router"),
        (board(400, 100), Bead(edge="far", radius=3, quirk=1), Shop(router_depth=0), "molded edge", "molding plane"),
        (board(600, 500), Bore((300, 250, 19), (0, 0, -1), 10, 10), Shop(), "bore", "hand drill"),
        (board(600, 500), Bore((300, 150, 19), (0, 0, -1), 10, 10), Shop(), "bore", "drill press"),
        (board(400, 100), Opening(rectangle(50, 50, 100, 20)), Shop(), "opening", "jigsaw"),
        (board(400, 100, 65), Opening(rectangle(50, 50, 100, 20)), Shop(), "opening", "CNC"),
        (board(400, 100, 80), Opening(rectangle(50, 50, 100, 20)), Shop(), "opening", "keyhole saw"),
        (board(400, 300), Profile(circle((200, 150), 290)), Shop(), "outline", "bandsaw"),
        (board(400, 300), Profile(circle((200, 150), 290)), Shop(bandsaw_throat=200), "outline", "CNC"),
        (board(400, 300, 50), Profile(circle((200, 150), 290)), LOW, "outline", "jigsaw"),
    ],
)
def test_each_cut_goes_to_the_first_that_can(stock, cut, shop, work, by):
    thick = replace(stock, thickness=stock.thickness or (80.0 if getattr(cut, "depth", 0) > 50 else 19.0))
    assert machine(one(thick, cut), shop, work) == {by}


def test_a_mortise_narrower_than_a_bit_is_chopped_and_nobody_told():
    slot = Mortise((100, 0, 9.5), (0, -1, 0), (0, 1, 0), (1, 0, 0), 40.0, 6.0, 30.0)
    piece, shop = one(board(400, 100), slot), Shop(cutter_diameters=(12.7,))
    assert machine(piece, shop, "mortise") == {"mortise chisel"}
    assert shop_can(piece, shop).findings == ()


def test_wide_glue_ups_ask_for_reach_and_for_clamps():
    piece = one(panel(1200.0, 900.0))
    assert machine(piece, Shop(), "glue up") == {"bar clamps"}
    narrow = shop_can(piece, Shop(clamp_reach=600))
    assert any("900.0 mm wide, and 600 mm is the most for the bar clamps" in f.message for f in narrow.findings)
    few = next(f for f in shop_can(piece, Shop(clamps=4)).findings if "clamps" in f.message)
    assert (few.value, few.limit, few.unit) == (6.0, 4.0, "clamps")


def test_settle_sides_are_one_stack():
    found = stacks(sound(BENCH), Shop())
    assert [s.parts for s in found] == [("left side", "right side")]
    assert found[0].thickness == 38.0
    assert stacks(sound(BENCH), Shop(jigsaw_depth=30)) == []


def test_stacks_stay_within_the_saw():
    piece = Piece("many", Parameters())
    for n in range(11):
        piece.add(f"disc {n}", board(200.0, 200.0, 20.0), place((0.0, 0.0, 20.0 * n)), Profile(circle((100, 100), 200)))
    piece.add("square", board(200.0, 200.0, 20.0), place((0.0, 0.0, 300.0)))
    found = stacks(piece, Shop(bandsaw_depth=101, jigsaw_depth=60))
    assert [len(s.parts) for s in found] == [5, 5]
    assert all(s.thickness <= 101 for s in found)
    assert "square" not in {n for s in found for n in s.parts}


def test_hollows_are_seen_from_the_side_of_the_cutter():
    quarter = math.tan(math.pi / 8.0)
    hollowed = Outline(((0, 0), (100, 0), (100, 80), (80, 100), (0, 100)), (0, 0, -quarter, 0, 0))
    rounded = Outline(((0, 0), (100, 0), (100, 80), (80, 100), (0, 100)), (0, 0, quarter, 0, 0))
    assert hollow(hollowed, True) == pytest.approx(20.0)
    assert hollow(hollowed, False) == math.inf
    assert hollow(rounded, True) == math.inf
    assert hollow(rounded, False) == pytest.approx(20.0)


def test_every_kind_of_work_has_a_way_and_every_cut_a_kind():
    kinds = {t.work for name in (BENCH, BOOKCASE) for p in sound(name) for t in tasks(p.wood)}
    assert kinds <= set(WAYS)


def test_every_cut_is_assigned_once():
    piece = sound(BENCH)
    counted = {}
    for a in assignments(piece, Shop()):
        if a.task.cut is not None:
            counted[a.item] = counted.get(a.item, 0) + a.task.times
    cuts = {piece.items()[p.name]: len(p.wood.cuts) for p in piece}
    assert counted == {item: n for item, n in cuts.items() if n}


@pytest.mark.parametrize("seed", range(3))
def test_the_order_of_parts_changes_nothing(seed):
    here, there = (shop_can(p, Shop(planer_width=245)) for p in (sound(BOOKCASE), shuffled(sound(BOOKCASE), seed)))
    assert [f.message.partition(":")[2] for f in faults(here)] == [f.message.partition(":")[2] for f in faults(there)]
    assert {n for f in faults(here) for n in f.parts} == {n for f in faults(there) for n in f.parts}


@given(st.floats(20, 1500), st.floats(50, 600))
def test_the_widths_told_go_through_the_planer(width, planer):
    found = faults(shop_can(one(board(900.0, width)), Shop(planer_width=planer)))
    assert bool(found) == (width > planer + 0.05)
    if found:
        said = float(found[0].message.split("widths of ")[1].split(" mm")[0])
        assert said <= planer + 0.06


@given(st.floats(100, 2000))
def test_a_panels_boards_are_never_wider_than_boards_come(width):
    assert board_width(Part(panel(500.0, width, 19.0, "white oak"))) <= 286.0 + 1e-9


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_larger_shop_never_makes_less(planer, more):
    piece = sound(BOOKCASE)
    small, large = (shop_can(piece, Shop(planer_width=200 + w)) for w in (planer, planer + more))
    assert large.proofs[0].held >= small.proofs[0].held
