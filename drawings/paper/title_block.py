"""The title block: what it says, and how it is drawn in the lower right corner of a sheet.

Fields by ISO 7200 (its eight mandatory ones: legal owner, identification number, date of issue, sheet number,
title, approval person, creator, document type), 180 mm wide so that it fits an upright A4 too.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from drawings.paper.lettering import fitted, line_pitch, reach
from drawings.paper.saying import Says, counted, joined, number, say
from drawings.paper.sheet import Circle, Entity, Line, Pen, Point, Polyline, Text

Projection = Literal["first", "third"]

#: ISO 7200: 180 mm wide. The height is ours: two rows below, two taller ones above for owner and title.
WIDTH = 180.0
ROW, TOP_ROW = 12.5, 13.0
HEIGHT = 2 * ROW + 2 * TOP_ROW

CAPTION = 2.5
_PAD = 1.5
_UNDER_CAPTION, _ABOVE_LINE = 4.65, 0.6
_VALUE_HEIGHTS = (3.5, 2.5, 1.8)
_TITLE_HEIGHTS = (7.0, 5.0, 3.5, 2.5, 1.8)


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What the title block says, dates and scale as text. An empty field is left to be written in.

    least: the lowest lettering of what it says, mm.
    """

    title: str
    owner: str = ""
    document_type: str = "Shop drawing"
    number: str = ""
    revision: str = ""
    date: str = ""
    creator: str = ""
    approved_by: str = ""
    scale: str = "1:1"
    sheet: int = 1
    of: int = 1
    supplement: str = ""
    units: str = "All lengths in mm"
    tolerance: str = "±0.5 mm unless stated"
    projection: Projection = "third"
    least: float = 1.8


@dataclass(frozen=True, slots=True)
class _Cell:
    """One box: left and bottom from the block's corner, width, height, caption, value, heights to try."""

    x: float
    y: float
    width: float
    height: float
    caption: str
    value: str
    heights: tuple[float, ...] = _VALUE_HEIGHTS
    bold: bool = False


def title_entities(block: TitleBlock, right: float, bottom: float, paper_name: str = "") -> tuple[Entity, ...]:
    """The title block drawn with its lower right corner at (right, bottom), paper mm."""
    corner = right - WIDTH, bottom
    marks: list[Entity] = []
    for cell in _cells(block, paper_name):
        marks += _box(cell, corner, block.least)
    marks += _title(block, (corner[0] + 62, corner[1] + 2 * ROW), 70, 2 * TOP_ROW)
    marks += projection_symbol(block.projection, (corner[0] + 12.5, corner[1] + 3.9), 0.48)
    marks.append(_rectangle(corner, WIDTH, HEIGHT, Pen.FRAME))
    return tuple(marks)


def _cells(block: TitleBlock, paper_name: str) -> list[_Cell]:
    return [
        _Cell(0, 2 * ROW, 62, 2 * TOP_ROW, "Legal owner", block.owner, bold=True),
        _Cell(0, ROW, 62, ROW, "Units and general tolerance", _units(block), (2.5, 1.8)),
        _Cell(0, 0, 25, ROW, f"{block.projection.capitalize()} angle", ""),
        _Cell(25, 0, 37, ROW, "Scale", block.scale, (5.0, 3.5, 2.5, 1.8)),
        _Cell(62, 2 * ROW, 70, 2 * TOP_ROW, "Title", ""),
        _Cell(62, ROW, 70, ROW, "Document type", block.document_type),
        _Cell(62, 0, 51, ROW, "Identification number", block.number, bold=True),
        _Cell(113, 0, 19, ROW, "Revision", block.revision),
        _Cell(132, 2 * ROW + TOP_ROW, 48, TOP_ROW, "Drawn by", block.creator),
        _Cell(132, 2 * ROW, 48, TOP_ROW, "Approved by", block.approved_by),
        _Cell(132, ROW, 48, ROW, "Date of issue", block.date),
        _Cell(132, 0, 18, ROW, "Paper", number(paper_name, Says("order", ("drawing.paper",)))),
        _Cell(150, 0, 30, ROW, "Sheet", sheet_number(block.sheet, block.of), bold=True),
    ]


def _units(block: TitleBlock) -> str:
    return joined(". ", (note for note in (block.units, block.tolerance) if note))


def _box(cell: _Cell, corner: Point, least: float) -> list[Entity]:
    x, y = corner[0] + cell.x, corner[1] + cell.y
    caption = Text((x + _PAD, y + cell.height - 1.2), cell.caption, CAPTION, level="top")
    room = cell.height - _UNDER_CAPTION - _ABOVE_LINE
    value = _stood(cell, (x + _PAD, y + _ABOVE_LINE), room, least) if cell.value else []
    return [_rectangle((x, y), cell.width, cell.height, Pen.GRID), caption, *value]


def _stood(cell: _Cell, at: Point, room: float, least: float) -> list[Entity]:
    """The value's lines, their capitals in the middle of the room under the caption."""
    height, lines = fitted(cell.value, cell.width - 2 * _PAD, room, _down_to(least, cell.heights), cell.bold)
    low, high = (edge * height for edge in reach(cell.value))
    rise = line_pitch(cell.value) * height * (len(lines) - 1)
    last = at[1] + max(-low, min((room - height - rise) / 2, room - high - rise))
    return _stack(cell.value, lines, (at[0], last + rise), height, cell.bold)


def _down_to(least: float, heights: tuple[float, ...]) -> tuple[float, ...]:
    """The heights not below the least one, and that."""
    return (*(height for height in heights if height > least), least)


def _hung(
    text: str, at: Point, width: float, room: float, heights: tuple[float, ...], bold: bool = False
) -> list[Entity]:
    """A text's lines, the highest of them reaching up to `at`."""
    height, lines = fitted(text, width, room, heights, bold)
    return _stack(text, lines, (at[0], at[1] - reach(text)[1] * height), height, bold)


def _stack(text: str, lines: list[str], first: Point, height: float, bold: bool) -> list[Entity]:
    step = line_pitch(text) * height
    return [Text((first[0], first[1] - n * step), line, height, bold=bold) for n, line in enumerate(lines)]


def _title(block: TitleBlock, at: Point, width: float, height: float) -> list[Entity]:
    """The title over its supplement: the title takes what the supplement leaves."""
    x, inner = at[0] + _PAD, width - 2 * _PAD
    heights = _down_to(block.least, _VALUE_HEIGHTS)
    below = _hung(block.supplement, (x, at[1] + 6.0), inner, 5.2, heights) if block.supplement else []
    foot = at[1] + (6.6 if below else 1.5)
    top = at[1] + height - _UNDER_CAPTION - 0.6
    return _hung(block.title, (x, top), inner, top - foot, _down_to(block.least, _TITLE_HEIGHTS), bold=True) + below


def sheet_number(place: int, of: int) -> str:
    """How a sheet's number is printed."""
    return say("{} of {}", counted(place, "sheet"), counted(of, "sheets"))


def projection_symbol(projection: Projection, middle: Point, size: float = 1.0) -> tuple[Entity, ...]:
    """The sign of ISO 5456-2: a truncated cone beside its end view, 22 mm by 10 mm at size 1.

    First angle: the large end faces the circles, which stand on the right. Third angle: the small end faces
    them, and they stand on the left.
    """
    cone, circles = (-11.0, 6.0) if projection == "first" else (1.0, -6.0)

    def at(x: float, y: float) -> Point:
        return middle[0] + x * size, middle[1] + y * size

    outline = Polyline((at(cone, -2.5), at(cone + 10, -5), at(cone + 10, 5), at(cone, 2.5)), closed=True, pen=Pen.GRID)
    axis = Line(at(min(cone, circles - 5) - 1.5, 0), at(max(cone + 10, circles + 5) + 1.5, 0), Pen.CENTRE)
    upright = Line(at(circles, -6.5), at(circles, 6.5), Pen.CENTRE)
    rings = (Circle(at(circles, 0), radius * size, Pen.GRID) for radius in (2.5, 5.0))
    return outline, *rings, axis, upright


def _rectangle(corner: Point, width: float, height: float, pen: Pen) -> Polyline:
    x, y = corner
    return Polyline(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), closed=True, pen=pen)
