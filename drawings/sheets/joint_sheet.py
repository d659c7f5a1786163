"""A gallery of the joiner's vocabulary: every joint drawn a little apart, with its name and its rule of proportion."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from drawings.paper.lettering import fitted, line_pitch
from drawings.paper.page import frame_and_title, paper, title_block_area
from drawings.paper.sheet import Arc, Circle, Entity, Line, Paper, Pen, Polyline, Sheet, Text, ViewPort
from drawings.paper.title_block import TitleBlock
from drawings.sheets.clear_room import Box, boxes_meet, grown
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import PICTORIAL, View
from model.hardware import Hardware
from model.joints.samples import Sample, drawn_back, samples
from model.placement import Vector, added, scaled

if TYPE_CHECKING:
    import cadquery as cq

PAPER, TITLE = "A2", "The joiner's vocabulary"
#: Cells across and down the sheet, and room left between them and round the title block, mm (ours).
COLUMNS, ROWS = 10, 5
_MARGIN, _GAP = 8.0, 4.0
#: Lettering, mm: the joint's name, and its rule; the room both have under the picture.
_NAME, _RULE, _WORDS = 3.5, 1.8, 23.0
#: No picture is drawn larger than this (paper over model), so that small joints do not look coarse (ours).
_LARGEST = 0.4


#: Hardware that lies half in each part, and what stays with the second; the rest is drawn out the way it is driven in,
#: clear of the wood by so many mm, plugs further, over their screws (ours).
_BETWEEN, _STAYS = (
    ("biscuit", "dowel", "spline", "loose tongue"),
    ("shelf pin", "butt hinge", "continuous hinge", "hinge screw"),
)
_CLEAR, _PLUGS = 6.0, 62.0


@dataclass(frozen=True)
class Pictured:
    """A joint's sample and the pictorial view of it, drawn apart."""

    sample: Sample
    view: View


def joint_sheets() -> list[Sheet]:
    """The gallery of all samples, on as few sheets as it takes. Loads the CAD kernel."""
    pictured = [Pictured(s, _view(s)) for s in samples()]
    page = paper(PAPER)
    cells = _cells(page)
    sheets = [pictured[n : n + len(cells)] for n in range(0, len(pictured), len(cells))]
    return [_sheet(page, shown, cells, n, len(sheets)) for n, shown in enumerate(sheets, 1)]


def _sheet(page: Paper, shown: Sequence[Pictured], cells: Sequence[Box], number: int, of: int) -> Sheet:
    block = TitleBlock(
        TITLE,
        owner="dryfit",
        document_type="Gallery of joints",
        supplement="Each with its rule of proportion, and whose it is",
        number=f"JOINTS-{number:02d}",
        scale="Not to scale",
        sheet=number,
        of=of,
        units="Drawn apart along the way each joint closes",
        tolerance="",
    )
    marks = [mark for one, cell in zip(shown, cells, strict=False) for mark in _cell(one, cell)]
    return Sheet(f"joints-{number}", TITLE, page, (*frame_and_title(page, block), *marks), number, of)


def _cells(page: Paper) -> list[Box]:
    """Row by row from the top left, those left out that meet the title block."""
    x0, y0, x1, y1 = page.frame
    left, low = x0 + _MARGIN, y0 + _MARGIN
    wide, high = (x1 - _MARGIN - left + _GAP) / COLUMNS, (y1 - _MARGIN - low + _GAP) / ROWS
    taken = grown(title_block_area(page), _GAP)
    boxes = [
        (left + c * wide, low + r * high, left + (c + 1) * wide - _GAP, low + (r + 1) * high - _GAP)
        for r in reversed(range(ROWS))
        for c in range(COLUMNS)
    ]
    return [box for box in boxes if not boxes_meet(box, taken)]


def _view(sample: Sample) -> View:
    from drawings.views.project import project_views

    return project_views([*_solids(sample), *_loose(sample)], [PICTORIAL])[PICTORIAL.name]


def _solids(sample: Sample) -> list[cq.Shape]:
    from model.solids import placed, solid

    return [placed(solid(part.part), part.at) for part in drawn_back(sample)]


def _loose(sample: Sample) -> list[cq.Shape]:
    """The hardware where it shows: between the parts what lies in both, drawn out of the wood what is driven in."""
    import cadquery as cq

    from model.hardware_solids import hardware_solid

    return [hardware_solid(item).translate(cq.Vector(*_drawn_out(item, sample))) for item in sample.hardware]


def _drawn_out(item: Hardware, sample: Sample) -> Vector:
    """How far an item is moved to be seen, mm."""
    back = dict(zip((p.name for p in sample.parts), sample.back, strict=True))
    moved = [back[name] for name in item.parts]
    if item.kind in _BETWEEN:
        return scaled(added(moved[0], moved[-1]), 0.5)
    if item.kind in _STAYS:
        return moved[-1]
    if item.kind == "key" and item.across:
        return added(moved[-1], scaled(item.across, item.diameter + _CLEAR))
    out = _PLUGS if item.kind == "plug" else item.length + _CLEAR
    return added(moved[0], scaled(item.direction, -out))


def _cell(one: Pictured, cell: Box) -> Iterator[Entity]:
    """The picture over its name and its rule."""
    x0, y0, x1, y1 = cell
    yield from _picture(one.view, (x0, y0 + _WORDS, x1, y1))
    middle, y = (x0 + x1) / 2.0, y0 + _WORDS - _NAME - 2.0
    height, lines = fitted(_capital(one.sample.name), x1 - x0, _NAME * 1.5, (_NAME, 2.5), bold=True)
    yield Text((middle, y), lines[0], height, "centre", bold=True)
    small, rule = fitted(_capital(one.sample.source), x1 - x0, _WORDS - _NAME - 3.0, (_RULE,))
    for n, line in enumerate(rule):
        yield Text((middle, y - 1.7 * small - n * line_pitch(line) * small), line, small, "centre")


def _capital(said: str) -> str:
    return said[0].upper() + said[1:]


def _picture(view: View, room: Box) -> Iterator[Entity]:
    left, bottom, right, top = view.bounds
    scale = min((room[2] - room[0]) / (right - left), (room[3] - room[1]) / (top - bottom), _LARGEST)
    x, y = (room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0
    port = ViewPort(scale, (x - scale * (left + right) / 2.0, y - scale * (bottom + top) / 2.0))
    for mark in view_marks(view, port):
        yield replace(mark, pen=Pen.GRID) if isinstance(mark, Line | Arc | Circle | Polyline) else mark
