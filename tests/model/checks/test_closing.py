"""The order of steps: sound pieces go together, parts brought in too late are trapped, and nothing else is accused."""

from __future__ import annotations

import copy

import cadquery as cq
import pytest

from model.checks.closing import closing
from model.checks.glue_up import glue_up
from model.checks.overlap import overlap
from model.checks.travel.closing_order import Build
from model.checks.travel.taking_apart import TakingApart, Way
from model.checks.travel.ways import Ways, forget_ways
from model.order import read_order
from model.parameters import Parameters
from model.piece import Piece, Step
from model.pieces import design
from model.placement import place
from model.solids import standing
from tests.model.checks.planted import BENCH, BOOKCASE, EXAMPLES, later, moved, sound
from tests.model.checks.test_moving import with_block
from tests.model.checks.whole_piece import carried, renamed_in_steps, shuffled


def told(piece):
    return closing(Build(piece, Ways(standing(piece))))


def graver(finding):
    return finding.severity != "note"


def plain(answer):
    return sorted((f.severity, f.parts, f.value) for f in answer.findings)


def two_bays():
    drawn, order = design("bookcase"), read_order(BOOKCASE)
    order.size.update(width=1400, bays=2, shelves=2)
    return drawn.make(order.parameters(drawn.parameters))


@pytest.mark.parametrize(("name", "ways"), [(BENCH, 35), (BOOKCASE, 15)])
def test_the_examples_go_together_as_their_steps_say(name, ways):
    answer = told(sound(name))
    assert {f.severity for f in answer.findings} <= {"note"}
    assert [(p.checked, p.held) for p in answer.proofs] == [(ways, ways)]
    (note,) = answer.findings
    assert note.parts[0] == "right side"
    assert note.value == 6.0


@pytest.mark.parametrize(
    ("piece", "part", "after", "blockers"),
    [
        (lambda: sound(BOOKCASE), "shelf 2", 3, {"right side", "left side"}),
        (lambda: sound(BOOKCASE), "plinth", 2, {"left side", "right side"}),
        (lambda: sound(BENCH), "seat", 6, {"right side", "left side", "back board 15"}),
        (lambda: sound(BENCH), "seat rail", 4, {"right side", "left side"}),
        (lambda: sound(BENCH), "hatch", 2, {"seat"}),
        (two_bays, "shelf 1 of bay 1", 4, {"upright 1", "left side"}),
        (two_bays, "top of bay 2", 4, {"upright 1", "right side"}),
    ],
)
def test_a_part_brought_in_too_late_is_trapped_and_nothing_else_is_accused(piece, part, after, blockers):
    answer = told(later(piece(), part, after))
    faults = [f for f in answer.findings if f.severity == "fault"]
    assert len(faults) == 1
    assert part in faults[0].parts
    assert blockers & set(faults[0].parts)
    assert not [f for f in answer.findings if f.severity == "caution"]
    assert answer.proofs[0].checked - answer.proofs[0].held == 1


def test_what_traps_it_and_what_would_work_are_told():
    (fault,) = (f for f in told(later(sound(BOOKCASE), "shelf 2", 3)).findings if f.severity == "fault")
    assert fault.message.startswith("shelf 2 can't go home in step 4")
    assert "which stands since step" in fault.message
    assert "right after step 1," in fault.message
    assert fault.where is not None


def test_a_shelf_that_can_only_be_slid_in_from_behind_wipes_its_glue_off():
    (caution,) = (f for f in told(later(sound(BOOKCASE), "shelf 2", 2)).findings if f.severity != "note")
    assert caution.severity == "caution"
    assert caution.parts in {("shelf 2", "left side"), ("shelf 2", "right side")}
    assert "to the front" in caution.message
    assert caution.value == pytest.approx(sound(BOOKCASE)["shelf 2"].wood.stock.width)


def test_an_upright_slid_in_from_the_front_along_all_its_dadoes_is_told_of():
    (caution,) = (f for f in told(later(two_bays(), "upright 1", 4)).findings if f.severity != "note")
    assert caution.severity == "caution"
    assert "upright 1 can only slide home to the back" in caution.message


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_order_in_which_a_step_names_its_parts_changes_nothing(name):
    drawn, otherwise = (Build(p, Ways(standing(p))) for p in (sound(name), renamed_in_steps(sound(name), 5)))
    for asked in (closing, glue_up):
        one, other = asked(drawn), asked(otherwise)
        assert [(f.severity, f.message) for f in one.findings] == [(f.severity, f.message) for f in other.findings]
        assert one.proofs == other.proofs


@pytest.mark.parametrize(
    ("name", "whole", "along"),
    [
        ("refuge-cupboard", "drawer front", (0.0, 1.0, 0.0)),
        ("refuge-cupboard", "door panel", (0.0, 1.0, 0.0)),
        ("refuge-chest", "lid muntin", (0.0, 0.0, -1.0)),
    ],
)
def test_what_is_made_by_itself_goes_home_whole(name, whole, along):
    moves = Build(sound(name), Ways(standing(sound(name)))).played.moves
    (move,) = (m for m in moves if whole in m.parts and len(m.parts) > 4)
    assert move.along == pytest.approx(along)


def test_a_drawer_that_a_post_stands_before_is_trapped_as_a_whole():
    piece = with_block(sound("refuge-cupboard"), (190.0, -40.0, 0.0), (40.0, 20.0, 300.0))
    piece.steps = [*piece.steps[:3], Step("Set a post before it", ("block",)), *piece.steps[3:]]
    (fault,) = (f for f in told(piece).findings if "drawer front" in f.parts)
    assert (fault.severity, len(fault.parts), fault.parts[-1]) == ("fault", 6, "block")
    assert "on its way to the back it runs into block, which stands since step 4" in fault.message
    assert "so bring it in there" in fault.message


@pytest.mark.parametrize(
    ("name", "part", "by"),
    [
        (BOOKCASE, "right side", (-0.5, 0.0, 0.0)),
        (BOOKCASE, "top", (0.0, 7.0, 0.0)),
        (BOOKCASE, "left side", (20.0, 0.0, 0.0)),
        (BENCH, "floor", (-1.0, 0.0, 0.0)),
        ("refuge-table", "left foot", (0.0, 0.5, 0.0)),
        ("refuge-cupboard", "top door rail", (0.0, 0.0, 3.0)),
    ],
)
def test_parts_that_overlap_at_home_are_left_to_overlap(name, part, by):
    piece = moved(sound(name), part, *by)
    answer = told(piece)
    assert [f for f in answer.findings if f.severity != "note"] == []
    assert answer.proofs[0].held < answer.proofs[0].checked
    assert any(part in f.parts for f in overlap(piece, standing(piece)).findings)


def test_an_overlap_hides_no_trap_elsewhere():
    (fault,) = (
        f for f in told(moved(later(sound(BOOKCASE), "shelf 2", 3), "top", 0.0, 7.0, 0.0)).findings if graver(f)
    )
    assert "shelf 2" in fault.parts


def test_parts_that_no_step_brings_in_are_told():
    piece = copy.copy(sound(BOOKCASE))
    piece.steps = piece.steps[:2]
    (caution,) = (f for f in told(piece).findings if f.severity != "note")
    assert caution.severity == "caution"
    assert set(caution.parts) == {f"back board {n}" for n in range(1, 9)}
    piece.steps = []
    assert "no steps" in told(piece).findings[0].message


@pytest.mark.parametrize("part", ["shelf 2", "top"])
def test_neither_the_frame_nor_the_order_of_parts_changes_anything(part):
    piece = later(sound(BOOKCASE), part, 3)
    expected = plain(told(piece))
    forget_ways()
    assert plain(told(shuffled(piece, 3))) == expected
    away = carried(piece, place((300.0, -70.0, 41.0), "up", "front").swung(33.0, about=(10.0, 20.0)))
    assert plain(told(away)) == expected


def given(*blocks):
    piece = Piece("blocks", Parameters())
    for name, (x, y, z, dx, dy, dz) in blocks:
        piece.given(name, cq.Workplane().box(dx, dy, dz, centered=False), place((x, y, z)))
    return piece


def test_given_solids_find_a_way_out_of_a_tray_and_none_out_of_a_box():
    walls = [
        ("floor", (0, 0, 0, 100, 100, 10)),
        ("left", (0, 0, 10, 10, 100, 50)),
        ("right", (90, 0, 10, 10, 100, 50)),
        ("front", (10, 0, 10, 80, 10, 50)),
        ("rear", (10, 90, 10, 80, 10, 50)),
    ]
    lid, brick = ("lid", (0, 0, 60, 100, 100, 10)), ("brick", (30, 30, 10, 20, 20, 20))
    for boxes, trapped in (([*walls, brick], False), ([*walls, lid, brick], True)):
        piece = given(*boxes)
        for name, _ in boxes:
            piece.step(f"Set {name}", piece[name])
        faults = [f for f in told(piece).findings if f.severity == "fault"]
        assert [f.parts[0] for f in faults] == (["brick"] if trapped else [])


def test_two_hooked_parts_go_home_as_one():
    """Neither of two hooked pieces leaves the box alone: the one is under the lip, the other held by the first."""
    holds = {"a": {"x": ["b"], "y": ["wall"]}, "b": {"x": ["a"], "y": ["wall"]}, "wall": {"x": [], "y": ["a"]}}
    names = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0)}
    of = {v: k for k, v in names.items()}

    def blocker(body, others, way):
        return next((o for o in others for n in body for h in holds[n][of[way.along]] if h in o), None)

    bodies = [("wall",), ("a",), ("b",)]
    found = TakingApart(lambda body, others: [Way(v, True) for v in names.values()], blocker).take(bodies)
    assert set(found.moves[0].bodies) == {("a",), ("b",)}
    assert len(found.moves) == 2
    assert found.locked == []
