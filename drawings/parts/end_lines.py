"""What work on an end shows of itself in the plan: shoulders of tenons, sockets between pins, the far arris of a miter;
and what shaping a leg does: where a taper begins, the steps and hollows of a turning.

The outline already follows tenons and tails; these are the lines on either side of the wood that it does not show.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import singledispatch

from drawings.paper.sheet import Point
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins
from model.cuts.legs import Taper, Turned
from model.cuts.mortises import OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.sliding_dovetails import DovetailTongue
from model.cuts.tenons import Tenon, TenonedEnd
from model.layout.clipping import around, clipped
from model.part import Part

_NOTHING = 1e-6
#: A point lies on a line within this, mm.
_ON = 1e-4


@dataclass(frozen=True)
class EndLine:
    """A line (or a ring, if closed) of the plan; whether the face side shows it; the points located along and across
    the part."""

    points: tuple[Point, ...]
    seen: bool
    along: tuple[Point, ...] = ()
    across: tuple[Point, ...] = ()
    closed: bool = False


@singledispatch
def end_lines(cut: Cut, part: Part) -> Iterator[EndLine]:
    """The lines of one cut; none for a kind whose work the outline or a trench shows."""
    yield from ()


@end_lines.register
def _(cut: TenonedEnd, part: Part) -> Iterator[EndLine]:
    standing = cut.tenons if cut.haunch is None else (*cut.tenons, cut.haunch)
    if not any(cut.footprints(part.blank)):  # over one another, or leaning: the outline can't follow them
        for tenon in standing:
            ring = tuple(_cheek(cut, tenon, part))
            yield EndLine(ring, True, ring, ring, closed=True)
        return
    for tenon in standing:
        low, high = max(tenon.inset, 0.0), tenon.inset + tenon.width
        for level, seen, bare in ((tenon.rise + tenon.thickness, True, part.thickness), (tenon.rise, False, 0.0)):
            if abs(level - bare) > _NOTHING:
                ends = tuple((_x(cut.shoulder, y, level), y) for y in (low, high))
                yield EndLine(ends, seen, ends)


def _cheek(cut: TenonedEnd, tenon: Tenon, part: Part) -> list[Point]:
    """A tenon's upper cheek, between a shoulder and a tip that may lean."""
    top = tenon.rise + tenon.thickness
    tip = None if tenon.tip is None else _at_level(tenon.tip, top)
    return replace(cut, shoulder=_at_level(cut.shoulder, top)).plan(replace(tenon, tip=tip), part.blank)


def _at_level(plane: Plane, z: float) -> Plane:
    """The plane moved so that it lies on the back side as it does at a height over it."""
    return replace(plane, offset=plane.offset - plane.normal[2] * z)


@end_lines.register
def _(cut: OpenMortise, part: Part) -> Iterator[EndLine]:
    _, y0, _, y1 = part.outline.bounds
    ends = tuple((_x(cut.floor, y, cut.rise), y) for y in (y0, y1))
    yield EndLine(ends, False, ends)


@end_lines.register
def _(cut: DovetailTongue, part: Part) -> Iterator[EndLine]:
    ends = (cut.start, cut.end)
    yield EndLine(ends, True, ends)
    if cut.heel > 0.0:
        run = math.dist(*ends)
        dx, dy = ((b - a) / run for a, b in zip(*ends, strict=True))
        stop = cut.end[0] - cut.heel * dx, cut.end[1] - cut.heel * dy
        tip = stop[0] + cut.length * cut.out[0], stop[1] + cut.length * cut.out[1]
        yield EndLine((stop, tip), True, (stop,), (stop,))


@end_lines.register
def _(cut: Pins, part: Part) -> Iterator[EndLine]:
    base, end = _x(cut.baseline, 0.0, 0.0), _x(cut.end, 0.0, 0.0)
    through = cut.lap(part.blank) <= _NOTHING
    mouth = part.thickness if cut.side == "face" else 0.0
    for socket in cut.sockets:
        _, floor, _, top = socket.bounds
        for level in (top, floor):
            if not through and abs(level - mouth) > _NOTHING:
                continue
            low, high = sorted(y for y, z in socket.corners if abs(z - level) < _NOTHING)
            ring = ((base, low), (end, low), (end, high), (base, high))
            yield EndLine(ring, level > part.thickness / 2, (ring[0], ring[3]), closed=True)


@end_lines.register
def _(cut: SawCut, part: Part) -> Iterator[EndLine]:
    """Where a leaning cut leaves the side that it makes shorter."""
    if cut.upright:
        return
    level, seen = (part.thickness, True) if cut.out[2] > 0.0 else (0.0, False)
    size = math.hypot(cut.out[0], cut.out[1])
    normal = cut.out[0] / size, cut.out[1] / size
    offset = (cut.kept.offset - cut.out[2] * level) / size
    ring = clipped(around(part.outline.bounds), [(normal, offset)])
    ends = tuple(p for p in ring if abs(normal[0] * p[0] + normal[1] * p[1] - offset) < _ON)
    if len(ends) >= 2:
        lengthways = abs(normal[0]) > _NOTHING
        yield EndLine(ends[:2], seen, ends[:2] if lengthways else (), () if abs(normal[0]) > 0.7 else ends[:2])


@end_lines.register
def _(cut: Taper, part: Part) -> Iterator[EndLine]:
    """Where a taper on the face or back side begins; one on an edge shows in the outline."""
    _, y0, _, y1 = part.outline.bounds
    for side in (s for s in cut.sides if s in ("face", "back")):
        (begins, _), _ = cut.course(side, part.blank)
        ends = ((begins, y0), (begins, y1))
        yield EndLine(ends, side == "face", ends)


@end_lines.register
def _(cut: Turned, part: Part) -> Iterator[EndLine]:
    """A line round the leg at each station."""
    _, y0, _, y1 = part.outline.bounds
    widest: dict[float, float] = {}
    for station in cut.profile:
        widest[station.at] = max(widest.get(station.at, 0.0), station.diameter / 2.0)
    for at, r in widest.items():
        ends = ((at, (y0 + y1) / 2.0 - r), (at, (y0 + y1) / 2.0 + r))
        yield EndLine(ends, True, ends)


def _x(plane: Plane, y: float, z: float) -> float:
    """Where a plane across the part lies at a place of its width and thickness, mm from the left end."""
    nx, ny, nz = plane.normal
    return (plane.offset - ny * y - nz * z) / nx
