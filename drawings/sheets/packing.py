"""Blocks of different sizes set out on sheets, clear of the title block: several ways are tried, the best is kept.

A way is an order of the blocks, whether they fill rows or columns, and whether one may still go on an earlier sheet.
Fewest sheets win; then what keeps the blocks in their order and in the shapes they prefer. What shares a sheet is then
set out on it once more by itself. Paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, product
from random import Random

from drawings.paper.page import title_block_area
from drawings.paper.sheet import Entity, Paper, Point
from drawings.sheets.block import Block
from drawings.sheets.clear_room import Box, boxes_meet, grown, shifted, within
from drawings.sheets.leaves import GAP, MARGIN

Size = tuple[float, float]
#: What counts against a way beside its sheets: each pair out of order, each step down in the shapes (ours, by eye).
_SWAPPED, _SECOND_SHAPE = 0.01, 0.05
#: Where more sheets were begun than the blocks' area fills, so many blocks more are put down to try others (ours).
_TRIALS = 3000
_TINY = 0.01


@dataclass(frozen=True)
class Footprint:
    """What a block takes of a sheet: its size, and the boxes in it that are drawn on, from its upper left corner.

    Another block keeps off all of it, but the title block may reach in where nothing is drawn. No boxes: all is drawn
    on.
    """

    width: float
    height: float
    boxes: tuple[Box, ...] = ()

    @property
    def size(self) -> Size:
        return self.width, self.height

    @property
    def drawn_on(self) -> tuple[Box, ...]:
        return self.boxes or ((0.0, -self.height, self.width, 0.0),)


@dataclass(frozen=True)
class Spot:
    """Where a block goes: which of the items, in which of its shapes, and its upper left corner."""

    item: int
    shape: int
    left: float
    top: float


@dataclass
class Room:
    """An area that fills up: the boxes kept free in it, the least gap between what is placed, the boxes placed."""

    area: Box
    kept: tuple[Box, ...] = ()
    gap: float = GAP
    taken: list[Box] = field(default_factory=list)

    def place(self, block: Footprint, by_rows: bool = True) -> Point | None:
        """Takes the first free place for a block, the highest or the one furthest left; its upper left corner, or None
        where there is none."""
        width, height = block.size
        lefts = {self.area[0], *(box[2] + self.gap for box in self.taken)}
        tops = {self.area[3], *(box[1] - self.gap for box in self.taken)}
        across = sorted(x for x in lefts if x + width < self.area[2] + _TINY)
        down = sorted((y for y in tops if y - height > self.area[1] - _TINY), reverse=True)
        places = ((x, y) for y in down for x in across) if by_rows else product(across, down)
        found = next((at for at in places if self._free(at, block)), None)
        if found:
            self.taken.append(_box(found, block.size))
        return found

    def emptied(self) -> Room:
        """The same with nothing placed."""
        return Room(self.area, self.kept, self.gap)

    def _free(self, at: Point, block: Footprint) -> bool:
        # Asked a quarter of a million times for a set of sheets: `boxes_meet`, written out.
        left, low, right, top = grown(_box(at, block.size), self.gap - _TINY)
        for a, b, c, d in self.taken:
            if left < c and a < right and low < d and b < top:
                return False
        return not any(boxes_meet(shifted(drawn, *at), b) for drawn in block.drawn_on for b in self.kept)


def sheet_room(page: Paper, gap: float = GAP, kept: Sequence[Box] = ()) -> Room:
    """The room of a sheet: inside its frame, clear of its title block and of what else is kept free."""
    return Room(grown(page.frame, -MARGIN), (grown(title_block_area(page), GAP), *kept), gap)


@dataclass(frozen=True)
class _Way:
    """by_rows: rows are filled, not columns; back: a block may go on any sheet begun, not on the last alone.

    shapes: for each block the one tried first, beyond the last the first that goes on.
    """

    order: Sequence[int]
    by_rows: bool
    back: bool
    shapes: Sequence[int]

    def sheets(self, items: Sequence[Sequence[Footprint]], empty: Room) -> list[list[Spot]] | None:
        begun: list[tuple[Room, list[Spot]]] = []
        for n in self.order:
            fresh = (empty.emptied(), list[Spot]())
            where = [*(begun if self.back else begun[-1:]), fresh]
            spot = next((s for room, spots in where for s in self._spots(n, items[n], room, spots)), None)
            if spot is None:
                return None
            if fresh[1]:
                begun.append(fresh)
        return sorted((spots for _, spots in begun), key=lambda spots: min(s.item for s in spots))

    def _spots(self, item: int, shapes: Sequence[Footprint], room: Room, spots: list[Spot]) -> Iterator[Spot]:
        """The spot of an item in a room, put down there, if there is one."""
        first = [self.shapes[item]] if self.shapes[item] < len(shapes) else []
        for k in (*first, *range(len(shapes))):
            at = room.place(shapes[k], self.by_rows)
            if at:
                spots.append(Spot(item, k, *at))
                yield spots[-1]


def packed(items: Sequence[Sequence[Footprint]], empty: Room) -> list[list[Spot]] | None:
    """The spots of all items, sheet by sheet; None if one of them goes on no sheet.

    items: for each the shapes it can take, the preferred one first; empty: the room of each sheet.
    """
    best = _best(_ways(items), items, empty)
    if best is None:
        return None
    if len(best) > _least_sheets(items, empty):
        best = min(best, _best(_more_ways(items), items, empty) or best, key=_faults)
    return [_set_out_again(spots, items, empty) for spots in best]


def filled(items: Sequence[Sequence[Block]], empty: Room) -> list[tuple[Entity, ...]] | None:
    """The marks of all blocks, sheet by sheet; None if one of them goes on no sheet."""
    found = packed([[footprint(block) for block in shapes] for shapes in items], empty)
    if found is None:
        return None
    return [tuple(m for s in spots for m in items[s.item][s.shape].hung(s.left, s.top)) for spots in found]


def footprint(block: Block) -> Footprint:
    """A block as one that is drawn on all over."""
    return Footprint(block.width, block.height)


def _best(ways: Iterable[_Way], items: Sequence[Sequence[Footprint]], empty: Room) -> list[list[Spot]] | None:
    found = (way.sheets(items, empty) for way in ways)
    return min((sheets for sheets in found if sheets is not None), key=_faults, default=None)


def _set_out_again(spots: Sequence[Spot], items: Sequence[Sequence[Footprint]], empty: Room) -> list[Spot]:
    """The items of one sheet set out on it by themselves, if that serves their order and shapes better."""
    ours = sorted(spot.item for spot in spots)
    found = _best(_ways([items[n] for n in ours]), [items[n] for n in ours], empty) or []
    again = [replace(spot, item=ours[spot.item]) for some in found for spot in some]
    return min(list(spots), again, key=lambda some: _faults([some])) if len(found) == 1 else list(spots)


def _least_sheets(items: Sequence[Sequence[Footprint]], empty: Room) -> int:
    """How many sheets the blocks' area alone asks for."""
    room = _area(empty.area) - sum(_area(box) for box in empty.kept if within(box, grown(empty.area, GAP + MARGIN)))
    return math.ceil(sum(min(s.width * s.height for s in shapes) for shapes in items) / room)


def _area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def _ways(items: Sequence[Sequence[Footprint]]) -> Iterator[_Way]:
    most = max((len(shapes) for shapes in items), default=1)
    sizes, as_they_come = [shapes[0] for shapes in items], range(len(items))
    tallest = sorted(as_they_come, key=lambda n: -sizes[n].height)
    largest = sorted(as_they_come, key=lambda n: -sizes[n].width * sizes[n].height)
    for order, by_rows, back, shape in product(
        (as_they_come, tallest, largest), (False, True), (False, True), range(most + 1)
    ):
        yield _Way(order, by_rows, back, [shape] * len(items))


def _more_ways(items: Sequence[Sequence[Footprint]]) -> Iterator[_Way]:
    """Large before small, each moved up or down and put into a shape by chance; the same ways for the same items."""
    chance = Random(len(items))
    areas = [[s.width * s.height for s in shapes] for shapes in items]
    leanest = [min(range(len(some)), key=some.__getitem__) for some in areas]
    for n in range(_TRIALS // len(items)):
        order = sorted(range(len(items)), key=lambda n: -max(areas[n]) * chance.uniform(0.3, 1.0))
        anyhow = [chance.randrange(len(some)) for some in areas]
        for shapes in (leanest, anyhow):
            yield _Way(order, n % 2 == 0, True, shapes)


def _faults(sheets: Sequence[Sequence[Spot]]) -> float:
    """What counts against a way of setting out: see the weights; all of them together less than one sheet."""
    flat = [spot for spots in sheets for spot in spots]
    swapped = sum(a.item > b.item for a, b in combinations(flat, 2))
    lesser = _SWAPPED * swapped + _SECOND_SHAPE * sum(spot.shape for spot in flat)
    return len(sheets) + lesser / (1.0 + lesser)


def _box(at: Point, size: Size) -> Box:
    return at[0], at[1] - size[1], at[0] + size[0], at[1]
