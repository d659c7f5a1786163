"""Straight ways between plain solids whose meeting is known by arithmetic."""

import math

import cadquery as cq
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.solids.stood_solid import stood_solids
from model.checks.travel.sweep import first_meeting, runs_into
from model.placement import Placement, unit


def box(x, y, z, dx, dy, dz):
    return cq.Workplane().box(dx, dy, dz, centered=False).translate((x, y, z)).val()


def met(a, b, along, reach=None):
    first, second = stood_solids({"a": a, "b": b})
    relative = second.at.seen_from(first.at)
    if reach is None:
        return runs_into(first, second, relative, unit(along))
    return first_meeting(first, second, relative, unit(along), reach)


@given(st.floats(-60, 60), st.floats(-60, 60), st.floats(0.5, 300))
def test_a_box_runs_into_another_just_when_their_shadows_meet(dy, dz, off):
    a, b = box(0, 0, 0, 40, 40, 40), box(40 + off, dy, dz, 10, 15, 25)
    inside = min(40 - dy, dy + 15, 40 - dz, dz + 25)
    if abs(inside) < 0.03:
        return
    assert (met(a, b, (1, 0, 0)) is not None) == (inside > 0)
    assert met(a, b, (-1, 0, 0)) is None
    first = met(a, b, (1, 0, 0), 500)
    assert (first is not None) == (inside > 0)
    if first is not None:
        assert first.travel == pytest.approx(off, abs=1e-6)
        assert met(a, b, (1, 0, 0), off - 0.1) is None


@pytest.mark.parametrize("deep", [0.005, 0.02, 1.0])
def test_a_tongue_slides_out_unless_something_reaches_over_its_end(deep):
    groove = cq.Workplane().box(60, 30, 18, centered=False).cut(cq.Workplane(box(-1, 20, 6, 70, 20, 6))).val()
    tongue = cq.Workplane(box(0, 20, 6, 60, 9, 6)).union(cq.Workplane(box(0, 30, 0, 60, 40, 18))).val()
    assert met(tongue, groove, (1, 0, 0)) is None
    assert met(tongue, groove, (0, 1, 0)) is None
    assert met(tongue, groove, (0, 0, 1)) is not None
    stop = box(80, 69.999 - deep, -10, 5, 40, 40)
    assert (met(tongue, stop, (1, 0, 0)) is not None) == (deep > 0.01)


@pytest.mark.parametrize("play", [0.0, -0.004, -0.1, 0.1])
@pytest.mark.parametrize("turned", [0.0, 11.3])
def test_a_dowel_slides_in_its_hole_and_no_thicker_one_does(play, turned):
    plate = cq.Workplane().box(40, 40, 20).faces(">Z").workplane().hole(10.0).val()
    dowel = (
        cq.Workplane().circle(5.0 - play).extrude(60).rotate((0, 0, 0), (0, 0, 1), turned).translate((0, 0, 10.0)).val()
    )
    assert (met(dowel, plate, (0, 0, -1)) is not None) == (play < -0.01)
    assert met(dowel, plate, (0, 0, 1)) is None


def test_a_dowel_deep_in_its_hole_can_only_go_along_it():
    plate = cq.Workplane().box(40, 40, 20).faces(">Z").workplane().hole(10.0).val()
    dowel = cq.Workplane().circle(5.0).extrude(60).translate((0, 0, -10)).val()
    assert met(dowel, plate, (0, 0, 1)) is None
    assert met(dowel, plate, (0.02, 0, 1)) is not None
    assert met(dowel, plate, (1, 0, 0)).travel == 0.0


@given(st.floats(5, 60), st.floats(0, 180), st.floats(1, 50))
def test_a_wedge_meets_a_slope_where_plane_geometry_says(slope, turn, off):
    rise = 100 * math.tan(math.radians(slope))
    ramp = cq.Workplane("XZ").polyline([(0, 0), (100, 0), (100, rise)]).close().extrude(-30).val()
    block = box(20, 5, rise + off, 30, 10, 10)
    turned = Placement().swung(turn, about=(0.0, 0.0))
    a, b = (s.rotate((0, 0, 0), (0, 0, 1), turn) for s in (block, ramp))
    down = met(a, b, (0, 0, -1), 1000)
    assert down.travel == pytest.approx(rise + off - rise * 0.5, abs=1e-5)
    back = turned.direction((1, 0, 0))
    assert met(a, b, back, 1000) is None
