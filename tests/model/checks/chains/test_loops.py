"""Loops of parts: how many there are, what they add up to, and that going round a drawn one leads home."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.chains.chain import CLOSED, HIDDEN, Window, gains, loses
from model.checks.chains.loops import LOOP, ROW, loop_chains, summed, ties
from model.checks.chains.made_sizes import Maker
from model.checks.chains.plays import PLAY, play_chains
from model.checks.chains.rows import row_chains
from model.cuts.edges import Tongue
from model.order_sections import Accuracy, Shop
from tests.model.checks.cases import case, case_with_drawer, frame, mitered
from tests.model.checks.planted import EXAMPLES, sound

few = settings(max_examples=12, deadline=None)


def loops(piece, shop=None):
    maker = Maker(piece, shop or Shop())
    return list(loop_chains(ties(piece, maker), maker))


def plays(piece):
    maker = Maker(piece, Shop())
    return list(play_chains(piece, ties(piece, maker), maker))


def drawn(chain):
    """What a chain's sizes add up to as they are drawn, mm."""
    return sum(link.times * link.size.drawn for link in chain.links)


def own(off, again=0.3):
    return again * off / 2.0


@pytest.mark.parametrize("name", EXAMPLES)
def test_going_round_a_drawn_loop_leads_home(name):
    found = loops(sound(name))
    assert found
    assert [drawn(c) for c in found] == pytest.approx([0.0] * len(found), abs=1e-3)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_drawn_sizes_of_an_opening_and_of_what_moves_differ_by_its_play(name):
    for c in plays(sound(name)):
        assert drawn(c) == pytest.approx(c.room, abs=1e-3)


@few
@given(st.integers(2, 9), st.floats(300, 1200), st.floats(900, 2400), st.floats(150, 400))
def test_shelves_between_two_sides_close_a_loop_each_after_the_first(shelves, width, height, depth):
    piece = case(shelves, width, height, depth)
    found = loops(piece)
    assert len(found) == 2 * (shelves - 1), "in width and in height"
    assert [drawn(c) for c in found] == pytest.approx([0.0] * len(found), abs=1e-3)
    assert all(set(c.parts) >= {"left side", "right side"} for c in found)


def test_a_loop_of_equal_shelves_by_hand():
    """Cut at one stop and one depth, lengths and dados differ by their scatter only."""
    a = Shop().accuracy
    widths = [c for c in loops(case(3)) if any("length of shelf" in link.size.name for link in c.links)]
    assert len(widths) == 2
    for c in widths:
        assert c.spread == pytest.approx(math.hypot(*(own(a.sawn),) * 2, *(own(a.routed),) * 4))
        assert not any(abs(s) > 1e-12 for s in c.shared.values())
        assert c.window == HIDDEN, "the bottom of a dado shows no gap"


def test_without_one_setting_for_all_the_loop_takes_the_whole_errors():
    shop = Shop(accuracy=Accuracy(again_pct=100))
    one = next(c for c in loops(case(2), shop) if any("length of shelf" in link.size.name for link in c.links))
    assert one.spread == pytest.approx(math.hypot(0.25, 0.25, *(0.1,) * 4))


def test_a_tenoned_frame_closes_one_loop_each_way():
    found = loops(frame())
    assert len(found) == 3
    assert [drawn(c) for c in found] == pytest.approx([0.0] * 3, abs=1e-6)
    across = next(c for c in found if any("length of bottom rail" in link.size.name for link in c.links))
    assert across.window == CLOSED, "shoulders show"
    assert {c.window for c in found if c is not across} == {HIDDEN}


def test_a_mitered_frame_closes_by_its_opposite_members():
    found = loops(mitered())
    assert sorted(sorted(link.size.name for link in c.links) for c in found) == [
        ["length of bottom", "length of top"],
        ["length of left", "length of right"],
    ]
    for c in found:
        assert sorted(link.times for link in c.links) == [-1.0, 1.0]
        assert c.window == CLOSED


@pytest.mark.parametrize("name", EXAMPLES)
def test_as_many_loops_as_seats_more_than_a_tree_needs(name):
    piece = sound(name)
    for along in ties(piece, Maker(piece, Shop())):
        knots = set(along.from_part)
        trees = []
        while knots:
            reached, waiting = set(), [min(knots)]
            while waiting:
                reached.add(part := waiting.pop())
                waiting += [g.to for g in along.from_part[part] if g.to not in reached]
            trees.append(reached)
            knots -= reached
        spare = len(along.seats) - sum(len(tree) - 1 for tree in trees)
        found = list(along.loops())
        assert len(found) == spare
        for loop in found:
            assert [g.back.to for g in loop[1:]] == [g.to for g in loop[:-1]], "each goes on where the last came to"
            assert loop[-1].to == loop[0].back.to


def test_a_row_of_boards_may_be_too_narrow_by_its_tongues_but_not_too_wide():
    row = next(c for c in loops(sound("refuge-bookcase")) if c.kind == ROW)
    widths = {link.times for link in row.links if link.size.name.startswith("width of back board")}
    assert widths == {1.0}
    assert row.window.most == HIDDEN.most
    assert row.window.least < -5.0
    assert row.marked == "back board 8"


@few
@given(st.floats(0.0, 1.5), st.floats(0.0, 3.0), st.floats(300, 900))
def test_a_drawers_play_is_what_it_is_drawn_with(side, top, width):
    found = {("left side" in c.parts): c for c in plays(case_with_drawer(side, top, width=width))}
    across, upright = found[True], found[False]
    assert across.room == pytest.approx(2.0 * side, abs=1e-5)
    assert upright.room == pytest.approx(top, abs=1e-5)
    assert drawn(across) == pytest.approx(across.room, abs=1e-3)
    assert across.window == upright.window == Window(PLAY)
    assert {"drawer front", "shelf 1"} <= {n for c in found.values() for n in c.parts}


def test_a_wider_drawer_has_less_play_and_a_longer_shelf_gives_more():
    across = next(c for c in plays(case_with_drawer(0.8)) if "left side" in c.parts)
    times = {link.size.name: link.times for link in across.links}
    assert times["length of drawer front"] == -1.0
    assert max(t for name, t in times.items() if name.startswith("length of shelf")) == 1.0


def round_an_arc(piece):
    maker = Maker(piece, Shop())
    return list(row_chains(piece, maker, loops(piece)))


def test_boards_round_an_arc_add_up_to_their_faces():
    """Fifteen boards, ripped each at its own setting: their tongues lie in the next ones' grooves."""
    piece = sound("refuge-bench")
    (row,) = round_an_arc(piece)
    boards = [n for n in piece.parts if n.startswith("back board")]
    assert set(row.parts) == set(boards)
    assert row.marked == "back board 15"
    tongues = [c for n in boards for c in piece[n].wood.cuts if isinstance(c, Tongue)]
    faces = sum(piece[n].wood.stock.width for n in boards) - sum(t.length for t in tongues)
    assert drawn(row) == pytest.approx(faces)
    assert row.spread > math.sqrt(15) * own(Shop().accuracy.sawn)
    assert row.window.most == HIDDEN.most
    assert row.window.least < HIDDEN.least


@pytest.mark.parametrize("name", ["refuge-bookcase", "refuge-table", "refuge-cupboard"])
def test_rows_on_a_line_are_loops_and_not_asked_again(name):
    assert round_an_arc(sound(name)) == []


def test_what_cancels_is_left_out():
    size = Maker(case(2), Shop()).length("shelf 1")
    assert summed((*gains(size), *loses(size))) == ()
    assert [link.times for link in summed((*gains(size), *gains(size)))] == [2.0]


def test_the_part_brought_last_is_marked():
    widths = [c for c in loops(case(3)) if any("length of shelf" in link.size.name for link in c.links)]
    assert {c.marked for c in widths} == {"shelf 2", "shelf 3"}
    assert {c.kind for c in widths} == {LOOP}
