"""A top screwed down so that it may move, the kernel as witness."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from model.cuts.slots import SlottedHole
from model.errors import DesignError
from model.hardware import screw_shank
from model.joints.slot_screwed import HEAD, PEG, SHANK_SLACK, slot_screwed
from model.piece import Placed
from model.placement import place
from model.stock import board, panel
from tests.model.joints.sizes import mm
from tests.model.joints.witness import assert_mirror_images, assert_sound, home, shared, stood

few = settings(max_examples=8, deadline=None)


def under_a_top(width: float, thick: float, deep: float) -> tuple[Placed, Placed]:
    """A bearer on edge under the middle of a top, across its grain."""
    bearer = stood("bearer", board(width - 100, deep, 40), place((20, 50 - width / 2, 0), "back", "right"))
    return bearer, stood("top", panel(600, width, thick), place((-300, -width / 2, deep)))


@few
@given(mm(500, 1200), mm(15, 40), mm(45, 110), mm(0, 20))
def test_screws_slide_as_far_as_the_top_moves_there(width, thick, deep, movement) -> None:  # type: ignore[no-untyped-def]
    bearer, top = under_a_top(width, thick, deep)
    far = width / 2 - 80
    joint = slot_screwed(bearer, to=top, at=(100, far), movement=movement)
    home(bearer, top, joint)

    shank = screw_shank("10") + SHANK_SLACK
    slots = [c for c in joint.first_cuts if isinstance(c, SlottedHole)]
    travels = sorted(s.travel for s in slots if s.width == pytest.approx(shank))
    near_and_far = [movement * d / width for d in (100, 100, far, far)]
    assert travels == pytest.approx(near_and_far, abs=1e-5)
    assert sum(s.width == HEAD and s.depth == pytest.approx(deep - 25) for s in slots) == 4
    assert joint.closes == pytest.approx((0, 0, 1))
    assert_sound(bearer, top, joint, reach=60)
    screws = [h for h in joint.hardware if h.kind == "wood screw"]
    assert all(25 + 2 * thick / 3 - 5 <= s.length <= 25 + thick - 3.2 for s in screws)
    assert all(s.at[2] == pytest.approx(deep - 25) for s in screws)


def test_only_the_peg_stands_in_the_way_of_the_top() -> None:
    """The shanks of the screws clear the bearer when the top has moved by what it may at the last of them."""
    bearer, top = under_a_top(900, 30, 90)
    joint = slot_screwed(bearer, to=top, at=(350,), movement=9.0)
    home(bearer, top, joint)
    for screw in (h for h in joint.hardware if h.kind == "wood screw"):
        for away in (-3.5, 0.0, 3.5):
            shank = screw.diameter / 2**0.5  # a square pin inside the round shank
            corner = (screw.at[0] - shank / 2, screw.at[1] - shank / 2 + away, 65.5)
            pin = stood("shank", board(24, shank, shank), place(corner, "up", "back"))
            assert shared(pin, bearer, (0, 0, 0)) < 1e-3
    pegs = [h for h in joint.hardware if h.kind == "peg"]
    assert [(h.diameter, h.length) for h in pegs] == [(PEG, 30)]
    assert pegs[0].at == pytest.approx((40, 0, 75))


def test_a_flat_bearer_and_its_mirror_image() -> None:
    top = stood("top", panel(600, 800, 30), place((-300, -400, 40)))
    cleat = stood("cleat", board(700, 80, 40), place((90, -350, 0), "back", "up"))
    joint = slot_screwed(cleat, to=top, at=(150, 300), movement=8)
    home(cleat, top, joint)

    assert_sound(cleat, top, joint, reach=60)
    image = stood("image", cleat.wood.stock, cleat.at)
    image.part = cleat.wood.mirrored()
    assert_mirror_images(cleat, image)


def test_what_cant_be_screwed() -> None:
    bearer, top = under_a_top(900, 30, 90)
    with pytest.raises(DesignError, match=r"the screw 398 mm from the middle of bearer has 0.0 mm of wood to hold"):
        slot_screwed(bearer, to=top, at=(398,), movement=8)
    with pytest.raises(DesignError, match="can't move by 100 mm"):
        slot_screwed(bearer, to=top, at=(300,), movement=100)
    rail = stood("rail", board(500, 90, 40), place((-250, 20, 0), "right", "front"))
    with pytest.raises(DesignError, match="rail does not lie square across the grain of top"):
        slot_screwed(rail, to=top, at=(200,), movement=8)
    thin = stood("thin", board(800, 20, 40), place((20, -400, 70), "back", "right"))
    with pytest.raises(DesignError, match=r"20.0 mm of wood to hold, 25 mm is wanted"):
        slot_screwed(thin, to=top, at=(200,), movement=8)
    for twice in ((-100.0, 100.0), (100.0, 100.0), ()):
        with pytest.raises(DesignError, match="give how far each pair stands from the middle"):
            slot_screwed(bearer, to=top, at=twice, movement=8)
