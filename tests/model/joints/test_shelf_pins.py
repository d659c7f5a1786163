"""Shelves on pins: the pins lie in their bores, under the shelf."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.shelf_bores import DEPTH, shelf_bores
from model.errors import DesignError
from model.hardware_solids import hardware_solid
from model.joints.shelf_pins import PIN_OUT, on_pins
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import place
from model.stock import board, panel
from tests.model.joints.witness import shape


def case(row: int, gap: float = 1.0) -> tuple[Placed, Placed, Placed]:
    """(shelf, left, right): two bored sides 500 mm apart inside, the shelf on the pins of a row."""
    piece = Piece("case", Parameters(thickness=19.0))
    left, right = piece.pair("side", panel(800.0, 300.0), place((-269.0, 300.0, 0.0), "up", "right"))
    left.cut(*shelf_bores(left.wood, 100.0, 700.0, front="far", back_inset=60.0))
    right.cut(*shelf_bores(right.wood, 100.0, 700.0, front="near", back_inset=60.0))
    at = place((-250.0 + gap, 5.0, 100.0 + 32.0 * row + 2.5))
    return piece.add("shelf", board(500.0 - 2.0 * gap, 280.0), at), left, right


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 18), st.floats(0.2, 2.5))
def test_two_pins_at_each_end_touch_nothing_but_their_bores(row, gap) -> None:  # type: ignore[no-untyped-def]
    shelf, left, right = case(row, gap)

    for side in (left, right):
        joint = on_pins(shelf, side)
        assert joint.fit == pytest.approx(gap, abs=1e-6)
        assert len(joint.hardware) == 2
        assert shape(shelf).distance(shape(side)) == pytest.approx(gap, abs=1e-6)
        for pin in joint.hardware:
            rod = hardware_solid(pin)
            assert pin.length == DEPTH + PIN_OUT
            assert rod.intersect(shape(side)).Volume() < 1e-3
            assert rod.intersect(shape(shelf)).Volume() < 1e-3
            assert rod.distance(shape(shelf)) < 1e-6


def test_sides_mirror() -> None:
    _, left, right = case(3)
    images = set(left.wood.mirrored().cuts)

    assert images == set(right.wood.cuts)


def test_between_two_rows_there_are_no_pins() -> None:
    shelf, left, _ = case(4)
    shelf.at = shelf.at.moved(dz=10.0)
    with pytest.raises(DesignError, match=r"shelf lies 240\.5 mm up, but the nearest pins of left side are 230\.5 mm"):
        on_pins(shelf, left)
    shelf.at = shelf.at.moved(dx=8.0)
    with pytest.raises(DesignError, match="no bores of left side lie beside the end of shelf"):
        on_pins(shelf, left)
