"""Each cut in a maker's words: what, how large, on which side or edge, and how far from where to measure.

Distances are to the nearer wall of a trench and to the middle of a hole, from the left end or the near edge of the
blank; along an edge that is not square, from its corner with the edge before it. A length that had to be rounded by
more than 0.05 mm has ≈ before it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import singledispatchmethod

from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import Edge, Outline, Point
from model.lengths import printed
from model.part import Part
from model.placement import Vector

#: A length printed this near to the true one counts as exact, mm: half of 0.1 mm, the finest a rule is read to.
READ = 0.05 + 1e-9

#: What two phrases may differ in and still be told as one.
_PAIRS = (
    (", face side", ", back side", ", both sides"),
    ("along near edge", "along far edge", "along near and far edges"),
    ("in near edge", "in far edge", "in near and far edges"),
)

#: Edges that distances along a slanting end are rather measured from.
_FRONTS = ("near", "front")

_ENDS = {"near": "near edge", "far": "far edge", "left": "left end", "right": "right end", "": "edge"}


def cut_in_words(cut: Cut, part: Part, units: str = "mm", denominator: int = 16) -> str:
    """One cut of a part as a phrase, its lengths in `units` (a key of lengths.UNITS).

    A cut of a kind not known here is told by its name alone. Raises LengthError for units that aren't there.

    >>> from model.cuts.faces import dado
    >>> from model.stock import board
    >>> shelf_dado = dado(416, 19, 9.5, 0, 250)
    >>> cut_in_words(shelf_dado, Part(board(1200, 250, 19), (shelf_dado,)))
    'dado 19 × 9.5 deep, face side, 416 from left end'
    """
    return _Teller(part, units, denominator).tell(cut)


def cuts_in_words(cuts: Iterable[Cut], part: Part, units: str = "mm", denominator: int = 16) -> list[str]:
    """Cuts as phrases, those that differ only in the edge or the side they are made on drawn together."""
    phrases = [cut_in_words(c, part, units, denominator) for c in cuts]
    for pair in _PAIRS:
        phrases = _drawn_together(phrases, *pair)
    return phrases


def _drawn_together(phrases: list[str], one: str, other: str, both: str) -> list[str]:
    kept: list[str] = []
    for phrase in phrases:
        partner = phrase.replace(one, other) if one in phrase else phrase.replace(other, one)
        if partner != phrase and partner in kept:
            kept[kept.index(partner)] = partner.replace(one, both).replace(other, both)
        else:
            kept.append(phrase)
    return kept


def edge_in_words(name: str) -> str:
    """ "near edge" for "near", "right end" for "right", "front edge" for a name the outline gives."""
    return _ENDS.get(name, f"{name} edge")


def nearest_edge(outline: Outline, p: Point) -> tuple[Edge, float]:
    """The edge of an outline nearest to a point, and how far along it that is, mm from its start."""

    def station(e: Edge) -> tuple[float, float]:
        if e.straight:
            (dx, dy), (sx, sy) = e.direction(0.0), e.start
            along = min(max((p[0] - sx) * dx + (p[1] - sy) * dy, 0.0), e.length)
        else:
            cx, cy = e.centre
            turned = math.atan2(p[1] - cy, p[0] - cx) - math.atan2(e.start[1] - cy, e.start[0] - cx)
            turned = turned % math.tau if e.bulge > 0 else -((-turned) % math.tau)
            along = e.length * min(turned / e.sweep, 1.0)
        return math.dist(e.point(along / e.length), p), along

    edge = min(outline.edges, key=lambda e: station(e)[0])
    return edge, station(edge)[1]


@dataclass(frozen=True)
class _Teller:
    """Tells the cuts of one part in one unit."""

    part: Part
    units: str
    denominator: int

    def length(self, mm: float) -> str:
        said = printed(mm, self.units, self.denominator)
        return said.text if abs(said.error_mm) <= READ else f"≈{said.text}"

    @singledispatchmethod
    def tell(self, cut: Cut) -> str:
        return cut.name

    @tell.register
    def _(self, cut: Channel) -> str:
        what = f"{cut.name} {self.length(cut.width)} × {self.length(cut.depth)} deep, {cut.side} side, "
        (dx, dy), half = cut.direction, cut.width / 2.0
        if abs(dx) < 1e-9:
            wall = f"{self.length(cut.start[0] - half)} from left end"
        elif abs(dy) < 1e-9:
            wall = f"{self.length(cut.start[1] - half)} from near edge"
        else:
            return f"{what}its middle from {self.spot(cut.start)} to {self.spot(cut.end)}"
        return f"{what}{wall}{self._reach(cut)}"

    def _reach(self, cut: Channel) -> str:
        """Where it stops, unless it runs right through."""
        if all(cut.open_ends(self.part.blank)):
            return ""
        axis, name = (1, "near edge") if cut.name == "dado" else (0, "left end")
        lo, hi = sorted((cut.start[axis], cut.end[axis]))
        return f", from {self.length(lo)} to {self.length(hi)} off the {name}"

    @tell.register
    def _(self, cut: Bore) -> str:
        hole = f"hole {self.length(cut.diameter)} diameter × {self.length(cut.depth)} deep"
        return f"{hole}, {self._mouth(cut.at, cut.into)}"

    @tell.register
    def _(self, cut: Counterbore) -> str:
        mouth = f"counterbore {self.length(cut.diameter)} diameter × {self.length(cut.depth)} deep"
        return f"{mouth}, {self.length(cut.clearance)} through, {self._mouth(cut.at, cut.into)}"

    @tell.register
    def _(self, cut: BiscuitSlot) -> str:
        lie = "" if entered(cut.into) is None else f"lying {_lie(cut.along)}, "
        return f"biscuit slot No. {cut.size}, {lie}{self._mouth(cut.at, cut.into)}"

    def _mouth(self, at: Vector, into: Vector) -> str:
        """Where a hole or slot is begun: on a side, or in an edge."""
        side = entered(into)
        if side is not None:
            return f"{side} side, {self.spot((at[0], at[1]))}"
        edge, along = nearest_edge(self.part.outline, (at[0], at[1]))
        level = f"{self.length(at[2])} from back side"
        return f"in {edge_in_words(edge.name)}, {self._along(edge, along)}, {level}"

    def spot(self, p: Point) -> str:
        return f"{self.length(p[0])} from left end, {self.length(p[1])} from near edge"

    def _along(self, edge: Edge, along: float) -> str:
        (x, y), (dx, dy) = edge.point(along / edge.length), edge.direction(0.0)
        if edge.straight and abs(dy) < 1e-9:
            return f"{self.length(x)} from left end"
        if edge.straight and abs(dx) < 1e-9:
            return f"{self.length(y)} from near edge"
        edges = self.part.outline.edges
        here = edges.index(edge)
        before, after = edges[here - 1], edges[(here + 1) % len(edges)]
        if after.name in _FRONTS:
            return f"{self.length(edge.length - along)} along it from {edge_in_words(after.name)}"
        return f"{self.length(along)} along it from {edge_in_words(before.name)}"

    @tell.register
    def _(self, cut: Rabbet) -> str:
        size = f"rabbet {self.length(cut.width)} × {self.length(cut.depth)} deep"
        return f"{size}, {self._run(cut)}, {cut.side} side{self._stops(cut)}"

    @tell.register
    def _(self, cut: Tongue) -> str:
        size = f"tongue {self.length(cut.thickness)} thick × {self.length(cut.length)} long"
        return f"{size}, {self._run(cut)}, {self.length(cut.rise)} from back side{self._stops(cut)}"

    @tell.register
    def _(self, cut: EdgeGroove) -> str:
        size = f"groove {self.length(cut.width)} × {self.length(cut.depth)} deep"
        place = f"in {edge_in_words(cut.edge)}, {self.length(cut.rise)} from back side"
        return f"{size}, {place}{self._stops(cut)}"

    @tell.register
    def _(self, cut: Bead) -> str:
        size = f"bead {self.length(cut.radius)} radius, {self.length(cut.quirk)} quirk"
        inset = f", {self.length(cut.inset)} in" if cut.inset else ""
        return f"{size}, {self._run(cut)}{inset}, {cut.side} side{self._stops(cut)}"

    @tell.register
    def _(self, cut: Bevel) -> str:
        return f"bevel {cut.angle:g}°, {self._run(cut)}, full size kept on {cut.keep} side{self._stops(cut)}"

    @tell.register
    def _(self, cut: Ease) -> str:
        return f"ease {self.length(cut.radius)} radius, {self._run(cut)}, {_sides(cut.sides)}{self._stops(cut)}"

    @tell.register
    def _(self, cut: Chamfer) -> str:
        return f"chamfer {self.length(cut.width)}, {self._run(cut)}, {_sides(cut.sides)}{self._stops(cut)}"

    def _run(self, cut: EdgeCut) -> str:
        return f"along {edge_in_words(cut.edge)}"

    def _stops(self, cut: EdgeCut) -> str:
        """Where it begins and ends, unless it runs right through."""
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
        return f", from {self.length(near)} to {self.length(far)} off the {name}"

    @tell.register
    def _(self, cut: Profile) -> str:
        radii = sorted({round(e.radius, 3) for e in cut.outline.edges if not e.straight})
        arcs = f", arcs of radius {', '.join(map(self.length, radii))}" if radii else ""
        return f"sawn to its outline{arcs}"

    @tell.register
    def _(self, cut: Opening) -> str:
        x0, y0, x1, y1 = cut.outline.bounds
        return f"opening {self.length(x1 - x0)} × {self.length(y1 - y0)} right through, {self.spot((x0, y0))}"

    @tell.register
    def _(self, cut: Notch) -> str:
        x0, y0, x1, y1 = notch_bounds(cut, self.part)
        bx0, by0, bx1, by1 = self.part.outline.bounds
        at_end = "left end" if x0 <= bx0 else "right end" if x1 >= bx1 else f"{self.length(x0)} from left end"
        at_edge = "near edge" if y0 <= by0 else "far edge" if y1 >= by1 else f"{self.length(y0)} from near edge"
        return f"notch {self.length(x1 - x0)} × {self.length(y1 - y0)} right through, at {at_end} and {at_edge}"


def notch_bounds(cut: Notch, part: Part) -> tuple[float, float, float, float]:
    """Least and greatest x and y of what a notch takes out of the part's own bounds, mm."""
    x0, y0, x1, y1 = cut.outline.bounds
    bx0, by0, bx1, by1 = part.outline.bounds
    return max(x0, bx0), max(y0, by0), min(x1, bx1), min(y1, by1)


def _sides(sides: str) -> str:
    return "both sides" if sides == "both" else f"{sides} side"


def _lie(along: Vector) -> str:
    if abs(along[0]) > 1.0 - 1e-9:
        return "along the grain"
    return "across the grain" if abs(along[1]) > 1.0 - 1e-9 else "at an angle"
