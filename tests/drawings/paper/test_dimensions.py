"""Dimensions: their values, where they stand, and the marks they are drawn with."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drawings.paper.dimensions import aligned, angular, diameter, dimension_text, linear, radius, tier_distance
from drawings.paper.lettering import text_box
from drawings.paper.sheet import Arc, Fill, Leader, Line, Text, ViewPort
from drawings.paper.strokes import ARROW_LENGTH, dimension_strokes, dimension_text_of, reading_angle, strokes

VIEW = ViewPort(0.1, (100, 100))
coordinates = st.floats(-2000, 2000)
model_points = st.tuples(coordinates, coordinates)
scales = st.sampled_from((1, 0.5, 0.2, 0.1, 0.05))


def parts(dimension):
    marks = dimension_strokes(dimension)
    lines = [m for m in marks if isinstance(m, Line)]
    arrows = [m.outlines[0].points for m in marks if isinstance(m, Fill)]
    return lines, arrows, marks[-1]


def test_text_is_made_in_the_orders_units():
    assert dimension_text(377.825, "in") == '14 7/8"'
    assert dimension_text(1480) == "1480"
    assert dimension_text(2750, prefix="R") == "R2750"


@given(model_points, model_points, scales, st.sampled_from(("above", "below", "left", "right")), st.integers(0, 4))
def test_drawn_length_is_the_value(p, q, scale, side, tier):
    dimension = linear(p, q, ViewPort(scale, (30, 40)), side, tier)
    assert dimension.drawn_mm == pytest.approx(dimension.value_mm, abs=1e-6)


@given(model_points, model_points, scales)
def test_drawn_aligned_length_is_the_distance(p, q, scale):
    assume(math.dist(p, q) > 1e-3)
    dimension = aligned(p, q, ViewPort(scale, (30, 40)))
    assert dimension.drawn_mm == pytest.approx(math.dist(p, q), abs=1e-6)


@pytest.mark.parametrize(
    ("side", "line"),
    [("below", (None, 90)), ("above", (None, 243)), ("left", (90, None)), ("right", (149.5, None))],
)
def test_first_line_stands_ten_from_the_outline(side, line):
    dimension = linear((0, 0), (395, 1330), VIEW, side)
    assert [at for at, wanted in zip(dimension.line, line, strict=True) if wanted is not None] == pytest.approx(
        [wanted for wanted in line if wanted is not None]
    )


def test_tiers_are_counted_from_the_given_edge():
    near, far = (linear((0, 500), (200, 500), VIEW, "below", tier, edge=0) for tier in (0, 1))
    assert near.line[1] == pytest.approx(90)
    assert near.line[1] - far.line[1] == pytest.approx(tier_distance(1) - tier_distance(0))


def test_wide_dimension_has_arrows_and_text_inside():
    lines, arrows, text = parts(linear((0, 0), (395, 0), VIEW, "below"))
    assert sorted(arrow[0] for arrow in arrows) == [pytest.approx((100, 90)), pytest.approx((139.5, 90))]
    assert all(100 <= x <= 139.5 for arrow in arrows for x, _ in arrow)
    assert text.text == "395"
    assert text.at[0] == pytest.approx(119.75)
    assert text_box(text)[1] > 90
    assert max(line.p[0] for line in lines) <= 139.5


def test_narrow_dimension_puts_arrows_outside_and_text_beside():
    _, arrows, text = parts(linear((0, 0), (19, 0), VIEW, "below"))
    assert all(x <= 100.001 or x >= 101.899 for arrow in arrows for x, _ in arrow)
    assert text_box(text)[0] > 101.9 + ARROW_LENGTH

    _, _, text = parts(linear((0, 0), (19, 0), VIEW, "below", beside="start"))
    assert text_box(text)[2] < 100 - ARROW_LENGTH


def test_the_order_of_the_points_does_not_matter():
    def picture(dimension):
        return sorted(map(repr, dimension_strokes(dimension)))

    assert picture(linear((0, 0), (395, 0), VIEW, "below")) == picture(linear((395, 0), (0, 0), VIEW, "below"))


def test_arrows_are_three_to_one():
    for tip, left, right in parts(linear((0, 0), (395, 0), VIEW, "left"))[1]:
        heel = (left[0] + right[0]) / 2, (left[1] + right[1]) / 2
        assert math.dist(tip, heel) == pytest.approx(3 * math.dist(left, right))


def test_extension_lines_leave_a_gap_and_run_past():
    lines, _, _ = parts(linear((0, 0), (395, 0), VIEW, "below"))
    assert lines[0].p == pytest.approx((100, 98.5))
    assert lines[0].q == pytest.approx((100, 88))


@given(st.floats(-720, 720))
def test_lettering_is_read_from_below_or_from_the_right(angle):
    turned = reading_angle(angle)
    assert -90 < turned <= 90
    assert (turned - angle) % 180 == pytest.approx(0, abs=1e-6) or (turned - angle) % 180 == pytest.approx(180)


def test_upright_dimensions_read_from_the_right():
    text = dimension_text_of(linear((0, 0), (0, 1330), VIEW, "left"))
    assert text.angle == 90
    assert text_box(text)[2] < 90


def test_radius_arrow_touches_the_arc_from_the_side_asked_for():
    outside, inside = radius((0, 0), 200, 45, VIEW, -8), radius((0, 0), 200, 45, VIEW, 8)
    for dimension, farther in ((outside, True), (inside, False)):
        _, (arrow,), text = parts(dimension)
        assert math.dist(arrow[0], (100, 100)) == pytest.approx(20)
        assert (math.dist(arrow[1], (100, 100)) > 20) is farther
        assert text.text == "R200"
        assert dimension.drawn_mm == pytest.approx(200)


def test_diameter_measures_across():
    dimension = diameter((0, 0), 80, 30, VIEW)
    assert (dimension.text, dimension.drawn_mm, dimension.radius) == ("Ø80", pytest.approx(80), 4)


def test_angle_is_counter_clockwise_from_start_to_end():
    dimension = angular((0, 0), 350, 32, VIEW)
    arc = next(mark for mark in dimension_strokes(dimension) if isinstance(mark, Arc))
    assert dimension.text == "42°"
    assert (arc.end - arc.start) % 360 == pytest.approx(42)


def test_narrow_angle_keeps_its_text_clear_of_its_arrows():
    marks = dimension_strokes(angular((0, 0), 88, 92, VIEW))
    arrows = [m.outlines[0].points for m in marks if isinstance(m, Fill)]
    box = text_box(marks[-1])
    assert all(not (box[0] <= x <= box[2] and box[1] <= y <= box[3]) for arrow in arrows for x, y in arrow)


def test_leader_text_stands_on_the_side_the_leader_goes_to():
    for elbow, rightwards in (((60, 60), True), ((40, 60), False)):
        text = strokes(Leader(((50, 50), elbow), "note"))[-1]
        assert isinstance(text, Text)
        assert (text.at[0] > elbow[0]) is rightwards


def test_no_dimension_from_a_point_to_itself():
    with pytest.raises(ValueError, match="to itself"):
        aligned((1, 1), (1, 1), VIEW)
