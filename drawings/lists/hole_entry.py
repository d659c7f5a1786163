"""Where a hole or slot enters its part: into which side, end or edge, the middle of its mouth, whether it leans."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from drawings.lists.nearest_edge import nearest_edge
from model.cuts.cut import Side
from model.cuts.drilling import side_entered
from model.cuts.sawn import SawCut
from model.cuts.tenons import TenonedEnd
from model.layout.outline import Edge, Point
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled, square_to, unit

#: A hole begun inside an end or edge by no more than this was meant to begin on it, mm.
_JUST_OFF = 0.5
#: Two directions are one within this (sine).
_SQUARE = 1e-9
#: A hole that leans no more than this is bored square, degrees: no table or fence is set finer by its scale (common
#: practice).
_SETTABLE = 0.5
#: A hole comes as far as a surface within this, mm.
_REACHED = 1e-6


@dataclass(frozen=True)
class Entry:
    """A hole's mouth: its middle, mm, and the way `into` the wood; the side it goes into, or else the end or edge by
    its name; inward: square into the wood there.

    off: how far along the hole from where it is begun to its mouth, mm; negative where it is begun inside the wood.
    """

    at: Vector
    into: Vector
    side: Side | None
    edge: str
    inward: Vector
    off: float = 0.0

    @property
    def along_the_part(self) -> bool:
        """Does it run along one of the part's own axes?"""
        return max(map(abs, self.into)) > math.cos(math.radians(_SETTABLE))

    @property
    def square(self) -> bool:
        """Does it run square to where it goes in?"""
        return self.lean < _SETTABLE

    @property
    def leaning(self) -> bool:
        """Must it be bored at an angle of its own?"""
        return not self.square and not self.along_the_part

    @property
    def slanting(self) -> bool:
        """Does it lie askew in the part, so that its direction must be told? What is square to an upright edge doesn't
        say more than that edge."""
        level = abs(self.into[2]) < math.sin(math.radians(_SETTABLE))
        return not self.along_the_part and not (self.square and level)

    @property
    def lean(self) -> float:
        """How far it leans off square to where it goes in, degrees."""
        aside = cross(self.into, self.inward)
        return math.degrees(math.atan2(math.sqrt(dot(aside, aside)), dot(self.into, self.inward)))

    @property
    def way(self) -> Vector:
        """What it is told to go toward: of one that leans, not what it goes into anyhow."""
        return self.aside if self.leaning else self.into

    @property
    def aside(self) -> Vector:
        """Of one that leans, the unit direction it leans toward, square to `inward`."""
        return unit(square_to(self.into, self.inward))


def entry(at: Vector, into: Vector, part: Part) -> Entry:
    """How a hole begun `at` a point, mm, goes `into` (unit vector) a part.

    One begun off the wood, or just inside an edge, has its mouth where its middle line crosses that edge; one begun on
    what other work laid bare, the floor of a dado or a gain, has it there.
    """
    side, sawn = side_entered(at, into, part.thickness), _sawn(at, into, part)
    if side is not None:
        return _into_side(at, into, side)
    if sawn is not None:
        return sawn
    edge, along = nearest_edge(part.outline, (at[0], at[1]))
    if abs(into[2]) < _SQUARE and _square_to(edge, along, into):
        x, y = edge.point(along / edge.length)
        off, crossed = (x - at[0]) * into[0] + (y - at[1]) * into[1], edge
    else:
        off, crossed = min(_crossed(at, into, part), key=lambda found: abs(found[0]), default=(0.0, edge))
    if off > -_JUST_OFF:
        return _into_edge(added(at, scaled(into, off)), into, crossed, off)
    if _back_to_side(at, into, part.thickness) < -off:
        return _into_side(at, into, "face" if into[2] < 0.0 else "back")
    return _into_edge(at, into, crossed, 0.0)


def sunk(found: Entry, part: Part) -> bool:
    """Does a hole into a side begin under it, as on the floor of a dado or the cheek of a tenon?"""
    level = part.thickness if found.side == "face" else 0.0
    return found.side is not None and abs(found.at[2] - level) > _REACHED


def bored_through(found: Entry, depth: float, part: Part) -> bool:
    """Does a hole so deep from where it is begun, mm, come out again: of the far side, of an end or edge, or of the far
    cheek of a tenon?"""
    behind = wood_behind(found.at, found.into, part)
    return depth - found.off >= behind - _REACHED or _through_tenons(found, depth, part)


def wood_behind(at: Vector, into: Vector, part: Part) -> float:
    """From a hole's mouth to where it comes out on the far side, mm."""
    level, down = math.hypot(into[0], into[1]), math.inf
    if abs(into[2]) > _SQUARE:
        down = ((part.thickness if into[2] > 0.0 else 0.0) - at[2]) / into[2]
    if level < _SQUARE:
        return down
    way = into[0] / level, into[1] / level
    return min(down, (part.outline.extent(way)[1] - at[0] * way[0] - at[1] * way[1]) / level)


def _through_tenons(found: Entry, depth: float, part: Part) -> bool:
    """Is it bored from a tenon's cheek out of the other, as for a peg?"""
    (_, y, begin), end = found.at, found.at[2] + found.into[2] * (depth - found.off)
    standing = [
        t
        for c in part.cuts
        if isinstance(c, TenonedEnd) and dot(c.shoulder.normal, found.at) > c.shoulder.offset
        for t in c.tenons
        if t.inset < y < t.inset + t.width
    ]
    low, high = min(begin, end), max(begin, end)
    out = all(low < t.rise + _REACHED and t.rise + t.thickness < high + _REACHED for t in standing)
    return found.side is not None and bool(standing) and out


def _into_side(at: Vector, into: Vector, side: Side) -> Entry:
    return Entry(at, into, side, "", (0.0, 0.0, -1.0 if side == "face" else 1.0))


def _into_edge(at: Vector, into: Vector, edge: Edge, off: float) -> Entry:
    dx, dy = _travel(edge, (at[0], at[1]))
    return Entry(at, into, None, edge.name, (-dy, dx, 0.0), off)


def _sawn(at: Vector, into: Vector, part: Part) -> Entry | None:
    """Into an end or edge that is sawn at an angle, where the hole is begun there."""
    for cut in (c for c in part.cuts if isinstance(c, SawCut)):
        inward = scaled(cut.out, -1.0)
        rate = dot(inward, into)
        off = (dot(inward, cut.at) - dot(inward, at)) / rate if rate > _SQUARE else math.inf
        if abs(off) < _JUST_OFF:
            return Entry(added(at, scaled(into, off)), into, None, cut.end, inward, off)
    return None


def _square_to(edge: Edge, along: float, into: Vector) -> bool:
    """Does a hole run square to an edge at a place of it?"""
    dx, dy = edge.direction(along / edge.length)
    return abs(dx * into[0] + dy * into[1]) < _SQUARE


def _crossed(at: Vector, into: Vector, part: Part) -> Iterator[tuple[float, Edge]]:
    """Where a hole's middle line comes into the outline: how far along it, and over which edge."""
    level = math.hypot(into[0], into[1])
    way: Point = (into[0] / level, into[1] / level)
    normal: Point = (-way[1], way[0])
    for edge in part.outline.edges:
        for x, y in edge.crossings(normal, normal[0] * at[0] + normal[1] * at[1]):
            dx, dy = _travel(edge, (x, y))
            if way[1] * dx - way[0] * dy > _SQUARE:  # inward: the wood lies to the left of an edge
                yield ((x - at[0]) * way[0] + (y - at[1]) * way[1]) / level, edge


def _travel(edge: Edge, p: Point) -> Point:
    """Which way an edge runs at a point of it."""
    if edge.straight:
        return edge.direction(0.0)
    (x, y), (cx, cy) = p, edge.centre
    turn = math.copysign(1.0 / edge.radius, edge.bulge)
    return -(y - cy) * turn, (x - cx) * turn


def _back_to_side(at: Vector, into: Vector, thickness: float) -> float:
    """How far back along a hole the side lies that it would come from, mm."""
    if abs(into[2]) < _SQUARE:
        return math.inf
    return (at[2] - (thickness if into[2] < 0.0 else 0.0)) / into[2]
