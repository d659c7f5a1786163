"""What is left along an edge after its cuts: the cross-section there, arcs true, as far in as the cuts reach."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.measured import Shown, Vector
from drawings.paper.sheet import Point
from drawings.parts.family import Family
from model.cuts.edges import EdgeCut
from model.cuts.through import Profile
from model.layout.outline import Edge, Outline
from model.part import Part

#: Facets of the arcs while sections are taken from each other; the arcs are put back afterwards, mm.
_SAGITTA = 0.002
_ON = 1e-4
#: Where along an edge a section is tried.
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.05, 0.95)
_ORDER = ("near", "far", "left", "right")


@dataclass(frozen=True)
class EdgeSection:
    """A section square to an edge, in (u, v): u inward from the edge, v up from the back side.

    edge: the straight piece (or else the arc, at its middle) of the edge that it is taken at.
    """

    part: Part
    name: str
    cuts: tuple[EdgeCut, ...]

    @cached_property
    def edge(self) -> Edge:
        named = self.part.outline.named(self.name)
        return max(named, key=lambda e: (e.straight, e.length))

    @cached_property
    def share(self) -> float:
        """How far along the edge the section is taken, 0 to 1: in the middle, or where no other cut takes the edge."""
        prints = [
            f.outline for c in self.part.cuts if not isinstance(c, Profile) for f in c.footprints(self.part.blank)
        ]
        run = [t for t in _SHARES if self._runs_at(t)] or [0.5]
        return next((t for t in run if not any(o.contains(self._inside(t)) for o in prints)), run[0])

    def _runs_at(self, t: float) -> bool:
        """Are its cuts made there? One that starts or stops short is not made all along."""
        s = t * self.edge.length
        return all((c.start or 0.0) < s < (self.edge.length if c.stop is None else c.stop) for c in self.cuts)

    def _inside(self, t: float) -> Point:
        (x, y), (dx, dy) = self.edge.point(t), self.edge.direction(t)
        return x - 0.01 * dy, y + 0.01 * dx

    @cached_property
    def reach(self) -> float:
        """How far in the section is drawn: past the last cut by about the stock's thickness."""
        thick = self.part.thickness
        deep = max(u for c in self.cuts for s in c.sections(thick) for u, v in s.corners if -1e-6 <= v <= thick + 1e-6)
        return deep + 0.8 * thick

    @cached_property
    def inward(self) -> Point:
        dx, dy = self.edge.direction(self.share)
        return -dy, dx

    @property
    def faces_left(self) -> bool:
        """Does the edge stand on the left of its section? Near and left ones do, so that both ends read together."""
        return self.inward[0] + self.inward[1] > 0

    def shown(self, family: Family) -> Shown:
        """The section as a view of the part: across it to the right, up from back to face.

        Along a straight edge whatever is cut shows in the view too; beside an arc only in the section itself.
        """
        sign = 1.0 if self.faces_left else -1.0
        right: Vector = (sign * self.inward[0], sign * self.inward[1], 0.0)
        if self.edge.straight:
            return family.shown(right, (0.0, 0.0, 1.0))
        toward = right[1], -right[0]  # right x up, towards the eye
        x, y = self.edge.point(self.share)
        return family.shown(right, (0.0, 0.0, 1.0), toward[0] * x + toward[1] * y)

    def point(self, u: float, v: float) -> Point:
        """(u, v) in the coordinates of the view."""
        sign, (x, y) = (1.0 if self.faces_left else -1.0), self.edge.point(self.share)
        across = sign * (self.inward[0] * x + self.inward[1] * y)
        return across + sign * u, v

    def left(self) -> list[tuple[list[Point], list[float]]]:
        """The wood left, as outlines of points and bulges in (u, v), its inner end at `reach`."""
        from shapely.geometry import Polygon
        from shapely.geometry.polygon import orient
        from shapely.ops import unary_union

        thick = self.part.thickness
        whole = Polygon([(0.0, 0.0), (self.reach, 0.0), (self.reach, thick), (0.0, thick)])
        sections = [s for c in self.cuts for s in c.sections(thick)]
        taken = unary_union([Polygon(s.points(_SAGITTA)) for s in sections])
        wood = whole.difference(taken)
        pieces = getattr(wood, "geoms", [wood])
        circles = [(e.centre, e.radius) for s in sections for e in s.edges if not e.straight]
        return [with_arcs(list(orient(p).exterior.coords)[:-1], circles) for p in pieces if p.area > 0.01]


def edge_sections(part: Part) -> list[EdgeSection]:
    """One for each edge with more than its arrises eased, in the order the cuts come."""
    shaped: dict[str, list[EdgeCut]] = {}
    for cut in part.cuts:
        if isinstance(cut, EdgeCut) and not is_arris(cut):
            shaped.setdefault(cut.edge, []).append(cut)
    order = sorted(shaped, key=lambda name: _ORDER.index(name) if name in _ORDER else len(_ORDER))
    return [EdgeSection(part, name, tuple(shaped[name])) for name in order]


def is_arris(cut: EdgeCut) -> bool:
    """Is it work on an arris that words tell well enough?"""
    return type(cut).__name__ in ("Ease", "Chamfer")


def with_arcs(points: Sequence[Point], circles: Iterable[tuple[Point, float]]) -> tuple[list[Point], list[float]]:
    """A ring of short chords as corners and bulges: those on one of the circles drawn together into arcs of it."""
    known = list(circles)
    count = len(points)
    on = [_circle_of(points[n], points[(n + 1) % count], known) for n in range(count)]
    first = next((n for n in range(count) if on[n] != on[n - 1] or on[n] is None), 0)
    corners: list[Point] = []
    bulges: list[float] = []
    n = first
    while n < first + count:
        here, circle, end = points[n % count], on[n % count], n + 1
        while circle is not None and end < first + count and on[end % count] == circle:
            end += 1
        corners.append(here)
        bulges.append(0.0 if circle is None else _bulge(known[circle][0], points, n, end))
        n = end
    return corners, bulges


def _circle_of(p: Point, q: Point, circles: Sequence[tuple[Point, float]]) -> int | None:
    middle = (p[0] + q[0]) / 2, (p[1] + q[1]) / 2
    for n, (centre, radius) in enumerate(circles):
        ends = all(abs(math.dist(at, centre) - radius) < _ON for at in (p, q))
        if ends and radius - math.dist(middle, centre) < 3 * _SAGITTA:
            return n
    return None


def _bulge(centre: Point, points: Sequence[Point], start: int, end: int) -> float:
    turned = 0.0
    for n in range(start, end):
        p, q = points[n % len(points)], points[(n + 1) % len(points)]
        ax, ay, bx, by = p[0] - centre[0], p[1] - centre[1], q[0] - centre[0], q[1] - centre[1]
        turned += math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    return math.tan(turned / 4)


def shoulders(cut: EdgeCut, thickness: float) -> list[tuple[float, bool]]:
    """How far in from the edge a cut leaves lines to be seen along it, mm, and whether the face side shows them."""
    found: dict[float, bool] = {}
    for section in cut.sections(thickness):
        reached = [(u, v) for u, v in section.corners if u > 0.01]
        deep = max((u for u, _ in reached), default=0.0)
        if deep:
            seen = any(v > thickness for u, v in reached if abs(u - deep) < 0.01) or _over(section, thickness)
            found[round(deep, 6)] = found.get(round(deep, 6), False) or seen
    return sorted(found.items())


def _over(section: Outline, thickness: float) -> bool:
    """Does it open to the face side?"""
    return section.bounds[3] > thickness
