"""Facets of placed solids, each different shape meshed once in a run. This module imports the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.gp import gp_Trsf
from OCP.TopAbs import TopAbs_FACE, TopAbs_Orientation
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape, TopoDS_TShape

from model.tolerance import FACET

Array = NDArray[np.float64]

_FACET_TURN = 0.3


def triangles(shapes: Sequence[cq.Shape]) -> Array:
    """Facets (n, 3, 3) of all shapes where they are placed, mm; facet sagitta `tolerance.FACET`.

    Each runs anticlockwise as seen from outside. The shapes keep no trace of the meshing.
    """
    return np.concatenate(triangles_each(shapes))


def triangles_each(shapes: Sequence[cq.Shape]) -> list[Array]:
    """The same, shape by shape."""
    return [_placed_triangles(shape.wrapped) for shape in shapes]


def _placed_triangles(solid: TopoDS_Shape) -> Array:
    return _moved(_own_triangles(solid.TShape(), solid.Orientation()), solid.Location())


@lru_cache(maxsize=2048)
def _own_triangles(form: TopoDS_TShape, orientation: TopAbs_Orientation) -> Array:
    """Facets of a shape in its own frame. The views of a set all ask for those of the same few shapes."""
    solid = TopoDS_Shape()
    solid.TShape(form)
    solid.Orientation(orientation)
    # A mesh left on the shape would be taken for good enough by whoever wants a finer one next.
    copy = BRepBuilderAPI_Copy(solid, False, False).Shape()
    BRepMesh_IncrementalMesh(copy, FACET, False, _FACET_TURN, False)
    facets = np.concatenate([_face_triangles(face) for face in _faces(copy)])
    facets.setflags(write=False)
    return facets


def _faces(solid: TopoDS_Shape) -> Iterator[TopoDS_Face]:
    explorer = TopExp_Explorer(solid, TopAbs_FACE)
    while explorer.More():
        yield TopoDS.Face(explorer.Current())
        explorer.Next()


def _face_triangles(face: TopoDS_Face) -> Array:
    location = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face, location)
    if mesh is None:
        return np.empty((0, 3, 3))
    nodes = [mesh.Node(n) for n in range(1, mesh.NbNodes() + 1)]
    points = np.array([(node.X(), node.Y(), node.Z()) for node in nodes])
    corners = np.array([mesh.Triangle(n).Get() for n in range(1, mesh.NbTriangles() + 1)]) - 1
    if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
        corners = corners[:, ::-1]
    return _moved(points[corners], location)


def _moved(facets: Array, location: TopLoc_Location) -> Array:
    if location.IsIdentity():
        return facets
    move: gp_Trsf = location.Transformation()
    columns = np.array([[move.Value(row, column) for row in range(1, 4)] for column in range(1, 5)])
    moved = facets @ columns[:3] + columns[3]
    return moved[:, ::-1] if move.IsNegative() else moved
