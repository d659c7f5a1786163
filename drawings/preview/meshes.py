"""What triangles show a part? Solids turned into meshes for the preview, with crisp faces and true edges.

A mesh stays in its part's own frame, so that equal parts share one mesh; a `PlacedMesh` stands it in the piece.
This module uses the CAD kernel.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.gp import gp_Trsf
from OCP.Poly import Poly_Triangulation
from OCP.StdPrs import StdPrs_ToolTriangulatedShape
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Shape
from OCP.TopTools import TopTools_IndexedMapOfShape

from model.tolerance import FACET

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Faces that meet at less than this show no edge between them: it is where a round runs into a flat.
SMOOTH_DEGREES = 15.0

#: Corners are kept to this many decimals of a millimetre, so that neighbouring faces end in the very same point.
DECIMALS = 6


@dataclass(frozen=True, eq=False)
class PartMesh:
    """The triangles of one part, in the part's own frame: x along the grain, y across, z through the thickness.

    vertices, normals: (n, 3) float, mm and unit vectors; each face has its own vertices.
    triangles: (m, 3) int, counter-clockwise seen from outside.
    edges: polylines, each (k, 3) float mm, along the edges that show.
    """

    vertices: Floats
    normals: Floats
    triangles: Integers
    edges: tuple[Floats, ...] = ()


@dataclass(frozen=True, eq=False)
class PlacedMesh:
    """A part's mesh standing in the piece.

    matrix: (4, 4) float, or its first three rows, part frame to piece frame, mm, Z up; colour: sRGB, each 0 to 1;
    group: what the part belongs to ("seat", "back"); kind: "part" or "hardware".
    """

    name: str
    mesh: PartMesh
    matrix: Floats
    colour: tuple[float, float, float]
    species: str = ""
    group: str = ""
    kind: str = "part"


@dataclass(frozen=True, eq=False)
class _Facets:
    """One face of the solid as triangles, and its border edges as rows of node numbers."""

    vertices: Floats
    normals: Floats
    triangles: Integers
    borders: tuple[tuple[TopoDS_Edge, Integers], ...]


@lru_cache(maxsize=4096)
def tessellate(shape: cq.Shape, sagitta: float = FACET, angle: float = 0.2) -> PartMesh:
    """The mesh of a solid; the same shape asked for twice gives the same mesh object.

    shape: in its part's frame, mm. sagitta: how far a facet may leave the surface, mm. angle: how far two
    neighbouring facets may turn, radians. The mesh is closed once equal vertices are merged. The shape itself is
    left untouched. Raises ValueError if the shape has no faces.
    """
    meshed = BRepBuilderAPI_Copy(shape.wrapped, False, False).Shape()
    BRepMesh_IncrementalMesh(meshed, sagitta, False, angle, False)
    faces = [_facets(face) for face in _faces(meshed)]
    if not faces:
        raise ValueError("there is nothing to mesh: the shape has no faces")
    return _joined(faces)


def _faces(shape: TopoDS_Shape) -> Iterator[TopoDS_Face]:
    explorer = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while explorer.More():
        yield TopoDS.Face_s(explorer.Current())
        explorer.Next()


def _edges(face: TopoDS_Face) -> Iterator[TopoDS_Edge]:
    explorer = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        yield TopoDS.Edge_s(explorer.Current())
        explorer.Next()


def _facets(face: TopoDS_Face) -> _Facets:
    location = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face, location)
    matrix = _matrix(location.Transformation())
    vertices = _coordinates(mesh.Node, mesh.NbNodes()) @ matrix[:, :3].T + matrix[:, 3]
    triangles = np.array([mesh.Triangle(i).Get() for i in range(1, mesh.NbTriangles() + 1)], dtype=np.int64) - 1
    if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
        triangles = triangles[:, ::-1]
    normals = _normals(face, mesh) @ matrix[:, :3].T
    return _Facets(vertices.round(DECIMALS), normals, triangles, tuple(_borders(face, mesh, location)))


def _matrix(move: gp_Trsf) -> Floats:
    return np.array([[move.Value(row, column) for column in range(1, 5)] for row in range(1, 4)])


def _coordinates(point: Callable[[int], Any], count: int) -> Floats:
    return np.array([point(i).Coord() for i in range(1, count + 1)], dtype=np.float64)


def _normals(face: TopoDS_Face, mesh: Poly_Triangulation) -> Floats:
    """Of the surface itself, so that a round looks round; they already point out of the solid."""
    StdPrs_ToolTriangulatedShape.ComputeNormals_s(face, mesh)
    normals = _coordinates(mesh.Normal, mesh.NbNodes())
    return -normals if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED else normals


def _borders(
    face: TopoDS_Face, mesh: Poly_Triangulation, location: TopLoc_Location
) -> Iterator[tuple[TopoDS_Edge, Integers]]:
    for edge in _edges(face):
        polygon = BRep_Tool.PolygonOnTriangulation_s(edge, mesh, location)
        if polygon is None or BRep_Tool.Degenerated_s(edge) or BRep_Tool.IsClosed_s(edge, face):
            continue
        yield edge, np.array([polygon.Node(i) for i in range(1, polygon.NbNodes() + 1)]) - 1


def _joined(faces: Sequence[_Facets]) -> PartMesh:
    starts = np.cumsum([0, *(len(face.vertices) for face in faces)])
    vertices = np.concatenate([face.vertices for face in faces])
    triangles = np.concatenate([face.triangles + start for face, start in zip(faces, starts, strict=False)])
    return PartMesh(
        vertices,
        np.concatenate([face.normals for face in faces]),
        triangles[_has_area(vertices, triangles)],
        tuple(_showing_edges(faces)),
    )


def _has_area(vertices: Floats, triangles: Integers) -> NDArray[np.bool_]:
    _, point = np.unique(vertices, axis=0, return_inverse=True)
    a, b, c = point.reshape(-1)[triangles].T
    return np.asarray((a != b) & (b != c) & (c != a))


def _showing_edges(faces: Sequence[_Facets]) -> Iterator[Floats]:
    known = TopTools_IndexedMapOfShape()
    sides: dict[int, list[tuple[Floats, Floats]]] = {}
    for face in faces:
        for edge, nodes in face.borders:
            number = known.Add(edge)
            sides.setdefault(number, []).append((face.vertices[nodes], face.normals[nodes]))
    for meeting in sides.values():
        if not _runs_smooth([normals for _, normals in meeting]):
            yield meeting[0][0]


def _runs_smooth(normals: Sequence[Floats]) -> bool:
    if len(normals) < 2:
        return False
    middles = [side[len(side) // 2] for side in normals]
    return all(float(a @ b) > np.cos(np.radians(SMOOTH_DEGREES)) for a, b in pairwise(middles))
