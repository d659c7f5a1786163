"""A pattern as plain data: lines, lettering and labels at full size, in its own millimetres, x right, y up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from drawings.paper.lettering import text_box
from drawings.paper.sheet import Pen, Point, Polyline, Text
from drawings.patterns.pieces import in_box, runs
from drawings.sheets.clear_room import Box
from model.layout.outline import Edge, Outline


@dataclass(frozen=True)
class Penned:
    """Edges drawn with one pen."""

    edges: tuple[Edge, ...]
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True)
class Label:
    """Words that belong to a cut: they are lettered on every tile where it shows, in the clear, in it or beside it."""

    words: str
    spot: Box
    counted: bool = False


@dataclass(frozen=True)
class Pattern:
    """What is drawn at full size.

    name: the file's stem; title: what it is a pattern of; facts: lines under the title; notes: sentences for whoever
    cuts by it. wood: the outline that has grain and a face side, and the holes in it; None for a rod.
    """

    name: str
    title: str
    lines: tuple[Penned, ...]
    facts: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    labels: tuple[Label, ...] = ()
    texts: tuple[Text, ...] = ()
    wood: Outline | None = None
    holes: tuple[Outline, ...] = field(default=())

    @property
    def bounds(self) -> Box:
        """Of all its lines and fixed lettering, mm."""
        reach = [
            [e.furthest((dx, dy)) for line in self.lines for e in line.edges]
            for dx, dy in ((-1.0, 0.0), (0.0, -1.0), (1.0, 0.0), (0.0, 1.0))
        ]
        xs0, ys0, xs1, ys1 = ([p[n % 2] for points in found for p in points] for n, found in enumerate(reach))
        boxes = [(min(xs0), min(ys0), max(xs1), max(ys1)), *map(text_box, self.texts)]
        low, high = ([min(b[n] for b in boxes) for n in (0, 1)], [max(b[n] for b in boxes) for n in (2, 3)])
        return low[0], low[1], high[0], high[1]

    def polylines(self, box: Box) -> Iterator[Polyline]:
        """What of its lines lies in a box, arcs as arcs."""
        for line in self.lines:
            for run in runs([piece for e in line.edges for piece in in_box(e, box)]):
                yield polyline(run, line.pen)

    def shows_in(self, box: Box) -> bool:
        """Whether any line or any wood of it lies in a box."""
        if any(in_box(e, box) for line in self.lines for e in line.edges):
            return True
        middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
        return self.wood is not None and in_the_wood(middle, self.wood, self.holes)


def in_the_wood(p: Point, wood: Outline, holes: tuple[Outline, ...]) -> bool:
    return wood.contains(p) and not any(hole.contains(p) for hole in holes)


def polyline(run: list[Edge], pen: Pen) -> Polyline:
    """Edges that follow one another as one line; closed where the last ends at the first's start."""
    closed = len(run) > 1 and abs(run[-1].end[0] - run[0].start[0]) + abs(run[-1].end[1] - run[0].start[1]) < 1e-6
    points = [e.start for e in run] + ([] if closed else [run[-1].end])
    bulges = [e.bulge for e in run] + ([] if closed else [0.0])
    return Polyline(tuple(points), tuple(bulges) if any(bulges) else (), closed, pen)
