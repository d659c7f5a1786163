"""Shared wood against closed forms.

Volumes and depths by formula: boxes and plates by arithmetic; the lens of two equal spheres (a radius R, middles d
apart: V = pi (4R + d)(2R - d)^2 / 12, E. W. Weisstein, "Sphere-Sphere Intersection", MathWorld, eq. 16); two equal
cylinders crossing square (V = 16 r^3 / 3, Archimedes, The Method; Weisstein, "Steinmetz Solid"); two parallel
cylinders (A = 2 R^2 acos(d / 2R) - d sqrt(4R^2 - d^2) / 2, Weisstein, "Circle-Circle Intersection", eq. 14); the
inscribed circle of a triangle (r = 2A / perimeter, Euclid IV.4). Volumes agree to 1e-6 of themselves: the kernel
integrates exact surfaces.
"""

import math

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.solids.shared_wood import depth_of, shared_wood
from model.placement import Placement, place

FINE = 1e-6


def box(length, width, height):
    return cq.Workplane().box(length, width, height, centered=False).val().wrapped


def rod(radius, length):
    return cq.Workplane().circle(radius).extrude(length).val().wrapped


def ball(radius):
    return cq.Workplane().sphere(radius).val().wrapped


def only(first, second, at, deeper=0.01):
    (shared,) = shared_wood(first, second, at, deeper)
    return shared


@given(st.floats(0.02, 19.0), st.floats(1.0, 40.0), st.floats(1.0, 90.0))
@settings(max_examples=12, deadline=None)
def test_box_run_into_a_box(depth, across, along):
    shared = only(box(100, 50, 20), box(100, 50, 20), Placement((100 - along, 50 - across, 20 - depth)))
    assert shared.volume == pytest.approx(along * across * depth, rel=FINE)
    assert shared.depth == pytest.approx(min(along, across, depth), rel=1e-4)
    assert shared.middle == pytest.approx((100 - along / 2, 50 - across / 2, 20 - depth / 2), abs=1e-4)


@pytest.mark.parametrize("depth", [0.0, 0.001, 0.005, 0.0099])
def test_no_deeper_than_the_limit_is_none(depth):
    assert shared_wood(box(1000, 200, 19), box(1000, 200, 19), Placement((0, 0, 19 - depth)), 0.01) == ()


@pytest.mark.parametrize("depth", [0.0101, 0.011, 0.02])
def test_a_hair_over_the_limit_is_found(depth):
    shared = only(box(1000, 200, 19), box(1000, 200, 19), Placement((0, 0, 19 - depth)))
    assert shared.depth == pytest.approx(depth, abs=1e-6)


def test_rod_through_a_plate():
    shared = only(box(100, 100, 20), rod(5, 60), Placement((50, 50, -20)))
    assert shared.volume == pytest.approx(math.pi * 25 * 20, rel=FINE)
    assert shared.depth == pytest.approx(10.0, rel=1e-3)


@pytest.mark.parametrize("over", [0.012, 0.05, 0.4])
def test_dowel_too_stout_for_its_hole(over):
    hole = cq.Workplane().box(60, 60, 20, centered=(True, True, False)).faces(">Z").hole(10.0).val().wrapped
    shared = only(hole, rod(5 + over, 20), Placement())
    assert shared.volume == pytest.approx(math.pi * ((5 + over) ** 2 - 25) * 20, rel=1e-5)
    assert shared.depth == pytest.approx(over, rel=1e-3)


def test_dowel_that_just_fits_shares_nothing():
    hole = cq.Workplane().box(60, 60, 20, centered=(True, True, False)).faces(">Z").hole(10.0).val().wrapped
    assert shared_wood(hole, rod(5.0, 20), Placement(), 0.01) == ()


@pytest.mark.parametrize("apart", [10.0, 30.0, 39.0])
def test_lens_of_two_balls(apart):
    shared = only(ball(20), ball(20), Placement((apart, 0, 0)))
    assert shared.volume == pytest.approx(math.pi * (80 + apart) * (40 - apart) ** 2 / 12, rel=1e-4)
    assert shared.depth == pytest.approx(40 - apart, rel=0.02)


def test_two_rods_crossing_square():
    shared = only(rod(5, 40), rod(5, 40), place((0, -20, 20), "right", "back"))
    assert shared.volume == pytest.approx(16 / 3 * 125, rel=1e-4)


@pytest.mark.parametrize("apart", [4.0, 8.0, 9.9])
def test_two_rods_side_by_side(apart):
    shared = only(rod(5, 40), rod(5, 40), Placement((apart, 0, 0)))
    lens = 2 * 25 * math.acos(apart / 10) - apart * math.sqrt(100 - apart**2) / 2
    assert shared.volume == pytest.approx(lens * 40, rel=1e-5)
    assert shared.depth == pytest.approx(10 - apart, rel=0.02)


@given(st.floats(2.0, 40.0), st.floats(20.0, 300.0))
@settings(max_examples=12, deadline=None)
def test_wedge_is_as_deep_as_its_inscribed_circle(height, length):
    wedge = cq.Workplane("XZ").polyline([(0, 0), (length, 0), (0, height)]).close().extrude(4 * height).val().wrapped
    circle = 2 * height * length / (height + length + math.hypot(height, length))
    depth = depth_of(wedge)
    assert depth <= circle * (1 + FINE)
    assert depth >= 0.9 * circle


@given(st.floats(-180, 180), st.floats(0.5, 10.0))
@settings(max_examples=8, deadline=None)
def test_depth_does_not_turn_with_the_solid(degrees, thick):
    turned = cq.Workplane().box(80, 40, thick).val().rotate((0, 0, 0), (1, 2, 3), degrees).wrapped
    assert depth_of(turned) == pytest.approx(thick, rel=1e-4)
