"""Arcs in space as points, as stretches of themselves and as the ellipses they are seen as."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.views.arcs import Arcs
from model.tolerance import FACET

angles = st.floats(-7.0, 7.0)


@st.composite
def some_arcs(draw):
    """From one to four arcs, turned anyhow in space."""
    lots = []
    for _ in range(draw(st.integers(1, 4))):
        turn, _ = np.linalg.qr(np.random.default_rng(draw(st.integers(0, 9999))).normal(size=(3, 3)))
        radius, start = draw(st.floats(1.0, 500.0)), draw(angles)
        end = start + draw(st.floats(0.05, 6.28))
        lots.append(Arcs(100.0 * turn[2:], radius * turn[:1], radius * turn[1:2], np.array([start]), np.array([end])))
    return Arcs.together(lots)


def places(arcs, n, share):
    """Where a share of the way along one arc is."""
    t = arcs.start[n] + share * (arcs.end[n] - arcs.start[n])
    return arcs.centre[n] + arcs.x[n] * np.cos(t) + arcs.y[n] * np.sin(t)


@given(some_arcs())
def test_points_run_from_end_to_end_on_the_circle_and_chords_stay_near_it(arcs):
    for n, points in enumerate(arcs.polylines()):
        assert points[[0, -1]] == pytest.approx(np.array([places(arcs, n, 0.0), places(arcs, n, 1.0)]))
        assert np.linalg.norm(points - arcs.centre[n], axis=1) == pytest.approx(arcs.radius[n])
        middles = (points[1:] + points[:-1]) / 2.0
        sagitta = arcs.radius[n] - np.linalg.norm(middles - arcs.centre[n], axis=1)
        assert sagitta.max() <= FACET + 1e-9


@given(some_arcs(), st.floats(0.0, 0.5), st.floats(0.5, 1.0))
def test_a_stretch_ends_where_its_span_says(arcs, low, high):
    which = np.arange(len(arcs.start))
    last = np.array([len(points) - 1.0 for points in arcs.polylines()])
    stretch = arcs.stretches(which, np.column_stack([low * last, high * last]))
    for n in which:
        assert places(stretch, n, 0.0) == pytest.approx(places(arcs, n, low))
        assert places(stretch, n, 1.0) == pytest.approx(places(arcs, n, high))


@given(some_arcs())
def test_the_ellipse_an_arc_is_seen_as_has_its_ends_and_its_middle(arcs):
    for n, (x, y, a, b, turn, start, end) in enumerate(arcs.ellipses().tolist()):
        t = np.array([start, (start + end) / 2.0, end])
        along, across = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
        drawn = np.array([x, y]) + a * np.cos(t)[:, None] * along + b * np.sin(t)[:, None] * across
        true = np.array([places(arcs, n, share)[:2] for share in (0.0, 0.5, 1.0)])
        either_way = min(np.abs(drawn - true).max(), np.abs(drawn[::-1] - true).max())
        assert either_way < 2e-3
        assert 0.0 <= turn < np.pi + 1e-6


def test_no_arcs_make_no_points_and_no_ellipses():
    assert Arcs.none().polylines() == []
    assert Arcs.none().ellipses().shape == (0, 7)
