"""A wall of equal shelves: a hundred names for one part must not crowd its sheet."""

from __future__ import annotations

from drawings.parts.compose import part_sheets
from model.order import order_from_text
from model.pieces import design

WALL = 'piece = "bookcase"\nname = "wall"\n[size]\nwidth = 5000\nheight = 2400\nbays = 10\nshelves = 9\n'


def test_a_wall_goes_on_its_sheets() -> None:
    order = order_from_text(WALL)
    found = design(order.piece)
    piece = found.make(order.parameters(found.parameters))
    sheets = part_sheets(piece, order)

    assert len(piece.parts) > 150
    assert 3 < len(sheets) < 30
    assert max(len(sheet.title) for sheet in sheets) < 300
