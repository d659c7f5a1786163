"""What a cut takes away, as plain solids that the kernel can make: prisms, turnings, blocks between planes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.errors import DesignError
from model.layout.outline import Edge, Outline
from model.placement import Placement, Vector, dot, scaled

#: How far an open-ended tool runs past the wood, mm, so that no skin is left.
RUN_OUT = 1.0


@dataclass(frozen=True)
class Prism:
    """`outline` in the frame's own x-y plane, carried `height` mm along its z."""

    frame: Placement
    outline: Outline
    height: float


@dataclass(frozen=True)
class Turning:
    """`outline` in the frame's own x-y plane, turned `sweep` radians about the frame's y axis moved to x = `arm`."""

    frame: Placement
    outline: Outline
    arm: float
    sweep: float


@dataclass(frozen=True)
class Plane:
    """The half of space {p : normal . p <= offset}; normal of unit length, offset in mm."""

    normal: Vector
    offset: float

    def flipped(self) -> Plane:
        """The other half."""
        return Plane(scaled(self.normal, -1.0), -self.offset)

    def moved_by(self, distance: float) -> Plane:
        """The same half grown by `distance` mm."""
        return Plane(self.normal, self.offset + distance)

    def mirrored(self, width: float) -> Plane:
        """The plane in the mirror image, y' = width - y."""
        x, y, z = self.normal
        return Plane((x, -y, z), self.offset - y * width)

    def seen_from(self, own: Placement) -> Plane:
        """This plane of the outside, in the coordinates of `own`."""
        return Plane(own.own_direction(self.normal), self.offset - dot(self.normal, own.origin))

    def seen_outside(self, own: Placement) -> Plane:
        """This plane of `own`, in the coordinates outside."""
        normal = own.direction(self.normal)
        return Plane(normal, self.offset + dot(normal, own.origin))


@dataclass(frozen=True)
class Block:
    """A convex block: what lies inside every one of its planes. They must close it off on all sides."""

    planes: tuple[Plane, ...]


@dataclass(frozen=True)
class Leaving:
    """`taken`, but for what is left standing in it: the wood beyond a shoulder, but for the tenon."""

    taken: Prism | Turning | Block
    left: tuple[Prism | Turning | Block, ...]


Removal = Prism | Turning | Block | Leaving


def box(low: Vector, high: Vector) -> tuple[Plane, ...]:
    """The six planes of a box square to the axes, from its least to its greatest corner, mm."""
    axes = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    upper = tuple(Plane(axis, high[i]) for i, axis in enumerate(axes))
    return upper + tuple(Plane(scaled(axis, -1.0), -low[i]) for i, axis in enumerate(axes))


def along(
    ring: Sequence[Edge], name: str, section: Outline, start: float | None = None, stop: float | None = None
) -> Iterator[Removal]:
    """`section` carried along the edges of a ring that bear a name; they follow one another.

    section: (u, v) with u inward from the edge and v up from the back side. start, stop: where on the run of edges
    the cut begins and ends, mm from its beginning; None is right through, past the end where the wood turns away.
    """
    edges = _run(ring, name)
    total = sum(e.length for e in edges)
    begin = -RUN_OUT * _turns_away(_before(ring, edges[0]), edges[0]) if start is None else start
    end = total + RUN_OUT * _turns_away(edges[-1], _after(ring, edges[-1])) if stop is None else stop
    passed = 0.0
    for n, e in enumerate(edges):
        first, last = n == 0, n == len(edges) - 1
        lo = begin - passed if first else max(0.0, begin - passed)
        hi = end - passed if last else min(e.length, end - passed)
        passed += e.length
        if hi > lo:
            yield _along_one(e, section, lo, hi)


def _run(ring: Sequence[Edge], name: str) -> list[Edge]:
    """The edges that bear a name, in the order they follow one another round the ring. Raises DesignError where
    others lie between them."""
    named = [n for n, e in enumerate(ring) if e.name == name]
    firsts = [n for n in named if ring[n - 1].name != name] or named[:1]
    if len(firsts) > 1:
        raise DesignError(f'the edges called "{name}" do not follow one another; give each stretch a name of its own')
    return [ring[(firsts[0] + k) % len(ring)] for k in range(len(named))]


def _before(ring: Sequence[Edge], edge: Edge) -> Edge:
    return ring[ring.index(edge) - 1]


def _after(ring: Sequence[Edge], edge: Edge) -> Edge:
    return ring[(ring.index(edge) + 1) % len(ring)]


def _turns_away(here: Edge, there: Edge) -> bool:
    """Whether the outline turns to the left from one edge to the next, so that past it there is no wood."""
    (ux, uy), (vx, vy) = here.direction(1.0), there.direction(0.0)
    return ux * vy - uy * vx > 1e-6


def _along_one(e: Edge, section: Outline, lo: float, hi: float) -> Removal:
    if e.straight:
        d = e.direction(0.0)
        origin = (e.start[0] + lo * d[0], e.start[1] + lo * d[1], 0.0)
        return Prism(_section_frame(origin, d), section, hi - lo)
    start = max(lo, 0.0)
    p, d = e.point(start / e.length), e.direction(start / e.length)
    # the centre lies on the inward side (u > 0) of an edge that turns left
    arm = math.copysign(e.radius, e.bulge)
    return Turning(_section_frame((*p, 0.0), d), section, arm, (min(hi, e.length) - start) / e.radius)


def _section_frame(origin: tuple[float, float, float], d: tuple[float, float]) -> Placement:
    """Own x inward from the edge, own y up, own z along the edge."""
    return Placement(origin, (-d[1], d[0], 0.0), (0.0, 0.0, 1.0), (d[0], d[1], 0.0))
