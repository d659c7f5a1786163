"""Blocks of different sizes set out on sheets, clear of the title block: several ways are tried, the best is kept.

A way is an order of the blocks, whether they fill rows or columns, and whether one may still go on an earlier sheet.
Fewest sheets win; then what keeps the blocks in their order and in the shapes they prefer. Paper mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, product

from drawings.paper.page import title_block_area
from drawings.paper.sheet import Entity, Paper, Point
from drawings.sheets.block import Block
from drawings.sheets.clear_room import Box, boxes_meet, grown, within
from drawings.sheets.leaves import GAP, MARGIN

Size = tuple[float, float]
#: What counts against a way beside its sheets: each pair out of order, each step down in the shapes (ours, by eye).
_SWAPPED, _SECOND_SHAPE = 0.01, 0.05
_TINY = 0.01


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

    def place(self, size: Size, by_rows: bool = True) -> Point | None:
        """Takes the first free place for a box, the highest or the one furthest left; its upper left corner, or None
        where there is none."""
        lefts = {self.area[0], *(box[2] + self.gap for box in self.taken)}
        tops = {self.area[3], *(box[1] - self.gap for box in self.taken)}
        places = sorted(product(lefts, tops), key=lambda at: (-at[1], at[0]) if by_rows else (at[0], -at[1]))
        found = next((at for at in places if self._free(_box(at, size))), None)
        if found:
            self.taken.append(_box(found, size))
        return found

    def emptied(self) -> Room:
        """The same with nothing placed."""
        return Room(self.area, self.kept, self.gap)

    def _free(self, box: Box) -> bool:
        around = grown(box, self.gap - _TINY)
        met = any(boxes_meet(box, b) for b in self.kept) or any(boxes_meet(around, b) for b in self.taken)
        return within(box, self.area) and not met


def sheet_room(page: Paper, gap: float = GAP, kept: Sequence[Box] = ()) -> Room:
    """The room of a sheet: inside its frame, clear of its title block and of what else is kept free."""
    return Room(grown(page.frame, -MARGIN), (grown(title_block_area(page), GAP), *kept), gap)


@dataclass(frozen=True)
class _Way:
    """by_rows: rows are filled, not columns; back: a block may go on any sheet begun, not on the last alone; shape: the
    one tried first, beyond the last the first that goes on."""

    order: Sequence[int]
    by_rows: bool
    back: bool
    shape: int

    def sheets(self, items: Sequence[Sequence[Size]], empty: Room) -> list[list[Spot]] | None:
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

    def _spots(self, item: int, shapes: Sequence[Size], room: Room, spots: list[Spot]) -> Iterator[Spot]:
        """The spot of an item in a room, put down there, if there is one."""
        first = [self.shape] if self.shape < len(shapes) else []
        for k in (*first, *range(len(shapes))):
            at = room.place(shapes[k], self.by_rows)
            if at:
                spots.append(Spot(item, k, *at))
                yield spots[-1]


def packed(items: Sequence[Sequence[Size]], empty: Room) -> list[list[Spot]] | None:
    """The spots of all items, sheet by sheet; None if one of them goes on no sheet.

    items: for each the sizes of the shapes it can take, the preferred one first; empty: the room of each sheet.
    """
    found = (way.sheets(items, empty) for way in _ways(items))
    return min((sheets for sheets in found if sheets is not None), key=_faults, default=None)


def filled(items: Sequence[Sequence[Block]], empty: Room) -> list[tuple[Entity, ...]] | None:
    """The marks of all blocks, sheet by sheet; None if one of them goes on no sheet."""
    found = packed([[(b.width, b.height) for b in shapes] for shapes in items], empty)
    if found is None:
        return None
    return [tuple(m for s in spots for m in items[s.item][s.shape].hung(s.left, s.top)) for spots in found]


def _ways(items: Sequence[Sequence[Size]]) -> Iterator[_Way]:
    most = max((len(shapes) for shapes in items), default=1)
    sizes, as_they_come = [shapes[0] for shapes in items], range(len(items))
    tallest = sorted(as_they_come, key=lambda n: -sizes[n][1])
    largest = sorted(as_they_come, key=lambda n: -sizes[n][0] * sizes[n][1])
    for order, by_rows, back, shape in product(
        (as_they_come, tallest, largest), (False, True), (False, True), range(most + 1)
    ):
        yield _Way(order, by_rows, back, shape)


def _faults(sheets: Sequence[Sequence[Spot]]) -> float:
    """What counts against a way of setting out: see the weights."""
    flat = [spot for spots in sheets for spot in spots]
    swapped = sum(a.item > b.item for a, b in combinations(flat, 2))
    return len(sheets) + min(0.9, _SWAPPED * swapped + _SECOND_SHAPE * sum(spot.shape for spot in flat))


def _box(at: Point, size: Size) -> Box:
    return at[0], at[1] - size[1], at[0] + size[0], at[1]
