"""The first-aid cupboard as the example order has it, in inches, and over its whole range."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from model.cuts.dovetails import Pins, Tails
from model.cuts.edges import Rabbet
from model.cuts.faces import Bore, Channel, Counterbore
from model.cuts.gains import HingeGain
from model.cuts.moulding import RaisedEdge
from model.cuts.through import Notch
from model.drawers import SIDE_PLAY, TOP_PLAY
from model.errors import DesignError
from model.pieces.cupboard import LEAST_BETWEEN, Cupboard, make
from model.solids import solid, standing
from tests.conftest import made
from tests.model.pieces.sound import assert_sound, extent

INCH = 25.4


@pytest.fixture(scope="module")
def cupboard() -> Any:
    return made("refuge-cupboard")


def cuts(piece: Any, name: str, kind: type) -> list[Any]:
    return [c for c in piece[name].part.cuts if isinstance(c, kind)]


def test_it_is_sound(cupboard: Any) -> None:
    assert_sound(cupboard)


def test_it_is_as_large_as_ordered(cupboard: Any) -> None:
    assert extent(standing(cupboard)) == pytest.approx((420, 210, 740), abs=1e-3)


def test_the_sides_mirror_each_other_but_for_the_hinges(cupboard: Any) -> None:
    """The door is hung on the left alone."""
    left, right = solid(cupboard["left side"].part), solid(cupboard["right side"].part)
    gains = cuts(cupboard, "left side", HingeGain)

    assert cupboard["right side"].mirror_of == "left side"
    assert len(gains) == 2
    assert left.Volume() + sum(g.length * g.leaf * g.depth for g in gains) == pytest.approx(right.Volume(), rel=1e-7)


def test_the_top_is_half_blind_on_the_tails_of_the_sides(cupboard: Any) -> None:
    assert len(cuts(cupboard, "left side", Tails)) == 1
    assert len(cuts(cupboard, "top", Pins)) == 2
    assert sum(j.kind == "half-blind dovetail" and j.second == "top" for j in cupboard.joints) == 2
    assert cupboard["left side"].part.stock.length == pytest.approx(740 - 19 / 4)


def test_a_dadoed_top_lies_below_the_sides_ends() -> None:
    piece = make(Cupboard(corners="dadoed"))

    assert cuts(piece, "left side", Tails) == []
    assert len(cuts(piece, "top", Notch)) == 2  # its dadoes stop short of the front
    assert piece["left side"].part.stock.length == 740
    assert piece["top"].at.origin[2] == pytest.approx(740 - 20 - 19)


def test_the_door_hangs_where_it_is_asked_and_all_of_it_swings() -> None:
    for hand, other in (("left", "right"), ("right", "left")):
        piece = make(Cupboard(hand=hand))
        door = {name for name in piece.parts if "door" in name}

        assert len(cuts(piece, f"{hand} side", HingeGain)) == len(cuts(piece, f"{hand} door stile", HingeGain)) == 2
        assert cuts(piece, f"{other} side", HingeGain) == cuts(piece, f"{other} door stile", HingeGain) == []
        assert {s.part for s in piece.swings} == door
        assert [h.parts[0] for h in piece.hardware if h.kind == "knob"] == [f"{other} door stile", "drawer front"]


def test_the_door_has_its_gap_all_round(cupboard: Any) -> None:
    boxes = [s.BoundingBox() for name, s in standing(cupboard).items() if "door" in name]

    assert min(b.xmin for b in boxes) == pytest.approx(19 + 1.5, abs=1e-4)
    assert max(b.xmax for b in boxes) == pytest.approx(420 - 19 - 1.5, abs=1e-4)
    assert min(b.zmin for b in boxes) == pytest.approx(56 + 19 + 92 + 19 + 1.5, abs=1e-4)
    assert max(b.zmax for b in boxes) == pytest.approx(740 - 19 - 1.5, abs=1e-4)


@pytest.mark.parametrize(("cross", "panel"), [(True, "flat"), (False, "raised")])
def test_the_panel_is_worked_as_asked(cross: bool, panel: str) -> None:
    piece = make(Cupboard(cross=cross, panel=panel))

    assert len(cuts(piece, "door panel", Channel)) == (2 if cross else 0)
    assert len(cuts(piece, "door panel", RaisedEdge)) == (4 if panel == "raised" else 0)


def test_the_drawer_has_its_clearances_and_slides(cupboard: Any) -> None:
    front = cupboard["drawer front"].part.stock

    assert front.length == pytest.approx(420 - 2 * 19 - 2 * SIDE_PLAY)
    assert front.width == pytest.approx(92 - TOP_PLAY)
    assert len(cuts(cupboard, "drawer front", Pins)) == 2
    assert {s.part for s in cupboard.slides} == {n for n in cupboard.parts if "drawer" in n} - {
        "drawer rail", "left drawer runner", "right drawer runner"
    }  # fmt: skip
    assert {a.first for a in cupboard.apart} >= {"left drawer side", "right drawer side", "drawer front"}


@pytest.mark.parametrize("shelves", [0, 1, 3])
def test_every_shelf_lies_on_four_pins(shelves: int) -> None:
    piece = make(Cupboard(shelves=shelves, height=1000))
    levels = [piece[f"shelf {n}"].at.origin[2] for n in range(1, shelves + 1)]

    assert sum(h.kind == "shelf pin" for h in piece.hardware) == 4 * shelves
    assert all(b - a - 19 >= LEAST_BETWEEN for a, b in pairwise(levels))
    assert len(cuts(piece, "left side", Bore)) == len(cuts(piece, "right side", Bore)) > 8


def test_the_back_lies_in_rabbets_and_the_wall_screws_go_right_through(cupboard: Any) -> None:
    assert len(cuts(cupboard, "left side", Rabbet)) == len(cuts(cupboard, "right side", Rabbet)) == 1
    assert sum(j.kind == "ship-lap" for j in cupboard.joints) == 3
    screws = [h for h in cupboard.hardware if h.kind == "wall screw"]
    assert len(screws) == len(cuts(cupboard, "hanging rail", Counterbore)) == 2
    # what is left of each beyond the back, into the wall: 76 less 15 of rail and 10 of back
    assert all(s.at[1] + s.length - 210 == pytest.approx(76 - 15 - 10) for s in screws)


def test_in_inches() -> None:
    table = {"width": '17"', "height": '30"', "depth": '8 1/2"', "drawer_height": '3 3/4"', "gap": '1/16"'}
    piece = make(Cupboard.read(table, "in", given={"thickness": 0.75 * INCH, "units": "in"}))

    assert piece["floor"].part.stock.width == pytest.approx(8.5 * INCH - 10)
    assert piece["floor"].part.stock.length == pytest.approx((17 - 1.5 + 0.5) * INCH)
    assert_sound(piece)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"shelves": 5, "height": 640}, "shelves: 5 leave .* make fewer shelves or a higher cupboard"),
        ({"height": 600, "tail": 90, "drawer_height": 130, "thickness": 44}, "too little for shelves; make .* higher"),
        ({"frame_width": 70, "width": 320, "thickness": 60, "shelves": 0}, "make the frame narrower"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        make(Cupboard(**sizes))
