"""The section at a worked edge, drawn large, with the sizes of the work on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import singledispatch

from drawings.lists.teller import edge_in_words
from drawings.paper.dimensions import Side, angular, radius
from drawings.paper.scales import scale_text
from drawings.paper.sheet import Entity, Point, Polyline, Text, ViewPort
from drawings.parts.broken import cut_wood
from drawings.parts.edge_section import EdgeSection
from drawings.parts.family import Family, printed
from drawings.sheets.clear_room import Drawn, box_of
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import Span, tiered
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.part import Part

#: Sections are drawn at full size, or larger where the stock is thinner than this would show well, mm.
_THIN, _LARGE = 15.0, 2.0
_NAME, _GAP = 2.5, 2.0

UV = tuple[float, float]


@dataclass(frozen=True)
class Size:
    """A wanted size of a section: from p to q in (u, v), shown on the face, back or edge side of it."""

    p: UV
    q: UV
    where: str


@singledispatch
def sizes(cut: Cut, part: Part) -> Iterator[Size]:
    """What must be given of a cut along an edge, in (u, v); for a kind not known here the reach of its sections."""
    if isinstance(cut, EdgeCut):
        for section in cut.sections(part.thickness):
            _, low, deep, high = section.bounds
            low, high = max(low, 0.0), min(high, part.thickness)
            top = high >= part.thickness - 1e-6
            yield Size((0.0, low if top else high), (deep, low if top else high), "face" if top else "back")
            yield Size((deep, low), (deep, high), "edge")


@sizes.register
def _(cut: Tongue, part: Part) -> Iterator[Size]:
    top = cut.rise + cut.thickness
    yield Size((0.0, top), (cut.length, top), "face")
    yield Size((cut.length, 0.0), (0.0, cut.rise), "edge")
    yield Size((0.0, cut.rise), (0.0, top), "edge")


@sizes.register
def _(cut: EdgeGroove, part: Part) -> Iterator[Size]:
    top = cut.rise + cut.width
    yield Size((0.0, part.thickness), (cut.depth, top), "face")
    yield Size((0.0, 0.0), (0.0, cut.rise), "edge")
    yield Size((0.0, cut.rise), (0.0, top), "edge")


@sizes.register
def _(cut: Rabbet, part: Part) -> Iterator[Size]:
    face = cut.side == "face"
    floor, open_to = (part.thickness - cut.depth, part.thickness) if face else (cut.depth, 0.0)
    yield Size((0.0, floor), (cut.width, open_to), cut.side)
    yield Size((0.0, floor), (cut.width, open_to), "edge")


@sizes.register
def _(cut: Bead, part: Part) -> Iterator[Size]:
    level = part.thickness if cut.side == "face" else 0.0
    deep = part.thickness - cut.radius if cut.side == "face" else cut.radius
    beyond = cut.inset + 2 * cut.radius
    yield Size((beyond, deep), (beyond + cut.quirk, level), cut.side)


@sizes.register
def _(cut: Bevel, part: Part) -> Iterator[Size]:
    yield from ()


@sizes.register(Ease)
@sizes.register(Chamfer)
def _(cut: EdgeCut, part: Part) -> Iterator[Size]:
    yield from ()


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
        return _LARGE if self.family.part.thickness < _THIN or self.section.reach < 2 * _THIN else 1.0

    @property
    def name(self) -> str:
        """What stands over the section."""
        names = [edge_in_words(s.name) for s in self.sections]
        ends = " and ".join(names) if len(names) < 3 else ", ".join(names)
        return f"Section at {ends}, {scale_text(self.scale, self.form.units)}"

    def marks(self, origin: Point) -> list[Entity]:
        """The section with its sizes, the edge's own corner on the back side at `origin`."""
        x0, _ = self.section.point(0.0, 0.0)
        port = ViewPort(self.scale, (origin[0] - self.scale * x0, origin[1]), self.section.shown(self.family))
        marks = self._wood(port)
        marks += tiered(self._spans(), self._bounds(), port, self.form)
        marks += self._angles(port)
        marks += self._radii(port, marks)
        box = box_of(marks)
        middle = port.place(self.section.point(self.section.reach / 2, 0.0))[0]
        return [*marks, Text((middle, box[3] + _GAP), self.name, _NAME, "centre", bold=True)]

    def _bounds(self) -> tuple[float, float, float, float]:
        (a, _), (b, _) = self.section.point(0.0, 0.0), self.section.point(self.section.reach, 0.0)
        return min(a, b), 0.0, max(a, b), self.family.part.thickness

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
        """One radius for beads that are alike, on the first."""
        marks: list[Entity] = []
        for cut in {printed(c, self.form)[:1]: c for c in reversed(self.section.cuts) if isinstance(c, Bead)}.values():
            v = self.family.part.thickness - cut.radius if cut.side == "face" else cut.radius
            centre = self.section.point(cut.inset + cut.radius, v)
            up = 1.0 if cut.side == "face" else -1.0
            room = Drawn([*drawn, *marks])
            inside = 0.0 if self.section.faces_left else 180.0
            angles = [up * a if inside == 0.0 else 180.0 - up * a for a in (60.0, 75.0, 45.0, 30.0)]
            tries = [
                radius(centre, cut.radius, a, port, reach, text=self.form(cut.radius, "R"))
                for reach in (-9.0, -13.0, -17.0, -22.0, -28.0)
                for a in angles
            ]
            marks.append(min(tries, key=lambda r: room.strikes(r) * 10 + room.crossings(r)))
        return marks


def section_views(family: Family, sections: Sequence[EdgeSection], form: Lengths) -> list[SectionView]:
    """A view for each section; edges worked alike, as far as it is printed, share theirs."""
    alike: dict[object, list[EdgeSection]] = {}
    for section in sections:
        said = sorted(repr(printed(c, form, but=("edge", "start", "stop"))) for c in section.cuts)
        alike.setdefault(tuple(said), []).append(section)
    return [SectionView(family, tuple(found), form) for found in alike.values()]
