"""Plane arcs as drawings need them: bulges to arcs, and curves to points. Millimetres and degrees."""

from __future__ import annotations

import math

from drawings.paper.sheet import Arc, Circle, Line, Point, Polyline


def polar(centre: Point, radius: float, angle: float) -> Point:
    """The point `radius` from `centre` at `angle` degrees."""
    turn = math.radians(angle)
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def bulge_arc(p: Point, q: Point, bulge: float) -> tuple[Point, float, float, float]:
    """Centre, radius, start angle and signed sweep of the arc from p to q.

    `bulge` is tan(sweep / 4), not zero (the DXF definition of group code 42).

    >>> centre, radius, start, sweep = bulge_arc((1, 0), (-1, 0), 1)
    >>> radius, start, sweep
    (1.0, 0.0, 180.0)
    """
    half = (q[0] - p[0]) / 2, (q[1] - p[1]) / 2
    towards = (1 - bulge * bulge) / (2 * bulge)
    centre = p[0] + half[0] - half[1] * towards, p[1] + half[1] + half[0] * towards
    radius = math.hypot(*half) * (1 + bulge * bulge) / (2 * abs(bulge))
    start = math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0]))
    return centre, radius, start, math.degrees(4 * math.atan(bulge))


def arc_sweep(arc: Arc) -> float:
    """The angle an arc covers, over 0 and up to 360 degrees."""
    return (arc.end - arc.start) % 360 or 360.0


def arc_points(centre: Point, radius: float, start: float, sweep: float, sagitta: float) -> list[Point]:
    """Points along an arc, both ends included, so close that no chord leaves it by more than `sagitta` mm."""
    step = 2 * math.degrees(math.acos(max(0.0, 1 - sagitta / radius))) if radius > sagitta else 90.0
    count = max(1, math.ceil(abs(sweep) / min(step, 90.0)))
    return [polar(centre, radius, start + sweep * i / count) for i in range(count + 1)]


def flattened(curve: Line | Arc | Circle | Polyline, sagitta: float = 0.02) -> list[Point]:
    """A curve as points; a closed one does not repeat its first point unless it is a circle or a full arc."""
    if isinstance(curve, Line):
        return [curve.p, curve.q]
    if isinstance(curve, Arc):
        return arc_points(curve.centre, curve.radius, curve.start, arc_sweep(curve), sagitta)
    if isinstance(curve, Circle):
        return arc_points(curve.centre, curve.radius, 0.0, 360.0, sagitta)
    return _flattened_polyline(curve, sagitta)


def _flattened_polyline(line: Polyline, sagitta: float) -> list[Point]:
    points = list(line.points[:1])
    for p, q, bulge in line.stretches():
        points += arc_points(*bulge_arc(p, q, bulge), sagitta)[1:-1] if bulge and p != q else []
        points.append(q)
    return points[:-1] if line.closed else points
