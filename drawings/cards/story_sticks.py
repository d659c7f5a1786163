"""Story sticks: heights, widths and depths as rods with named marks, on a sheet with a table, and at full size.

A rod is laid on the work and its marks are pricked off, so that no length is read twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

from drawings.cards.flow import area, in_lines, spread
from drawings.cards.stations import Mark, Rod, rods
from drawings.paper.board import board
from drawings.paper.dimensions import ordinate
from drawings.paper.lettering import fitted, text_width
from drawings.paper.measured import Measured, Shown, Vector
from drawings.paper.saying import Saying, counted, say
from drawings.paper.scales import largest_scale, sheet_scale, view_scale
from drawings.paper.sheet import Entity, Line, Pen, Point, Polyline, Sheet, Text, ViewPort
from drawings.parts.table import Cell, Row, Table
from drawings.patterns.pattern import Pattern, Penned
from drawings.patterns.write import write_full_size
from drawings.sheets.block import Block
from drawings.sheets.leaves import AS_SHOWN, Leaf, bind
from drawings.sheets.packing import filled, footprint, sheet_room
from drawings.sheets.principal import Lengths
from model.layout.outline import Edge, rectangle
from model.order import Order
from model.piece import Piece
from model.placement import dot

KIND = "Story stick"
#: The drawn rod, mm on paper: its height, the room over it for the leaders of stations and under it for numbers.
_ROD, _LEADERS, _UNDER = 8.0, 13.0, 16.0
#: Stations and numbers stand at least so far apart, mm.
_GAP, _HEIGHT = 4.8, 2.5
#: A rod's name and the room it takes, and between two rods on a sheet, mm.
_HEADING, _HEADED, _APART = 3.5, 4.0, 10.0
#: So many rods go side by side on a sheet, as preferred; in no less width than this, mm.
_ABREAST, _LEAST = (2, 3, 1), 115.0
#: The table: its row height, and the widths of its first three columns with some to spare, mm.
_ROW, _FIGURES = 4.8, 72.0
#: Between two columns of it, and the width from which there are two, mm.
_BETWEEN, _TWO_ABREAST = 6.0, 300.0
#: The rod at full size, mm: its width, how far over it names begin, and the most room a name takes.
_FULL, _NAMES, _NAME = 30.0, 14.0, 95.0
_FULL_GAP = 4.2
#: The rod's axis on the paper, and what stands up from it, by the axis of the piece it lies along.
_RIGHT_UP: dict[int, tuple[Vector, Vector]] = {
    0: ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    1: ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    2: ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
}


def story_stick_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """A sheet or more for each rod of a piece: the rod at a scale of ISO 5455, and the table of its marks.

    A rod with nothing to mark is left out.
    """
    return bind(story_stick_leaves(piece, order), order)


def story_stick_leaves(piece: Piece, order: Order) -> list[Leaf]:
    """The same before they are bound."""
    short, long = story_stick_blocks(piece, order)
    sheets = filled(short, sheet_room(board(order.drawing.paper, order.units), _APART)) or []
    return [*(Leaf("story-sticks", KIND, marks, AS_SHOWN) for marks in sheets), *long]


def story_stick_blocks(piece: Piece, order: Order) -> tuple[list[list[Block]], list[Leaf]]:
    """The rods that go on a sheet with others, each in the widths that it goes in, the preferred first; and the sheets
    of those that are too long."""
    form = Lengths(order.units, order.drawing.denominator)
    x0, _, x1, _ = area(order)
    empty = sheet_room(board(order.drawing.paper, order.units), _APART)
    widths = [(x1 - x0 + _APART) / count - _APART for count in _ABREAST]
    short: list[list[Block]] = []
    long: list[Leaf] = []
    for rod in rods(piece):
        blocks = [_block(rod, width, order, form) for width in widths if _roomy(rod, width)]
        goes_on = [b for b in blocks if empty.emptied().place(footprint(b))]
        if goes_on:
            short.append(goes_on)
        else:
            long += _leaves(rod, order, form)
    return short, long


def _roomy(rod: Rod, width: float) -> bool:
    """Do the marks' numbers go side by side over so many mm, and their names into the table's last column?"""
    return (len(rod.marks) + 2) * _GAP < width and width >= _LEAST


def _block(rod: Rod, width: float, order: Order, form: Lengths) -> Block:
    """The rod under its name, over the table of its marks, so many mm wide."""
    scale = largest_scale(rod.length, 0.0, (width - 12.0, 1.0), units=order.units) or 0.001
    shown = Shown((), *_RIGHT_UP[rod.axis])
    name = say("Story stick of {}, {}, {}", rod.name, rod.measured, view_scale(scale, order.units, shown))
    table = _tables(rod, form, width)
    half = _fitting(table.rows, (len(table.rows) + 1) // 2) if width > _TWO_ABREAST else len(table.rows)
    pieces = [Table(table.title, table.heads, rows) for rows in (table.rows[:half], table.rows[half:]) if rows]

    def marks(at: Point) -> list[Entity]:
        x, y = at[0], at[1] - _HEADED - _over(rod, form) - _ROD
        found: list[Entity] = [Text(at, name, _HEADING, level="top", bold=True)]
        found += _drawn(rod, (x + 4.0, y), scale, form, (x, x + width))
        for n, piece in enumerate(pieces):
            found += piece.marks((x + n * (width + _BETWEEN) / 2.0, y - _UNDER))
        return found

    return Block(marks)


def write_story_sticks(piece: Piece, order: Order, folder: Path) -> list[Path]:
    """Write the rods at full size into `folder`, in tiles for the order's paper and as strips; the files written."""
    form = Lengths(order.units, order.drawing.denominator)
    return write_full_size((rod_pattern(rod, order, form) for rod in rods(piece)), piece, order, folder)


def _leaves(rod: Rod, order: Order, form: Lengths) -> Iterator[Leaf]:
    x0, y0, x1, y1 = area(order)
    scale = largest_scale(rod.length, 0.0, (x1 - x0 - 12.0, 1.0), units=order.units) or 0.001
    title = f"Story stick of {rod.name}, {rod.measured}"
    low = y1 - _over(rod, form) - _ROD
    drawn, top = _drawn(rod, (x0 + 4.0, low), scale, form, (x0, x1)), low - _UNDER
    tables = _tables(rod, form, x1 - x0)
    name = f"story-stick-{rod.name}"
    for n, page in enumerate(_pages(tables, (x0, y0, x1, y1), top)):
        yield Leaf(name, KIND, (*(drawn if n == 0 else ()), *page), sheet_scale(scale, order.units), title)


def _over(rod: Rod, form: Lengths) -> float:
    """The room over a rod: its leaders and the longest of its stations, which stand upright, mm."""
    return _LEADERS + max(text_width(form(mark.station), _HEIGHT) for mark in rod.marks)


def _drawn(rod: Rod, corner: Point, scale: float, form: Lengths, reach: tuple[float, float]) -> tuple[Entity, ...]:
    """The rod lying, its datum end at `corner`; each mark's distance over it and number under it."""
    x, y = corner
    end = x + rod.length * scale
    marks: list[Entity] = [Polyline(((x, y), (end, y), (end, y + _ROD), (x, y + _ROD)), closed=True)]
    places = [x + mark.station * scale for mark in rod.marks]
    port = ViewPort(scale, (x, y + _ROD))
    marks += [Line((p, y), (p, y + _ROD), Pen.GRID) for p in places[1:-1]]
    over = spread(places, _GAP, reach[0] + _GAP, reach[1])
    for n, (mark, place, above) in enumerate(zip(rod.marks, places, over, strict=True), 1):
        if mark.station > 0.0:
            dimension = ordinate(
                (mark.station, 0.0), (0.0, 0.0), "x", (above, y + _ROD + 10.0), port,
                units=form.units, denominator=form.denominator,
            )  # fmt: skip
            marks.append(replace(dimension, measured=measured(rod, mark)))
        marks += _numbered(_number(n, rod), place, above, y)
    return tuple(marks)


def _number(n: int, rod: Rod) -> Saying:
    """The number of a mark, counted from 1, which says of which it is: by how far from the datum."""
    return counted(n, "key", f"marks of {rod.name}", f"{rod.marks[n - 1].station:.3f}")


def _numbered(number: Saying, place: float, at: float, low: float) -> Iterator[Entity]:
    yield Polyline(((place, low - 0.8), (place, low - 2.0), (at, low - 6.0), (at, low - 7.0)), pen=Pen.THIN)
    yield Text((at, low - 7.6), number, _HEIGHT, "centre", "top", pen=Pen.REFERENCE)


def measured(rod: Rod, mark: Mark, since: Mark | None = None) -> Measured:
    """What a mark's distance measures: from the datum's point, or another mark's, to its own, along the rod."""
    right, up = _RIGHT_UP[rod.axis]
    p, q = ((dot(right, m.at), dot(up, m.at)) for m in (since or rod.marks[0], mark))
    return Shown((), right, up).length(p, q, (1.0, 0.0))


def _tables(rod: Rod, form: Lengths, width: float) -> Table:
    """Number, distance from the datum, from the mark before, and what is there, in as many rows as its name takes."""
    rows: list[Row] = []
    name_width = ((width - _BETWEEN) / 2.0 if width > _TWO_ABREAST else width) - _FIGURES
    for n, mark in enumerate(rod.marks):
        first, *more = in_lines(mark.name, name_width)
        rows.append((Cell(_number(n + 1, rod)), *_figures(rod, n, form), Cell(first)))
        rows += [(Cell(""), Cell(""), Cell(""), Cell(line)) for line in more]
    heads = ("No.", rod.measured.capitalize(), "From the last", "Mark")
    return Table(f"Marks of the story stick of {rod.name}", heads, tuple(rows))


def _figures(rod: Rod, n: int, form: Lengths) -> tuple[Cell, Cell]:
    """How far a mark is from the datum and from the mark before it."""
    mark = rod.marks[n]
    if n == 0:
        return Cell(form(mark.station), measured(rod, mark)), Cell("")
    last = rod.marks[n - 1]
    return Cell(form(mark.station), measured(rod, mark)), Cell(
        form(mark.station - last.station), measured(rod, mark, last)
    )


def _pages(table: Table, box: tuple[float, float, float, float], top: float) -> Iterator[tuple[Entity, ...]]:
    """The table's pieces set in columns on the first page under the rod, then on further ones."""
    x0, y0, x1, y1 = box
    marks: list[Entity] = []
    x, rows = x0, list(table.rows)
    wide = sum(table.widths)
    while rows:
        count = _fitting(rows, int((top - y0 - 4.1) / _ROW) - 1)
        piece = Table(table.title, table.heads, tuple(rows[:count]))
        marks += piece.marks((x, top))
        rows, x = rows[count:], x + wide + _BETWEEN
        if rows and x + wide > x1:
            yield tuple(marks)
            marks, x, top = [], x0, y1
    yield tuple(marks)


def _fitting(rows: Sequence[Row], most: int) -> int:
    """How many rows go in so many lines without a mark being parted from its further lines."""
    count = min(most, len(rows))
    while 1 < count < len(rows) and not rows[count][0].text:
        count -= 1
    return count


def rod_pattern(rod: Rod, order: Order, form: Lengths) -> Pattern:
    """The rod at full size: a tick right across it at each mark, and over it the mark's distance and name."""
    places = [mark.station for mark in rod.marks]
    names = spread(places, _FULL_GAP, 0.0, max(rod.length, _FULL_GAP * len(places)))
    ticks = [Edge((p, 0.0), (p, _FULL)) for p in places[1:-1]]
    lines = [Penned(rectangle(rod.length, _FULL).edges), Penned(tuple(ticks), Pen.GRID)]
    texts = []
    for mark, place, at in zip(rod.marks, places, names, strict=True):
        lines.append(Penned(tuple(_lead(place, at)), Pen.THIN))
        words = f"{form(mark.station)}  {mark.name}"
        height, told = fitted(words, _NAME, _HEIGHT * 1.4, (_HEIGHT, 1.8))
        texts.append(Text((at, _FULL + _NAMES), told[0], height, "left", "middle", 90.0))
    return Pattern(
        f"story-stick-{rod.name}",
        f"Story stick of {rod.name}",
        tuple(lines),
        (f"{order.title}, {rod.measured}: {form(rod.length)} long",),
        ("Glue it to a straight stick, or prick the marks through.",),
        texts=tuple(texts),
    )


def _lead(place: float, at: float) -> Iterator[Edge]:
    """From a mark up to its name, aside where names would crowd."""
    points = [(place, _FULL + 1.0), (place, _FULL + 3.0), (at, _FULL + 11.0), (at, _FULL + 13.0)]
    yield from (Edge(p, q) for p, q in pairwise(points))
