"""Hinged parts: gains in both, the pin in the gap, and nothing in the way as they open."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.gains import HingeGain
from model.cuts.through import Opening
from model.errors import DesignError
from model.joints.hinged import BUTTS, Hinged, butt_hinges, continuous_hinge, lid_stay
from model.layout.outline import rectangle
from model.piece import Placed
from model.placement import place, scaled
from model.stock import board, panel
from tests.model.joints.legs_and_rails import mirror_image
from tests.model.joints.sizes import mm
from tests.model.joints.witness import NOISE, assert_mirror_images, home, shape, stood, taken_away

few = settings(max_examples=10, deadline=None)


def inset_door(gap: float = 1.5, tall: float = 600.0, thick: float = 20.0) -> tuple[Placed, Placed]:
    """(door, stile): the door's left edge beside the stile's right one, faces to the front, flush."""
    stile = stood("stile", board(tall + 120.0, 50.0, thick), place((50.0, thick, 0.0), "up", "front"))
    door = stood("door", panel(tall, 300.0, thick), place((350.0 + gap, thick, 60.0), "up", "front"))
    return door, stile


def overlay_door(gap: float = 1.0, thick: float = 20.0) -> tuple[Placed, Placed]:
    """(door, side): the door before the side's front edge, its left edge flush with the side's outside."""
    side = stood("side", panel(700.0, 250.0, thick), place((0.0, 250.0, 0.0), "up", "right"))
    door = stood("door", panel(700.0, 300.0, thick), place((300.0, -gap, 0.0), "up", "front"))
    return door, side


def lid(gap: float = 1.0, thick: float = 18.0) -> tuple[Placed, Placed]:
    """(lid, back): the lid on the upper edge of a chest's back, flush behind."""
    back = stood("back", board(800.0, 300.0, thick), place((0.0, 400.0, 0.0), "right", "front"))
    top = stood("lid", panel(800.0, 400.0, thick), place((0.0, 0.0, 300.0 + gap)))
    return top, back


def opened(part: Placed, joint: Hinged, degrees: float) -> cq.Shape:
    return shape(part).rotate(cq.Vector(*joint.pin), cq.Vector(*joint.pin) + cq.Vector(*joint.along), degrees)


def assert_swings(part: Placed, to: Placed, joint: Hinged) -> None:
    """It opens all the way and touches nothing, and moves out to the side of the knuckle."""
    fixed = shape(to)
    shut = shape(part).Center()
    for n in range(9):
        assert opened(part, joint, joint.opens * n / 8.0).intersect(fixed).Volume() < NOISE
    ajar = opened(part, joint, 5.0).Center() - shut
    assert ajar.dot(cq.Vector(*joint.closes)) < 0.0


def assert_stands_off(part: Placed, to: Placed, gap: float) -> None:
    assert shape(part).distance(shape(to)) == pytest.approx(gap, abs=1e-6)


@few
@given(mm(0.5, 3.0), mm(350.0, 1600.0), mm(18.0, 26.0))
def test_an_inset_door(gap, tall, thick) -> None:  # type: ignore[no-untyped-def]
    door, stile = inset_door(gap, tall, thick)
    joint = butt_hinges(door, to=stile)
    home(door, stile, joint)
    hinge = BUTTS[joint.hardware[0].size]
    count = 3 if tall >= 1000.0 else 2
    gain = hinge.length * (hinge.leaf - hinge.knuckle / 2.0) * (hinge.closed - gap) / 2.0

    assert sum(h.kind == "butt hinge" for h in joint.hardware) == count
    assert joint.fit == gap
    assert joint.closes == (0.0, 1.0, 0.0)
    assert joint.pin == pytest.approx((50.0 + gap / 2.0, -hinge.knuckle / 2.0, 60.0 + tall / 2.0))
    assert abs(joint.along[2]) == 1.0
    assert taken_away(door) == pytest.approx(count * gain, rel=1e-4)
    assert taken_away(stile) == pytest.approx(count * gain, rel=1e-4)
    assert_stands_off(door, stile, gap)
    assert_swings(door, stile, joint)
    assert_mirror_images(door, mirror_image(door))
    assert_mirror_images(stile, mirror_image(stile))


@few
@given(mm(0.0, 3.0))
def test_an_overlay_door(gap) -> None:  # type: ignore[no-untyped-def]
    door, side = overlay_door(gap)
    joint = butt_hinges(door, to=side, knuckle="left", opens=95.0)
    home(door, side, joint)

    assert joint.closes == (0.0, 1.0, 0.0)
    assert joint.pin[:2] == pytest.approx((-joint.hardware[0].diameter / 2.0, -gap / 2.0))
    assert_stands_off(door, side, gap)
    assert_swings(door, side, joint)


@few
@given(mm(0.0, 3.0), st.floats(0.0, 360.0))
def test_a_lid_however_it_is_turned(gap, turned) -> None:  # type: ignore[no-untyped-def]
    top, back = lid(gap)
    for part in (top, back):
        part.at = part.at.swung(turned, about=(130.0, 70.0))
    a = math.radians(turned)
    behind = (-math.sin(a), math.cos(a), 0.0)
    joint = butt_hinges(top, to=back, knuckle=behind, opens=95.0)
    home(top, back, joint)

    assert joint.closes == pytest.approx((0.0, 0.0, -1.0))
    assert all(isinstance(c, HingeGain) and c.length == 64.0 for c in joint.first_cuts)
    assert_stands_off(top, back, gap)
    assert_swings(top, back, joint)


def test_left_and_right_doors_are_mirror_images() -> None:
    left, stile = inset_door()
    joint = butt_hinges(left, to=stile)
    home(left, stile, joint)
    right = Placed("door", left.wood, left.at.mirrored(300.0))
    right.part = replace(left.wood, cuts=())
    far = Placed("stile", replace(stile.wood, cuts=()), stile.at.mirrored(50.0))
    other = butt_hinges(right, to=far)
    home(right, far, other)

    assert_mirror_images(left, right)
    assert_mirror_images(stile, far)
    assert other.along == pytest.approx(scaled(joint.along, -1.0))


def test_gains_lie_opposite_each_other_a_hinge_from_the_ends() -> None:
    door, stile = inset_door()
    joint = butt_hinges(door, to=stile)
    on_door = [door.at.point(c.at) for c in joint.first_cuts if isinstance(c, HingeGain)]
    on_stile = [stile.at.point(c.at) for c in joint.second_cuts if isinstance(c, HingeGain)]

    for a, b in zip(on_door, on_stile, strict=True):
        assert (a[0] - b[0], a[1] - b[1], a[2] - b[2]) == pytest.approx((1.5, 0.0, 0.0))
    assert sorted(p[2] for p in on_door) == pytest.approx([60.0 + 96.0, 660.0 - 96.0])


def test_a_hatch_in_an_opening() -> None:
    seat = stood("seat", panel(900.0, 400.0, 20.0), place((0.0, 0.0, 400.0)))
    seat.cut(Opening(rectangle(500.0, 250.0, 200.0, 80.0)))
    hatch = stood("hatch", panel(496.0, 246.0, 20.0), place((202.0, 82.0, 400.0)))
    joint = continuous_hinge(hatch, to=seat)
    home(hatch, seat, joint)

    assert joint.first_cuts == joint.second_cuts == ()
    assert joint.fit == 2.0
    assert joint.hardware[0].length == pytest.approx(496.0 - 30.0)
    assert_swings(hatch, seat, joint)


def test_a_continuous_hinge_let_in() -> None:
    top, back = lid(gap=1.0)
    joint = continuous_hinge(top, to=back, knuckle="back", closed=3.0)
    home(top, back, joint)

    assert taken_away(top) == pytest.approx(770.0 * 9.5 * 1.0, rel=1e-6)
    assert taken_away(back) == pytest.approx(770.0 * 9.5 * 1.0, rel=1e-6)
    assert joint.pin == pytest.approx((400.0, 402.5, 300.5))
    assert_swings(top, back, joint)


def test_a_lid_stay_has_its_place() -> None:
    top, back = lid()
    stay = lid_stay(top, to=back, at=(20.0, 380.0, 200.0))

    assert (stay.kind, stay.parts, stay.at) == ("lid stay", ("lid", "back"), (20.0, 380.0, 200.0))


def test_footprints_are_the_gains_seats() -> None:
    door, side = overlay_door()
    joint = butt_hinges(door, to=side, knuckle="left")
    home(door, side, joint)
    flat = [f for c in joint.first_cuts for f in c.footprints(door.wood.blank)]

    assert [f.side for f in flat] == ["back", "back"]
    assert sum(f.outline.area * f.depth for f in flat) == pytest.approx(taken_away(door), rel=1e-6)


@pytest.mark.parametrize(
    ("gap", "asked", "said"),
    [
        (5.0, {}, r"gap between door and stile is 5\.0 mm, but the butt hinge 64 mm long is only 4 mm thick"),
        (15.0, {}, "no two sides that face each other within 10 mm"),
        (1.5, {"knuckle": "right"}, "no two sides that face each other"),
        (1.5, {"knuckle": "up"}, r"60\.00 mm out of flush where the knuckle"),
        (1.5, {"knuckle": "outward"}, 'no direction is called "outward"'),
        (1.5, {"size": "1 in"}, 'no butt hinge is "1 in" long; there are 38 mm'),
        (1.5, {"count": 7, "margin": 100.0}, r"7 hinges 64 mm long, 100 mm from the ends, don't go on 600\.0 mm"),
        (1.5, {"size": "76 mm", "thin": True}, r"a leaf let in 17\.0 mm breaks out of 12\.0 mm of wood"),
        (1.5, {"set_back": True}, r"2\.00 mm out of flush"),
    ],
)
def test_hinges_that_cannot_be(gap, asked, said) -> None:  # type: ignore[no-untyped-def]
    thin, back = asked.pop("thin", False), asked.pop("set_back", False)
    door, stile = inset_door(gap, thick=12.0 if thin else 20.0)
    door.at = door.at.moved(dy=2.0 if back else 0.0)

    with pytest.raises(DesignError, match=said):
        butt_hinges(door, to=stile, **asked)


def test_nothing_left_of_a_hinge() -> None:
    top, back = lid()

    with pytest.raises(DesignError, match="nothing is left of a hinge 800"):
        continuous_hinge(top, to=back, knuckle="back", margin=450.0)
    with pytest.raises(DesignError, match="but the continuous hinge is only"):
        continuous_hinge(top, to=back, knuckle="back", closed=0.5)
