"""Cards and story sticks share sheets where that saves one; none is lost or drawn twice, and all stays legible."""

import pytest

from drawings.cards.for_the_bench import BOTH, bench_leaves
from drawings.cards.setups import TITLE, cards, setup_leaves
from drawings.cards.stations import rods
from drawings.cards.story_sticks import KIND, story_stick_leaves
from drawings.paper.audit import audit, sheet_texts
from drawings.paper.sheet import OrdinateDimension
from drawings.sheets.leaves import bind
from model.orders import example_names
from tests.drawings.made_pieces import example, in_inches


@pytest.mark.parametrize("name", example_names())
def test_no_more_sheets_than_apart_and_cards_first(name):
    piece, order = example(name)
    found = bench_leaves(piece, order)
    kinds = [leaf.kind for leaf in found]

    assert len(found) <= len(setup_leaves(piece, order)) + len(story_stick_leaves(piece, order))
    assert kinds == sorted(kinds, key=[TITLE, BOTH, KIND].index)


def test_the_few_cards_and_rods_of_a_stool_stand_on_one_sheet():
    (leaf,) = bench_leaves(*example("stool"))

    assert leaf.kind == BOTH


@pytest.mark.parametrize("made", [example("chest"), in_inches("cupboard")], ids=["chest", "cupboard in inches"])
def test_every_card_and_rod_stands_once_and_is_legible(made):
    piece, order = made
    sheets = bind(bench_leaves(piece, order), order)
    said = [text.text for sheet in sheets for text in sheet_texts(sheet)]
    stations = [mark for sheet in sheets for mark in sheet.entities if isinstance(mark, OrdinateDimension)]

    assert sum(text.startswith("Set-up ") and ":" in text for text in said) == len(cards(piece, order))
    assert len(stations) == sum(len(rod.marks) - 1 for rod in rods(piece))
    assert [blemish for sheet in sheets for blemish in audit(sheet)] == []
