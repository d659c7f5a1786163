"""Bridle joints in a frame, at any angle in its plane, the kernel as witness."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import CutError, DesignError
from model.joints.bridle import bridle
from model.piece import Placed
from model.placement import Placement, added, cross, place, scaled
from model.stock import board
from tests.model.joints.legs_and_rails import Run, mirror_image
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, stood, taken_away

few = settings(max_examples=8, deadline=None)
widths = st.floats(40, 90)
thicknesses = st.floats(12, 30)


def frame(
    at: float, wide: float, over: float, thick: float, *, skew: float = 0.0, past: float = 0.0, lift: float = 0.0
) -> tuple[Placed, Placed]:
    """An end whose middle line meets the far edge of a rail 500 mm long at x = `at`, and runs `past` it."""
    rail = stood("rail", board(500, over, thick), place())
    s = math.radians(skew)
    x = (math.sin(s), -math.cos(s), 0.0)
    y = cross((0.0, 0.0, 1.0), x)
    run = (over / math.cos(s)) + past
    origin = added((at, over, lift), scaled(x, run - 300.0), scaled(y, -wide / 2.0))
    return stood("stile", board(300, wide, thick), Placement(origin, x, y, (0.0, 0.0, 1.0))), rail


def joined(*args: Any, **kw: Any) -> Any:
    wanted = {k: kw.pop(k) for k in ("thickness", "rise", "proud", "fit") if k in kw}
    stile, rail = frame(*args, **kw)
    joint = bridle(stile, over=rail, **wanted)
    home(stile, rail, joint)
    return stile, rail, joint


@few
@given(widths, widths, thicknesses, st.floats(-30, 30))
def test_a_tee_bridle_at_any_angle(wide: float, over: float, thick: float, skew: float) -> None:
    stile, rail, joint = joined(250, wide, over, thick, skew=skew, past=60)
    c = math.cos(math.radians(skew))
    plan = wide * over / c

    assert joint.kind == "tee bridle"
    assert_sound(stile, rail, joint, reach=200)
    # a third of the thickness stays in the rail, two thirds in the prongs
    assert taken_away(rail) == pytest.approx(plan * thick * 2 / 3, rel=1e-5)
    assert taken_away(stile) == pytest.approx(wide * (over / c + 60) * thick / 3, rel=1e-5)
    assert joint.glue_area == pytest.approx(2 * plan)
    walls = 2 * (over / c) * (thick * 2 / 3)
    bottom = wide / c * thick / 3
    assert contact_area(stile, rail) == pytest.approx(2 * plan + walls + bottom, rel=5e-3)


@few
@given(widths, widths, thicknesses, st.booleans())
def test_a_corner_bridle_is_a_tenon_in_an_open_mortise(wide: float, over: float, thick: float, right: bool) -> None:
    stile, rail, joint = joined(500 - wide / 2 if right else wide / 2, wide, over, thick)

    assert joint.kind == "corner bridle"
    assert_sound(stile, rail, joint, reach=200)
    assert taken_away(rail) == pytest.approx(wide * over * thick * 2 / 3, rel=1e-5)
    assert taken_away(stile) == pytest.approx(wide * over * thick / 3, rel=1e-5)
    touching = 2 * wide * over + over * thick * 2 / 3 + wide * thick / 3
    assert contact_area(stile, rail) == pytest.approx(touching, rel=5e-3)


@few
@given(widths, widths, st.floats(-20, 20), st.booleans())
def test_a_slanting_corner_is_sawn_off_flush(wide: float, over: float, skew: float, right: bool) -> None:
    at = 480 - wide if right else 20 + wide
    stile, rail, joint = joined(at, wide, over, 24, skew=skew, past=60, proud=0.0)
    if joint.kind == "tee bridle":
        assert abs(math.tan(math.radians(skew))) * over < 20 + wide / 2
    assert_sound(stile, rail, joint, reach=200)
    c = math.cos(math.radians(skew))
    # prongs end with the rail's far edge: what they have lost is a third up to there and all past it
    assert taken_away(stile) == pytest.approx(wide * 24 * (over / c / 3 + 60), rel=1e-5)


@few
@given(widths, widths, st.floats(-4, 4))
def test_faces_a_step_apart_share_one_slot(wide: float, over: float, lift: float) -> None:
    stile, rail, joint = joined(250, wide, over, 24, lift=lift)
    assert_sound(stile, rail, joint, reach=200)
    assert taken_away(rail) == pytest.approx(wide * over * 16, rel=1e-5)


@pytest.mark.parametrize(("at", "skew"), [(250, 12), (30, 0), (465, 0), (460, -10)])
def test_left_and_right_are_mirror_images(at: float, skew: float) -> None:
    stile, rail = frame(at, 60, 70, 21, skew=skew, past=40)
    images = mirror_image(stile), mirror_image(rail)
    home(stile, rail, bridle(stile, over=rail))
    home(*images, bridle(images[0], over=images[1]))
    assert_mirror_images(stile, images[0])
    assert_mirror_images(rail, images[1])


def test_refusals_say_what_would_be_right() -> None:
    with pytest.raises(DesignError, match=r"stop 12\.00 mm short of the far edge of rail"):
        bridle(*frame(250, 50, 60, 20, past=-12))
    with pytest.raises(CutError, match=r"prong of 1\.0 mm in stock 20 mm thick; a third of the stock is 6\.7 mm"):
        bridle(*frame(250, 50, 60, 20), thickness=18.0)
    with pytest.raises(DesignError, match="faces parallel, so use a mortise and tenon"):
        bridle(*Run(tilt=5.0, run=80).stood())
    with pytest.raises(DesignError, match=r"the slot in stile lies from .* move one"):
        bridle(*frame(250, 50, 60, 20, lift=9))
