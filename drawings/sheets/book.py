"""The drawing set of a piece: which sheets, in which order, numbered through."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from drawings.cards.setups import setup_leaves
from drawings.cards.story_sticks import story_stick_leaves
from drawings.cards.trammel import trammel_leaves
from drawings.paper.sheet import Sheet
from drawings.parts.compose import part_leaves
from drawings.sheets.exploded import exploded_leaves
from drawings.sheets.general import general_leaf, general_views
from drawings.sheets.leaves import bind
from drawings.sheets.sections import section_leaves
from drawings.sheets.steps import step_leaves
from drawings.views.shown import shown_solids
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq


def book(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Sheet]:
    """Every sheet of the set: the whole, taken apart and cut through, each part, the steps, and the cards for bench and
    machine.

    shapes: every part's solid where it stands. Loads the CAD kernel. Raises DesignError, naming [drawing] paper, for
    paper too small at any scale.
    """
    shown = shown_solids(piece, shapes)
    leaves = [
        general_leaf(piece, order, general_views(shown, order)),
        *exploded_leaves(piece, order, shown),
        *section_leaves(piece, order, shapes),
        *part_leaves(piece, order),
        *step_leaves(piece, order, shown),
        *setup_leaves(piece, order),
        *trammel_leaves(piece, order),
        *story_stick_leaves(piece, order),
    ]
    return bind(leaves, order)
