"""What work that leans shows of itself in the plan: shoulders, slots for keys, splines, mortises, dadoes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from drawings.paper.sheet import Point
from drawings.parts.end_line import EndLine
from drawings.parts.mortise_box import MortiseBox
from drawings.parts.slanted_trench import SlantedTrench
from model.cuts.mortises import Mortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.tenons import Tenon, TenonedEnd
from model.layout.clipping import HalfPlane, around, clipped
from model.part import Part
from model.placement import added, cross, dot, scaled

_NOTHING = 1e-6
#: A point lies on a line within this, mm.
_ON = 1e-4


def leaning_shoulder(cut: TenonedEnd, part: Part) -> Iterator[EndLine]:
    """Its lines on the face and the back side, from edge to edge, where a tenon leaves anything of them."""
    for level, seen in ((part.thickness, True), (0.0, False)):
        if any(_flush(tenon, level, part) for tenon in cut.tenons):
            continue
        ends = tuple(_line_of(cut.shoulder, level, part))
        yield EndLine(ends, seen, ends)


def _flush(tenon: Tenon, level: float, part: Part) -> bool:
    """Does a tenon as wide as the part lie level with one of its sides?"""
    faces = (tenon.rise, tenon.rise + tenon.thickness)
    return tenon.width > part.stock.width - _NOTHING and any(abs(z - level) < _NOTHING for z in faces)


def _line_of(plane: Plane, level: float, part: Part) -> list[Point]:
    """The two ends, on the part, of the line in which a plane meets a height over the back side."""
    half = at_level(plane, level)
    ring = clipped(around(part.outline.bounds), [half])
    (nx, ny), offset = half
    return [p for p in ring if abs(nx * p[0] + ny * p[1] - offset) < _ON][:2]


def at_level(plane: Plane, level: float) -> HalfPlane:
    """A plane's half of the plan at a height over the back side."""
    nx, ny, nz = plane.normal
    size = math.hypot(nx, ny)
    return (nx / size, ny / size), (plane.offset - nz * level) / size


def key_slot(cut: SawnGroove, part: Part) -> Iterator[EndLine]:
    """Its walls and the end of its floor on the side that its mouth lies in, located both ways."""
    level, mouth = cut.at[2], dot(cut.into, cut.at)
    middle = dot(cut.across, cut.at)
    planes = [Plane(cut.across, middle + cut.width / 2.0), Plane(scaled(cut.across, -1.0), cut.width / 2.0 - middle)]
    planes += [Plane(cut.into, mouth + cut.depth), *(c.kept for c in part.cuts if isinstance(c, SawCut))]
    ring = clipped(around(part.outline.bounds), [at_level(plane, level) for plane in planes])
    if ring:
        floor = at_level(planes[2], level)
        ends = [p for p in ring if abs(floor[0][0] * p[0] + floor[0][1] * p[1] - floor[1]) < _ON]
        askew = max(map(abs, cut.across)) < 1.0 - _NOTHING  # then no wall is located by one place
        yield EndLine(
            tuple(ring), level > part.thickness / 2.0, tuple(ring if askew else ends), tuple(ring), closed=True
        )


def spline_floor(cut: SawnGroove, part: Part) -> Iterator[EndLine]:
    """The edges of its floor, unseen, as far as the part is wide; its section locates them."""
    run = cross(cut.into, cut.across)
    if math.hypot(run[0], run[1]) < _NOTHING:
        return
    floor = added(cut.at, scaled(cut.into, cut.depth))
    for sign in (-1.0, 1.0) if abs(cut.across[2]) < 1.0 - _NOTHING else (0.0,):
        p = added(floor, scaled(cut.across, sign * cut.width / 2.0))
        ends = _across_the_part((p[0], p[1]), (run[0], run[1]), part)
        if len(ends) == 2:
            yield EndLine(tuple(ends), False)


def _across_the_part(p: Point, way: Point, part: Part) -> Sequence[Point]:
    """Where a line through a point leaves the part's box."""
    size = math.hypot(*way)
    normal = -way[1] / size, way[0] / size
    offset = normal[0] * p[0] + normal[1] * p[1]
    ring = clipped(around(part.outline.bounds), [(normal, offset)])
    return [q for q in ring if abs(normal[0] * q[0] + normal[1] * q[1] - offset) < _ON][:2]


def leaning_mortise(cut: Mortise, part: Part) -> Iterator[EndLine]:
    """The floor of one that leans into a side, and what leads down to it."""
    if cut.square or abs(cut.mouth[2]) < 1.0 - _NOTHING:
        return
    box = MortiseBox(cut)
    yield EndLine(tuple((p[0], p[1]) for p in box.floor), False, closed=True)
    for p, q in zip(box.mouth, box.floor, strict=True):
        yield EndLine(((p[0], p[1]), (q[0], q[1])), False)


def slanted_floor(cut: SlantedDado, part: Part) -> Iterator[EndLine]:
    """The edges of a slanted dado's floor; one lies open in its mouth, the other under the wood."""
    low, high = cut.mouth
    for ends in SlantedTrench(cut, part).floor:
        yield EndLine(ends, cut.side == "face" and low < ends[0][cut.axis] < high)
