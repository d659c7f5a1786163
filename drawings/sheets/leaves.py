"""Sheets before they are bound into a set: what is on them, without frame, title block and number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawings.paper.page import frame_and_title, paper
from drawings.paper.sheet import Entity, Sheet
from drawings.sheets.general import title_block
from model.order import Order

#: What the title block gives as the scale of a picture.
NOT_TO_SCALE = "Not to scale"


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


def _sheet(leaf: Leaf, order: Order, number: int, of: int) -> Sheet:
    page = paper(order.drawing.paper)
    block = replace(title_block(order, leaf.scale, number, of), document_type=leaf.title)
    return Sheet(leaf.name, leaf.title, page, (*frame_and_title(page, block), *leaf.marks), number, of)
