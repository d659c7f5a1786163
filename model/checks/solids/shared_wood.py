"""The wood two solids share: exact, as solids of its own, each with its depth, volume and middle."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepClass import BRepClass_FaceClassifier
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepGProp import BRepGProp
from OCP.BRepTools import BRepTools
from OCP.gp import gp_Pnt, gp_Pnt2d, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_FACE, TopAbs_IN, TopAbs_REVERSED, TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape
from OCP.TopTools import TopTools_ListOfShape

from model.checks.solids.stood_solid import bounds_of, moved_to, vertex
from model.errors import DesignError
from model.placement import Placement, Vector, added, dot, scaled
from model.tolerance import SAME_POINT

#: Where on a face balls are tried, as fractions of its own u and v: near its ends, where a wedge is thickest, too.
STATIONS = (0.04, 0.12, 0.25, 0.5, 0.75, 0.88, 0.96)


#: The kernel's slack, mm. Sizes worked out from placements are rounded to 1e-6, so faces meant for one plane miss it by
#: about that much. Asked 1192 times about parts moved on purpose, the kernel lost 18 overlaps with no slack, 1 with
#: this, 3 with ten times as much.
SLACK = 1e-5


@dataclass(frozen=True)
class SharedWood:
    """One solid of shared wood: depth in mm, volume in mm3, middle in the first solid's own frame."""

    depth: float
    volume: float
    middle: Vector


def shared_wood(first: TopoDS_Shape, second: TopoDS_Shape, at: Placement, deeper: float) -> tuple[SharedWood, ...]:
    """Solids that `first` and `second`, which stands `at` in the first one's frame, share deeper than `deeper` mm.

    Raises DesignError if the kernel can't intersect them.
    """
    there = moved_to(second, at)
    # a no is asked twice, the second time the other way round: the kernel now and then overlooks shared wood
    solids = _common(first, there) or _common(there, first)
    found = (_measured(s, deeper) for s in solids)
    return tuple(sorted((f for f in found if f is not None), key=lambda f: (-round(f.depth, 3), -f.volume)))


def depth_of(solid: TopoDS_Shape) -> float:
    """Diameter in mm of the largest ball found inside a solid: how deep two parts run into each other.

    A slab is as deep as it is thick, a long wedge nearly as deep as its high end, a ring round a dowel as deep as its
    wall. Balls are laid against the boundary at stations on every face and shrunk until they lie inside (J. Ma,
    S. Bae, S. Choi, 3D medial axis point approximation using nearest neighbors, The Visual Computer 28, 2012), so the
    figure is never too large; it is exact for slabs and up to a tenth too small for wedges.
    """
    low, high = bounds_of(solid)
    room = min(b - a for a, b in zip(low, high, strict=True)) / 2.0
    nearest = _Nearest(next(_explored(solid, TopAbs_SHELL)))
    largest = 0.0
    for p, inward in (station for face in _faces(solid) for station in _stations(face)):
        if largest >= room - SAME_POINT:
            break  # no larger ball has room in the solid's box
        largest = max(largest, _ball(p, inward, room, largest, nearest))
    return 2.0 * largest


def _common(first: TopoDS_Shape, second: TopoDS_Shape) -> list[TopoDS_Shape]:
    arguments, tools = TopTools_ListOfShape(), TopTools_ListOfShape()
    arguments.Append(first)
    tools.Append(second)
    common = BRepAlgoAPI_Common()
    common.SetArguments(arguments)
    common.SetTools(tools)
    # parts are shared by many pairs: the kernel must not loosen their tolerances on the way
    common.SetNonDestructive(True)
    common.SetToFillHistory(False)
    common.SetFuzzyValue(SLACK)
    common.Build()
    if not common.IsDone():
        raise DesignError("the solids can't be intersected; check that each is one closed solid")
    return [TopoDS.Solid_s(s) for s in _explored(common.Shape(), TopAbs_SOLID)]


def _measured(solid: TopoDS_Shape, deeper: float) -> SharedWood | None:
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, properties)
    volume = abs(properties.Mass())
    low, high = bounds_of(solid)
    ball = math.pi / 6.0 * deeper**3
    if volume <= ball or min(b - a for a, b in zip(low, high, strict=True)) <= deeper:
        return None  # no ball of that depth has room
    depth = depth_of(solid)
    if depth <= deeper:
        return None
    middle = properties.CentreOfMass()
    return SharedWood(depth, volume, (middle.X(), middle.Y(), middle.Z()))


class _Nearest:
    """The boundary's nearest point to any other."""

    def __init__(self, boundary: TopoDS_Shape) -> None:
        self._measure = BRepExtrema_DistShapeShape()
        self._measure.LoadS1(boundary)

    def __call__(self, p: Vector) -> Vector:
        self._measure.LoadS2(vertex(p))
        self._measure.Perform()
        q = self._measure.PointOnShape1(1)
        return (q.X(), q.Y(), q.Z())


def _ball(p: Vector, inward: Vector, room: float, largest: float, nearest: _Nearest) -> float:
    """Radius of the largest ball inside that lies against the boundary at `p`, its middle `inward` from there; given
    up, with what it has come to, when it gets no larger than one found before."""
    radius = room
    for _ in range(40):
        middle = added(p, scaled(inward, radius))
        q = nearest(middle)
        across = added(q, scaled(p, -1.0))
        rise = dot(inward, across)
        if math.dist(q, middle) >= radius - 1e-7 or rise <= 0.0:
            return radius
        radius = dot(across, across) / (2.0 * rise)
        if radius <= largest:
            return radius
    return radius


def _faces(solid: TopoDS_Shape) -> Iterator[TopoDS_Face]:
    return (TopoDS.Face_s(f) for f in _explored(solid, TopAbs_FACE))


def _stations(face: TopoDS_Face) -> Iterator[tuple[Vector, Vector]]:
    """Points on a face, each with the unit normal into the wood."""
    u0, u1, v0, v1 = BRepTools.UVBounds_s(face)
    surface = BRepAdaptor_Surface(face)
    sign = 1.0 if face.Orientation() == TopAbs_REVERSED else -1.0
    for s in STATIONS:
        for t in STATIONS:
            u, v = u0 + s * (u1 - u0), v0 + t * (v1 - v0)
            if BRepClass_FaceClassifier(face, gp_Pnt2d(u, v), 1e-9).State() != TopAbs_IN:
                continue
            p, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
            surface.D1(u, v, p, along_u, along_v)
            normal = along_u.Crossed(along_v)
            if normal.Magnitude() > 1e-12:
                n = normal.Normalized()
                yield (p.X(), p.Y(), p.Z()), (sign * n.X(), sign * n.Y(), sign * n.Z())


def _explored(shape: TopoDS_Shape, kind: object) -> Iterator[TopoDS_Shape]:
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()
