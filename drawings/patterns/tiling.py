"""Tiles: how something larger than a page is spread over pages that overlap, and where they join.

Pattern millimetres, x right, y up. Columns are lettered from the left, rows numbered from the top.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from string import ascii_uppercase

from drawings.sheets.clear_room import Box

#: How much neighbouring tiles share, mm: room to lay one over the other and tape them (common practice: 10).
OVERLAP = 10.0


@dataclass(frozen=True)
class Tile:
    """One page's share: `window` is what it prints; `core` what is left when it is cut along its join lines."""

    column: int
    row: int
    window: Box
    core: Box

    @property
    def name(self) -> str:
        return f"{column_letters(self.column)}{self.row + 1}"


@dataclass(frozen=True)
class Tiling:
    """The fewest windows of one size that cover `bounds`, each overlapping its neighbours, the whole in the middle.

    window: width and height, mm, each more than the overlap.
    """

    bounds: Box
    window: tuple[float, float]
    overlap: float = OVERLAP

    @property
    def columns(self) -> int:
        return self._count(0)

    @property
    def rows(self) -> int:
        return self._count(1)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """All tiles, row by row from the top left."""
        return tuple(self._tile(column, row) for row in range(self.rows) for column in range(self.columns))

    def _count(self, axis: int) -> int:
        span = self.bounds[axis + 2] - self.bounds[axis] - self.overlap
        return max(1, math.ceil(span / (self.window[axis] - self.overlap) - 1e-9))

    def _tile(self, column: int, row: int) -> Tile:
        up = self.rows - 1 - row
        (x0, x1), (y0, y1) = self._stretch(0, column), self._stretch(1, up)
        (cx0, cx1), (cy0, cy1) = self._core(0, column), self._core(1, up)
        return Tile(column, row, (x0, y0, x1, y1), (cx0, cy0, cx1, cy1))

    def _stretch(self, axis: int, index: int) -> tuple[float, float]:
        size, count = self.window[axis], self._count(axis)
        step = size - self.overlap
        low = (self.bounds[axis] + self.bounds[axis + 2] - (count * step + self.overlap)) / 2.0 + index * step
        return low, low + size

    def _core(self, axis: int, index: int) -> tuple[float, float]:
        """Cut in the middle of each overlap; where there is no neighbour, the window's own end."""
        (low, high), last = self._stretch(axis, index), self._count(axis) - 1
        half = self.overlap / 2.0
        return low + half * (index > 0), high - half * (index < last)


def column_letters(index: int) -> str:
    """The letters of a column counted from 0.

    >>> [column_letters(n) for n in (0, 25, 26, 52)]
    ['A', 'Z', 'AA', 'BA']
    """
    letters = ""
    while index >= 0:
        index, last = divmod(index, 26)
        letters = ascii_uppercase[last] + letters
        index -= 1
    return letters
