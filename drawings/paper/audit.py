"""Is a sheet legible? Texts that overlap, texts that leave the frame, lines that run through lettering."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from drawings.paper.arcs import flattened
from drawings.paper.lettering import text_box, text_corners
from drawings.paper.sheet import Arc, Basic, Circle, Line, Pen, Point, Polyline, Sheet, Text
from drawings.paper.strokes import strokes

#: Two boxes or a box and a line this little into each other do not count as overlapping, mm.
SLACK = 0.05


@dataclass(frozen=True, slots=True)
class Blemish:
    """Something illegible: what it is, the text it befalls, the other text if there is one, and where, paper mm."""

    what: str
    text: str
    other: str
    at: Point


def audit(sheet: Sheet) -> tuple[Blemish, ...]:
    """All blemishes of a sheet; empty for a good one."""
    return (*overlaps(sheet), *strays(sheet), *struck_through(sheet))


def sheet_texts(sheet: Sheet) -> tuple[Text, ...]:
    """Every text of a sheet, those of dimensions and leaders included."""
    return tuple(mark for entity in sheet.entities for mark in strokes(entity) if isinstance(mark, Text) and mark.text)


def overlaps(sheet: Sheet) -> tuple[Blemish, ...]:
    """The pairs of texts that overlap each other."""
    boxed = [(text, text_box(text), text_corners(text, -SLACK)) for text in sheet_texts(sheet)]
    return tuple(
        Blemish("texts overlap", a.text, b.text, a.at)
        for (a, box_a, corners_a), (b, box_b, corners_b) in combinations(boxed, 2)
        if _boxes_meet(box_a, box_b) and convex_meet(corners_a, corners_b)
    )


def strays(sheet: Sheet) -> tuple[Blemish, ...]:
    """The texts that leave the frame, or, if they are the grid reference's own, the page."""
    page = (0.0, 0.0, sheet.paper.width, sheet.paper.height)
    return tuple(
        Blemish("text leaves the frame", text.text, "", text.at)
        for text in sheet_texts(sheet)
        if not _within(text_box(text), page if text.pen is Pen.GRID else sheet.paper.frame)
    )


def struck_through(sheet: Sheet) -> tuple[Blemish, ...]:
    """The texts that a drawn line runs through."""
    marks: list[Basic] = [mark for entity in sheet.entities for mark in strokes(entity)]
    lines = [
        (piece, _span(piece))
        for mark in marks
        if isinstance(mark, Line | Arc | Circle | Polyline)
        for piece in _pieces(mark)
    ]
    found = []
    for text in sheet_texts(sheet):
        box, corners = text_box(text), text_corners(text, -SLACK)
        if any(_boxes_meet(box, span) and convex_meet(corners, piece) for piece, span in lines):
            found.append(Blemish("a line runs through the text", text.text, "", text.at))
    return tuple(found)


def convex_meet(a: Sequence[Point], b: Sequence[Point]) -> bool:
    """Whether two convex outlines (a line is one of two points) share a point: no direction tells them apart."""
    return not any(_apart(a, b, axis) for axis in (*_normals(a), *_normals(b)))


def _pieces(mark: Line | Arc | Circle | Polyline) -> list[tuple[Point, Point]]:
    points = flattened(mark, 0.1)
    closed = isinstance(mark, Polyline) and mark.closed
    return list(pairwise([*points, points[0]] if closed else points))


def _span(piece: tuple[Point, Point]) -> tuple[float, float, float, float]:
    (x0, y0), (x1, y1) = piece
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _normals(outline: Sequence[Point]) -> list[Point]:
    """Directions square to each side, and for a bare line also along it."""
    sides = [(q[0] - p[0], q[1] - p[1]) for p, q in pairwise([*outline, outline[0]])]
    if len(outline) == 2:
        sides = [sides[0], (-sides[0][1], sides[0][0])]
    return [(-dy / length, dx / length) for dx, dy in sides if (length := math.hypot(dx, dy)) > 0]


def _apart(a: Sequence[Point], b: Sequence[Point], axis: Point) -> bool:
    reach_a = [x * axis[0] + y * axis[1] for x, y in a]
    reach_b = [x * axis[0] + y * axis[1] for x, y in b]
    return max(reach_a) < min(reach_b) or max(reach_b) < min(reach_a)


def _boxes_meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _within(box: tuple[float, float, float, float], frame: tuple[float, float, float, float]) -> bool:
    x0, y0, x1, y1 = frame
    return box[0] >= x0 and box[1] >= y0 and box[2] <= x1 and box[3] <= y1
