"""How a mortise or a dado leans, as the table of trenches tells it: how far off square to its side, and which way in
that."""

from __future__ import annotations

import math

from drawings.lists.teller import toward
from drawings.paper.dimensions import angle_text
from drawings.paper.sheet import Point
from drawings.parts.family import Family
from drawings.parts.mortise_box import MortiseBox
from drawings.parts.plan import Plan
from drawings.parts.slanted_trench import SlantedTrench
from drawings.parts.table import Cell, Row
from model.cuts.cut import Side
from model.placement import Vector, cross, dot

_UPRIGHT = 1.0 - 1e-9
_UP: Vector = (0.0, 0.0, 1.0)
#: An angle that prints as none, degrees.
_NO_ANGLE = 0.05


def lean_cells(box: MortiseBox | SlantedTrench | None, family: Family) -> Row:
    """Off square to its side; toward which end, edge or side; in that side, the angle of its way to the long arris."""
    if box is None:
        return Cell(""), Cell(""), Cell("")
    inward, aside, down = box.inward, box.aside, box.down
    seen = family.shown(aside, inward)
    lean = seen.angle((dot(down, aside), dot(down, inward)), 90.0 - box.lean, 90.0)
    side: Side | None = "face" if abs(inward[2]) > _UPRIGHT else None
    arris = _to_arris(box, family) if isinstance(box, MortiseBox) else Cell("")
    return Cell(angle_text(box.lean), lean), Cell(toward(aside, side)), arris


def _to_arris(box: MortiseBox, family: Family) -> Cell:
    right, up = looking_at(box)
    along, across = dot(box.aside, right), dot(box.aside, up)
    way = math.degrees(math.atan2(across, along)) % 360.0
    low, high = sorted((way, 180.0 * round(way / 180.0)))
    if high - low < _NO_ANGLE:
        return Cell("")
    down: Point = (dot(box.down, right), dot(box.down, up))
    return Cell(angle_text(high - low), family.shown(right, up).angle(down, low, high))


def looking_at(box: MortiseBox) -> tuple[Vector, Vector]:
    """Two directions, to the right and upwards, of one who looks at the side a mortise opens on: the first along it."""
    if abs(box.inward[2]) > _UPRIGHT:
        return (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    return cross(box.inward, _UP), _UP


def lean_depth(box: MortiseBox | SlantedTrench, plan: Plan) -> Cell:
    """Of a mortise down its middle line, of a dado down its deeper wall."""
    into, (mouth, floor) = box.cut.into, box.deep
    shown, at, down = plan.family.shown(into, box.run), dot(mouth, box.run), (dot(mouth, into), dot(floor, into))
    return Cell(plan.form(down[1] - down[0]), shown.length((down[0], at), (down[1], at), (1.0, 0.0)))
