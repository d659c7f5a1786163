"""A part's outline as its face side is seen: sawn, and where it is a leg, tapered and turned too."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from drawings.cutting.finished import finished_outline
from model.cuts.cut import Blank, Cut
from model.cuts.legs import LegSide, Taper, Turned
from model.cuts.removal import RUN_OUT, Plane
from model.cuts.sliding_dovetails import DovetailTongue
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Notch
from model.layout.clipping import area
from model.layout.outline import Edge, Outline, Point
from model.part import Part

_ON = 1e-4


def silhouette(part: Part) -> tuple[Outline, tuple[Cut, ...]]:
    """The outline that the plan shows, and the cuts of the part that could not be worked into it."""
    taken = tuple(n for c in part.cuts for n in _beside(c, part.blank))
    outline, left_over = finished_outline(replace(part, cuts=(*part.cuts, *taken)))
    return outline, tuple(c for c in left_over if c not in taken)


def turned_edges(cut: Turned, blank: Blank) -> list[Edge]:
    """The course from station to station in the plan, on the far side of the axis, mm; steps among them."""
    axis, half = _axis(blank), cut.half
    points = [(at, axis + r) for r, at in half.corners[1:-1]]
    bulges = half.bulges[1:-2]
    return [Edge(p, q, -bulge, "turned") for (p, q), bulge in zip(pairwise(points), bulges, strict=True)]


def on_turning(part: Part) -> Callable[[Point], bool]:
    """Whether a point of the plan is a corner of something turned: its stations and diameters stand in a table."""
    axis = _axis(part.blank)
    corners = [
        (s.at, axis + sign * s.diameter / 2.0)
        for c in part.cuts
        if isinstance(c, Turned)
        for s in c.profile
        for sign in (1.0, -1.0)
    ]
    return lambda p: any(abs(p[0] - x) < _ON and abs(p[1] - y) < _ON for x, y in corners)


def _axis(blank: Blank) -> float:
    _, y0, _, y1 = blank.outline.bounds
    return (y0 + y1) / 2.0


def _beside(cut: Cut, blank: Blank) -> Iterator[Notch]:
    """What shaping a leg takes from its plan at the near and the far side."""
    if isinstance(cut, Taper):
        yield from (_planed(cut, side, blank) for side in cut.sides if side in ("near", "far"))
    elif isinstance(cut, Turned):
        yield from _turned(cut, blank)
    elif isinstance(cut, DovetailTongue) and cut.heel > _ON:
        yield _heel(cut)
    elif isinstance(cut, TenonedEnd) and not any(cut.footprints(blank)):
        yield from (Notch(f.outline) for f in _as_seen(cut, blank).footprints(blank) if f.through)


def _heel(cut: DovetailTongue) -> Notch:
    """What is cut away of a dovetail tongue that stops short."""
    run = math.dist(cut.start, cut.end)
    (dx, dy), (ox, oy) = ((b - a) / run for a, b in zip(cut.start, cut.end, strict=True)), cut.out
    first, last = ((cut.end[0] + s * dx, cut.end[1] + s * dy) for s in (-cut.heel, RUN_OUT))
    far = cut.length + RUN_OUT
    ring = [first, last, (last[0] + far * ox, last[1] + far * oy), (first[0] + far * ox, first[1] + far * oy)]
    return Notch(_turning_left(ring))


def on_shoulder(part: Part) -> Callable[[Point], bool]:
    """Whether a point of the plan lies where a tenon passes a leaning shoulder: over or under it, so that they have no
    corner there."""
    _, low, _, high = part.outline.bounds
    leaning = [c for c in part.cuts if isinstance(c, TenonedEnd) and abs(c.shoulder.normal[2]) > _ON]
    planes = [_furthest(c.shoulder, 0.0, part.thickness) for c in leaning]

    def passed(p: Point) -> bool:
        beside = low + _ON < p[1] < high - _ON
        return beside and any(abs(s.normal[0] * p[0] + s.normal[1] * p[1] - s.offset) < _ON for s in planes)

    return passed


def _as_seen(cut: TenonedEnd, blank: Blank) -> TenonedEnd:
    """The end as the plan ends: shoulder and tips upright where they reach furthest, the tenons side by side."""
    tenons = []
    for t in cut.tenons:
        tip = t.tip and _furthest(t.tip, t.rise, t.rise + t.thickness)
        tenons.append(replace(t, rise=0.0, thickness=blank.thickness, tip=tip))
    return TenonedEnd(_furthest(cut.shoulder, 0.0, blank.thickness), tuple(tenons))


def _furthest(plane: Plane, low: float, high: float) -> Plane:
    """A plane made upright through its furthest line between two heights."""
    nx, ny, nz = plane.normal
    size = math.hypot(nx, ny)
    return Plane((nx / size, ny / size, 0.0), (plane.offset - min(nz * low, nz * high)) / size)


def _planed(cut: Taper, side: LegSide, blank: Blank) -> Notch:
    """From where the taper begins to the foot, and a little past both."""
    (begins, level), (foot, low) = cut.course(side, blank)
    way, out = (foot - begins) / cut.start, -1.0 if side == "near" else 1.0
    slope = (low - level) / cut.start
    first, last = ((begins + way * s, level + slope * s) for s in (-RUN_OUT, cut.start + RUN_OUT))
    far = level + out * (RUN_OUT + abs(slope) * RUN_OUT)
    return Notch(_turning_left([first, last, (last[0], far), (first[0], far)]))


def _turning_left(ring: list[Point]) -> Outline:
    return Outline(tuple(ring if area(ring) > 0.0 else reversed(ring)))


def _turned(cut: Turned, blank: Blank) -> Iterator[Notch]:
    x0, y0, x1, y1 = blank.outline.bounds
    edges = turned_edges(cut, blank)
    first, last = edges[0].start, edges[-1].end
    before = [(x0 - RUN_OUT, first[1])] if first[0] < x0 + _ON else []
    after = [(x1 + RUN_OUT, last[1])] if last[0] > x1 - _ON else []
    course = [*before, *(e.start for e in edges), last, *after]
    bulges = (*([0.0] * len(before)), *(e.bulge for e in edges), *([0.0] * len(after)))
    far = y1 + RUN_OUT
    upper = Outline(((course[-1][0], far), (course[0][0], far), *course), (0.0, 0.0, *bulges, 0.0))
    lower = tuple((x, y0 + y1 - y) for x, y in reversed(upper.corners))
    yield Notch(upper)
    yield Notch(Outline(lower, (*reversed(upper.bulges[:-1]), upper.bulges[-1])))
