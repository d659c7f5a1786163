"""Part drawings set down on sheets, several parts to a sheet where they are small."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.board import board
from drawings.paper.lettering import wrapped
from drawings.paper.page import title_block_area
from drawings.paper.saying import joined, spelled
from drawings.paper.scales import scales, sheet_scale
from drawings.paper.sheet import Entity, Line, Paper, Pen, Point, Sheet, Text
from drawings.parts.family import families
from drawings.parts.figure import Figure
from drawings.sheets.block import Block
from drawings.sheets.clear_room import Box
from drawings.sheets.leaves import AS_SHOWN, MARGIN, Leaf, bind
from drawings.sheets.packing import Footprint, Room, footprint, packed, sheet_room
from drawings.sheets.principal import Lengths
from model.errors import DesignError
from model.order import Order
from model.piece import Piece

#: Between the blocks of a part, between parts, and from a part's rule down to its heading, mm (ours).
_GAP, _PARTS, _RULE = 7.0, 8.0, 2.5
#: The legend's lettering, its lines, the lowest one over the frame, and the least width for it, mm.
_LETTERS, _LINES, _FOOT, _LEGIBLE = 2.5, 3.6, 1.8, 100.0
#: Parts are drawn no larger than this, and to save a sheet one scale smaller if the plan stays so wide, mm (ours).
_LARGEST, _WIDE_ENOUGH = 0.5, 60.0
#: Widths that a part may be gathered in beside half a sheet's and what the title block leaves, as shares of all (ours).
_SHARES = (1.0, 0.75, 0.62)

_LEGEND = (
    "Each plan is seen from the face side (the looped mark), the grain running left to right. Everything "
    "is measured from the left end and the near edge, or the lines that touch them, each marked V."
)


def part_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """The sheets of all parts made of stock. Raises DesignError for a part that is too large for the order's paper."""
    return bind(part_leaves(piece, order), order)


def part_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """The same before they are bound."""
    page, form = board(order.drawing.paper, order.units), Lengths(order.units, order.drawing.denominator)
    empty = sheet_room(page, _PARTS, [_legend_box(page)])
    figures = [Figure(family, piece, form, empty.area[2] - empty.area[0]) for family in families(piece, form)]
    items = [item for figure in figures for item in _items(figure, empty)]
    found = packed([[cluster.footprint for cluster in shapes] for shapes in items], empty) or []
    legend = list(_legend(page))
    leaves = []
    for spots in found:
        placed = [(items[s.item][s.shape], s) for s in sorted(spots, key=lambda s: s.item)]
        marks = [mark for cluster, s in placed for mark in cluster.hung(s.left, s.top)]
        leaves.append(_leaf([cluster for cluster, _ in placed], [*marks, *legend], form))
    return leaves


@dataclass(frozen=True)
class Cluster:
    """The blocks of a part's drawing, or of a stretch of it, set close together under a rule; scale: of its plan."""

    figure: Figure
    scale: float
    placed: tuple[tuple[Block, Point], ...]

    @cached_property
    def footprint(self) -> Footprint:
        """What it takes of a sheet: its rule and its blocks."""
        drawn = [(x, y - block.height - _RULE, x + block.width, y - _RULE) for block, (x, y) in self.placed]
        width, height = max(box[2] for box in drawn), -min(box[1] for box in drawn)
        return Footprint(width, height, ((0.0, -_RULE, width, 0.0), *drawn))

    @property
    def shows_plan(self) -> bool:
        """Whether the plan is among them, and so anything drawn to the scale."""
        plan = self.figure.plan_block(self.scale)
        return any(block is plan for block, _ in self.placed)

    def hung(self, left: float, top: float) -> list[Entity]:
        """The marks with the upper left corner at a point of the paper, mm."""
        marks = [m for block, (x, y) in self.placed for m in block.hung(x + left, y + top - _RULE)]
        return [Line((left, top), (left + self.footprint.width, top), Pen.THIN), *marks]


def _leaf(clusters: Sequence[Cluster], marks: Sequence[Entity], form: Lengths) -> Leaf:
    drawn = {cluster.scale if cluster.shows_plan else None for cluster in clusters}
    one = drawn.pop() if len(drawn) == 1 else None
    scale = sheet_scale(one, form.units) if one else AS_SHOWN
    first, *more = dict.fromkeys(cluster.figure.title for cluster in clusters)
    title = joined(", ", [first, *(spelled(t, lambda text: text[0].lower() + text[1:]) for t in more)])
    return Leaf("parts", "Part drawing", tuple(marks), scale, title)


def _items(figure: Figure, empty: Room) -> list[list[Cluster]]:
    """A part's drawing in the shapes that it can take; what goes on no sheet as a whole comes in several items."""
    tried = [s for s in scales(figure.form.units) if s <= _LARGEST]
    for n, scale in enumerate(tried):
        whole = list(_shapes(figure, scale, empty))
        if whole:
            smaller = tried[n + 1 : n + 2]
            more = [c for s in smaller if figure.plan.size(s)[0] > _WIDE_ENOUGH for c in _shapes(figure, s, empty)]
            return [[*whole, *more]]
    return _spread(figure, tried, empty)


def _shapes(figure: Figure, scale: float, empty: Room) -> Iterator[Cluster]:
    """The whole drawing, as low as it goes, over the width of a sheet and less of it."""
    _, y0, _, y1 = empty.area
    blocks = [figure.heading(scale), figure.plan_block(scale), *figure.others]
    for width in _widths(empty):
        ways = [_gathered(figure, scale, some, width, y1 - y0) for some in _orders(blocks)]
        whole = [found[0] for found in ways if found and not found[1] and empty.emptied().place(found[0].footprint)]
        if whole:
            yield min(whole, key=lambda cluster: (round(cluster.footprint.height), cluster.footprint.width))


def _widths(empty: Room) -> list[float]:
    """Widths that a part may be gathered in, mm, the widest first."""
    x0, _, x1, _ = empty.area
    beside_title = [box[0] - x0 for box in empty.kept if box[0] > (x0 + x1) / 2.0]
    return sorted([*(share * (x1 - x0) for share in _SHARES), *beside_title, (x1 - x0 - _PARTS) / 2.0], reverse=True)


def _orders(blocks: Sequence[Block]) -> list[list[Block]]:
    """Heading and plan, and the others as they come, the tallest first and the widest first."""
    first, others = list(blocks[:2]), blocks[2:]
    tallest = sorted(others, key=lambda block: -block.height)
    widest = sorted(others, key=lambda block: -block.width)
    return [[*first, *some] for some in (others, tallest, widest)]


def _gathered(
    figure: Figure, scale: float, blocks: Sequence[Block], width: float, height: float
) -> tuple[Cluster, list[Block]] | None:
    """As many of the blocks as go into so many mm, and the others; None if the first two don't go in."""
    room = Room((0.0, -height + _RULE, width, 0.0), gap=_GAP)
    places = [(block, room.place(footprint(block))) for block in blocks]
    placed = tuple((block, at) for block, at in places if at)
    if any(at is None for _, at in places[:2]):
        return None
    return Cluster(figure, scale, placed), [block for block, at in places if at is None]


def _spread(figure: Figure, tried: Sequence[float], empty: Room) -> list[list[Cluster]]:
    """The part in several pieces, each a sheet's, at the largest scale at which its plan goes on one."""
    x0, _, x1, y1 = empty.area
    width, height = x1 - x0, y1 - max(box[3] for box in empty.kept)
    for scale in tried:
        waiting = [figure.heading(scale), figure.plan_block(scale), *figure.others]
        found: list[list[Cluster]] = []
        while waiting:
            gathered = _gathered(figure, scale, waiting, width, height)
            if gathered is None:
                break
            cluster, left = gathered
            found.append([cluster])
            waiting = [figure.heading(scale, more=True), *left] if left else []
        if not waiting:
            return found
    raise DesignError(f"[drawing] paper: {figure.title} doesn't go on the paper at any scale; choose a larger paper")


def _legend_box(page: Paper) -> Box:
    x0, y0, _, _ = page.frame
    return x0, y0, title_block_area(page)[0], max((text.at[1] + _LETTERS + 1.0 for text in _legend(page)), default=y0)


def _legend(page: Paper) -> list[Text]:
    """What all plans have in common, left of title block and centring mark; a narrow page has no room for it."""
    x, y = page.frame[0] + MARGIN, page.frame[1] + _FOOT
    width = min(title_block_area(page)[0], page.width / 2.0) - 1.0 - x
    lines = wrapped(_LEGEND, width, _LETTERS) if width > _LEGIBLE else []
    return [Text((x, y + n * _LINES), line, _LETTERS) for n, line in enumerate(reversed(lines))]
