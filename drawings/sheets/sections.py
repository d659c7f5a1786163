"""Sections through the piece: upright on its middle, and level where it cuts most parts; and its joints, larger."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from string import ascii_uppercase
from typing import TYPE_CHECKING

from drawings.paper.board import board
from drawings.paper.measured import Shown
from drawings.paper.saying import Saying, Says, number, say
from drawings.paper.scales import scales, sheet_scale, view_scale
from drawings.paper.sheet import Entity, Pen, Point, Sheet, ViewPort
from drawings.sheets.block import Block
from drawings.sheets.captions import caption, caption_width
from drawings.sheets.clear_room import box_of, grown
from drawings.sheets.detail_figure import DetailFigure
from drawings.sheets.hatched import Ring, hatched
from drawings.sheets.joint_details import Detail, details
from drawings.sheets.leaves import AS_SHOWN, Leaf, bind
from drawings.sheets.packing import Footprint, Spot, footprint, packed, sheet_room
from drawings.sheets.principal import Lengths, middle_of
from drawings.sheets.tiers import Span, tiered
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import FRONT, RIGHT, TOP, Bounds, View, ViewSpec
from model.errors import DesignError
from model.order import Order
from model.piece import Piece, SectionAt

if TYPE_CHECKING:
    import cadquery as cq

TITLE, DETAILS, BOTH = "Sections", "Joint details", "Sections and joint details"
_FROM = {"x": "from the left", "y": "from the front", "z": "above the floor"}
_SPECS: dict[str, ViewSpec] = {"x": RIGHT, "y": FRONT, "z": TOP}
#: The width that a section's caption may take though the section is narrower, over it, and between figures, mm.
_NAME, _GAP, _BETWEEN = 125.0, 3.0, 12.0
#: Figures whose tops are no further apart than this are read as a row, mm (ours).
_ROW = 30.0
#: So many scales of the sections are tried, from the largest at which they go on a sheet down (ours).
_TRIED = 2
_LETTERS = [a + b for a in ("", "A") for b in ascii_uppercase if b not in "IOQXZ"]
#: An upright section keeps so far from where parts begin and end, mm.
_CLEAR = 8.0
#: A level section lies between level parts rather than through one: where nothing begins or ends over so many mm.
_ROOMY = 45.0


@dataclass(frozen=True)
class Section:
    """A section: where it is, the cut faces of each part by name, the lines of what lies beyond, and where on its axis
    the piece begins, mm."""

    letter: str
    place: SectionAt
    faces: Mapping[str, Sequence[Sequence[Ring]]]
    view: View
    datum: float = 0.0

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
    leaves, _ = section_leaves(sections(piece, shapes), details(piece, shapes), piece, order)
    return bind(leaves, order)


def section_leaves(
    found: Sequence[Section], larger: Sequence[Detail], piece: Piece, order: Order
) -> tuple[list[Leaf], list[tuple[str, Detail]]]:
    """Sections and details before they are bound, and the details with their letters, which follow the sections' as the
    sheets are read; at the largest scale of the sections at which they go on one sheet, or at the next if that saves
    one."""
    form = Lengths(order.units, order.drawing.denominator)
    empty = sheet_room(board(order.drawing.paper, order.units), _BETWEEN)
    figures = [DetailFigure(letter, d, piece, form) for letter, d in lettered_details(larger, len(found))]
    blocks = [[Block(figure.marks)] for figure in figures]
    ways = []
    for scale in (s for s in scales(order.units) if s <= 1.0):
        drawn = [[_block(s, scale, piece, form)] for s in found]
        alone = packed(_sizes(drawn), empty)
        if alone is not None and len(alone) == 1:
            together = packed(_sizes([*drawn, *blocks]), empty)
            if together is None:
                break
            ways.append((together, [*drawn, *blocks], scale))
        if len(ways) == _TRIED:
            break
    if not ways:
        raise DesignError(f"[drawing] paper: the sections of {order.name} don't fit on the paper; choose a larger one")
    spots, drawn, scale = min(ways, key=lambda way: len(way[0]))
    read = [s.item - len(found) for some in spots for s in in_reading_order(some) if s.item >= len(found)]
    figures = [replace(figures[n], letter=figures[read.index(n)].letter) for n in range(len(figures))]
    drawn = [*drawn[: len(found)], *([Block(figure.marks)] for figure in figures)]
    of = [scale] * len(found) + [figure.scale for figure in figures]
    leaves = [_leaf(some, drawn, of, len(found), order.units) for some in spots]
    return leaves, sorted(((f.letter, f.detail) for f in figures), key=lambda pair: _LETTERS.index(pair[0]))


def in_reading_order(spots: Sequence[Spot]) -> list[Spot]:
    """Row by row from the top, each from the left; what begins not much lower than a row does is of that row."""
    rows: list[list[Spot]] = []
    for spot in sorted(spots, key=lambda s: (-s.top, s.left)):
        if rows and rows[-1][0].top - spot.top <= _ROW:
            rows[-1].append(spot)
        else:
            rows.append([spot])
    return [spot for row in rows for spot in sorted(row, key=lambda s: s.left)]


def _leaf(
    spots: Sequence[Spot], drawn: Sequence[Sequence[Block]], of: Sequence[float], sections: int, units: str
) -> Leaf:
    marks = tuple(m for s in spots for m in drawn[s.item][s.shape].hung(s.left, s.top))
    used = {of[s.item] for s in spots}
    kinds = {s.item < sections for s in spots}
    kind = BOTH if len(kinds) == 2 else TITLE if True in kinds else DETAILS
    return Leaf(
        "sections" if True in kinds else "details",
        kind,
        marks,
        sheet_scale(used.pop(), units) if len(used) == 1 else AS_SHOWN,
    )


def _sizes(drawn: Sequence[Sequence[Block]]) -> list[list[Footprint]]:
    return [[footprint(block) for block in shapes] for shapes in drawn]


def _block(section: Section, scale: float, piece: Piece, form: Lengths) -> Block:
    return Block(lambda at: _marks(section, piece, form, ViewPort(scale, at, _shown(section))))


def sections(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Section]:
    """The sections of a piece: those chosen, then those that its script names. Loads the CAD kernel."""
    return [_section(letter, place, shapes) for letter, place in lettered(piece, shapes)]


def lettered(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[tuple[str, SectionAt]]:
    """The letter of each section, and where it is. Loads the CAD kernel."""
    return list(zip(_LETTERS, [*_chosen(shapes), *piece.sections], strict=False))


def lettered_details(found: Sequence[Detail], after: int) -> list[tuple[str, Detail]]:
    """Each detail with its letter; the first so many letters are those of the sections."""
    return list(zip(_LETTERS[after:], found, strict=False))


def _section(letter: str, place: SectionAt, shapes: Mapping[str, cq.Shape]) -> Section:
    from drawings.views.section import cut_away, solid_box

    spec = _SPECS[place.axis]
    depth = -place.at if place.axis == "y" else place.at
    found, view = cut_away(shapes, spec, depth)
    if not found:
        raise DesignError(f"the section {place.what} at {place.axis} = {place.at:g} mm meets no part; move it")
    faces = {n: [[(ring.points, ring.bulges) for ring in face] for face in cut] for n, cut in found.items()}
    reaches = [solid_box(shape)[0] for shape in shapes.values()]
    return Section(letter, place, faces, view, min(low["xyz".index(place.axis)] for low in reaches))


def _chosen(shapes: Mapping[str, cq.Shape]) -> list[SectionAt]:
    """Upright on the middle, or just beside it where a joint or a face lies there; level where most parts are cut."""
    from drawings.views.section import solid_box

    boxes = [solid_box(shape) for shape in shapes.values()]
    middle = (min(low[0] for low, _ in boxes) + max(high[0] for _, high in boxes)) / 2.0
    across = _telling([(low[0], high[0]) for low, high in boxes], middle)
    level = _telling([(low[2], high[2]) for low, high in boxes], None)
    return [SectionAt("Upright section", "x", across), SectionAt("Level section", "z", level)]


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


def _shown(section: Section) -> Shown:
    spec = _SPECS[section.place.axis]
    return Shown((), spec.right, spec.up)


def _marks(section: Section, piece: Piece, form: Lengths, port: ViewPort) -> list[Entity]:
    """One section: what lies beyond in narrow lines, the cut faces, the piece's measures, its name."""
    marks = [*view_marks(section.view, port, Pen.THIN, 0.6), *hatched(section.faces, port)]
    marks += tiered(_spans(section, piece), section.bounds, port, form)
    box = grown(box_of(marks), 0.0)
    middle = port.place(((section.bounds[0] + section.bounds[2]) / 2.0, 0.0))[0]
    where, scale = _where(section, piece, form), view_scale(port.scale, form.units, _shown(section))
    letters, words = f"{section.letter}-{section.letter}", say("{}, {}, {}", section.place.what, where, scale)
    room = max(box[2] - box[0], _NAME)
    left = max(middle - caption_width(letters, words, room) / 2.0, box[0])
    return [*marks, *caption(letters, words, (left, box[3] + _GAP), room)]


def _where(section: Section, piece: Piece, form: Lengths) -> Saying:
    """How far its plane is from the centre line, the floor, or the furthest left or front of the piece."""
    place, middle = section.place, middle_of(piece)
    there = Says("cut at", (place.axis,))
    if place.axis != "x" or middle is None:
        return say("{} {}", number(form(place.at - section.datum), there), _FROM[place.axis])
    off = place.at - middle
    if form(abs(off)) == form(0.0):
        return say("on the centre line")
    return say("{} {} of the centre line", number(form(abs(off)), there), "right" if off > 0.0 else "left")


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
