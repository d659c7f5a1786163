"""A solid's skin as facets that say how far they may stray from it. This module imports the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.GeomAbs import GeomAbs_Line, GeomAbs_Plane
from OCP.Poly import Poly_Triangulation
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE, TopAbs_REVERSED
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape

Numbers = NDArray[np.float64]

#: How far a facet may stray from a curved skin, mm: at first, and where that leaves a question open.
COARSE, FINE = 0.05, 0.004

#: How far one facet may turn from the next, radians; so much that the straying alone decides.
TURN = 0.5


@dataclass(frozen=True, eq=False)
class Facets:
    """corners (n, 3, 3), mm, each facet anticlockwise from outside; stray (n,): how far it may leave the skin, mm,
    0 for one of a flat face that no curved edge bounds there; face (n,): the number of its face; normals (n, 3):
    outward, as long as twice the facet's area over its longest side: how wide it is; flat (n,): whether its face is,
    so that it strays in its own plane only."""

    corners: Numbers
    stray: Numbers
    face: NDArray[np.intp]
    normals: Numbers
    flat: NDArray[np.bool_]

    @cached_property
    def points(self) -> Numbers:
        """Every corner once (n, 3)."""
        unique: Numbers = np.unique(self.corners.reshape(-1, 3), axis=0)
        return unique

    @cached_property
    def farthest_stray(self) -> float:
        """The most that any of them strays, mm."""
        return float(self.stray.max(initial=0.0))

    @cached_property
    def facing(self) -> Numbers:
        """The normals at length one (n, 3)."""
        lengths = np.sqrt(np.einsum("nk,nk->n", self.normals, self.normals))
        unit: Numbers = self.normals / np.maximum(lengths, 1e-12)[:, None]
        return unit

    @cached_property
    def bounds(self) -> tuple[Numbers, Numbers]:
        """Least and greatest corner of a box that holds the skin, straying allowed for, mm."""
        stray = self.stray[:, None, None]
        return (self.corners - stray).min(axis=(0, 1)), (self.corners + stray).max(axis=(0, 1))

    def only(self, kept: NDArray[Any]) -> Facets:
        """The facets chosen by a mask or by their numbers."""
        return Facets(self.corners[kept], self.stray[kept], self.face[kept], self.normals[kept], self.flat[kept])


def facets(own: TopoDS_Shape) -> Facets:
    """Facets of a solid in its own frame, COARSE where it curves. Solids that share their geometry share their facets,
    and keep no trace of the meshing."""
    known = _known(own.TShape())
    if not known:
        copy = BRepBuilderAPI_Copy(own, False, False).Shape()
        BRepMesh_IncrementalMesh(copy, COARSE, False, TURN, False)
        faces = enumerate(_explored(copy, TopAbs_FACE))
        known.append(together([_face_facets(TopoDS.Face_s(face), n, COARSE) for n, face in faces]))
    return known[0]


def fine_facets(own: TopoDS_Shape, numbers: Iterable[int], stray: float = FINE) -> Facets:
    """Facets of some faces of a solid, by their numbers, that stray no more than so much, mm."""
    known = _known_faces(own.TShape())
    wanted = sorted(set(numbers))
    if not known.keys() >= {(n, stray) for n in wanted}:
        for n, face in enumerate(_explored(own, TopAbs_FACE)):
            if n in wanted and (n, stray) not in known:
                copy = TopoDS.Face_s(BRepBuilderAPI_Copy(face, False, False).Shape())
                BRepMesh_IncrementalMesh(copy, stray, False, TURN, False)
                known[n, stray] = _face_facets(copy, n, stray)
    return together([known[n, stray] for n in wanted])


def finer(own: TopoDS_Shape, numbers: Iterable[int], stray: float) -> Facets:
    """All facets of a solid, those of some faces, by their numbers, straying no more than so much, mm."""
    skin, wanted = facets(own), sorted({int(n) for n in numbers})
    return together([skin.only(~np.isin(skin.face, wanted)), fine_facets(own, wanted, stray)])


def together(sets: Sequence[Facets]) -> Facets:
    """Several sets of facets as one."""
    if not sets:
        none = np.empty(0)
        return Facets(np.empty((0, 3, 3)), none, none.astype(np.intp), np.empty((0, 3)), none.astype(np.bool_))
    names = ("corners", "stray", "face", "normals", "flat")
    return Facets(*(np.concatenate([getattr(s, name) for s in sets]) for name in names))


@lru_cache(maxsize=2048)
def _known(geometry: Any) -> list[Facets]:
    """A place to keep a geometry's facets, empty at first."""
    return []


@lru_cache(maxsize=2048)
def _known_faces(geometry: Any) -> dict[tuple[int, float], Facets]:
    return {}


def _explored(shape: TopoDS_Shape, kind: object) -> Iterator[TopoDS_Shape]:
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def _face_facets(face: TopoDS_Face, number: int, stray: float) -> Facets:
    location = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face, location)
    if mesh is None:
        return together([])
    motion = location.Transformation()
    nodes = (mesh.Node(n).Transformed(motion) for n in range(1, mesh.NbNodes() + 1))
    points = np.array([(p.X(), p.Y(), p.Z()) for p in nodes])
    corners = np.array([mesh.Triangle(n).Get() for n in range(1, mesh.NbTriangles() + 1)]) - 1
    curved = _on_curved_edges(face, mesh, location)[corners].sum(axis=1) > 1.0
    flat = BRepAdaptor_Surface(face, False).GetType() == GeomAbs_Plane
    if not flat:
        curved[:] = True
    outward = corners[:, ::-1] if face.Orientation() == TopAbs_REVERSED else corners
    facing = points[outward]
    of_face = np.full(len(corners), number, dtype=np.intp), _normals(facing), np.full(len(corners), flat)
    return Facets(facing, stray * curved, *of_face)


def _normals(corners: Numbers) -> Numbers:
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    longest = np.sqrt(np.maximum.reduce([(e**2).sum(axis=1) for e in (a, b, b - a)]))
    normal: Numbers = np.cross(a, b) / np.maximum(longest, 1e-12)[:, None]
    return normal


def _on_curved_edges(face: TopoDS_Face, mesh: Poly_Triangulation, location: TopLoc_Location) -> Numbers:
    """1 for each node that lies on a curved edge, 0 for the others."""
    on = np.zeros(mesh.NbNodes())
    for found in _explored(face, TopAbs_EDGE):
        edge = TopoDS.Edge_s(found)
        if BRep_Tool.Degenerated_s(edge) or BRepAdaptor_Curve(edge).GetType() == GeomAbs_Line:
            continue
        polygon = BRep_Tool.PolygonOnTriangulation_s(edge, mesh, location)
        if polygon is not None:
            on[[polygon.Node(n) - 1 for n in range(1, polygon.NbNodes() + 1)]] = 1.0
    return on
