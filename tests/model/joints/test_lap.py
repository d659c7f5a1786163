"""Half laps at every angle, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.laps import Lap
from model.errors import CutError, DesignError
from model.joints.lap import half_lap
from model.placement import Placement, place
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
widths = mm(30, 110)
thicknesses = mm(12, 30)


def turned(x: float, y: float, z: float, degrees: float, face_up: bool = True) -> Placement:
    """Grain at an angle in the piece's plan, the part's own origin at a point."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return place((x, y, z), (c, s, 0.0), "up" if face_up else "down")


def across_middle(length: float, width: float, degrees: float, z: float) -> Placement:
    """A board turned about the middle of its own outline, which stands at the origin."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    x, y = length / 2, width / 2
    return turned(-x * c + y * s, -x * s - y * c, z, degrees)


@few
@given(widths, widths, thicknesses, thicknesses, mm(35, 145), mm(0.3, 0.7), st.booleans())
def test_cross_lap_at_any_angle(wide_a, wide_b, thick_a, thick_b, angle, share, flush) -> None:  # type: ignore[no-untyped-def]
    a = stood("rail", board(600, wide_a, thick_a), across_middle(600, wide_a, angle, thick_b - thick_a if flush else 5))
    b = stood("stile", board(600, wide_b, thick_b), across_middle(600, wide_b, 0, 0))
    joint = half_lap(a, over=b, share=share)
    home(a, b, joint)

    low = thick_b - thick_a if flush else 5.0
    common = min(low + thick_a, thick_b) - max(low, 0.0)
    split = min(low + thick_a, thick_b) - share * common
    plan = wide_a * wide_b / math.sin(math.radians(angle))
    assert joint.kind == "cross half lap"
    assert joint.glue_area == pytest.approx(plan, rel=1e-6)
    assert_sound(a, b, joint)
    assert taken_away(a) == pytest.approx(plan * (split - low), rel=1e-5)
    assert taken_away(b) == pytest.approx(plan * (thick_b - split), rel=1e-5)
    # shoulders lie on the other part's edges, as high as both have wood
    walls = 2 * (wide_a * (split - max(low, 0.0)) + wide_b * (min(low + thick_a, thick_b) - split))
    assert contact_area(a, b) == pytest.approx(plan + walls / math.sin(math.radians(angle)), rel=5e-3)


@few
@given(widths, widths, thicknesses, st.booleans())
def test_corner_and_tee_square_and_flush(wide_a, wide_b, thick, far) -> None:  # type: ignore[no-untyped-def]
    reach = 400.0 if far else 400.0 - wide_b
    for at, kind in ((reach, "corner"), (150.0, "tee")):
        a = stood("rail", board(500, wide_a, thick), place((at + wide_b - 500 if far else at, 0, 0)))
        b = stood(
            "stile",
            board(wide_a + 300, wide_b, thick),
            place((at + wide_b, -300 if kind == "corner" else -150, 0), "back"),
        )
        joint = half_lap(a, over=b)
        home(a, b, joint)

        assert joint.kind == f"{kind} half lap"
        assert_sound(a, b, joint)
        assert taken_away(a) == pytest.approx(wide_a * wide_b * thick / 2, rel=1e-6)
        assert taken_away(b) == pytest.approx(wide_a * wide_b * thick / 2, rel=1e-6)
        cut = joint.first_cuts[0]
        assert isinstance(cut, Lap)
        assert cut.depth == pytest.approx(thick / 2, abs=1e-6)
        assert cut.width(a.wood.blank) == pytest.approx(wide_b, abs=1e-6)
        assert cut.shoulders[0].angle == 90.0


def test_corner_at_an_angle_keeps_each_part_within_the_other() -> None:
    a = stood("rail", board(500, 60, 20), turned(0, 0, 0, 60))
    b = stood("sill", board(500, 70, 20), place((-10, 0, 0)))
    joint = half_lap(a, over=b, fit=0.2)
    home(a, b, joint)

    assert joint.kind == "corner half lap"
    assert_sound(a, b, joint)


def test_lap_end_to_end() -> None:
    a = stood("left plate", board(500, 60, 30), place((0, 0, 0)))
    b = stood("right plate", board(500, 60, 30), place((400, 0, 0)))
    joint = half_lap(a, over=b)
    home(a, b, joint)

    assert joint.kind == "end half lap"
    assert joint.glue_area == pytest.approx(6000)
    assert_sound(a, b, joint)
    assert contact_area(a, b) == pytest.approx(6000 + 2 * 60 * 15, rel=1e-6)


@few
@given(mm(40, 140), mm(0.3, 0.7))
def test_lap_mirrors(angle, share) -> None:  # type: ignore[no-untyped-def]
    a = stood("rail", board(600, 50), across_middle(600, 50, angle, 0))
    b = stood("stile", board(400, 80), across_middle(400, 80, 0, 0))
    home(a, b, half_lap(a, over=b, share=share))
    for part in (a, b):
        image = stood("image", part.wood.stock, part.at)
        image.part = part.wood.mirrored()
        assert_mirror_images(part, image)
        assert image.wood.mirrored() == part.wood


def test_half_laps_that_cant_be_made() -> None:
    a = stood("rail", board(400, 60), place((0, 0, 0)))
    b = stood("stile", board(400, 60), place((200, -150, 19), "back"))
    with pytest.raises(DesignError, match=r"rail passes stile without running into it.*up to 19 mm apart"):
        half_lap(a, over=b)
    on_edge = stood("panel", board(400, 60), place((200, -150, 0), "back", "right"))
    with pytest.raises(DesignError, match="do not lie face to face"):
        half_lap(a, over=on_edge)
    beside = stood("stile", board(400, 60), place((700, -150, 0), "back"))
    with pytest.raises(DesignError, match=r"stile|beside"):
        half_lap(a, over=beside)
    flush = stood("stile", board(400, 60), place((200, -150, 0), "back"))
    with pytest.raises(DesignError, match=r"share of 1 .* a half, 0.5, is the rule"):
        half_lap(a, over=flush, share=1.0)
    with pytest.raises(CutError, match="needs a shoulder"):
        a.wood.cut(Lap((), 5.0))
