"""A joint detail as it stands on its sheet: its name, the section with its dimensions, its cuts in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drawings.lists.cut_words import cuts_in_words
from drawings.lists.said_of_part import in_part
from drawings.paper.dimensions import Side
from drawings.paper.lettering import paragraph
from drawings.paper.saying import Saying, Says, counted, joined, named, number, say
from drawings.paper.scales import scale_text
from drawings.paper.sheet import Entity, Hatch, Line, LinearDimension, Point, Polyline, ViewPort
from drawings.parts.broken import zigzag
from drawings.sheets.captions import caption
from drawings.sheets.clear_room import box_of
from drawings.sheets.hatched import STYLES
from drawings.sheets.joint_details import Detail, Edge, Rings
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import Span, tiered
from drawings.views.curves import Bounds
from model.piece import Piece

#: Lettering, mm, and the least width that words under a detail are wrapped to.
_WORDS, _LEAST = 2.5, 84.0
#: More letters than this about one part are left to its own sheet (ours).
_MUCH = 200


@dataclass(frozen=True)
class DetailFigure:
    """A detail under its letter, at its scale."""

    letter: str
    detail: Detail
    piece: Piece
    form: Lengths

    @property
    def scale(self) -> float:
        return self.detail.scale(self.form.units)

    def marks(self, corner: Point) -> list[Entity]:
        """The whole of it, near a point of the paper."""
        port = ViewPort(self.scale, corner)
        picture = [*self._faces(port), *dimensions(self.detail, self.piece, port, self.form)]
        left, low, right, high = box_of(picture)
        width = max(right - left, _LEAST)
        said = self._words()
        name, more = self._name()
        x = min(left, (left + right - width) / 2.0)
        marks: list[Entity] = [*picture]
        y = high + 3.0
        below = paragraph((x, 0.0), more, width, _WORDS)
        for text in reversed(below):
            marks.append(replace(text, at=(x, y)))
            y += _WORDS * 1.5
        marks += caption(self.letter, name, (x, y + 0.6), width)
        top = low - 3.0
        for sentence in said:
            lines = paragraph((x, top), sentence, width, _WORDS)
            marks += lines
            top = lines[-1].at[1] - _WORDS * 0.9
        return marks

    def _name(self) -> tuple[Saying, Saying]:
        joint, alike = self.detail.joint, self.detail.alike
        count = say(", one of {} alike", counted(alike, "alike", joint.kind)) if alike > 1 else ""
        views = tuple(self.detail.shown(self.piece, name)[0].scale() for name in (joint.first, joint.second))
        scale = number(scale_text(self.scale, self.form.units), views)
        between = say("{} and {}{}", *(named(name, name) for name in (joint.first, joint.second)), count)
        return say("{}, {}", joint.kind.capitalize(), scale), between

    def _words(self) -> list[Saying]:
        """The joint's parts and their cuts in words, as far as they are few."""
        joint, form = self.detail.joint, self.form
        said: list[Saying] = []
        for name, cuts in ((joint.first, joint.first_cuts), (joint.second, joint.second_cuts)):
            if cuts:
                words = [
                    in_part(told, name, self.piece[name].wood, cuts)
                    for told in cuts_in_words(cuts, self.piece[name].wood, form.units, form.denominator)
                ]
                told = say("{}: {}", named(name, name), joined("; ", words))
                said.append(told if len(told) < _MUCH else say("{}: its cuts are on its own sheet", named(name, name)))
        fit = number(form(joint.fit), Says("fit", (joint.first, joint.second)))
        return [*said, say("Fit: {} clear", fit)] if joint.fit else said

    def _faces(self, port: ViewPort) -> Iterator[Entity]:
        for style, (_, found) in zip(STYLES, self.detail.faces.items(), strict=False):
            for face in found:
                rings = tuple(Polyline(tuple(port.place(p) for p in ring), closed=True) for ring in face)
                yield Hatch(rings, *style)
                yield from _outlined(face, self.detail.window, port)


def _outlined(face: Rings, window: Bounds, port: ViewPort) -> Iterator[Entity]:
    """Its edges wide, but where the wood goes on past the window: a narrow line."""
    for ring in face:
        for p, q in zip(ring, [*ring[1:], ring[0]], strict=True):
            goes_on = any(
                abs(p[k] - window[n]) < 1e-6 and abs(q[k] - window[n]) < 1e-6 for n, k in enumerate((0, 1, 0, 1))
            )
            yield zigzag(port.place(p), port.place(q)) if goes_on else Line(port.place(p), port.place(q))


def dimensions(detail: Detail, piece: Piece, port: ViewPort, form: Lengths) -> list[LinearDimension]:
    """The sizes at the joint, each once, outside the window; each is measured on the part whose edge it is."""
    chosen: dict[tuple[bool, str], Edge] = {}
    for edge in sorted(detail.edges, key=lambda e: _inset(e, detail.window)):
        chosen.setdefault((edge.level, form(edge.length)), edge)
    of = {(Span(e.p, e.q, _side(e, detail.window))): e for e in chosen.values() if _flat(piece, e.part)}
    marks = tiered(list(of), detail.window, port, form)
    return [_measured(mark, edge, detail, piece) for mark, edge in _matched(marks, of, port)]


def _matched(
    marks: Sequence[LinearDimension], of: dict[Span, Edge], port: ViewPort
) -> Iterator[tuple[LinearDimension, Edge]]:
    """Each dimension with the edge it was made for: it has the same length, and one end of it."""
    for mark in marks:
        ends = {mark.p, mark.q}
        for span, edge in of.items():
            axis = 0 if span.level else 1
            at = {round(port.place(p)[axis], 4) for p in (span.p, span.q)}
            if {round(p[axis], 4) for p in ends} == at and span.level == (mark.angle == 0.0):
                yield mark, edge
                break


def _measured(mark: LinearDimension, edge: Edge, detail: Detail, piece: Piece) -> LinearDimension:
    shown, (dx, dy) = detail.shown(piece, edge.part)
    p, q = ((x - dx, y - dy) for x, y in (edge.p, edge.q))
    return replace(mark, measured=shown.length(p, q, (1.0, 0.0) if edge.level else (0.0, 1.0)))


def _flat(piece: Piece, name: str) -> bool:
    """A bent part's numbers stand on its own sheet, on the flat."""
    return getattr(piece[name].part, "bend", None) is None


def _side(edge: Edge, window: Bounds) -> Side:
    """The nearer side of the window."""
    left, low, right, high = window
    if edge.level:
        return "below" if edge.p[1] - low <= high - edge.p[1] else "above"
    return "left" if edge.p[0] - left < right - edge.p[0] else "right"


def _inset(edge: Edge, window: Bounds) -> float:
    """How far inside the window an edge lies."""
    left, low, right, high = window
    return min(edge.p[1] - low, high - edge.p[1]) if edge.level else min(edge.p[0] - left, right - edge.p[0])
