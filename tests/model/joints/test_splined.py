"""Boards splined edge to edge, the kernel as witness."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import DesignError
from model.joints.edge import BOTTOM_ROOM
from model.joints.splined import SPLINE_FIT, splined
from model.placement import Placement, place
from model.stock import board
from tests.model.joints.sizes import mm
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, stood, taken_away

few = settings(max_examples=8, deadline=None)


@few
@given(mm(15, 40), mm(80, 150), st.booleans(), st.booleans(), mm(0, 40), mm(0, 60))
def test_spline_between_flush_boards(thick, width, turned, over, stopped, shift) -> None:  # type: ignore[no-untyped-def]
    """Either way up, either way round, one shifted along the other, right through or stopped."""
    stopped = 0.0 if stopped < 5 else stopped
    grain, face = "left" if turned else "right", "down" if over else "up"
    b = stood("board 1", board(600, width, thick), place())
    x = 600 + shift if turned else shift
    y = width if turned == over else 2 * width
    a = stood("board 2", board(600, width, thick), place((x, y, thick if over else 0), grain, face))
    joint = splined(a, to=b, stopped=stopped)
    home(a, b, joint)

    long, wide, groove = 600 - shift - 2 * stopped, 2 * thick, thick / 3 + SPLINE_FIT
    cut = joint.second_cuts[0]
    assert (cut.width, cut.depth) == pytest.approx((groove, thick + BOTTOM_ROOM), abs=1e-5)  # type: ignore[attr-defined]
    assert_sound(a, b, joint)
    run = 600.0 if not stopped else long
    assert taken_away(a) == pytest.approx(groove * (thick + BOTTOM_ROOM) * run, rel=1e-5)
    bare = thick * (600 - shift) - groove * (long if stopped else 600 - shift)
    assert contact_area(a, b) == pytest.approx(bare, rel=5e-3)
    assert joint.glue_area == pytest.approx(thick * (600 - shift) - groove * long + wide * long, rel=1e-5)
    (spline,) = joint.hardware
    assert (spline.length, spline.thickness) == pytest.approx((long, thick / 3), abs=1e-5)
    image = stood("image", a.wood.stock, a.at)
    image.part = a.wood.mirrored()
    assert_mirror_images(a, image)


def test_boards_of_two_thicknesses_share_the_spline() -> None:
    b = stood("top", board(500, 100, 30), place())
    a = stood("lipping", board(500, 40, 20), place((0, 100, 10)))
    joint = splined(a, to=b, thickness=6, width=24)
    home(a, b, joint)

    assert_sound(a, b, joint)
    groove = 6 + SPLINE_FIT
    assert (joint.first_cuts[0].rise, joint.second_cuts[0].rise) == pytest.approx((10 - groove / 2, 20 - groove / 2))  # type: ignore[attr-defined]


def test_splines_that_cant_be_made() -> None:
    b = stood("board 1", board(500, 100, 20), place())

    def other(y: float = 100.0, z: float = 0.0):  # type: ignore[no-untyped-def]
        return stood("board 2", board(500, 100, 20), place((0, y, z)))

    with pytest.raises(DesignError, match=r"stops short of board 1 by 2\.00 mm"):
        splined(other(102), to=b)
    with pytest.raises(DesignError, match=r"runs into board 1 by 5\.00 mm"):
        splined(other(95), to=b)
    with pytest.raises(DesignError, match=r"12\.00 mm thick leaves cheeks of 4\.00 mm .* 6\.7 mm, is the rule"):
        splined(other(), to=b, thickness=12)
    with pytest.raises(DesignError, match="pass each other"):
        splined(other(z=25), to=b)
    with pytest.raises(DesignError, match=r"can't stop 260 mm short at both ends"):
        splined(other(), to=b, stopped=260)
    leaning = stood("board 2", board(500, 100, 20), Placement((0, 100, 0), (1, 0, 0), (0, 0.8, 0.6), (0, -0.6, 0.8)))
    with pytest.raises(DesignError, match=r"leans against board 1.*splined miter"):
        splined(leaning, to=b)
