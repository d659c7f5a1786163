"""A sliding dovetail that narrows on its way is told by both its ends: true, legible, and made again from them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drawings.paper.audit import audit
from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import IncompleteError, rebuilt
from model.cuts.edges import Ease
from model.joints.samples import shelf_and_side
from model.joints.sliding_dovetail import sliding_dovetail
from model.order import read_order
from model.parameters import Parameters
from model.piece import Piece
from model.solids import standing
from tests.drawings.proof.test_rebuilt import furthest_off

#: A taper is the difference of two widths, each between two places rounded by half the last place.
STEPS = 4.0


def tapered(taper: float, stopped: float = 0.0, eased: bool = False) -> Piece:
    shelf, side = shelf_and_side(9.0)
    joint = sliding_dovetail(shelf, side, taper=taper, stopped=stopped)
    piece = Piece("shelf", Parameters())
    piece.parts.update({p.name: p for p in (shelf, side)})
    piece.join(joint)
    if eased:
        shelf.cut(Ease(edge="near", radius=2.0), Ease(edge="far", radius=2.0))
    return piece


@pytest.mark.parametrize(("stopped", "eased", "units"), [(0.0, False, "mm"), (20.0, True, "mm"), (20.0, False, "in")])
def test_both_halves_come_back(stopped: float, eased: bool, units: str, tmp_path: Path) -> None:
    piece, order = tapered(1.6, stopped, eased), replace(read_order("refuge-bench"), units=units)
    sheets = part_sheets(piece, order)
    files = [tmp_path / f"{sheet.name}.dxf" for sheet in sheets]
    for sheet, path in zip(sheets, files, strict=True):
        write_dxf(sheet, path)
    found = [r for path in files for r in readings(path)]

    assert [b for sheet in sheets for b in audit(sheet)] == []
    assert not numbers_proof(piece, order, files, dict(standing(piece))).complaints
    for placed in piece:
        again = rebuilt(placed.name, placed.wood, found, order.units, half_place(order))
        assert furthest_off(placed.wood.cuts[0], again.cuts[0]) < STEPS * half_place(order) + 1e-6, placed.name


def test_a_tongue_without_its_narrow_end_is_missed(tmp_path: Path) -> None:
    piece, order = tapered(1.6), read_order("refuge-bench")
    found = []
    for sheet in part_sheets(piece, order):
        write_dxf(sheet, tmp_path / f"{sheet.name}.dxf")
        found += readings(tmp_path / f"{sheet.name}.dxf")
    cut = piece["shelf"].wood.cuts[0]
    tip = piece["shelf"].wood.thickness - 2.0 * cut.inset - cut.taper  # type: ignore[attr-defined]
    told = {f"{tip:.1f}".removesuffix(".0"), f"{cut.inset + cut.taper / 2.0:.1f}"}  # type: ignore[attr-defined]
    left = [r for r in found if r.text not in told]

    assert len(left) < len(found)
    with pytest.raises(IncompleteError):
        rebuilt("shelf", piece["shelf"].wood, left, order.units, half_place(order))
