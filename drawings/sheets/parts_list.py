"""The parts list and the hardware list as they stand on a sheet, keyed to the item references."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from drawings.lists.distinct import in_short
from drawings.lists.hardware import hardware_lines
from drawings.lists.part_lines import PartLine, part_lines
from drawings.paper.lettering import LINE_PITCH, text_width, wrapped
from drawings.paper.measured import Shown
from drawings.paper.saying import counted, joined, say
from drawings.paper.sheet import Align, Entity, Line, Pen, Point, Text
from drawings.parts.table import Cell, Row
from drawings.sheets.principal import Lengths
from model.piece import Piece

#: Row height, lettering and the heading over a list, mm.
ROW, HEADING = 5.2, 8.0
#: How wide a list is if there is room, mm: as wide as a title block.
LIST = 180.0
_LETTERING, _PAD = 2.5, 1.4


@dataclass(frozen=True)
class Column:
    """A column's head, its width, whether numbers stand to its right, and whether it only counts or names."""

    head: str
    width: float
    number: bool = False
    reference: bool = False


@dataclass(frozen=True)
class Listing:
    """A heading over ruled rows of texts."""

    heading: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def width(self) -> float:
        return sum(c.width for c in self.columns)

    @property
    def height(self) -> float:
        return HEADING + sum(self._heights)

    @property
    def _heights(self) -> list[float]:
        """Of the head's row and each row, mm: higher where a text takes several lines."""
        most = (max(len(lines) for lines in self._lines(row)) for row in (self._heads, *self.rows))
        return [ROW + (n - 1) * _LETTERING * LINE_PITCH for n in most]

    @property
    def _heads(self) -> Row:
        return tuple(Cell(c.head) for c in self.columns)

    def _lines(self, row: Row) -> list[list[str]]:
        cells = zip(row, self.columns, strict=True)
        return [wrapped(cell.text, c.width - 2.0 * _PAD, _LETTERING) or [""] for cell, c in cells]

    def split(self, room: float) -> tuple[Listing, Listing]:
        """As many rows as go into so many mm, and the rest, which says that it goes on."""
        reached = list(accumulate(self._heights, initial=HEADING))[2:]
        n = sum(height <= room for height in reached)
        rest = self.heading if self.heading.endswith("continued") else f"{self.heading}, continued"
        return Listing(self.heading, self.columns, self.rows[:n]), Listing(rest, self.columns, self.rows[n:])

    def broken(self, room: float) -> tuple[Listing, Listing]:
        """The same where not even the first row goes in: as many of its lines as do, and the rest."""
        lines = self._lines(self.rows[0])
        n = 1 + int((room - HEADING - self._heights[0] - ROW) / (_LETTERING * LINE_PITCH))
        upper = tuple(replace(c, text=joined(" ", told[:n])) for c, told in zip(self.rows[0], lines, strict=True))
        lower = tuple(Cell(joined(" ", told[n:])) for told in lines)
        return replace(self, rows=(upper,)), replace(self.split(0.0)[1], rows=(lower, *self.rows[1:]))

    def marks(self, corner: Point) -> list[Entity]:
        """The listing hanging from its upper left corner."""
        x, top = corner
        marks: list[Entity] = [Text((x, top - 1.0), self.heading, 3.5, level="top", bold=True)]
        tops = list(accumulate((-h for h in self._heights), initial=top - HEADING))
        for n, row in enumerate([self._heads, *self.rows]):
            marks += self._row(row, (x, tops[n]), bold=n == 0)
        return marks + self._rules(x, tops)

    def _row(self, row: Row, corner: Point, bold: bool) -> list[Entity]:
        marks: list[Entity] = []
        left, first = corner[0], corner[1] - (ROW + _LETTERING) / 2.0
        for cell, lines, column in zip(row, self._lines(row), self.columns, strict=True):
            x = left + (column.width - _PAD if column.number else _PAD)
            align: Align = "right" if column.number else "left"
            pen = Pen.REFERENCE if column.reference else Pen.LETTERING
            for n, line in enumerate(lines):
                at = (x, first - n * _LETTERING * LINE_PITCH)
                marks.append(Text(at, line, _LETTERING, align, bold=bold, pen=pen, measured=cell.measured))
            left += column.width
        return marks

    def _rules(self, x: float, tops: Sequence[float]) -> list[Entity]:
        edges = list(accumulate((c.width for c in self.columns), initial=x))
        level = [Line((x, y), (edges[-1], y), _ruled(n, len(tops))) for n, y in enumerate(tops)]
        outer = (edges[0], edges[-1])
        return [*level, *(Line((e, tops[0]), (e, tops[-1]), Pen.GRID if e in outer else Pen.THIN) for e in edges)]


def _ruled(n: int, count: int) -> Pen:
    """The pen of a level line: those round the head and at the foot are heavier."""
    return Pen.GRID if n in (0, 1, count - 1) else Pen.THIN


def parts_listing(piece: Piece, form: Lengths, width: float = LIST) -> Listing:
    """Item, quantity, name, finished length, width and thickness, material."""
    rows = tuple(_part_row(line, form) for line in part_lines(piece))
    sizes = [_room(rows, k, least) for k, least in ((3, 18.0), (4, 18.0), (5, 16.0))]
    words = width - 22.0 - sum(sizes)
    material = min(48.0, 0.46 * words)
    columns = (
        Column("Item", 12.0, True, True),
        Column("Qty", 10.0, True, True),
        Column("Part", words - material, reference=True),
        *(Column(head, wide, True) for head, wide in zip(("Length", "Width", "Thick"), sizes, strict=True)),
        Column("Material", material),
    )
    return Listing("Parts list, finished sizes", columns, rows)


def _room(rows: Sequence[Row], column: int, least: float) -> float:
    """The width in which none of a column's figures is broken over two lines, mm."""
    return max([least, *(text_width(row[column].text, _LETTERING) + 2.0 * _PAD + 0.1 for row in rows)])


def _part_row(line: PartLine, form: Lengths) -> Row:
    finished = line.finished or ()
    extents = (shown.extent(along) for shown, along in _looked_at(line.distinct.names[0]))
    sizes = [Cell(form(size), extent) for size, extent in zip(finished, extents, strict=False)]
    bent = line.part is not None and line.part.bend is not None
    first = line.distinct.names[0]
    name = say("{}{}", in_short(line.distinct.names), ", bent; sizes on the flat" if bent else "")
    material = line.species if line.kind.endswith("board") else f"{line.species}, {line.kind}"
    item, off = counted(line.distinct.item, "item", first), counted(line.quantity, "off", first)
    return (Cell(item), Cell(off), Cell(name), *(sizes or [Cell("")] * 3), Cell(material.strip(", ")))


def _looked_at(name: str) -> Iterator[tuple[Shown, tuple[float, float]]]:
    """How a part is looked at to see its length, its width and its thickness, each with the direction on the view."""
    plan, edge = Shown((name,)), Shown((name,), up=(0.0, 0.0, 1.0))
    yield from ((plan, (1.0, 0.0)), (plan, (0.0, 1.0)), (edge, (0.0, 1.0)))


def hardware_listing(piece: Piece, units: str, where: bool = True, width: float = LIST) -> Listing | None:
    """Quantity, item, size in the order's units and `where` each goes, which takes several lines; None for a piece that
    needs none."""
    columns = (
        Column("Qty", 12.0, True, True),
        Column("Hardware", 34.0),
        Column("Size", 39.0),
        Column("Where", width - 85.0, reference=True),
    )
    lines = hardware_lines(piece)
    told = ((line.count, line.kind, line.said_size(units), line.where) for line in lines)
    rows = tuple(tuple(map(Cell, row)) for row in told)
    if not rows:
        return None
    return Listing("Hardware", columns, rows) if where else Listing("Hardware", columns[:3], tuple(r[:3] for r in rows))
