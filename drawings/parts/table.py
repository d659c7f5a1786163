"""Tables on a sheet: ruled, headed, each number in them keeping what it measures."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawings.paper.lettering import text_width
from drawings.paper.measured import Meant
from drawings.paper.sheet import Align, Entity, Line, Pen, Point, Text
from drawings.sheets.block import Block

#: Lettering, row height, room beside a cell's text, and from the title to the table, mm.
_HEIGHT, _ROW, _PAD, _TITLED = 2.5, 4.8, 1.5, 1.6
#: Columns whose numbers only count or name.
_REFERENCES = ("No.", "Item", "Make", "Mark")
#: A longer table goes on beside itself.
_MOST_ROWS = 24


@dataclass(frozen=True)
class Cell:
    """A text, and what it measures if it is a number."""

    text: str
    measured: Meant = None


Row = tuple[Cell, ...]


@dataclass(frozen=True)
class Table:
    """Columns headed by words, or by figures, over rows of cells; numbers stand to the right of their column."""

    title: str
    heads: tuple[str | Cell, ...]
    rows: tuple[Row, ...]

    def blocks(self, width: float = math.inf) -> list[Block]:
        """The table, in as many pieces as its length asks for, and the width that there is, mm."""
        starts = range(0, len(self.rows), _MOST_ROWS)
        pieces = [Table(self.title, self.heads, self.rows[n : n + _MOST_ROWS]) for n in starts]
        return [Block(folded.marks) for piece in pieces for folded in piece.folded(width)]

    def folded(self, width: float) -> list[Table]:
        """The table in pieces no wider than so many mm, if its columns allow; each begins with the first column, which
        says what a row is of."""
        each, kept = self.widths, [[0]]
        for n, wide in enumerate(each[1:], 1):
            if len(kept[-1]) > 1 and sum(each[k] for k in kept[-1]) + wide > width:
                kept.append([0])
            kept[-1].append(n)
        return [self._of(columns) for columns in kept]

    def _of(self, columns: Sequence[int]) -> Table:
        """Some of its columns alone."""
        rows = tuple(tuple(row[k] for k in columns) for row in self.rows)
        return Table(self.title, tuple(self.heads[k] for k in columns), rows)

    @property
    def height(self) -> float:
        """From the top of its title to its foot, mm."""
        return _HEIGHT + _TITLED + (len(self.rows) + 1) * _ROW

    @property
    def widths(self) -> list[float]:
        columns = zip(self._headed, *self.rows, strict=True)
        return [max(text_width(cell.text, _HEIGHT) for cell in column) + 2 * _PAD for column in columns]

    @property
    def _headed(self) -> Row:
        return tuple(head if isinstance(head, Cell) else Cell(head) for head in self.heads)

    def marks(self, corner: Point) -> list[Entity]:
        """The table with its title's upper left corner at a point of the paper."""
        x, top = corner
        y = top - _HEIGHT - _TITLED
        lines = [self._headed, *self.rows]
        marks: list[Entity] = [Text((x, top), self.title, _HEIGHT, level="top", bold=True)]
        for n, row in enumerate(lines):
            marks += self._row(row, (x, y - n * _ROW))
        return [*marks, *self._rules((x, y), len(lines))]

    def _row(self, row: Sequence[Cell], corner: Point) -> Iterator[Text]:
        left, middle = corner[0], corner[1] - _ROW / 2
        for n, (cell, width) in enumerate(zip(row, self.widths, strict=True)):
            numeric = any(line[n].measured for line in self.rows)
            at = left + width - _PAD if numeric else left + _PAD
            pen = Pen.REFERENCE if self.heads[n] in _REFERENCES else Pen.LETTERING
            align: Align = "right" if numeric else "left"
            yield Text((at, middle), cell.text, _HEIGHT, align, "middle", pen=pen, measured=cell.measured)
            left += width

    def _rules(self, corner: Point, rows: int) -> Iterator[Line]:
        x, y = corner
        right, bottom = x + sum(self.widths), y - rows * _ROW
        for n in range(rows + 1):
            pen = Pen.GRID if n in (0, 1, rows) else Pen.THIN
            if not 1 < n < rows or self.rows[n - 1][0].text:  # a row without a first word goes on from the one before
                yield Line((x, y - n * _ROW), (right, y - n * _ROW), pen)
        at = x
        for width in [*self.widths, 0.0]:
            yield Line((at, y), (at, bottom), Pen.GRID if at in (x, right) else Pen.THIN)
            at += width
