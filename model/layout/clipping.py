"""Convex clipping: what of a polygon lies inside straight lines. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model.layout.outline import Point
from model.tolerance import SAME_POINT

#: {p : normal . p <= offset}, its normal of unit length.
HalfPlane = tuple[Point, float]


def clipped(ring: Sequence[Point], within: Sequence[HalfPlane]) -> list[Point]:
    """What of a counter-clockwise polygon lies inside every half-plane; empty if nothing does. A polygon that is not
    convex may come back with edges that run to and fro along a line, which leave its area right (I. Sutherland and
    G. Hodgman, Reentrant Polygon Clipping, Communications of the ACM, 1974)."""
    kept = list(ring)
    for normal, offset in within:
        kept = _one(kept, normal, offset)
    kept = [p for n, p in enumerate(kept) if math.dist(p, kept[n - 1]) > SAME_POINT]
    return kept if len(kept) > 2 and area(kept) > SAME_POINT else []


def around(bounds: tuple[float, float, float, float], past: float = 0.0) -> list[Point]:
    """The corners of a box, given as (least x, least y, greatest x, greatest y), grown by `past` mm on every side."""
    x0, y0, x1, y1 = bounds
    return [(x0 - past, y0 - past), (x1 + past, y0 - past), (x1 + past, y1 + past), (x0 - past, y1 + past)]


def area(ring: Sequence[Point]) -> float:
    """Of a polygon, mm2; positive run counter-clockwise."""
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in _sides(ring)) / 2.0


def middle(ring: Sequence[Point]) -> Point:
    """The centroid of a polygon that encloses some area."""
    shares = [(p[0] * q[1] - q[0] * p[1], p, q) for p, q in _sides(ring)]
    six = 3.0 * sum(s for s, _, _ in shares)
    return (
        sum(s * (p[0] + q[0]) for s, p, q in shares) / six,
        sum(s * (p[1] + q[1]) for s, p, q in shares) / six,
    )


def _sides(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(ring, [*ring[1:], *ring[:1]], strict=True))


def _one(ring: Sequence[Point], normal: Point, offset: float) -> list[Point]:
    kept: list[Point] = []
    for p, q in _sides(ring):
        here, there = (normal[0] * c[0] + normal[1] * c[1] - offset for c in (p, q))
        if here <= 0.0:
            kept.append(p)
        if here * there < 0.0:
            t = here / (here - there)
            kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
    return kept
