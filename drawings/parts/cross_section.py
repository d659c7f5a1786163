"""The wood of a part where a plane cuts through it, worked out from its outline and what its cuts take away.

In (h, v): h to the right in the plane, v upwards; of an upright plane level, and up from the back side, mm. Needs no
solid, so the proof can hold the solid against it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, singledispatchmethod
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from drawings.parts.edge_section import with_arcs
from model.cuts.removal import Block, Leaving, Prism, Removal, Turning
from model.layout.clipping import around, clipped
from model.layout.outline import Outline, Point
from model.part import Part
from model.placement import Placement, Vector, added, cross, dot, scaled

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_UP: Vector = (0.0, 0.0, 1.0)
_LEVEL = 1e-9
#: Facets of arcs while sections are taken from each other, mm, and how much larger than the part a tool is drawn, mm.
_SAGITTA, _PAST = 0.002, 50.0


@dataclass(frozen=True)
class Cutting:
    """A plane through a part: `right` and `up` lie in it, square to each other; it lies `at` mm along right x up."""

    right: Vector
    at: float
    up: Vector = _UP

    @classmethod
    def through(cls, at: Vector, right: Vector, up: Vector = _UP) -> Cutting:
        """The plane through a point."""
        return cls(right, dot(at, cross(right, up)), up)

    @property
    def toward(self) -> Vector:
        """To the eye."""
        return cross(self.right, self.up)

    def point(self, h: float, v: float) -> Vector:
        return added(scaled(self.toward, self.at), scaled(self.right, h), scaled(self.up, v))

    def seen(self, p: Vector) -> Point:
        return self.way(p)

    def way(self, direction: Vector) -> Point:
        """A direction of the part as the plane sees it."""
        return dot(direction, self.right), dot(direction, self.up)


#: The least h and v, and the greatest h and v, mm.
Bounds = tuple[float, float, float, float]
#: An outline of wood: its corners and their bulges.
Ring = tuple[list[Point], list[float]]


@dataclass(frozen=True)
class CrossSection:
    """What a plane leaves to be seen of a part, without what lies beyond it."""

    part: Part
    cutting: Cutting

    def pieces(self, window: Bounds | None = None) -> list[list[Ring]]:
        """Each piece of wood, in a window of the plane if there is one: its outer ring, then those of its holes."""
        from shapely.geometry import box
        from shapely.geometry.polygon import orient

        shown = self.wood.intersection(box(*(window or self.bounds)))
        found = [orient(p) for p in getattr(shown, "geoms", [shown]) if p.geom_type == "Polygon" and p.area > 0.01]
        circles = list(self._circles())
        return [[with_arcs(list(r.coords)[:-1], circles) for r in (p.exterior, *p.interiors)] for p in found]

    @property
    def reach(self) -> tuple[float, float]:
        """The least and the greatest h with wood."""
        low, _, high, _ = self.bounds
        return low, high

    @cached_property
    def bounds(self) -> Bounds:
        """Of the wood: the least h and v, the greatest h and v."""
        x0, y0, x1, y1 = self.wood.bounds
        return x0, y0, x1, y1

    @cached_property
    def wood(self) -> BaseGeometry:
        """What is left of the stock in the plane, mm."""
        from shapely.ops import unary_union

        stock = Prism(Placement(), self.part.outline, self.part.thickness)
        taken = [self._taken(r) for c in self.part.cuts for r in c.removals(self.part.blank)]
        return self._taken(stock).difference(unary_union(taken))

    @cached_property
    def _window(self) -> list[Point]:
        """More than all of the part, in (h, v)."""
        x0, y0, x1, y1 = self.part.outline.bounds
        corners = [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (0.0, self.part.thickness)]
        hs, vs = zip(*map(self.cutting.seen, corners), strict=True)
        return around((min(hs), min(vs), max(hs), max(vs)), _PAST)

    @singledispatchmethod
    def _taken(self, removal: Removal) -> BaseGeometry:
        raise TypeError(f"nothing is known of a {type(removal).__name__}")

    @_taken.register(Block)
    def _(self, block: Block) -> BaseGeometry:
        halves = []
        foot = self.cutting.point(0.0, 0.0)
        for plane in block.planes:
            normal, offset = self.cutting.way(plane.normal), plane.offset - dot(plane.normal, foot)
            if math.hypot(*normal) > _LEVEL:
                halves.append((normal, offset))
            elif offset < 0.0:
                return _nothing()
        return _polygon(clipped(self._window, halves))

    @_taken.register(Prism)
    def _(self, prism: Prism) -> BaseGeometry:
        frame, foot = prism.frame, self.cutting.point(0.0, 0.0)
        start, up = frame.own_point(foot), self.cutting.way(frame.z)
        ends = [((-up[0], -up[1]), start[2]), (up, prism.height - start[2])]
        if math.hypot(*up) <= _LEVEL:
            inside = 0.0 <= start[2] <= prism.height
            return self._outlined(prism.outline, prism) if inside else _nothing()
        if abs(dot(self.cutting.toward, frame.z)) > _LEVEL:
            return _polygon(clipped(self._window, ends)).intersection(self._outlined(prism.outline, prism))
        return self._strips(prism, ends)

    def _outlined(self, outline: Outline, prism: Prism) -> BaseGeometry:
        """The prism's outline, carried along its axis, where it meets the plane."""
        frame, toward = prism.frame, self.cutting.toward
        rate = dot(frame.z, toward)
        ring = []
        for x, y in outline.points(_SAGITTA):
            p = frame.point((x, y, 0.0))
            ring.append(self.cutting.seen(added(p, scaled(frame.z, (self.cutting.at - dot(p, toward)) / rate))))
        return _polygon(ring)

    def _strips(self, prism: Prism, ends: list[tuple[Point, float]]) -> BaseGeometry:
        """A prism that the plane runs along: a strip for each stretch of the plane inside its outline."""
        from shapely.ops import unary_union

        frame, toward = prism.frame, self.cutting.toward
        across = dot(frame.x, toward), dot(frame.y, toward)
        offset = self.cutting.at - dot(frame.origin, toward)
        way = -across[1], across[0]
        met = sorted(p[0] * way[0] + p[1] * way[1] for e in prism.outline.edges for p in e.crossings(across, offset))
        level = added(scaled(frame.x, way[0]), scaled(frame.y, way[1]))
        start, sideways = frame.own_point(self.cutting.point(0.0, 0.0)), self.cutting.way(level)
        begun = start[0] * way[0] + start[1] * way[1]
        strips = []
        for a, b in pairwise(met):
            middle = (a + b) / 2
            inside = way[0] * middle + across[0] * offset, way[1] * middle + across[1] * offset
            if b - a > _LEVEL and prism.outline.contains(inside):
                sides = [((-sideways[0], -sideways[1]), begun - a), (sideways, b - begun)]
                strips.append(_polygon(clipped(self._window, [*ends, *sides])))
        return unary_union(strips)

    @_taken.register(Turning)
    def _(self, turning: Turning) -> BaseGeometry:
        """Full turnings that the plane halves; arrises eased round an arc are too small to be shown."""
        frame, axis = turning.frame, turning.frame.y
        heart, toward = frame.point((turning.arm, 0.0, 0.0)), self.cutting.toward
        halved = abs(dot(axis, toward)) < _LEVEL and abs(dot(heart, toward) - self.cutting.at) < 1e-6
        if not halved or turning.sweep < math.tau - _LEVEL:
            return _nothing()
        out = cross(axis, toward)
        half = [(x - turning.arm, y) for x, y in turning.outline.points(_SAGITTA)]
        rings = [
            [self.cutting.seen(added(heart, scaled(axis, y), scaled(out, s * x))) for x, y in half] for s in (1, -1)
        ]
        return _polygon(rings[0]).union(_polygon(rings[1]))

    @_taken.register(Leaving)
    def _(self, leaving: Leaving) -> BaseGeometry:
        from shapely.ops import unary_union

        return self._taken(leaving.taken).difference(unary_union([self._taken(one) for one in leaving.left]))

    def _circles(self) -> Iterator[tuple[Point, float]]:
        """The true arcs among what is taken away square to the plane."""
        for cut in self.part.cuts:
            for removal in cut.removals(self.part.blank):
                if isinstance(removal, Prism) and abs(dot(removal.frame.z, self.cutting.toward)) > 1.0 - _LEVEL:
                    for e in removal.outline.edges:
                        if not e.straight:
                            yield self.cutting.seen(removal.frame.point((*e.centre, 0.0))), e.radius


def _polygon(ring: list[Point]) -> BaseGeometry:
    from shapely.geometry import Polygon

    found: Any = Polygon(ring) if len(ring) > 2 else Polygon()
    return found if found.is_valid else found.buffer(0)


def _nothing() -> BaseGeometry:
    from shapely.geometry import Polygon

    return Polygon()
