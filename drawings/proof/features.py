"""What can be measured on a solid in a view of it, by the kernel: corners, faces seen edge-on, circles, middles."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import cadquery as cq
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Section
from OCP.BRepBndLib import BRepBndLib
from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Cylinder, GeomAbs_Line, GeomAbs_Plane
from OCP.gp import gp_Dir, gp_Pln, gp_Pnt

from drawings.paper.measured import Point, Shown, Vector
from model.placement import added, cross, dot, scaled

#: A feature is where a drawing says it is if it lies within this of it, mm: far finer than any printed place.
FOUND = 0.02
_PARALLEL = 1e-6
#: A cylinder is looked into if its axis is this near to the line of sight (cosine; about half a degree).
_END_ON = 1.0 - 4e-5
#: A side of an angle is taken to be the one meant if its direction is within this of it, degrees.
_SIDE = 0.5


@dataclass(frozen=True)
class Features:
    """In view millimetres: corners, straight lines (faces seen edge-on) by their ends, circles by centre and radius.

    bores: round walls seen end-on, by centre, radius and from where to where along the line of sight. middles: of
    faces and of straight edges, which is where slots are measured to.
    """

    points: tuple[Point, ...]
    lines: tuple[tuple[Point, Point], ...]
    circles: tuple[tuple[Point, float], ...]
    middles: tuple[Point, ...]
    bores: tuple[tuple[Point, float, float, float], ...] = ()

    def station(self, at: Point, along: Point, strict: bool) -> float | None:
        """Exactly how far along a unit direction the feature lies that is shown at a point; None where there is none.

        strict: the feature must be at the point itself, unless it is the outermost of all, which a datum line touches;
        else it may lie anywhere square to the direction.
        """
        wanted = _dot(at, along)
        near = [s for s in self._at(at, along) if abs(s - wanted) <= FOUND]
        if not near:
            stations = self._stations(along)
            allowed = {min(stations), max(stations)} if strict and stations else stations
            near = [s for s in allowed if abs(s - wanted) <= FOUND]
        return min(near, key=lambda s: abs(s - wanted), default=None)

    def _at(self, at: Point, along: Point) -> list[float]:
        found = [_dot(p, along) for p in (*self.points, *self.middles) if math.dist(p, at) <= FOUND]
        for p, q in self.lines:
            square = abs(_dot((q[0] - p[0], q[1] - p[1]), along)) <= _PARALLEL * max(math.dist(p, q), 1.0)
            if square and _off(at, p, q) <= FOUND:
                found.append(_dot(p, along))
        for centre, radius in self.circles:
            if math.dist(centre, at) <= FOUND:
                found.append(_dot(centre, along))
            found += [_dot(centre, along) + s * radius for s in (-1, 1) if _on(at, centre, radius)]
        return found

    def _stations(self, along: Point) -> list[float]:
        return [_dot(p, along) for p in self.points]

    def radii(self, centre: Point) -> list[float]:
        """Radii of the circles about a point."""
        return [r for c, r in self.circles if math.dist(c, centre) <= FOUND]

    def depths(self, centre: Point, radius: float) -> list[float]:
        """Of the round hole about a point, if it has that radius."""
        walls = [w for c, r, *w in self.bores if math.dist(c, centre) <= FOUND and abs(r - radius) <= FOUND]
        return [max(high for _, high in walls) - min(low for low, _ in walls)] if walls else []

    def angle(self, at: Point, start: float, end: float) -> float | None:
        """The angle at a point between two sides that leave it at about these directions, degrees.

        A side of which the solid has no line is taken as it is given if it is level or upright: an angle to square.
        """
        sides = [self._direction(at, turn) for turn in (start, end)]
        if sides == [None, None]:
            return None
        exact = [s if s is not None else t for s, t in zip(sides, (start, end), strict=True)]
        if any(s is None and t % 90.0 for s, t in zip(sides, (start, end), strict=True)):
            return None
        return (exact[1] - exact[0]) % 360.0

    def _direction(self, at: Point, turn: float) -> float | None:
        for p, q in self.lines:
            for here, there in ((p, q), (q, p)):
                if math.dist(here, at) <= FOUND:
                    found = math.degrees(math.atan2(there[1] - here[1], there[0] - here[0]))
                    if abs((found - turn + 180.0) % 360.0 - 180.0) <= _SIDE:
                        return turn + (found - turn + 180.0) % 360.0 - 180.0
        return None


def features(shapes: Iterable[cq.Shape], shown: Shown) -> Features:
    """All that some solids offer to be measured in a view, or in a section if it is one."""
    found = [_of_section(s, shown) if shown.at is not None else _of_view(s, shown) for s in shapes]
    return Features(
        tuple(p for f in found for p in f.points),
        tuple(x for f in found for x in f.lines),
        tuple(c for f in found for c in f.circles),
        tuple(m for f in found for m in f.middles),
        tuple(b for f in found for b in f.bores),
    )


def extent(shapes: Iterable[cq.Shape], direction: Vector) -> float:
    """How far solids reach along one of the axes, mm: their exact box, not a mesh's."""
    box = Bnd_Box()
    for shape in shapes:
        BRepBndLib.AddOptimal_s(shape.wrapped, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    size = (high.X() - low.X(), high.Y() - low.Y(), high.Z() - low.Z())
    return abs(sum(s * abs(d) for s, d in zip(size, direction, strict=True))) - 2.0 * box.GetGap()


@dataclass(frozen=True)
class _Face:
    """A plane by its normal or a cylinder by its axis, a point of that, radius and length; and the face's corners."""

    direction: Vector
    point: Vector
    radius: float
    length: float
    corners: tuple[Vector, ...]


@dataclass(frozen=True)
class _Rim:
    """A circular edge: centre, axis, radius, and the points of it that lie furthest along the axes of the part."""

    centre: Vector
    axis: Vector
    radius: float
    crowns: tuple[Vector, ...]


@dataclass(frozen=True)
class _Measurable:
    """A solid as plain numbers, whichever way it is looked at."""

    corners: tuple[Vector, ...]
    planes: tuple[_Face, ...]
    cylinders: tuple[_Face, ...]
    rims: tuple[_Rim, ...]
    middles: tuple[Vector, ...]


@lru_cache(maxsize=4096)
def _measurable(shape: cq.Shape) -> _Measurable:
    faces = [(BRepAdaptor_Surface(f.wrapped), _corners(f)) for f in shape.Faces()]
    planes = [(s.Plane().Axis().Direction(), s, c) for s, c in faces if s.GetType() == GeomAbs_Plane]
    rounds = [(s.Cylinder(), s, c) for s, c in faces if s.GetType() == GeomAbs_Cylinder]
    edges = [BRepAdaptor_Curve(e.wrapped) for e in shape.Edges()]
    straight = [c for c in edges if c.GetType() == GeomAbs_Line]
    return _Measurable(
        tuple(v.toTuple() for v in shape.Vertices()),
        tuple(_Face(_vector(n), c[0], 0.0, 0.0, c) for n, _, c in planes if c),
        tuple(_cylinder(y, s, c) for y, s, c in rounds),
        tuple(_rim(c) for c in edges if c.GetType() == GeomAbs_Circle),
        tuple(
            [_vector(c.Value((c.FirstParameter() + c.LastParameter()) / 2)) for c in straight]
            + [_middle(c) for _, c in faces if c]
        ),
    )


def _corners(face: cq.Face) -> tuple[Vector, ...]:
    return tuple(v.toTuple() for v in face.Vertices())


def _cylinder(cylinder: Any, surface: BRepAdaptor_Surface, corners: tuple[Vector, ...]) -> _Face:
    axis, low = _vector(cylinder.Axis().Direction()), surface.FirstVParameter()
    start = added(_vector(cylinder.Location()), scaled(axis, low))
    return _Face(axis, start, cylinder.Radius(), surface.LastVParameter() - low, corners)


def _rim(curve: BRepAdaptor_Curve) -> _Rim:
    circle = curve.Circle()
    centre, radius = _vector(circle.Location()), circle.Radius()
    x, y = _vector(circle.XAxis().Direction()), _vector(circle.YAxis().Direction())
    first, last = curve.FirstParameter(), curve.LastParameter()
    turns = {math.atan2(s * y[k], s * x[k]) for k in range(3) for s in (1.0, -1.0) if abs(x[k]) + abs(y[k]) > 1e-9}
    crowns = [t + whole for t in turns for whole in (0.0, math.tau, 2 * math.tau) if first <= t + whole <= last]
    return _Rim(centre, _vector(circle.Axis().Direction()), radius, tuple(_vector(curve.Value(t)) for t in crowns))


def _middle(corners: Sequence[Vector]) -> Vector:
    """The middle of the box round a face's corners."""
    xs, ys, zs = zip(*corners, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, (min(zs) + max(zs)) / 2


def _of_view(shape: cq.Shape, shown: Shown) -> Features:
    solid, toward = _measurable(shape), cross(shown.right, shown.up)
    end_on = [c for c in solid.cylinders if abs(dot(c.direction, toward)) > _END_ON]
    aside = [c for c in solid.cylinders if abs(dot(c.direction, toward)) <= _END_ON]
    rims = [r for r in solid.rims if abs(dot(r.axis, toward)) > _END_ON]
    lines = [_edge_on(f, shown) for f in solid.planes if abs(dot(f.direction, toward)) < _PARALLEL]
    lines += [_axis(c, shown) for c in aside]
    # a hole may lean a little: both ends of its axis count as its middle
    circles = {(end, c.radius) for c in end_on for end in _axis(c, shown)}
    circles |= {(_seen(r.centre, shown), r.radius) for r in rims}
    return Features(
        tuple(_seen(p, shown) for p in (*solid.corners, *(p for r in solid.rims for p in r.crowns))),
        tuple(lines),
        tuple(circles),
        tuple(_seen(p, shown) for p in solid.middles),
        tuple((_seen(c.point, shown), c.radius, *_along(c, toward)) for c in end_on),
    )


def _along(cylinder: _Face, toward: Vector) -> tuple[float, float]:
    """From where to where a cylinder reaches along the line of sight."""
    low = dot(cylinder.point, toward)
    high = low + cylinder.length * dot(cylinder.direction, toward)
    return min(low, high), max(low, high)


def _axis(cylinder: _Face, shown: Shown) -> tuple[Point, Point]:
    """The two ends of a cylinder's axis."""
    far = added(cylinder.point, scaled(cylinder.direction, cylinder.length))
    return _seen(cylinder.point, shown), _seen(far, shown)


def _edge_on(face: _Face, shown: Shown) -> tuple[Point, Point]:
    """The two ends of a face seen edge-on."""
    seen = [_seen(corner, shown) for corner in face.corners]
    first = seen[0]
    far = max(seen, key=lambda p: math.dist(p, first))
    return max(seen, key=lambda p: math.dist(p, far)), far


def _of_section(shape: cq.Shape, shown: Shown) -> Features:
    toward = cross(shown.right, shown.up)
    foot = scaled(toward, shown.at or 0.0)
    plane = gp_Pln(gp_Pnt(*foot), gp_Dir(*toward))
    cut = BRepAlgoAPI_Section(shape.wrapped, plane, False)
    cut.Build()
    points, lines, circles = [], [], []
    for edge in cq.Shape.cast(cut.Shape()).Edges():
        curve = BRepAdaptor_Curve(edge.wrapped)
        ends = [_seen(_vector(curve.Value(t)), shown) for t in (curve.FirstParameter(), curve.LastParameter())]
        points += ends
        if curve.GetType() == GeomAbs_Line:
            lines.append((ends[0], ends[1]))
        else:
            circles += _circle_through([_seen(p, shown) for p in _spread(curve)])
    return Features(tuple(points), tuple(lines), tuple(circles), ())


def _spread(curve: BRepAdaptor_Curve) -> list[Vector]:
    """Five points along a curve, its ends among them."""
    low, high = curve.FirstParameter(), curve.LastParameter()
    return [_vector(curve.Value(low + (high - low) * n / 4)) for n in range(5)]


def _circle_through(points: Sequence[Point]) -> list[tuple[Point, float]]:
    """The circle on which all the points lie; the kernel may give an arc of a section as a spline."""
    (ax, ay), (bx, by), (cx, cy) = points[0], points[2], points[-1]
    twice = 2.0 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(twice) < 1e-9:
        return []
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / twice
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / twice
    radius = math.dist((x, y), points[0])
    return [((x, y), radius)] if all(_on(p, (x, y), radius) for p in points) else []


def _vector(p: gp_Pnt | gp_Dir) -> Vector:
    return p.X(), p.Y(), p.Z()


def _seen(p: Vector, shown: Shown) -> Point:
    return dot(p, shown.right), dot(p, shown.up)


def _dot(p: Point, along: Point) -> float:
    return p[0] * along[0] + p[1] * along[1]


def _on(at: Point, centre: Point, radius: float) -> bool:
    return abs(math.dist(at, centre) - radius) <= FOUND


def _off(at: Point, p: Point, q: Point) -> float:
    """How far a point lies off a straight line between two others."""
    u, v = q[0] - p[0], q[1] - p[1]
    share = ((at[0] - p[0]) * u + (at[1] - p[1]) * v) / (u * u + v * v) if u or v else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(at, (p[0] + share * u, p[1] + share * v))
