"""Merging drawn curves: each line once, hidden only where nothing visible lies over it."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.views.curves import Chain, CircularArc, Segment
from drawings.views.merge import Linework, merge, merge_curves
from model.tolerance import FACET


def total(curves):
    return sum(curve.length for curve in curves)


def test_overlapping_and_touching_segments_become_one():
    seen, _ = merge_curves([Segment((0, 0), (10, 0)), Segment((8, 0), (20, 0)), Segment((30, 0), (20, 0))])
    assert seen == (Segment((0.0, 0.0), (30.0, 0.0)),)


def test_a_gap_stays_a_gap():
    seen, _ = merge_curves([Segment((0, 0), (10, 0)), Segment((10.01, 0), (20, 0))])
    assert len(seen) == 2


def test_parallel_lines_stay_apart():
    seen, _ = merge_curves([Segment((0, 0), (10, 0)), Segment((0, 0.01), (10, 0.01))])
    assert len(seen) == 2


def test_verticals_found_from_either_side_of_the_half_turn_merge():
    nearly_up = Segment((5 + 1e-9, 0), (5, 500))
    nearly_down = Segment((5, 500), (5 - 1e-9, 900))
    level_pair = [Segment((0, 0), (500, 1e-7)), Segment((400, 1e-7), (900, -1e-7))]
    seen, _ = merge_curves([nearly_up, nearly_down, *level_pair])
    assert [round(curve.length, 3) for curve in seen] == [900.0, 900.0]


def test_hidden_under_visible_goes_and_the_rest_stays():
    seen, unseen = merge_curves([Segment((2, 2), (4, 4))], [Segment((0, 0), (9, 9)), Segment((9, 9), (0, 0))])
    assert seen == (Segment((2.0, 2.0), (4.0, 4.0)),)
    assert unseen == (Segment((0.0, 0.0), (2.0, 2.0)), Segment((4.0, 4.0), (9.0, 9.0)))


def test_crossing_lines_are_left_alone():
    seen, unseen = merge_curves([Segment((0, 5), (10, 5))], [Segment((5, 0), (5, 10))])
    assert total(seen) == total(unseen) == 10


def test_points_are_not_lines():
    assert merge_curves([Segment((1, 1), (1, 1.0001))]) == ((), ())


def test_arcs_join_across_the_start_of_the_turn():
    seen, _ = merge_curves([CircularArc((1, 2), 50, 300, 365), CircularArc((1, 2), 50, 0, 40)])
    assert seen == (CircularArc((1.0, 2.0), 50.0, 300.0, 400.0),)


def test_arcs_that_go_all_the_way_round_are_a_circle():
    seen, _ = merge_curves([CircularArc((0, 0), 5, 90, 270), CircularArc((0, 0), 5, 270, 450)])
    assert len(seen) == 1
    assert seen[0].full


def test_hidden_arc_under_a_visible_circle_goes():
    circle, arc = CircularArc((0, 0), 5, 0, 360), CircularArc((0, 0), 5, 350, 380)
    assert merge_curves([circle], [arc]) == ((circle,), ())


def test_circles_of_other_radius_or_centre_stay():
    circles = [CircularArc((0, 0), 5, 0, 360), CircularArc((0, 0), 5.01, 0, 360), CircularArc((0.01, 0), 5, 0, 360)]
    assert len(merge_curves(circles)[0]) == 3


def test_an_ellipse_is_drawn_within_the_facet_tolerance():
    row = [10.0, 20.0, 300.0, 100.0, math.radians(30), 0.0, 2 * math.pi]
    (chain,), _ = merge(Linework(ellipses=np.array([row])), Linework())
    points = np.array(chain.points)
    middles = np.concatenate([points, (points[1:] + points[:-1]) / 2]) - [10, 20]
    turned = middles @ np.array([[math.cos(row[4]), -math.sin(row[4])], [math.sin(row[4]), math.cos(row[4])]])
    off = np.hypot(turned[:, 0] / 300, turned[:, 1] / 100) - 1
    assert np.abs(off).max() * 300 <= 3 * FACET  # radial scale 300 overstates the sagitta, at most 3 : 1
    assert chain.points[0] == pytest.approx(chain.points[-1])


def test_halves_of_an_ellipse_join_and_hide_what_lies_under_them():
    ellipse = [0.0, 0.0, 40.0, 15.0, 0.3]
    halves = np.array([[*ellipse, 0.0, math.pi], [*ellipse, math.pi, 2 * math.pi]])
    seen, unseen = merge(Linework(ellipses=halves), Linework(ellipses=np.array([[*ellipse, 1.0, 5.0]])))
    assert len(seen) == 1
    assert unseen == ()


def wave(start, end, step=0.05):
    x = np.arange(start, end + step / 2, step)
    return Chain(tuple(zip((100 * x).tolist(), (20 * np.sin(3 * x)).tolist(), strict=True)))


def test_a_chain_drawn_twice_is_drawn_once():
    backwards = Chain(wave(0, 2).points[::-1])
    assert len(merge_curves([wave(0, 2), backwards])[0]) == 1


def test_hidden_part_of_a_chain_past_the_visible_one_stays():
    _, (left,) = merge_curves([wave(0, 1)], [wave(0, 2)])
    assert left.points[0] == pytest.approx(wave(1, 2).points[0], abs=2 * FACET)
    assert left.length == pytest.approx(wave(1, 2).length, abs=2 * FACET)


def test_a_chain_that_only_crosses_is_not_cut():
    across = Chain(tuple((x, 60.0 - 0.6 * x + 0.001 * x * x) for x in np.linspace(0.0, 200.0, 41).tolist()))
    _, (left,) = merge_curves([wave(0, 2)], [across])
    assert left.length == pytest.approx(across.length, abs=1e-4)


@st.composite
def strokes_on_lines(draw):
    """Whole-millimetre stretches on up to four lines of random slope and offset, and which cells each covers."""
    lines = draw(st.lists(st.tuples(st.integers(0, 17), st.integers(-40, 40)), min_size=1, max_size=4, unique=True))
    stretch = st.tuples(st.integers(0, len(lines) - 1), st.integers(-50, 49), st.integers(1, 30), st.booleans())
    return lines, draw(st.lists(stretch, min_size=1, max_size=25))


def segment_on(line, start, length, turned):
    slope, offset = math.radians(10 * line[0] + 0.5), 7.3 * line[1]
    way, across = (math.cos(slope), math.sin(slope)), (-math.sin(slope), math.cos(slope))
    ends = [tuple(offset * across[k] + at * way[k] for k in (0, 1)) for at in (start, start + length)]
    return Segment(*(ends[::-1] if turned else ends))


def cells(strokes):
    return {(line, cell) for line, start, length, _ in strokes for cell in range(start, start + length)}


@settings(deadline=None)
@given(strokes_on_lines(), st.integers(0, 25))
def test_merged_length_is_the_cells_covered(case, cut):
    lines, strokes = case
    seen_strokes, unseen_strokes = strokes[:cut], strokes[cut:]
    make = [segment_on(lines[line], *rest) for line, *rest in strokes]
    seen, unseen = merge_curves(make[:cut], make[cut:])
    assert total(seen) == pytest.approx(len(cells(seen_strokes)), abs=1e-3)
    assert total(unseen) == pytest.approx(len(cells(unseen_strokes) - cells(seen_strokes)), abs=1e-3)


@settings(deadline=None)
@given(strokes_on_lines(), st.randoms(use_true_random=False))
def test_order_of_the_input_does_not_matter(case, shuffler):
    lines, strokes = case
    make = [segment_on(lines[line], *rest) for line, *rest in strokes]
    mixed = make.copy()
    shuffler.shuffle(mixed)
    first, second = merge_curves(make)[0], merge_curves(mixed)[0]
    assert len(first) == len(second)
    for a, b in zip(first, second, strict=True):
        assert a.p == pytest.approx(b.p, abs=2e-6)
        assert a.q == pytest.approx(b.q, abs=2e-6)


arcs = st.lists(st.tuples(st.integers(0, 2), st.integers(0, 359), st.integers(1, 360)), min_size=1, max_size=15)


def degrees_covered(strokes):
    return {(ring, (start + k) % 360) for ring, start, sweep in strokes for k in range(sweep)}


@settings(deadline=None)
@given(arcs, arcs)
def test_merged_arcs_are_the_degrees_covered(visible, hidden):
    def drawn(strokes):
        return [CircularArc((3.0, 4.0), 40.0 + ring, start, start + sweep) for ring, start, sweep in strokes]

    def covered(curves):
        return sum(round(curve.end_deg - curve.start_deg, 6) for curve in curves)

    seen, unseen = merge_curves(drawn(visible), drawn(hidden))
    assert covered(seen) == pytest.approx(len(degrees_covered(visible)), abs=1e-3)
    assert covered(unseen) == pytest.approx(len(degrees_covered(hidden) - degrees_covered(visible)), abs=1e-3)
    assert all(0 <= curve.start_deg < 360 for curve in (*seen, *unseen))
