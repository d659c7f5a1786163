"""Solids cut by a plane: the faces it leaves, as plane outlines, and what lies beyond it. Imports the CAD kernel."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import cadquery as cq
import numpy as np
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy, BRepBuilderAPI_MakeFace
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Ax2, gp_Ax3, gp_Dir, gp_Pln, gp_Pnt
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape

from drawings.views.curves import Point, Vector, View, ViewSpec
from drawings.views.project import project_views
from model.tolerance import FACET

#: Wider than any piece, mm.
_WIDE = 50_000.0


@dataclass(frozen=True)
class Loop:
    """A closed outline of a cut face, view mm: corners, and the bulge of the stretch that leaves each."""

    points: tuple[Point, ...]
    bulges: tuple[float, ...]


#: The outlines of one cut face, its outer one first.
CutFace = tuple[Loop, ...]


def cut_faces(shapes: Mapping[str, cq.Shape], spec: ViewSpec, depth: float) -> dict[str, list[CutFace]]:
    """The faces that the plane leaves of each placed solid it meets, by name, in the view's own coordinates.

    spec: looks square at the plane; depth: of the plane along spec.direction, mm. Arcs that lie in the plane stay arcs.
    """
    at = gp_Pnt(*(depth * c for c in spec.direction))
    plane = gp_Pln(gp_Ax3(at, gp_Dir(*spec.direction), gp_Dir(*spec.right)))
    face = BRepBuilderAPI_MakeFace(plane, -_WIDE, _WIDE, -_WIDE, _WIDE).Face()
    met = {name: shape for name, shape in shapes.items() if _meets(shape, spec, depth)}
    commons = {name: cq.Shape.cast(BRepAlgoAPI_Common(face, _copy(shape)).Shape()) for name, shape in met.items()}
    found = {name: [_outlines(f, spec) for f in common.Faces()] for name, common in commons.items()}
    return {name: faces for name, faces in found.items() if faces}


def cut_away(shapes: Mapping[str, cq.Shape], spec: ViewSpec, depth: float) -> tuple[dict[str, list[CutFace]], View]:
    """The cut faces as above, and the view of what lies beyond the plane, cut solids cut off at it.

    A plane that a part's own face lies in would take that for a cut face too; choose another.
    """
    halves = _halves({name: shape for name, shape in shapes.items() if _meets(shape, spec, depth)}, spec, depth)
    found = {n: [_outlines(f, spec) for f in h.Faces() if _in_plane(f, spec, depth)] for n, h in halves.items()}
    kept = [*halves.values(), *(s for s in shapes.values() if _reach(s, spec.direction)[1] <= depth)]
    view = project_views(kept, [spec])[spec.name] if kept else View(spec.name, spec.direction, spec.right)
    return {name: faces for name, faces in found.items() if faces}, view


def _halves(shapes: Mapping[str, cq.Shape], spec: ViewSpec, depth: float) -> dict[str, cq.Shape]:
    """What lies beyond the plane of each solid; equal solids that it cuts at the same place are cut once."""
    corner = gp_Ax2(gp_Pnt(*_far_corner(spec, depth)), gp_Dir(*spec.direction), gp_Dir(*spec.right))
    beyond = BRepPrimAPI_MakeBox(corner, 2.0 * _WIDE, 2.0 * _WIDE, _WIDE).Solid()
    made: dict[object, TopoDS_Shape] = {}
    halves = {}
    for name, shape in shapes.items():
        solid, place = shape.wrapped, shape.wrapped.Location()
        cut = solid.TShape(), solid.Orientation(), *_plane_within(place, spec, depth)
        if cut not in made:
            own = cq.Shape(solid.Located(TopLoc_Location()))
            made[cut] = BRepAlgoAPI_Common(_copy(own), beyond.Moved(place.Inverted())).Shape()
        halves[name] = cq.Shape.cast(made[cut].Moved(place))
    return halves


def _plane_within(place: TopLoc_Location, spec: ViewSpec, depth: float) -> tuple[float, ...]:
    """The plane of a section as a solid at `place` has it in its own frame: direction, and how far along it, mm."""
    back = place.Inverted().Transformation()
    facing = gp_Dir(*spec.direction).Transformed(back).Coord()
    on = gp_Pnt(*(depth * c for c in spec.direction)).Transformed(back).Coord()
    return tuple(round(c, 6) + 0.0 for c in (*facing, sum(a * b for a, b in zip(facing, on, strict=True))))


def _meets(shape: cq.Shape, spec: ViewSpec, depth: float) -> bool:
    low, high = _reach(shape, spec.direction)
    return low < depth < high


def _in_plane(face: cq.Face, spec: ViewSpec, depth: float) -> bool:
    if face.geomType() != "PLANE":
        return False
    plane = BRepAdaptor_Surface(face.wrapped).Plane()
    facing = abs(sum(a * b for a, b in zip(plane.Axis().Direction().Coord(), spec.direction, strict=True)))
    away = sum(a * b for a, b in zip(plane.Location().Coord(), spec.direction, strict=True))
    return facing > 1.0 - 1e-9 and abs(away - depth) < 1e-4


def _far_corner(spec: ViewSpec, depth: float) -> Vector:
    """The corner of the half space on the far side of the plane."""
    x, y, z = (
        (depth - _WIDE) * d - _WIDE * r - _WIDE * u for d, r, u in zip(spec.direction, spec.right, spec.up, strict=True)
    )
    return x, y, z


def solid_box(shape: cq.Shape) -> tuple[Vector, Vector]:
    """The least and greatest x, y and z of a placed solid, mm; a curved one's may be a little wide of it.

    The exact box takes the kernel up to 50 ms for a curved part, this one a fraction of one.
    """
    box = Bnd_Box()
    BRepBndLib.Add_s(shape.wrapped, box, False)
    x0, y0, z0, x1, y1, z1 = box.Get()
    return (x0, y0, z0), (x1, y1, z1)


def _reach(shape: cq.Shape, direction: Vector) -> tuple[float, float]:
    """How far a solid may reach along a direction, by its box."""
    low, high = solid_box(shape)
    ends = [sorted((d * a, d * b)) for d, a, b in zip(direction, low, high, strict=True)]
    return sum(a for a, _ in ends), sum(b for _, b in ends)


def _copy(shape: cq.Shape) -> TopoDS_Shape:
    """A boolean may loosen the tolerances of what it is given."""
    return BRepBuilderAPI_Copy(shape.wrapped).Shape()


def _outlines(face: Any, spec: ViewSpec) -> CutFace:
    return tuple(_loop(wire.wrapped, face.wrapped, spec) for wire in (face.outerWire(), *face.innerWires()))


def _loop(wire: Any, face: Any, spec: ViewSpec) -> Loop:
    points: list[Point] = []
    bulges: list[float] = []
    explorer = BRepTools_WireExplorer(wire, face)
    while explorer.More():
        edge = explorer.Current()
        backward = edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        for point, bulge in _stretches(BRepAdaptor_Curve(edge), backward, spec):
            points.append(point)
            bulges.append(bulge)
        explorer.Next()
    return Loop(tuple(points), tuple(bulges))


def _stretches(curve: BRepAdaptor_Curve, backward: bool, spec: ViewSpec) -> Iterator[tuple[Point, float]]:
    """The curve's points but its last, in the wire's own sense."""
    first, last = curve.FirstParameter(), curve.LastParameter()
    kind = curve.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        yield from _arc(curve, first, last, backward, spec)
        return
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        parameters = [first, last]
    else:
        walk = GCPnts_TangentialDeflection(curve, first, last, 0.2, FACET, 2)
        parameters = [walk.Parameter(n) for n in range(1, walk.NbPoints() + 1)]
    for t in reversed(parameters[1:]) if backward else parameters[:-1]:
        yield spec.project(curve.Value(t).Coord()), 0.0


def _arc(
    curve: BRepAdaptor_Curve, first: float, last: float, backward: bool, spec: ViewSpec
) -> Iterator[tuple[Point, float]]:
    """An arc in pieces of less than half a turn."""
    axis = np.array(curve.Circle().Axis().Direction().Coord())
    sense = (1.0 if float(axis @ np.array(spec.direction)) > 0.0 else -1.0) * (-1.0 if backward else 1.0)
    count = math.ceil((last - first) / 3.0)
    steps = np.linspace(last, first, count + 1) if backward else np.linspace(first, last, count + 1)
    bulge = sense * math.tan((last - first) / count / 4.0)
    for t in steps[:-1].tolist():
        yield spec.project(curve.Value(t).Coord()), bulge
