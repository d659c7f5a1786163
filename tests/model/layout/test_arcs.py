"""Arcs: each size from the others and back, and refusals that say what would do."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from model.errors import DesignError
from model.layout import arcs

radii = st.floats(50, 50_000)
fractions = st.floats(0.001, 0.999)
angles = st.floats(0.5, 359)
centres = st.tuples(st.floats(-5000, 5000), st.floats(-5000, 5000))


@given(radii, fractions)
def test_chord_and_rise_give_the_radius_back(radius: float, fraction: float) -> None:
    chord = 2 * radius * fraction
    rise = arcs.rise_from_radius_chord(radius, chord)

    assert arcs.radius_from_chord_rise(chord, rise) == pytest.approx(radius, rel=1e-9)
    assert arcs.chord_from_radius_rise(radius, rise) == pytest.approx(chord, rel=1e-9)
    assert arcs.angle_from_chord_rise(chord, rise) == pytest.approx(
        2 * arcs.half_angle_from_chord(radius, chord), rel=1e-9
    )


@given(radii, fractions)
def test_rise_is_the_published_form(radius: float, fraction: float) -> None:
    chord = 2 * radius * fraction
    published = radius - math.sqrt(4 * radius**2 - chord**2) / 2

    assert arcs.rise_from_radius_chord(radius, chord) == pytest.approx(published, abs=1e-9 * radius)


@given(radii, angles)
def test_area_is_the_published_form(radius: float, angle: float) -> None:
    chord, length = arcs.chord_from_radius_angle(radius, angle), arcs.arc_length(radius, angle)
    to_chord = radius * math.cos(math.radians(angle) / 2)

    assert arcs.segment_area(radius, angle) == pytest.approx(
        (radius * length - chord * to_chord) / 2, abs=1e-9 * radius**2
    )


@given(radii, angles)
def test_bulge_by_angle_and_by_rise_agree(radius: float, angle: float) -> None:
    chord = arcs.chord_from_radius_angle(radius, angle)
    rise = radius * (1 - math.cos(math.radians(angle) / 2))

    assert arcs.bulge_from_angle(angle) == pytest.approx(arcs.bulge_from_chord_rise(chord, rise), rel=1e-6)
    assert arcs.bulge_from_angle(-angle) == -arcs.bulge_from_angle(angle)


@given(radii, centres, st.lists(angles, min_size=3, max_size=3))
def test_circle_through_three_of_its_points(radius: float, centre: arcs.Point, turns: list[float]) -> None:
    turns.sort()
    assume(turns[1] - turns[0] > 2)
    assume(turns[2] - turns[1] > 2)
    assume(turns[2] - turns[0] < 358)
    x, y = centre
    points = [(x + radius * math.cos(math.radians(t)), y + radius * math.sin(math.radians(t))) for t in turns]

    found, found_radius = arcs.circle_through(*points)

    assert found == pytest.approx(centre, abs=1e-6 * radius)
    assert found_radius == pytest.approx(radius, rel=1e-6)


@pytest.mark.parametrize(
    "points",
    [[(0, 0), (1, 1), (2, 2)], [(0, 0), (0, 0), (2, 5)], [(3, 3), (3, 3), (3, 3)], [(0, 0), (1e4, 1e-6), (2e4, 0)]],
)
def test_no_circle_through_points_in_line(points: list[arcs.Point]) -> None:
    with pytest.raises(DesignError, match="in one line"):
        arcs.circle_through(*points)


def test_front_of_a_seat_is_concentric_with_its_back() -> None:
    """A 10 ft 8 in back and a seat 14 7/8 in deep: the front radius is less by just that. Common practice."""
    assert arcs.concentric(3251.2, -377.825) == 2873.375


def test_radius_too_small_names_both_and_the_least() -> None:
    with pytest.raises(DesignError) as refusal:
        arcs.rise_from_radius_chord(700, 1480.04)

    message = str(refusal.value)
    assert message == (
        "a radius of 700 mm is too small for a chord of 1480.04 mm; the least radius that would do is 740.1 mm"
    )
    assert arcs.rise_from_radius_chord(740.1, 1480.04) < 740.1


def test_half_a_circle_is_the_limit() -> None:
    assert arcs.rise_from_radius_chord(740, 1480) == 740
    assert arcs.half_angle_from_chord(740, 1480) == pytest.approx(90)


@pytest.mark.parametrize("size", [0, -1, math.nan, math.inf])
@pytest.mark.parametrize(
    "ask",
    [
        lambda size: arcs.radius_from_chord_rise(size, 6),
        lambda size: arcs.radius_from_chord_rise(16, size),
        lambda size: arcs.rise_from_radius_chord(size, 10),
        lambda size: arcs.chord_from_radius_rise(12, size),
        lambda size: arcs.half_angle_from_chord(12, size),
        lambda size: arcs.arc_length(12, size),
        lambda size: arcs.segment_area(12, size),
        lambda size: arcs.bulge_from_chord_rise(size, 1),
        lambda size: arcs.concentric(size, 0),
    ],
)
def test_sizes_that_are_none(ask, size: float) -> None:
    with pytest.raises(DesignError, match="must be more than 0"):
        ask(size)


@pytest.mark.parametrize(
    ("ask", "why"),
    [
        (lambda: arcs.chord_from_radius_rise(12, 24), "take a rise below 24 mm"),
        (lambda: arcs.concentric(300, -300), "take an offset below 300 mm"),
        (lambda: arcs.bulge_from_angle(360), "less than a full turn"),
        (lambda: arcs.bulge_from_chord_rise(10, math.nan), "must be a length"),
        (lambda: arcs.arc_length(12, 361), "at most 360"),
    ],
)
def test_sizes_out_of_reach(ask, why: str) -> None:
    with pytest.raises(DesignError, match=why):
        ask()
