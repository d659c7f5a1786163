"""How a straight edge of one placed part runs into a straight edge of another, their faces parallel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.errors import DesignError
from model.joints.joint import Stood, clean
from model.joints.meetings.whereabouts import whereabouts
from model.layout.outline import Edge, Point
from model.part import Part
from model.placement import Vector, added, dot, scaled
from model.tolerance import CONTACT, SAME_POINT

#: Edges and faces that lean less than this (as the sine) count as parallel; 0.01 mm over 1 m.
PARALLEL = 1e-5


@dataclass(frozen=True)
class Edgewise:
    """`first` runs with its edge `lip` into the edge `entered` of `second`, `run` mm past it.

    low, high: where along the edge entered the first part's wood lies, mm from that edge's start. Depths are measured
    from the edge entered, into the second part; heights in the second part's own frame, from its back side.
    """

    first: Stood
    second: Stood
    lip: Edge
    entered: Edge
    run: float
    low: float
    high: float

    @property
    def out(self) -> Vector:
        """Out of the edge entered, in the piece."""
        return self.second.at.direction((*_outward(self.entered), 0.0))

    @property
    def along(self) -> Vector:
        """Along the edge entered, in the piece."""
        return self.second.at.direction((*self.entered.direction(0.0), 0.0))

    @property
    def closing(self) -> Vector:
        """The way the first part travels home, in the piece."""
        return scaled(self.out, -1.0)

    def point(self, along: float, into: float, height: float) -> Vector:
        """In the piece."""
        (x, y), (dx, dy), (nx, ny) = self.entered.start, self.entered.direction(0.0), _outward(self.entered)
        return self.second.at.point((x + along * dx - into * nx, y + along * dy - into * ny, height))

    def heights(self, low: float, high: float) -> tuple[float, float]:
        """Two heights of the first part's own frame, as heights in the second's, the lesser first."""
        seen = self.first.at.seen_from(self.second.at)
        a, b = (clean(seen.point((*self.lip.start, z))[2]) for z in (low, high))
        return (min(a, b), max(a, b))

    def stops(self, low: float, high: float) -> tuple[float | None, float | None]:
        """Where a cut from `low` to `high` along the edge entered starts and stops; None where it runs out."""
        start = None if low <= SAME_POINT else clean(low)
        stop = None if high >= self.entered.length - SAME_POINT else clean(high)
        return start, stop

    def in_first(self, p: Vector) -> Vector:
        """A point of the piece in the first part's own frame."""
        return _clean(self.first.at.own_point(p))

    def in_second(self, p: Vector) -> Vector:
        """A point of the piece in the second part's own frame."""
        return _clean(self.second.at.own_point(p))


def edgewise(first: Stood, second: Stood) -> Edgewise:
    """How `first` runs edgewise into `second`. Raises DesignError if their faces are not parallel, or if no straight
    edge of it runs into one of the other's, parallel to it."""
    if abs(dot(first.at.z, second.at.z)) < 1.0 - PARALLEL**2:
        raise DesignError(f"the faces of {first.name} and {second.name} are not parallel; a groove in an edge needs it")
    found = [e for edge in second.wood.outline.edges if (e := _entering(first, second, edge)) is not None]
    if not found:
        raise DesignError(
            f"{first.name} does not come edgewise to a straight edge of {second.name}; {whereabouts(first, second)}"
        )
    best = min(found, key=lambda e: abs(e.run))
    if best.run < CONTACT:
        raise DesignError(
            f"{first.name} stops {-best.run:.2f} mm short of {second.name}; it must run into the groove in its edge"
        )
    if sum(e.name == best.entered.name for e in second.wood.outline.edges) > 1:
        raise DesignError(
            f'{second.name} has several edges called "{best.entered.name}"; give the one that {first.name} enters a '
            "name of its own"
        )
    return best


def reach(part: Stood, direction: Vector) -> tuple[float, float]:
    """Least and greatest reach of a flat part along a direction of the piece, mm."""
    x, y, z = part.at.own_direction(direction)
    size = math.hypot(x, y)
    low, high = part.wood.outline.extent((x / size, y / size)) if size > PARALLEL else (0.0, 0.0)
    start, rise = dot(direction, part.at.origin), z * part.wood.thickness
    return start + low * size + min(0.0, rise), start + high * size + max(0.0, rise)


def _entering(first: Stood, second: Stood, edge: Edge) -> Edgewise | None:
    if not edge.straight:
        return None
    out = second.at.direction((*_outward(edge), 0.0))
    foot = second.at.point((*edge.start, 0.0))
    level = dot(out, foot)
    low, high = reach(first, out)
    back, _ = reach(second, out)
    run = level - low
    # the first part must lie mostly outside, and not come out of the second's other side
    if (low + high) / 2.0 < level or run >= level - back:
        return None
    span = _span(first, second, edge, max(low + CONTACT, level))
    if span[1] - span[0] < CONTACT or _height(first, second) is None:
        return None
    lip = _lip(first, out, low)
    if lip is None:
        raise DesignError(
            f"{first.name} comes to {second.name} with no straight edge parallel to it; a groove needs one"
        )
    return Edgewise(first, second, lip, edge, clean(run), clean(span[0]), clean(span[1]))


def _span(first: Stood, second: Stood, edge: Edge, level: float) -> tuple[float, float]:
    """Where along an edge what lies within `level` of the first part is, and that edge is too."""
    out, along = (second.at.direction((*v, 0.0)) for v in (_outward(edge), edge.direction(0.0)))
    n, d = (_flat(first, v) for v in (out, along))
    origin = first.at.origin
    low, high = first.wood.outline.extent(d, [(n, level - dot(out, origin))])
    begins = dot(along, added(origin, scaled(second.at.point((*edge.start, 0.0)), -1.0)))
    return max(0.0, low + begins), min(edge.length, high + begins)


def _height(first: Stood, second: Stood) -> float | None:
    """How much of their thickness the two have in common, or None."""
    low, high = reach(first, second.at.z)
    bottom, top = reach(second, second.at.z)
    common = min(high, top) - max(low, bottom)
    return common if common > CONTACT else None


def _lip(first: Stood, out: Vector, level: float) -> Edge | None:
    n = _flat(first, out)
    depth = level - dot(out, first.at.origin)
    for e in first.wood.outline.edges:
        facing = e.straight and all(abs(a + b) < PARALLEL for a, b in zip(_outward(e), n, strict=True))
        if facing and abs(n[0] * e.start[0] + n[1] * e.start[1] - depth) < CONTACT:
            return e
    return None


def _outward(e: Edge) -> Point:
    dx, dy = e.direction(0.0)
    return (dy, -dx)


def _flat(part: Stood, direction: Vector) -> Point:
    x, y, _ = part.at.own_direction(direction)
    return (x, y)


def _clean(p: Vector) -> Vector:
    return (clean(p[0]), clean(p[1]), clean(p[2]))


def grain_along(part: Part, edge: Edge) -> bool:
    """Whether an edge runs more along the part's grain than across it."""
    dx, dy = edge.direction(0.0)
    return abs(dx) > abs(dy) + PARALLEL
