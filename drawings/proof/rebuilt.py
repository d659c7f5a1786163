"""Completeness: a part made again from nothing but the numbers printed on its sheet.

What a part is (which cuts, on which edge, in which order) is read off its drawing by eye; here it is taken from the
part itself. Every number, though, is looked up among the printed ones, and one that is not there is a fault.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, fields, replace
from functools import singledispatchmethod
from typing import Any

from drawings.cutting.sawn_outline import sawn_outline
from drawings.lists.teller import nearest_edge
from drawings.paper.measured import Kind, Vector
from drawings.proof.readings import Reading
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.through import Opening, Profile
from model.errors import DesignError
from model.layout.outline import Edge, Outline, Point
from model.part import Part
from model.stock import Stock

#: A number is the one for a place if what it measures ends there, mm.
_THERE = 1e-3
_X: Vector = (1.0, 0.0, 0.0)
_Y: Vector = (0.0, 1.0, 0.0)
_Z: Vector = (0.0, 0.0, 1.0)


class IncompleteError(DesignError):
    """A sheet from which the part can't be made: a number is missing."""


@dataclass(frozen=True)
class Numbers:
    """The numbers that a sheet prints for one part."""

    part: str
    readings: tuple[Reading, ...]
    unit: str
    half_place: float
    used: set[int] = field(default_factory=set, compare=False)

    @classmethod
    def of(cls, part: str, readings: Iterable[Reading], unit: str, half_place: float) -> Numbers:
        """Those of the readings that hold for a part, by its name."""
        own = (r for r in readings if r.measured and part in r.measured.shown.subjects)
        return cls(part, tuple(own), unit, half_place)

    def place(self, axis: int, value: float, datum: float) -> float:
        """The printed place of a station along the part (axis 0) or across it (1), mm from the datum's own."""
        if abs(value - datum) < _THERE:
            return datum
        for reading in self._kind("length"):
            m = reading.measured
            assert m is not None
            plan = m.shown.right == _X and m.shown.up == _Y and abs(m.along[axis]) > 0.5
            if plan and abs(m.q[axis] - value) < _THERE and abs(m.p[axis] - datum) < _THERE:
                return datum + math.copysign(abs(self._value(reading)), value - datum)
        raise IncompleteError(f"{self.part}: nothing on its sheet locates {'xy'[axis]} = {value:.3f} mm")

    def extent(self, axis: int) -> float:
        """The printed length (0), width (1) or thickness (2)."""
        for reading in self._kind("extent"):
            m = reading.measured
            assert m is not None
            across = m.shown.right if abs(m.along[0]) > 0.5 else m.shown.up
            if abs(across[axis]) > 0.5:
                return self._value(reading)
        raise IncompleteError(f"{self.part}: its {('length', 'width', 'thickness')[axis]} is not printed")

    def radius(self, edge: Edge) -> float:
        """The printed radius of an arc of the plan; of arcs about one centre the one that is nearest."""
        about = [
            abs(self._value(r))
            for r in self._kind("radius")
            if r.measured and r.measured.shown.up == _Y and math.dist(r.measured.p, edge.centre) < _THERE
        ]
        near = [r for r in about if abs(r - edge.radius) <= self.half_place + 1e-6]
        if not near:
            x, y = edge.centre
            raise IncompleteError(
                f"{self.part}: the radius {edge.radius:.1f} mm about ({x:.1f}, {y:.1f}) is not printed"
            )
        return near[0]

    def size(self, value: float, *kinds: Kind) -> float:
        """A size of a cut as it is printed: in a view or section that shows the thickness, or in a table."""
        for reading in self._kind(*kinds):
            m = reading.measured
            if (m and (m.shown.right, m.shown.up) != (_X, _Y)) or (m and m.kind in ("diameter", "depth")):
                said = [abs(v) for v, _ in reading.values(self.unit)]
                near = [v for v in said if abs(v - value) <= (0.05 if m.kind == "angle" else self.half_place) + 1e-6]
                if near:
                    return near[0]
        raise IncompleteError(f"{self.part}: a size of {value:.3f} mm is not printed on its sheet")

    def _kind(self, *kinds: Kind) -> list[Reading]:
        return [r for r in self.readings if r.measured and r.measured.kind in kinds]

    def _value(self, reading: Reading) -> float:
        return reading.values(self.unit)[0][0]


def rebuilt(part: Part, numbers: Numbers) -> Part:
    """The flat part made from its sheet's numbers. Raises IncompleteError for a number that is not there.

    Notches are part of the sheet's outline, so they come back as its corners.
    """
    return _Maker(part, numbers).make()


@dataclass(frozen=True)
class _Maker:
    part: Part
    numbers: Numbers

    @property
    def datum(self) -> Point:
        return sawn_outline(self.part)[0].bounds[:2]

    def make(self) -> Part:
        sawn, left_over = sawn_outline(self.part)
        stock = self.part.stock
        length, width, thickness = (self.numbers.extent(k) for k in range(3))
        made = Part(Stock(stock.kind, length, width, thickness, stock.species))
        shaped = sawn != self.part.outline or any(isinstance(c, Profile) for c in self.part.cuts)
        profile: Sequence[Cut] = [Profile(self.outline(sawn))] if shaped else []
        others = [c for c in self.part.cuts if not self._in_outline(c, left_over)]
        return replace(made, cuts=(*profile, *(self.cut(c) for c in others)))

    def _in_outline(self, cut: Cut, left_over: Sequence[Cut]) -> bool:
        kinds = ("Profile", "Notch", "SawCut")
        return type(cut).__name__ in kinds and cut not in left_over

    def outline(self, outline: Outline) -> Outline:
        """Corners by their places, arcs by their radii, hollow or round as drawn."""
        corners = tuple(self.point(p) for p in outline.corners)
        ends = corners[1:] + corners[:1]
        bulges = tuple(self._bulge(e, p, q) for e, p, q in zip(outline.edges, corners, ends, strict=True))
        return Outline(corners, bulges, outline.names)

    def _bulge(self, edge: Edge, p: Point, q: Point) -> float:
        if edge.straight:
            return 0.0
        half, radius = math.dist(p, q) / 2, self.numbers.radius(edge)
        sweep = 2 * math.asin(min(1.0, half / radius))
        sweep = math.tau - sweep if abs(edge.bulge) > 1.0 else sweep
        return math.copysign(math.tan(sweep / 4), edge.bulge)

    def point(self, p: Point) -> Point:
        return self.x(p[0]), self.y(p[1])

    def x(self, value: float) -> float:
        return self.numbers.place(0, value, self.datum[0])

    def y(self, value: float) -> float:
        _, y0, _, y1 = sawn_outline(self.part)[0].bounds
        if abs(value - y1) < _THERE:
            try:
                return self.numbers.place(1, value, y0)
            except IncompleteError:  # a width that stands in the table of a family
                return y0 + self.numbers.extent(1)
        return self.numbers.place(1, value, y0)

    @singledispatchmethod
    def cut(self, cut: Cut) -> Cut:
        """The cut with its own numbers printed; a kind not known here can't be made again."""
        raise IncompleteError(f"{self.numbers.part}: a {cut.name} can't be made again from its numbers yet")

    @cut.register
    def _(self, cut: Opening) -> Cut:
        return Opening(self.outline(cut.outline))

    @cut.register
    def _(self, cut: Channel) -> Cut:
        opened = cut.open_ends(self.part.blank)
        start, end = self._end(cut.start, cut, opened[0]), self._end(cut.end, cut, opened[1])
        walls = [self._place(self._across(cut), v) for v in self._walls(cut)]
        middle, depth = sum(walls) / 2, self.numbers.size(cut.depth, "length")
        k = self._across(cut)
        ends = [(middle, p[1]) if k == 0 else (p[0], middle) for p in (start, end)]
        return replace(cut, start=ends[0], end=ends[1], width=abs(walls[1] - walls[0]), depth=depth)

    def _across(self, cut: Channel) -> int:
        return 0 if abs(cut.direction[1]) > 0.5 else 1

    def _walls(self, cut: Channel) -> tuple[float, float]:
        k = self._across(cut)
        return cut.start[k] - cut.width / 2, cut.start[k] + cut.width / 2

    def _end(self, p: Point, cut: Channel, opened: bool) -> Point:
        """Where a trench stops; one that runs out over an edge is known by that."""
        if opened:
            return p
        k = 1 - self._across(cut)
        value = self._place(k, p[k])
        return (value, p[1]) if k == 0 else (p[0], value)

    def _place(self, axis: int, value: float) -> float:
        return self.x(value) if axis == 0 else self.y(value)

    @cut.register
    def _(self, cut: Bore) -> Cut:
        depth = cut.depth if self._through(cut) else self.numbers.size(cut.depth, "depth")
        return replace(cut, at=self._mouth(cut.at, cut.into), diameter=self._diameter(cut.diameter), depth=depth)

    def _through(self, cut: Bore) -> bool:
        return entered(cut.into) is not None and cut.depth >= self.part.thickness

    @cut.register
    def _(self, cut: Counterbore) -> Cut:
        wide, narrow = self._diameter(cut.diameter), self._diameter(cut.clearance)
        depth = self.numbers.size(cut.depth, "depth")
        return replace(cut, at=self._mouth(cut.at, cut.into), diameter=wide, clearance=narrow, depth=depth)

    @cut.register
    def _(self, cut: BiscuitSlot) -> Cut:
        self.numbers.size(cut.depth, "length")
        return replace(cut, at=self._mouth(cut.at, cut.into))

    def _diameter(self, diameter: float) -> float:
        return self.numbers.size(diameter, "diameter")

    def _mouth(self, at: Vector, into: Vector) -> Vector:
        """A hole's mouth from its row in the table: on a side, or in an edge so high over the back side."""
        thick, side = self.numbers.extent(2), entered(into)
        if side is not None:
            return (*self.point((at[0], at[1])), thick if side == "face" else 0.0)
        edge, along = nearest_edge(sawn_outline(self.part)[0], (at[0], at[1]))
        return (*self.point(edge.point(along / edge.length)), self.numbers.size(at[2], "length"))

    @cut.register
    def _(self, cut: EdgeCut) -> Cut:
        sizes = {f.name: getattr(cut, f.name) for f in fields(cut)}
        printed: dict[str, Any] = {n: self._edge_size(n, v) for n, v in sizes.items() if isinstance(v, float) and v}
        return replace(cut, **printed | self._stops(cut))

    def _edge_size(self, name: str, value: float) -> float:
        kinds: dict[str, Kind] = {"radius": "radius", "angle": "angle"}
        if name in ("start", "stop"):
            return value
        return self.numbers.size(value, kinds.get(name, "length"))

    def _stops(self, cut: EdgeCut) -> dict[str, float]:
        """Where a cut along a straight edge starts and stops short of its ends."""
        found = {}
        for name in ("start", "stop"):
            station = getattr(cut, name)
            if station is not None:
                edge = self.part.outline.named(cut.edge)[0]
                p, (dx, dy) = edge.point(station / edge.length), edge.direction(0.0)
                k = 0 if abs(dx) > abs(dy) else 1
                found[name] = abs(self._place(k, p[k]) - self._place(k, edge.start[k]))
        return found
