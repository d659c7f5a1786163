"""The wood of a plan: its outline, what is cut into it, seen or hidden, and the lines along worked edges."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drawings.paper.sheet import Circle, Entity, Line, Pen, Polyline, ViewPort
from drawings.parts.edge_section import is_arris, shoulders
from drawings.parts.end_line import EndLine
from drawings.parts.located import Hole, hidden_outline, is_round
from drawings.parts.rim import rim
from drawings.parts.trenches import Trench, trenches
from model.cuts.edges import EdgeCut
from model.cuts.faces import BISCUIT_THICKNESS, Channel
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.slots import stadium
from model.cuts.through import Profile
from model.layout.outline import Edge, Outline
from model.part import Part

#: Lines along an edge nearer to it than this are left to the section, paper mm.
_LEAST = 0.9


def hidden_lines(
    part: Part, sunk: Sequence[Trench], holes: Sequence[Hole], ends: Sequence[EndLine], port: ViewPort
) -> Iterator[Entity]:
    """What lies under the face side, dashed."""
    for trench in sunk:
        if trench.side != "face" and not (trench.through and trench.side == "back"):
            yield polyline(trench.outline, port, Pen.HIDDEN)
    for found in holes:
        if found.side == "back":
            yield from _mouth(found, port, Pen.HIDDEN)
    for cut in part.cuts:
        if not isinstance(cut, Profile) and not list(cut.footprints(part.blank)) and not list(trenches(cut, part)):
            for ring in hidden_outline(cut, part):
                yield Polyline(tuple(map(port.place, ring)), closed=True, pen=Pen.HIDDEN)
    yield from (_end_line(line, port, Pen.HIDDEN) for line in ends if not line.seen)


def edge_lines(part: Part, port: ViewPort) -> Iterator[Entity]:
    """The innermost line that the work along each edge leaves; mitered where two lines of the same work meet."""
    for cut in part.cuts:
        if isinstance(cut, EdgeCut) and not is_arris(cut):
            lines = [(u, seen) for u, seen in shoulders(cut, part.thickness) if u * port.scale >= _LEAST]
            for u, seen in lines[-1:]:
                for edge in part.outline.named(cut.edge):
                    pen = Pen.VISIBLE if seen else Pen.HIDDEN
                    yield from _mitered(edge, u, cut, part, port, pen) or _parallel(edge, u, cut, port, pen)


def _mitered(edge: Edge, u: float, cut: EdgeCut, part: Part, port: ViewPort, pen: Pen) -> list[Entity]:
    """The line of a moulded edge that meets another moulded alike, up to the miter and out to the corner along it;
    nothing for any other."""
    edges = part.outline.edges
    here = edges.index(edge)
    ways = ((edges[here - 1], edge.start, 1.0), (edges[(here + 1) % len(edges)], edge.end, -1.0))
    met = [_met(near, cut, part) and _square(near, edge) for near, _, _ in ways]
    if not isinstance(cut, Moulding | RaisedEdge) or not cut.full or not edge.straight or not any(met):
        return []
    (dx, dy), ends, marks = edge.direction(0.0), [], list[Entity]()
    for (_, corner, way), meets in zip(ways, met, strict=True):
        inner = (corner[0] - u * dy, corner[1] + u * dx)
        if meets:
            inner = (inner[0] + way * u * dx, inner[1] + way * u * dy)
            if way > 0.0:  # each miter once
                marks.append(Line(port.place(corner), port.place(inner), pen))
        ends.append(port.place(inner))
    return [Line(ends[0], ends[1], pen), *marks]


def _met(edge: Edge, cut: EdgeCut, part: Part) -> bool:
    """Is the edge worked just like another?"""
    return any(
        isinstance(c, type(cut)) and replace(c, edge=cut.edge) == cut
        for c in part.cuts
        if getattr(c, "edge", None) == edge.name
    )


def _square(a: Edge, b: Edge) -> bool:
    (ax, ay), (bx, by) = a.direction(0.5), b.direction(0.5)
    return a.straight and abs(ax * bx + ay * by) < 1e-9


def seen_lines(
    outline: Outline, sunk: Sequence[Trench], holes: Sequence[Hole], ends: Sequence[EndLine], port: ViewPort
) -> Iterator[Entity]:
    """The outline and what the face side shows."""
    for trench in sunk:
        if trench.side == "face" or (trench.through and trench.side == "back"):
            yield polyline(trench.outline, port, Pen.VISIBLE)
    for found in holes:
        if found.side == "face":
            yield from _mouth(found, port, Pen.VISIBLE)
    yield from (_end_line(line, port, Pen.VISIBLE) for line in ends if line.seen)
    yield polyline(outline, port, Pen.VISIBLE)


def _end_line(line: EndLine, port: ViewPort, pen: Pen) -> Polyline:
    return Polyline(tuple(map(port.place, line.points)), closed=line.closed, pen=pen)


def polyline(outline: Outline, port: ViewPort, pen: Pen) -> Polyline | Circle:
    """An outline on the paper, a full circle as one."""
    if is_round(outline):
        (x0, y0), (x1, y1) = outline.corners
        return Circle(port.place(((x0 + x1) / 2, (y0 + y1) / 2)), outline.edges[0].radius * port.scale, pen)
    return Polyline(tuple(map(port.place, outline.corners)), outline.bulges, closed=True, pen=pen)


def _mouth(found: Hole, port: ViewPort, pen: Pen) -> Iterator[Entity]:
    x, y = port.place((found.at[0], found.at[1]))
    if found.direction is not None and found.diameters:
        along = math.degrees(math.atan2(found.direction[1], found.direction[0]))
        slot = stadium(found.length, found.diameters[0][0]).turned(along)
        yield polyline(slot.moved(found.at[0], found.at[1]), port, pen)
        return
    straight = not found.entry.leaning
    for diameter, _ in found.diameters if straight else found.diameters[-1:]:  # down a leaning one nothing is seen
        yield rim(found.entry, diameter, port, pen)
    if found.direction is not None:
        (dx, dy), half = (found.direction[0], found.direction[1]), found.length / 2
        ends = [(found.at[0] + s * half * dx, found.at[1] + s * half * dy) for s in (-1.0, 1.0)]
        yield polyline(Channel(ends[0], ends[1], BISCUIT_THICKNESS, 1.0).footprint(), port, pen)
    elif found.diameters:
        reach = found.diameters[-1][0] / 2 * port.scale + 1.2
        yield Line((x - reach, y), (x + reach, y), Pen.CENTRE)
        yield Line((x, y - reach), (x, y + reach), Pen.CENTRE)


def _parallel(edge: Edge, u: float, cut: EdgeCut, port: ViewPort, pen: Pen) -> Iterator[Entity]:
    """The line u mm inside an edge, as far as the cut runs."""
    lo, hi = (cut.start or 0.0) / edge.length, 1.0 if cut.stop is None else min(cut.stop / edge.length, 1.0)
    ends = []
    for t in (lo, hi):
        (x, y), (dx, dy) = edge.point(t), edge.direction(t)
        ends.append((x - u * dy, y + u * dx))
    bulge = 0.0 if edge.straight else math.tan((hi - lo) * edge.sweep / 4)
    yield Polyline(tuple(map(port.place, ends)), (bulge, 0.0), pen=pen)
    if not cut.full:
        for t, end in zip((lo, hi), ends, strict=True):
            if 1e-9 < t < 1.0 - 1e-9:
                yield Line(port.place(edge.point(t)), port.place(end), pen)
