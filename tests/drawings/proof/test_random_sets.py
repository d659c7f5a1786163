"""Whole sets of random orders: no number on them that the proof complains of.

Those that once had one are among them.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drawings.players.dxf import write_dxf
from drawings.proof.numbers import numbers_proof
from drawings.sheets.book import book
from model.order import Order, read_order
from model.piece import Piece
from model.solids import standing
from tests.model.pieces.orders import order as random_order


def ordered(example: str, units: str) -> Order:
    """The example's order in some units; sheets in inches on US paper."""
    order = read_order(example)
    paper = {} if units == "mm" else {"paper": "B"}
    return replace(order, units=units, drawing=order.drawing.model_copy(update=paper))


@pytest.mark.parametrize(("design", "example", "seed"), [("stool", "stool", 40), ("stool", "stool", 60)])
def test_every_number_of_a_random_orders_set_holds(design: str, example: str, seed: int, tmp_path: Path) -> None:
    piece = random_order(design, seed)
    assert isinstance(piece, Piece)
    order, shapes = ordered(f"refuge-{example}", piece.parameters.units), standing(piece)
    for sheet in book(piece, order, shapes):
        write_dxf(sheet, tmp_path / f"{sheet.name}.dxf")

    proved = numbers_proof(piece, order, sorted(tmp_path.glob("*.dxf")), dict(shapes))
    assert proved.complaints == ()
    assert proved.dimensions.checked > 50
    assert proved.figures.checked > 20
