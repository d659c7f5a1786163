"""Accuracy: builds against the closed form of a linear chain, planted fits the shop can't hold, and nothing else."""

import copy
import math
from dataclasses import replace

import pytest

from model.checks.accuracy import BUILDS, EASE, ENOUGH, Chain, Link, accuracy, all_chains
from model.cuts.edges import EdgeGroove
from model.order_sections import Accuracy
from model.placement import Placement
from tests.model.checks.planted import BENCH, BOOKCASE, carried, shuffled, sound

EXAMPLES = [BENCH, BOOKCASE, "refuge-chest", "refuge-cupboard", "refuge-stool", "refuge-table"]


@pytest.mark.parametrize("offs", [(0.2,), (0.2, 0.5), (0.1, 0.2, 0.3, 0.4)])
@pytest.mark.parametrize("room", [0.0, 0.15, 0.4])
def test_builds_follow_the_closed_form_of_a_linear_chain(offs, room):
    links = tuple(Link(f"size {n} of {len(offs)}", off, -1.0) for n, off in enumerate(offs))
    chain = Chain("chain", ("a", "b"), room, links, "")
    spread = math.sqrt(sum((off / 2.0) ** 2 for off in offs))
    assert chain.spread == pytest.approx(spread)
    assert chain.rooms.std() == pytest.approx(spread, rel=0.03)
    share = 0.5 * math.erfc(-(room + EASE) / spread / math.sqrt(2.0))
    assert chain.together.mean() == pytest.approx(share, abs=4.0 * math.sqrt(share * (1.0 - share) / BUILDS) + 1e-3)


def test_a_size_shared_with_itself_cancels():
    chain = Chain("chain", ("a", "b"), 0.3, (Link("one", 0.5), Link("one", 0.5, -1.0)), "")
    assert chain.rooms.std() == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_have_no_cautions(name):
    answer = accuracy(sound(name))
    assert {f.severity for f in answer.findings} <= {"note"}
    assert all(p.checked == p.held for p in answer.proofs)


def planted(name, first, second, **sizes):
    """The example with one groove cut otherwise than its tongue or its board asks."""
    piece = copy.copy(sound(name))
    piece.joints = [
        replace(j, second_cuts=tuple(replace(c, **sizes) for c in j.second_cuts))
        if (j.first, j.second) == (first, second)
        else j
        for j in piece.joints
    ]
    return piece


@pytest.mark.parametrize(
    ("name", "first", "second", "sizes"),
    [
        (BOOKCASE, "shelf 1", "left side", {"width": 18.6}),
        (BOOKCASE, "top", "right side", {"width": 18.0}),
        (BOOKCASE, "back board 2", "back board 3", {"width": 2.0}),
        (BOOKCASE, "back board 4", "back board 5", {"depth": 3.0}),
        (BENCH, "seat", "left side", {"width": 18.5}),
        (BENCH, "back board 2", "back board 1", {"depth": 2.0}),
        ("refuge-cupboard", "floor", "left side", {"width": 17.0}),
    ],
)
def test_a_fit_without_room_is_the_one_accused(name, first, second, sizes):
    found = [f for f in accuracy(planted(name, first, second, **sizes)).findings if f.severity != "note"]
    assert [(f.severity, set(f.parts)) for f in found] == [("caution", {first, second})]
    assert found[0].value < ENOUGH


def test_a_coarse_router_can_not_hold_the_depth_of_a_groove():
    found = [f for f in accuracy(sound(BOOKCASE), Accuracy(routed=3.0)).findings if f.severity == "caution"]
    assert found
    assert all("tongue and groove, depth" in f.message for f in found)
    boards = {j.second for j in sound(BOOKCASE).joints if any(isinstance(c, EdgeGroove) for c in j.second_cuts)}
    assert boards <= {n for f in found for n in f.parts}


def test_a_finer_shop_marks_less_from_the_work():
    fine = Accuracy(sawn=0.01, planed=0.01, routed=0.01, drilled=0.01)
    assert [f.message for f in accuracy(sound(BOOKCASE), fine).findings if f.parts] == []


def test_neither_order_nor_place_changes_anything():
    piece = sound(BOOKCASE)
    c, s = math.cos(0.7), math.sin(0.7)
    turned = carried(piece, Placement((300.0, -20.0, 7.0), (c, s, 0.0), (-s, c, 0.0)))
    assert accuracy(piece) == accuracy(shuffled(piece, 3)) == accuracy(turned)


def test_every_chain_names_parts_of_the_piece():
    for name in EXAMPLES:
        piece = sound(name)
        assert all(n in piece.parts for chain in all_chains(piece, Accuracy()) for n in chain.parts)
