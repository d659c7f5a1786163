"""Hidden-line views of placed solids: exact curves from the kernel, then one line for each line seen.

All shapes go through the kernel's exact algorithm as ONE compound (adding them one by one is up to ten times
slower). The edges are taken back in space, not as flattened by the kernel, so that a circle is still known to be a
circle, an edge-on circle becomes a plain line, and the depth is at hand to find edges buried in closed joints.

This module imports the CAD kernel.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape, HLRBRep_TypeOfResultingEdge
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Shape
from OCP.TopTools import TopTools_IndexedMapOfShape

from drawings.views.arcs import Arcs
from drawings.views.axes import frame, in_view
from drawings.views.buried import Occluders
from drawings.views.curves import View, ViewSpec
from drawings.views.edges import EdgesInView
from drawings.views.facets import triangles
from drawings.views.merge import merge
from model.tolerance import FACET

Array = NDArray[np.float64]

#: What is drawn: sharp edges and outlines, not the smooth joins between faces of one surface.
_SHARP, _OUTLINE = HLRBRep_TypeOfResultingEdge.HLRBRep_Sharp, HLRBRep_TypeOfResultingEdge.HLRBRep_OutLine

_LINE, _CIRCLE = GeomAbs_CurveType.GeomAbs_Line, GeomAbs_CurveType.GeomAbs_Circle

#: Largest turn between facets of a free curve, radians.
_FACET_TURN = 0.2


def project_views(
    shapes: Sequence[cq.Shape], specs: Sequence[ViewSpec], hidden: Collection[str] = ()
) -> dict[str, View]:
    """Views of `shapes`, which are already placed, by name; `hidden` names the views that want hidden lines.

    Oblique views are also rid of edges buried in closed joints, which the kernel draws as if they were seen.
    Raises ValueError when there is no shape.
    """
    if not shapes:
        raise ValueError("there is nothing to draw: no shapes were given")
    compound = cq.Compound.makeCompound(shapes).wrapped
    facets = triangles(shapes) if any(spec.oblique for spec in specs) else np.empty((0, 3, 3))
    return {spec.name: _view(compound, facets, spec, spec.name in hidden) for spec in specs}


def buried_length(shapes: Sequence[cq.Shape], spec: ViewSpec) -> tuple[float, float]:
    """The audit of the kernel's pass: length drawn as visible though wood lies before it, and all it drew, mm."""
    drawn = _edges(_hidden_line_pass(cq.Compound.makeCompound(shapes).wrapped, spec), spec, visible=True)
    kept = drawn.unburied(_occluders(triangles(shapes), spec))
    return drawn.drawn_length() - kept.drawn_length(), drawn.drawn_length()


def _view(compound: TopoDS_Shape, facets: Array, spec: ViewSpec, with_hidden: bool) -> View:
    found = _hidden_line_pass(compound, spec)
    seen = _edges(found, spec, visible=True)
    if spec.oblique:
        seen = seen.unburied(_occluders(facets, spec))
    unseen = _edges(found, spec, visible=False) if with_hidden else EdgesInView(np.empty((0, 2, 3)))
    return View(spec.name, spec.direction, spec.right, *merge(seen.linework(), unseen.linework()))


def looking_from(compounds: Sequence[TopoDS_Shape], spec: ViewSpec) -> HLRBRep_Algo:
    """The kernel's exact algorithm with its edges and outlines ready, nothing hidden yet."""
    exact = HLRBRep_Algo()
    for compound in compounds:
        exact.Add(compound)
    exact.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*spec.direction), gp_Dir(*spec.right))))
    exact.Update()
    return exact


def visible_edges(found: HLRBRep_HLRToShape, spec: ViewSpec, of: TopoDS_Shape | None = None) -> EdgesInView:
    """The edges that the kernel takes for seen, all or `of` one compound, in view coordinates."""
    return _edges(found, spec, True, of)


def _hidden_line_pass(compound: TopoDS_Shape, spec: ViewSpec) -> HLRBRep_HLRToShape:
    exact = looking_from([compound], spec)
    exact.Hide()
    return HLRBRep_HLRToShape(exact)


def _occluders(facets: Array, spec: ViewSpec) -> Occluders:
    return Occluders(in_view(facets, spec))


def _edges(found: HLRBRep_HLRToShape, spec: ViewSpec, visible: bool, of: TopoDS_Shape | None = None) -> EdgesInView:
    turn = frame(spec)
    lines: list[tuple[float, ...]] = []
    arcs: list[tuple[float, ...]] = []
    free: list[Array] = []
    for curve in _curves(found, visible, of):
        kind = curve.GetType()
        if kind == _LINE:
            lines.append(_ends(curve))
        elif kind == _CIRCLE:
            arcs.append(_arc(curve))
        else:
            free.append(_facetted(curve) @ turn)
    return EdgesInView(_once(lines, 6).reshape(-1, 2, 3) @ turn, _turned(_once(arcs, 12), turn), free)


def _curves(found: HLRBRep_HLRToShape, visible: bool, of: TopoDS_Shape | None) -> Iterator[BRepAdaptor_Curve]:
    """Curves in space, all or `of` one compound. Asked for outlines in space, the kernel gives those of the sharp edges
    again that are outlines too, so it is asked only where it has others, which alone it gives on the flat."""
    which = () if of is None else (of,)
    yield from map(BRepAdaptor_Curve, _each_edge(found.CompoundOfEdges(*which, _SHARP, visible, True)))
    if next(_each_edge(found.CompoundOfEdges(*which, _OUTLINE, visible, False)), None) is not None:
        yield from map(BRepAdaptor_Curve, _each_edge(found.CompoundOfEdges(*which, _OUTLINE, visible, True)))


def _each_edge(edges: TopoDS_Shape | None) -> Iterator[TopoDS_Edge]:
    if edges is None or edges.IsNull():
        return
    every = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(edges, TopAbs_EDGE, every)
    for number in range(1, every.Extent() + 1):
        yield TopoDS.Edge(every.FindKey(number))


def _ends(curve: BRepAdaptor_Curve) -> tuple[float, ...]:
    start, end = curve.Value(curve.FirstParameter()), curve.Value(curve.LastParameter())
    return (*start.Coord(), *end.Coord())


def _arc(curve: BRepAdaptor_Curve) -> tuple[float, ...]:
    """Centre, directions of its two axes, radius, first and last angle."""
    circle, frame = curve.Circle(), curve.Circle().Position()
    axes = *frame.XDirection().Coord(), *frame.YDirection().Coord()
    return *frame.Location().Coord(), *axes, circle.Radius(), curve.FirstParameter(), curve.LastParameter()


def _once(rows: list[tuple[float, ...]], wide: int) -> Array:
    """A table (n, wide) of different rows."""
    return np.array(list(dict.fromkeys(rows))).reshape(-1, wide)


def _turned(arcs: Array, turn: Array) -> Arcs:
    """Rows of `_arc` as arcs of the view."""
    centre, x, y = (arcs[:, n : n + 3] @ turn for n in (0, 3, 6))
    radius, start, end = arcs[:, 9:10], arcs[:, 10], arcs[:, 11]
    return Arcs(centre, radius * x, radius * y, start, end)


def _facetted(curve: BRepAdaptor_Curve) -> Array:
    start, end = curve.FirstParameter(), curve.LastParameter()
    walk = GCPnts_TangentialDeflection(curve, start, end, _FACET_TURN, FACET, 2)
    return np.array([_triple(walk.Value(n)) for n in range(1, walk.NbPoints() + 1)])


def _triple(at: gp_Pnt | gp_Dir) -> Array:
    return np.array(at.Coord())
