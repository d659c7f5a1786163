"""The room that a card has on its sheet, and how words and numbers are set out in it."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.paper.board import board
from drawings.paper.lettering import wrapped
from drawings.paper.page import drawing_area
from drawings.sheets.clear_room import Box
from model.order import Order

HEIGHT = 2.5
#: Kept off the frame, mm: clear of its centring marks.
_MARGIN = 7.0


def area(order: Order) -> Box:
    """The room that a card has on the order's paper: inside the frame, over the title block, mm."""
    return drawing_area(board(order.drawing.paper, order.units), _MARGIN)


def in_lines(text: str, width: float) -> list[str]:
    """A text in lines up to `width` mm wide, at the tables' lettering."""
    return wrapped(text, width, HEIGHT) or [""]


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Places near the wanted ones, in their order and at least `gap` apart, between `low` and `high` if they fit.

    Those that crowd each other stand evenly about the middle of where they want to be.
    """
    clumps: list[tuple[float, int]] = []  # the middle of a clump, and how many it holds
    for at in wanted:
        middle, count = at, 1
        while clumps and middle - (count - 1) * gap / 2.0 < clumps[-1][0] + (clumps[-1][1] - 1) * gap / 2.0 + gap:
            before, others = clumps.pop()
            middle, count = (middle * count + before * others) / (count + others), count + others
            middle = _held(middle, (count - 1) * gap / 2.0, low, high)
        clumps.append((_held(middle, (count - 1) * gap / 2.0, low, high), count))
    return [middle + (n - (count - 1) / 2.0) * gap for middle, count in clumps for n in range(count)]


def _held(middle: float, half: float, low: float, high: float) -> float:
    return min(max(middle, low + half), high - half) if high - low >= 2.0 * half else (low + high) / 2.0
