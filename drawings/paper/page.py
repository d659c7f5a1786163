"""Papers, and the border of a sheet: frame, grid reference, centring marks and title block."""

from __future__ import annotations

import math
from collections.abc import Sequence
from string import ascii_uppercase

from drawings.paper.saying import counted
from drawings.paper.sheet import Entity, Line, Paper, Pen, Polyline, Text
from drawings.paper.title_block import HEIGHT, WIDTH, TitleBlock, title_entities

#: ISO 216 A series, short side and long side in mm.
_ISO_216 = {"A4": (210, 297), "A3": (297, 420), "A2": (420, 594), "A1": (594, 841), "A0": (841, 1189)}
#: ASME Y14.1, short side and long side in inches.
_ASME_Y14_1 = {"A": (8.5, 11), "B": (11, 17), "C": (17, 22), "D": (22, 34), "E": (34, 44)}

#: ISO 5457: the smallest sheet stands upright, the others lie; frame 20 mm from the filing edge and 10 from
#: the others. The ASME sizes keep the same border, without the grid reference (common practice).
PAPERS: dict[str, Paper] = {
    name: Paper(name, short if name == "A4" else long, long if name == "A4" else short)
    for name, (short, long) in _ISO_216.items()
} | {
    name: Paper(name, 25.4 * (short if name == "A" else long), 25.4 * (long if name == "A" else short), has_grid=False)
    for name, (short, long) in _ASME_Y14_1.items()
}

#: ISO 5457: fields of 50 mm counted from the centring marks, in a band 5 mm wide outside the frame.
GRID_FIELD = 50.0
GRID_BAND = 5.0
_GRID_LETTERS = ascii_uppercase.replace("I", "").replace("O", "")


def paper(name: str) -> Paper:
    """The paper of a name: A4 to A0 (ISO 216) or A to E (ASME Y14.1).

    Raises KeyError for any other name.
    """
    return PAPERS[name]


def drawing_area(sheet_paper: Paper, margin: float = 5.0) -> tuple[float, float, float, float]:
    """The widest area clear of the title block: x0, y0, x1, y1 in mm, `margin` inside the frame.

    On a large sheet the strip left of the title block is free as well; `title_block_area` says what is taken.
    """
    x0, y0, x1, y1 = sheet_paper.frame
    return x0 + margin, y0 + HEIGHT / sheet_paper.enlarged + margin, x1 - margin, y1 - margin


def title_block_area(sheet_paper: Paper) -> tuple[float, float, float, float]:
    """What the title block takes of the sheet: x0, y0, x1, y1 in mm."""
    _, y0, x1, _ = sheet_paper.frame
    return x1 - WIDTH / sheet_paper.enlarged, y0, x1, y0 + HEIGHT / sheet_paper.enlarged


def frame_and_title(sheet_paper: Paper, block: TitleBlock) -> tuple[Entity, ...]:
    """The border of a sheet: grid reference if the paper has it, centring marks, title block and frame."""
    x0, y0, x1, y1 = sheet_paper.frame
    frame = Polyline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True, pen=Pen.FRAME)
    grid = grid_reference(sheet_paper) if sheet_paper.has_grid else ()
    return *grid, *centring_marks(sheet_paper), *title_entities(block, x1, y0, sheet_paper.name), frame


def centring_marks(sheet_paper: Paper) -> tuple[Line, ...]:
    """Marks at the middle of each side, from the grid's outer line to 5 mm inside the frame (ISO 5457).

    Where the title block runs across the middle (A4) the lower mark ends at the frame.
    """
    x0, y0, x1, y1 = sheet_paper.frame
    cx, cy = sheet_paper.width / 2, sheet_paper.height / 2
    band = GRID_BAND
    inside = band if title_block_area(sheet_paper)[0] > cx else 0.0
    ends = (
        ((cx, y0 - band), (cx, y0 + inside)),
        ((cx, y1 - band), (cx, y1 + band)),
        ((x0 - band, cy), (x0 + band, cy)),
        ((x1 - band, cy), (x1 + band, cy)),
    )
    return tuple(Line(p, q, Pen.FRAME) for p, q in ends)


def field_bounds(low: float, high: float, middle: float) -> list[float]:
    """The bounds of the grid fields along one side, its corners included; the corner fields take the rest."""
    reach = math.ceil((high - low) / GRID_FIELD)
    lines = (middle + k * GRID_FIELD for k in range(-reach, reach + 1))
    least = 0.4 * GRID_FIELD
    return [low, *(at for at in lines if low + least < at < high - least), high]


def grid_reference(sheet_paper: Paper) -> tuple[Entity, ...]:
    """The band of letters (downwards) and numbers (rightwards) outside the frame, to name a place by."""
    x0, y0, x1, y1 = sheet_paper.frame
    band = GRID_BAND
    outer = ((x0 - band, y0 - band), (x1 + band, y0 - band), (x1 + band, y1 + band), (x0 - band, y1 + band))
    marks: list[Entity] = [Polyline(outer, closed=True, pen=Pen.GRID)]
    columns = field_bounds(x0, x1, sheet_paper.width / 2)
    rows = field_bounds(y0, y1, sheet_paper.height / 2)
    for edge in (y0 - band, y1):
        marks += [Line((x, edge), (x, edge + band), Pen.GRID) for x in columns[1:-1]]
        numbers = [counted(n, "nth", f"fields at {edge:g}") for n in range(1, len(columns))]
        marks += _names(columns, numbers, edge + band / 2, upright=False)
    for edge in (x0 - band, x1):
        marks += [Line((edge, y), (edge + band, y), Pen.GRID) for y in rows[1:-1]]
        letters = [_GRID_LETTERS[n] for n in reversed(range(len(rows) - 1))]
        marks += _names(rows, letters, edge + band / 2, upright=True)
    return tuple(marks)


def _names(bounds: list[float], names: Sequence[str], across: float, upright: bool) -> list[Entity]:
    marks: list[Entity] = []
    for low, high, name in zip(bounds, bounds[1:], names, strict=False):
        middle = (low + high) / 2
        at = (across, middle) if upright else (middle, across)
        marks.append(Text(at, name, 3.5, "centre", "middle", pen=Pen.GRID))
    return marks
