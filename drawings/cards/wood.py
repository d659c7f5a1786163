"""A part as set-up figures are measured on it: spans between its faces, round holes, angles, sections at an edge."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.lists.distinct import Distinct
from drawings.paper.measured import Measured, Shown, Vector
from drawings.parts.edge_section import EdgeSection
from drawings.parts.edge_sizes import UV
from drawings.parts.family import Family
from drawings.parts.located import looking_into
from model.cuts.edges import EdgeCut
from model.part import Part
from model.placement import cross, dot

X: Vector = (1.0, 0.0, 0.0)
Y: Vector = (0.0, 1.0, 0.0)
Z: Vector = (0.0, 0.0, 1.0)


@dataclass(frozen=True)
class Wood:
    """One distinct part."""

    distinct: Distinct

    @property
    def part(self) -> Part:
        """The part as it is drawn."""
        part = self.distinct.wood
        assert part is not None
        return part

    def shown(self, right: Vector, up: Vector) -> Shown:
        return Shown((self.distinct.names[0],), right, up)

    def section(self, right: Vector, up: Vector, at: Vector) -> Shown:
        """The part cut through at a point, seen with those to the right and upwards."""
        return Shown((self.distinct.names[0],), right, up, dot(at, cross(right, up)))

    def span(self, p: Vector, q: Vector, along: Vector, up: Vector) -> Measured:
        """From p to q along a direction, seen with that to the right and `up`, square to it, upwards."""
        start, end = ((dot(r, along), dot(r, up)) for r in (p, q))
        return self.shown(along, up).length(start, end, (1.0, 0.0))

    def thick(self, low: float, high: float, at: Vector = (0.0, 0.0, 0.0), up: Vector = X) -> Measured:
        """From one height over the back side to another, at a point of the plan."""
        x, y, _ = at
        return self.span((x, y, low), (x, y, high), Z, up)

    def diameter(self, at: Vector, into: Vector) -> Measured:
        """Of the round hole that goes into the wood at a point."""
        right, up = looking_into(into)
        return self.shown(right, up).diameter((dot(at, right), dot(at, up)))

    def depth(self, at: Vector, into: Vector, diameter: float) -> Measured:
        """Of that hole."""
        right, up = looking_into(into)
        return self.shown(right, up).depth((dot(at, right), dot(at, up)), diameter / 2.0)

    def turned(self, right: Vector, up: Vector, at: Vector, start: float, end: float) -> Measured:
        """The angle at a point between two directions of a view, degrees."""
        return self.shown(right, up).angle((dot(at, right), dot(at, up)), start, end)

    def profile(self, cut: EdgeCut) -> Profile:
        """The section at an edge that a cut works."""
        return Profile(Family((self.distinct,)), EdgeSection(self.part, cut.edge, (cut,)))


@dataclass(frozen=True)
class Profile:
    """A section in (u, v): u inward from the edge, v up from the back side, mm."""

    family: Family
    section: EdgeSection

    def inward(self, p: UV, q: UV) -> Measured:
        """How much further in q lies than p."""
        return self._span(p, q, (1.0 if self.section.faces_left else -1.0, 0.0))

    def upward(self, p: UV, q: UV) -> Measured:
        """How much higher q lies than p."""
        return self._span(p, q, (0.0, 1.0))

    def radius(self, centre: UV) -> Measured:
        return self.section.shown(self.family).radius(self.section.point(*centre))

    def angle(self, at: UV, start: float, end: float) -> Measured:
        """Between two directions in (u, v), degrees."""
        turn = (start, end) if self.section.faces_left else (180.0 - end, 180.0 - start)
        return self.section.shown(self.family).angle(self.section.point(*at), *turn)

    def _span(self, p: UV, q: UV, along: UV) -> Measured:
        point = self.section.point
        return self.section.shown(self.family).length(point(*p), point(*q), along)
