"""A projected view as marks on the paper, thinned to what a pen can draw at its scale.

Parallel lines too close on the paper run together in print. Where they would, the outermost is drawn and whatever lies
beside it is left out: a 3 mm bead at 1:10, a board's thickness at 1:50. So are dots.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from drawings.paper.sheet import Arc, Circle, Entity, Line, Pen, Polyline, ViewPort
from drawings.views.curves import Bounds, Chain, CircularArc, Curve, Point, Segment, View

#: Least distance between parallel lines, mm on the paper. ISO 128-2 asks for a space of 0.7; between the middles of
#: lines 0.5 wide we take 0.9, so that a board 19 thick still shows its thickness at 1:20.
LEAST_SPACE = 0.9
#: A shorter line would be a dot, mm on the paper; a gap as long closes under the round ends of its neighbours.
LEAST_LENGTH = 0.5
#: A hidden line shorter than this share of the view's lesser breadth is a joint rather than a part, and is left to the
#: parts' own sheets; so is one of less than so many mm on the paper (ours).
_HIDDEN_SHARE, LEAST_HIDDEN = 0.35, 5.0

Stretch = tuple[float, float]


def view_marks(view: View, port: ViewPort, pen: Pen = Pen.VISIBLE, space: float = LEAST_SPACE) -> tuple[Entity, ...]:
    """The view's lines on the paper, hidden ones first so that visible ones are drawn over them.

    pen: of the visible lines; space: least distance between parallel lines, paper mm, for lines other than wide.
    """
    drawn = _Thinned(port.scale, _middle(view.bounds), space)
    seen = drawn.take(view.visible)
    left, bottom, right, top = view.bounds
    least = max(LEAST_HIDDEN / port.scale, _HIDDEN_SHARE * min(right - left, top - bottom))
    unseen = drawn.take(c for c in view.hidden if c.length >= least)
    return (
        *(_mark(c, port, Pen.HIDDEN) for c in unseen),
        *(_mark(c, port, pen) for c in seen),
    )


class _Thinned:
    """Lines taken so far, by family (parallels of one direction, circles about one centre) and by lane, as wide as the
    least space: what is too near lies in the same lane or the next."""

    def __init__(self, scale: float, middle: Point, space: float) -> None:
        self._scale = scale
        self._space = space / scale
        self._middle = middle
        self._chains: list[tuple[Chain, Bounds]] = []
        self._kept: dict[tuple[float, ...], list[tuple[float, Stretch]]] = defaultdict(list)

    def take(self, curves: Iterable[Curve]) -> list[Curve]:
        """What of the curves has room, outermost first, so that outlines are whole."""
        return [piece for c in sorted(curves, key=self._order) for piece in self._with_room(c)]

    def _order(self, curve: Curve) -> tuple[float, float, Bounds]:
        if isinstance(curve, Segment):
            outward = _off(self._middle, curve)
        else:
            outward = math.dist(self._middle, _middle(curve.bounds))
        return -round(outward, 3), -round(curve.length, 3), curve.bounds

    def _with_room(self, curve: Curve) -> list[Curve]:
        if isinstance(curve, Chain):
            return self._chain_with_room(curve)
        family, offset, stretch = _straight(curve) if isinstance(curve, Segment) else _round(curve)
        lane = math.floor(offset / self._space)
        beside = (kept for n in (lane - 1, lane, lane + 1) for kept in self._kept.get((*family, n), ()))
        bare = _bare(stretch, [taken for at, taken in beside if abs(at - offset) < self._space])
        self._kept[*family, lane] += [(offset, piece) for piece in bare]
        pieces = [curve] if bare == [stretch] else [_cut(curve, stretch, piece) for piece in bare]
        return [piece for piece in pieces if piece.length * self._scale >= LEAST_LENGTH]

    def _chain_with_room(self, chain: Chain) -> list[Curve]:
        bounds = chain.bounds
        near = (other for other, reach in self._chains if _within(bounds, reach, self._space))
        if chain.length * self._scale < LEAST_LENGTH or any(_beside(chain, other, self._space) for other in near):
            return []
        self._chains.append((chain, bounds))
        return [chain]


def _within(inner: Bounds, outer: Bounds, space: float) -> bool:
    """Does one box lie in another grown by so many mm?"""
    low, high = (zip(inner[n : n + 2], outer[n : n + 2], strict=True) for n in (0, 2))
    return all(a >= b - space for a, b in low) and all(a <= b + space for a, b in high)


def _beside(chain: Chain, other: Chain, space: float) -> bool:
    """Does all of a chain lie nearer than `space` to another, mm?"""
    return all(any(_distance(at, p, q) < space for p, q in pairwise(other.points)) for at in chain.points)


def _distance(at: Point, p: Point, q: Point) -> float:
    """From a point to a straight stretch, mm."""
    u, v = q[0] - p[0], q[1] - p[1]
    share = ((at[0] - p[0]) * u + (at[1] - p[1]) * v) / (u * u + v * v) if u or v else 0.0
    return math.dist(at, _between(p, q, min(1.0, max(0.0, share))))


def _middle(bounds: Bounds) -> Point:
    return (bounds[0] + bounds[2]) / 2, (bounds[1] + bounds[3]) / 2


def _off(point: Point, line: Segment) -> float:
    """How far a point lies off the line on which a segment lies, mm."""
    (x, y), (u, v) = line.p, (line.q[0] - line.p[0], line.q[1] - line.p[1])
    return abs((point[0] - x) * v - (point[1] - y) * u) / line.length


def _straight(line: Segment) -> tuple[tuple[float, ...], float, Stretch]:
    """A line's direction to a tenth of a degree, its distance from the origin, and where along it lies."""
    direction = round(math.degrees(math.atan2(line.q[1] - line.p[1], line.q[0] - line.p[0])) % 180.0, 1) % 180.0
    along = sorted(_along(at, direction) for at in (line.p, line.q))
    return (direction,), _along(_middle(line.bounds), direction + 90.0), (along[0], along[1])


def _along(point: Point, direction: float) -> float:
    """How far along a direction, degrees, a point lies."""
    return point[0] * math.cos(math.radians(direction)) + point[1] * math.sin(math.radians(direction))


def _round(arc: CircularArc) -> tuple[tuple[float, ...], float, Stretch]:
    """An arc's centre to a tenth of a mm, its radius, and its stretch in degrees."""
    return (round(arc.centre[0], 1), round(arc.centre[1], 1)), arc.radius, (arc.start_deg, arc.end_deg)


def _bare(stretch: Stretch, others: Iterable[Stretch]) -> list[Stretch]:
    """The parts of a stretch that none of the others covers."""
    bare, reached = [], stretch[0]
    for low, high in sorted(others):
        if reached < min(low, stretch[1]):
            bare.append((reached, min(low, stretch[1])))
        reached = max(reached, high)
    return [*bare, (reached, stretch[1])] if reached < stretch[1] else bare


def _cut(curve: Segment | CircularArc, whole: Stretch, piece: Stretch) -> Curve:
    """The piece of a curve over a part of its stretch."""
    if isinstance(curve, CircularArc):
        return CircularArc(curve.centre, curve.radius, *piece)
    start, end = sorted((curve.p, curve.q), key=lambda at: _along(at, _straight(curve)[0][0]))
    low, high = ((at - whole[0]) / (whole[1] - whole[0]) for at in piece)
    return Segment(_between(start, end, low), _between(start, end, high))


def _between(p: Point, q: Point, share: float) -> Point:
    return p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])


def _mark(curve: Curve, port: ViewPort, pen: Pen) -> Entity:
    if isinstance(curve, Segment):
        return Line(port.place(curve.p), port.place(curve.q), pen)
    if isinstance(curve, Chain):
        return Polyline(tuple(port.place(p) for p in curve.points), pen=pen)
    centre, radius = port.place(curve.centre), curve.radius * port.scale
    return Circle(centre, radius, pen) if curve.full else Arc(centre, radius, curve.start_deg, curve.end_deg, pen)
