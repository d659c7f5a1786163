"""The edge of an outline that a place of the plan is told from."""

from __future__ import annotations

import math

from model.layout.outline import Edge, Outline, Point


def nearest_edge(outline: Outline, p: Point) -> tuple[Edge, float]:
    """The edge of an outline nearest to a point, and how far along it that is, mm from its start."""

    def station(e: Edge) -> tuple[float, float]:
        if e.straight:
            (dx, dy), (sx, sy) = e.direction(0.0), e.start
            along = min(max((p[0] - sx) * dx + (p[1] - sy) * dy, 0.0), e.length)
        else:
            cx, cy = e.centre
            turned = math.atan2(p[1] - cy, p[0] - cx) - math.atan2(e.start[1] - cy, e.start[0] - cx)
            turned = turned % math.tau if e.bulge > 0 else -((-turned) % math.tau)
            along = e.length * min(turned / e.sweep, 1.0)
        return math.dist(e.point(along / e.length), p), along

    edge = min(outline.edges, key=lambda e: station(e)[0])
    return edge, station(edge)[1]
