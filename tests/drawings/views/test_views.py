"""Hidden-line views of solids, witnessed by hand-known positions and by the kernel's own flattened drawing."""

import math
from itertools import pairwise

import cadquery as cq
import numpy as np
import pytest
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.BRepTools import BRepTools
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from shapely import LineString, union_all

from drawings.views.curves import BACK, FRONT, LEFT, PICTORIAL, RIGHT, TOP, Chain, CircularArc, Segment, looking
from drawings.views.project import buried_length, project_views
from model.tolerance import FACET

ALL = [FRONT, BACK, LEFT, RIGHT, TOP, PICTORIAL]


def box(x, y, z, at=(0, 0, 0)):
    return cq.Workplane().box(x, y, z, centered=False).translate(at)


@pytest.fixture(scope="module")
def bookcase():
    """Two sides with stopped, round-ended dadoes 9 mm deep, and three shelves with tongues that fill them."""
    thick, deep, inside, stop = 18.0, 300.0, 564.0, 30.0
    heights = [40.0, 400.0, 760.0]

    def tongue(z, x, length):
        start = cq.Workplane("YZ", origin=(x, 0, z + thick / 2)).center(stop + (deep + thick) / 2, 0)
        return start.slot2D(deep + thick, thick).extrude(length)

    side = box(thick, deep, 1200)
    for z in heights:
        side = side.cut(tongue(z, thick / 2, thick / 2))
    through = tongue(0, -thick / 2, inside + thick).intersect(box(inside + thick, deep, thick, (-thick / 2, 0, 0)))
    shelf = box(inside, deep, thick).union(through).val()
    left = side.val()
    right = left.mirror("YZ").translate((2 * thick + inside, 0, 0))
    return [left, right, *(shelf.moved(cq.Location((thick, 0, z))) for z in heights)]


@pytest.fixture(scope="module")
def curved_seat():
    """An arc-backed seat and rail between sides that toe in, each with a hole and a shaped front; mirrored sides."""
    radius, half = 2000.0, math.radians(20)
    centre_y = -radius * math.cos(half)

    def ring(inner, outer, height, z):
        far = 3 * outer
        fan = [(0, 0), (far * math.sin(half), far * math.cos(half)), (-far * math.sin(half), far * math.cos(half))]
        wedge = cq.Workplane().polyline(fan).close().extrude(height)
        return cq.Workplane().circle(outer).circle(inner).extrude(height).intersect(wedge).translate((0, centre_y, z))

    outline = cq.Workplane("YZ").lineTo(-400, 0).lineTo(-400, 500).threePointArc((-380, 560), (-330, 590))
    outline = outline.spline([(-210, 800), (-140, 1100)], includeCurrent=True).lineTo(0, 1100).close()
    side = outline.extrude(19).faces("<X").workplane(origin=(0, -150, 300)).hole(60).val()
    right = side.rotate((0, 0, 0), (0, 0, 1), -20).translate((radius * math.sin(half), 0, 0))
    seat = ring(radius - 395, radius, 19, 416).val()
    rail = ring(radius - 19, radius, 66, 1000).val()
    return [seat, rail, right, right.mirror("YZ")]


def as_lines(curves):
    """Everything as one shapely line set, arcs in quarter degrees."""

    def points(curve):
        if isinstance(curve, Segment):
            return [curve.p, curve.q]
        if isinstance(curve, Chain):
            return curve.points
        return [curve.at(a) for a in np.linspace(curve.start_deg, curve.end_deg, 1441)]

    return union_all([LineString(points(curve)) for curve in curves])


def test_a_box_is_four_lines_from_every_side():
    views = project_views([box(30, 20, 10).val()], ALL[:-1], {spec.name for spec in ALL})
    sizes = {name: view.bounds for name, view in views.items()}
    assert sizes == {
        "front": (0, 0, 30, 10),
        "back": (-30, 0, 0, 10),
        "left": (-20, 0, 0, 10),
        "right": (0, 0, 20, 10),
        "top": (0, 0, 30, 20),
    }
    assert all((len(view.visible), len(view.hidden)) == (4, 0) for view in views.values())


def test_a_box_seen_from_a_corner_shows_nine_edges():
    view = project_views([box(30, 20, 10).val()], [PICTORIAL], {"pictorial"})["pictorial"]
    assert (len(view.visible), len(view.hidden)) == (9, 3)
    foot = view.project((30, 0, 0))
    assert min(math.dist(foot, end) for line in view.visible for end in (line.p, line.q)) < 2e-6


@pytest.mark.parametrize("spec", ALL, ids=lambda spec: spec.name)
def test_axes_are_a_right_handed_square_frame(spec):
    frame = np.array([spec.right, spec.up, spec.direction])
    assert frame @ frame.T == pytest.approx(np.eye(3))
    assert np.linalg.det(frame) == pytest.approx(1)
    assert spec.up[2] > 0 or spec is TOP


def test_a_vertical_direction_needs_its_own_right_vector():
    with pytest.raises(ValueError, match="right vector"):
        looking("plan", (0, 0, 1))


def test_nothing_to_draw_is_refused():
    with pytest.raises(ValueError, match="nothing to draw"):
        project_views([], [FRONT])


def test_a_hole_is_a_true_circle_and_edge_on_two_hidden_lines():
    plate = cq.Workplane().box(100, 60, 18).faces(">Z").workplane().center(20, 5).hole(12).val()
    views = project_views([plate], [TOP, FRONT], {"top", "front"})
    assert CircularArc((20.0, 5.0), 6.0, 0.0, 360.0) in views["top"].visible
    assert views["top"].hidden == ()
    assert views["front"].hidden == (Segment((14.0, -9.0), (14.0, 9.0)), Segment((26.0, -9.0), (26.0, 9.0)))
    assert len(views["front"].visible) == 4


def test_an_edge_on_half_round_reaches_as_far_as_it_bulges():
    half_round = cq.Workplane().moveTo(0, -10).threePointArc((10, 0), (0, 10)).close().extrude(5).val()
    view = project_views([half_round], [FRONT])["front"]
    assert view.bounds == (0, 0, 10, 5)
    assert all(isinstance(curve, Segment) for curve in view.visible)


@pytest.mark.parametrize("flip", ["XY", "YZ", "XZ"])
def test_mirrored_round_corners_stay_on_their_side(flip):
    corner = cq.Workplane().box(100, 60, 18).edges("|Z and >X and >Y").fillet(20).val()
    view = project_views([corner.mirror(flip)], [TOP])["top"]
    (arc,) = [curve for curve in view.visible if isinstance(curve, CircularArc)]
    sx, sy = (-1 if flip == "YZ" else 1), (-1 if flip == "XZ" else 1)
    assert arc.centre == (30 * sx, 10 * sy)
    assert arc.at((arc.start_deg + arc.end_deg) / 2) == pytest.approx((sx * 44.142136, sy * 24.142136))


def test_a_round_end_seen_askew_is_its_ellipse():
    rod = cq.Workplane().circle(40).extrude(10).rotate((0, 0, 0), (0, 1, 0), 30).val()
    chains = [curve for curve in project_views([rod], [TOP])["top"].visible if isinstance(curve, Chain)]
    middle = np.array([10 * math.sin(math.radians(30)), 0.0])
    near = [(np.array(chain.points) - middle) / [40 * math.cos(math.radians(30)), 40] for chain in chains]
    on_ellipse = [np.abs(np.hypot(*points.T) - 1).max() for points in near]
    assert min(on_ellipse) < 1e-6


@pytest.mark.parametrize("shapes", ["bookcase", "curved_seat"])
@pytest.mark.parametrize("spec", [FRONT, TOP, RIGHT], ids=lambda spec: spec.name)
def test_draws_what_the_kernel_draws_flat(shapes, spec, request):
    shapes = request.getfixturevalue(shapes)
    view = project_views(shapes, [spec], {spec.name})[spec.name]
    ours = as_lines(view.visible)
    kernels, kernels_hidden = kernel_drawing(shapes, spec)
    assert ours.difference(kernels.buffer(3 * FACET)).length < 0.01
    assert kernels.difference(ours.buffer(3 * FACET)).length < 0.01
    everything = ours.union(as_lines(view.hidden)) if view.hidden else ours
    assert kernels_hidden.difference(everything.buffer(3 * FACET)).length < 0.01


def kernel_drawing(shapes, spec):
    """Visible and hidden lines of the kernel's flat result, without any merging."""
    pass_ = HLRBRep_Algo()
    pass_.Add(cq.Compound.makeCompound(shapes).wrapped)
    pass_.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*spec.direction), gp_Dir(*spec.right))))
    pass_.Update()
    pass_.Hide()
    flat = HLRBRep_HLRToShape(pass_)
    return sampled(flat.VCompound(), flat.OutLineVCompound()), sampled(flat.HCompound(), flat.OutLineHCompound())


def sampled(*compounds):
    lines = []
    for compound in compounds:
        if compound is not None and not compound.IsNull():
            BRepLib.BuildCurves3d_s(compound)
            curves = [BRepAdaptor_Curve(edge.wrapped) for edge in cq.Shape.cast(compound).Edges()]
            lines += [LineString(points(curve)) for curve in curves]
    return union_all(lines)


def points(curve):
    at = [curve.Value(u) for u in np.linspace(curve.FirstParameter(), curve.LastParameter(), 60)]
    return [(point.X(), point.Y()) for point in at]


@pytest.mark.parametrize("shapes", ["bookcase", "curved_seat"])
def test_no_line_is_drawn_twice(shapes, request):
    view = project_views(request.getfixturevalue(shapes), [FRONT], {"front"})["front"]
    straight = [curve for curve in (*view.visible, *view.hidden) if isinstance(curve, Segment)]
    ribbons = [LineString([curve.p, curve.q]).buffer(2e-4, cap_style="flat") for curve in straight]
    crossings = [a.intersection(b).bounds for i, a in enumerate(ribbons) for b in ribbons[:i] if a.intersects(b)]
    assert all(math.dist(box[:2], box[2:]) < 0.1 for box in crossings if box)


def test_front_of_the_bookcase_hides_only_the_joints(bookcase):
    view = project_views(bookcase, [FRONT], {"front"})["front"]
    tongue = 2 * 9.0 + 18.0
    assert sum(curve.length for curve in view.hidden) == pytest.approx(3 * 2 * tongue)


def test_hidden_lines_only_where_asked_for(bookcase):
    views = project_views(bookcase, [FRONT, RIGHT], {"right"})
    assert not views["front"].hidden
    assert views["right"].hidden


def test_the_audit_finds_the_edges_buried_in_closed_joints(bookcase):
    buried, drawn = buried_length(bookcase, PICTORIAL)
    assert 0.002 < buried / drawn < 0.02
    assert buried_length(bookcase, FRONT)[0] == 0


def test_pictorial_leaves_out_what_is_buried_and_nothing_else(bookcase):
    kernels, _ = kernel_drawing(bookcase, PICTORIAL)
    view = project_views(bookcase, [PICTORIAL])["pictorial"]
    left_out = kernels.difference(as_lines(view.visible).buffer(0.1))
    round_ends = [
        LineString([view.project((x, 30 + 9 - 9 * math.cos(a), z + 9 + 9 * math.sin(a))) for a in turns()])
        for x in (9, 18, 582, 591)
        for z in (40, 400, 760)
    ]
    assert left_out.length > 3 * 15
    assert all(isinstance(curve, Segment) for curve in view.visible)  # every round end is in a closed joint
    assert left_out.difference(union_all(round_ends).buffer(0.2)).length < 0.01


def turns():
    return np.linspace(-math.pi / 2, math.pi / 2, 60)


def test_pictorial_of_curved_work_loses_no_line(curved_seat):
    free_standing = [shape.translate((0, 0, 0)) for shape in curved_seat[:1]] + [
        curved_seat[2].translate((300, 0, 0)),
        curved_seat[3].translate((-300, 0, 0)),
    ]
    kernels, _ = kernel_drawing(free_standing, PICTORIAL)
    view = project_views(free_standing, [PICTORIAL])["pictorial"]
    assert kernels.difference(as_lines(view.visible).buffer(3 * FACET)).length < 0.05


@pytest.mark.parametrize("direction", [(0.55, -0.75, 0.45), (-1, -1, 1), (0.2, -0.9, 0.1), (1, 0.3, 2)])
def test_outlines_of_round_work_are_not_taken_for_buried(direction):
    waisted = cq.Workplane("XZ").lineTo(60, 0).threePointArc((20, 100), (30, 400)).lineTo(0, 400).close()
    bowl = cq.Workplane("XZ").moveTo(50, 0).threePointArc((90, 30), (100, 80)).lineTo(90, 80)
    bowl = bowl.threePointArc((80, 35), (40, 10)).lineTo(0, 10).lineTo(0, 0).close()
    for profile in (waisted, bowl):
        turned = profile.revolve(360, (0, 0, 0), (0, 1, 0)).val()
        buried, drawn = buried_length([turned], looking("askew", direction))
        assert drawn > 500
        assert buried < 0.001 * drawn


def test_looking_at_a_piece_leaves_no_mesh_on_it():
    rod = cq.Workplane().circle(40).extrude(10).val()
    project_views([rod], [PICTORIAL])
    assert not BRepTools.Triangulation_s(rod.wrapped, 1.0)


def test_same_piece_same_drawing(curved_seat):
    first, second = (project_views(curved_seat, [PICTORIAL, FRONT], {"front"}) for _ in range(2))
    assert first == second
    for view in first.values():
        kinds = [(Segment, CircularArc, Chain).index(type(curve)) for curve in view.visible]
        assert kinds == sorted(kinds)
        assert all(a <= b for a, b in pairwise(view.visible) if type(a) is type(b))
