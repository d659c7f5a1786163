"""Lettering in a plan that must find a clear place: numbers and letters beside what they name, the face mark."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from drawings.paper.lettering import text_width
from drawings.paper.sheet import Entity, Fill, Line, Pen, Point, Polyline, Text
from drawings.sheets.clear_room import Drawn

_SMALL = 1.8

T = TypeVar("T")


def least(tries: Iterable[T], faults: Callable[[T], int]) -> T:
    """The first of some tries without fault, or else the one with the fewest."""
    found: list[tuple[int, T]] = []
    for one in tries:
        found.append((faults(one), one))
        if not found[-1][0]:
            break
    return min(found, key=lambda pair: pair[0])[1]


def beside(text: str, at: Point, drawn: Sequence[Entity], height: float = _SMALL) -> Text:
    """The text near a point, at the first of the places round it where nothing strikes it."""
    room = Drawn(drawn)
    half = text_width(text, height) / 2
    tries = [
        Text((at[0] + r * dx * (1 + half / 3), at[1] + r * dy), text, height, "centre", "middle", pen=Pen.REFERENCE)
        for r in (0.0, 2.6, 3.6, 5.0, 7.0, 9.5, 12.0)
        for dx, dy in ((1, 1), (-1, 1), (1, -1), (-1, -1), (1.2, 0), (-1.2, 0), (0, 1), (0, -1))
    ]
    return least(tries, room.strikes)


def grain_and_face(at: Point) -> list[Entity]:
    """The face side's mark, a pencil loop with its tail, and the arrow along the grain, about a point."""
    x, y = at
    loop = Polyline(
        ((x - 15.5, y - 3.4), (x - 10.5, y + 1.6), (x - 13.2, y + 1.6), (x - 8.0, y - 2.6)),
        (0.2, 0.9, 0.2, 0.0),
        pen=Pen.GRID,
    )
    shaft = Line((x - 4.0, y - 1.2), (x + 14.0, y - 1.2), Pen.THIN)
    heads = [
        Fill((Polyline(((tip, y - 1.2), (tip - s * 2.6, y - 0.7), (tip - s * 2.6, y - 1.7)), closed=True),))
        for tip, s in ((x - 4.0, -1.0), (x + 14.0, 1.0))
    ]
    return [loop, shaft, *heads, Text((x + 5.0, y), "grain", _SMALL, "centre")]


def corners_of(at: Point) -> list[Point]:
    """The room that the face mark and the grain's arrow take about a point."""
    x, y = at
    return [(x + dx, y + dy) for dx, dy in ((-16.5, -4.4), (15.0, -4.4), (15.0, 5.2), (-16.5, 5.2))]


def frame(at: Point) -> Polyline:
    """That room's edges and diagonals, to be held against what is drawn."""
    a, b, c, d = corners_of(at)
    return Polyline((a, b, c, d, a, c, b, d), pen=Pen.THIN)
