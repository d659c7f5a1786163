"""Dowelled ends and edges, and pocket screws, the kernel as witness."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.errors import CutError, DesignError
from model.hardware import Hardware
from model.joints.dowelled import EDGE_SPACING, SHORTER, dowelled, dowelled_edges
from model.joints.pocket import MOUTH, SLANT, pocket_screwed
from model.placement import dot, place
from model.stock import board
from tests.model.joints.legs_and_rails import SIDES, Run, mirror_image
from tests.model.joints.witness import assert_mirror_images, assert_sound, contact_area, home, stood, taken_away

few = settings(max_examples=8, deadline=None)
butts = st.builds(
    Run,
    run=st.just(25.0),
    skew=st.floats(-12, 12),
    tilt=st.floats(-4, 4),
    wide=st.floats(60, 140),
    thick=st.floats(18, 28),
    leg=st.tuples(st.floats(50, 80), st.floats(50, 80)),
    side=st.sampled_from(sorted(SIDES)),
    end=st.sampled_from(["left", "right"]),
)
squares = butts.map(lambda run: replace(run, run=0.0, skew=0.0, tilt=0.0))


def hole(item: Hardware, depth: float) -> float:
    return math.pi / 4 * item.diameter**2 * depth


@few
@given(st.one_of(squares, butts))
def test_a_dowelled_end_at_any_slant(run: Run) -> None:
    rail, leg = run.stood()
    joint = dowelled(rail, to=leg)
    home(rail, leg, joint)
    dowels, section = joint.hardware, run.wide * run.thick

    assert_sound(rail, leg, joint)
    assert len(dowels) >= 2
    deep = joint.second_cuts[0].depth
    drilled = sum(hole(d, deep) for d in dowels)
    assert all(d.length == pytest.approx(2 * deep - SHORTER) for d in dowels)
    assert taken_away(leg) == pytest.approx(drilled, rel=1e-5)
    assert taken_away(rail) == pytest.approx(section * run.run + drilled, rel=1e-5)
    mouths = sum(hole(d, 1.0) for d in dowels)
    assert contact_area(rail, leg) == pytest.approx(section / run.cosine - mouths, rel=5e-3)
    assert joint.glue_area == pytest.approx(section / run.cosine)


@few
@given(butts)
def test_dowels_go_in_square_to_the_side_and_lie_in_both_holes(run: Run) -> None:
    rail, leg = run.stood()
    joint = dowelled(rail, to=leg)
    for cut, item in zip(joint.second_cuts, joint.hardware, strict=True):
        mouth = leg.at.point(cut.at)
        assert item.direction == pytest.approx(joint.closes)
        assert math.dist(mouth, item.at) == pytest.approx(item.length / 2)
        assert abs(dot(item.direction, leg.at.direction(cut.into))) == pytest.approx(1.0)


@few
@given(st.floats(300, 900), st.floats(60, 150), st.floats(15, 30), st.floats(-100, 100))
def test_edges_meet_with_dowels_spread_over_what_they_share(long: float, wide: float, thick: float, on: float) -> None:
    a, b = (
        stood("first", board(long, wide, thick), place()),
        stood("second", board(700, 90, thick), place((on, wide, 0))),
    )
    joint = dowelled_edges(a, to=b)
    home(a, b, joint)
    shared = min(long, on + 700) - max(0.0, on)
    xs = [item.at[0] for item in joint.hardware]

    assert_sound(a, b, joint)
    assert min(xs) == pytest.approx(max(0.0, on) + 50)
    assert max(xs) == pytest.approx(max(0.0, on) + shared - 50)
    assert all(v - u <= EDGE_SPACING + 1e-6 for u, v in zip(sorted(xs), sorted(xs)[1:], strict=False))
    assert joint.glue_area == pytest.approx(shared * thick)
    mouths = sum(hole(d, 1.0) for d in joint.hardware)
    assert contact_area(a, b) == pytest.approx(shared * thick - mouths, rel=5e-3)


def test_an_edge_dowelled_to_a_face_goes_no_deeper_than_the_face_allows() -> None:
    shelf = stood("shelf", board(600, 200, 19), place())
    front = stood("front", board(600, 60, 19), place((0, 0, -20), "right", "front"))
    joint = dowelled_edges(shelf, to=front)
    home(shelf, front, joint)
    assert_sound(shelf, front, joint)
    assert all(cut.depth == pytest.approx(19 - 6.35) for cut in joint.second_cuts)


@few
@given(st.one_of(squares, butts), st.sampled_from(["face", "back"]))
def test_pocket_screws_leave_the_end_at_mid_thickness(run: Run, side: str) -> None:
    rail, leg = run.stood()
    joint = pocket_screwed(rail, to=leg, side=side)  # type: ignore[arg-type]
    home(rail, leg, joint)

    assert_sound(rail, leg, joint)
    for pocket, screw in zip(joint.first_cuts[run.run > 0 :], joint.hardware, strict=True):
        assert pocket.at[2] == pytest.approx(run.thick / 2)
        assert dot(screw.direction, rail.at.x) == pytest.approx(
            math.cos(math.radians(SLANT)) * (1 if run.end == "right" else -1)
        )
        seat = rail.at.own_point(screw.at)
        above = seat[2] if side == "back" else run.thick - seat[2]
        assert above == pytest.approx(run.thick / 2 - run.thick * math.sin(math.radians(SLANT)))
    ovals = len(joint.hardware) * math.pi / 4 * joint.first_cuts[-1].clearance ** 2
    # the hole leaves the end as an oval, a little longer than round
    lost = run.wide * run.thick / run.cosine - contact_area(rail, leg)
    assert ovals < lost < 1.3 * ovals


def test_a_pocket_is_a_slanting_bore_with_a_flat_bottom() -> None:
    rail, leg = Run(run=0.0, thick=19.0, wide=40.0).stood()
    joint = pocket_screwed(rail, to=leg, count=1)
    home(rail, leg, joint)
    slope = math.radians(SLANT)
    # along its middle line, from the seat to the face: a cylinder cut by a plane has its middle line's length
    length = (19 / 2) / math.sin(slope) - 19
    shank = math.pi / 4 * joint.first_cuts[0].clearance ** 2 * 19
    assert taken_away(rail) == pytest.approx(math.pi / 4 * MOUTH**2 * length + shank, rel=1e-5)


@pytest.mark.parametrize("make", [dowelled, pocket_screwed])
def test_left_and_right_are_mirror_images(make) -> None:  # type: ignore[no-untyped-def]
    rail, leg = Run(run=25.0, skew=7.0, tilt=3.0).stood()
    images = mirror_image(rail), mirror_image(leg)
    home(rail, leg, make(rail, leg))
    home(*images, make(*images))
    assert_mirror_images(rail, images[0])
    assert_mirror_images(leg, images[1])


def test_refusals_say_what_would_be_right() -> None:
    with pytest.raises(DesignError, match=r"rail stops 3\.00 mm short of leg; its whole end must lie against it"):
        dowelled(*Run(run=-3.0).stood())
    with pytest.raises(DesignError, match=r"30\.0 mm wide, is too narrow for 2 dowels of 7\.94 mm"):
        dowelled(*Run(run=0.0, wide=30.0).stood())
    with pytest.raises(DesignError, match=r"leaves too little of rail, 22\.0 mm thick; a third of that, 7\.3 mm"):
        dowelled(*Run(run=0.0).stood(), diameter=18.0)
    with pytest.raises(DesignError, match=r"58\.0 mm deep .* 60\.0 mm deep; 53\.6 mm is right there"):
        dowelled(*Run(run=0.0).stood(), depth=58.0)
    with pytest.raises(DesignError, match=r"would leave .* mm of cheek; make it shallower or thinner"):
        dowelled(*Run(run=25.0, tilt=20.0).stood())
    with pytest.raises(DesignError, match="no edge of first lies flat against second"):
        dowelled_edges(stood("first", board(500, 90), place()), stood("second", board(500, 90), place((0, 95, 0))))
    with pytest.raises(DesignError, match=r"would come through; .* stop 3 mm short"):
        pocket_screwed(*Run(run=0.0, leg=(12.0, 60.0)).stood())
    with pytest.raises(CutError, match=r"leaves 1\.5 mm under it in stock 8 mm thick"):
        pocket_screwed(*Run(run=0.0, thick=8.0).stood())
