"""Whatever a maker cuts in a part, every number of its sheet and cards is proven and it comes back from its sheet."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.cards.setups import setup_leaves
from drawings.cards.story_sticks import story_stick_leaves
from drawings.parts.compose import part_leaves
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import rebuilt
from drawings.sheets.leaves import Leaf, bind
from drawings.sheets.parts_list import parts_listing
from drawings.sheets.principal import Lengths
from model.cuts.sawn import SawCut
from model.order import Order
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece, Placed
from model.placement import place
from model.solids import solid, standing
from model.stock import board
from tests.drawings.proof.any_part import any_part, sawn
from tests.drawings.proof.sheets_written import ordered


def written(piece: Piece, order: Order, folder: Path) -> list[Path]:
    """All sheets that tell of single parts, the parts list by itself."""
    form, files = Lengths(order.units, order.drawing.denominator), []
    listed = Leaf("parts-list", "Parts list", tuple(parts_listing(piece, form).marks((30.0, 280.0))))
    leaves = [*part_leaves(piece, order), *setup_leaves(piece, order), *story_stick_leaves(piece, order), listed]
    for sheet in bind(leaves, order):
        files.append(folder / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    return files


def holds(part: Part, units: str) -> None:
    piece, order = Piece("small", Parameters()), ordered("refuge-bench", units)
    piece.parts["board"] = Placed("board", part, place())
    with TemporaryDirectory() as folder:
        files = written(piece, order, Path(folder))
        assert numbers_proof(piece, order, files, dict(standing(piece))).complaints == ()
        told = [r for f in files if f.name.startswith("parts") and "list" not in f.name for r in readings(f)]
    again, true = solid(rebuilt("board", part, told, units, half_place(order))), solid(part)
    assert again.Volume() == pytest.approx(true.Volume(), abs=half_place(order) * true.Area())


@settings(max_examples=28, deadline=None, derandomize=True)
@given(st.integers(0, 100_000), st.sampled_from(["mm", "ft-in"]))
def test_any_part_is_drawn_true(seed: int, units: str) -> None:
    part = any_part(seed)
    if len(solid(part).Solids()) == 1:
        holds(part, units)


@pytest.mark.parametrize("units", ["mm", "ft-in"])
def test_a_part_sawn_out_of_its_blank_on_all_sides_is_drawn_true(units: str) -> None:
    """Nothing of the blank's ends and near edge is left, and one end leans from a corner."""
    near = SawCut((0.0, 6.0, 0.0), (0.0, -1.0, 0.0))
    part = Part(board(600, 100, 20, "red oak"))

    holds(part.cut(near, sawn("left", 12.0, 6.0, 0.0, 20.0), sawn("right", 570.0, 6.0, 25.0, -20.0)), units)
