"""What a view of a solid offers to be measured: corners, faces seen edge-on, circles, middles; and what it measures."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from drawings.paper.measured import Point

#: A feature is where a drawing says it is if it lies within this of it, mm: far finer than any printed place.
FOUND = 0.02
_PARALLEL = 1e-6
#: A side of an angle is taken to be the one meant if its direction is within this of it, degrees.
_SIDE = 0.5


@dataclass(frozen=True)
class Features:
    """In view millimetres: corners, straight lines (faces seen edge-on) by their ends, circles by centre and radius.

    bores: round walls seen end-on, by centre, radius and from where to where along the line of sight. middles: of
    faces and of straight edges, which is where slots are measured to.
    """

    points: tuple[Point, ...]
    lines: tuple[tuple[Point, Point], ...]
    circles: tuple[tuple[Point, float], ...]
    middles: tuple[Point, ...]
    bores: tuple[tuple[Point, float, float, float], ...] = ()

    def station(self, at: Point, along: Point, strict: bool) -> float | None:
        """Exactly how far along a unit direction the feature lies that is shown at a point; None where there is none.

        strict: the feature must be at the point itself, unless it is the outermost of all, which a datum line touches;
        else it may lie anywhere square to the direction.
        """
        wanted = _dot(at, along)
        near = [s for s in self._at(at, along) if abs(s - wanted) <= FOUND]
        if not near:
            stations = self._stations(along)
            allowed = {min(stations), max(stations)} if strict and stations else stations
            near = [s for s in allowed if abs(s - wanted) <= FOUND]
        return min(near, key=lambda s: abs(s - wanted), default=None)

    def _at(self, at: Point, along: Point) -> list[float]:
        found = [_dot(p, along) for p in (*self.points, *self.middles) if math.dist(p, at) <= FOUND]
        for p, q in self.lines:
            square = abs(_dot((q[0] - p[0], q[1] - p[1]), along)) <= _PARALLEL * max(math.dist(p, q), 1.0)
            if square and _off(at, p, q) <= FOUND:
                found.append(_dot(p, along))
        for centre, radius in self.circles:
            if math.dist(centre, at) <= FOUND:
                found.append(_dot(centre, along))
            found += [_dot(centre, along) + s * radius for s in (-1, 1) if on_circle(at, centre, radius)]
        return found

    def _stations(self, along: Point) -> list[float]:
        return [_dot(p, along) for p in self.points]

    def radii(self, centre: Point) -> list[float]:
        """Radii of the circles about a point."""
        return [r for c, r in self.circles if math.dist(c, centre) <= FOUND]

    def depths(self, centre: Point, radius: float) -> list[float]:
        """Of the round hole about a point, if it has that radius."""
        walls = [w for c, r, *w in self.bores if math.dist(c, centre) <= FOUND and abs(r - radius) <= FOUND]
        return [max(high for _, high in walls) - min(low for low, _ in walls)] if walls else []

    def angle(self, at: Point, start: float, end: float) -> float | None:
        """The angle at a point between two sides that leave it at about these directions, degrees.

        A side of which the solid has no line is taken as it is given if it is level or upright: an angle to square.
        """
        sides = [self._direction(at, turn) for turn in (start, end)]
        if sides == [None, None]:
            return None
        exact = [s if s is not None else t for s, t in zip(sides, (start, end), strict=True)]
        if any(s is None and t % 90.0 for s, t in zip(sides, (start, end), strict=True)):
            return None
        return (exact[1] - exact[0]) % 360.0

    def _direction(self, at: Point, turn: float) -> float | None:
        for p, q in self.lines:
            for here, there in ((p, q), (q, p)):
                if math.dist(here, at) <= FOUND:
                    found = math.degrees(math.atan2(there[1] - here[1], there[0] - here[0]))
                    if abs((found - turn + 180.0) % 360.0 - 180.0) <= _SIDE:
                        return turn + (found - turn + 180.0) % 360.0 - 180.0
        return None


def together(found: Iterable[Features]) -> Features:
    """All that several views of the same direction offer."""
    each = list(found)
    return Features(
        tuple(p for f in each for p in f.points),
        tuple(x for f in each for x in f.lines),
        tuple(c for f in each for c in f.circles),
        tuple(m for f in each for m in f.middles),
        tuple(b for f in each for b in f.bores),
    )


def on_circle(at: Point, centre: Point, radius: float) -> bool:
    """Does a point lie on a circle?"""
    return abs(math.dist(at, centre) - radius) <= FOUND


def _dot(p: Point, along: Point) -> float:
    return p[0] * along[0] + p[1] * along[1]


def _off(at: Point, p: Point, q: Point) -> float:
    """How far a point lies off a straight line between two others."""
    u, v = q[0] - p[0], q[1] - p[1]
    share = ((at[0] - p[0]) * u + (at[1] - p[1]) * v) / (u * u + v * v) if u or v else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(at, (p[0] + share * u, p[1] + share * v))
