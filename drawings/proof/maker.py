"""Makes what a part has again at the printed places: points, planes, stretches, outlines."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from drawings.paper.measured import Vector
from drawings.parts.relief_corners import relieved_again, without_reliefs
from drawings.proof.printed_numbers import IncompleteError, Numbers
from model.cuts.removal import Plane
from model.layout.outline import Edge, Outline, Point
from model.part import Part

_ALIGNED = 1e-6
#: An arc whose chord is longer than this, in radii, is made from its centre too.
_WIDE = 1.5


@dataclass(frozen=True)
class Maker:
    """Makes what a part has again, at the printed places. sawn: the outline that its sheet shows."""

    part: Part
    numbers: Numbers
    sawn: Outline

    def x(self, value: float) -> float:
        return self.numbers.place(0, value)

    def y(self, value: float) -> float:
        return self.numbers.place(1, value)

    def z(self, value: float) -> float:
        return self.numbers.place(2, value)

    def point(self, p: Point) -> Point:
        return self.x(p[0]), self.y(p[1])

    def past(self, axis: int, value: float) -> float:
        """A station, or as far past the part's end as it lies."""
        low, high = self.numbers.ends[axis]
        end = min(max(value, low), high)
        return self.numbers.place(axis, end) + value - end

    def level(self, plane: Plane) -> Plane:
        """A plane square to one of the part's axes; raises IncompleteError for any other."""
        axis = axis_of(plane.normal)
        sign = plane.normal[axis]
        return replace(plane, offset=sign * self.numbers.place(axis, sign * plane.offset))

    def stretch(self, middle: Vector, direction: Vector, size: float) -> tuple[float, float]:
        """The printed middle and size of a stretch of `size` mm about a point, along one of the axes."""
        axis = axis_of(direction)
        low, high = (self.numbers.place(axis, middle[axis] + s * size / 2.0) for s in (-1.0, 1.0))
        return (low + high) / 2.0, high - low

    def outline(self, outline: Outline) -> Outline:
        """Corners by their places, arcs by their radii, hollow or round as drawn; relieved corners as square ones."""
        plain, reliefs = without_reliefs(outline)
        made = self._plain(plain)
        return relieved_again(made, {n: (self.numbers.radius(e), e.bulge) for n, e in reliefs.items()})

    def blank(self, outline: Outline) -> Outline:
        """The outline of a blank of which some is sawn off: that lies as far past what is left as it does."""
        if all(self._within(p) for p in outline.corners):
            return self.outline(outline)
        return replace(outline, corners=tuple((self.past(0, x), self.past(1, y)) for x, y in outline.corners))

    def _within(self, p: Point) -> bool:
        ends = self.numbers.ends
        return all(low - _ALIGNED < v < high + _ALIGNED for v, (low, high) in zip(p, ends[:2], strict=True))

    def _plain(self, outline: Outline) -> Outline:
        corners = tuple(self.point(p) for p in outline.corners)
        ends = corners[1:] + corners[:1]
        bulges = tuple(self._bulge(e, p, q) for e, p, q in zip(outline.edges, corners, ends, strict=True))
        return Outline(corners, bulges, outline.names)

    def _bulge(self, edge: Edge, p: Point, q: Point) -> float:
        if edge.straight:
            return 0.0
        radius = self.numbers.radius(edge)
        if edge.chord < _WIDE * edge.radius:
            return bulge_of(radius, p, q, edge.bulge)
        # of nearly half a circle or more, ends and radius say too little of how far it reaches: the centre does
        (cx, cy), half = self.point(edge.centre), math.dist(p, q) / 2
        aside = ((cy - p[1]) * (q[0] - p[0]) - (cx - p[0]) * (q[1] - p[1])) / (2 * half)
        return math.copysign((radius - math.copysign(aside, edge.bulge * aside)) / half, edge.bulge)


def bulge_of(radius: float, p: Point, q: Point, like: float) -> float:
    """Of an arc of a radius from p to q, turned and as long round as one with the bulge `like`."""
    sweep = 2 * math.asin(min(1.0, math.dist(p, q) / 2 / radius))
    sweep = math.tau - sweep if abs(like) > 1.0 else sweep
    return math.copysign(math.tan(sweep / 4), like)


def axis_of(direction: Vector) -> int:
    """The axis, 0 to 2, along which a unit direction lies. Raises IncompleteError if it leans."""
    found = next((k for k in range(3) if abs(abs(direction[k]) - 1.0) < _ALIGNED), None)
    if found is None:
        raise IncompleteError(f"what lies along {direction} can't be made again from stations yet")
    return found
