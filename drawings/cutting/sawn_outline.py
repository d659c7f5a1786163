"""The outline a part is really sawn to: its profile less what is taken out of its edges, ends and corners."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model.cuts.cut import Cut
from model.cuts.dovetails import Tails
from model.cuts.removal import RUN_OUT
from model.cuts.sawn import SawCut
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Notch
from model.layout.outline import Edge, Outline, Point
from model.part import Part
from model.tolerance import SAME_POINT

#: Cuts that shape a part's edge from end to end of its thickness, where they stand square to it.
ON_THE_OUTLINE = (Notch, SawCut, Tails, TenonedEnd)

#: The name of an edge that a notch or a saw cut leaves.
NOTCHED = "notch"

#: How far to each side of an edge is looked for wood, mm: far under any cut, far over rounding.
BESIDE = 1e-4


def sawn_outline(part: Part) -> tuple[Outline, tuple[Cut, ...]]:
    """The part's outline with its notches, upright saw cuts, tails and tenons worked into it, and those of these cuts
    that could not be: notches that touch no edge, and what would leave two pieces.
    """
    outline, left_over = part.outline, []
    for cut in part.cuts:
        if isinstance(cut, ON_THE_OUTLINE):
            worked = _without_all(outline, _taken(cut, part))
            outline = worked or outline
            if worked is None:
                left_over.append(cut)
    return outline, tuple(left_over)


def _without_all(outline: Outline, taken: Sequence[Outline]) -> Outline | None:
    worked: Outline | None = outline
    for notch in taken:
        worked = without(worked, notch) if worked else None
    return worked


def _taken(cut: Cut, part: Part) -> list[Outline]:
    """What a cut takes from the outline, run out past it."""
    if isinstance(cut, Notch):
        return [cut.outline]
    if isinstance(cut, SawCut):
        ring = cut.region(part.blank, RUN_OUT) if cut.upright else []
        return [Outline(tuple(ring))] if ring else []
    return [f.outline for f in cut.footprints(part.blank) if f.through]


def without(outline: Outline, notch: Outline) -> Outline | None:
    """`outline` less a `notch`, arcs kept as true arcs; None if that is not one plain ring."""
    kept = [
        piece
        for e in outline.edges
        for piece in split(e, [p for n in notch.edges for p in meetings(e, n)])
        if not notch.contains(_beside(piece, 1.0))
    ]
    walls = [
        _reversed(piece)
        for n in notch.edges
        for piece in split(n, [p for e in outline.edges for p in meetings(e, n)])
        if outline.contains(_beside(piece, 1.0)) and outline.contains(_beside(piece, -1.0))
    ]
    return _ring(kept + walls) if walls else None


def meetings(edge: Edge, wall: Edge) -> list[Point]:
    """Where an edge meets a wall, straight or arc either of them."""
    if wall.straight:
        return _along(wall, edge)
    return _along(edge, wall) if edge.straight else _arcs_meet(edge, wall)


def _arcs_meet(a: Edge, b: Edge) -> list[Point]:
    """Where two arcs meet: on the line through both circles' meetings, as far as it lies on both."""
    (ax, ay), (bx, by) = a.centre, b.centre
    apart = math.dist(a.centre, b.centre)
    if apart < SAME_POINT:
        return []
    way = ((bx - ax) / apart, (by - ay) / apart)
    foot = (apart**2 + a.radius**2 - b.radius**2) / (2.0 * apart)
    offset = way[0] * ax + way[1] * ay + foot
    on_b = b.crossings(way, offset)
    return [p for p in a.crossings(way, offset) if any(math.dist(p, q) < 10.0 * SAME_POINT for q in on_b)]


def _along(wall: Edge, edge: Edge) -> list[Point]:
    """Where an edge, straight or arc, meets a straight wall."""
    dx, dy = wall.direction(0.0)
    normal = (-dy, dx)
    offset = normal[0] * wall.start[0] + normal[1] * wall.start[1]
    along = [(p, (p[0] - wall.start[0]) * dx + (p[1] - wall.start[1]) * dy) for p in edge.crossings(normal, offset)]
    return [p for p, s in along if -SAME_POINT <= s <= wall.chord + SAME_POINT]


def split(edge: Edge, points: Sequence[Point]) -> list[Edge]:
    """The edge in pieces between the points that lie on it."""
    least = SAME_POINT / edge.length
    stations = sorted(t for t in (_station(edge, p) for p in points) if least < t < 1.0 - least)
    marks = [0.0]
    marks += [t for t in stations if t - marks[-1] > least]
    marks = [t for n, t in enumerate(marks) if n == 0 or t - marks[n - 1] > least]
    ends = [*marks[1:], 1.0]
    return [_part_of(edge, a, b) for a, b in zip(marks, ends, strict=True)]


def _station(edge: Edge, p: Point) -> float:
    """How far along the edge a point of it lies, 0 to 1."""
    if edge.straight:
        dx, dy = edge.direction(0.0)
        return ((p[0] - edge.start[0]) * dx + (p[1] - edge.start[1]) * dy) / edge.chord
    cx, cy = edge.centre
    turned = math.atan2(p[1] - cy, p[0] - cx) - math.atan2(edge.start[1] - cy, edge.start[0] - cx)
    turned = turned % math.tau if edge.bulge > 0 else -((-turned) % math.tau)
    return turned / edge.sweep


def _part_of(edge: Edge, a: float, b: float) -> Edge:
    start = edge.start if a == 0.0 else edge.point(a)
    end = edge.end if b == 1.0 else edge.point(b)
    return Edge(start, end, math.tan((b - a) * edge.sweep / 4.0) if edge.bulge else 0.0, edge.name)


def _beside(edge: Edge, side: float) -> Point:
    """Just beside the edge's middle: to its left for 1, to its right for -1."""
    (x, y), (dx, dy) = edge.point(0.5), edge.direction(0.5)
    return (x - side * BESIDE * dy, y + side * BESIDE * dx)


def _reversed(edge: Edge) -> Edge:
    return Edge(edge.end, edge.start, -edge.bulge, NOTCHED)


def _ring(edges: Sequence[Edge]) -> Outline | None:
    """The edges in order, end to start; None unless they make a single ring."""
    left = list(edges[1:])
    chain = [edges[0]]
    while left:
        following = [e for e in left if math.dist(e.start, chain[-1].end) < 10.0 * SAME_POINT]
        if len(following) != 1:
            return None
        left.remove(following[0])
        chain.append(following[0])
    if math.dist(chain[-1].end, chain[0].start) > 10.0 * SAME_POINT:
        return None
    return Outline(tuple(e.start for e in chain), tuple(e.bulge for e in chain), tuple(e.name for e in chain))
