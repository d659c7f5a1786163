"""Where tiles meet: numbered diamonds on the join lines, the same on both neighbours, clear of the pattern's lines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawings.paper.sheet import Line, Pen, Point, Polyline, Text
from drawings.patterns.pattern import Pattern
from drawings.patterns.tiling import Tile
from drawings.sheets.clear_room import Box, Drawn
from model.tolerance import SAME_POINT

#: Half a diamond's diagonal, how far its number stands from the join line, and the least from mark to mark, mm.
_HALF, _ASIDE, _APART = 3.5, 7.5, 20.0
_HEIGHT = 2.5
#: Where along a join marks are tried, the first from its start, the second from its end, as shares of its length.
_SHARES = (0.2, 0.15, 0.25, 0.1, 0.3, *(n / 100.0 for n in range(5, 96, 3)))


@dataclass(frozen=True)
class Join:
    """Where two neighbouring tiles join: the line between them, and the numbered points where their marks meet."""

    tiles: tuple[str, str]
    start: Point
    end: Point
    marks: tuple[tuple[int, Point], ...] = ()

    @property
    def upright(self) -> bool:
        return self.start[0] == self.end[0]

    def drawn_on(self, tile: Tile) -> Iterator[Line | Polyline | Text]:
        """The join line, its diamonds and, on the tile's own side of it, their numbers; pattern mm."""
        yield Line(self.start, self.end, Pen.PHANTOM)
        side = -1.0 if tile.name == self.tiles[0] else 1.0
        for number, at in self.marks:
            yield diamond(at)
            yield _number(number, at, side, self.upright)


def joins(pattern: Pattern, tiles: Sequence[Tile]) -> list[Join]:
    """All joins between the tiles that are kept; first is the tile on the left, or the lower one."""
    by_place = {(t.column, t.row): t for t in tiles}
    lines = Drawn(pattern.polylines((-1e6, -1e6, 1e6, 1e6)))
    found: list[Join] = []
    for t in tiles:
        for neighbour in (by_place.get((t.column + 1, t.row)), by_place.get((t.column, t.row - 1))):
            if neighbour:
                found.append(_join(t, neighbour, lines, 1 + sum(len(j.marks) for j in found)))
    return found


def _join(a: Tile, b: Tile, lines: Drawn, number: int) -> Join:
    start, end = _shared(a.core, b.core)
    upright = start[0] == end[0]
    first = _clearest([_between(start, end, s) for s in _SHARES], upright, lines)
    others = [p for p in (_between(end, start, s) for s in _SHARES) if math.dist(p, first) > _APART]
    marks = ((number, first), (number + 1, _clearest(others, upright, lines)))
    return Join((a.name, b.name), start, end, marks)


def _shared(a: Box, b: Box) -> tuple[Point, Point]:
    """The side two cores share."""
    if abs(a[2] - b[0]) < SAME_POINT:
        return (a[2], max(a[1], b[1])), (a[2], min(a[3], b[3]))
    return (max(a[0], b[0]), a[3]), (min(a[2], b[2]), a[3])


def _between(p: Point, q: Point, share: float) -> Point:
    return p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])


def _clearest(tried: Sequence[Point], upright: bool, lines: Drawn) -> Point:
    """The first clear of all lines, or the one that meets the fewest."""
    met = []
    for at in tried:
        met.append(_crowding(at, upright, lines))
        if met[-1] == 0:
            return at
    return tried[met.index(min(met))]


def _crowding(at: Point, upright: bool, lines: Drawn) -> int:
    numbers = sum(lines.strikes(_number(888, at, side, upright)) for side in (-1.0, 1.0))
    return 3 * numbers + lines.crossings(diamond(at))


def diamond(at: Point) -> Polyline:
    """The mark itself."""
    x, y = at
    return Polyline(((x - _HALF, y), (x, y - _HALF), (x + _HALF, y), (x, y + _HALF)), closed=True, pen=Pen.THIN)


def _number(number: int, at: Point, side: float, upright: bool) -> Text:
    x, y = (at[0] + side * _ASIDE, at[1]) if upright else (at[0], at[1] + side * _ASIDE)
    return Text((x, y), str(number), _HEIGHT, "centre", "middle")
