"""Sheets before they are bound into a set: what is on them, without frame, title block and number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawings.paper.page import frame_and_title, paper, title_block_area
from drawings.paper.sheet import Entity, Paper, Sheet
from drawings.sheets.general import title_block
from model.order import Order

#: What the title block gives as the scale of a picture.
NOT_TO_SCALE = "Not to scale"
#: Room kept inside the frame, past the centring marks, and between what stands on a sheet, mm.
MARGIN, GAP = 6.0, 6.0


@dataclass(frozen=True)
class Leaf:
    """name: the file's stem; title: the kind of drawing, as the title block has it; scale: as it is printed there."""

    name: str
    title: str
    marks: tuple[Entity, ...]
    scale: str = NOT_TO_SCALE


def bind(leaves: Sequence[Leaf], order: Order, first: int = 1, of: int | None = None) -> list[Sheet]:
    """The leaves on the order's paper, numbered from `first` of `of`; without it they are the end of the set."""
    last = first + len(leaves) - 1 if of is None else of
    return [_sheet(leaf, order, first + n, last) for n, leaf in enumerate(leaves)]


def numbered(name: str, count: int) -> list[str]:
    """File stems for so many leaves of a kind.

    >>> numbered("steps", 1), numbered("steps", 2)
    (['steps'], ['steps-1', 'steps-2'])
    """
    return [name] if count == 1 else [f"{name}-{n}" for n in range(1, count + 1)]


def columns(page: Paper, width: float) -> list[tuple[float, float, float]]:
    """Left edge, foot and top of columns about that wide, mm, evenly over a sheet and clear of its title block."""
    x0, y0, x1, y1 = page.frame
    title = title_block_area(page)
    count = max(int((x1 - x0 - 2.0 * MARGIN + GAP) / (width + GAP)), 1)
    each = (x1 - x0 - 2.0 * MARGIN + GAP) / count
    lefts = [x0 + MARGIN + n * each for n in range(count)]
    return [(x, title[3] + GAP if x + each - GAP > title[0] - GAP else y0 + MARGIN, y1 - MARGIN) for x in lefts]


def column_width(page: Paper, width: float) -> float:
    """How wide such columns come out, mm."""
    x0, _, x1, _ = page.frame
    room = x1 - x0 - 2.0 * MARGIN + GAP
    return room / max(int(room / (width + GAP)), 1) - GAP


def _sheet(leaf: Leaf, order: Order, number: int, of: int) -> Sheet:
    page = paper(order.drawing.paper)
    block = replace(title_block(order, leaf.scale, number, of), document_type=leaf.title)
    return Sheet(leaf.name, leaf.title, page, (*frame_and_title(page, block), *leaf.marks), number, of)
