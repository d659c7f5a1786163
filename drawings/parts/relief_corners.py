"""Inside corners with a router's round relief: drawn as they are, but located as the square corners they stand for.

The relief's circle passes through the corner itself, so that the corner and one radius say all of it.
"""

from __future__ import annotations

import math

from model.layout.outline import Edge, Outline, Point

_ON, _EVEN = 1e-4, 1e-3


def without_reliefs(outline: Outline) -> tuple[Outline, dict[int, Edge]]:
    """The outline with its relieved corners square, and the relief of each of them by its number in the new ring."""
    edges, corners = outline.edges, [relieved_corner(outline, n) for n in range(len(outline.edges))]
    ring: list[tuple[Point, float, str]] = []
    reliefs: dict[int, Edge] = {}
    for n, e in enumerate(edges):
        before = corners[n - 1]
        if before is not None:
            reliefs[len(ring)] = edges[n - 1]
        if corners[n] is None:
            ring.append((before or e.start, e.bulge, e.name))
    points, bulges, names = zip(*ring, strict=True)
    return (Outline(points, bulges, names), reliefs) if reliefs else (outline, {})


def relieved_corner(outline: Outline, n: int) -> Point | None:
    """Where the sides next to an outline's n-th edge would meet, if that edge is a relief alike on both of them."""
    edges = outline.edges
    before, arc, after = edges[n - 1], edges[n], edges[(n + 1) % len(edges)]
    if arc.straight or not (before.straight and after.straight):
        return None
    (ux, uy), (vx, vy) = before.direction(0.0), after.direction(0.0)
    turn = ux * vy - uy * vx
    if abs(turn) < _EVEN:
        return None
    (px, py), (qx, qy) = before.end, after.start
    ahead = ((qx - px) * vy - (qy - py) * vx) / turn
    corner = (px + ahead * ux, py + ahead * uy)
    even = abs(math.dist(corner, arc.start) - math.dist(corner, arc.end)) < _EVEN
    on_circle = abs(math.dist(corner, arc.centre) - arc.radius) < _ON
    return corner if ahead > _ON and even and on_circle else None


def relieved_again(plain: Outline, radii: dict[int, tuple[float, float]]) -> Outline:
    """Square corners relieved: each by its radius and the bulge of its arc. The reverse of `without_reliefs`."""
    ring: list[tuple[Point, float, str]] = []
    for n, (p, bulge, name) in enumerate(zip(plain.corners, plain.bulges, plain.names, strict=True)):
        if n not in radii:
            ring.append((p, bulge, name))
            continue
        radius, relief = radii[n]
        start, end = _mouth(plain, n, radius)
        ring += [(start, relief, "relief"), (end, bulge, name)]
    points, bulges, names = zip(*ring, strict=True)
    return Outline(points, bulges, names)


def _mouth(plain: Outline, n: int, radius: float) -> tuple[Point, Point]:
    """Where a relief of a radius leaves the two sides of a corner."""
    (x, y), (ux, uy) = plain.corners[n], plain.edges[n - 1].direction(1.0)
    vx, vy = plain.edges[n].direction(0.0)
    size = math.hypot(vx - ux, vy - uy)
    reach = 2.0 * radius * ((vx - ux) * vx + (vy - uy) * vy) / size
    return (x - reach * ux, y - reach * uy), (x + reach * vx, y + reach * vy)
