"""Sheets as data: pens, arcs, hatches, lettering, and the audit that finds what can't be read."""

import math
from dataclasses import FrozenInstanceError, replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from drawings.paper.arcs import bulge_arc, flattened, polar
from drawings.paper.audit import audit, convex_meet, overlaps, strays, struck_through
from drawings.paper.hatching import hatch_lines
from drawings.paper.lettering import fitted, stack_height, text_box, text_corners, text_width, wrapped
from drawings.paper.page import PAPERS
from drawings.paper.sheet import Circle, Hatch, Line, LinearDimension, Pen, Polyline, Sheet, Text, ViewPort
from tests.drawings.demonstration import demonstration

A4 = PAPERS["A4"]
lengths = st.floats(-200, 200)
points = st.tuples(lengths, lengths)


def sheet(*entities) -> Sheet:
    return Sheet("test", "Test", A4, entities)


def square(x, y, side):
    return Polyline(((x, y), (x + side, y), (x + side, y + side), (x, y + side)), closed=True)


def test_values_are_frozen():
    with pytest.raises(FrozenInstanceError):
        Line((0, 0), (1, 1)).pen = Pen.HIDDEN


def test_text_refuses_a_line_break():
    with pytest.raises(ValueError, match="one line"):
        Text((0, 0), "two\nlines")


def test_bulges_must_match_points():
    with pytest.raises(ValueError, match="3 points need as many bulges, not 1"):
        Polyline(((0, 0), (1, 0), (1, 1)), (0.5,))


def test_view_port_places_model_millimetres():
    assert ViewPort(0.2, (100, 50)).place((1480, 435)) == (396, 137)


def test_a_dimension_knows_what_its_drawn_length_stands_for():
    slanted = LinearDimension((10, 10), (40, 50), (0, 60), 0, "150", 150, scale=0.2)
    assert slanted.drawn_mm == pytest.approx(150)
    assert replace(slanted, angle=90).drawn_mm == pytest.approx(200)


@given(points, st.floats(0.1, 100), st.floats(0, 360), st.floats(5, 355), st.sampled_from((-1, 1)))
def test_bulge_arc_finds_the_arc_again(centre, radius, start, sweep, turn):
    p, q = polar(centre, radius, start), polar(centre, radius, start + turn * sweep)

    found, found_radius, _, found_sweep = bulge_arc(p, q, math.tan(math.radians(turn * sweep) / 4))

    assert found == pytest.approx(centre, abs=1e-6)
    assert found_radius == pytest.approx(radius, abs=1e-6)
    assert found_sweep == pytest.approx(turn * sweep)


@given(st.floats(0.5, 500), st.floats(0.01, 0.4))
def test_flattened_circle_stays_within_its_sagitta(radius, sagitta):
    ring = flattened(Circle((0, 0), radius), sagitta)

    middles = [math.hypot((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(ring)]
    assert min(middles) >= radius - sagitta - 1e-9


@given(st.floats(0, 180), st.floats(0.5, 5), st.floats(20, 60))
def test_hatch_covers_the_area_it_fills(angle, spacing, side):
    """Line length times spacing is the hatched area, but for the strips at the rim."""
    lines = hatch_lines(Hatch((square(3, 7, side), square(3 + side / 4, 7 + side / 4, side / 2)), angle, spacing))

    drawn = sum(math.dist(line.p, line.q) for line in lines) * spacing
    assert drawn == pytest.approx(side * side * 0.75, abs=spacing * side * 3)


def test_hatch_leaves_holes_free():
    lines = hatch_lines(Hatch((square(0, 0, 30), square(10, 10, 10)), 0, 4))
    assert [(line.p[0], line.q[0]) for line in lines if line.p[1] == pytest.approx(12)] == [(0, 10), (20, 30)]


def test_hatch_needs_a_spacing():
    with pytest.raises(ValueError, match="over 0"):
        hatch_lines(Hatch((square(0, 0, 10),), spacing=0))


def test_text_box_turns_with_the_text():
    level = text_box(Text((50, 50), "1480", 2.5, "centre"))
    upright = text_box(Text((50, 50), "1480", 2.5, "centre", angle=90))

    width = text_width("1480", 2.5)
    assert level == pytest.approx((50 - width / 2, 50, 50 + width / 2, 52.5))
    assert upright == pytest.approx((47.5, 50 - width / 2, 50, 50 + width / 2))


@pytest.mark.parametrize(("level", "bottom"), [("baseline", 50), ("middle", 48.75), ("top", 47.5)])
def test_text_levels_are_by_the_capitals(level, bottom):
    assert text_box(Text((50, 50), "H", 2.5, level=level))[1] == pytest.approx(bottom)


def test_tails_and_accents_take_room():
    _, low, _, high = text_box(Text((0, 0), "Égouttoir", 10))
    assert low < -2
    assert high > 12


words = st.text(st.characters(min_codepoint=33, max_codepoint=382), min_size=1, max_size=30)


@given(st.lists(words, max_size=12).map(" ".join), st.floats(12, 120), st.floats(4, 40), st.booleans())
def test_fitted_text_never_leaves_its_box(text, width, room, bold):
    height, lines = fitted(text, width, room, bold=bold)

    assert all(text_width(line, height, bold) <= width for line in lines)
    assert not lines or stack_height(text, len(lines), height) <= room


@given(st.lists(words, max_size=12).map(" ".join), st.floats(12, 120))
def test_wrapping_loses_no_letter(text, width):
    assert "".join(wrapped(text, width, 2.5)).replace(" ", "") == "".join(text.split())


def test_fitted_takes_the_largest_height_that_fits():
    assert fitted("Shop drawing", 70, 6)[0] == 3.5
    assert fitted("Shop drawing of the entry bench and its seat", 70, 6) == (
        1.8,
        ["Shop drawing of the entry bench and its seat"],
    )
    assert fitted("word " * 60, 40, 6)[1][-1].endswith("…")


@given(points, points, points, points)
def test_convex_meet_of_lines_is_by_crossing(a, b, c, d):
    import shapely

    assume(min(math.dist(a, b), math.dist(c, d)) > 1e-3)
    gap = shapely.LineString([a, b]).distance(shapely.LineString([c, d]))
    if gap > 1e-6:
        assert not convex_meet((a, b), (c, d))
    elif shapely.LineString([a, b]).crosses(shapely.LineString([c, d])):
        assert convex_meet((a, b), (c, d))


def test_overlapping_texts_are_found_and_neighbours_are_not():
    first = Text((60, 100), "first text")
    assert [(b.text, b.other) for b in overlaps(sheet(first, Text((64, 101), "second")))] == [("first text", "second")]
    assert overlaps(sheet(first, Text((60, 104), "second"))) == ()


def test_turned_texts_whose_upright_boxes_cross_do_not_overlap():
    slanted = Text((60, 100), "a slanted line of text", 2.5, angle=45)
    beside = Text((72, 104), "beside it")
    assert overlaps(sheet(slanted, beside)) == ()


def test_text_outside_the_frame_is_found():
    assert [b.text for b in strays(sheet(Text((190, 100), "runs off the paper"), Text((60, 100), "stays")))] == [
        "runs off the paper"
    ]


def test_line_through_text_is_found():
    text = Text((60, 100), "struck")
    assert [b.text for b in struck_through(sheet(text, Line((50, 101), (90, 101))))] == ["struck"]
    assert struck_through(sheet(text, Line((50, 99.5), (90, 99.5)))) == ()


def test_texts_of_dimensions_are_audited_too():
    dimension = LinearDimension((60, 100), (100, 100), (60, 90), 0, "400", 400, 0.1)
    assert [b.text for b in audit(sheet(dimension, Line((80, 60), (80, 120))))] == ["400"]


def test_corners_go_round_counter_clockwise():
    (x0, y0), (x1, y1), (x2, y2), _ = text_corners(Text((0, 0), "corner", angle=30))
    assert (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1) > 0


@pytest.mark.parametrize("paper", ["A3", "A2", "B"])
def test_the_demonstration_is_legible(paper):
    assert audit(demonstration(paper)) == ()
