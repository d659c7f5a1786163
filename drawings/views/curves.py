"""What a drawn view is made of: plane curves in view millimetres, and the directions a piece is looked at from.

View x runs to the right and view y up on the paper. Nothing here needs the CAD kernel.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float]
Vector = tuple[float, float, float]
Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, order=True)
class Segment:
    """A straight line from `p` to `q`, mm; `p` is the smaller of the two (left, then lower)."""

    p: Point
    q: Point

    @property
    def length(self) -> float:
        """Length, mm."""
        return math.dist(self.p, self.q)

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top, mm."""
        return _box((self.p, self.q))


@dataclass(frozen=True, slots=True, order=True)
class CircularArc:
    """An arc run anticlockwise from `start_deg` (0 to 360) to `end_deg` (up to 360 beyond the start), mm."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float

    @property
    def full(self) -> bool:
        """Is it a whole circle?"""
        return self.end_deg - self.start_deg >= 360.0

    @property
    def length(self) -> float:
        """Length along the arc, mm."""
        return self.radius * math.radians(self.end_deg - self.start_deg)

    def at(self, degrees: float) -> Point:
        """The point of the circle at an angle."""
        turn = math.radians(degrees)
        return self.centre[0] + self.radius * math.cos(turn), self.centre[1] + self.radius * math.sin(turn)

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top of the arc itself (not of its circle), mm."""
        first = math.ceil(self.start_deg / 90.0)
        last = math.floor(self.end_deg / 90.0)
        turns = [self.start_deg, self.end_deg, *(90.0 * quarter for quarter in range(first, last + 1))]
        return _box(self.at(turn) for turn in turns)


@dataclass(frozen=True, slots=True, order=True)
class Chain:
    """A curve that is neither line nor circle, as a polyline within `tolerance.FACET` of the true one, mm."""

    points: tuple[Point, ...]

    @property
    def length(self) -> float:
        """Length of the polyline, mm."""
        return sum(math.dist(p, q) for p, q in zip(self.points, self.points[1:], strict=False))

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top, mm."""
        return _box(self.points)


Curve = Segment | CircularArc | Chain


@dataclass(frozen=True)
class ViewSpec:
    """A way of looking at a piece.

    `direction` is the unit vector from the piece to the eye, `right` the unit vector of view x; both in piece
    coordinates and at right angles to each other.
    """

    name: str
    direction: Vector
    right: Vector

    @property
    def up(self) -> Vector:
        """The unit vector of view y in piece coordinates."""
        (a, b, c), (d, e, f) = self.direction, self.right
        return b * f - c * e + 0.0, c * d - a * f + 0.0, a * e - b * d + 0.0

    @property
    def oblique(self) -> bool:
        """Does it look along none of the piece's axes, as a pictorial view does?"""
        return max(abs(component) for component in self.direction) < 1.0 - 1e-9

    def project(self, point: Vector) -> Point:
        """Where a point of the piece falls in the view, mm."""
        return _dot(point, self.right), _dot(point, self.up)


@dataclass(frozen=True)
class View(ViewSpec):
    """A piece as seen from one direction: merged curves, what can be seen and what lies behind."""

    visible: tuple[Curve, ...] = ()
    hidden: tuple[Curve, ...] = ()

    @cached_property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top of everything drawn, mm; four zeros when nothing is."""
        boxes = [curve.bounds for curve in (*self.visible, *self.hidden)]
        if not boxes:
            return 0.0, 0.0, 0.0, 0.0
        left, bottom, right, top = zip(*boxes, strict=True)
        return min(left), min(bottom), max(right), max(top)


def looking(name: str, direction: Vector) -> ViewSpec:
    """The view from `direction` (of any length, not vertical) with upright things upright on the paper.

    Raises ValueError for a vertical direction, which leaves view x undefined.
    """
    level = math.hypot(direction[0], direction[1])
    if level < 1e-9:
        raise ValueError(f"view {name!r}: a vertical direction needs its own right vector, use ViewSpec")
    size = math.hypot(*direction)
    toward = (direction[0] / size, direction[1] / size, direction[2] / size)
    return ViewSpec(name, toward, (-direction[1] / level + 0.0, direction[0] / level, 0.0))


FRONT = ViewSpec("front", (0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
BACK = ViewSpec("back", (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))
LEFT = ViewSpec("left", (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
RIGHT = ViewSpec("right", (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
TOP = ViewSpec("top", (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
PICTORIAL = looking("pictorial", (0.55, -0.75, 0.45))


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _box(points: Iterable[Point]) -> Bounds:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
