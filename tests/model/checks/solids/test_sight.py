"""Sight: how far a straight line goes before it meets wood."""

import math

import cadquery as cq
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.solids.sight import sight_of
from model.checks.solids.stood_solid import stood_solids

HALF = 10.0
BOX = sight_of({s.name: s for s in stood_solids({"box": cq.Workplane().box(20, 20, 20).val()})})

far, angle = st.floats(10.5, 80.0), st.floats(0.0, 360.0)


@given(far, st.floats(-9.5, 9.5), st.floats(-9.5, 9.5), st.sampled_from([0, 1, 2]), st.sampled_from([-1.0, 1.0]))
def test_straight_at_a_box_one_sees_to_its_face(away, aside, up, axis, sign):
    start, way = [aside, up], [0.0, 0.0]
    start.insert(axis, sign * away)
    way.insert(axis, -sign)
    assert BOX.free(tuple(start), [tuple(way), tuple(-w for w in way)]) == pytest.approx([away - HALF, math.inf])


@given(far, angle)
def test_past_a_box_one_sees_for_ever(height, turn):
    way = (math.cos(math.radians(turn)), math.sin(math.radians(turn)), 0.0)
    assert BOX.free((0.0, 0.0, height), [way])[0] == math.inf


@given(st.floats(-9.9, 9.9), angle, st.floats(-80.0, 80.0))
def test_in_the_wood_one_sees_nothing(at, turn, rise):
    t, r = math.radians(turn), math.radians(rise)
    way = (math.cos(r) * math.cos(t), math.cos(r) * math.sin(t), math.sin(r))
    assert BOX.free((at, -at, at / 2.0), [way])[0] == 0.0


def test_looking_near_a_place_leaves_out_what_is_far():
    assert len(BOX.near([(0.0, 0.0, 30.0)], 15.0).corners) == 0
    assert len(BOX.near([(0.0, 0.0, 30.0)], 25.0).corners) > 0
