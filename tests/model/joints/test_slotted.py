"""Boards slotted over each other, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings

from model.cuts.laps import Slot
from model.errors import DesignError
from model.joints.slotted import slotted
from model.placement import Placement, place
from model.solids import solid
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


@few
@given(mm(9, 25), mm(9, 25), mm(0, 50), mm(0.3, 0.7), mm(0.1, 0.5))
def test_egg_crate(thick_a, thick_b, lean, share, fit) -> None:  # type: ignore[no-untyped-def]
    """Boards on edge, one turned from square in plan; their tops level, the lower one reaching further down."""
    a = stood("long web", board(600, 200, thick_a), place((0, thick_a / 2, 0), "right", "front"))
    turn = Placement().swung(90 - lean, (0, 0))
    standing = place((0, 0, -40), "right", "front").moved(-300, thick_b / 2)
    b = stood("cross web", board(600, 240, thick_b), (turn @ standing).moved(320))
    joint = slotted(a, over=b, fit=fit, share=share)
    home(a, b, joint)

    sine = math.cos(math.radians(lean))
    wide_a = (thick_b + thick_a * math.sin(math.radians(lean))) / sine + fit
    slot = joint.first_cuts[0]
    assert isinstance(slot, Slot)
    assert slot.width == pytest.approx(wide_a, abs=1e-5)
    assert slot.length == pytest.approx(200 * share, abs=1e-5)
    assert joint.second_cuts[0].length == pytest.approx(200 * (1 - share), abs=1e-5)  # type: ignore[attr-defined]
    assert joint.closes == pytest.approx((0, 0, -1))
    assert_sound(a, b, joint, reach=250)
    assert taken_away(a) == pytest.approx(slot.width * slot.length * thick_a, rel=1e-6)
    assert contact_area(a, b) == pytest.approx(thick_a * thick_b / sine, rel=5e-3)
    assert all(f.through for f in slot.footprints(a.wood.blank))


def test_slotted_from_the_front_and_mirrored() -> None:
    upright = stood("upright", board(500, 300, 18), place((0, 0, 0), "up", "left"))
    shelf = stood("shelf", board(600, 250, 18), place((-300, 20, 200), "right", "up"))
    joint = slotted(shelf, over=upright, closes="back")
    home(shelf, upright, joint)

    assert_sound(shelf, upright, joint, reach=300)
    image = stood("image", shelf.wood.stock, shelf.at)
    image.part = shelf.wood.mirrored()
    assert_mirror_images(shelf, image)
    assert solid(shelf.part).Volume() == pytest.approx(18 * (600 * 250 - 18.2 * joint.first_cuts[0].length))  # type: ignore[attr-defined]


def test_slots_that_cant_be_made() -> None:
    a = stood("web", board(600, 200), place((0, 9.5, 0), "right", "front"))
    b = stood("rib", board(600, 200), place((300, -300, 0), "back", "right"))
    with pytest.raises(DesignError, match="share of 0 leaves one part without a slot"):
        slotted(a, over=b, share=0.0)
    with pytest.raises(DesignError, match="can't slide left over rib"):
        slotted(a, over=b, closes="left")
    with pytest.raises(DesignError, match='no direction is called "north"'):
        slotted(a, over=b, closes="north")
    short = stood("rib", board(305, 200), place((300, -300, 0), "back", "right"))
    with pytest.raises(DesignError, match="rib ends inside web"):
        slotted(a, over=short)
    above = stood("rib", board(600, 200), place((300, -300, 200), "back", "right"))
    with pytest.raises(DesignError, match=r"only 0.00 mm of height in common"):
        slotted(a, over=above)
    flat = stood("rib", board(600, 200), place((0, 0, 0), "right", "front"))
    with pytest.raises(DesignError, match=r"at 0.0 degrees"):
        slotted(a, over=flat)


@few
@given(mm(15, 25), mm(3, 8), mm(30, 90))
def test_relieved_for_a_cutter(thick, cutter, angle) -> None:  # type: ignore[no-untyped-def]
    """The feet of both slots take a round cutter, and still bear on each other."""
    a = stood("long web", board(600, 200, thick), place((0, thick / 2, 0), "right", "front"))
    standing = place((0, 0, 0), "right", "front").moved(-300, thick / 2)
    b = stood("cross web", board(600, 200, thick), (Placement().swung(angle, (0, 0)) @ standing).moved(320))
    joint = slotted(a, over=b, cutter=cutter)
    home(a, b, joint)

    assert_sound(a, b, joint, reach=220)
    for cut in (*joint.first_cuts, *joint.second_cuts):
        arcs = [e for e in cut.outline.edges if not e.straight]  # type: ignore[attr-defined]
        assert len(arcs) == 2
        assert all(e.radius == pytest.approx(cutter / 2, abs=0.03) for e in arcs)


def test_a_slot_too_narrow_for_the_cutter() -> None:
    a = stood("web", board(600, 200, 6), place((0, 3, 0), "right", "front"))
    b = stood("rib", board(600, 200, 6), place((300, -300, 0), "back", "right"))
    with pytest.raises(DesignError, match="take a smaller cutter"):
        slotted(a, over=b, cutter=12.7)
