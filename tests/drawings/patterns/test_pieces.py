"""Edges cut by boxes and outlines: nothing lost, nothing doubled, arcs stay on their circle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.patterns.pieces import in_box, in_wood, out_of, runs
from drawings.patterns.tiling import Tiling
from model.layout.outline import Edge, Outline, circle, rectangle

COORDINATES = st.floats(-300.0, 300.0).map(lambda v: round(v, 3))
POINTS = st.tuples(COORDINATES, COORDINATES)
BULGES = st.floats(-1.5, 1.5).map(lambda b: round(b, 3)).filter(lambda b: b == 0.0 or abs(b) > 0.01)
EDGES = st.builds(Edge, POINTS, POINTS, BULGES).filter(lambda e: e.chord > 1.0)


@given(EDGES)
def test_tiles_share_out_an_edge_without_loss(edge):
    cores = Tiling((-1500.0, -1500.0, 1500.0, 1500.0), (210.0, 170.0)).tiles
    pieces = [piece for tile in cores for piece in in_box(edge, tile.core)]
    assert sum(piece.length for piece in pieces) == pytest.approx(edge.length, abs=0.1)


@given(EDGES)
def test_pieces_of_an_arc_lie_on_its_circle(edge):
    for piece in in_box(edge, (-100.0, -100.0, 100.0, 100.0)):
        assert all(-100.001 <= c <= 100.001 for t in (0.0, 0.5, 1.0) for c in piece.point(t))
        if not edge.straight:
            assert math.dist(piece.point(0.5), edge.centre) == pytest.approx(edge.radius, rel=1e-6)


def test_a_box_cuts_a_circle_where_it_should():
    quarter = [p for e in circle((0.0, 0.0), 200.0).edges for p in in_box(e, (0.0, 0.0, 100.0, 100.0))]
    assert sum(p.length for p in quarter) == pytest.approx(math.pi * 50.0)


def test_an_open_dado_gives_its_walls_and_not_its_open_ends():
    wood, dado = rectangle(300.0, 100.0), rectangle(20.0, 110.0, 50.0, -5.0)
    kept = in_wood(dado.edges, wood)
    assert sorted(round(p.length, 6) for p in kept) == [100.0, 100.0]


def test_a_dado_that_ends_flush_leaves_the_edge_to_the_outline():
    kept = in_wood(rectangle(20.0, 60.0, 50.0, 0.0).edges, rectangle(300.0, 100.0))
    assert sorted(round(p.length, 6) for p in kept) == [20.0, 60.0, 60.0]


@pytest.mark.parametrize("y", [-10.0, 0.0])
def test_a_socket_takes_its_mouth_out_of_the_outline(y):
    socket = rectangle(40.0, 30.0, 100.0, y)
    kept = out_of(rectangle(300.0, 100.0).edges, socket)
    assert sum(p.length for p in kept) == pytest.approx(800.0 - 40.0)


@pytest.mark.parametrize("end", [0.0, 270.0])
def test_a_socket_flush_with_an_end_does_too(end):
    kept = out_of(rectangle(300.0, 100.0).edges, rectangle(30.0, 40.0, end, 20.0))
    assert sum(p.length for p in kept) == pytest.approx(800.0 - 40.0)


def test_a_curved_notch_is_cut_where_the_arcs_meet_the_edge():
    notch = Outline(((100.0, 0.0), (200.0, 0.0)), (1.0, 1.0))
    assert sum(p.length for p in out_of(rectangle(300.0, 100.0).edges, notch)) == pytest.approx(700.0)
    assert sum(p.length for p in in_wood(notch.edges, rectangle(300.0, 100.0))) == pytest.approx(math.pi * 50.0)


def test_runs_join_what_follows_across_the_ring_s_start():
    edges = rectangle(300.0, 100.0).edges
    assert [len(run) for run in runs([edges[0], edges[1], edges[3]])] == [3]
