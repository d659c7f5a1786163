"""Breadboard ends: they go on, hold the shoulders tight, and let the top move."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.edges import EdgeGroove
from model.cuts.faces import Bore
from model.cuts.slots import SlottedHole
from model.errors import DesignError
from model.joints.breadboard import breadboard
from model.joints.edge import BOTTOM_ROOM, PLAY
from model.piece import Placed
from model.placement import place
from model.stock import board, panel
from tests.model.joints.legs_and_rails import mirror_image
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    shape,
    shared,
    stood,
    taken_away,
)

few = settings(max_examples=8, deadline=None)
fixings = st.sampled_from(["pegs", "screws"])


def table(run: float = 24.0, width: float = 600.0, thick: float = 25.0, wide: float = 90.0) -> tuple[Placed, Placed]:
    """(batten, top): the batten across the right end of a top 900 mm long, its grain to the back."""
    top = stood("top", panel(900.0, width, thick), place((0.0, 0.0, 700.0)))
    batten = stood("batten", board(width, wide, thick), place((900.0 - run + wide, 0.0, 700.0), grain="back"))
    return batten, top


def sliders(part: Placed) -> list[SlottedHole]:
    return [c for c in part.wood.cuts if isinstance(c, SlottedHole)]


def bored(top: Placed, tongue: float) -> float:
    """Volume of the top's peg slots through the tongue and of its screw pilots, mm3."""
    pilots = sum(math.pi * c.diameter**2 / 4.0 * c.depth for c in top.wood.cuts if isinstance(c, Bore))
    return pilots + sum(c.outline.area * tongue for c in sliders(top))


@few
@given(mm(16.0, 40.0), mm(400.0, 900.0), mm(20.0, 32.0), mm(0.5, 12.0), fixings)
def test_a_plain_tongue(run, width, thick, movement, fixing) -> None:  # type: ignore[no-untyped-def]
    batten, top = table(run, width, thick)
    joint = breadboard(batten, over=top, movement=movement, fixing=fixing)
    home(batten, top, joint)
    groove = thick / 3.0 + PLAY

    assert_sound(batten, top, joint)
    assert contact_area(batten, top) == pytest.approx(width * (thick - groove), rel=0.005)
    grooved = [c for c in joint.first_cuts if isinstance(c, EdgeGroove)]
    assert [(c.width, c.depth) for c in grooved] == [(pytest.approx(groove), pytest.approx(run + BOTTOM_ROOM))]
    assert len(joint.hardware) == 3
    assert taken_away(top) == pytest.approx(run * width * thick * 2.0 / 3.0 + bored(top, thick / 3.0), rel=1e-6)
    assert_mirror_images(batten, mirror_image(batten))
    assert_mirror_images(top, mirror_image(top))


@few
@given(mm(30.0, 45.0), mm(500.0, 900.0), mm(0.5, 8.0), st.sampled_from([3, 5]), fixings)
def test_a_row_of_tenons(run, width, movement, tenons, fixing) -> None:  # type: ignore[no-untyped-def]
    batten, top = table(run, width)
    joint = breadboard(batten, over=top, movement=movement, tenons=tenons, fixing=fixing)
    home(batten, top, joint)
    tongue = 25.0 / 3.0

    assert_sound(batten, top, joint)
    assert len(joint.hardware) == tenons
    assert contact_area(batten, top) == pytest.approx(width * (25.0 - tongue - PLAY), rel=0.005)
    # cheeks beside the tongue, and the tongue cut back between the tenons: half of it, two thirds of its length
    cheeks = run * width * (25.0 - tongue) + width / 2.0 * (2.0 * run / 3.0) * tongue
    assert taken_away(top) == pytest.approx(cheeks + bored(top, tongue), rel=1e-6)


@few
@given(mm(20.0, 40.0), mm(2.0, 12.0), st.sampled_from([0, 3]), st.booleans())
def test_the_top_moves_and_no_further(run, movement, tenons, stopped) -> None:  # type: ignore[no-untyped-def]
    """Of a top that grows by `movement`, what lies d from the middle moves movement * d / W: tenon walls and tongue
    ends allow it, and bind at half as much again."""
    batten, top = table(run)
    joint = breadboard(batten, over=top, movement=movement, tenons=tenons, stopped=15.0 if stopped else 0.0)
    home(batten, top, joint)
    assert_sound(batten, top, joint)

    slots = sliders(top)
    middle = [s for s in slots if s.round]
    assert len(slots) == 3
    assert len(middle) == 1
    for s in slots:
        assert s.travel == pytest.approx(movement * abs(s.at[1] - 300.0) / 600.0, abs=1e-6)
    if stopped:  # the tongue's ends stand off the groove's by half the movement and more
        half = movement / 2.0 + BOTTOM_ROOM
        assert shared(batten, top, (0.0, half - 0.01, 0.0)) < 1e-3 or tenons
        assert shared(batten, top, (0.0, half + 0.2, 0.0)) > 0.1


def test_pegs_from_below_and_slots_in_line_with_their_holes() -> None:
    batten, top = table()
    joint = breadboard(batten, over=top, movement=6.0)
    home(batten, top, joint)

    for peg in joint.hardware:
        assert peg.direction == (0.0, 0.0, 1.0)
        assert peg.at[2] == 700.0
        assert peg.at[0] == pytest.approx(900.0 - 12.0)
    # the face stays whole
    face = shape(batten).faces(">Z")
    assert face.Area() == pytest.approx(600.0 * 90.0, rel=1e-6)


def test_turned_over_the_pegs_still_come_from_below() -> None:
    batten, top = table()
    batten.at = place((900.0 - 24.0, 0.0, 725.0), grain="back", face="down")
    assert shape(batten).BoundingBox().xmin == pytest.approx(876.0)
    joint = breadboard(batten, over=top, movement=6.0)
    home(batten, top, joint)

    assert_sound(batten, top, joint)
    assert all(peg.at[2] == pytest.approx(700.0) and peg.direction[2] == 1.0 for peg in joint.hardware)


def test_screws_bite_past_the_tongue() -> None:
    batten, top = table()
    joint = breadboard(batten, over=top, movement=6.0, fixing="screws")
    home(batten, top, joint)

    for screw in joint.hardware:
        tip = screw.at[0] - screw.length
        assert screw.direction == (-1.0, 0.0, 0.0)
        assert 900.0 - 38.0 >= tip > 900.0 - 48.0
    assert_sound(batten, top, joint)


@pytest.mark.parametrize(
    ("stand", "asked", "said"),
    [
        ({"run": 10.0}, {}, r"runs 10 mm into batten; a tongue 14 mm long or longer"),
        ({"run": 70.0}, {}, r"runs 70 mm into batten, 90 mm wide; two thirds of it, 60\.0 mm, is the most"),
        ({}, {"tenons": 4}, "an odd number of tenons, so that one is in the middle"),
        ({}, {"fixings": 2}, "an odd number of fixings"),
        ({}, {"movement": 80.0}, "can't move by 80 mm"),
        ({}, {"tongue": 16.0}, r"a tongue 16\.0 mm thick would leave 4\.4 mm of cheek in batten; a third .* 8\.3 mm"),
        ({}, {"tenons": 3, "stopped": 60.0}, "runs into the outer tenons; stop it at"),
        ({}, {"tenons": 15, "movement": 8.0}, "take fewer"),
    ],
)
def test_ends_that_cannot_be(stand, asked, said) -> None:  # type: ignore[no-untyped-def]
    batten, top = table(**stand)

    with pytest.raises(DesignError, match=said):
        breadboard(batten, over=top, **{"movement": 4.0, **asked})


def test_along_the_grain_it_is_no_breadboard_end() -> None:
    top = stood("top", panel(600.0, 900.0, 25.0), place((900.0, 0.0, 700.0), grain="back"))
    batten = stood("batten", board(600.0, 90.0, 25.0), place((900.0 - 24.0 + 90.0, 0.0, 700.0), grain="back"))

    with pytest.raises(DesignError, match="lies along the grain of top"):
        breadboard(batten, over=top, movement=4.0)
