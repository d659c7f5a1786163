"""Box joints at any corner, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.dovetails import Fingers
from model.errors import DesignError
from model.joints.box import FINGER_FIT, box_joint
from model.piece import Placed
from model.placement import cross, dot
from model.stock import board, sheet
from tests.model.joints.corners import boards_at_corner
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, taken_away

few = settings(max_examples=8, deadline=None)
widths = st.floats(60, 200)
thicknesses = st.floats(8, 24)
ends = st.tuples(st.sampled_from(["left", "right"]), st.sampled_from(["left", "right"]))


@few
@given(widths, thicknesses, thicknesses, ends)
def test_square_corner_by_its_formulas(width, thick, other, which):
    a, b = boards_at_corner(board(300, width, thick), board(250, width, other), ends=which)
    joint = box_joint(a, b, fit=0.0)
    home(a, b, joint)

    mine, theirs = len(joint.first_cuts[0].tails), len(joint.second_cuts[0].tails)
    n = mine + theirs
    step = width / n
    assert mine == theirs + 1
    assert_sound(a, b, joint)
    assert_sound(b, a, turned(joint))
    assert joint.glue_area == pytest.approx((n - 1) * thick * other, rel=1e-5)
    assert taken_away(a) == pytest.approx(theirs * step * thick * other, rel=1e-5)
    assert taken_away(b) == pytest.approx(mine * step * thick * other, rel=1e-5)
    touching = (n - 1) * thick * other + mine * step * other + theirs * step * thick
    assert contact_area(a, b) == pytest.approx(touching, rel=1e-4)


@few
@given(widths, thicknesses, thicknesses, st.floats(60, 120), st.floats(-12, 12), st.floats(-12, 12), ends)
def test_any_corner(width, thick, other, angle, slant, slant_other, which):
    over = [
        width / 2.0 * math.tan(math.radians(abs(s))) + 1.2 * t + 2.0 for s, t in ((slant, thick), (slant_other, other))
    ]
    a, b = boards_at_corner(
        board(300, width, thick),
        board(300, width, other),
        angle=angle,
        slants=(slant, slant_other),
        over=(over[0], over[1]),
        ends=which,
    )
    c, d = (Placed(p.name, p.part, p.at.mirrored(width)) for p in (a, b))
    joint, image = box_joint(a, b, fit=0.0), box_joint(c, d, fit=0.0)
    home(a, b, joint)
    home(c, d, image)

    assert_sound(a, b, joint)
    assert_sound(b, a, turned(joint))
    assert_mirror_images(a, c)
    assert_mirror_images(b, d)
    # a finger's side is a parallelogram along both grains, a board's thickness each way
    grains = cross(a.at.x, b.at.x)
    side = math.sqrt(dot(grains, grains)) * other / abs(dot(a.at.x, b.at.z)) * thick / abs(dot(b.at.x, a.at.z))
    gaps = 2 * len(joint.second_cuts[0].tails)
    assert joint.glue_area == pytest.approx(gaps * side, rel=1e-4)


def test_fingers_have_room_for_glue():
    a, b = boards_at_corner(sheet(300, 108, 12.0), sheet(250, 108, 12.0))
    joint = box_joint(a, b)
    home(a, b, joint)

    assert len(joint.first_cuts[0].tails) == 5
    assert joint.fit == FINGER_FIT
    assert_sound(a, b, joint)
    assert taken_away(b) == pytest.approx(12 * 12 * (5 * 12 + 8 * FINGER_FIT / 2), rel=1e-5)


def test_what_a_router_sees():
    a, b = boards_at_corner(sheet(300, 108, 12.0), sheet(250, 108, 12.0))
    home(a, b, box_joint(a, b, fit=0.0))

    for part, notches in ((a, 4), (b, 5)):
        seen = [f.outline for c, f in part.wood.footprints() if isinstance(c, Fingers)]
        assert len(seen) == notches
        assert sum(min(o.bounds[3], 108) - max(o.bounds[1], 0) for o in seen) == pytest.approx(12.0 * notches)


@pytest.mark.parametrize(
    ("over", "finger", "says"),
    [
        ((-1.0, 0.0), None, "tail board stops 1.00 mm short of the outside of pin board"),
        ((0.0, -3.0), None, "pin board stops 3.00 mm short of the outside of tail board"),
        ((0.0, 0.0), 2.0, r"51 fingers in 100.0 mm come out 1.96 mm wide; 3.175 mm is the narrowest"),
        ((0.0, 0.0), 0.0, "they must be wider than nothing"),
    ],
)
def test_refusals(over, finger, says):
    a, b = boards_at_corner(board(300, 100, 19.0), board(250, 100, 16.0), over=over)

    with pytest.raises(DesignError, match=says):
        box_joint(a, b, finger=finger)


def turned(joint):
    """The same joint with the other board drawn off, the way its fingers also go; its contacts are asked for once."""
    from dataclasses import replace

    return replace(joint, contacts=(), closes=tuple(-c for c in joint.closes))
