"""Sheets before they are bound into a set: what is on them, without frame, title block and number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from drawings.paper.board import enlargement
from drawings.paper.moved import enlarged
from drawings.paper.page import frame_and_title, paper, title_block_area
from drawings.paper.saying import Saying, Says, number, say
from drawings.paper.sheet import Entity, Paper, Sheet
from drawings.paper.title_block import Projection, TitleBlock
from model.lengths import INCH_UNITS
from model.order import Order

#: What the title block gives as the scale of a picture, of a table, and of a sheet with several scales.
NOT_TO_SCALE, NO_SCALE, AS_SHOWN = "Not to scale", "–", "As shown"
#: Room kept inside the frame, past the centring marks, and between what stands on a sheet, mm.
MARGIN, GAP = 6.0, 6.0

_UNITS = {
    "mm": "All lengths in millimetres",
    "cm": "Lengths in centimetres",
    "m": "Lengths in metres",
    "in": "Inches, fractions to {}",
    "ft-in": "Feet and inches, to {} in",
    "in.dec": "Decimal inches",
}


@dataclass(frozen=True)
class Leaf:
    """What is on a sheet, as its board has it.

    stem: its file's, numbered when there are more of one; kind: of drawing, as the title block has it; scale: as it is
    printed there; shows: what of the piece, if that is not all of it.
    """

    stem: str
    kind: str
    marks: tuple[Entity, ...]
    scale: str = NOT_TO_SCALE
    shows: str = ""


def bind(leaves: Sequence[Leaf], order: Order) -> list[Sheet]:
    """The leaves on the order's paper, with frame and title block, numbered through."""
    names = numbered([leaf.stem for leaf in leaves])
    return [
        _sheet(leaf, name, order, n, len(leaves)) for n, (leaf, name) in enumerate(zip(leaves, names, strict=True), 1)
    ]


def numbered(stems: Sequence[str]) -> list[str]:
    """A name of its own for each stem: those that come once as they are, the others counted.

    >>> numbered(["general", "steps", "steps"])
    ['general', 'steps-1', 'steps-2']
    """
    total, so_far = Counter(stems), Counter[str]()
    names = []
    for stem in stems:
        so_far[stem] += 1
        digits = len(str(total[stem]))
        names.append(stem if total[stem] == 1 else f"{stem}-{so_far[stem]:0{digits}}")
    return names


def title_block(order: Order, leaf: Leaf, number: int, of: int) -> TitleBlock:
    """What the order says of the drawing; an empty field is left to be written in."""
    drawing = order.drawing
    return TitleBlock(
        _ordered(order.title, "title"),
        owner=_ordered(drawing.owner, "drawing.owner"),
        document_type=leaf.kind,
        number=_ordered(order.name, "name"),
        revision=_ordered(drawing.revision, "drawing.revision"),
        date=_ordered(drawing.date, "drawing.date"),
        creator=_ordered(drawing.drawn_by, "drawing.drawn_by"),
        approved_by=_ordered(drawing.approved_by, "drawing.approved_by"),
        scale=leaf.scale,
        sheet=number,
        of=of,
        supplement=leaf.shows,
        units=_units(order),
        tolerance="",
        projection=projection(order),
        least=2.5 * enlargement(order.units) if order.units in INCH_UNITS else 1.8,
    )


def _ordered(text: str, entry: str) -> Saying:
    """A text as an entry of the order has it."""
    return number(text, Says("order", (entry,)))


def _units(order: Order) -> str:
    finest = number(f"1/{order.drawing.denominator}", Says("finest"))
    note = _UNITS[order.units]
    return say(note, finest) if "{}" in note else note


def projection(order: Order) -> Projection:
    """Third angle unless the order asks for the first."""
    return "first" if order.drawing.projection == "first" else "third"


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


def _sheet(leaf: Leaf, name: str, order: Order, number: int, of: int) -> Sheet:
    page = paper(order.drawing.paper)
    drawn = leaf.marks if order.units not in INCH_UNITS else (enlarged(m, enlargement(order.units)) for m in leaf.marks)
    marks = (*frame_and_title(page, title_block(order, leaf, number, of)), *drawn)
    return Sheet(name, leaf.shows or leaf.kind, page, marks, number, of)
