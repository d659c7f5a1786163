"""Miters flat and standing, plain, splined and keyed, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.sawn import SawCut
from model.errors import DesignError
from model.joints.miter import miter
from model.piece import Placed
from model.placement import Placement, added, place, scaled
from model.stock import board
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    stood,
    taken_away,
)

few = settings(max_examples=8, deadline=None)
angles = mm(50, 155)


def frame(degrees: float, wide_a=60.0, wide_b=60.0, thick=20.0, past=0.0) -> tuple[Placed, Placed]:  # type: ignore[no-untyped-def]
    """Two boards flat on the bench whose outer edges meet at the origin, at an angle, each run `past` the corner."""
    a = stood("rail", board(900, wide_a, thick), place((-past, 0, 0)))
    out = (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)), 0.0)
    b = stood("stile", board(900, wide_b, thick), place((-past * out[0], -past * out[1], thick), out, "down"))
    return a, b


def carcass(degrees: float, thick_a: float = 19, thick_b: float = 19, past: float = 0.0) -> tuple[Placed, Placed]:
    """Two boards standing on edge whose outer faces meet over the origin."""
    angle = math.radians(degrees)
    out = (math.cos(angle), math.sin(angle), 0.0)
    a = stood("side", board(400, 150, thick_a), place((-past, 0, 0), "right", "front").moved(0, thick_a))
    square = (-out[1], out[0], 0.0)  # b's outer side looks this way
    corner = added(scaled(out, -past), scaled(square, -thick_b), (0.0, 0.0, 150.0))
    at = Placement(corner, out, (0.0, 0.0, -1.0), square)
    return a, stood("end", board(400, 150, thick_b), at)


def further(degrees: float, wide_a: float, wide_b: float) -> float:
    """How far past the outer corner the inner one lies along either board: only where one is much the wider."""
    angle = math.radians(degrees)
    feet = [(near * math.cos(angle) + far) / math.sin(angle) for near, far in ((wide_a, wide_b), (wide_b, wide_a))]
    return max(0.0, -min(feet))


@few
@given(angles, mm(20, 90), mm(20, 90), mm(12, 30), mm(0, 30))
def test_flat_miter(degrees, wide_a, wide_b, thick, past) -> None:  # type: ignore[no-untyped-def]
    past += further(degrees, wide_a, wide_b)
    a, b = frame(degrees, wide_a, wide_b, thick, past)
    joint = miter(a, to=b)
    home(a, b, joint)

    # the inner corner lies wide_a above a's outer edge and wide_b off b's: law of cosines on the two feet
    angle = math.radians(degrees)
    length = math.sqrt(wide_a**2 + wide_b**2 + 2 * wide_a * wide_b * math.cos(angle)) / math.sin(angle)
    assert joint.kind == "flat miter"
    assert joint.glue_area == pytest.approx(length * thick, rel=1e-6)
    assert contact_area(a, b) == pytest.approx(length * thick, rel=5e-3)
    assert_sound(a, b, joint)
    inner = math.sqrt(length**2 - wide_a**2) * (1 if wide_a * math.cos(angle) + wide_b > 0 else -1)
    assert taken_away(a) == pytest.approx((past + inner / 2) * wide_a * thick, rel=1e-5)


@few
@given(angles, mm(20, 90))
def test_equal_boards_are_sawn_on_the_bisector(degrees, wide) -> None:  # type: ignore[no-untyped-def]
    a, b = frame(degrees, wide, wide)
    joint = miter(a, to=b)

    for cut in (*joint.first_cuts, *joint.second_cuts):
        assert isinstance(cut, SawCut)
        assert abs(cut.miter) == pytest.approx(90 - degrees / 2, abs=1e-6)
        assert cut.bevel == pytest.approx(0, abs=1e-6)
        assert cut.end == "left" or degrees < 90


@few
@given(angles, mm(10, 30), mm(10, 30), mm(0, 20))
def test_standing_miter(degrees, thick_a, thick_b, past) -> None:  # type: ignore[no-untyped-def]
    past += further(degrees, thick_a, thick_b)
    a, b = carcass(degrees, thick_a, thick_b, past)
    joint = miter(a, to=b)
    home(a, b, joint)

    angle = math.radians(degrees)
    length = math.sqrt(thick_a**2 + thick_b**2 + 2 * thick_a * thick_b * math.cos(angle)) / math.sin(angle)
    assert joint.kind == "standing miter"
    assert joint.glue_area == pytest.approx(length * 150, rel=1e-6)
    assert contact_area(a, b) == pytest.approx(length * 150, rel=5e-3)
    assert_sound(a, b, joint)
    if thick_a == thick_b:
        assert abs(joint.first_cuts[0].bevel) == pytest.approx(90 - degrees / 2)  # type: ignore[attr-defined]


def test_hopper_boards_lean_and_get_compound_angles() -> None:
    """Four-sided hopper, sides leaning 20 degrees: miter and bevel of the trade's compound angle rule,
    tan(miter) = sin(lean) and sin(bevel) = cos(lean) / sqrt(2) for a square box."""
    lean = math.radians(20)
    s, c = math.sin(lean), math.cos(lean)
    # outer faces: out of the front (-y, leaning up and out) and out of the left (-x, likewise)
    front = Placement((-150, 0, 0), (1.0, 0.0, 0.0), (0.0, -s, c), (0.0, -c, -s))
    left = Placement((0, 250, 0), (0.0, -1.0, 0.0), (-s, 0.0, c), (-c, 0.0, -s))
    a, b = stood("front", board(400, 150, 15), front), stood("left side", board(400, 150, 15), left)
    joint = miter(a, to=b, keys=2)
    home(a, b, joint)

    assert_sound(a, b, joint)
    for cut in (joint.first_cuts[0], joint.second_cuts[0]):
        assert isinstance(cut, SawCut)
        assert abs(math.tan(math.radians(cut.miter))) == pytest.approx(s, rel=1e-9)
        assert abs(math.sin(math.radians(cut.bevel))) == pytest.approx(c / math.sqrt(2), rel=1e-9)


@few
@given(mm(60, 140), mm(40, 90), mm(15, 30))
def test_splined_flat_miter(degrees, wide, thick) -> None:  # type: ignore[no-untyped-def]
    a, b = frame(degrees, wide, wide, thick)
    plain, joint = miter(a, to=b), miter(a, to=b, spline=True)
    bare = stood("bare", a.wood.stock, a.at)
    bare.cut(*plain.first_cuts)
    home(a, b, joint)

    length = wide / math.sin(math.radians(degrees / 2))
    deep = min(thick, wide / 2)
    assert joint.kind == "splined flat miter"
    assert_sound(a, b, joint)
    assert taken_away(a) - taken_away(bare) == pytest.approx(thick / 3 * deep * length, rel=1e-5)
    assert contact_area(a, b) == pytest.approx(length * thick * 2 / 3, rel=5e-3)
    assert joint.glue_area == pytest.approx(length * thick * 2 / 3 + 2 * deep * length, rel=1e-5)
    (spline,) = joint.hardware
    assert (spline.length, spline.thickness) == pytest.approx((length, thick / 3), abs=1e-5)


@few
@given(mm(70, 130), mm(15, 30), st.integers(1, 4))
def test_splined_and_keyed_standing_miter(degrees, thick, keys) -> None:  # type: ignore[no-untyped-def]
    a, b = carcass(degrees, thick, thick)
    splined = miter(a, to=b, spline=thick / 5)
    bare = stood("bare", a.wood.stock, a.at)
    bare.cut(*miter(a, to=b).first_cuts)
    home(a, b, splined)

    half = math.radians(degrees / 2)
    length = thick / math.sin(half)
    room = (2 / 3 * length - thick / 10) * math.tan(half)
    assert_sound(a, b, splined)
    assert taken_away(a) - taken_away(bare) == pytest.approx(thick / 5 * room / 2 * 150, rel=1e-5)
    assert contact_area(a, b) == pytest.approx((length - thick / 5) * 150, rel=5e-3)

    a, b = carcass(degrees, thick, thick)
    keyed = miter(a, to=b, keys=keys)
    home(a, b, keyed)
    deep = 2 / 3 * length
    assert keyed.kind == "keyed standing miter"
    assert_sound(a, b, keyed)
    triangle = deep**2 * math.tan(half) / 2
    assert taken_away(a) - taken_away(bare) == pytest.approx(keys * 3.2 * triangle, rel=1e-5)
    assert contact_area(a, b) == pytest.approx(length * 150 - keys * 3.2 * deep, rel=5e-3)
    assert keyed.glue_area == pytest.approx(length * 150 + keys * (2 * triangle - 3.2 * deep), rel=1e-5)
    assert [item.kind for item in keyed.hardware] == ["key"] * keys


@few
@given(mm(60, 140), st.booleans())
def test_left_and_right_are_mirror_images(degrees, standing) -> None:  # type: ignore[no-untyped-def]
    a, b = carcass(degrees) if standing else frame(degrees)
    home(a, b, miter(a, to=b, spline=4.0, keys=1))
    for part in (a, b):
        image = stood("image", part.wood.stock, part.at)
        image.part = part.wood.mirrored()
        assert_mirror_images(part, image)
        assert image.wood.mirrored() == part.wood


def test_miters_that_cant_be_made() -> None:
    a, b = frame(90, past=-12.0)
    with pytest.raises(DesignError, match=r"rail stops 12.00 mm short of the corner with stile"):
        miter(a, to=b)
    with pytest.raises(DesignError, match="lie in line and make no corner"):
        miter(*frame(180.0))
    a, b = frame(90)
    b.at = b.at.moved(dz=25)
    with pytest.raises(DesignError, match="pass each other at the corner"):
        miter(a, to=b)
    a, b = frame(90)
    with pytest.raises(DesignError, match=r"spline 15.00 mm thick leaves 2.50 mm.* 6.7 mm, is the rule"):
        miter(a, to=b, spline=15.0)
    with pytest.raises(DesignError, match=r"4 keys 3.2 mm thick crowd the 20.0 mm .* at most 3 go in"):
        miter(a, to=b, keys=4)
    with pytest.raises(DesignError, match=r"keys 90.00 mm deep come through .* 56.6 mm, is common practice"):
        miter(a, to=b, keys=1, key_depth=90)
    a, b = carcass(90)
    with pytest.raises(DesignError, match=r"let 14.00 mm into each board leaves 1.\d+ mm of wood behind it"):
        miter(a, to=b, spline=4.0, spline_depth=14.0)
    a, b = frame(90)
    b.at = b.at.moved(420)
    with pytest.raises(DesignError, match="rail does not meet stile at a corner"):
        miter(a, to=b)
