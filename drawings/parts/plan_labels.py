"""Lettering in a plan that must find a clear place: numbers and letters beside what they name, the face mark."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from drawings.paper.lettering import text_width
from drawings.paper.sheet import Entity, Fill, Line, Pen, Point, Polyline, Text
from drawings.sheets.clear_room import Drawn

_SMALL = 2.5

T = TypeVar("T")


def least(tries: Iterable[T], faults: Callable[[T], int]) -> T:
    """The first of some tries without fault, or else the one with the fewest."""
    found: list[tuple[int, T]] = []
    for one in tries:
        found.append((faults(one), one))
        if not found[-1][0]:
            break
    return min(found, key=lambda pair: pair[0])[1]


def beside(text: str, at: Point, drawn: Sequence[Entity], height: float = _SMALL, also: Sequence[Point] = ()) -> Text:
    """The text near a point, or one that may be named instead, at the first of the places round it where nothing
    strikes it."""
    room = Drawn(drawn)
    half = text_width(text, height) / 2
    tries = [
        Text((x + r * dx * (1 + half / 3), y + r * dy), text, height, "centre", "middle", pen=Pen.REFERENCE)
        for x, y in (at, *also)
        for r in (0.0, 2.6, 3.6, 5.0, 7.0, 9.5, 12.0)
        for dx, dy in ((1, 1), (-1, 1), (1, -1), (-1, -1), (1.2, 0), (-1.2, 0), (0, 1), (0, -1))
    ]
    return least(tries, room.strikes)


@dataclass(frozen=True)
class FaceMark:
    """The face side's mark, a pencil loop with its tail, beside the arrow along the grain, or over it; about a point.

    loop, arrow: the middles of the two from there; low, high: the corners of the room that they take, paper mm.
    """

    loop: Point
    arrow: Point
    low: Point
    high: Point

    def marks(self, at: Point) -> list[Entity]:
        """The looped mark of the face side and the arrow along the grain, about a point of the sheet."""
        x, y = at[0] + self.loop[0], at[1] + self.loop[1]
        loop = Polyline(
            ((x - 3.7, y - 2.5), (x + 1.3, y + 2.5), (x - 1.4, y + 2.5), (x + 3.8, y - 1.7)),
            (0.2, 0.9, 0.2, 0.0),
            pen=Pen.GRID,
        )
        x, y = at[0] + self.arrow[0], at[1] + self.arrow[1]
        heads = [
            Fill((Polyline(((x + s * 9.0, y), (x + s * 6.4, y + 0.5), (x + s * 6.4, y - 0.5)), closed=True),))
            for s in (-1.0, 1.0)
        ]
        shaft = Line((x - 9.0, y), (x + 9.0, y), Pen.THIN)
        return [loop, shaft, *heads, Text((x, y + 1.2), "grain", _SMALL, "centre")]

    def corners(self, at: Point) -> list[Point]:
        """Of the room that it takes about a point."""
        (x0, y0), (x1, y1) = self.low, self.high
        return [(at[0] + dx, at[1] + dy) for dx, dy in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]

    def frame(self, at: Point) -> Polyline:
        """That room's edges and diagonals, to be held against what is drawn."""
        a, b, c, d = self.corners(at)
        return Polyline((a, b, c, d, a, c, b, d), pen=Pen.THIN)


#: Beside each other, or over one another where there is no room for that.
FACE_MARKS = (
    FaceMark((-11.8, -0.9), (5.0, -1.2), (-16.5, -4.4), (15.0, 5.2)),
    FaceMark((0.0, 3.4), (0.0, -4.0), (-9.8, -5.2), (9.8, 7.0)),
)
