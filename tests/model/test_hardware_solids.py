"""Hardware as solids: true sizes, in the right place, seen or not when the piece is finished."""

from __future__ import annotations

import math
from typing import Any

import pytest

from model.hardware import WOODEN, Hardware
from model.hardware_solids import SHOWN, hardware_solid
from model.joints.samples import Sample, samples
from model.placement import added, scaled
from model.solids import placed, solid

ALL = {s.name: s for s in samples()}


def items(kind: str) -> list[Hardware]:
    return [i for s in ALL.values() for i in s.hardware if i.kind == kind]


def shapes(sample: Sample) -> dict[str, Any]:
    return {p.name: placed(solid(p.part), p.at) for p in sample.parts}


@pytest.mark.parametrize("kind", ["spline", "loose tongue"])
def test_flat_strips_have_three_sizes(kind: str) -> None:
    assert items(kind)
    for item in items(kind):
        made = hardware_solid(item)
        assert made.Volume() == pytest.approx(item.length * item.diameter * item.thickness)
        assert len(made.Faces()) == 6


def test_a_wedge_tapers_to_nothing_and_a_key_is_three_cornered() -> None:
    for kind in ("wedge", "key"):
        for item in items(kind):
            made = hardware_solid(item)
            assert made.Volume() == pytest.approx(item.length * item.diameter * item.thickness / 2.0)
            assert len(made.Faces()) == 5


@pytest.mark.parametrize("kind", ["dowel", "peg", "shelf pin"])
def test_rods_are_round(kind: str) -> None:
    assert items(kind)
    for item in items(kind):
        assert hardware_solid(item).Volume() == pytest.approx(math.pi / 4.0 * item.diameter**2 * item.length)


@pytest.mark.parametrize("name", ["dowelled end", "dowelled edge", "loose spline", "splined miter", "loose tongue"])
def test_what_lies_in_both_parts_lies_in_the_room_made_for_it(name: str, shared_volume: Any) -> None:
    sample = ALL[name]
    wood = shapes(sample)
    for item in sample.hardware:
        made = hardware_solid(item)
        for part in item.parts:
            assert shared_volume(made, wood[part]) < 1e-3 * made.Volume()
            assert made.distance(wood[part]) < 1.0


def test_a_key_fills_its_slots_to_the_corner_and_no_further(shared_volume: Any) -> None:
    sample = ALL["keyed miter"]
    wood = shapes(sample)
    for item in sample.hardware:
        made = hardware_solid(item)
        assert sum(shared_volume(made, wood[part]) for part in wood) < 1e-3 * made.Volume()
    box = made.BoundingBox()
    assert (box.xmax, box.ymin) == pytest.approx((150.0, 0.0), abs=1e-6)


def test_a_wedge_goes_down_its_kerf_from_the_tip_of_the_tenon() -> None:
    sample = ALL["wedged tenon"]
    for item in sample.hardware:
        middle = hardware_solid(item).BoundingBox()
        tip = added(item.at, scaled(item.direction, item.length))
        assert middle.xmin == pytest.approx(min(item.at[0], tip[0]))
        assert middle.xmax == pytest.approx(max(item.at[0], tip[0]))
        assert middle.zlen == pytest.approx(item.thickness)


def test_what_shows_and_what_is_of_wood() -> None:
    assert {"plug", "peg", "wedge", "key", "butt hinge", "continuous hinge", "lid stay", "knob"} <= set(SHOWN)
    assert not {"dowel", "biscuit", "spline", "loose tongue", "finish nail", "wood screw"} & set(SHOWN)
    assert {i.kind for s in ALL.values() for i in s.hardware if i.wooden} <= set(WOODEN)
    assert items("butt hinge")[0].wooden is False
