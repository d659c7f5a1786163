"""The set-up cards of a piece: all cuts of one setting on one card, so that all are made before it is changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from drawings.cards.card import MOST_ROWS, Card, Pair
from drawings.cards.cut_section import Posed, example, posed
from drawings.lists.distinct import distinct_parts
from drawings.lists.setups import Setup, setups
from drawings.paper.board import board
from drawings.paper.sheet import Entity, Paper, Sheet
from drawings.sheets.block import Block
from drawings.sheets.leaves import AS_SHOWN, GAP, Leaf, bind, column_width, columns
from drawings.sheets.packing import filled, sheet_room
from drawings.sheets.principal import Lengths
from model.order import Order
from model.piece import Piece

TITLE = "Set-up cards"
#: About how wide a card is, mm: two across an A3 sheet.
_WIDTH = 145.0


def setup_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """The cards on the order's paper; no sheet for a piece without a cut that a machine is set for.

    Loads no CAD kernel.
    """
    return bind(setup_leaves(piece, order), order)


def setup_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """The same before they are bound."""
    page = board(order.drawing.paper, order.units)
    pages = filled(setup_blocks(piece, order), sheet_room(page)) or _pages(cards(piece, order), page)
    return [Leaf("setups", TITLE, tuple(marks), AS_SHOWN) for marks in pages]


def setup_blocks(piece: Piece, order: Order) -> list[list[Block]]:
    """Each card as it is set out on a sheet, in the one width that it has."""
    width = column_width(board(order.drawing.paper, order.units), _WIDTH)
    return [[_block(card, width)] for card in cards(piece, order)]


def cards(piece: Piece, order: Order) -> list[Card]:
    """A card for each setting of a cutter, in the order of their numbers; one with many fence settings goes on on
    another."""
    form = Lengths(order.units, order.drawing.denominator)
    by_name = {name: d for d in distinct_parts(piece) for name in d.names}
    found = []
    for _, group in groupby(setups(piece), key=lambda row: row.number):
        rows = list(group)
        for n in range(0, len(rows), MOST_ROWS):
            some = tuple(rows[n : n + MOST_ROWS])
            found.append(Card(some, _posed(piece, some[0]), _pair(piece, some), form, n > 0, by_name))
    return found


def _posed(piece: Piece, row: Setup) -> Posed | None:
    found = example(piece, row.setting, [name for _, names in row.served for name in names])
    return posed(row.setting, *found) if found else None


def _pair(piece: Piece, rows: Sequence[Setup]) -> Pair | None:
    """The first left whose mirror image is cut with the same setting."""
    served = [name for row in rows for _, names in row.served for name in names]
    for name in served:
        left = piece[name].mirror_of
        if left in served and left is not None:
            return Pair((left, name), piece[left].wood, piece[name].wood)
    return None


def _block(card: Card, width: float) -> Block:
    return Block(lambda at: card.marks(at, width))


def _pages(found: Sequence[Card], page: Paper) -> Iterator[list[Entity]]:
    """Cards down one column after the other, where one is higher than a sheet."""
    width = column_width(page, _WIDTH)
    waiting = list(found)
    while waiting:
        marks: list[Entity] = []
        for x, low, top in columns(page, _WIDTH):
            y = top
            while waiting and (y - waiting[0].height(width) >= low or (not marks and y == top)):
                card = waiting.pop(0)
                marks += card.marks((x, y), width)
                y -= card.height(width) + GAP
        yield marks
