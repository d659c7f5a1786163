"""Planes part what only touches, in every joint of the examples, and never what shares wood."""

import math

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.solids.clipped import Planes, Polygons, times_round
from model.checks.solids.facets import facets, finer
from model.checks.solids.near_pairs import StoodBox
from model.checks.solids.pairs import near
from model.checks.solids.parted import Skinned, shown_apart
from model.checks.solids.shared_wood import shared_wood
from model.checks.solids.stood_solid import bounds_of, stood_solids
from model.placement import Placement, place
from tests.model.checks.planted import shapes, sound

LIMIT = 0.01


def skinned(own):
    return Skinned(StoodBox(*bounds_of(own), Placement()), facets(own), lambda faces, stray: finer(own, faces, stray))


def apart(first, second, at):
    return shown_apart(skinned(first), skinned(second), at, LIMIT)


def board(length=200.0, width=60.0, thick=20.0):
    return cq.Workplane().box(length, width, thick, centered=False)


def tails(count=3):
    """A tailed board and the end board that it is let into, both 20 mm thick, the tails wider at their ends."""
    sloped = [(0.0, 1.5), (20.0, 5.0), (20.0, 15.0), (0.0, 18.5)]
    tail = cq.Workplane().polyline(sloped).close().extrude(20)
    tailed = board(40, 20.0 * count).translate((20, 0, 0))
    end = board(20, 20.0 * count)
    for n in range(count):
        tailed, end = tailed.union(tail.translate((0, 20 * n, 0))), end.cut(tail.translate((0, 20 * n, 0)))
    return tailed.val().wrapped, end.val().wrapped


@pytest.mark.parametrize("example", ["refuge-bookcase", "refuge-chest"])
def test_nearly_all_sound_joints_are_shown_apart_without_the_kernel(example):
    solids = stood_solids(shapes(sound(example)))
    pairs = near(solids)
    shown = [apart(p.first.own, p.second.own, p.relative) for p in pairs]
    assert sum(shown) >= 0.9 * len(pairs)


@pytest.mark.parametrize("depth", [0.0101, 0.02, 0.5])
@pytest.mark.parametrize("way", [(1, 0, 0), (0, 1, 0), (0, -1, 0)])
def test_tails_too_deep_or_aside_are_not(way, depth):
    tailed, end = tails()
    assert apart(tailed, end, Placement())
    assert not apart(tailed, end, Placement(tuple(depth * k for k in way)))


def test_tails_slide_across():
    tailed, end = tails()
    assert apart(tailed, end, Placement((0.0, 0.0, 7.0)))


@pytest.mark.parametrize("over", [0.0101, 0.02, 0.4])
def test_a_peg_too_stout_for_its_hole_is_not(over):
    hole = board().faces(">Z").workplane(origin=(100, 30, 20)).hole(12.0).val().wrapped
    peg = cq.Workplane().circle(6.0 + over).extrude(20).val().wrapped
    assert not apart(hole, peg, Placement((100.0, 30.0, 0.0)))


def test_a_round_edge_against_a_flat_one_is_shown_with_finer_facets():
    rounded = board().edges("|Y").fillet(6.0).val().wrapped
    low = board().val().wrapped
    assert apart(low, rounded, Placement((0.0, 0.0, 20.0)))
    assert apart(low, rounded, Placement((200.0, 0.0, 3.0)))
    assert not apart(low, rounded, Placement((200.0 - 0.02, 0.0, 3.0)))


def test_one_inside_the_other_is_not_apart():
    assert not apart(board().val().wrapped, board(20, 20, 10).val().wrapped, Placement((50.0, 20.0, 5.0)))
    hollow = board().cut(board(40, 40, 10).translate((40, 10, 5))).val().wrapped
    assert apart(hollow, board(40, 40, 10).val().wrapped, Placement((40.0, 10.0, 5.0)))


def test_the_same_board_in_the_same_place_is_not_apart():
    assert not apart(board().val().wrapped, board().val().wrapped, Placement())


tilt = st.floats(-40, 40)


@given(tilt, tilt, st.tuples(*[st.floats(-30, 30)] * 3), st.sampled_from(["plain", "dadoed", "bored", "round"]))
@settings(max_examples=30, deadline=None)
def test_what_is_shown_apart_shares_no_wood(turn, lean, step, kind):
    first = board().cut(board(30, 60, 8).translate((80, 0, 12))).val().wrapped
    second = {
        "plain": board(60, 30, 20),
        "dadoed": board(60, 30, 20).cut(board(20, 30, 8).translate((20, 0, 0))),
        "bored": board(60, 30, 20).faces(">Z").workplane().hole(12.0),
        "round": cq.Workplane().circle(14).extrude(40),
    }[kind]
    own = second.val().wrapped
    c, s = math.cos(math.radians(lean)), math.sin(math.radians(lean))
    at = Placement((80.0 + step[0], 15.0 + step[1], 14.0 + step[2]), (c, 0.0, -s), (0.0, 1.0, 0.0), (s, 0.0, c))
    at = at.swung(turn, about=(95.0, 30.0))
    if apart(first, own, at):
        assert shared_wood(first, own, at, LIMIT) == ()


@given(st.floats(0, 89), st.floats(0.011, 3.0))
@settings(max_examples=20, deadline=None)
def test_a_board_on_the_slope_of_another_is_found_out_by_its_depth(angle, depth):
    # square across it, the two would stand side by side
    low = board().val().wrapped
    frame = place((0.0, 0.0, 0.0)).swung(angle, about=(0.0, 0.0))
    on_top = frame @ Placement((0.0, 0.0, 20.0))
    assert apart(low, low, on_top)
    assert not apart(low, low, on_top.moved(dz=-depth))


def test_polygons_are_cut_by_planes():
    square = Polygons(
        np.array([[(0, 0, 0), (4, 0, 0), (4, 4, 0), (0, 4, 0)]], dtype=float),
        np.array([(0.0, 0.0, 1.0)]),
        np.zeros(1),
        np.ones(1, dtype=bool),
    )
    half = math.sqrt(0.5)
    planes = Planes(np.array([(1.0, 0, 0), (half, half, 0)]), np.array([3.0, half * 4.0]))
    assert square.inside(planes).areas == pytest.approx([7.5])
    assert len(square.inside(Planes(np.array([(0.0, 0.0, 1.0)]), np.array([-1.0])))) == 0


def test_corners_of_a_slanted_box():
    walls = np.concatenate([np.eye(3), -np.eye(3)])
    cut = Planes(np.concatenate([walls, [(0.6, 0.8, 0.0)]]), np.array([1.0, 1, 1, 0, 0, 0, 0.8]))
    found = {tuple(np.round(c, 9) + 0.0) for c in cut.corners()}
    flat = {(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 0.25)}
    assert found == {(*c, z) for c in flat for z in (0.0, 1.0)}


def test_times_round_inside_and_out():
    skin = facets(board().val().wrapped).corners
    assert times_round(skin, np.array([5.0, 5.0, 5.0])) == pytest.approx(1.0)
    assert times_round(skin, np.array([-5.0, 5.0, 5.0])) == pytest.approx(0.0, abs=1e-12)
