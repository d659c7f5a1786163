"""A view on an edge that holes or slots are made in, seen square to it from outside."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.teller import edge_in_words
from drawings.paper.dimensions import linear
from drawings.paper.saying import joined, say
from drawings.paper.scales import scales, view_scale
from drawings.paper.sheet import Entity, Line, Pen, Point, Polyline, Text, ViewPort
from drawings.parts.family import Family
from drawings.parts.hole_numbers import hole_number
from drawings.parts.located import Hole
from drawings.parts.plan import Plan
from drawings.parts.plan_wood import polyline
from drawings.parts.rim import rim
from drawings.sheets.clear_room import box_of
from drawings.sheets.principal import Lengths
from model.cuts.faces import BISCUIT_THICKNESS
from model.cuts.slots import stadium
from model.layout.outline import Edge
from model.placement import Vector

#: How much of a long edge is shown on either side of its holes, mm, and how wide the view may be on the paper.
_ASIDE, _WIDEST = 22.0, 150.0
#: What stands beside a view, mm: its dimensions.
_BESIDE = 24.0
_LARGEST, _SMALLEST = 0.5, 0.08
_SMALL, _NAME = 2.5, 2.5


@dataclass(frozen=True)
class EdgeView:
    """One edge with the numbered holes in it."""

    family: Family
    edge: Edge
    holes: tuple[tuple[int, Hole], ...]
    form: Lengths
    widest: float = _WIDEST

    @property
    def right(self) -> Vector:
        """Along the edge; where it slants across what is bored straight into it, square to the holes."""
        dx, dy = self.edge.direction(0.5)
        ways = {(round(h.into[1], 6), round(-h.into[0], 6)) for _, h in self.holes}
        if len(ways) == 1 and not any(h.entry.leaning for _, h in self.holes):
            dx, dy = ways.pop()
        return dx, dy, 0.0

    def along(self, found: Hole) -> float:
        return found.at[0] * self.right[0] + found.at[1] * self.right[1]

    @property
    def reach(self) -> tuple[float, float, bool, bool]:
        """The stretch of the edge that is shown, and whether it is broken off at its left and right."""
        ends = sorted(p[0] * self.right[0] + p[1] * self.right[1] for p in (self.edge.start, self.edge.end))
        if (ends[1] - ends[0]) * _LARGEST <= self.widest:
            return ends[0], ends[1], False, False
        halves = [(self.along(h), h.length / 2) for _, h in self.holes]
        low = max(ends[0], min(s - half for s, half in halves) - _ASIDE)
        high = min(ends[1], max(s + half for s, half in halves) + _ASIDE)
        low = ends[0] if low - ends[0] < 3 * _ASIDE else low
        high = ends[1] if ends[1] - high < 3 * _ASIDE else high
        return low, high, low > ends[0], high < ends[1]

    @property
    def scale(self) -> float:
        """The largest at which the view is no wider than a sheet's column."""
        low, high, _, _ = self.reach
        tried = [s for s in scales(self.form.units) if _SMALLEST <= s <= _LARGEST]
        return next((s for s in tried if (high - low) * s <= self.widest), tried[-1])

    def marks(self, origin: Point) -> list[Entity]:
        """What is drawn of the edge, its lower left corner at `origin`, paper mm."""
        low, high, from_left, from_right = self.reach
        thick, scale = self.family.part.thickness, self.scale
        shown = self.family.shown(self.right, (0.0, 0.0, 1.0))
        port = ViewPort(scale, (origin[0] - scale * low, origin[1]), shown)
        marks: list[Entity] = []
        for v in (0.0, thick):
            marks.append(Line(port.place((low, v)), port.place((high, v))))
        for s, broken in ((low, from_left), (high, from_right)):
            over = 1.5 if broken else 0.0
            (x, y0), (_, y1) = port.place((s, 0.0)), port.place((s, thick))
            marks.append(Line((x, y0 - over), (x, y1 + over), Pen.THIN if broken else Pen.VISIBLE))
        for _, found in self.holes:
            marks += self._hole(found, port)
        marks += self._numbers(port)
        marks += self._level(port, low)
        box = box_of(marks)
        name = say("View on {}, {}", edge_in_words(self.edge.name), view_scale(scale, self.form.units, shown))
        return [*marks, Text(((box[0] + box[2]) / 2, box[3] + 2.0), name, _NAME, "centre", bold=True)]

    def _hole(self, found: Hole, port: ViewPort) -> Iterator[Entity]:
        s, z = self.along(found), found.at[2]
        half = max((d / 2 for d, _ in found.diameters), default=found.length / 2)
        if found.direction is not None and found.diameters:
            slot = stadium(found.length, found.diameters[0][0]).turned(90.0 if abs(found.direction[2]) > 0.5 else 0.0)
            yield polyline(slot.moved(s, z), port, Pen.VISIBLE)
            return
        for diameter, _ in found.diameters:
            yield rim(found.entry, diameter, port, Pen.VISIBLE)
        if found.direction is not None:
            flat = abs(found.direction[2]) < 0.5
            du, dv = (half, BISCUIT_THICKNESS / 2) if flat else (BISCUIT_THICKNESS / 2, half)
            ring = ((s - du, z - dv), (s + du, z - dv), (s + du, z + dv), (s - du, z + dv))
            yield Polyline(tuple(map(port.place, ring)), closed=True)

    def _numbers(self, port: ViewPort) -> Iterator[Text]:
        """Over each hole its number; those bored about one middle are told together."""
        together: dict[float, list[str]] = {}
        for number, found in self.holes:
            together.setdefault(round(self.along(found), 3), []).append(hole_number(number, found, self.family))
        for s, numbers in together.items():
            x, top = port.place((s, self.family.part.thickness))
            yield Text((x, top + 1.2), joined(", ", numbers), _SMALL, "centre", pen=Pen.REFERENCE)

    def _level(self, port: ViewPort, low: float) -> Iterator[Entity]:
        """How high over the back side the middles lie, once where all are level."""
        levels = {self.form(h.at[2]): h for _, h in self.holes}
        for tier, found in enumerate(levels.values()):
            s = self.along(found)
            yield linear(
                (s, 0.0),
                (s, found.at[2]),
                port,
                "left",
                tier,
                low,
                units=self.form.units,
                denominator=self.form.denominator,
            )


def edge_views(plan: Plan, width: float = math.inf) -> list[EdgeView]:
    """A view on each edge that has holes or slots in it. width: the sheets' room, mm."""
    by_edge: dict[Edge, list[tuple[int, Hole]]] = {}
    for number, found in enumerate(plan.holes, 1):
        if found.side is None:
            edge, _ = nearest_edge(plan.outline, (found.at[0], found.at[1]))
            by_edge.setdefault(edge, []).append((number, found))
    widest = min(_WIDEST, width - _BESIDE)
    return [EdgeView(plan.family, edge, tuple(holes), plan.form, widest) for edge, holes in by_edge.items()]
