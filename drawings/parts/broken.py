"""Wood drawn only as far as a break: its outline, hatched, with a zigzag where it is broken off."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drawings.paper.arcs import flattened
from drawings.paper.lettering import text_corners
from drawings.paper.sheet import Entity, Hatch, Pen, Point, Polyline, Text
from drawings.paper.strokes import strokes
from drawings.sheets.clear_room import KEEP_OFF

_ON = 1e-6


def cut_wood(rings: Sequence[Polyline], breaks: Sequence[float], level: Sequence[float] = ()) -> Iterator[Entity]:
    """A piece cut through, hatched: its outer ring, then those of its holes. breaks, level: the x and the y at which it
    is broken off, paper mm."""
    yield Hatch(tuple(rings))
    for ring in rings:
        yield from outlined(ring, breaks, level)


def outlined(ring: Polyline, breaks: Sequence[float], level: Sequence[float] = ()) -> Iterator[Entity]:
    """The ring drawn in full but for where it is broken off: at an x or at a y of the paper, mm."""
    stretches, lines = ring.stretches(), [*((0, x) for x in breaks), *((1, y) for y in level)]
    broken = [n for n, (p, q, _) in enumerate(stretches) if any(_at(p, q, axis, station) for axis, station in lines)]
    if not broken:
        yield ring
        return
    for here, there in zip(broken, [*broken[1:], broken[0] + len(stretches)], strict=True):
        order = [stretches[k % len(stretches)] for k in range(here + 1, there)]
        if order:
            points = (*(p for p, _, _ in order), order[-1][1])
            yield Polyline(points, (*(b for _, _, b in order), 0.0))
    for n in broken:
        yield zigzag(*stretches[n][:2])


def _at(p: Point, q: Point, axis: int, station: float) -> bool:
    return abs(p[axis] - station) < _ON and abs(q[axis] - station) < _ON


def zigzag(p: Point, q: Point) -> Polyline:
    """A thin zigzag from p to q, a little past both."""
    length = math.dist(p, q)
    (dx, dy), jog = ((q[0] - p[0]) / length, (q[1] - p[1]) / length), min(1.5, length / 6)
    middle = length / 2
    steps = (
        (-2.0, 0.0),
        (middle - jog, 0.0),
        (middle - jog / 3, jog),
        (middle + jog / 3, -jog),
        (middle + jog, 0.0),
        (length + 2.0, 0.0),
    )
    return Polyline(tuple((p[0] + s * dx - t * dy, p[1] + s * dy + t * dx) for s, t in steps), pen=Pen.THIN)


def clear_of_lettering(marks: Sequence[Entity]) -> list[Entity]:
    """The same marks, no hatching run through any lettering that stands on the cut wood."""
    boxes = [text_corners(mark, KEEP_OFF) for one in marks for mark in strokes(one) if isinstance(mark, Text)]
    return [_with_gaps(mark, boxes) if isinstance(mark, Hatch) else mark for mark in marks]


def _with_gaps(hatch: Hatch, boxes: Sequence[Sequence[Point]]) -> Hatch:
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    outer, *inner = (Polygon(flattened(outline)).buffer(0) for outline in hatch.outlines)
    left_out = outer.difference(unary_union(inner)).intersection(unary_union([Polygon(box) for box in boxes]))
    pieces = [p for p in getattr(left_out, "geoms", [left_out]) if p.geom_type == "Polygon" and not p.is_empty]
    gaps = tuple(Polyline(tuple(p.exterior.coords[:-1]), closed=True) for p in pieces)
    return replace(hatch, outlines=(*hatch.outlines, *gaps)) if gaps else hatch
