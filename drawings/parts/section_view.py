"""The section at a worked edge, drawn large, with the sizes of the work on it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawings.lists.teller import edge_in_words
from drawings.paper.dimensions import Side, angular, radius
from drawings.paper.saying import Saying, say
from drawings.paper.scales import view_scale
from drawings.paper.sheet import Entity, LinearDimension, Point, Polyline, RadiusDimension, Text, ViewPort
from drawings.paper.strokes import strokes
from drawings.parts.broken import clear_of_lettering, cut_wood
from drawings.parts.edge_section import EdgeSection
from drawings.parts.edge_sizes import Arc, arcs, sizes
from drawings.parts.family import Family, printed
from drawings.parts.plan_labels import least
from drawings.parts.untangled import untangled
from drawings.sheets.clear_room import Drawn, box_of
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import Span, fits, tiered
from model.cuts.edges import Bevel

#: Sections are drawn at full size, or larger where the stock is thinner than this would show well, mm.
_THIN, _LARGE = 15.0, 2.0
#: Of work that reaches further in than this the section is not drawn larger than life, mm.
_REACH = 45.0
_NAME, _GAP = 2.5, 2.0
_ASIDE, _ABOVE = (0.0, 6.0, 12.0, 18.0, 24.0), (0.0, 6.0)
_REACHES = (-9.0, 9.0, -13.0, 13.0, -17.0, -22.0, -28.0)


@dataclass(frozen=True)
class SectionView:
    """One section, at its own scale, standing for every edge that is worked alike."""

    family: Family
    sections: tuple[EdgeSection, ...]
    form: Lengths

    @property
    def section(self) -> EdgeSection:
        return self.sections[0]

    @property
    def scale(self) -> float:
        """Paper over wood: larger than life for thin wood, and where its sizes would crowd."""
        small = self.family.part.thickness < _THIN or self.section.reach < 2 * _THIN
        cramped = any(fits(s, _LARGE, self.form) > fits(s, 1.0, self.form) for s in self._spans())
        return _LARGE if small or (cramped and self.section.reach < _REACH) else 1.0

    @property
    def name(self) -> Saying:
        """What stands over the section."""
        names = [edge_in_words(s.name) for s in self.sections]
        ends = " and ".join(names) if len(names) < 3 else ", ".join(names)
        scale = view_scale(self.scale, self.form.units, self.section.shown(self.family))
        return say("Section at {}, {}", ends, scale)

    def marks(self, origin: Point) -> list[Entity]:
        """The section with its sizes, the edge's own corner on the back side at `origin`."""
        x0, _ = self.section.point(0.0, 0.0)
        port = ViewPort(self.scale, (origin[0] - self.scale * x0, origin[1]), self.section.shown(self.family))
        marks = self._wood(port)
        marks += self._dimensions(port)
        marks += self._angles(port)
        marks += self._radii(port, marks)
        box = box_of(marks)
        middle = port.place(self.section.point(self.section.reach / 2, 0.0))[0]
        name = Text((middle, box[3] + _GAP), self.name, _NAME, "centre", bold=True)
        return [*clear_of_lettering(marks), name]

    def _dimensions(self, port: ViewPort) -> list[LinearDimension]:
        """Next to the wood, or as far from it as they must stand to keep out of each other's way."""
        spans = self._spans()
        bounds = (self._bounds(past / port.scale, above / port.scale) for above in _ABOVE for past in _ASIDE)
        return least((untangled(tiered(spans, b, port, self.form)) for b in bounds), _struck)

    def _bounds(self, past: float, above: float) -> tuple[float, float, float, float]:
        """What the dimensions stand round: so much more than the wood beyond its edge and over its sides, mm."""
        (a, _), (b, _) = self.section.point(-past, 0.0), self.section.point(self.section.reach, 0.0)
        return min(a, b), -above, max(a, b), self.family.part.thickness + above

    def _wood(self, port: ViewPort) -> list[Entity]:
        marks: list[Entity] = []
        flip = 1.0 if self.section.faces_left else -1.0
        for corners, bulges in self.section.left():
            points = tuple(port.place(self.section.point(u, v)) for u, v in corners)
            ring = Polyline(points, tuple(flip * b for b in bulges), closed=True)
            marks += cut_wood([ring], [port.place(self.section.point(self.section.reach, 0.0))[0]])
        return marks

    def _spans(self) -> list[Span]:
        edge: Side = "left" if self.section.faces_left else "right"
        sides: dict[str, Side] = {"face": "above", "back": "below", "edge": edge}
        found: dict[object, Span] = {}
        for cut in self.section.cuts:
            for size in sizes(cut, self.family.part):
                p, q = self.section.point(*size.p), self.section.point(*size.q)
                span = Span(p, q, sides[size.where])
                low, high = span.stretch
                # what the other side shows just so already is not said again
                found.setdefault((span.level, round(low, 2), round(high, 2)), span)
        return list(found.values())

    def _angles(self, port: ViewPort) -> Iterator[Entity]:
        thick = self.family.part.thickness
        for cut in self.section.cuts:
            if isinstance(cut, Bevel):
                at = self.section.point(0.0, thick if cut.keep == "face" else 0.0)
                down = -90.0 if cut.keep == "face" else 90.0
                inward = 1.0 if self.section.faces_left == (cut.keep == "face") else -1.0
                turn = sorted((down, down + inward * cut.angle))
                yield angular(at, turn[0], turn[1], port, thick * port.scale * 0.55 + 12.0, thick * 1.05)

    def _radii(self, port: ViewPort, drawn: Sequence[Entity]) -> list[Entity]:
        """Each radius once, on the first arc that has it."""
        marks: list[Entity] = []
        told = set()
        for cut in self.section.cuts:
            for arc in arcs(cut, self.family.part.thickness):
                text = self.form(arc.radius, "R")
                if text not in told:
                    told.add(text)
                    marks.append(self._radius(arc, text, port, [*drawn, *marks]))
        return marks

    def _radius(self, arc: Arc, text: str, port: ViewPort, drawn: Sequence[Entity]) -> RadiusDimension:
        room = Drawn(drawn)
        lettering = Drawn(mark for entity in drawn for mark in strokes(entity) if isinstance(mark, Text))
        centre = self.section.point(*arc.centre)
        ends = [self.section.point(*p) for p in arc.points]
        angles = [math.degrees(math.atan2(v - centre[1], h - centre[0])) for h, v in ends]
        tries = [radius(centre, arc.radius, a, port, reach, text=text) for reach in _REACHES for a in angles]
        return min(tries, key=lambda r: 10 * (room.strikes(r) + lettering.crossings(r)) + room.crossings(r))


def _struck(dimensions: Sequence[LinearDimension]) -> int:
    """How often one's lettering runs into another."""
    return sum(Drawn([*dimensions[:n], *dimensions[n + 1 :]]).strikes(d) for n, d in enumerate(dimensions))


def section_views(family: Family, sections: Sequence[EdgeSection], form: Lengths) -> list[SectionView]:
    """A view for each section; edges worked alike, as far as it is printed, share theirs."""
    alike: dict[object, list[EdgeSection]] = {}
    for section in sections:
        said = sorted(repr(printed(c, form, but=("edge", "start", "stop"))) for c in section.cuts)
        alike.setdefault(tuple(said), []).append(section)
    return [SectionView(family, tuple(found), form) for found in alike.values()]
