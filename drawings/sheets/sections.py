"""Sections through the piece: upright on its middle, and level where it cuts most parts; and its joints, larger."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from string import ascii_uppercase
from typing import TYPE_CHECKING

from drawings.paper.lettering import text_width
from drawings.paper.measured import Shown
from drawings.paper.page import paper
from drawings.paper.scales import scale_text, scales
from drawings.paper.sheet import Entity, Pen, Point, Sheet, Text, ViewPort
from drawings.sheets.clear_room import box_of, grown
from drawings.sheets.hatched import Ring, hatched
from drawings.sheets.joint_details import detail_leaves
from drawings.sheets.leaves import Leaf, bind
from drawings.sheets.packing import packed
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import Span, tiered
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import FRONT, RIGHT, TOP, Bounds, View, ViewSpec
from model.errors import DesignError
from model.order import Order
from model.piece import Piece, SectionAt

if TYPE_CHECKING:
    import cadquery as cq

TITLE = "Sections"
_SPECS: dict[str, ViewSpec] = {"x": RIGHT, "y": FRONT, "z": TOP}
_NAME, _GAP, _BETWEEN = 3.5, 3.0, 14.0
_LETTERS = [letter for letter in ascii_uppercase if letter not in "IOQXZ"]
#: An upright section keeps so far from where parts begin and end, mm.
_CLEAR = 8.0
#: A level section lies between level parts rather than through one: where nothing begins or ends over so many mm.
_ROOMY = 45.0


@dataclass(frozen=True)
class Section:
    """A section: where it is, the cut faces of each part by name, and the lines of what lies beyond."""

    letter: str
    place: SectionAt
    faces: Mapping[str, Sequence[Sequence[Ring]]]
    view: View

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top of all that is drawn of it, mm."""
        points = [p for faces in self.faces.values() for face in faces for ring in face for p in ring[0]]
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        left, bottom, right, top = self.view.bounds if self.view.visible else (xs[0], ys[0], xs[0], ys[0])
        return min(left, *xs), min(bottom, *ys), max(right, *xs), max(top, *ys)


def section_sheets(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Sheet]:
    """The sections, then the joint details, one for each kind of joint.

    shapes: every part's solid where it stands. Raises DesignError for a section that meets no part. Loads the CAD
    kernel.
    """
    return bind(section_leaves(piece, order, shapes), order)


def section_leaves(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Leaf]:
    """The same before they are bound."""
    return [*_laid_out(sections(piece, shapes), piece, order), *detail_leaves(piece, order, shapes)]


def sections(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Section]:
    """The sections of a piece: those chosen, then those that its script names. Loads the CAD kernel."""
    places = [*_chosen(shapes), *piece.sections]
    return [_section(letter, place, shapes) for letter, place in zip(_LETTERS, places, strict=False)]


def _section(letter: str, place: SectionAt, shapes: Mapping[str, cq.Shape]) -> Section:
    from drawings.views.section import cut_away

    spec = _SPECS[place.axis]
    depth = -place.at if place.axis == "y" else place.at
    found, view = cut_away(shapes, spec, depth)
    if not found:
        raise DesignError(f"the section {place.what} at {place.axis} = {place.at:g} mm meets no part; move it")
    faces = {n: [[(ring.points, ring.bulges) for ring in face] for face in cut] for n, cut in found.items()}
    return Section(letter, place, faces, view)


def _chosen(shapes: Mapping[str, cq.Shape]) -> list[SectionAt]:
    """Upright on the middle, or just beside it where a joint or a face lies there; level where most parts are cut."""
    from drawings.views.section import solid_box

    boxes = [solid_box(shape) for shape in shapes.values()]
    middle = (min(low[0] for low, _ in boxes) + max(high[0] for _, high in boxes)) / 2.0
    across = _telling([(low[0], high[0]) for low, high in boxes], middle)
    level = _telling([(low[2], high[2]) for low, high in boxes], None)
    return [SectionAt("Upright section near the middle", "x", across), SectionAt("Level section", "z", level)]


def _telling(spans: Sequence[tuple[float, float]], near: float | None) -> float:
    """A place between the ends of parts: the nearest to a wanted one, or that which cuts most parts."""
    ends = sorted({round(end, 3) for span in spans for end in span})
    gaps = [(a, b) for a, b in pairwise(ends) if b - a > 1.0]
    if near is not None:
        held = min(gaps, key=lambda gap: max(gap[0] - near, near - gap[1], 0.0))
        slack = min(_CLEAR, (held[1] - held[0]) / 3.0)
        return min(max(near, held[0] + slack), held[1] - slack)
    roomy = [gap for gap in gaps if gap[1] - gap[0] >= _ROOMY] or gaps
    cut = [(sum(low < (a + b) / 2.0 < high for low, high in spans), b - a, (a + b) / 2.0) for a, b in roomy]
    return max(cut)[2]


def _laid_out(found: Sequence[Section], piece: Piece, order: Order) -> list[Leaf]:
    """All sections at one scale on one sheet if that keeps it large enough, else on as many as it takes."""
    page, form = paper(order.drawing.paper), Lengths(order.units, order.drawing.denominator)
    for scale in (s for s in scales(order.units) if s <= 1.0):
        blocks = [_marks(s, piece, form, ViewPort(scale, shown=_shown(s))) for s in found]
        boxes = [box_of(marks) for marks in blocks]
        corners = packed([(b[2] - b[0], b[3] - b[1]) for b in boxes], page, _BETWEEN)
        if len(corners) == len(found):
            marks: list[Entity] = []
            for s, box, (x, y) in zip(found, boxes, corners, strict=True):
                port = ViewPort(scale, (x - box[0], y - box[3]), _shown(s))
                marks += _marks(s, piece, form, port)
            return [Leaf("sections", TITLE, tuple(marks), scale_text(scale, order.units))]
    raise DesignError(f"[drawing] paper: the sections of {order.name} don't fit on {page.name}; choose a larger paper")


def _shown(section: Section) -> Shown:
    spec = _SPECS[section.place.axis]
    return Shown((), spec.right, spec.up)


def _marks(section: Section, piece: Piece, form: Lengths, port: ViewPort) -> list[Entity]:
    """One section: what lies beyond in narrow lines, the cut faces, the piece's measures, its name."""
    marks = [*view_marks(section.view, port, Pen.THIN, 0.6), *hatched(section.faces, port)]
    marks += tiered(_spans(section, piece), section.bounds, port, form)
    box = grown(box_of(marks), 0.0)
    middle = port.place(((section.bounds[0] + section.bounds[2]) / 2.0, 0.0))[0]
    name = f"{section.letter}-{section.letter}: {section.place.what}, {section.place.axis} = {form(section.place.at)}"
    reach = text_width(name, _NAME) / 2.0
    middle = max(middle, box[0] + reach)
    return [*marks, Text((middle, box[3] + _GAP), name, _NAME, "centre", bold=True)]


def _spans(section: Section, piece: Piece) -> list[Span]:
    """The piece's own measures that run in the plane of the section."""
    spec = _SPECS[section.place.axis]
    left, bottom, right, top = section.bounds
    upright = section.place.axis != "z"
    found = [Span((left, bottom), (left, top), "left")]
    if not upright:
        found.append(Span((left, bottom), (right, bottom), "below"))
    for m in piece.measures:
        p, q = spec.project(m.start), spec.project(m.end)
        if upright and m.view in ("front", "side") and abs(q[1] - p[1]) > abs(q[0] - p[0]):
            found.append(Span((right, p[1]), (right, q[1]), "right", m.times))
    return _once(found)


def _once(spans: Sequence[Span]) -> list[Span]:
    kept: dict[tuple[str, tuple[Point, Point]], Span] = {}
    for span in spans:
        kept.setdefault((span.side, (span.p, span.q)), span)
    return list(kept.values())
