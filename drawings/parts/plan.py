"""The plan of a part, seen from its face side: outline, cuts, face and reference marks, dimensions from one datum."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from drawings.paper.sheet import (
    Entity,
    OrdinateDimension,
    Pen,
    Point,
    Polyline,
    ViewPort,
)
from drawings.parts.end_line import EndLine
from drawings.parts.end_lines import end_lines
from drawings.parts.family import Family
from drawings.parts.hole_numbers import hole_number
from drawings.parts.located import Hole, holes
from drawings.parts.ordinates import ordinates
from drawings.parts.plan_labels import FACE_MARKS, beside, least
from drawings.parts.plan_radii import plan_radii
from drawings.parts.plan_wood import edge_lines, hidden_lines, seen_lines
from drawings.parts.relief_corners import without_reliefs
from drawings.parts.silhouette import on_shoulder, on_turning, silhouette
from drawings.parts.tail_stations import baselines, on_tails
from drawings.parts.trenches import Trench, letters, trenches
from drawings.parts.turning_table import turning_rows
from drawings.sheets.clear_room import Drawn, box_of
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.through import Notch
from model.layout.outline import Edge, Outline

_SMALL, _HEIGHT = 2.5, 2.5
#: Where a trench may be lettered, as shares of its length, the best place first.
_ALONG = (0.5, 0.25, 0.75, 0.1, 0.9)
_PAIR = 2
#: Where along an edge a reference mark may stand.
_SHARES = (0.37, 0.33, 0.41, 0.29, 0.45, 0.25, 0.5, 0.2, 0.55, 0.6, 0.15, 0.7, 0.8)


#: Just beside a point, mm.
_ALL_ROUND = ((0.01, 0.01), (-0.01, 0.01), (0.01, -0.01), (-0.01, -0.01))


@dataclass(frozen=True)
class Plan:
    """A part's plan; what it locates is worked out once, drawing it is for a scale and a place."""

    family: Family
    form: Lengths

    @cached_property
    def _sawn(self) -> tuple[Outline, tuple[Cut, ...]]:
        return silhouette(self.family.part)

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
    def sunk(self) -> list[tuple[Cut, Trench]]:
        """Each trench with its cut, from the left end."""
        part, left_over = self.family.part, self._sawn[1]
        found = [(c, t) for c in part.cuts for t in trenches(c, part)]
        for cut in left_over:
            if isinstance(cut, Notch):
                found.append(
                    (
                        cut,
                        Trench(
                            cut.name, cut.outline, without_reliefs(cut.outline)[0].corners, "face", part.thickness, True
                        ),
                    )
                )
        return sorted(found, key=lambda pair: (pair[1].outline.bounds[0], pair[1].outline.bounds[1]))

    @cached_property
    def trenches(self) -> list[Trench]:
        """Every channel, pocket, mortise and opening that is told in the table, lettered in this order."""
        return [trench for _, trench in self.sunk]

    @cached_property
    def lettered(self) -> dict[Cut, str]:
        """The letter in the plan of each cut that has one."""
        named = zip(self.sunk, letters(self.trenches), strict=True)
        return {cut: letter for (cut, _), letter in named}

    @cached_property
    def ends(self) -> list[EndLine]:
        """The lines of the work on its ends."""
        return [line for c in self.family.part.cuts for line in end_lines(c, self.family.part)]

    @cached_property
    def reliefs(self) -> dict[float, list[Edge]]:
        """The round reliefs of inside corners, by their radius."""
        alike: dict[float, list[Edge]] = {}
        for ring in self._rings:
            for relief in without_reliefs(ring)[1].values():
                alike.setdefault(round(relief.radius, 3), []).append(relief)
        return alike

    @property
    def _rings(self) -> list[Outline]:
        return [self.outline, *(t.outline for t in self.trenches)]

    @property
    def arcs(self) -> list[Edge]:
        """The arcs of the outline and of trenches, those struck alike from one centre once; not of what is turned,
        nor reliefs."""
        turned, plain = on_turning(self.family.part), [without_reliefs(ring)[0] for ring in self._rings]
        edges = [e for ring in plain for e in ring.edges if not e.straight and not turned(e.start)]
        alike: dict[tuple[float, ...], Edge] = {}
        for e in edges:
            alike.setdefault((round(e.radius, 3), round(e.centre[0], 3), round(e.centre[1], 3)), e)
        return list(alike.values())

    def _shown_arcs(self) -> Iterator[Edge]:
        """Those whose radius stands in the plan: of more than a pair alike only the first, the table has them all."""
        alike: dict[str, list[Edge]] = {}
        for arc in self.arcs:
            alike.setdefault(self.form(arc.radius), []).append(arc)
        for found in alike.values():
            yield from found if len(found) <= _PAIR else found[:1]
        yield from (found[0] for found in self.reliefs.values())

    def size(self, scale: float) -> tuple[float, float]:
        """What the bare outline takes on the paper, mm."""
        x0, y0, x1, y1 = self.bounds
        return (x1 - x0) * scale, (y1 - y0) * scale

    def marks(self, scale: float, origin: Point) -> list[Entity]:
        """All of it, the part's own (0, 0) at `origin`."""
        port, part = ViewPort(scale, origin, self.family.shown()), self.family.part
        marks: list[Entity] = [*hidden_lines(part, self.trenches, self.holes, self.ends, port)]
        marks += edge_lines(part, port)
        marks += seen_lines(self.outline, self.trenches, self.holes, self.ends, port)
        marks += self._ordinates(port)
        marks += self._reference(port, marks)
        marks += plan_radii(list(self._shown_arcs()), port, self.form, marks)
        marks += self._labels(port, marks)
        return [*marks, *self._face_mark(port, marks)]

    def _points(self) -> Iterator[tuple[Point, str]]:
        """Each point to be located, along the part ("x"), across it ("y") or both."""
        elsewhere = [told(self.family.part) for told in (on_tails, on_turning, on_shoulder)]
        corners = without_reliefs(self.outline)[0].corners
        yield from ((p, "xy") for p in corners if not any(told(p) for told in elsewhere))
        yield from ((p, "x") for p in baselines(self.family.part))
        yield from ((p, "xy") for p in (*self._crowns(), *self._stops()))
        yield from ((p, t.axes) for t in self.trenches for p in self._left_of(t))
        for line in self.ends:
            yield from ((p, "x") for p in line.along)
            yield from ((p, "y") for p in line.across)

    def _left_of(self, trench: Trench) -> Sequence[Point]:
        """The points of a trench that are still there; where it runs out into a deeper one, those of its other end."""
        others = [t for t in self.trenches if t is not trench and t.side == trench.side and t.depth >= trench.depth]

        def left(points: Sequence[Point]) -> list[Point]:
            return [p for p in points if not any(_within(p, t.outline) for t in others)]

        return left(trench.points) or left(trench.outline.corners)

    def _stops(self) -> Iterator[Point]:
        """Where a cut along a straight edge stops short of its ends."""
        part = self.family.part
        for cut in (c for c in part.cuts if isinstance(c, EdgeCut) and not c.full):
            edges = part.outline.named(cut.edge)
            if len(edges) == 1 and edges[0].straight:
                yield from (edges[0].point(s / edges[0].length) for s in (cut.start, cut.stop) if s is not None)

    def _crowns(self) -> Iterator[Point]:
        """Where an arc reaches further than any corner: it bounds the part."""
        turned = on_turning(self.family.part)
        for e in self.outline.edges:
            if not e.straight and not turned(e.start):
                yield from (
                    p
                    for d in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
                    for p in e.furthest(d)[2:]
                    if any(abs(p[k] - b) < 1e-6 for k, b in zip((0, 1, 0, 1), self.bounds, strict=True) if d[k])
                )

    def _ordinates(self, port: ViewPort) -> list[OrdinateDimension]:
        points = list(self._points())
        found = [
            dimension
            for axis in ("x", "y")
            for dimension in ordinates(axis, [p for p, axes in points if axis in axes], self.outline, port, self.form)
        ]
        if not self.family.tabulated:
            return found
        width = self.bounds[3] - self.bounds[1]
        return [_lettered(o) if o.axis == "y" and abs(o.value_mm - width) < 1e-6 else o for o in found]

    def _labels(self, port: ViewPort, drawn: list[Entity]) -> list[Entity]:
        """Numbers of the holes and letters of the trenches, beside them where there is room."""
        marks: list[Entity] = []
        for n, found in enumerate(self.holes, 1):
            number = hole_number(n, found, self.family)
            marks.append(beside(number, port.place((found.at[0], found.at[1])), [*drawn, *marks]))
        lettered = zip(letters(self.trenches), self.trenches, strict=True)
        for letter, trench in {(letter, t.outline): (letter, t) for letter, t in lettered}.values():
            x0, y0, x1, y1 = trench.outline.bounds
            middle, *along = (port.place((x0 + s * (x1 - x0), y0 + s * (y1 - y0))) for s in _ALONG)
            marks.append(beside(letter, middle, [*drawn, *marks], _HEIGHT, along))
        for row in reversed(turning_rows(self.family.part)):
            marks.append(beside(row.letter, port.place(row.rim), [*drawn, *marks]))
        return marks

    def _reference(self, port: ViewPort, drawn: Sequence[Entity]) -> list[Entity]:
        """A V on the near edge and one on the left end, where they stand clear: what everything is measured from."""
        (x0, y0, _, _), room = self.bounds, Drawn(drawn)
        shapes = ((1, y0, ((-1.4, -3.4), (0.0, -0.3), (1.4, -3.4))), (0, x0, ((-3.4, -1.4), (-0.3, 0.0), (-3.4, 1.4))))
        marks: list[Entity] = []
        for axis, value, shape in shapes:
            spots = [port.place(p) for p in self._on_side(axis, value)]
            tries = [Polyline(tuple((x + dx, y + dy) for dx, dy in shape), pen=Pen.THIN) for x, y in spots]
            # a leader that runs up between its arms crosses the line that would close it
            marks += [least(tries, lambda mark: room.crossings(replace(mark, closed=True)))] if tries else []
        return marks

    def _on_side(self, axis: int, value: float) -> Iterator[Point]:
        """Spots on the outline that touch one side of its bounds, those away from the middle first."""
        for e in self.outline.edges:
            if abs(e.start[axis] - value) < 1e-6 and abs(e.end[axis] - value) < 1e-6 and e.straight:
                yield from (e.point(share) for share in _SHARES)
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
        spots = [
            port.place((x0 + i / 40 * (x1 - x0), y0 + j / 12 * (y1 - y0)))
            for j in (6, 5, 7, 4, 8, 3, 9)
            for i in sorted(range(3, 38), key=lambda i: abs(i - 20))
        ]
        for mark in FACE_MARKS:
            for spot in spots:
                on_wood = self._on_wood([_back(p, port) for p in mark.corners(spot)])
                if on_wood and not room.crossings(mark.frame(spot)) and not any(map(room.crossings, mark.marks(spot))):
                    return mark.marks(spot)
        right, top = port.place((x1, y1))[0], box_of(drawn)[3]
        return FACE_MARKS[0].marks((right - 16.0, top + 6.0))


def _within(p: Point, outline: Outline) -> bool:
    """Inside, and not on the edge."""
    return outline.contains(p) and all(outline.contains((p[0] + dx, p[1] + dy)) for dx, dy in _ALL_ROUND)


def _lettered(dim: OrdinateDimension) -> OrdinateDimension:
    return replace(dim, text="W", measured=None)


def _back(p: Point, port: ViewPort) -> Point:
    return (p[0] - port.origin[0]) / port.scale, (p[1] - port.origin[1]) / port.scale
