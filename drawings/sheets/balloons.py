"""Item references round a picture: a number in a circle, tied by a leader to a dot inside the part.

ISO 6433: numerals about twice as high as the dimensions', all circles alike, in rows and columns, leaders narrow and
not crossing each other. Paper millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from drawings.paper.saying import Saying
from drawings.paper.sheet import Circle, Entity, Fill, Line, Pen, Point, Polyline, Text
from drawings.sheets.clear_room import Box

#: Twice the dimensions' 2.5 mm, in a circle that holds three numerals.
NUMERAL, RADIUS = 5.0, 6.0
#: From one circle to the next, between their middles, and from the picture to the circles' middles (ours).
PITCH, OFF = 14.0, 16.0
#: What the circles take round the picture.
RING = OFF + RADIUS

_DOT = 1.2


def balloons(picture: Box, places: Mapping[Saying, Point]) -> list[Entity]:
    """A balloon for each item number, round the box of the picture; places: where the leaders end, by number, which
    says what it is the number of.

    The leaders are together as short as they can be, and so none crosses another: two that crossed could change
    places and be shorter. Raises ValueError when there are more than places for them round the picture.
    """
    slots = _slots(picture)
    if len(places) > len(slots):
        raise ValueError(f"{len(places)} balloons don't go round a picture with room for {len(slots)}")
    numbers = sorted(places, key=int)
    lengths = [[math.dist(places[n], slot) for slot in slots] for n in numbers]
    chosen = shortest_matching(lengths)
    return [m for n, s in zip(numbers, chosen, strict=True) for m in _balloon(n, places[n], slots[s])]


def room_for(picture: Box) -> int:
    """How many balloons go round a picture."""
    return len(_slots(picture))


def _slots(picture: Box) -> list[Point]:
    left, bottom, right, top = picture
    across = _evenly(left, right)
    upright = _evenly(bottom, top)
    rows = [(x, y) for y in (top + OFF, bottom - OFF) for x in across]
    return rows + [(x, y) for x in (left - OFF, right + OFF) for y in upright]


def _evenly(low: float, high: float) -> list[float]:
    """As many places as the pitch allows, the same room left at both ends."""
    count = max(int((high - low) / PITCH), 1)
    start = (low + high - (count - 1) * PITCH) / 2.0
    return [start + n * PITCH for n in range(count)]


def _balloon(number: Saying, place: Point, slot: Point) -> list[Entity]:
    away = math.dist(place, slot)
    edge = tuple(s + (p - s) * RADIUS / away for p, s in zip(place, slot, strict=True))
    return [
        Line(place, (edge[0], edge[1]), Pen.THIN),
        _dot(place),
        Circle(slot, RADIUS, Pen.THIN),
        Text(slot, number, NUMERAL if len(number) < 3 else 3.5, "centre", "middle", pen=Pen.REFERENCE),
    ]


def _dot(at: Point) -> Fill:
    left, right = (at[0] - _DOT / 2, at[1]), (at[0] + _DOT / 2, at[1])
    return Fill((Polyline((left, right), (1.0, 1.0), closed=True),))


def shortest_matching(costs: Sequence[Sequence[float]]) -> list[int]:
    """A column for each row, each column once, so that the costs add up to the least (Kuhn's Hungarian method, with
    Munkres' potentials). There must be at least as many columns as rows."""
    columns = len(costs[0]) if costs else 0
    row_worth, column_worth = [0.0] * len(costs), [0.0] * (columns + 1)
    row_of = [-1] * (columns + 1)
    for row in range(len(costs)):
        row_of[columns] = row
        _give_way(costs, row_worth, column_worth, row_of)
    chosen = [-1] * len(costs)
    for column, row in enumerate(row_of[:-1]):
        if row >= 0:
            chosen[row] = column
    return chosen


def _give_way(
    costs: Sequence[Sequence[float]], row_worth: list[float], column_worth: list[float], row_of: list[int]
) -> None:
    """Finds a column for the row that waits in the last place, others moving over along the cheapest path."""
    waiting = len(row_of) - 1
    least, before = [math.inf] * waiting, [waiting] * waiting
    used = [False] * (waiting + 1)
    column = waiting
    while row_of[column] >= 0:
        used[column] = True
        row = row_of[column]
        for c in range(waiting):
            spare = costs[row][c] - row_worth[row] - column_worth[c]
            if not used[c] and spare < least[c]:
                least[c], before[c] = spare, column
        nearest = min((c for c in range(waiting) if not used[c]), key=least.__getitem__)
        step = least[nearest]
        for c in range(waiting + 1):
            if used[c]:
                row_worth[row_of[c]] += step
                column_worth[c] -= step
            elif c < waiting:
                least[c] -= step
        column = nearest
    while column != waiting:
        row_of[column] = row_of[before[column]]
        column = before[column]
