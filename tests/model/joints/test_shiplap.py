"""Ship-lapped boards, flat and round an arc, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import DesignError
from model.joints.shiplap import ship_lap
from model.placement import Placement, place
from model.stock import board
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    shared,
    stood,
    taken_away,
)

few = settings(max_examples=10, deadline=None)


@few
@given(mm(12, 30), mm(60, 150), mm(5, 20), mm(0.5, 4), st.booleans(), st.booleans())
def test_flat_boards(thick, width, lap, gap, turned, over) -> None:  # type: ignore[no-untyped-def]
    b = stood("board 1", board(500, width, thick), place())
    grain, face = "left" if turned else "right", "down" if over else "up"
    y = (width if turned == over else 2 * width) - lap
    a = stood("board 2", board(500, width, thick), place((500 if turned else 0, y, thick if over else 0), grain, face))
    joint = ship_lap(a, over=b, gap=gap)
    home(a, b, joint)

    assert_sound(a, b, joint)
    assert contact_area(a, b) == pytest.approx(lap * 500, rel=5e-3)
    for part in (a, b):
        assert taken_away(part) == pytest.approx((lap + gap) * thick / 2 * 500, rel=1e-5)
        image = stood("image", part.wood.stock, part.at)
        image.part = part.wood.mirrored()
        assert_mirror_images(part, image)


@few
@given(mm(-8, 8), mm(12, 25), mm(60, 120), mm(6, 15))
def test_boards_round_an_arc(degrees, thick, width, lap) -> None:  # type: ignore[no-untyped-def]
    """The next board turned about the first one's edge, hollow or round side up: its lip stays clear of the other's,
    and touches it along a line."""
    lean = math.radians(degrees)
    c, s = math.cos(lean), math.sin(lean)
    b = stood("board 1", board(500, width, thick), place())
    a = stood(
        "board 2", board(500, width, thick), Placement((0, width - lap, -lap * s / 2), (1, 0, 0), (0, c, s), (0, -s, c))
    )
    joint = ship_lap(a, over=b)
    home(a, b, joint)

    assert_sound(a, b, joint, reach=2 * thick)
    assert shared(a, b, (0, 0, -0.01)) > 0.0, "the lips do not touch"
    assert joint.contacts[0].gap == pytest.approx(abs(lap * math.sin(lean)), abs=0.5)


def test_lap_shares_of_unlike_thickness() -> None:
    b = stood("board 1", board(500, 100, 20), place())
    a = stood("board 2", board(500, 100, 20), place((0, 90, 2)))  # stands 2 mm proud
    joint = ship_lap(a, over=b, share=0.4)
    home(a, b, joint)

    assert_sound(a, b, joint)
    assert joint.first_cuts[0].depth == pytest.approx(12)  # type: ignore[attr-defined]
    assert joint.second_cuts[0].depth == pytest.approx(6)  # type: ignore[attr-defined]


def test_ship_laps_that_cant_be_made() -> None:
    b = stood("board 1", board(500, 100, 20), place())

    def other(y: float, z: float = 0.0):  # type: ignore[no-untyped-def]
        return stood("board 2", board(500, 100, 20), place((0, y, z)))

    with pytest.raises(DesignError, match=r"stops 3\.00 mm short of board 1; .* commonly 10 mm"):
        ship_lap(other(103), over=b)
    with pytest.raises(DesignError, match=r"gap of -1 mm and a share of 0.5; 1.6 mm"):
        ship_lap(other(90), over=b, gap=-1)
    with pytest.raises(DesignError, match=r"keep a lip of 22\.00 mm in 20 mm stock"):
        ship_lap(other(90, z=12), over=b)
    with pytest.raises(DesignError, match="do not meet edge to edge"):
        ship_lap(other(20), over=b)
