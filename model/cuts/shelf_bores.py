"""Rows of bores for adjustable shelves."""

from __future__ import annotations

import math
from typing import Literal

from model.cuts.cut import Side, shallower
from model.cuts.faces import Bore
from model.errors import CutError
from model.part import Part
from model.tolerance import SAME_POINT

#: Pitch, diameter and set-back of the rows, mm (common practice: 32 mm, 5 mm and 37 mm; 1/4 in bores are as common).
SPACING, DIAMETER, INSET = 32.0, 5.0, 37.0
#: How deep a bore is, mm (common practice: 1/2 in), and the least wood left behind it.
DEPTH, LEFT_BEHIND = 12.7, 3.0


def shelf_bores(
    part: Part,
    first: float,
    last: float,
    *,
    front: Literal["near", "far"] = "near",
    inset: float = INSET,
    back_inset: float | None = None,
    side: Side = "face",
    spacing: float = SPACING,
    diameter: float = DIAMETER,
    depth: float = DEPTH,
) -> tuple[Bore, ...]:
    """Two rows of bores along the grain of an upright, `first` to at most `last` mm from its left end (its foot, where
    the grain runs up), `spacing` apart.

    front: the edge that faces the front; the front row lies `inset` mm from it, the back row `back_inset` (the same if
    not said) from the other edge. For a right that mirrors a left the front is the other edge: the bores are then
    mirror images too. Raises CutError if the rows run out of the part, meet, or come too near its other side.
    """
    _, y0, length, y1 = part.outline.bounds
    rows = _rows(y0, y1, front, inset, inset if back_inset is None else back_inset, diameter)
    if not diameter < spacing or first - diameter / 2.0 < 0.0 or last + diameter / 2.0 > length or last < first:
        raise CutError(
            f"bores of {diameter:g} mm, {spacing:g} mm apart, from {first:g} to {last:g} mm don't go into a part "
            f"{length:g} mm long; begin and end them inside it"
        )
    shallower("shelf bore", depth + LEFT_BEHIND, part.thickness + SAME_POINT)
    z, into = (part.thickness, (0.0, 0.0, -1.0)) if side == "face" else (0.0, (0.0, 0.0, 1.0))
    count = 1 + math.floor((last - first) / spacing + SAME_POINT)
    return tuple(Bore((first + n * spacing, y, z), into, diameter, depth) for y in rows for n in range(count))


def _rows(y0: float, y1: float, front: str, inset: float, back_inset: float, diameter: float) -> tuple[float, float]:
    at_near, at_far = (inset, back_inset) if front == "near" else (back_inset, inset)
    near, far = y0 + at_near, y1 - at_far
    if min(inset, back_inset) < diameter or far - near < 2.0 * diameter:
        raise CutError(
            f"rows of bores {inset:g} and {back_inset:g} mm from the edges don't go into a part {y1 - y0:g} mm wide; "
            "keep them inside it and apart"
        )
    near, far = round(near, 6) + 0.0, round(far, 6) + 0.0
    return (near, far) if front == "near" else (far, near)
