"""Part drawings set down on sheets, several parts to a sheet where they are small."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from drawings.paper.lettering import text_width
from drawings.paper.page import paper, title_block_area
from drawings.paper.scales import scale_text, scales
from drawings.paper.sheet import Entity, Line, Paper, Pen, Sheet, Text
from drawings.parts.block import Block
from drawings.parts.family import families
from drawings.parts.figure import Figure
from drawings.sheets.clear_room import Box, boxes_meet, grown, within
from drawings.sheets.leaves import AS_SHOWN, Leaf, bind
from drawings.sheets.principal import Lengths
from model.errors import DesignError
from model.order import Order
from model.piece import Piece

#: Free inside the frame, between blocks, and between parts, mm (ours).
_MARGIN, _GAP, _PARTS = 7.0, 8.0, 13.0
_SMALL = 1.8
#: Parts are drawn no larger than this (ours).
_LARGEST = 0.5

_LEGEND = (
    "Each plan is seen from the face side (the looped mark), the grain running from left to right.",
    "Everything is measured from the left end and the near edge, or the lines that touch them, each marked V.",
)


def part_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """The sheets of all parts made of stock. Raises DesignError for a part that is too large for the order's paper."""
    return bind(part_leaves(piece, order), order)


def part_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """The same before they are bound."""
    form = Lengths(order.units, order.drawing.denominator)
    pages: list[Page] = []
    for family in families(piece, form):
        _add(pages, Figure(family, piece, form), Page(paper(order.drawing.paper)))
    return [page.leaf() for page in pages]


@dataclass(frozen=True)
class Page:
    """A sheet so far: the boxes taken, each block with its upper left corner, and the figures with their scales.

    level: the foot of the last figure; the next one stands below it.
    """

    paper: Paper
    level: float | None = None
    taken: tuple[Box, ...] = ()
    placed: tuple[tuple[Block, float, float], ...] = ()
    figures: tuple[tuple[Figure, float], ...] = ()

    @cached_property
    def area(self) -> Box:
        return grown(self.paper.frame, -_MARGIN)

    @property
    def top(self) -> float:
        """Where the next figure begins."""
        return self.area[3] if self.level is None else self.level - _PARTS

    def with_block(self, block: Block, top: float) -> Page | None:
        """The page with a block at the highest, then leftmost free place under `top`; None where there is none."""
        found = next((box for box in self._places(block, top) if self._free(box)), None)
        if found is None:
            return None
        taken = (*self.taken, found)
        return replace(self, taken=taken, placed=(*self.placed, (block, found[0], found[3])))

    def _places(self, block: Block, top: float) -> Iterator[Box]:
        lefts = sorted({self.area[0], *(box[2] + _GAP for box in self.taken)})
        tops = sorted({top, *(box[1] - _GAP for box in self.taken if box[1] - _GAP <= top)}, reverse=True)
        return ((x, y - block.height, x + block.width, y) for y in tops for x in lefts)

    def _free(self, box: Box) -> bool:
        return within(box, self.area) and not any(boxes_meet(box, other) for other in (*self._kept, *self._around))

    @cached_property
    def _around(self) -> tuple[Box, ...]:
        return tuple(grown(box, _GAP - 0.01) for box in self.taken)

    @cached_property
    def _kept(self) -> tuple[Box, ...]:
        """The title block with room round it, the legend, and the centring marks."""
        x0, y0, _, y1 = self.paper.frame
        title = grown(title_block_area(self.paper), _GAP)
        middle = self.paper.width / 2
        marks = (middle - 1, y0, middle + 1, y0 + 7), (middle - 1, y1 - 7, middle + 1, y1)
        return title, (x0, y0, title[0], y0 + 12), *marks

    def leaf(self) -> Leaf:
        """The page with all that stands on it."""
        drawn = {scale for _, scale in self.figures}
        form = self.figures[0][0].form
        scale = scale_text(drawn.pop(), form.units) if len(drawn) == 1 else AS_SHOWN
        titles = [figure.title for figure, _ in self.figures]
        title = ", ".join([titles[0], *(t[0].lower() + t[1:] for t in titles[1:])])
        marks = [mark for block_, left, top in self.placed for mark in block_.hung(left, top)]
        return Leaf("parts", "Part drawing", (*marks, *self._legend()), scale, title)

    def _legend(self) -> Iterator[Entity]:
        """What all plans have in common, beside the title block; on a narrow page there is no room for it."""
        x, y = self.area[0], self.paper.frame[1] + 6.0
        right = title_block_area(self.paper)[0]
        for n, line in enumerate(reversed(_LEGEND)):
            if x + text_width(line, _SMALL) < right:
                yield Text((x, y + n * 3.6), line, _SMALL)


def _add(pages: list[Page], figure: Figure, blank: Page) -> None:
    """Set a part's drawing down: under others where it all goes, else on a new sheet, in the worst case on several."""
    for scale in (s for s in scales(figure.form.units) if s <= _LARGEST and figure.plan.size(s)[0] < blank.paper.width):
        alone = _set_down(blank, figure, scale)
        if alone is None or alone[1]:
            continue
        for n, page in enumerate(pages):
            joined = _set_down(page, figure, scale)
            if joined and not joined[1]:
                pages[n] = joined[0]
                return
        pages.append(alone[0])
        return
    pages += _spread(figure, blank)


def _spread(figure: Figure, blank: Page) -> list[Page]:
    """The part over several sheets, at the largest scale at which its plan goes on one."""
    for scale in (s for s in scales(figure.form.units) if s <= _LARGEST and figure.plan.size(s)[0] < blank.paper.width):
        found = _set_down(blank, figure, scale)
        pages = [found[0]] if found else []
        rest = found[1] if found else []
        while rest:
            page, left = _blocks_set_down(blank, [figure.heading(scale, more=True), *rest])
            if len(left) >= len(rest):
                pages = []
                break
            pages.append(replace(page, figures=((figure, scale),)))
            rest = left
        if pages:
            return pages
    raise DesignError(
        f"[drawing] paper: {figure.title} doesn't go on {blank.paper.name} at any scale; choose a larger paper"
    )


def _set_down(start: Page, figure: Figure, scale: float) -> tuple[Page, list[Block]] | None:
    """Heading and plan, and as many of the other blocks as go on; and those that don't."""
    top = start.top
    page = start if start.level is None else _ruled(start)
    headed = page.with_block(figure.heading(scale), top)
    drawn = headed and headed.with_block(figure.plan_block(scale), top)
    if drawn is None:
        return None
    page, left = _blocks_set_down(drawn, figure.others, top)
    foot = min(box[1] for box in page.taken)
    return replace(page, level=foot, figures=(*start.figures, (figure, scale))), left


def _blocks_set_down(page: Page, blocks: Sequence[Block], top: float | None = None) -> tuple[Page, list[Block]]:
    left = []
    for block in blocks:
        grown_page = page.with_block(block, page.top if top is None else top)
        if grown_page is None:
            left.append(block)
        else:
            page = grown_page
    return page, left


def _ruled(page: Page) -> Page:
    """A thin line under the last figure."""
    assert page.level is not None
    x0, _, x1, _ = page.area
    y = page.level - _PARTS / 2
    line = Block(lambda at: [Line(at, (at[0] + x1 - x0, at[1]), Pen.THIN)])
    return replace(page, placed=(*page.placed, (line, x0, y)))
