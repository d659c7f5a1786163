"""The table of a part's holes and slots: each by the middle of its mouth, from the datum."""

from __future__ import annotations

import math

from drawings.lists.hole_entry import sunk, wood_behind
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.teller import edge_in_words, toward
from drawings.paper.dimensions import angle_text
from drawings.paper.measured import Vector
from drawings.paper.saying import Says, number
from drawings.paper.sheet import Point
from drawings.parts.family import Family
from drawings.parts.hole_numbers import hole_number
from drawings.parts.located import Hole, looking_into
from drawings.parts.plan import Plan
from drawings.parts.table import Cell, Row, Table
from model.placement import added, scaled

_X, _Y = (1.0, 0.0), (0.0, 1.0)
#: A hole is bored along the part or across it, and its edge slants across the hole, from these on (sines).
_EXACT, _SLANT = 1e-9, 1e-3
#: An angle that prints as none, degrees.
_NO_ANGLE = 0.05


def hole_table(plan: Plan) -> Table:
    """Each numbered hole and slot: the middle of its mouth from the datum, diameter and depth."""
    rows = [_hole_row(n, found, plan) for n, found in enumerate(plan.holes, 1)]
    heads = ["No.", "Cut", "into", "x", "y", "from back", "Diameter", "Long", "Depth", "Floor", "To face", "To grain"]
    keep = [k for k in range(len(heads)) if k < 3 or any(row[k].text for row in rows)]
    kept = tuple(tuple(row[k] for k in keep) for row in rows)
    return Table("Holes and slots, middles of their mouths", tuple(heads[k] for k in keep), kept)


def _hole_row(place: int, found: Hole, plan: Plan) -> Row:
    x, y, depth, floor = _slanting(found, plan) or _square_to_its_side(found, plan)
    return (
        Cell(hole_number(place, found, plan.family)),
        Cell(_called(found, plan.family)),
        Cell(_into(found, plan)),
        x,
        y,
        _level_of(found, plan),
        _diameter(found, plan),
        _slot_length(found, plan),
        depth,
        floor,
        *_leaning(found, plan),
    )


def _called(found: Hole, family: Family) -> str:
    """Its name, in which only the size of a biscuit is a number."""
    return number(found.what, Says("biscuit", (family.names[0],)))


def _square_to_its_side(found: Hole, plan: Plan) -> Row:
    """Where the middle of its mouth lies and how deep it goes."""
    shown, (x0, y0), form = plan.family.shown(), plan.datum, plan.form
    at_x, at_y = _witnesses(found)
    if found.side is None and found.direction is not None:
        edge, along = nearest_edge(plan.outline, (found.at[0], found.at[1]))
        at_x = at_y = edge.point(along / edge.length)
    x = Cell(form(at_x[0] - x0), shown.length((x0, y0), at_x, _X))
    y = Cell(form(at_y[1] - y0), shown.length((x0, y0), at_y, _Y))
    return x, y, _hole_depth(found, plan), Cell("")


def _witnesses(found: Hole) -> tuple[Point, Point]:
    """A point that shows how far along the part it lies, and one for how far across: of a slotted hole the middle of
    its round end, and of its straight side."""
    at: Point = (found.at[0], found.at[1])
    if found.direction is None or not found.diameters:
        return at, at
    (dx, dy, _), width = found.direction, found.diameters[0][0]
    half = (found.length - width) / 2.0
    end = at[0] + half * dx, at[1] + half * dy
    side = at[0] - dy * width / 2.0, at[1] + dx * width / 2.0
    return (side, end) if abs(dx) > abs(dy) else (end, side)


def _slanting(found: Hole, plan: Plan) -> Row | None:
    """A hole along the axes of the part into an edge that slants across it: its middle line, and where its floor is."""
    if found.side is not None or not found.diameters or max(abs(found.into[0]), abs(found.into[1])) < 1.0 - _EXACT:
        return None
    edge, along = nearest_edge(plan.outline, (found.at[0], found.at[1]))
    dx, dy = edge.direction(along / edge.length)
    if abs(dx * found.into[0] + dy * found.into[1]) < _SLANT:
        return None
    depth = found.diameters[-1][1]
    deep = wood_behind(found.at, found.into, plan.family.part) if depth is None else depth
    end = added(found.at, scaled(found.into, deep))
    shown, (x0, y0), form = plan.family.shown(), plan.datum, plan.form
    x = Cell(form(end[0] - x0), shown.length((x0, y0), end[:2], _X))
    y = Cell(form(end[1] - y0), shown.length((x0, y0), end[:2], _Y))
    nothing, through = Cell(""), Cell("through" if depth is None else "")
    floor = nothing if depth is None else y if abs(found.into[1]) > 0.5 else x
    return (x, nothing, through, floor) if abs(found.into[1]) > 0.5 else (nothing, y, through, floor)


def _leaning(found: Hole, plan: Plan) -> Row:
    """Of a hole that lies askew: its angle to the face side, and of its way in the plan to the grain."""
    if not found.entry.slanting:
        return Cell(""), Cell("")
    x, y, z = found.into
    level = math.hypot(x, y)
    steep, way = math.degrees(math.atan2(z, level)), math.degrees(math.atan2(y, x)) % 360.0
    seen = plan.family.shown((x / level, y / level, 0.0), (0.0, 0.0, 1.0))
    mouth = (found.at[0] * x + found.at[1] * y) / level, found.at[2]
    low, high = sorted((way, 180.0 * round(way / 180.0)))
    to_face = seen.angle(mouth, *sorted((0.0, steep)))
    to_grain = plan.family.shown().angle((found.at[0], found.at[1]), low, high)
    cells = [(abs(steep), to_face), (high - low, to_grain)]
    return tuple(Cell(angle_text(turn), meant) if turn > _NO_ANGLE else Cell("") for turn, meant in cells)


def _into(found: Hole, plan: Plan) -> str:
    leaning = f", toward {toward(found.entry.way, found.side)}" if found.entry.slanting else ""
    if found.side is None:
        return edge_in_words(found.entry.edge) + leaning
    return f"{found.side} side{leaning}{_lie(found)}"


def _level_of(found: Hole, plan: Plan) -> Cell:
    """How high over the back side one in an edge lies, or one begun on the floor of other work."""
    if found.side is not None and not (found.entry.leaning and sunk(found.entry, plan.family.part)):
        return Cell("")
    side = plan.family.shown(_level(found.into), (0.0, 0.0, 1.0))
    across = found.at[0] * side.right[0] + found.at[1] * side.right[1]
    return Cell(plan.form(found.at[2]), side.length((across, 0.0), (across, found.at[2]), _Y))


def _lie(found: Hole) -> str:
    if found.direction is None:
        return ""
    return ", along" if abs(found.direction[0]) > 0.7 else ", across"


def _level(into: Vector) -> Vector:
    """A level direction square to one into an edge."""
    size = (into[0] ** 2 + into[1] ** 2) ** 0.5
    return (-into[1] / size, into[0] / size, 0.0)


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _diameter(found: Hole, plan: Plan) -> Cell:
    """All diameters of a hole, the through hole's first."""
    if not found.diameters:
        return Cell("")
    right, up = looking_into(found.into)
    shown = plan.family.shown(right, up)
    centre = _end_centre(found, right, up)
    text = " and ".join(plan.form(d, "Ø") for d, _ in found.diameters)
    return Cell(text, shown.diameter(centre))


def _end_centre(found: Hole, right: Vector, up: Vector) -> Point:
    """The middle of a round hole, or of the round end of a slotted one, looking into it."""
    at = found.at
    if found.direction is not None and found.diameters:
        half = (found.length - found.diameters[0][0]) / 2.0
        at = added(at, scaled(found.direction, half))
    return _dot(at, right), _dot(at, up)


def _slot_length(found: Hole, plan: Plan) -> Cell:
    """Of a slotted hole over its two round ends."""
    if found.direction is None or not found.diameters:
        return Cell("")
    right, up = looking_into(found.into)
    ends = [added(found.at, scaled(found.direction, s * found.length / 2.0)) for s in (-1.0, 1.0)]
    (a, b), way = [(_dot(p, right), _dot(p, up)) for p in ends], found.direction
    return Cell(plan.form(found.length), plan.family.shown(right, up).length(a, b, (_dot(way, right), _dot(way, up))))


def _hole_depth(found: Hole, plan: Plan) -> Cell:
    """Depth of what does not go right through, along the hole."""
    round_ones = [(d, depth) for d, depth in found.diameters if depth is not None]
    if found.depth is None and not round_ones:
        return Cell("through")
    if found.depth is not None and found.direction is not None:
        shown = plan.family.shown(found.into, found.direction)
        at = _dot(found.at, found.into), _dot(found.at, found.direction)
        return Cell(plan.form(found.depth), shown.length(at, (at[0] + found.depth, at[1]), _X))
    diameter, deep = round_ones[-1]
    right, up = looking_into(found.into)
    centre = _end_centre(found, right, up)
    return Cell(plan.form(deep), plan.family.shown(right, up).depth(centre, diameter / 2))
