"""Placements are rigid, right-handed, and turn mirror images into mirror images."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.errors import DesignError
from model.placement import DIRECTIONS, Placement, Vector, cross, dot, place, unit

coordinates = st.floats(-2000, 2000)
points = st.tuples(coordinates, coordinates, coordinates)


@st.composite
def placements(draw: st.DrawFn) -> Placement:
    """Any grain and face direction that are square to each other, then swung and moved."""
    grain = draw(st.sampled_from(sorted(DIRECTIONS)))
    face = draw(st.sampled_from([d for d in sorted(DIRECTIONS) if dot(DIRECTIONS[d], DIRECTIONS[grain]) == 0]))
    at = place(draw(points), grain, face)
    tilt = Placement(x=unit((1.0, draw(st.floats(-1, 1)), 0.0)))
    y = unit((-tilt.x[1], tilt.x[0], 0.0))
    return (at @ Placement(tilt.origin, tilt.x, y, cross(tilt.x, y))).swung(draw(st.floats(-180, 180)), (10.0, -30.0))


def assert_rigid(at: Placement) -> None:
    for a, b in ((at.x, at.y), (at.y, at.z), (at.z, at.x)):
        assert dot(a, a) == pytest.approx(1)
        assert dot(a, b) == pytest.approx(0, abs=1e-9)
    assert cross(at.x, at.y) == pytest.approx(at.z, abs=1e-9)


def mirrored_left_for_right(p: Vector, middle: float) -> Vector:
    return (2 * middle - p[0], p[1], p[2])


@given(placements())
def test_every_placement_is_rigid_and_right_handed(at: Placement) -> None:
    assert_rigid(at)


@given(placements(), points)
def test_own_point_undoes_point(at: Placement, p: Vector) -> None:
    assert at.own_point(at.point(p)) == pytest.approx(p, abs=1e-6)
    assert at.own_direction(at.direction(p)) == pytest.approx(p, abs=1e-6)


@given(placements(), placements(), points)
def test_composed_is_one_after_the_other(outer: Placement, inner: Placement, p: Vector) -> None:
    assert (outer @ inner).point(p) == pytest.approx(outer.point(inner.point(p)), abs=1e-6)
    assert_rigid(outer @ inner)


@given(placements(), placements(), points)
def test_seen_from_another_then_composed_is_itself(at: Placement, other: Placement, p: Vector) -> None:
    seen = at.seen_from(other)

    assert (other @ seen).point(p) == pytest.approx(at.point(p), abs=1e-6)
    assert seen.point(p) == pytest.approx(other.own_point(at.point(p)), abs=1e-6)


@given(placements(), st.floats(10, 600), st.floats(-500, 500), points)
def test_a_mirrored_part_in_a_mirrored_placement_is_the_mirror_image(
    at: Placement, width: float, middle: float, p: Vector
) -> None:
    own_image = (p[0], width - p[1], p[2])

    there = at.mirrored(width, middle)

    assert_rigid(there)
    assert there.point(own_image) == pytest.approx(mirrored_left_for_right(at.point(p), middle), abs=1e-6)


@given(placements(), st.floats(10, 600), st.floats(-500, 500))
def test_mirrored_twice_is_where_it_was(at: Placement, width: float, middle: float) -> None:
    again = at.mirrored(width, middle).mirrored(width, middle)

    assert [c for row in again.matrix() for c in row] == pytest.approx([c for row in at.matrix() for c in row])


@given(placements(), st.floats(-180, 180), st.tuples(coordinates, coordinates), points)
def test_swung_keeps_height_and_distance_from_the_axis(
    at: Placement, degrees: float, about: tuple[float, float], p: Vector
) -> None:
    before, after = at.point(p), at.swung(degrees, about).point(p)

    assert after[2] == pytest.approx(before[2])
    assert math.dist(after[:2], about) == pytest.approx(math.dist(before[:2], about), abs=1e-6)


def test_swung_is_counter_clockwise_from_above() -> None:
    assert Placement((1.0, 0.0, 0.0)).swung(90, (0.0, 0.0)).origin == pytest.approx((0, 1, 0), abs=1e-12)


def test_named_directions() -> None:
    upright = place((0, 0, 0), grain="up", face="front")

    assert upright.point((1, 0, 0)) == pytest.approx((0, 0, 1))
    assert upright.direction((0, 0, 1)) == pytest.approx((0, -1, 0))


def test_grain_along_the_face_is_refused() -> None:
    with pytest.raises(DesignError, match="grain and face must be square to each other; choose two different"):
        place(grain="up", face="down")


def test_an_unknown_direction_is_refused_with_those_there_are() -> None:
    with pytest.raises(DesignError, match='no direction is called "north"; use right, left, back, front, up, down'):
        place(grain="north")
    with pytest.raises(DesignError, match="zero length"):
        place(grain=(0.0, 0.0, 0.0))
