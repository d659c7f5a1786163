"""What a view of a solid offers to be measured: corners, faces seen edge-on, circles, middles; and what it measures."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from drawings.paper.measured import Point

#: A feature is where a drawing says it is if it lies within this of it, mm: far finer than any printed place.
FOUND = 0.02
_PARALLEL = 1e-6
#: A side of an angle is taken to be the one meant if its direction is within this of it, degrees.
_SIDE = 0.5
#: A side is produced no further than this to a corner that is gone, mm, and meets another at no less than this (sine).
_PRODUCED, _ASKEW = 60.0, 0.05
#: Two sides are one and the same line within this, degrees.
_SAME = 1e-6

#: Rows of numbers, one for each feature.
Rows = Any


@dataclass(frozen=True)
class Features:
    """In view millimetres: corners, straight lines (faces seen edge-on) by their ends, circles by centre and radius.

    bores: round walls seen end-on, by centre, radius and from where to where along the line of sight. middles: of
    faces and of straight edges, which is where slots are measured to. edges: straight edges by their ends.
    """

    points: tuple[Point, ...]
    lines: tuple[tuple[Point, Point], ...]
    circles: tuple[tuple[Point, float], ...]
    middles: tuple[Point, ...]
    bores: tuple[tuple[Point, float, float, float], ...] = ()
    edges: tuple[tuple[Point, Point], ...] = ()

    def station(self, at: Point, along: Point, strict: bool) -> float | None:
        """Exactly how far along a unit direction the feature lies that is shown at a point; None where there is none.

        strict: the feature must be at the point itself, unless it is the outermost of all, which a datum line touches,
        or the point is where two features or two sides produced meet, which is how a corner is drawn that another cut
        took away; else it may lie anywhere square to the direction, and the middle of all counts too: a centre line.
        """
        wanted, stations = _dot(at, along), self._corners @ along
        near = _nearest(self._at(at, along), wanted)
        if near is None and len(stations):
            ends = (float(stations.min()), float(stations.max()))
            produced = not strict or self._level(at, along)
            near = _nearest([*ends, *(stations if produced else ())], wanted)
            if near is None and strict:
                near = _nearest(self._produced(at, along), wanted)
            if near is None and not strict:
                near = _nearest([(ends[0] + ends[1]) / 2.0], wanted)
        return near

    def _produced(self, at: Point, along: Point) -> Iterator[float]:
        """Stations of the corner that two sides make if they are produced, where other work took it away."""
        sides = [(p, q) for p, q in (*self.lines, *self.edges) if _leads_to(at, p, q)]
        for n, (p, q) in enumerate(sides):
            for r, s in sides[n + 1 :]:
                yield from (_dot(met, along) for met in _crossing(p, q, r, s) if math.dist(met, at) <= FOUND)

    def _level(self, at: Point, along: Point) -> bool:
        """Is there a corner square across from a point?"""
        across = (-along[1], along[0])
        return _nearest(self._corners @ across, _dot(at, across)) is not None

    @cached_property
    def _corners(self) -> Rows:
        return np.array(self.points, dtype=float).reshape(-1, 2)

    @cached_property
    def _spots(self) -> Rows:
        return np.array((*self.points, *self.middles), dtype=float).reshape(-1, 2)

    @cached_property
    def _edges(self) -> Rows:
        return np.array(self.lines, dtype=float).reshape(-1, 2, 2)

    @cached_property
    def _rounds(self) -> Rows:
        return np.array([(*c, r) for c, r in self.circles], dtype=float).reshape(-1, 3)

    def _at(self, at: Point, along: Point) -> list[float]:
        """Stations of all that is shown at a point."""
        spots, rounds = self._spots, self._rounds
        found = list(spots[_apart(spots, at) <= FOUND] @ along)
        found += list(self._square(at, along))
        off = _apart(rounds[:, :2], at)
        found += list(rounds[off <= FOUND, :2] @ along)
        for x, y, radius in rounds[abs(off - rounds[:, 2]) <= FOUND]:
            found += [_dot((x, y), along) + s * radius for s in (-1.0, 1.0)]
        return found

    def _square(self, at: Point, along: Point) -> Rows:
        """Stations of the lines through a point that run square to a direction."""
        start, step = self._edges[:, 0], self._edges[:, 1] - self._edges[:, 0]
        length = np.hypot(step[:, 0], step[:, 1])
        square = abs(step @ along) <= _PARALLEL * np.maximum(length, 1.0)
        start, step, length = start[square], step[square], length[square]
        share = np.clip(((np.asarray(at) - start) * step).sum(axis=1) / np.maximum(length**2, 1e-12), 0.0, 1.0)
        return (start @ along)[_apart(start + share[:, None] * step, at) <= FOUND]

    def radii(self, centre: Point) -> list[float]:
        """Radii of the circles about a point."""
        return [r for c, r in self.circles if math.dist(c, centre) <= FOUND]

    def depths(self, centre: Point, radius: float) -> list[float]:
        """Of the round hole about a point, if it has that radius."""
        walls = [w for c, r, *w in self.bores if math.dist(c, centre) <= FOUND and abs(r - radius) <= FOUND]
        return [max(high for _, high in walls) - min(low for low, _ in walls)] if walls else []

    def ordinate(self, chord: tuple[Point, Point], at: Point) -> tuple[float, float] | None:
        """How far a point of a circle is from the middle of its chord, along it, and how high over it.

        None where the chord's ends and the point are not on one circle.
        """
        for centre, radius in self.circles:
            if all(on_circle(p, centre, radius) for p in (*chord, at)):
                (ax, ay), (bx, by) = (_drawn_to(p, centre, radius) for p in chord)
                x, y = _drawn_to(at, centre, radius)
                long = math.dist((ax, ay), (bx, by))
                ux, uy = (bx - ax) / long, (by - ay) / long
                dx, dy = x - (ax + bx) / 2.0, y - (ay + by) / 2.0
                return abs(dx * ux + dy * uy), abs(dy * ux - dx * uy)
        return None

    def angle(self, at: Point, start: float, end: float) -> float | None:
        """The angle at a point between two sides that leave it at about these directions, degrees.

        A side of which the solid has no line is taken as it is given if it is level or upright: an angle to square.
        """
        sides = [self._direction(at, turn) for turn in (start, end)]
        if sides == [None, None]:
            return None
        a, b = sides
        if a is not None and b is not None and abs(a - b) < _SAME:
            # one line can't be both sides: the square one is then as it is given
            sides = [None if t % 90.0 == 0.0 else s for s, t in zip(sides, (start, end), strict=True)]
        exact = [s if s is not None else t for s, t in zip(sides, (start, end), strict=True)]
        if any(s is None and t % 90.0 for s, t in zip(sides, (start, end), strict=True)):
            return None
        return (exact[1] - exact[0]) % 360.0

    def _direction(self, at: Point, turn: float) -> float | None:
        """Exactly which way a line leaves a point of it, its end or not; of several the one nearest to the turn."""
        offs = []
        for p, q in (*self.lines, *self.edges):
            for here, there in ((p, q), (q, p)):
                found = math.degrees(math.atan2(there[1] - here[1], there[0] - here[0]))
                off = (found - turn + 180.0) % 360.0 - 180.0
                if abs(off) <= _SIDE and math.dist(there, at) > FOUND and _on_line(at, here, there):
                    offs.append(off)
        return turn + min(offs, key=abs) if offs else None


def together(found: Iterable[Features]) -> Features:
    """All that several solids offer in one view."""
    each = list(found)
    return Features(
        tuple(p for f in each for p in f.points),
        tuple(x for f in each for x in f.lines),
        tuple(c for f in each for c in f.circles),
        tuple(m for f in each for m in f.middles),
        tuple(b for f in each for b in f.bores),
        tuple(e for f in each for e in f.edges),
    )


def on_circle(at: Point, centre: Point, radius: float) -> bool:
    """Does a point lie on a circle?"""
    return abs(math.dist(at, centre) - radius) <= FOUND


def _on_line(at: Point, p: Point, q: Point) -> bool:
    """Does a point lie on the straight line between two?"""
    (x, y), (dx, dy) = (at[0] - p[0], at[1] - p[1]), (q[0] - p[0], q[1] - p[1])
    share = min(max((x * dx + y * dy) / max(dx * dx + dy * dy, 1e-12), 0.0), 1.0)
    return math.hypot(x - share * dx, y - share * dy) <= FOUND


def _leads_to(at: Point, p: Point, q: Point) -> bool:
    """Does a line lead to a point, if it is produced by so much?"""
    (x, y), (dx, dy), long = (at[0] - p[0], at[1] - p[1]), (q[0] - p[0], q[1] - p[1]), math.dist(p, q)
    if long <= FOUND or abs(x * dy - y * dx) > FOUND * long:
        return False
    return -_PRODUCED * long <= x * dx + y * dy <= (long + _PRODUCED) * long


def _crossing(p: Point, q: Point, r: Point, s: Point) -> Iterator[Point]:
    """Where two lines meet that are not all but parallel."""
    ax, ay, bx, by = q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]
    turned = ax * by - ay * bx
    if abs(turned) > _ASKEW * math.hypot(ax, ay) * math.hypot(bx, by):
        t = ((r[0] - p[0]) * by - (r[1] - p[1]) * bx) / turned
        yield p[0] + t * ax, p[1] + t * ay


def _drawn_to(at: Point, centre: Point, radius: float) -> Point:
    """The point of a circle nearest to one that is on it but for the last digits."""
    off = math.dist(at, centre)
    return centre[0] + (at[0] - centre[0]) * radius / off, centre[1] + (at[1] - centre[1]) * radius / off


def _nearest(stations: Iterable[float], wanted: float) -> float | None:
    """The station nearest to the one wanted, if it is as near as a feature must be."""
    found = np.asarray(stations if isinstance(stations, np.ndarray) else list(stations), dtype=float)
    if not len(found):
        return None
    nearest = float(found[abs(found - wanted).argmin()])
    return nearest if abs(nearest - wanted) <= FOUND else None


def _apart(points: Rows, at: Point) -> Rows:
    return np.hypot(points[:, 0] - at[0], points[:, 1] - at[1])


def _dot(p: Point, along: Point) -> float:
    return p[0] * along[0] + p[1] * along[1]
