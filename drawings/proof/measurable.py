"""A solid as plain numbers, whichever way it is looked at: corners, planes, cylinders, rims. Read off by the kernel."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import cadquery as cq
from OCP.Bnd import Bnd_Box
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepBndLib import BRepBndLib
from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Line, GeomAbs_Plane
from OCP.gp import gp_Dir, gp_Pnt
from OCP.TopAbs import TopAbs_VERTEX
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape

from drawings.paper.measured import Vector
from model.placement import added, cross, dot, scaled

#: A curve is plane if all of it lies within this of one, mm.
_PLANE = 1e-4


def extent(shapes: Iterable[cq.Shape], direction: Vector) -> float:
    """How far solids reach along one of the axes, mm: their exact boxes, not a mesh's."""
    boxes = [_box(shape) for shape in shapes]
    size = [max(high[k] for _, high in boxes) - min(low[k] for low, _ in boxes) for k in range(3)]
    return abs(sum(s * abs(d) for s, d in zip(size, direction, strict=True)))


@lru_cache(maxsize=4096)
def _box(shape: cq.Shape) -> tuple[Vector, Vector]:
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape.wrapped, box, False, False)
    gap, low, high = box.GetGap(), box.CornerMin(), box.CornerMax()
    return (low.X() + gap, low.Y() + gap, low.Z() + gap), (high.X() - gap, high.Y() - gap, high.Z() - gap)


@dataclass(frozen=True)
class Face:
    """A plane by its normal or a cylinder by its axis, a point of that, radius and length; and the face's corners."""

    direction: Vector
    point: Vector
    radius: float
    length: float
    corners: tuple[Vector, ...]


@dataclass(frozen=True)
class Rim:
    """A circular edge: centre, axis, radius, and the points of it that lie furthest along the axes of the part."""

    centre: Vector
    axis: Vector
    radius: float
    crowns: tuple[Vector, ...]


@dataclass(frozen=True)
class Measurable:
    """A solid as plain numbers, whichever way it is looked at."""

    corners: tuple[Vector, ...]
    planes: tuple[Face, ...]
    cylinders: tuple[Face, ...]
    rims: tuple[Rim, ...]
    middles: tuple[Vector, ...]
    straight: tuple[tuple[Vector, Vector], ...]


@lru_cache(maxsize=4096)
def measurable(shape: cq.Shape) -> Measurable:
    """The solid read off its faces and edges; once for each shape."""
    faces = [(BRepAdaptor_Surface(f.wrapped), _corners(f.wrapped)) for f in shape.Faces()]
    planes = [(s.Plane().Axis().Direction(), s, c) for s, c in faces if s.GetType() == GeomAbs_Plane]
    rounds = [(f, BRepAdaptor_Surface(f.wrapped)) for f in shape.Faces() if f.geomType() == "CYLINDER"]
    mouths = [_corners(wire.wrapped) for face in shape.Faces() for wire in face.innerWires()]
    edges = [BRepAdaptor_Curve(e.wrapped) for e in shape.Edges()]
    straight = tuple(_ends(c) for c in edges if c.GetType() == GeomAbs_Line)
    return Measurable(
        _corners(shape.wrapped),
        tuple(Face(vector(n), c[0], 0.0, 0.0, c) for n, _, c in planes if c),
        tuple(_cylinder(f, s) for f, s in rounds),
        tuple(_rim(c) for c in edges if c.GetType() == GeomAbs_Circle),
        tuple(_middle(c) for c in (*straight, *(corners for _, corners in faces), *mouths) if c),
        straight,
    )


def _corners(face: TopoDS_Shape) -> tuple[Vector, ...]:
    """Of a face or a whole solid, each once."""
    found: dict[Vector, None] = {}
    explorer = TopExp_Explorer(face, TopAbs_VERTEX)
    while explorer.More():
        found[vector(BRep_Tool.Pnt_s(TopoDS.Vertex_s(explorer.Current())))] = None
        explorer.Next()
    return tuple(found)


def _ends(curve: BRepAdaptor_Curve) -> tuple[Vector, Vector]:
    return vector(curve.Value(curve.FirstParameter())), vector(curve.Value(curve.LastParameter()))


def _cylinder(face: cq.Face, surface: BRepAdaptor_Surface) -> Face:
    """By its middle line: where that meets the planes the wall ends at, square to it or not, if there are just two."""
    cylinder = surface.Cylinder()
    axis, origin = vector(cylinder.Axis().Direction()), vector(cylinder.Location())
    ends = [_crossed(BRepAdaptor_Curve(e.wrapped), axis, origin) for e in face.Edges() if e.geomType() != "LINE"]
    if len(ends) != 2 or None in ends:
        ends = [surface.FirstVParameter(), surface.LastVParameter()]
    low, high = sorted(end for end in ends if end is not None)
    start = added(origin, scaled(axis, low))
    return Face(axis, start, cylinder.Radius(), high - low, _corners(face.wrapped))


def _crossed(round_it: BRepAdaptor_Curve, axis: Vector, origin: Vector) -> float | None:
    """How far along a cylinder's axis the plane of a curve round it lies; None for one that is not plane."""
    low, high = round_it.FirstParameter(), round_it.LastParameter()
    a, b, c, d = (vector(round_it.Value(low + (high - low) * n / 4.0)) for n in range(4))
    normal = cross(_from(b, a), _from(c, a))
    if abs(dot(normal, _from(d, a))) > _PLANE * dot(normal, normal) ** 0.5 or abs(dot(normal, axis)) < _PLANE:
        return None
    return dot(normal, _from(a, origin)) / dot(normal, axis)


def _from(p: Vector, q: Vector) -> Vector:
    return added(p, scaled(q, -1.0))


def _rim(curve: BRepAdaptor_Curve) -> Rim:
    circle = curve.Circle()
    centre, radius = vector(circle.Location()), circle.Radius()
    x, y = vector(circle.XAxis().Direction()), vector(circle.YAxis().Direction())
    first, last = curve.FirstParameter(), curve.LastParameter()
    turns = {math.atan2(s * y[k], s * x[k]) for k in range(3) for s in (1.0, -1.0) if abs(x[k]) + abs(y[k]) > 1e-9}
    crowns = [t + whole for t in turns for whole in (0.0, math.tau, 2 * math.tau) if first <= t + whole <= last]
    return Rim(centre, vector(circle.Axis().Direction()), radius, tuple(vector(curve.Value(t)) for t in crowns))


def _middle(corners: Sequence[Vector]) -> Vector:
    """The middle of the box round a face's corners."""
    xs, ys, zs = zip(*corners, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, (min(zs) + max(zs)) / 2


def vector(p: gp_Pnt | gp_Dir) -> Vector:
    """The kernel's point or direction as three numbers."""
    return p.X(), p.Y(), p.Z()
