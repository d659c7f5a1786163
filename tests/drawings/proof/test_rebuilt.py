"""Completeness: every flat part comes back from nothing but the numbers of its sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from drawings.lists.distinct import distinct_parts
from drawings.parts.edge_section import is_arris
from drawings.proof.numbers import half_place
from drawings.proof.readings import Reading, readings
from drawings.proof.rebuilt import IncompleteError, Numbers, rebuilt
from model.cuts.edges import EdgeCut
from model.order import Order
from model.part import Part
from model.solids import solid
from tests.drawings.proof.sheets_written import ordered, written


def read(piece: Any, order: Order, folder: Path) -> list[Reading]:
    return [r for path in written(piece, order, folder) for r in readings(path)]


def flat(part: Part) -> Part:
    """As it is cut, its arrises sharp: where rounded places no longer meet tangentially no kernel can ease them."""
    arrises = [c for c in part.cuts if isinstance(c, EdgeCut) and is_arris(c)]
    return replace(part, bend=None, cuts=tuple(c for c in part.cuts if c not in arrises))


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("example", ["bench", "bookcase"])
def test_every_part_comes_back_from_its_sheet(example: str, units: str, request: Any, tmp_path: Path) -> None:
    """No face may lie further off than half the last place allows it twice: its own place, and its datum's or arc's."""
    piece, order = request.getfixturevalue(example), ordered(f"refuge-{example}", units)
    found = read(piece, order, tmp_path)
    for kind in distinct_parts(piece):
        assert isinstance(kind.part, Part)
        numbers = Numbers.of(kind.names[0], found, units, half_place(order))
        true, made = solid(flat(kind.part)), solid(flat(rebuilt(replace(kind.part, bend=None), numbers)))
        off = true.cut(made).Volume() + made.cut(true).Volume()
        assert off < 2.0 * half_place(order) * true.Area() / 2.0, kind.names[0]
        assert _footprints(kind.part) == pytest.approx(
            _footprints(rebuilt(replace(kind.part, bend=None), numbers)), abs=2.0 * half_place(order) + 1e-6
        )


def _footprints(part: Part) -> list[float]:
    """Bounds of every pocket and hole, and the area of the outline as a length, mm."""
    bounds = [v for _, f in part.footprints()[1:] if not f.through for v in f.outline.bounds]
    return sorted(bounds)


@pytest.mark.parametrize("which", ["1241", "R90", "407"])
def test_a_number_left_out_is_missed(which: str, bench: Any, tmp_path: Path) -> None:
    order = ordered("refuge-bench")
    found = [r for r in read(bench, order, tmp_path) if r.text != which]
    side = bench["left side"].part

    with pytest.raises(IncompleteError, match="left side"):
        rebuilt(side, Numbers.of("left side", found, "mm", half_place(order)))


def test_a_width_in_a_table_serves_for_its_letter(bench: Any, tmp_path: Path) -> None:
    order = ordered("refuge-bench")
    numbers = Numbers.of("back board 4", read(bench, order, tmp_path), "mm", half_place(order))

    made = rebuilt(bench["back board 4"].part, numbers)
    assert made.stock.width == pytest.approx(bench["back board 4"].part.stock.width, abs=0.05)
