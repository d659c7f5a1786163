"""What the preview's list says of each part: its name and group, its finished size, its wood."""

from __future__ import annotations

from drawings.lists.part_lines import part_lines
from drawings.preview.scene import group, species_of
from model.lengths import format_length
from model.order import Order
from model.piece import Piece


def parts_shown(piece: Piece, order: Order) -> list[dict[str, str]]:
    """A row a part, in the piece's own order; length × width × thickness in the order's units."""
    finished = {name: line.finished for line in part_lines(piece) for name in line.distinct.names}
    return [
        {"name": p.name, "group": group(p.name), "size": _size(finished[p.name], order), "material": species_of(p)}
        for p in piece
    ]


def _size(finished: tuple[float, float, float] | None, order: Order) -> str:
    """Empty for a part given as a solid, which has no length or width of its own."""
    if finished is None:
        return ""
    said = " × ".join(format_length(size, order.units, order.drawing.denominator) for size in finished)
    return f"{said} mm" if order.units == "mm" else said
