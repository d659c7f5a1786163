"""The drawing set of a piece: which sheets, in which order, numbered through."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from drawings.cards.setups import setup_sheets
from drawings.cards.story_sticks import story_stick_sheets
from drawings.cards.trammel import trammel_sheets
from drawings.paper.sheet import Sheet, Text
from drawings.paper.title_block import sheet_number
from drawings.parts.compose import part_sheets
from drawings.sheets.exploded import exploded_sheets
from drawings.sheets.general import general_sheet, general_views
from drawings.sheets.sections import section_sheets
from drawings.sheets.steps import step_sheets
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
    sheets = [
        general_sheet(piece, order, general_views(shown, order)),
        *exploded_sheets(piece, order, shown),
        *section_sheets(piece, order, shapes),
        *part_sheets(piece, order),
        *step_sheets(piece, order, shown),
        *setup_sheets(piece, order),
        *trammel_sheets(piece, order),
        *story_stick_sheets(piece, order),
    ]
    return [numbered(sheet, n, len(sheets)) for n, sheet in enumerate(sheets, 1)]


def numbered(sheet: Sheet, number: int, of: int) -> Sheet:
    """The sheet under its number in the set, in its title block too."""
    old, new = sheet_number(sheet.number, sheet.of), sheet_number(number, of)
    entities = tuple(
        replace(e, text=new) if isinstance(e, Text) and e.bold and e.text == old else e for e in sheet.entities
    )
    return replace(sheet, entities=entities, number=number, of=of)
