"""Legs tapered and turned again: from the stations that the plan prints, the sizes at the foot and the diameters."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from drawings.parts.silhouette import turned_edges
from drawings.parts.turning_table import flat, rise
from drawings.proof.maker import Maker, bulge_of
from model.cuts.legs import LegSide, Station, Taper, Turned
from model.layout.outline import Edge, Point

_AXES: dict[LegSide, int] = {"near": 1, "far": 1, "back": 2, "face": 2}
_LOW: dict[int, LegSide] = {1: "near", 2: "back"}
_HIGH: dict[int, LegSide] = {1: "far", 2: "face"}


def taper(cut: Taper, maker: Maker) -> Taper:
    """Where each of its sides begins, and the size that is left at the foot."""
    courses = {side: cut.course(side, maker.part.blank) for side in cut.sides}
    starts = [abs(maker.numbers.apart(0, begins, foot)) for (begins, _), (foot, _) in courses.values()]
    sizes = [_at_foot(axis, courses, maker) for axis in sorted({_AXES[side] for side in cut.sides})]
    return replace(cut, start=starts[0], size=sizes[0])


def _at_foot(axis: int, courses: dict[LegSide, tuple[Point, Point]], maker: Maker) -> float:
    """From side to side at the foot, planed or not, mm."""
    low, high = maker.numbers.ends[axis]
    ends = {_LOW[axis]: low, _HIGH[axis]: high} | {side: foot[1] for side, (_, foot) in courses.items()}
    return maker.numbers.place(axis, ends[_HIGH[axis]]) - maker.numbers.place(axis, ends[_LOW[axis]])


def turned(cut: Turned, maker: Maker) -> Turned:
    """Each station's place and diameter, and the swell to the next from its radius."""
    axis = sum(maker.part.outline.bounds[1::2]) / 2.0
    edges = turned_edges(cut, maker.part.blank)
    made = [
        Station(maker.x(s.at), maker.numbers.apart(1, axis - s.diameter / 2.0, axis + s.diameter / 2.0))
        for s in cut.profile
    ]
    swells = [_swell(e, *pair, maker) for e, pair in zip(edges, pairwise(made), strict=True)]
    return replace(cut, profile=tuple(replace(s, swell=w) for s, w in zip(made, (*swells, 0.0), strict=True)))


def _swell(edge: Edge, here: Station, there: Station, maker: Maker) -> float:
    """How far an arc of the printed radius, or rise, swells out over its straight course, mm."""
    if edge.straight:
        return 0.0
    if flat(edge):
        return math.copysign(maker.numbers.size(rise(edge), "height"), -edge.bulge)
    p, q = (here.at, here.diameter / 2.0), (there.at, there.diameter / 2.0)
    made = Edge(p, q, bulge_of(maker.numbers.radius(edge), p, q, edge.bulge))
    return -made.bulge * made.chord / 2.0
