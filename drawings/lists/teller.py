"""How a cut's sizes and its place on a part are said, whatever the cut: lengths, spots, edges, runs, slopes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from drawings.cutting.finished import finished_bounds
from drawings.lists.hole_entry import Entry, entry
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.rounding import told
from model.cuts.cut import Cut, Side
from model.cuts.drilling import entered
from model.cuts.edges import EdgeCut
from model.layout.outline import Edge, Point
from model.part import Part
from model.placement import Vector
from model.tolerance import SAME_POINT

#: Edges that distances along a slanting end are rather measured from.
_FRONTS = ("near", "front")

#: A hole goes toward an end or an edge from this on (sine).
_ASIDE = 1e-3

_ENDS = {"near": "near edge", "far": "far edge", "left": "left end", "right": "right end", "": "edge"}


@dataclass(frozen=True)
class Teller:
    """Says what belongs to the cuts of one part, in one unit."""

    part: Part
    units: str = "mm"
    denominator: int = 16

    def length(self, mm: float) -> str:
        """A length; with ≈ before it where it had to be rounded by more than a rule is read to."""
        return told(mm, self.units, self.denominator)

    @cached_property
    def datum(self) -> Point:
        """Where the finished part's left end and near edge lie in its own frame, mm."""
        x0, y0, _, _ = finished_bounds(self.part)
        return x0, y0

    def off(self, axis: int, value: float) -> str:
        """A station's distance from the left end (axis 0) or from the near edge (1)."""
        return self.length(value - self.datum[axis])

    def spot(self, p: Point) -> str:
        return f"{self.off(0, p[0])} from left end, {self.off(1, p[1])} from near edge"

    def mouth(self, at: Vector, into: Vector) -> str:
        """Where a hole or slot is begun: on a side, or in an edge."""
        found = entry(at, into, self.part)
        spot = found.at[0], found.at[1]
        if found.side is not None:
            return f"{found.side} side, {self.spot(spot)}{leaning(found)}"
        edge, along = nearest_edge(self.part.outline, spot)
        place = self.along(edge, along) if edge.name == found.edge else self.spot(spot)
        height = f"{self.length(found.at[2])} from back side"
        return f"in {edge_in_words(found.edge)}, {place}, {height}{leaning(found)}"

    def along(self, edge: Edge, along: float) -> str:
        """How far along an edge, from the end or the edge where a maker would hook the rule."""
        (x, y), (dx, dy) = edge.point(along / edge.length), edge.direction(0.0)
        if edge.straight and abs(dy) < 1e-9:
            return f"{self.off(0, x)} from left end"
        if edge.straight and abs(dx) < 1e-9:
            return f"{self.off(1, y)} from near edge"
        edges = self.part.outline.edges
        here = edges.index(edge)
        before, after = edges[here - 1], edges[(here + 1) % len(edges)]
        if after.name in _FRONTS:
            return f"{self.length(edge.length - along)} along it from {edge_in_words(after.name)}"
        return f"{self.length(along)} along it from {edge_in_words(before.name)}"

    def run(self, cut: EdgeCut) -> str:
        return f"along {edge_in_words(cut.edge)}"

    def stops(self, cut: EdgeCut) -> str:
        """Where a cut along an edge begins and ends, unless it runs right through."""
        if cut.full:
            return ""
        edges = self.part.outline.named(cut.edge)
        total = sum(e.length for e in edges)
        lo, hi = cut.start or 0.0, total if cut.stop is None else cut.stop
        if len(edges) > 1 or not edges[0].straight:
            return f", from {self.length(lo)} to {self.length(hi)} along it"
        ends = [edges[0].point(s / total) for s in (lo, hi)]
        axis, name = (0, "left end") if abs(edges[0].direction(0.0)[0]) > 0.7 else (1, "near edge")
        near, far = sorted(p[axis] for p in ends)
        return f", from {self.off(axis, near)} to {self.off(axis, far)} off the {name}"

    def depth(self, deep: float, into: Vector) -> str:
        """How deep a hole is, after its other sizes; of one that goes straight through the thickness, that it does."""
        if entered(into) is not None and deep >= self.part.thickness - SAME_POINT:
            return ", right through"
        return f" × {self.length(deep)} deep"

    def sizes(self, *sizes: tuple[float, str]) -> str:
        """Several sizes of one thing: "6 thick × 40 long"."""
        return " × ".join(f"{self.length(mm)} {what}" for mm, what in sizes)


def leaning(found: Entry) -> str:
    """How a hole that lies askew runs: its angles to the sides and to the grain, and what it goes toward."""
    if not found.slanting:
        return ""
    steep, to_grain = lean_angles(found.into)
    side, way = "side" if found.side else "face side", toward(found.way, found.side)
    return f", {angle(steep)} to the {side}, {angle(to_grain)} to the grain toward {way}"


def lean_angles(into: Vector) -> tuple[float, float]:
    """Of a hole that lies askew to the sides, and of its way in the plan to the grain, degrees up to 90."""
    x, y, z = (abs(c) for c in into)
    return math.degrees(math.atan2(z, math.hypot(x, y))), math.degrees(math.atan2(y, x))


def toward(into: Vector, side: Side | None) -> str:
    """The end and the edge of the part that a leaning hole goes toward; of one in an edge, the side too."""
    end = "right end" if into[0] > _ASIDE else "left end" if into[0] < -_ASIDE else ""
    edge = "far edge" if into[1] > _ASIDE else "near edge" if into[1] < -_ASIDE else ""
    down = "" if side or abs(into[2]) < _ASIDE else "face side" if into[2] > 0.0 else "back side"
    return " and ".join(word for word in (end, edge, down) if word)


def edge_in_words(name: str) -> str:
    """ "near edge" for "near", "right end" for "right", "front edge" for a name the outline gives."""
    return _ENDS.get(name, f"{name} edge")


def sides_in_words(sides: str) -> str:
    return "both sides" if sides == "both" else f"{sides} side"


def lie(along: Vector) -> str:
    """Which way something long lies on its part."""
    if abs(along[0]) > 1.0 - 1e-9:
        return "along the grain"
    if abs(along[1]) > 1.0 - 1e-9:
        return "across the grain"
    return "upright" if abs(along[2]) > 1.0 - 1e-9 else "at an angle"


def angle(degrees: float) -> str:
    """An angle to a tenth of a degree, its sign dropped."""
    return f"{round(abs(degrees), 1):g}°"


def slope(ratio: float) -> str:
    """A dovetail's slope as it is laid out.

    >>> slope(1 / 8), slope(0.176)
    ('slope 1:8', 'slope 1:5.7')
    """
    return f"slope 1:{round(1.0 / ratio, 1):g}"


def kind_of(cut: Cut, table: Mapping[type[Cut], object]) -> type[Cut] | None:
    """The class of a table that a cut is told or set as: its own, or the nearest it derives from."""
    return next((kind for kind in type(cut).__mro__ if kind in table), None)
