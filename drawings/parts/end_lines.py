"""What work on an end shows of itself in the plan: shoulders of tenons, sockets between pins, the far arris of a miter;
and what shaping a leg does: where a taper begins, the steps and hollows of a turning.

The outline already follows tenons and tails; these are the lines on either side of the wood that it does not show.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import singledispatch

from drawings.cutting.finished import finished_bounds, sawn_lines
from drawings.paper.sheet import Point
from drawings.parts.end_line import EndLine
from drawings.parts.leaning_lines import key_slot, leaning_mortise, leaning_shoulder, slanted_floor, spline_floor
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins
from model.cuts.legs import Taper, Turned
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailTongue
from model.cuts.tenons import Tenon, TenonedEnd
from model.part import Part

_NOTHING = 1e-6
#: A point lies on a plane within this, mm.
_ON = 1e-4


@singledispatch
def end_lines(cut: Cut, part: Part) -> Iterator[EndLine]:
    """The lines of one cut; none for a kind whose work the outline or a trench shows."""
    yield from ()


@end_lines.register
def _(cut: TenonedEnd, part: Part) -> Iterator[EndLine]:
    standing = cut.tenons if cut.haunch is None else (*cut.tenons, cut.haunch)
    if abs(cut.shoulder.normal[2]) > _NOTHING:
        yield from leaning_shoulder(cut, part)
    if not any(cut.footprints(part.blank)):  # over one another, or leaning: the outline can't follow them
        for tenon in standing:
            ring = tuple(_cheek(cut, tenon, tenon.rise + tenon.thickness, part))
            leans = abs(cut.shoulder.normal[2]) > _NOTHING  # then its lines on both sides locate it
            tips = tuple(p for p in ring if not _on_plane(cut.shoulder, p, tenon.rise + tenon.thickness))
            yield EndLine(ring, True, tips if leans else ring, ring, closed=True)
            if tenon.tip is not None and abs(tenon.tip.normal[2]) > _NOTHING:
                under = tuple(_cheek(cut, tenon, tenon.rise, part))
                yield EndLine(under, False, under, closed=True)
        return
    for tenon in standing:
        low, high = max(tenon.inset, 0.0), tenon.inset + tenon.width
        for level, seen, bare in ((tenon.rise + tenon.thickness, True, part.thickness), (tenon.rise, False, 0.0)):
            if abs(level - bare) > _NOTHING:
                ends = tuple((_x(cut.shoulder, y, level), y) for y in (low, high))
                yield EndLine(ends, seen, ends)


def _on_plane(plane: Plane, p: Point, z: float) -> bool:
    return abs(plane.normal[0] * p[0] + plane.normal[1] * p[1] + plane.normal[2] * z - plane.offset) < _ON


def _cheek(cut: TenonedEnd, tenon: Tenon, level: float, part: Part) -> list[Point]:
    """A tenon's upper or lower cheek, between a shoulder and a tip that may lean."""
    tip = None if tenon.tip is None else _at_level(tenon.tip, level)
    return replace(cut, shoulder=_at_level(cut.shoulder, level)).plan(replace(tenon, tip=tip), part.blank)


def _at_level(plane: Plane, z: float) -> Plane:
    """The plane moved so that it lies on the back side as it does at a height over it."""
    return replace(plane, offset=plane.offset - plane.normal[2] * z)


@end_lines.register
def _(cut: OpenMortise, part: Part) -> Iterator[EndLine]:
    _, y0, _, y1 = finished_bounds(part)
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
    for edge in sawn_lines(cut, part, level):
        ends = edge.start, edge.end
        across, lengthways = abs(cut.out[1]) > _NOTHING, abs(cut.out[0]) > _NOTHING
        yield EndLine(ends, seen, ends if lengthways else (), ends if across else ())


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


@end_lines.register
def _(cut: SawnGroove, part: Part) -> Iterator[EndLine]:
    yield from key_slot(cut, part) if cut.called == "key slot" else spline_floor(cut, part)


end_lines.register(Mortise, leaning_mortise)
end_lines.register(SlantedDado, slanted_floor)
