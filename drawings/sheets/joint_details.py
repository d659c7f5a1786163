"""Joint details: which joints are shown larger, where each is cut, what of it is shown and at which scale."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from drawings.paper.arcs import flattened
from drawings.paper.measured import Shown
from drawings.paper.scales import scales
from drawings.paper.sheet import Point, Polyline
from drawings.views.curves import Bounds, Vector, ViewSpec
from model.cuts.dovetails import Tails
from model.joints.joint import Joint
from model.piece import DetailOf, Piece
from model.placement import added, cross, dot, scaled, square_to, unit

if TYPE_CHECKING:
    import cadquery as cq

#: At the sheet's scale a joint is legible if nothing of it is smaller than the first; in its detail nothing should be
#: smaller than the second, mm on the paper (ours).
LEGIBLE, _CLEAR = 2.0, 4.0
#: A detail's picture is no wider and no higher than this, mm on the paper (ours).
_MOST = (88.0, 76.0)
#: Shown round a joint: this much of the thicker wood, between so many mm, and round a tail the least; and no further
#: from its middle than that.
_ROUND, _ROUND_LEAST, _ROUND_MOST, _FAR = 0.9, 12.0, 30.0, 70.0
#: A contact so many times longer along the way a joint closes than across it is slid in.
_SLID = 3.0
#: Wood nearer to the other part than its fit and this lies at the joint, mm; shorter edges are no feature of it.
_AT, _FEATURE = 0.4, 0.8

Rings = Sequence[Sequence[Point]]


@dataclass(frozen=True)
class Edge:
    """A straight edge of a part's cut face that runs level or upright at its joint, view mm."""

    part: str
    p: Point
    q: Point

    @property
    def level(self) -> bool:
        return abs(self.p[1] - self.q[1]) < abs(self.p[0] - self.q[0])

    @property
    def length(self) -> float:
        return math.dist(self.p, self.q)


@dataclass(frozen=True)
class Detail:
    """A joint that stands for `alike` of its kind, cut across at a place; faces: of its two parts, and the window that
    is shown of them, in the coordinates of a view of the whole piece, mm."""

    joint: Joint
    alike: int
    place: Vector
    spec: ViewSpec
    faces: Mapping[str, Sequence[Rings]]
    window: Bounds
    named: DetailOf | None = None

    @cached_property
    def edges(self) -> list[Edge]:
        """The edges at which the joint can be measured."""
        names = list(self.faces)
        return [e for name, other in zip(names, reversed(names), strict=True) for e in self._edges(name, other)]

    @property
    def smallest(self) -> float:
        """The least of its features, mm; where none runs level or upright, its wood's thickness will be larger."""
        return min((e.length for e in self.edges), default=_CLEAR)

    def wanted(self, scale: float) -> bool:
        """Is it asked for, or not legible where the whole is drawn at a scale (paper over model)?"""
        return self.named is not None or self.smallest * scale < LEGIBLE

    def scale(self, units: str) -> float:
        """Full size, or the least larger scale at which it is clear, or the largest at which it has room."""
        if self.named and self.named.scale:
            return self.named.scale
        left, low, right, high = self.window
        room = [s for s in scales(units) if (right - left) * s <= _MOST[0] and (high - low) * s <= _MOST[1]]
        large = [s for s in room if s >= 1.0]
        return next((s for s in reversed(large) if self.smallest * s >= _CLEAR), room[0])

    @property
    def reach(self) -> float:
        """How far the window reaches, from its middle, mm."""
        left, low, right, high = self.window
        return max(right - left, high - low) / 2.0

    @property
    def middle(self) -> Vector:
        """The window's middle in the piece, mm."""
        left, low, right, high = self.window
        along, up = (left + right) / 2.0, (low + high) / 2.0
        depth = dot(self.place, self.spec.direction)
        return added(scaled(self.spec.right, along), scaled(self.spec.up, up), scaled(self.spec.direction, depth))

    def shown(self, piece: Piece, name: str) -> tuple[Shown, Point]:
        """The section as a part's own, and by how much the view's coordinates are more than that one's."""
        at, spec = piece[name].at, self.spec
        right, up = at.own_direction(spec.right), at.own_direction(spec.up)
        depth = dot(cross(right, up), at.own_point(self.place))
        return Shown((name,), right, up, depth), (dot(spec.right, at.origin), dot(spec.up, at.origin))

    def _edges(self, name: str, other: str) -> Iterator[Edge]:
        from shapely.geometry import LineString
        from shapely.geometry import Point as Spot
        from shapely.ops import unary_union

        beside = unary_union([LineString([*ring, ring[0]]) for face in self.faces[other] for ring in face])
        near = self.joint.fit + max((c.gap for c in self.joint.contacts), default=0.0) + _AT
        for face in self.faces[name]:
            for ring in face:
                for p, q in zip(ring, [*ring[1:], ring[0]], strict=True):
                    ends_here = all(self._inside(e) and beside.distance(Spot(e)) < near for e in (p, q))
                    if ends_here and _square(p, q) and math.dist(p, q) > _FEATURE:
                        yield Edge(name, p, q)

    def _inside(self, p: Point) -> bool:
        left, low, right, high = self.window
        return left + 0.5 < p[0] < right - 0.5 and low + 0.5 < p[1] < high - 0.5


def details(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Detail]:
    """The joints that the piece's script names, and the first of every other kind that is cut. Loads the CAD kernel."""
    kinds: dict[str, list[Joint]] = {}
    for joint in piece.joints:
        if joint.contacts and (joint.first_cuts or joint.second_cuts):
            kinds.setdefault(joint.kind, []).append(joint)
    return [d for kind in kinds.values() for d in _of_kind(kind, piece, shapes)]


def _of_kind(alike: Sequence[Joint], piece: Piece, shapes: Mapping[str, cq.Shape]) -> Iterator[Detail]:
    asked: list[tuple[Joint, DetailOf | None]] = [
        (j, d) for d in piece.details for j in alike if {j.first, j.second} == {d.first, d.second}
    ]
    for joint, named in asked or [(j, None) for j in alike]:
        found = _detail(joint, len(alike), shapes, named)
        if found:
            yield found
            if named is None:
                return


def _detail(joint: Joint, alike: int, shapes: Mapping[str, cq.Shape], named: DetailOf | None) -> Detail | None:
    from drawings.views.section import cut_faces

    place, spec = across(joint)
    cut = cut_faces({n: shapes[n] for n in (joint.first, joint.second)}, spec, dot(place, spec.direction))
    whole = {
        name: [[flattened(Polyline(ring.points, ring.bulges, closed=True), 0.02) for ring in face] for face in found]
        for name, found in cut.items()
    }
    if len(whole) < 2:
        return None
    window = _window(joint, whole, spec.project(place))
    faces = {name: [rings for face in found for rings in _clipped(face, window)] for name, found in whole.items()}
    return Detail(joint, alike, place, spec, faces, window, named) if all(faces.values()) else None


def across(joint: Joint) -> tuple[Vector, ViewSpec]:
    """A place of a joint, and a view along its run there: the way its contact is longest, square to how it closes.

    Where hardware holds it, the section goes through the first of that, along its axis. A joint that closes aslant is
    turned level on the paper.
    """
    points = [p for c in joint.contacts for p in c.points]
    held = joint.hardware[0] if joint.hardware else None
    middle = held.at if held else scaled(_sum(points), 1.0 / len(points))
    along = held is not None and abs(dot(held.direction, joint.closes)) < 0.1
    eye = unit(cross(held.direction, joint.closes)) if held and along else _run(joint)
    eye = min((eye, scaled(eye, -1.0)), key=lambda v: (round(v[1], 3), -round(v[0], 3), -round(v[2], 3)))
    place = min(points, key=lambda p: math.dist(p, middle))
    place = added(place, scaled(eye, dot(middle, eye) - dot(place, eye)))
    return place, ViewSpec("detail", eye, _right(eye, joint.closes))


def _run(joint: Joint) -> Vector:
    """The way a contact is longest, along its rim, but for how the joint closes; that itself for what is slid in along
    a groove, and for tails, whose shape shows from there alone."""
    if _tailed(joint):
        return joint.closes
    rims = [pair for c in joint.contacts for pair in zip(c.points, (*c.points[1:], c.points[0]), strict=True)]
    ways = [added(q, scaled(p, -1.0)) for p, q in rims]
    slid = max((abs(dot(way, joint.closes)) for way in ways), default=0.0)
    run = max((square_to(way, joint.closes) for way in ways), key=lambda v: math.hypot(*v))
    if math.hypot(*run) * _SLID < slid or math.hypot(*run) < 1.0:
        return joint.closes
    return unit(run)


def _tailed(joint: Joint) -> bool:
    return any(isinstance(cut, Tails) for cut in (*joint.first_cuts, *joint.second_cuts))


def _right(eye: Vector, closes: Vector) -> Vector:
    """Upright things upright, unless the joint closes aslant; then the way it closes lies level."""
    plain = (1.0, 0.0, 0.0) if abs(eye[2]) > 0.99 else unit(cross((0.0, 0.0, 1.0), eye))
    level = square_to(closes, eye)
    if math.hypot(*level) < 0.1 or min(abs(dot(unit(level), v)) for v in (plain, cross(eye, plain))) < 1e-6:
        return plain
    return max((unit(level), unit(scaled(level, -1.0))), key=lambda v: dot(v, plain))


def _sum(points: Sequence[Vector]) -> Vector:
    xs, ys, zs = zip(*points, strict=True)
    return sum(xs), sum(ys), sum(zs)


def _window(joint: Joint, faces: Mapping[str, Sequence[Rings]], centre: Point) -> Bounds:
    """What is shown: where the two parts meet next to the middle, and some of the wood round it."""
    from shapely.geometry import Point as Spot
    from shapely.geometry import Polygon, box
    from shapely.ops import unary_union

    near = joint.fit + max((c.gap for c in joint.contacts), default=0.0) + _AT
    first, second = (unary_union([Polygon(f[0], f[1:]).buffer(near / 2.0) for f in found]) for found in faces.values())
    x, y = centre
    met = first.intersection(second).intersection(box(x - _FAR, y - _FAR, x + _FAR, y + _FAR))
    pieces = [p for p in getattr(met, "geoms", [met]) if not p.is_empty]
    nearest = min(pieces, key=lambda p: p.distance(Spot(centre)), default=Spot(centre))
    left, low, right, high = nearest.bounds
    thin = max(min(right - left, _ROUND_MOST), min(high - low, _ROUND_MOST))
    more = _ROUND_LEAST if _tailed(joint) else min(max(_ROUND * thin, _ROUND_LEAST), _ROUND_MOST)
    return left - more, low - more, right + more, high + more


def _clipped(face: Rings, window: Bounds) -> list[Rings]:
    """What of a face lies in the window."""
    from shapely.geometry import Polygon, box

    shown = Polygon(face[0], face[1:]).buffer(0.0).intersection(box(*window))
    pieces = [p for p in getattr(shown, "geoms", [shown]) if p.area > 0.5]
    return [[tuple(ring.coords[:-1]) for ring in (p.exterior, *p.interiors)] for p in pieces]


def _square(p: Point, q: Point) -> bool:
    """Does a stretch run level or upright?"""
    return min(abs(p[0] - q[0]), abs(p[1] - q[1])) < 1e-3
