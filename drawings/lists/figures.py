"""The figures of a piece: how many parts, how heavy, how much lumber, how large."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drawings.cutting.layers import OUTLINE, traces
from drawings.lists.part_lines import part_lines
from model.lengths import format_length
from model.order import Order
from model.part import GivenPart, Part
from model.piece import Piece, Placed
from model.wood.material import material_named

#: mm3 in a m3, mm2 in a m2.
_M3, _M2 = 1e9, 1e6


def figures(piece: Piece, order: Order, shapes: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """The figures that go into the report.

    shapes: every part's solid where it stands, by name, for exact volumes and the overall size; without them volumes
    are of the flat parts less their pockets, edge work not taken off, and there is no overall size. mass_kg: of the
    wood at the order's moisture content, without hardware. board_feet: rough, before waste.
    """
    lines = part_lines(piece)
    feet = sum(line.total_board_feet for line in lines)
    found: dict[str, Any] = {
        "parts": len(piece.parts),
        "distinct_parts": len(lines),
        "joints": len(piece.joints),
        "hardware": len(piece.hardware),
        "mass_kg": round(mass(piece, order, shapes), 3),
        "board_feet": round(feet, 2),
        "board_feet_to_buy": round(feet * (1.0 + order.shop.waste_pct / 100.0), 2),
        "glue_area_m2": round(sum(j.glue_area for j in piece.joints) / _M2, 4),
    }
    if shapes:
        sizes = overall_mm(shapes)
        found["overall"] = _overall_in_words(sizes, order)
        found["overall_mm"] = [round(size, 1) for size in sizes]
    return found


def mass(piece: Piece, order: Order, shapes: Mapping[str, Any] | None = None) -> float:
    """Of the wood, kg, at the order's moisture content (densities as in model.wood.species); a given part of no known
    species weighs as the order's."""
    moisture = order.wood.moisture_content
    total = 0.0
    for placed in piece:
        volume = float(shapes[placed.name].Volume()) if shapes else _volume(placed)
        total += volume / _M3 * material_named(_species(placed.part) or order.wood.species).density(moisture)
    return total


def overall(shapes: Mapping[str, Any], order: Order) -> str:
    """Width, depth and height over everything, as the order prints lengths."""
    return _overall_in_words(overall_mm(shapes), order)


def overall_mm(shapes: Mapping[str, Any]) -> tuple[float, float, float]:
    """Width (x), depth (y) and height (z) over everything, mm."""
    boxes = [shape.BoundingBox() for shape in shapes.values()]
    return (
        max(b.xmax for b in boxes) - min(b.xmin for b in boxes),
        max(b.ymax for b in boxes) - min(b.ymin for b in boxes),
        max(b.zmax for b in boxes) - min(b.zmin for b in boxes),
    )


def _overall_in_words(sizes: tuple[float, float, float], order: Order) -> str:
    said = [format_length(size, order.units, order.drawing.denominator) for size in sizes]
    unit = " mm" if order.units == "mm" else ""
    return ", ".join(f"{size}{unit} {word}" for size, word in zip(said, ("wide", "deep", "high"), strict=True))


def _species(part: Part | GivenPart) -> str | None:
    return part.stock.species if isinstance(part, Part) else part.species


def _volume(placed: Placed) -> float:
    """mm3: outline less pockets and holes; of a given part, as measured on its solid."""
    part = placed.part
    if isinstance(part, GivenPart):
        return float(part.shape().Volume())
    return sum(t.outline.area * t.depth * (1.0 if t.layer == OUTLINE else -1.0) for t in traces(part))
