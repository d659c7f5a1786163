"""Edges cut exactly: what of a line or a true arc lies in a box, or inside an outline. Millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from drawings.cutting.sawn_outline import meetings, split
from drawings.sheets.clear_room import Box
from model.layout.outline import Edge, Outline, Point
from model.tolerance import SAME_POINT

#: A piece shorter than this is not drawn, and an edge nearer than this to another lies on it, mm.
LEAST = 0.01


def in_box(edge: Edge, box: Box) -> list[Edge]:
    """The pieces of an edge that lie in a box, its sides included."""
    x0, y0, x1, y1 = box
    sides: Sequence[tuple[Point, float]] = (((1.0, 0.0), x0), ((1.0, 0.0), x1), ((0.0, 1.0), y0), ((0.0, 1.0), y1))
    crossed = [p for normal, offset in sides for p in edge.crossings(normal, offset)]

    def held(p: Point) -> bool:
        return x0 - SAME_POINT <= p[0] <= x1 + SAME_POINT and y0 - SAME_POINT <= p[1] <= y1 + SAME_POINT

    return _kept(edge, crossed, held)


def in_wood(edges: Iterable[Edge], wood: Outline) -> list[Edge]:
    """The pieces of a cut's edges that run through the wood; those on its edge are the wood's own lines."""

    def held(p: Point) -> bool:
        return wood.contains(p) and not _on(p, wood)

    return [piece for e in edges for piece in _kept(e, _crossed(e, wood.edges), held)]


def out_of(edges: Iterable[Edge], hole: Outline) -> list[Edge]:
    """The pieces of an outline's edges that a hole does not swallow: just inside them is wood still."""

    def held(piece: Edge) -> bool:
        (x, y), (dx, dy) = piece.point(0.5), piece.direction(0.5)
        return not hole.contains((x - LEAST * dy, y + LEAST * dx))

    return [p for e in edges for p in _split(e, _crossed(e, hole.edges)) if held(p)]


def runs(edges: Sequence[Edge]) -> list[list[Edge]]:
    """Edges that follow one another end to start, together."""
    chains: list[list[Edge]] = []
    for e in edges:
        if chains and math.dist(chains[-1][-1].end, e.start) < SAME_POINT * 10.0:
            chains[-1].append(e)
        else:
            chains.append([e])
    if len(chains) > 1 and math.dist(chains[-1][-1].end, chains[0][0].start) < SAME_POINT * 10.0:
        chains[0] = chains.pop() + chains[0]
    return chains


def _kept(edge: Edge, crossed: Sequence[Point], held: Callable[[Point], bool]) -> list[Edge]:
    return [piece for piece in _split(edge, crossed) if held(piece.point(0.5))]


def _split(edge: Edge, crossed: Sequence[Point]) -> list[Edge]:
    pieces = split(edge, crossed) if crossed else [edge]
    return [piece for piece in pieces if piece.length > LEAST]


def _crossed(edge: Edge, others: Iterable[Edge]) -> list[Point]:
    """Where an edge meets others, and where it begins or ends to run along one."""
    ends = [end for o in others for end in (o.start, o.end) if _distance(end, edge) < SAME_POINT * 10.0]
    return ends + [p for o in others for p in meetings(edge, o)]


def _on(p: Point, wood: Outline) -> bool:
    return any(_distance(p, e) < LEAST for e in wood.edges)


def _distance(p: Point, edge: Edge) -> float:
    """From a point to an edge; for an arc, to it or to its ends."""
    ends = min(math.dist(p, edge.start), math.dist(p, edge.end))
    if edge.straight:
        dx, dy = edge.direction(0.0)
        ux, uy = p[0] - edge.start[0], p[1] - edge.start[1]
        return abs(dx * uy - dy * ux) if 0.0 <= dx * ux + dy * uy <= edge.chord else ends
    cx, cy = edge.centre
    out = math.dist(p, edge.centre)
    if out < SAME_POINT:
        return edge.radius
    foot = (cx + (p[0] - cx) * edge.radius / out, cy + (p[1] - cy) * edge.radius / out)
    (sx, sy), (ex, ey) = edge.start, edge.end
    turn = (ex - sx) * (foot[1] - sy) - (ey - sy) * (foot[0] - sx)
    return abs(out - edge.radius) if turn * edge.bulge <= 0.0 else ends
