"""The mark of the grain: an arrow both ways along it, with words over it."""

from __future__ import annotations

from drawings.paper.lettering import text_width
from drawings.paper.sheet import Entity, Fill, Line, Pen, Point, Polyline, Text

_HEIGHT = 2.5


def grain_mark(words: str, middle: Point, long: float) -> list[Entity]:
    """An arrow along the grain, x, with words over it."""
    x, y = middle
    half = max(long, text_width(words, _HEIGHT) + 12.0) / 2.0
    marks: list[Entity] = [Line((x - half, y), (x + half, y), Pen.GRID)]
    for tip, sign in ((x - half, 1.0), (x + half, -1.0)):
        head = ((tip, y), (tip + sign * 5.0, y + 1.3), (tip + sign * 5.0, y - 1.3))
        marks.append(Fill((Polyline(head, closed=True),)))
    return [*marks, Text((x, y + 1.4), words, _HEIGHT, "centre")]
