"""Which sheets are carried to the bench: set-up cards, then story sticks, which share sheets where that saves one."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.cards.setups import TITLE, setup_blocks, setup_leaves
from drawings.cards.story_sticks import KIND, story_stick_blocks, story_stick_leaves
from drawings.paper.board import board
from drawings.sheets.block import Block
from drawings.sheets.leaves import AS_SHOWN, Leaf
from drawings.sheets.packing import Spot, footprint, packed, sheet_room
from model.order import Order
from model.piece import Piece

BOTH = "Set-up cards, story sticks"
#: In the order they are bound.
_KINDS = (TITLE, BOTH, KIND)


def bench_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """Set-up cards and story sticks before they are bound. Loads no CAD kernel."""
    apart = [*setup_leaves(piece, order), *story_stick_leaves(piece, order)]
    shared = _shared(piece, order)
    return shared if 0 < len(shared) < len(apart) else apart


def _shared(piece: Piece, order: Order) -> list[Leaf]:
    """Cards and sticks on the same sheets; none where one of them goes on no sheet with others."""
    cards, (sticks, long) = setup_blocks(piece, order), story_stick_blocks(piece, order)
    blocks = [*cards, *sticks]
    found = packed(
        [[footprint(b) for b in shapes] for shapes in blocks], sheet_room(board(order.drawing.paper, order.units))
    )
    leaves = [_leaf(spots, blocks, len(cards)) for spots in found or []]
    return [*sorted(leaves, key=lambda leaf: _KINDS.index(leaf.kind)), *long]


def _leaf(spots: Sequence[Spot], blocks: Sequence[Sequence[Block]], cards: int) -> Leaf:
    """A sheet of blocks, of which the first so many are cards."""
    kinds = {spot.item < cards for spot in spots}
    kind = BOTH if len(kinds) == 2 else TITLE if True in kinds else KIND
    marks = tuple(m for s in spots for m in blocks[s.item][s.shape].hung(s.left, s.top))
    return Leaf("setups" if kind == TITLE else "story-sticks", kind, marks, AS_SHOWN)
