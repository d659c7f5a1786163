"""A view on an edge that leaning mortises open on: their mouths to be marked out by their corners."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from drawings.paper.saying import say
from drawings.paper.scales import scales, view_scale
from drawings.paper.sheet import Entity, Line, OrdinateDimension, Pen, Point, Polyline, Text, ViewPort
from drawings.parts.lean_cells import looking_at
from drawings.parts.mortise_box import MortiseBox
from drawings.parts.ordinates import one_side
from drawings.parts.plan import Plan
from drawings.parts.plan_labels import beside
from drawings.sheets.clear_room import box_of
from model.layout.outline import rectangle
from model.placement import Vector, dot

#: How much wood is shown on either side of the mouths, mm; no larger than life, no wider than this on the paper.
_ASIDE, _LARGEST, _WIDEST = 18.0, 1.0, 120.0
_NAME, _LETTER, _GAP = 2.5, 2.5, 2.0


@dataclass(frozen=True)
class MouthView:
    """A stretch of one edge with the mouths in it, by their letters in the plan."""

    plan: Plan
    edge: str
    mouths: tuple[tuple[str, MortiseBox], ...]

    @property
    def right(self) -> Vector:
        return looking_at(self.mouths[0][1])[0]

    @property
    def window(self) -> tuple[float, float]:
        """The stretch of the edge that is shown: as far as there is wood on either side of the mouths."""
        (x0, y0, x1, y1), found = self.plan.bounds, [self._seen(p)[0] for _, box in self.mouths for p in _all(box)]
        ends = sorted(dot((x, y, 0.0), self.right) for x, y in ((x0, y0), (x1, y1)))
        return max(ends[0], min(found) - _ASIDE), min(ends[1], max(found) + _ASIDE)

    @property
    def scale(self) -> float:
        """Paper over wood: the largest at which the view isn't too wide."""
        low, high = self.window
        tried = [s for s in scales(self.plan.form.units) if s <= _LARGEST]
        return next((s for s in tried if (high - low) * s <= _WIDEST), tried[-1])

    def _seen(self, p: Vector) -> Point:
        return dot(p, self.right), p[2]

    def marks(self, origin: Point) -> list[Entity]:
        """What is drawn of the edge, its lower left corner at `origin`, paper mm."""
        low, _ = self.window
        shown = self.plan.family.shown(self.right, (0.0, 0.0, 1.0))
        port = ViewPort(self.scale, (origin[0] - self.scale * low, origin[1]), shown)
        marks: list[Entity] = list(self._wood(port))
        for _, box in self.mouths:
            marks += self._mouth(box, port)
        marks += self._heights(port)
        for letter, box in self.mouths:
            (a, b), (c, d) = (self._seen(box.mouth[n]) for n in (0, 2))
            marks.append(beside(letter, port.place(((a + c) / 2.0, (b + d) / 2.0)), marks, _LETTER))
        left, _, right, top = box_of(marks)
        name = say("View on {}, {}", self.edge, view_scale(self.scale, self.plan.form.units, shown))
        return [*marks, Text(((left + right) / 2.0, top + _GAP), name, _NAME, "centre", bold=True)]

    def _wood(self, port: ViewPort) -> Iterator[Line]:
        low, high = self.window
        thick = self.plan.family.part.thickness
        for z in (0.0, thick):
            yield Line(port.place((low, z)), port.place((high, z)))
        for s in (low, high):
            (x, y0), (_, y1) = port.place((s, 0.0)), port.place((s, thick))
            yield Line((x, y0 - 1.5), (x, y1 + 1.5), Pen.THIN)

    def _mouth(self, box: MortiseBox, port: ViewPort) -> Iterator[Entity]:
        mouth, floor = ([port.place(self._seen(p)) for p in ring] for ring in (box.mouth, box.floor))
        yield Polyline(tuple(floor), closed=True, pen=Pen.HIDDEN)
        yield from (Line(p, q, Pen.HIDDEN) for p, q in zip(mouth, floor, strict=True))
        yield Polyline(tuple(mouth), closed=True)

    def _heights(self, port: ViewPort) -> list[OrdinateDimension]:
        """Each corner over the back side; how far along the part they lie stands in the plan."""
        low, high = self.window
        thick, corners = self.plan.family.part.thickness, [self._seen(p) for _, box in self.mouths for p in box.mouth]
        wood, datum = rectangle(high - low, thick).moved(low, 0.0), (low, 0.0)
        return one_side("y", [datum, *corners], False, wood, port, self.plan.form, datum)


def _all(box: MortiseBox) -> tuple[Vector, ...]:
    return (*box.mouth, *box.floor)


def mouth_views(plan: Plan) -> list[MouthView]:
    """A view on each end or edge with leaning mortises."""
    found: dict[str, list[tuple[str, MortiseBox]]] = {}
    for cut, trench in plan.sunk:
        if isinstance(trench.leans, MortiseBox) and trench.sunk_from_edge:
            found.setdefault(trench.side, []).append((plan.lettered[cut], trench.leans))
    return [MouthView(plan, edge, tuple(mouths)) for edge, mouths in found.items()]
