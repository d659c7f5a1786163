"""A pivot drawn small: where the trammel's point stands off the work, and every arc that is swung from it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drawings.cards.flow import spread
from drawings.cards.long_arcs import Pivot, Swept
from drawings.paper.arcs import polar
from drawings.paper.dimensions import linear
from drawings.paper.measured import Shown
from drawings.paper.scales import largest_scale
from drawings.paper.sheet import Arc, Circle, Entity, Leader, Line, Pen, Point, Text, ViewPort
from drawings.sheets.clear_room import Box
from drawings.sheets.principal import Lengths
from model.placement import Placement

#: Room left for the radii on the right, the dimension on the left, and the words under the pivot, mm.
_RIGHT, _LEFT, _FOOT, _HEAD = 34.0, 26.0, 12.0, 6.0
_HEIGHT, _GAP, _CROSS = 2.5, 5.0, 4.0
#: How far along the shortest arc's right half the leaders begin, as a share of it.
_INWARD = 0.85

#: An arc as it is swung: radius, and the angles between which it runs, degrees from the centre line to the right.
Swing = tuple[float, float, float]


def swings(pivot: Pivot, stands: dict[str, Placement]) -> list[Swing]:
    """The widest sweep of each radius, about straight ahead of the pivot; `stands`: where the parts lie in the plan."""
    widest: dict[float, Swing] = {}
    for radius in pivot.radii:
        reach = [_turns(arc, stands) for arc in pivot.arcs if abs(arc.radius - radius) < 0.01]
        ends = [a for pair in reach for a in pair] or [-10.0, 10.0]
        widest[radius] = (radius, min(ends), max(ends))
    return list(widest.values())


def _turns(arc: Swept, stands: dict[str, Placement]) -> tuple[float, float]:
    """Where an arc begins and ends, degrees clockwise from straight ahead of its centre, in the plan."""
    at = stands[arc.distinct.names[0]]
    centre = at.point((*arc.centre, 0.0))
    turns = []
    for p in (arc.start, arc.end):
        x, y, _ = at.point((*p, 0.0))
        turns.append(math.degrees(math.atan2(x - centre[0], y - centre[1])))
    return min(turns), max(turns)


def pivot_drawing(pivot: Pivot, stands: dict[str, Placement], room: Box, form: Lengths) -> tuple[float, list[Entity]]:
    """The scale, paper over model, and the marks of a pivot with its arcs in a room of the sheet, mm."""
    swung = swings(pivot, stands)
    wide = 2.0 * max(r * math.sin(math.radians(min(90.0, max(abs(a), abs(b))))) for r, a, b in swung)
    high = max(r for r, _, _ in swung)
    space = (room[2] - room[0] - _LEFT - _RIGHT, room[3] - room[1] - _FOOT - _HEAD)
    scale = largest_scale(wide, high, space, units=form.units) or min(space[0] / wide, space[1] / high)
    at = ((room[0] + _LEFT + room[2] - _RIGHT) / 2.0, room[3] - _HEAD - high * scale)
    port = ViewPort(scale, at)
    return scale, [
        *_pivot(at),
        *_arcs(swung, port),
        Line((at[0], at[1] + _CROSS), (at[0], at[1] + high * scale + _HEAD), Pen.CENTRE),
        *_radii(pivot.centre, swung, port, room, form),
        _to_the_nearest(pivot.centre, swung, wide, port, form),
    ]


def _pivot(at: Point) -> Iterator[Entity]:
    x, y = at
    yield Circle(at, 1.5, Pen.VISIBLE)
    yield Line((x - _CROSS, y), (x + _CROSS, y), Pen.THIN)
    yield Line((x, y - _CROSS), (x, y + _CROSS), Pen.THIN)
    yield Text((x, y - _CROSS - 1.5), "Pivot", _HEIGHT, "centre", "top")


def _arcs(swung: Sequence[Swing], port: ViewPort) -> Iterator[Entity]:
    for radius, left, right in swung:
        yield Arc(port.origin, radius * port.scale, 90.0 - right, 90.0 - left)


def _radii(centre: Point, swung: Sequence[Swing], port: ViewPort, room: Box, form: Lengths) -> Iterator[Leader]:
    """Each radius at the end of a leader, one over the other; where all arcs cross one ray, the leaders begin on it."""
    ray = _INWARD * min(right for _, _, right in swung)
    crossed = all(left < ray for _, left, _ in swung)
    tips = [polar(port.origin, radius * port.scale, 90.0 - (ray if crossed else turn)) for radius, _, turn in swung]
    order = sorted(range(len(tips)), key=lambda n: tips[n][1])
    levels = spread([tips[n][1] for n in order], _GAP, room[1], room[3] - _GAP)
    ends = (polar(port.origin, radius * port.scale, 90.0 - turn)[0] for radius, _, turn in swung)
    column = max(ends) + 10.0
    measured = Shown().radius(centre)
    for level, n in zip(levels, order, strict=True):
        elbow = (column, level)
        yield Leader((tips[n], elbow, (column + 2.0, level)), form(swung[n][0], "R"), "arrow", _HEIGHT, measured)


def _to_the_nearest(centre: Point, swung: Sequence[Swing], wide: float, port: ViewPort, form: Lengths) -> Entity:
    """From the pivot to the nearest arc, along the centre line; measured in the piece's plan."""
    nearest = min(radius for radius, _, _ in swung)
    dimension = linear(
        (0.0, 0.0), (0.0, nearest), port, "left", edge=-wide / 2.0, units=form.units, denominator=form.denominator
    )
    on_arc = (centre[0], centre[1] + nearest)
    return replace(dimension, measured=Shown().length(centre, on_arc, (0.0, 1.0)))
