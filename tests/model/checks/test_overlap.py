"""Overlap: planted faults are found with their depth, sound pieces are left alone, and no frame or order matters."""

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.overlap import different_pairs, overlap
from model.checks.solids import pairs as module
from model.checks.solids.near_pairs import StoodBox, near_pairs
from model.checks.solids.pairs import forget_pairs
from model.order import read_order
from model.pieces import design
from model.placement import Placement, place
from tests.model.checks.planted import BENCH, BOOKCASE, accused, changed, longer, moved, shapes, sound
from tests.model.checks.whole_piece import carried, shuffled


def told(piece):
    return overlap(piece, shapes(piece))


def plain(answer):
    return [(f.parts, f.message, pytest.approx(f.value, abs=2e-4)) for f in answer.findings]


@pytest.mark.parametrize(("name", "pairs"), [(BENCH, 36 * 35 // 2), (BOOKCASE, 16 * 15 // 2)])
def test_sound_pieces_share_no_wood(name, pairs):
    answer = told(sound(name))
    assert answer.findings == ()
    (proof,) = answer.proofs
    assert (proof.checked, proof.held) == (pairs, pairs)


@pytest.mark.parametrize(
    ("example", "part", "step", "pair", "depth"),
    [
        (BOOKCASE, "shelf 2", (1, 0, 0), ("shelf 2", "right side"), 1.0),
        (BOOKCASE, "shelf 2", (0, 0, 1), ("shelf 2", "left side"), 1.0),
        (BOOKCASE, "plinth", (0, 0, 1), ("bottom", "plinth"), 1.0),
        (BOOKCASE, "back board 1", (0, -1, 0), ("back board 1", "left side"), 1.0),
        (BOOKCASE, "back board 3", (0, -0.5, 0), ("back board 3", "shelf 1"), 0.5),
        (BENCH, "seat", (0, 0, 1), ("seat", "left side"), 1.0),
        (BENCH, "seat rail", (0, 0, 1), ("seat rail", "seat"), 1.0),
        (BENCH, "floor cleat", (0, 0, -1), ("floor cleat", "floor"), 1.0),
        (BENCH, "front board 3", (0, 1, 0), ("front board 3", "floor"), 1.0),
        (BENCH, "top rail", (0, 0, -1), ("top rail", "right side"), 1.0),
    ],
)
def test_a_part_moved_runs_into_its_neighbour(example, part, step, pair, depth):
    answer = told(moved(sound(example), part, *step))
    found = {frozenset(f.parts): f for f in answer.findings}
    assert frozenset(pair) in found
    assert all(part in f.parts for f in answer.findings), "only the moved part may be accused of anything"
    finding = found[frozenset(pair)]
    assert finding.value == pytest.approx(depth, rel=0.05)
    assert finding.severity == "fault"
    assert finding.limit == 0.01
    held = answer.proofs[0]
    assert held.checked - held.held == len(answer.findings)


def test_a_shelf_a_fiftieth_too_long_is_found_and_a_two_hundredth_is_not():
    found = told(longer(sound(BOOKCASE), "shelf 1", 0.02))
    assert [f.parts for f in found.findings] == [("shelf 1", "right side")]
    assert found.findings[0].value == pytest.approx(0.02, abs=1e-4)
    assert "deepen the dado" in found.findings[0].message
    assert told(longer(sound(BOOKCASE), "shelf 1", 0.005)).findings == ()


@pytest.mark.parametrize(("example", "among"), [(BOOKCASE, {"back board 1"}), (BENCH, {"seat"})])
def test_a_right_side_in_the_lefts_place_is_found(example, among):
    piece = sound(example)
    faults = told(changed(piece, "left side", part=piece["right side"].part))
    assert all("left side" in f.parts for f in faults.findings)
    assert among <= accused(faults)


def test_place_and_volume_are_told():
    piece = sound(BOOKCASE)
    (finding,) = told(moved(piece, "shelf 2", 1.0)).findings
    outside = piece["right side"].at.origin[0]
    x, _, z = finding.where
    assert outside - 13.0 < x < outside - 12.0
    assert piece["shelf 2"].at.origin[2] < z < piece["shelf 2"].at.origin[2] + 19.0
    assert "4.3 cm³" in finding.message or "4.4 cm³" in finding.message
    assert "right end of shelf 2" in finding.message


def test_a_given_solid_takes_part():
    piece = sound(BOOKCASE)
    other = shuffled(piece, 0)
    shelf = piece["shelf 1"].at.origin
    block = cq.Workplane().box(50, 50, 50, centered=False)
    other.given("box of matches", block, place((200.0, 100.0, shelf[2] + 18.5)))
    (finding,) = told(other).findings
    assert finding.parts == ("box of matches", "shelf 1")
    assert finding.value == pytest.approx(0.5, abs=1e-4)
    assert "no joint lets them" in finding.message


@pytest.mark.parametrize("seed", [1, 2])
def test_order_of_parts_changes_nothing(seed):
    piece = moved(sound(BOOKCASE), "shelf 2", 0.5, 0.0, 0.5)
    forget_pairs()
    expected = told(piece)
    forget_pairs()
    assert told(shuffled(piece, seed)) == expected


@given(
    st.floats(-180, 180),
    st.tuples(*[st.floats(-3000, 3000)] * 3),
    st.sampled_from([("right", "up"), ("up", "front"), ("left", "back"), ("down", "left")]),
)
@settings(max_examples=6, deadline=None)
def test_moving_the_whole_piece_changes_nothing(turn, step, way):
    piece = moved(sound(BOOKCASE), "shelf 2", 0.5, 0.0, 0.5)
    away = carried(piece, place(step, *way).swung(turn, about=(100.0, 0.0)))
    assert plain(told(away)) == [(f.parts, f.message, f.value) for f in told(piece).findings]


def test_equal_pairs_are_looked_at_once():
    drawn = design("bookcase")
    order = read_order(BOOKCASE)
    order.size.update(width=4000, height=2000, bays=5, shelves=4)
    piece = drawn.make(order.parameters(drawn.parameters))
    near, different = different_pairs(shapes(piece))
    assert different < 0.7 * near


def test_two_processes_find_what_one_does(monkeypatch):
    piece = moved(sound(BOOKCASE), "left side", 1.0)
    forget_pairs()
    alone = told(piece)
    forget_pairs()
    monkeypatch.setattr(module, "WORTH_SHARING", 2)
    assert told(piece) == alone


coordinate = st.floats(-100, 100)


@given(st.lists(st.tuples(coordinate, coordinate, coordinate, st.floats(0, 360)), min_size=2, max_size=12))
@settings(max_examples=25, deadline=None)
def test_near_pairs_leave_out_no_pair_that_overlaps(stands):
    boxes = [StoodBox((0, 0, 0), (60, 30, 10), place((x, y, z)).swung(a, about=(x, y))) for x, y, z, a in stands]
    near = set(near_pairs(boxes, 0.01))
    for i, a in enumerate(boxes):
        for j in range(i + 1, len(boxes)):
            if any(inside(a, boxes[j].at.point(p)) or inside(boxes[j], a.at.point(p)) for p in GRID):
                assert (i, j) in near


GRID = [(x, y, z) for x in range(1, 60, 8) for y in range(1, 30, 7) for z in (1, 9)]


def inside(box, p):
    own = box.at.own_point(p)
    return all(lo + 0.02 < c < hi - 0.02 for lo, c, hi in zip(box.low, own, box.high, strict=True))


def test_boxes_that_only_touch_are_passed_over():
    boxes = [StoodBox((0, 0, 0), (10, 10, 10), Placement((x, 0.0, 0.0))) for x in (0.0, 10.0, 19.995, 29.9)]
    assert near_pairs(boxes, 0.01) == [(2, 3)]


def test_tilted_boxes_are_parted_across_their_slope():
    low = StoodBox((0, 0, 0), (100, 20, 5), place((0, 0, 0)).swung(45.0, about=(0.0, 0.0)))
    beside = StoodBox((0, 0, 0), (100, 20, 5), place((-20, 20, 0)).swung(45.0, about=(-20.0, 20.0)))
    assert near_pairs([low, beside], 0.01) == []
