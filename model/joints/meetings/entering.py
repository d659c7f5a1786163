"""How an end of one placed part runs into a side of another: which end, which side, at whatever slant."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from model.cuts.removal import Plane
from model.cuts.tenons import End
from model.errors import DesignError
from model.joints.joint import Stood
from model.joints.meetings.whereabouts import whereabouts
from model.layout.outline import Edge, Point
from model.part import Part
from model.placement import Vector, added, dot, scaled, tidy
from model.tolerance import CONTACT, SAME_POINT

#: Ends that lean more than this from square to a side, degrees, are not tenoned (common practice: the grain of the
#: tenon, or the tip of the shoulder, gets too short).
MOST_LEAN = 60.0


@dataclass(frozen=True)
class FlatSide:
    """A flat side of a part in its own frame, the wood inside `plane`; edge: where it is an edge of the outline."""

    name: str
    plane: Plane
    edge: Edge | None = None

    def holds(self, part: Part, p: Vector, inside: float = 0.0) -> bool:
        """Whether a point of its plane lies on it, `inside` mm or more from its rim."""
        if self.edge is None:
            return part.outline.contains(p[:2]) and (inside == 0.0 or from_rim(part, p[:2]) > inside)
        d = self.edge.direction(0.0)
        s = d[0] * (p[0] - self.edge.start[0]) + d[1] * (p[1] - self.edge.start[1])
        slack = SAME_POINT - inside
        return -slack <= s <= self.edge.length + slack and -slack <= p[2] <= part.thickness + slack


@dataclass(frozen=True)
class Entry:
    """`first` runs with one end into the side `near` of `second`, toward its side `far`, both in second's own frame.

    sense: 1 for the right end, -1 for the left. Points (y, z) are in the first part's own frame, x along its grain.
    """

    first: Stood
    second: Stood
    near: FlatSide
    far: FlatSide
    sense: float

    @property
    def end(self) -> End:
        return "right" if self.sense > 0.0 else "left"

    @property
    def axis(self) -> Vector:
        """The way the first part travels home, in the piece."""
        return scaled(self.first.at.x, self.sense)

    @property
    def normal(self) -> Vector:
        """Out of the side entered, in the piece."""
        return self.second.at.direction(self.near.plane.normal)

    @property
    def lean(self) -> float:
        """Between the first part's grain and square to the side, degrees."""
        return math.degrees(math.acos(min(1.0, -dot(self.axis, self.normal))))

    @property
    def shoulder(self) -> Plane:
        """The side entered in the first part's own frame: what stays outside the second part lies inside it."""
        return self._own(self.near.plane).flipped()

    @property
    def exit(self) -> Plane:
        """The side it would come out of in the first part's own frame, the second part inside it."""
        return self._own(self.far.plane)

    @property
    def tip(self) -> float:
        """The end's own x."""
        x0, _, x1, _ = self.first.wood.outline.bounds
        return x1 if self.sense > 0.0 else x0

    @property
    def section(self) -> tuple[float, float]:
        """Least and greatest y of the end where it runs in, of all of it if it stops short."""
        _, y0, _, y1 = self.first.wood.outline.bounds
        if self.run_in(*middle(self)) < -CONTACT:
            return (y0, y1)
        n, z = self.shoulder.normal, self.first.wood.thickness / 2.0
        level = math.hypot(n[0], n[1])
        beyond = ((-n[0] / level, -n[1] / level), (n[2] * z - self.shoulder.offset) / level + CONTACT)
        return self.first.wood.outline.extent((0.0, 1.0), [beyond])

    def run_in(self, y: float, z: float) -> float:
        """How far the end lies past the side entered, along the grain, mm; negative where it stops short."""
        return self.sense * (self.tip - _x_on(self.shoulder, y, z))

    def crossing(self, y: float, z: float) -> float:
        """How far it is through the second part along the grain, mm."""
        return self.sense * (_x_on(self.exit, y, z) - _x_on(self.shoulder, y, z))

    def point(self, y: float, z: float, into: float = 0.0) -> Vector:
        """In the piece: `into` mm past the side entered, along the grain, on the line (y, z)."""
        return self.first.at.point((_x_on(self.shoulder, y, z) + self.sense * into, y, z))

    def in_second(self, p: Vector) -> Vector:
        """A point of the piece in the second part's own frame."""
        return exact_point(self.second.at.own_point(p))

    def turned_to_second(self, v: Vector) -> Vector:
        """A direction of the first part's own frame in the second's."""
        return tidy(self.second.at.own_direction(self.first.at.direction(v)))

    def on_side(self, p: Vector, inside: float = 0.3) -> bool:
        """Whether a point of the piece in the plane of the side entered lies on that side."""
        return self.near.holds(self.second.wood, self.in_second(p), inside)

    def _own(self, plane: Plane) -> Plane:
        seen = plane.seen_outside(self.second.at).seen_from(self.first.at)
        return Plane(tidy(seen.normal), round(seen.offset, 9) + 0.0)


def entry(first: Stood, second: Stood) -> Entry:
    """How the end of `first` nearest to a side of `second` comes to it along its grain.

    Raises DesignError if no end comes to it, or at more than MOST_LEAN from square.
    """
    found = [e for sense in (1.0, -1.0) if (e := _entry(first, second, sense)) is not None]
    if not found:
        raise DesignError(
            f"no end of {first.name} runs along its grain to a side of {second.name}; {whereabouts(first, second)}"
        )
    nearest = min(found, key=lambda e: abs(e.run_in(*middle(e))))
    if nearest.lean > MOST_LEAN:
        raise DesignError(
            f"{first.name} comes to {second.name} {nearest.lean:.0f} degrees out of square; no more than "
            f"{MOST_LEAN:.0f} can be joined this way (common practice), so let it come in steeper"
        )
    return nearest


def middle(e: Entry) -> Point:
    """The first part's own middle line, (y, z)."""
    _, y0, _, y1 = e.first.wood.outline.bounds
    return ((y0 + y1) / 2.0, e.first.wood.thickness / 2.0)


def flat_sides(part: Part) -> Iterator[FlatSide]:
    """Face, back and every straight edge."""
    yield FlatSide("face", Plane((0.0, 0.0, 1.0), part.thickness))
    yield FlatSide("back", Plane((0.0, 0.0, -1.0), 0.0))
    for edge in part.outline.edges:
        if edge.straight:
            dx, dy = edge.direction(0.0)
            yield FlatSide(edge.name, Plane((dy, -dx, 0.0), dy * edge.start[0] - dx * edge.start[1]), edge)


def from_rim(part: Part, p: Point, but: tuple[Edge | None, ...] = ()) -> float:
    """How far a point lies inside a part's outline, mm, edges `but` left out of account; negative outside."""
    away = min((_from_edge(p, e) for e in part.outline.edges if e not in but), default=math.inf)
    return away if part.outline.contains(p) or away < SAME_POINT else -away


def exact_point(p: Vector) -> Vector:
    """A place without noise, far finer than the kernel looks, so that equal parts stay equal and planes plane."""
    return (exact(p[0]), exact(p[1]), exact(p[2]))


def exact(size: float) -> float:
    """A size so, mm."""
    return round(size, 9) + 0.0


def _entry(first: Stood, second: Stood, sense: float) -> Entry | None:
    x0, y0, x1, y1 = first.wood.outline.bounds
    start = ((x0 + x1) / 2.0, (y0 + y1) / 2.0, first.wood.thickness / 2.0)
    own = second.at.own_point(first.at.point(start))
    way = second.at.own_direction(scaled(first.at.x, sense))
    half = (x1 - x0) / 2.0
    entered: list[tuple[float, FlatSide]] = []
    left: list[tuple[float, FlatSide]] = []
    for side in flat_sides(second.wood):
        slope = dot(side.plane.normal, way)
        if abs(slope) < 1e-9:
            continue
        t = (side.plane.offset - dot(side.plane.normal, own)) / slope
        if t > -half and side.holds(second.wood, added(own, scaled(way, t))):
            (entered if slope < 0.0 else left).append((t, side))
    if not entered:
        return None
    t_near, near = min(entered, key=lambda e: abs(e[0] - half))
    beyond = [e for e in left if e[0] > t_near]
    if not beyond:
        return None
    return Entry(first, second, near, min(beyond, key=lambda e: e[0])[1], sense)


def _x_on(plane: Plane, y: float, z: float) -> float:
    n = plane.normal
    return (plane.offset - n[1] * y - n[2] * z) / n[0]


def _from_edge(p: Point, e: Edge) -> float:
    if not e.straight:
        return min(math.dist(p, e.point(t / 64.0)) for t in range(65))
    d = e.direction(0.0)
    s = min(max(d[0] * (p[0] - e.start[0]) + d[1] * (p[1] - e.start[1]), 0.0), e.length)
    return math.dist(p, (e.start[0] + s * d[0], e.start[1] + s * d[1]))
