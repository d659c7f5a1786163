"""Scarfs, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.sawn import SawCut
from model.errors import DesignError
from model.joints.scarf import scarf, scarf_length
from model.placement import place
from model.stock import board, sheet
from tests.model.joints.sizes import mm
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, stood, taken_away

few = settings(max_examples=8, deadline=None)


@few
@given(mm(10, 40), mm(30, 200), mm(12, 20), st.sampled_from(["right", "left"]), st.booleans())
def test_a_scarf_is_as_long_as_its_boards_run_past_each_other(thick, width, ratio, grain, to_the_left) -> None:  # type: ignore[no-untyped-def]
    run = scarf_length(thick, 1 / ratio)
    b = stood("long plank", board(1500, width, thick), place())
    low = run - 1200 if to_the_left else 1500 - run
    at = place((low, 0, 0)) if grain == "right" else place((low + 1200, width, 0), "left")
    a = stood("short plank", board(1200, width, thick), at)
    joint = scarf(a, to=b)
    home(a, b, joint)

    slope = math.hypot(thick, run)
    assert joint.glue_area == pytest.approx(slope * width, rel=1e-5)
    assert contact_area(a, b) == pytest.approx(slope * width, rel=5e-3)
    assert_sound(a, b, joint)
    for part in (a, b):
        assert taken_away(part) == pytest.approx(run * thick * width / 2, rel=1e-5)
    cut = joint.second_cuts[0]
    assert isinstance(cut, SawCut)
    assert cut.end == ("left" if to_the_left else "right")
    assert cut.miter == 0.0
    assert abs(cut.bevel) == pytest.approx(90 - math.degrees(math.atan(1 / ratio)), abs=1e-6)
    image = stood("image", a.wood.stock, a.at)
    image.part = a.wood.mirrored()
    assert_mirror_images(a, image)


def test_sheets_may_slope_one_in_eight() -> None:
    a = stood("left sheet", sheet(600, 300, 12), place())
    b = stood("right sheet", sheet(600, 300, 12), place((504, 0, 0)))
    joint = scarf(a, to=b)

    assert joint.glue_area == pytest.approx(300 * 12 * math.sqrt(65), rel=1e-6)


def test_scarfs_that_cant_be_made() -> None:
    b = stood("plank", board(1000, 60, 20), place())

    def other(x: float, y: float = 0.0, z: float = 0.0, thick: float = 20.0, grain: str = "right"):  # type: ignore[no-untyped-def]
        return stood("piece", board(1000, 60, thick), place((x, y, z), grain))

    with pytest.raises(DesignError, match=r"a scarf of 1 in 5\.0 in stock 20 mm thick; 1 in 12, 240 mm, is the steep"):
        scarf(other(900), to=b)
    scarf(other(900), to=b, slope=1 / 5)
    with pytest.raises(DesignError, match=r"stops 10\.00 mm short of plank; .* by 240 mm"):
        scarf(other(1010), to=b)
    with pytest.raises(DesignError, match=r"stand 2\.00 mm apart; a scarf needs them flush"):
        scarf(other(700, z=2), to=b)
    with pytest.raises(DesignError, match="do not lie in line"):
        scarf(other(700, grain="back"), to=b)
    with pytest.raises(DesignError, match="lie beside each other"):
        scarf(other(700, y=80), to=b)
    with pytest.raises(DesignError, match="over each other"):
        scarf(other(0), to=b)
