"""Assembly steps: a picture of each, what is new in it lit, and by it what is done and with what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, islice
from typing import TYPE_CHECKING

from drawings.paper.board import board
from drawings.paper.lettering import LINE_PITCH, paragraph, wrapped
from drawings.paper.page import title_block_area
from drawings.paper.saying import Says, counted, number, say
from drawings.paper.sheet import Entity, Fill, Paper, Pen, Polyline, Sheet, Text, ViewPort
from drawings.sheets.clear_room import Box
from drawings.sheets.leaves import MARGIN, Leaf, bind
from drawings.sheets.standpoints import STANDPOINTS, standpoints
from drawings.sheets.step_fields import LETTERINGS, Asked, Field, Tall, scale_in, set_out
from drawings.sheets.step_words import Stage, Told, stages, told
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import Bounds, View
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

    from drawings.views.foremost import Foremost
    from drawings.views.growing import Grown
    from drawings.views.regions import Region

TITLE = "Assembly steps"
#: A step's heading, mm.
_HEADING = 5.0
#: What is new in a step is filled with this; no step is drawn larger than so many times the whole piece (ours).
_LIT, _MOST = "#dfe7ef", 1.8
#: Least distance between parallel lines, mm: lit ones are wide, the others narrow.
_SPACES = {"new": 0.7, "there": 0.45}

#: A step is known by so many letters of its sentence.
_TELLING = 100

_KEY = "Wide lines, tinted: new in the step. Narrow lines: there already. Items are those of the parts list."


@dataclass(frozen=True)
class Pictured:
    """A step with its picture: the lines of what is there and of what is new, and where the new is seen."""

    stage: Stage
    views: Mapping[str, View]
    lit: Sequence[Region]
    seen_from: str = ""

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top of the picture, mm."""
        boxes = [v.bounds for v in self.views.values() if v.visible]
        left, bottom, right, top = zip(*boxes, strict=True)
        return min(left), min(bottom), max(right), max(top)


def step_sheets(
    piece: Piece,
    order: Order,
    shapes: Mapping[str, cq.Shape],
    cautions: Mapping[int, Sequence[str]] | None = None,
) -> list[Sheet]:
    """The steps, several to a sheet; none for a piece without steps.

    shapes: every part's solid where it stands, as it is to be drawn; cautions: more of them for a step by its number.
    Loads the CAD kernel.
    """
    return bind(step_leaves(piece, order, shapes, cautions), order)


def step_leaves(
    piece: Piece,
    order: Order,
    shapes: Mapping[str, cq.Shape],
    cautions: Mapping[int, Sequence[str]] | None = None,
) -> list[Leaf]:
    """The same before they are bound."""
    page, pictured = board(order.drawing.paper, order.units), step_pictures(piece, shapes)
    said = [_told(piece, step, cautions or {}, order.units) for step in pictured]
    asked = [Asked(step.bounds, _tallness(step.stage, some)) for step, some in zip(pictured, said, strict=True)]
    sheets = set_out(asked, page)
    fields = [field for sheet in sheets for field in sheet]
    most = _MOST * min((scale_in(a.bounds, f.picture) for a, f in zip(asked, fields, strict=True)), default=1.0)
    drawn = iter(_field(*each, most) for each in zip(pictured, said, fields, strict=True))
    return [Leaf("steps", TITLE, (*_key(page), *(m for marks in islice(drawn, len(s)) for m in marks))) for s in sheets]


def _told(piece: Piece, step: Pictured, more: Mapping[int, Sequence[str]], units: str) -> list[Told]:
    """What is said of a step, and from where it is seen if that is not as usual."""
    said = told(piece, step.stage, more.get(step.stage.number, ()), units)
    return [Told("Seen", say(step.seen_from)), *said] if step.seen_from else said


def step_pictures(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Pictured]:
    """The picture of every step that brings something in, from where that is seen best. Loads the CAD kernel."""
    from drawings.views.facets import triangles_each
    from drawings.views.foremost import Foremost
    from drawings.views.growing import project_growing

    brought = [stage for stage in stages(piece) if stage.new]
    if not brought:
        return []
    batches = [[shapes[n] for n in stage.new] for stage in brought]
    facets = triangles_each([shape for batch in batches for shape in batch])
    looks = {name: Foremost(facets, spec) for name, spec in STANDPOINTS.items()}
    chosen = standpoints(looks, [*accumulate(map(len, batches))])
    grown: dict[int, Grown] = {}
    for seen_from in dict.fromkeys(chosen):
        wanted = [n for n, name in enumerate(chosen) if name == seen_from]
        grown |= project_growing(batches[: wanted[-1] + 1], STANDPOINTS[seen_from], wanted)
    return [_pictured(stage, grown[n], looks[chosen[n]], chosen[n]) for n, stage in enumerate(brought)]


def _pictured(stage: Stage, grown: Grown, look: Foremost, seen_from: str) -> Pictured:
    """The picture of a stage; look: at all things in the order they come."""
    from drawings.views.regions import regions

    before, there = len(stage.there), len(stage.there) + len(stage.new)
    lines = [*grown.there.visible, *grown.new.visible]
    lit = regions(lines, look.first(there), range(before, there))
    return Pictured(stage, {"there": grown.there, "new": grown.new}, lit, seen_from)


def _field(step: Pictured, said: Sequence[Told], field: Field, most: float) -> list[Entity]:
    x0, y0, x1, y1 = field.frame
    frame = Polyline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True, pen=Pen.THIN)
    return [frame, *_picture(step, field.picture, most), *_words(step.stage, said, field)]


def _picture(step: Pictured, room: Box, most: float) -> list[Entity]:
    left, bottom, right, top = step.bounds
    scale = min(scale_in(step.bounds, room), most)
    x = (room[0] + room[2]) / 2.0 - scale * (left + right) / 2.0
    y = (room[1] + room[3]) / 2.0 - scale * (bottom + top) / 2.0
    port = ViewPort(scale, (x, y))
    fills = [
        Fill(tuple(Polyline(tuple(port.place(p) for p in ring), closed=True) for ring in region), _LIT)
        for region in step.lit
    ]
    there = view_marks(step.views["there"], port, Pen.THIN, _SPACES["there"])
    return [*fills, *there, *view_marks(step.views["new"], port, Pen.VISIBLE, _SPACES["new"])]


def _words(stage: Stage, said: Sequence[Told], field: Field) -> list[Entity]:
    """The step's sentence and paragraphs from the top of their box."""
    box, size = field.words, field.lettering
    x, width = box[0], box[2] - box[0]
    name = say("Step {}", counted(stage.number, "step", stage.text[:_TELLING]))
    marks: list[Entity] = [Text((x, box[3]), name, _HEADING, level="top", bold=True)]
    y = box[3] - _HEADING * 1.7
    marks += paragraph((x, y), number(stage.text, Says("script", (str(stage.number),))), width, size)
    y -= _tall(stage.text, width, size) + 2.0
    for t in said:
        marks.append(Text((x, y), t.heading, size, level="top", bold=True))
        y -= size * LINE_PITCH
        marks += paragraph((x, y), t.text, width, size)
        y -= _tall(t.text, width, size) + 1.5
    return marks


def _tallness(stage: Stage, said: Sequence[Told]) -> Tall:
    """How high the words of a step come out."""

    def tall(width: float, size: float) -> float:
        paragraphs = sum(size * LINE_PITCH + _tall(t.text, width, size) + 1.5 for t in said)
        return _HEADING * 1.7 + _tall(stage.text, width, size) + 2.0 + paragraphs

    return tall


def _tall(text: str, width: float, size: float) -> float:
    return len(wrapped(text, width, size)) * size * LINE_PITCH


def _key(page: Paper) -> list[Entity]:
    """What the lines mean, beside the title block, or nowhere on a page that it takes all across."""
    x0 = page.frame[0]
    left, _, _, top = title_block_area(page)
    width = left - x0 - 2.0 * MARGIN
    return [*paragraph((x0 + MARGIN, top), _KEY, width, LETTERINGS[0])] if width > 60.0 else []
