"""Where a hinge lies: the gap between two flat sides that face each other, and the line its pin turns on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from model.cuts.gains import HingeGain
from model.cuts.removal import Plane
from model.cuts.through import Notch, Opening
from model.errors import DesignError
from model.joints.joint import Stood, clean
from model.joints.meetings.whereabouts import whereabouts
from model.layout.outline import Edge
from model.placement import Vector, added, cross, dot, scaled
from model.tolerance import CONTACT

#: Directions that lean less than this (as the sine) count as square or parallel; 0.01 mm over 1 m.
SQUARE = 1e-5
#: Two sides further apart than this don't hang on one hinge, mm; nor do sides that are out of flush by more.
WIDEST_GAP, FLUSH = 10.0, 0.5


@dataclass(frozen=True)
class HingeLine:
    """The gap `normal` points from `first` into `second`, through; `knuckle` points out where the knuckle shows.

    low, high: along the pin, where both sides are; level: along `knuckle`, where both end flush; breadth: how far both
    reach down from there; all mm from the piece's origin, along those directions. face: whether the first part comes
    to the gap with its face or back, not with an edge.
    """

    first: Stood
    second: Stood
    normal: Vector
    knuckle: Vector
    along: Vector
    start: float
    gap: float
    low: float
    high: float
    level: float
    breadth: float
    face: bool

    @property
    def length(self) -> float:
        return clean(self.high - self.low)

    @property
    def closing(self) -> Vector:
        """The way the first part comes home: down on the other, or back into its opening."""
        return self.normal if self.face else _exact(scaled(self.knuckle, -1.0))

    def pin(self, s: float, proud: float) -> Vector:
        """A point of the pin, in the middle of the gap and `proud` mm out of the flush sides, in the piece."""
        return self.point(s, self.start + self.gap / 2.0, self.level + proud)

    def gain(self, part: Stood, s: float, length: float, leaf: float, depth: float) -> HingeGain:
        """The gain for a leaf in one of the two parts, `s` the place of its middle along the pin."""
        into, plane = self.normal, self.start + self.gap
        if part is self.first:
            into, plane = scaled(self.normal, -1.0), self.start
        x, y, z = part.at.own_point(self.point(s, plane, self.level))
        own = [_exact(part.at.own_direction(d)) for d in (into, scaled(self.knuckle, -1.0))]
        return HingeGain((clean(x), clean(y), clean(z)), own[0], own[1], length, leaf, depth)

    def point(self, along: float, across: float, up: float) -> Vector:
        """A point of the piece by its three coordinates: along the pin, across the gap, and toward the knuckle, mm."""
        parts = ((self.along, along), (self.normal, across), (self.knuckle, up))
        x, y, z = added(*(scaled(d, k) for d, k in parts))
        return (clean(x), clean(y), clean(z))


def hinge_line(first: Stood, second: Stood, knuckle: Vector) -> HingeLine:
    """The narrowest gap between flat sides of two parts that stand shut, an edge of an opening among them, on which a
    hinge can have its knuckle that way. Raises DesignError if there is none or if they are not flush there."""
    lines = [
        found
        for a in _sides(first)
        for b in _sides(second)
        if (found := _between(first, second, a, b, knuckle)) is not None
    ]
    if not lines:
        raise DesignError(
            f"{first.name} and {second.name} have no two sides that face each other within {WIDEST_GAP:g} mm and are "
            f"square to where the knuckle is to show; {whereabouts(first, second)}"
        )
    line, out_of_flush = min(lines, key=lambda found: (round(found[0].gap, 6), found[1], -found[0].length))
    if out_of_flush > FLUSH:
        raise DesignError(
            f"{first.name} and {second.name} are {out_of_flush:.2f} mm out of flush where the knuckle is to show; "
            f"hinges need them flush within {FLUSH:g} mm"
        )
    return line


@dataclass(frozen=True)
class _Side:
    """One flat side in the piece: the wood inside `plane`; edge: where it is an edge, in the part's own frame."""

    part: Stood
    plane: Plane
    edge: Edge | None

    def extent(self, direction: Vector) -> tuple[float, float]:
        """Least and greatest reach along a direction of the piece that lies in the side."""
        x, y, z = self.part.at.own_direction(direction)
        start, rise = dot(direction, self.part.at.origin), z * self.part.wood.thickness
        if self.edge is not None:
            low, high = sorted(x * p[0] + y * p[1] for p in (self.edge.start, self.edge.end))
            return start + low + min(0.0, rise), start + high + max(0.0, rise)
        size = math.hypot(x, y)
        low, high = self.part.wood.outline.extent((x / size, y / size))
        return start + low * size, start + high * size


def _sides(part: Stood) -> Iterator[_Side]:
    wood = part.wood
    yield _Side(part, Plane((0.0, 0.0, 1.0), wood.thickness).seen_outside(part.at), None)
    yield _Side(part, Plane((0.0, 0.0, -1.0), 0.0).seen_outside(part.at), None)
    holes = [e for c in wood.cuts if isinstance(c, Opening | Notch) for e in c.outline.edges]
    for edges, sense in ((wood.outline.edges, 1.0), (holes, -1.0)):
        for e in edges:
            if e.straight:
                dx, dy = e.direction(0.0)
                n = (sense * dy, -sense * dx, 0.0)
                yield _Side(part, Plane(n, dot(n, (*e.start, 0.0))).seen_outside(part.at), e)


def _between(first: Stood, second: Stood, a: _Side, b: _Side, knuckle: Vector) -> tuple[HingeLine, float] | None:
    """The hinge line between two sides, and how far they are out of flush; None if they don't face each other."""
    normal = a.plane.normal
    if dot(normal, b.plane.normal) > -1.0 + SQUARE**2 or abs(dot(normal, knuckle)) > SQUARE:
        return None
    gap = -b.plane.offset - a.plane.offset
    if not -CONTACT <= gap <= WIDEST_GAP:
        return None
    # right-handed about the pin, the first part's wood swings out toward the knuckle
    along = cross(knuckle, normal)
    low, high = _common(a, b, along)
    bottom, _ = _common(a, b, knuckle)
    tops = (a.extent(knuckle)[1], b.extent(knuckle)[1])
    if high - low < CONTACT or min(tops) - bottom < CONTACT:
        return None
    line = HingeLine(
        first,
        second,
        _exact(normal),
        _exact(knuckle),
        _exact(along),
        a.plane.offset,
        clean(max(gap, 0.0)),
        low,
        high,
        min(tops),
        min(tops) - bottom,
        a.edge is None,
    )
    return line, abs(tops[0] - tops[1])


def _common(a: _Side, b: _Side, direction: Vector) -> tuple[float, float]:
    (a0, a1), (b0, b1) = a.extent(direction), b.extent(direction)
    return max(a0, b0), min(a1, b1)


def _exact(v: Vector) -> Vector:
    """A direction without noise; still a unit vector to 1e-12."""
    return (round(v[0], 12) + 0.0, round(v[1], 12) + 0.0, round(v[2], 12) + 0.0)
