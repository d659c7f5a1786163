"""The boot chest as the example order has it, in inches, and over its whole range."""

from __future__ import annotations

from typing import Any

import pytest

from model.cuts.dovetails import Pins, Tails
from model.cuts.edges import EdgeGroove
from model.cuts.faces import Bore, Channel
from model.cuts.gains import HingeGain
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.through import Notch
from model.errors import DesignError
from model.joints.dovetail import first_tail
from model.pieces.chest import Chest, make
from model.solids import standing
from tests.conftest import made
from tests.model.pieces.sound import assert_sound, extent

INCH = 25.4


@pytest.fixture(scope="module")
def chest() -> Any:
    return made("refuge-chest")


def cuts(piece: Any, name: str, kind: type) -> list[Any]:
    return [c for c in piece[name].part.cuts if isinstance(c, kind)]


def test_it_is_sound_and_its_lefts_and_rights_mirror_each_other(chest: Any) -> None:
    assert_sound(chest)
    assert {p.mirror_of for p in chest if p.mirror_of} == {
        "left end", "left plinth end", "left front block", "left back block", "left lid end"
    }  # fmt: skip


def test_it_is_as_large_as_ordered(chest: Any) -> None:
    # the plinth stands out behind, the lid in front and at the ends
    assert extent(standing(chest)) == pytest.approx((920 + 2 * 20, 20 + 440 + 16, 480), abs=1e-3)


def test_front_and_back_carry_the_tails_and_the_ends_the_pins(chest: Any) -> None:
    assert all(len(cuts(chest, name, Tails)) == 2 for name in ("front", "back"))
    assert all(len(cuts(chest, name, Pins)) == 2 for name in ("left end", "right end"))


def test_the_lowest_tail_hides_the_groove_of_the_bottom(chest: Any) -> None:
    """In the ends it runs out into the sockets, so it may be plowed right through."""
    (corner, *_) = [j for j in chest.joints if j.kind == "dovetail"]
    low, high = first_tail(corner)
    for name in ("front", "back"):
        (groove,) = cuts(chest, name, Channel)
        assert low < groove.start[1] - groove.width / 2 < groove.start[1] + groove.width / 2 < high
        assert 0 < min(groove.start[0], groove.end[0]) < 19
    (groove,) = cuts(chest, "left end", Channel)
    assert groove.length == 440


def test_the_bottom_has_an_eighth_of_an_inch_to_the_foot_to_swell_in(chest: Any) -> None:
    (front,), (end,) = cuts(chest, "front", Channel), cuts(chest, "left end", Channel)
    run_in = (chest["bottom"].part.stock.width - (440 - 2 * 19)) / 2

    assert front.depth - run_in == pytest.approx((440 - 2 * 19) / 96 / 2)
    assert front.depth > end.depth
    assert all(j.glue_area == 0 for j in chest.joints if j.first == "bottom")


def test_the_lid_hangs_on_the_back_and_all_of_it_swings(chest: Any) -> None:
    lid = {name for name in chest.parts if "lid" in name}

    assert {s.part for s in chest.swings} == lid
    assert all(s.pin[1] > 440 and s.opens == 95 for s in chest.swings)
    assert len(cuts(chest, "back", HingeGain)) == len(cuts(chest, "back lid rail", HingeGain)) == 2
    assert any(h.kind == "lid stay" for h in chest.hardware)


def test_the_panels_float_dry_in_one_groove_round_the_frame(chest: Any) -> None:
    assert len(cuts(chest, "front lid rail", EdgeGroove)) == 1
    assert all(j.glue_area == 0 for j in chest.joints if j.first.startswith("lid panel"))
    assert len(cuts(chest, "lid panel 1", RaisedEdge)) == 4
    assert chest["lid panel 1"].part == chest["lid panel 2"].part


def test_the_plinth_is_moulded_and_cut_out_between_its_feet(chest: Any) -> None:
    for name in ("plinth front", "plinth back", "left plinth end", "right plinth end"):
        assert len(cuts(chest, name, Moulding)) == len(cuts(chest, name, Notch)) == 1


@pytest.mark.parametrize(("handles", "feet", "panel"), [(True, False, "flat"), (False, True, "raised")])
def test_what_may_be_left_out(handles: bool, feet: bool, panel: str) -> None:
    piece = make(Chest(handles=handles, feet=feet, panel=panel, panels=3))

    assert len(cuts(piece, "left end", Bore)) == (2 if handles else 0)
    assert len(cuts(piece, "plinth front", Notch)) == feet
    assert len(cuts(piece, "lid panel 1", RaisedEdge)) == (4 if panel == "raised" else 0)
    assert {"lid muntin 1", "lid muntin 2", "lid panel 3"} <= set(piece.parts)


def test_in_inches() -> None:
    table = {"width": "3'", "depth": '17 1/2"', "height": '19"', "plinth_height": '4"', "plinth_thickness": '5/8"'}
    piece = make(Chest.read(table, "ft-in", given={"thickness": 0.75 * INCH, "units": "ft-in"}))

    assert piece["front"].part.stock.length == pytest.approx(36 * INCH)
    assert piece["front"].part.stock.width == pytest.approx((19 - 0.75 - 2) * INCH)
    assert_sound(piece)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        (
            {"height": 360, "plinth_height": 140, "thickness": 65},
            "only 155 mm of the chest .* make it higher",
        ),
        ({"overhang": 14, "plinth_thickness": 22}, "looks pinched; make the overhang"),
        ({"panels": 4, "width": 560, "frame_width": 95}, "lid: the frame leaves panels .* make the frame narrower"),
        ({"thickness": 60, "height": 650}, "make"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        make(Chest(**sizes))
