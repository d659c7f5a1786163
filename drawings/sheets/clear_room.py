"""Room on the paper: the box round marks, and whether a text stands clear of the lines drawn so far."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from drawings.paper.arcs import flattened
from drawings.paper.audit import convex_meet
from drawings.paper.lettering import text_corners
from drawings.paper.sheet import Arc, Basic, Circle, Entity, Fill, Line, Point, Polyline, Text
from drawings.paper.strokes import strokes

#: Left, bottom, right, top, paper mm.
Box = tuple[float, float, float, float]

#: Lettering keeps this far from any line, mm: about its own line's width, twice (ours).
KEEP_OFF = 0.6

_SAGITTA = 0.1


class Drawn:
    """The lines drawn so far, as short straight ones, to hold a text or a line against."""

    def __init__(self, entities: Iterable[Entity]) -> None:
        marks = [mark for entity in entities for mark in strokes(entity)]
        outlines: list[tuple[Point, ...]] = [piece for mark in marks for piece in _pieces(mark)]
        outlines += [text_corners(mark) for mark in marks if isinstance(mark, Text)]
        self._outlines = outlines
        self._left, self._low, self._right, self._high = (
            np.array([_around(o) for o in outlines]).reshape(-1, 4).T.copy()
        )

    def strikes(self, entity: Entity) -> int:
        """How many drawn lines and texts the entity's lettering runs into."""
        return sum(self._meets(text_corners(mark, KEEP_OFF)) for mark in strokes(entity) if isinstance(mark, Text))

    def crossings(self, entity: Entity) -> int:
        """How many drawn lines the entity's own lines cross or touch."""
        pieces = [piece for mark in strokes(entity) for piece in _pieces(mark)]
        return sum(self._meets(piece) for piece in pieces)

    def _meets(self, outline: tuple[Point, ...]) -> int:
        left, low, right, high = _around(outline)
        beside = (self._left <= right) & (self._right >= left) & (self._low <= high) & (self._high >= low)
        return sum(convex_meet(outline, self._outlines[n]) for n in np.flatnonzero(beside).tolist())


def box_of(entities: Iterable[Entity]) -> Box:
    """The upright box that holds all the marks, lettering and arrowheads included.

    Raises ValueError when there is none.
    """
    points = [p for entity in entities for mark in strokes(entity) for p in _corners(mark)]
    if not points:
        raise ValueError("no marks, no box")
    return _around(tuple(points))


def grown(box: Box, by: float) -> Box:
    """The box with so much room round it, mm."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def shifted(box: Box, dx: float, dy: float) -> Box:
    return box[0] + dx, box[1] + dy, box[2] + dx, box[3] + dy


def boxes_meet(a: Box, b: Box) -> bool:
    """Do two boxes overlap? Touching counts for none."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def within(box: Box, outer: Box) -> bool:
    """Whether one box lies inside another, edges included."""
    slack = 1e-6
    return (
        box[0] >= outer[0] - slack
        and box[1] >= outer[1] - slack
        and box[2] <= outer[2] + slack
        and box[3] <= outer[3] + slack
    )


def _corners(mark: Basic) -> Iterable[Point]:
    if isinstance(mark, Text):
        return text_corners(mark)
    if isinstance(mark, Fill):
        return [p for outline in mark.outlines for p in flattened(outline, _SAGITTA)]
    return flattened(mark, _SAGITTA)


def _pieces(mark: Basic) -> list[tuple[Point, Point]]:
    if not isinstance(mark, Line | Arc | Circle | Polyline):
        return []
    points = flattened(mark, _SAGITTA)
    closed = isinstance(mark, Polyline) and mark.closed
    return list(pairwise([*points, points[0]] if closed else points))


def _around(points: tuple[Point, ...]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
