"""Sliding dovetails, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.through import Profile
from model.errors import CutError, DesignError
from model.joints.sliding_dovetail import TIP_INSET, sliding_dovetail
from model.layout.outline import Outline
from model.piece import Placed
from model.placement import place
from model.stock import board
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, stood, taken_away

few = settings(max_examples=8, deadline=None)
thicknesses = st.floats(14, 30)


def shelf_and_side(
    thick: float = 18.0, depth: float = 6.0, width: float = 250.0, deeper: float = 0.0, slant: float = 0.0
) -> tuple[Placed, Placed]:
    """A shelf let into the inside of a left side, slanting up to the back; the side goes on past its back edge."""
    c, s = math.cos(math.radians(slant)), math.sin(math.radians(slant))
    side = stood("side", board(900, width + deeper, 19.0), place((0, width + deeper, 0), grain="up", face="right"))
    shelf = stood("shelf", board(500, width, thick), place((19.0 - depth, 0, 400), (1, 0, 0), (0, -s, c)))
    return shelf, side


@few
@given(thicknesses, st.floats(3, 8), st.floats(80, 300), st.sampled_from([0.0, 12.0]), st.sampled_from([0.0, 20.0]))
def test_by_its_formulas(thick, depth, width, stopped, deeper):
    shelf, side = shelf_and_side(thick, depth, width, deeper)
    joint = sliding_dovetail(shelf, into=side, stopped=stopped, fit=0.0)
    home(shelf, side, joint)

    run, tip = width - stopped, thick - 2 * TIP_INSET
    neck = tip - 2 * depth / 6
    assert joint.closes == (0.0, -1.0, 0.0)
    assert_sound(shelf, side, joint, reach=width)
    section = (tip + neck) / 2 * depth
    assert taken_away(shelf) == pytest.approx(width * thick * depth - run * section, rel=1e-5)
    assert taken_away(side) == pytest.approx((run + deeper) * section, rel=1e-5)
    assert joint.glue_area == pytest.approx(2 * run * math.hypot(depth, depth / 6), rel=1e-5)
    end = (thick * width - run * neck) + run * tip
    front = section if stopped else 0.0
    assert contact_area(shelf, side) == pytest.approx(joint.glue_area + end + front, rel=1e-3)


@few
@given(thicknesses, st.floats(-20, 20), st.floats(0, 2), st.sampled_from([0.0, 15.0]))
def test_tapered_and_slanting(thick, slant, taper, stopped):
    shelf, side = shelf_and_side(thick, 5.0, 240.0, 30.0, slant)
    image = [Placed(p.name, p.part, p.at.mirrored(p.wood.stock.width)) for p in (shelf, side)]
    joint = sliding_dovetail(shelf, into=side, taper=taper, stopped=stopped)
    home(shelf, side, joint)
    home(*image, sliding_dovetail(*image, taper=taper, stopped=stopped))

    assert_sound(shelf, side, joint, reach=200.0)
    assert_mirror_images(shelf, image[0])
    assert_mirror_images(side, image[1])
    assert_mirror_images(shelf, Placed("image", shelf.wood.mirrored(), image[0].at))


def test_a_tapered_tongue_is_thinner_at_the_front():
    shelf, side = shelf_and_side()
    tongue = sliding_dovetail(shelf, into=side, taper=2.0).first_cuts[0]
    shelf.cut(tongue)

    mean = 18.0 - 2 * TIP_INSET - 6.0 / 6 - 1.0
    assert taken_away(shelf) == pytest.approx(250 * 6.0 * (18.0 - mean), rel=1e-5)


def test_an_end_cut_aslant():
    shelf, side = shelf_and_side(deeper=30.0)
    lean = 40.0
    cut = Profile(
        Outline(((lean, 0.0), (500.0, 0.0), (500.0, 250.0), (0.0, 250.0)), names=("near", "right", "far", "left"))
    )
    shelf.cut(cut)
    c, s = 250.0 / math.hypot(250.0, lean), lean / math.hypot(250.0, lean)
    shelf = Placed("shelf", shelf.part, place((13.0 - lean * c, lean * s, 400), (c, -s, 0)))
    joint = sliding_dovetail(shelf, into=side)
    home(shelf, side, joint)

    assert_sound(shelf, side, joint)


@pytest.mark.parametrize(
    ("sizes", "options", "error", "says"),
    [
        ({"depth": -2.0}, {}, DesignError, "shelf stops 2.00 mm short of side; a sliding dovetail needs it to run in"),
        ({"depth": 19.0}, {}, DesignError, "runs 19 mm into side, which is 19 mm thick; a third of it, 6.3 mm"),
        ({"thick": 9.0}, {"slope": 0.35}, CutError, r"would be 2\.8 mm thick at its neck in stock 9 mm thick"),
        ({}, {"stopped": 250.0}, CutError, "250.0 mm long can't stop 250 mm short"),
        ({}, {"slope": 0.0}, CutError, "slope is 0 mm; it must be more than zero"),
        ({}, {"taper": 12.0}, CutError, "a third of the stock, 6.0 mm, is the least"),
    ],
)
def test_refusals(sizes, options, error, says):
    shelf, side = shelf_and_side(**sizes)

    with pytest.raises(error, match=says):
        sliding_dovetail(shelf, into=side, **options)
