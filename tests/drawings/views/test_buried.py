"""Edges held against the facets of what may stand before them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.views.buried import Occluders
from drawings.views.chords import Chords

places = st.floats(-40.0, 140.0).map(lambda x: round(x, 1))


def square(left, bottom, right, top, z):
    a, b, c, d = (left, bottom, z), (right, bottom, z), (right, top, z), (left, top, z)
    return [(a, b, c), (a, c, d)]


SQUARE = Occluders(np.array(square(0.0, 0.0, 100.0, 100.0, 50.0)))


def line(*corners):
    return np.array(corners, dtype=float)


def test_a_line_passing_under_a_board_is_seen_on_both_sides_of_it():
    spans = SQUARE.partly_seen([line((-50, 30, 0), (150, 30, 0))])
    assert spans[0] == [pytest.approx((0.0, 0.25)), pytest.approx((0.75, 1.0))]


def test_a_line_that_comes_up_through_the_board_is_seen_from_there_on():
    (span,) = SQUARE.partly_seen([line((10, 30, 0), (90, 30, 100))])[0]
    assert span == pytest.approx((0.5, 1.0), abs=0.003)


def test_what_lies_on_the_board_before_it_or_beside_it_is_seen_whole():
    on, before, beside = (line((10, y, z), (90, y, z)) for y, z in ((30, 50), (30, 60), (120, 0)))
    assert SQUARE.partly_seen([on, before, beside, line((0, 0, 50), (100, 0, 50))]) == {}
    assert SQUARE.partly_seen([]) == {}


def test_an_outline_within_a_facet_of_its_own_board_is_seen():
    assert SQUARE.partly_seen([line((10, 0.05, 40), (90, 0.05, 40))]) == {}
    assert SQUARE.partly_seen([line((10, 5, 40), (90, 5, 40))]) == {0: []}


def test_a_board_seen_from_behind_covers_nothing():
    turned = Occluders(np.array(square(0.0, 0.0, 100.0, 100.0, 50.0))[:, ::-1])
    assert turned.partly_seen([line((-50, 30, 0), (150, 30, 0))]) == {}


def test_spans_count_the_points_of_a_polyline():
    bent = line((-50, 30, 0), (-10, 30, 0), (50, 30, 0), (50, 150, 0))
    spans = SQUARE.partly_seen([line((0, 0, 60), (1, 1, 60)), bent])
    assert spans == {1: [pytest.approx((0.0, 1.0 + 10.0 / 60.0)), pytest.approx((2.0 + 70.0 / 120.0, 3.0))]}


@given(st.tuples(places, places), st.tuples(places, places))
def test_no_more_is_left_of_a_line_than_lies_outside_the_board(p, q):
    from shapely import LineString, box

    way = LineString([p, q])
    outside, well_outside = (way.difference(box(d, d, 100 - d, 100 - d)).length for d in (0.25, 0.0))
    spans = SQUARE.partly_seen([line((*p, 0.0), (*q, 0.0))]).get(0, [(0.0, 1.0)])
    left = sum(end - start for start, end in spans) * way.length
    assert well_outside - 4.0 <= left <= outside + 0.6


@given(st.lists(st.tuples(places, places, places), min_size=2, max_size=6, unique=True), st.floats(5.0, 200.0))
def test_stepping_changes_neither_the_way_nor_its_length(corners, longest):
    whole = Chords.from_polylines([line(*corners)])
    steps = whole.stepped(longest)
    assert steps.length.max() <= longest * (1 + 1e-9)
    assert steps.length.sum() == pytest.approx(whole.length.sum())
    assert steps.along[1:] == pytest.approx(np.cumsum(steps.length)[:-1])
    assert np.abs(steps.start[1:] - steps.end[:-1]).max(initial=0.0) < 1e-9
