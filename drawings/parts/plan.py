"""The plan of a part, seen from its face side: outline, cuts, face and reference marks, dimensions from one datum."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeVar

from drawings.cutting.sawn_outline import sawn_outline
from drawings.paper.dimensions import radius
from drawings.paper.lettering import text_width
from drawings.paper.sheet import (
    Circle,
    Entity,
    Fill,
    Line,
    OrdinateDimension,
    Pen,
    Point,
    Polyline,
    RadiusDimension,
    Text,
    ViewPort,
)
from drawings.parts.edge_section import is_arris, shoulders
from drawings.parts.family import Family
from drawings.parts.located import Hole, Trench, hidden_outline, holes, is_round, trenches
from drawings.parts.ordinates import ordinates
from drawings.sheets.clear_room import Drawn, box_of
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.faces import BISCUIT_THICKNESS, Channel
from model.cuts.through import Notch, Profile
from model.layout.outline import Edge, Outline

#: Lines along an edge nearer to it than this are left to the section, paper mm.
_LEAST = 0.9
_SMALL, _HEIGHT = 1.8, 2.5
_REACHES = (8.0, -8.0, 11.0, -11.0, 15.0, -15.0, 20.0, -20.0, 26.0, -26.0)
_ALONG = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2)

T = TypeVar("T")


@dataclass(frozen=True)
class Plan:
    """A part's plan; what it locates is worked out once, drawing it is for a scale and a place."""

    family: Family
    form: Lengths

    @cached_property
    def _sawn(self) -> tuple[Outline, tuple[Cut, ...]]:
        return sawn_outline(self.family.part)

    @property
    def outline(self) -> Outline:
        return self._sawn[0]

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        return self.outline.bounds

    @property
    def datum(self) -> Point:
        """The corner that everything is measured from: of the lines that touch its left end and near edge."""
        return self.bounds[0], self.bounds[1]

    @cached_property
    def holes(self) -> list[Hole]:
        """Holes and slots in the order of the table: from the left end."""
        found = [h for c in self.family.part.cuts for h in holes(c, self.family.part)]
        return sorted(found, key=lambda h: (h.side is None, round(h.at[0], 2), round(h.at[1], 2)))

    @cached_property
    def trenches(self) -> list[Trench]:
        """Every channel, pocket and opening that is told in the table, lettered in this order."""
        part, left_over = self.family.part, self._sawn[1]
        found = [t for c in part.cuts for t in trenches(c, part)]
        for cut in left_over:
            if isinstance(cut, Notch):
                found.append(Trench(cut.name, cut.outline, cut.outline.corners, "face", part.thickness, True))
        return sorted(found, key=lambda t: (t.outline.bounds[0], t.outline.bounds[1]))

    @property
    def arcs(self) -> list[Edge]:
        """The arcs of the outline and of trenches, those struck alike from one centre once."""
        edges = [e for o in (self.outline, *(t.outline for t in self.trenches)) for e in o.edges if not e.straight]
        alike: dict[tuple[float, ...], Edge] = {}
        for e in edges:
            alike.setdefault((round(e.radius, 3), round(e.centre[0], 3), round(e.centre[1], 3)), e)
        return list(alike.values())

    def size(self, scale: float) -> tuple[float, float]:
        """What the bare outline takes on the paper, mm."""
        x0, y0, x1, y1 = self.bounds
        return (x1 - x0) * scale, (y1 - y0) * scale

    def marks(self, scale: float, origin: Point) -> list[Entity]:
        """All of it, the part's own (0, 0) at `origin`."""
        port = ViewPort(scale, origin, self.family.shown())
        marks: list[Entity] = [*self._hidden(port), *self._edge_lines(port), *self._wood(port)]
        marks += self._ordinates(port)
        marks += self._reference(port)
        for arc in self.arcs:
            marks.append(self._radius(arc, port, marks))
        marks += self._labels(port, marks)
        return [*marks, *self._face_mark(port, marks)]

    def _wood(self, port: ViewPort) -> Iterator[Entity]:
        for trench in self.trenches:
            if trench.side == "face" or trench.through:
                yield polyline(trench.outline, port, Pen.VISIBLE)
        for found in self.holes:
            if found.side == "face":
                yield from _mouth(found, port, Pen.VISIBLE)
        yield polyline(self.outline, port, Pen.VISIBLE)

    def _hidden(self, port: ViewPort) -> Iterator[Entity]:
        part = self.family.part
        for trench in self.trenches:
            if trench.side == "back" and not trench.through:
                yield polyline(trench.outline, port, Pen.HIDDEN)
        for found in self.holes:
            if found.side == "back":
                yield from _mouth(found, port, Pen.HIDDEN)
        for cut in part.cuts:
            if not isinstance(cut, Profile) and not list(cut.footprints(part.blank)):
                for ring in hidden_outline(cut, part):
                    yield Polyline(tuple(map(port.place, ring)), closed=True, pen=Pen.HIDDEN)

    def _edge_lines(self, port: ViewPort) -> Iterator[Entity]:
        part = self.family.part
        for cut in part.cuts:
            if isinstance(cut, EdgeCut) and not is_arris(cut):
                lines = [(u, seen) for u, seen in shoulders(cut, part.thickness) if u * port.scale >= _LEAST]
                for u, seen in lines[-1:]:
                    for edge in part.outline.named(cut.edge):
                        yield from _parallel(edge, u, cut, port, Pen.VISIBLE if seen else Pen.HIDDEN)

    def _points(self) -> list[Point]:
        inside = (p for t in self.trenches for p in t.points)
        return [*self.outline.corners, *self._crowns(), *inside, *self._stops()]

    def _stops(self) -> Iterator[Point]:
        """Where a cut along a straight edge stops short of its ends."""
        part = self.family.part
        for cut in (c for c in part.cuts if isinstance(c, EdgeCut) and not c.full):
            edges = part.outline.named(cut.edge)
            if len(edges) == 1 and edges[0].straight:
                yield from (edges[0].point(s / edges[0].length) for s in (cut.start, cut.stop) if s is not None)

    def _crowns(self) -> Iterator[Point]:
        """Where an arc reaches further than any corner: it bounds the part."""
        for e in self.outline.edges:
            if not e.straight:
                yield from (
                    p
                    for d in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
                    for p in e.furthest(d)[2:]
                    if any(abs(p[k] - b) < 1e-6 for k, b in zip((0, 1, 0, 1), self.bounds, strict=True) if d[k])
                )

    def _ordinates(self, port: ViewPort) -> list[OrdinateDimension]:
        found = ordinates(self._points(), self.outline, port, self.form)
        if not self.family.tabulated:
            return found
        width = self.bounds[3] - self.bounds[1]
        return [_lettered(o) if o.axis == "y" and abs(o.value_mm - width) < 1e-6 else o for o in found]

    def _radius(self, arc: Edge, port: ViewPort, drawn: Sequence[Entity]) -> RadiusDimension:
        room = Drawn(drawn)

        def tried() -> Iterator[RadiusDimension]:
            for reach in _REACHES:
                for along in _ALONG:
                    (x, y), (cx, cy) = arc.point(along), arc.centre
                    angle = math.degrees(math.atan2(y - cy, x - cx))
                    yield radius(arc.centre, arc.radius, angle, port, reach, text=self.form(arc.radius, "R"))

        return least(tried(), lambda r: 10 * room.strikes(r) + room.crossings(r))

    def _labels(self, port: ViewPort, drawn: list[Entity]) -> list[Entity]:
        """Numbers of the holes and letters of the trenches, beside them where there is room."""
        marks: list[Entity] = []
        for n, found in enumerate(self.holes, 1):
            marks.append(_beside(str(n), port.place((found.at[0], found.at[1])), [*drawn, *marks]))
        for letter, trench in zip(letters(self.trenches), self.trenches, strict=True):
            x0, y0, x1, y1 = trench.outline.bounds
            marks.append(_beside(letter, port.place(((x0 + x1) / 2, (y0 + y1) / 2)), [*drawn, *marks], _HEIGHT))
        return marks

    def _reference(self, port: ViewPort) -> list[Entity]:
        """A V on the near edge and one on the left end: what everything is measured from."""
        (x0, y0, _, _), marks = self.bounds, list[Entity]()
        near = next((e for e in self._on_side(1, y0)), None)
        if near:
            x, y = port.place(near)
            marks.append(Polyline(((x - 1.4, y - 3.4), (x, y - 0.3), (x + 1.4, y - 3.4)), pen=Pen.THIN))
        left = next((e for e in self._on_side(0, x0)), None)
        if left:
            x, y = port.place(left)
            marks.append(Polyline(((x - 3.4, y - 1.4), (x - 0.3, y), (x - 3.4, y + 1.4)), pen=Pen.THIN))
        return marks

    def _on_side(self, axis: int, value: float) -> Iterator[Point]:
        """A spot on the outline that touches one side of its bounds, away from the middle."""
        for e in self.outline.edges:
            if abs(e.start[axis] - value) < 1e-6 and abs(e.end[axis] - value) < 1e-6 and e.straight:
                yield e.point(0.37)
        for p in self.outline.corners:
            if abs(p[axis] - value) < 1e-6:
                yield p

    def _on_wood(self, points: Sequence[Point]) -> bool:
        """Do they all lie on the face side itself, in no trench or opening?"""
        wood = all(self.outline.contains(p) for p in points)
        return wood and not any(t.outline.contains(p) for t in self.trenches for p in points)

    def _face_mark(self, port: ViewPort, drawn: Sequence[Entity]) -> list[Entity]:
        """The looped mark of the face side and the arrow of the grain, where they stand clear."""
        room = Drawn(drawn)
        x0, y0, x1, y1 = self.bounds
        spots = (
            port.place((x0 + i / 40 * (x1 - x0), y0 + j / 12 * (y1 - y0)))
            for j in (6, 5, 7, 4, 8, 3, 9)
            for i in sorted(range(3, 38), key=lambda i: abs(i - 20))
        )
        for spot in spots:
            if self._on_wood([_back(p, port) for p in _corners_of(spot)]) and not room.crossings(_frame(spot)):
                return grain_and_face(spot)
        right, top = port.place((x1, y1))[0], box_of(drawn)[3]
        return grain_and_face((right - 16.0, top + 6.0))


def least(tries: Iterable[T], faults: Callable[[T], int]) -> T:
    """The first of some tries without fault, or else the one with the fewest."""
    found: list[tuple[int, T]] = []
    for one in tries:
        found.append((faults(one), one))
        if not found[-1][0]:
            break
    return min(found, key=lambda pair: pair[0])[1]


def letters(trenches: Iterable[Trench]) -> list[str]:
    """A letter for each: A, B, … ; alike ones (kind, side, depth) share theirs."""
    known: dict[object, str] = {}
    for t in trenches:
        known.setdefault((t.what, t.side, round(t.depth, 4), t.through), _letter(len(known)))
    return [known[(t.what, t.side, round(t.depth, 4), t.through)] for t in trenches]


def _letter(n: int) -> str:
    plain = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    return plain[n % len(plain)] * (n // len(plain) + 1)


def polyline(outline: Outline, port: ViewPort, pen: Pen) -> Polyline | Circle:
    """An outline on the paper, a full circle as one."""
    if is_round(outline):
        (x0, y0), (x1, y1) = outline.corners
        return Circle(port.place(((x0 + x1) / 2, (y0 + y1) / 2)), outline.edges[0].radius * port.scale, pen)
    return Polyline(tuple(map(port.place, outline.corners)), outline.bulges, closed=True, pen=pen)


def _mouth(found: Hole, port: ViewPort, pen: Pen) -> Iterator[Entity]:
    x, y = port.place((found.at[0], found.at[1]))
    for diameter, _ in found.diameters:
        yield Circle((x, y), diameter / 2 * port.scale, pen)
    if found.direction is not None:
        (dx, dy), half = (found.direction[0], found.direction[1]), found.length / 2
        ends = [(found.at[0] + s * half * dx, found.at[1] + s * half * dy) for s in (-1.0, 1.0)]
        yield polyline(Channel(ends[0], ends[1], BISCUIT_THICKNESS, 1.0).footprint(), port, pen)
    elif found.diameters:
        reach = found.diameters[-1][0] / 2 * port.scale + 1.2
        yield Line((x - reach, y), (x + reach, y), Pen.CENTRE)
        yield Line((x, y - reach), (x, y + reach), Pen.CENTRE)


def _parallel(edge: Edge, u: float, cut: EdgeCut, port: ViewPort, pen: Pen) -> Iterator[Entity]:
    """The line u mm inside an edge, as far as the cut runs."""
    lo, hi = (cut.start or 0.0) / edge.length, 1.0 if cut.stop is None else min(cut.stop / edge.length, 1.0)
    ends = []
    for t in (lo, hi):
        (x, y), (dx, dy) = edge.point(t), edge.direction(t)
        ends.append((x - u * dy, y + u * dx))
    bulge = 0.0 if edge.straight else math.tan((hi - lo) * edge.sweep / 4)
    yield Polyline(tuple(map(port.place, ends)), (bulge, 0.0), pen=pen)
    if not cut.full:
        for t, end in zip((lo, hi), ends, strict=True):
            if 1e-9 < t < 1.0 - 1e-9:
                yield Line(port.place(edge.point(t)), port.place(end), pen)


def _lettered(dim: OrdinateDimension) -> OrdinateDimension:
    return replace(dim, text="W", measured=None)


def _beside(text: str, at: Point, drawn: Sequence[Entity], height: float = _SMALL) -> Text:
    """The text near a point, at the first of the places round it where nothing strikes it."""
    room = Drawn(drawn)
    half = text_width(text, height) / 2
    tries = [
        Text((at[0] + r * dx * (1 + half / 3), at[1] + r * dy), text, height, "centre", "middle")
        for r in (0.0, 2.6, 3.6, 5.0, 7.0, 9.5, 12.0)
        for dx, dy in ((1, 1), (-1, 1), (1, -1), (-1, -1), (1.2, 0), (-1.2, 0), (0, 1), (0, -1))
    ]
    return least(tries, room.strikes)


def grain_and_face(at: Point) -> list[Entity]:
    """The face side's mark, a pencil loop with its tail, and the arrow along the grain, about a point."""
    x, y = at
    loop = Polyline(
        ((x - 15.5, y - 3.4), (x - 10.5, y + 1.6), (x - 13.2, y + 1.6), (x - 8.0, y - 2.6)),
        (0.2, 0.9, 0.2, 0.0),
        pen=Pen.GRID,
    )
    shaft = Line((x - 4.0, y - 1.2), (x + 14.0, y - 1.2), Pen.THIN)
    heads = [
        Fill((Polyline(((tip, y - 1.2), (tip - s * 2.6, y - 0.7), (tip - s * 2.6, y - 1.7)), closed=True),))
        for tip, s in ((x - 4.0, -1.0), (x + 14.0, 1.0))
    ]
    return [loop, shaft, *heads, Text((x + 5.0, y), "grain", _SMALL, "centre")]


def _corners_of(at: Point) -> list[Point]:
    """The room that the face mark and the grain's arrow take about a point."""
    x, y = at
    return [(x + dx, y + dy) for dx, dy in ((-16.5, -4.4), (15.0, -4.4), (15.0, 5.2), (-16.5, 5.2))]


def _frame(at: Point) -> Polyline:
    """That room's edges and diagonals, to be held against what is drawn."""
    a, b, c, d = _corners_of(at)
    return Polyline((a, b, c, d, a, c, b, d), pen=Pen.THIN)


def _back(p: Point, port: ViewPort) -> Point:
    return (p[0] - port.origin[0]) / port.scale, (p[1] - port.origin[1]) / port.scale
