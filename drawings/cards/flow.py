"""Setting blocks down a sheet: columns filled from the top, then the next sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawings.paper.lettering import wrapped
from drawings.paper.page import PAPERS, drawing_area, frame_and_title, scale_text
from drawings.paper.sheet import Entity, Sheet
from drawings.sheets.clear_room import Box
from drawings.sheets.general import title_block
from model.order import Order

HEIGHT = 2.5
#: Kept off the frame, mm: clear of its centring marks.
_MARGIN = 7.0


@dataclass(frozen=True)
class Card:
    """What one sheet says before it is a sheet: its file's stem, its title, its kind, its scale, its marks."""

    name: str
    title: str
    kind: str
    scale: float | None
    marks: tuple[Entity, ...]


def area(order: Order) -> Box:
    """The room that a card has on the order's paper: inside the frame, over the title block, mm."""
    return drawing_area(PAPERS[order.drawing.paper], _MARGIN)


def as_sheets(cards: Sequence[Card], order: Order, first: int = 1, of: int | None = None) -> list[Sheet]:
    """Cards on the order's paper with frame and title block, numbered from `first` of `of` (as many as there are)."""
    count = of or first - 1 + len(cards)
    return [_sheet(card, order, n, count) for n, card in enumerate(cards, first)]


def _sheet(card: Card, order: Order, number: int, of: int) -> Sheet:
    paper = PAPERS[order.drawing.paper]
    scale = scale_text(card.scale) if card.scale else "–"
    block = replace(title_block(order, scale, number, of), document_type=card.kind, supplement=card.title)
    return Sheet(card.name, card.title, paper, (*frame_and_title(paper, block), *card.marks), number, of)


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
