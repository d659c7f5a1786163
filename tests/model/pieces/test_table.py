"""The long table as the example order has it, in inches, over its whole range; its top moves as the Handbook says."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from model.cuts.mortises import Mortise
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Kerf
from model.errors import DesignError
from model.pieces.table import Table, make
from model.solids import standing
from model.wood.species import species_named
from tests.conftest import made
from tests.model.joints.witness import assert_mirror_images
from tests.model.pieces.sound import assert_sound

INCH = 25.4


@pytest.fixture(scope="module")
def table() -> Any:
    """The piece of the shipped order refuge-table; not to be changed."""
    return made("refuge-table")


def test_the_parts_joints_and_hardware_are_those_of_a_trestle_table(table: Any) -> None:
    trestle = {f"{side} {part}" for side in ("left", "right") for part in ("foot", "head", "post", "breadboard end")}
    assert set(table.parts) == {*trestle, "stretcher", "top"}
    assert Counter(j.kind for j in table.joints) == {
        "mortise and double tenon": 4,
        "wedged through mortise and tenon": 2,
        "breadboard end": 2,
        "slot-screwed": 2,
    }
    assert Counter(h.kind for h in table.hardware) == {"wedge": 4, "peg": 2 * 3 + 2, "wood screw": 8}


def test_it_fits_and_is_as_large_as_ordered(table: Any) -> None:
    assert_sound(table)
    boxes = [shape.BoundingBox() for shape in standing(table).values()]
    low = [min(getattr(b, f"{axis}min") for b in boxes) for axis in "xyz"]
    high = [max(getattr(b, f"{axis}max") for b in boxes) for axis in "xyz"]
    assert low == pytest.approx((-1100, -440, 0), abs=1e-4)
    assert high == pytest.approx((1100, 440, 750), abs=1e-4)


@pytest.mark.parametrize("part", ["foot", "head", "post", "breadboard end"])
def test_lefts_and_rights_are_mirror_images(table: Any, part: str) -> None:
    left, right = table[f"left {part}"], table[f"right {part}"]
    assert right.mirror_of == left.name
    assert_mirror_images(left, right)


def test_the_wedges_spread_the_tenons_along_the_grain_of_the_posts(table: Any) -> None:
    stretcher = table["stretcher"]
    kerfs = [c for c in stretcher.part.cuts if isinstance(c, Kerf)]
    assert len(kerfs) == 4
    assert all(abs(stretcher.at.direction(k.across)[2]) == pytest.approx(1) for k in kerfs)
    through = [c for c in table["left post"].part.cuts if isinstance(c, Mortise) and c.through]
    assert [round(c.depth, 6) for c in through] == [48]
    assert standing(table)["stretcher"].BoundingBox().xmax == pytest.approx(1100 - 370 + 8)


def test_the_slots_let_the_top_move_as_the_wood_does(table: Any) -> None:
    """White oak shrinks 10.5 % across the grain from 30 % to nothing (Wood Handbook, Table 4-3): 1.05 % for 3 %."""
    assert species_named("white oak").tangential_shrinkage == 10.5
    movement = 880 * 0.105 * 3 / 30
    assert table.parameters.movement == pytest.approx(movement)
    for head in ("left head", "right head"):
        slots = [c for c in table[head].part.cuts if isinstance(c, SlottedHole)]
        far = (880 - 150) / 2 - 32.5
        assert max(s.travel for s in slots) == pytest.approx(movement * far / 880, abs=1e-5)


def test_every_step_adds_parts_and_nothing_is_left_over(table: Any) -> None:
    told = [name for step in table.steps for name in step.parts]
    assert sorted(told) == sorted(table.parts)


def test_in_inches() -> None:
    size = {"length": "7'", "width": "3'", "height": '30"', "timber": '1 3/4"', "beam": '3 1/2"', "proud": '1/4"'}
    piece = make(Table.read(size, "ft-in", given={"thickness": 1.25 * INCH, "units": "ft-in", "species": "red oak"}))
    assert piece["left post"].part.stock.thickness == pytest.approx(1.75 * INCH)
    assert piece["top"].part.stock.thickness == pytest.approx(1.25 * INCH)
    assert piece["top"].part.stock.width == pytest.approx(36 * INCH)
    assert_sound(piece)


def test_no_waist_no_proud_tenon_and_five_tenons_across_a_wide_top() -> None:
    piece = make(Table(width=1150, waist=0, proud=0, thickness=25))
    assert sum(h.kind == "peg" for h in piece.hardware) == 2 * 5 + 2
    assert_sound(piece)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"length": 1500, "end_overhang": 480}, "the trestles stand 444 mm apart; 600 mm is the least"),
        ({"stretcher_height": 130, "beam": 110}, r"comes too near the foot or the head; keep it 30 mm clear .* 140 mm"),
        ({"width": 650, "side_overhang": 150}, "feet 350 mm long on posts 230 mm wide .* make them 430 mm or more"),
        ({"species": "plywood"}, "plywood comes in sheets; the table is of solid wood, so give"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        make(Table(**sizes))
