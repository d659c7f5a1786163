"""Views against programs that did not draw them.

The area that the drawn outlines enclose is measured against the shadow of a trimesh mesh, and a pictorial view
against the kernel's other hidden-line algorithm, which works on facets and shares no code with the exact one
(HLRBRep_PolyAlgo, Open CASCADE reference manual, "Hidden Line Removal").
"""

import math

import cadquery as cq
import numpy as np
import pytest
import trimesh
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_PolyAlgo, HLRBRep_PolyHLRToShape
from shapely import LineString, box, polygons, union_all

from drawings.views.curves import FRONT, PICTORIAL, RIGHT, TOP, Chain, Segment
from drawings.views.project import project_views
from model.tolerance import FACET


@pytest.fixture(scope="module")
def stand():
    """A round-fronted shelf housed in two shaped sides that lean and toe in, on a turned foot."""
    shelf = cq.Workplane().moveTo(-300, 0).lineTo(300, 0).threePointArc((0, -260), (-300, 0)).close().extrude(18)
    shelf = shelf.faces(">Z").workplane().center(0, -120).hole(80).translate((0, 0, 400))
    outline = cq.Workplane("YZ").lineTo(-150, 0).spline([(-90, 300), (-120, 500)], includeCurrent=True)
    side = outline.threePointArc((-60, 560), (0, 500)).close().extrude(18)
    right = side.rotate((0, 0, 0), (0, 0, 1), -25).rotate((0, 0, 0), (0, 1, 0), 4).translate((270, 10, 0))
    right = right.cut(shelf)
    foot = cq.Workplane("XZ").lineTo(60, 0).threePointArc((20, 100), (30, 400)).lineTo(0, 400).close()
    foot = foot.revolve(360, (0, 0, 0), (0, 1, 0)).translate((0, -120, 0))
    return [shelf.val(), right.val(), right.val().mirror("YZ"), foot.val()]


def as_line(curve):
    if isinstance(curve, Segment):
        return LineString([curve.p, curve.q])
    if isinstance(curve, Chain):
        return LineString(curve.points)
    return LineString([curve.at(a) for a in np.linspace(curve.start_deg, curve.end_deg, 721)])


def mesh_shadow(shapes, spec):
    """The union of all mesh facets that face the eye, laid on the view plane."""
    meshes = []
    for shape in shapes:
        vertices, faces = shape.tessellate(0.01, 0.05)
        meshes.append(trimesh.Trimesh([vertex.toTuple() for vertex in vertices], faces))
    mesh = trimesh.util.concatenate(meshes)
    toward = mesh.triangles[mesh.face_normals @ np.array(spec.direction) > 1e-6]
    return union_all(polygons(toward @ np.array([spec.right, spec.up]).T), grid_size=1e-5)


def regions(curves):
    """What the lines enclose, as if drawn with a pen as wide as the gaps that facetted curves may leave."""
    pen = 2 * FACET
    strokes = union_all([as_line(curve) for curve in curves]).buffer(pen)
    paper = box(*strokes.buffer(10).bounds)
    return [region.buffer(pen) for region in paper.difference(strokes).geoms]


@pytest.mark.parametrize("spec", [FRONT, TOP, RIGHT, PICTORIAL], ids=lambda spec: spec.name)
def test_drawn_regions_are_the_shadow_of_the_mesh(stand, spec):
    shadow = mesh_shadow(stand, spec)
    drawn = regions(project_views(stand, [spec])[spec.name].visible)
    wood = union_all([region for region in drawn if shadow.contains(region.representative_point())])
    assert wood.area == pytest.approx(shadow.area, rel=0.001)
    assert wood.symmetric_difference(shadow).area < 0.001 * shadow.area


def test_the_facet_algorithm_sees_what_is_drawn_in_the_pictorial(stand):
    without_foot = stand[:3]  # the outline of a facetted turning is a zigzag
    ours = union_all([as_line(curve) for curve in project_views(without_foot, [PICTORIAL])["pictorial"].visible])
    theirs = facet_algorithm(without_foot, PICTORIAL)
    assert ours.difference(theirs.buffer(0.3)).length < 0.5
    assert theirs.difference(ours.buffer(0.3)).length < 0.5


def facet_algorithm(shapes, spec):
    """The visible lines of the kernel's facet algorithm."""
    compound = cq.Compound.makeCompound(shapes)
    BRepMesh_IncrementalMesh(compound.wrapped, 0.02, False, math.radians(3), False)
    pass_ = HLRBRep_PolyAlgo()
    pass_.Load(compound.wrapped)
    pass_.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*spec.direction), gp_Dir(*spec.right))))
    pass_.Update()
    found = HLRBRep_PolyHLRToShape()
    found.Update(pass_)
    lines = []
    for part in (found.VCompound(), found.OutLineVCompound()):
        edges = [] if part is None or part.IsNull() else cq.Shape.cast(part).Edges()
        lines += [LineString([edge.startPoint().toTuple()[:2], edge.endPoint().toTuple()[:2]]) for edge in edges]
    return union_all(lines)
