"""A solid where it stands, told apart from its place: shared wood in its own frame, and a placement."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import cadquery as cq
from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape

from model.checks.solids.near_pairs import StoodBox
from model.errors import DesignError
from model.placement import Placement, Vector

#: Distances remembered before they are forgotten.
MOST_REMEMBERED = 10_000


@dataclass(frozen=True)
class StoodSolid:
    """own: the solid in its own frame; at: where that frame stands; geometry: the same object for equal parts.

    box: holds it, in its own frame; true for straight-sided parts and a shade large for curved ones, mm.
    """

    name: str
    own: TopoDS_Shape
    geometry: Any
    box: StoodBox

    @property
    def at(self) -> Placement:
        return self.box.at


def stood_solids(shapes: Mapping[str, cq.Shape]) -> list[StoodSolid]:
    """Each placed shape taken apart into its solid and its place, by name."""
    bounds: dict[Any, tuple[Vector, Vector]] = {}
    found = []
    for name in sorted(shapes):
        placed = shapes[name].wrapped
        own = placed.Located(TopLoc_Location())
        geometry = own.TShape()
        if geometry not in bounds:
            bounds[geometry] = bounds_of(own)
        box = StoodBox(*bounds[geometry], _placement(placed.Location().Transformation()))
        found.append(StoodSolid(name, own, geometry, box))
    return found


def bounds_of(shape: TopoDS_Shape) -> tuple[Vector, Vector]:
    """Least and greatest corner of a box that holds a shape, mm."""
    around = Bnd_Box()
    BRepBndLib.Add_s(shape, around, False)
    x0, y0, z0, x1, y1, z1 = around.Get()
    return (x0, y0, z0), (x1, y1, z1)


def moved_to(shape: TopoDS_Shape, at: Placement) -> TopoDS_Shape:
    """The same shape at a placement, sharing its geometry."""
    motion = gp_Trsf()
    motion.SetTransformation(gp_Ax3(gp_Pnt(*at.origin), gp_Dir(*at.z), gp_Dir(*at.x)), gp_Ax3())
    return shape.Located(TopLoc_Location(motion))


def alike(at: Placement) -> tuple[float, ...]:
    """A placement as numbers that are the same for two this much alike: a millionth of a millimetre, and a thousandth
    of that in direction."""
    turned = (round(c, 9) + 0.0 for axis in (at.x, at.y, at.z) for c in axis)
    return (*turned, *(round(c, 6) + 0.0 for c in at.origin))


def distance(a: StoodSolid, b: StoodSolid) -> tuple[float, Vector]:
    """Least distance between two solids, mm, 0 where they touch or share wood; and a place midway between the points
    where they come so near. Measured once for equal solids in the same place to each other. Raises DesignError if the
    kernel finds none."""
    key = (a.geometry, b.geometry, alike(b.at.seen_from(a.at)))
    if key not in _distances:
        if len(_distances) > MOST_REMEMBERED:
            _distances.clear()
        _distances[key] = _distance(a, b)
    apart, midway = _distances[key]
    return apart, a.at.point(midway)


#: Distances measured before, and where, in the first solid's frame.
_distances: dict[Any, tuple[float, Vector]] = {}


def _distance(a: StoodSolid, b: StoodSolid) -> tuple[float, Vector]:
    measured = BRepExtrema_DistShapeShape(a.own, moved_to(b.own, b.at.seen_from(a.at)))
    if not measured.IsDone() or measured.NbSolution() < 1:
        raise DesignError(f"the distance between {a.name} and {b.name} can't be measured; check both solids")
    p, q = measured.PointOnShape1(1), measured.PointOnShape2(1)
    return float(measured.Value()), ((p.X() + q.X()) / 2.0, (p.Y() + q.Y()) / 2.0, (p.Z() + q.Z()) / 2.0)


def vertex(p: Vector) -> TopoDS_Shape:
    """A point as a shape of its own."""
    return BRepBuilderAPI_MakeVertex(gp_Pnt(*p)).Vertex()


def _placement(motion: gp_Trsf) -> Placement:
    columns = [tuple(motion.Value(row, column) for row in (1, 2, 3)) for column in (1, 2, 3, 4)]
    x, y, z, origin = ((c[0], c[1], c[2]) for c in columns)
    return Placement(origin, x, y, z)
