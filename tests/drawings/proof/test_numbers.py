"""The proof pass: it holds for what is shipped, counts everything, and catches planted faults."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from drawings.players.dxf import APPLICATION, write_dxf
from drawings.proof.numbers import numbers_proof
from drawings.sheets.general import general_sheet, general_views
from model.cuts.faces import Channel
from model.order import read_order
from tests.drawings.proof.sheets_written import ordered, written


@pytest.mark.parametrize("units", ["mm", "in", "in.dec"])
@pytest.mark.parametrize(("example", "least"), [("bench", 350), ("bookcase", 110)])
def test_every_number_of_the_part_sheets_holds(
    example: str, least: int, units: str, request: Any, tmp_path: Path
) -> None:
    piece, shapes = request.getfixturevalue(example), request.getfixturevalue(f"{example}_shapes")
    order = ordered(f"refuge-{example}", units)
    found = numbers_proof(piece, order, written(piece, order, tmp_path), shapes)

    assert found.complaints == ()
    assert found.dimensions.checked == found.dimensions.held
    assert found.figures.checked == found.figures.held
    assert found.dimensions.checked + found.figures.checked > least


@pytest.mark.parametrize("example", ["bench", "bookcase"])
def test_every_number_of_the_general_sheet_holds(example: str, request: Any, tmp_path: Path) -> None:
    piece, shapes = request.getfixturevalue(example), request.getfixturevalue(f"{example}_shapes")
    order = read_order(f"refuge-{example}")
    write_dxf(general_sheet(piece, order, general_views(shapes, order)), tmp_path / "general.dxf")
    found = numbers_proof(piece, order, [tmp_path / "general.dxf"], shapes)

    assert found.complaints == ()
    assert found.dimensions.checked > 5


@pytest.fixture
def side(bookcase: Any, tmp_path: Path) -> Path:
    """The sheet of the bookcase's left side."""
    return written(bookcase, ordered("refuge-bookcase"), tmp_path)[0]


def proven(path: Path, piece: Any, shapes: Any) -> tuple[int, tuple[str, ...]]:
    found = numbers_proof(piece, ordered("refuge-bookcase"), [path], shapes)
    return len(found.complaints), tuple(map(str, found.complaints))


def dimensions(doc: Any) -> list[Any]:
    return [d for d in doc.modelspace().query("DIMENSION") if d.dxf.text not in ("0", "W")]


def test_the_count_is_of_every_dimension_and_every_measured_cell(
    side: Path, bookcase: Any, bookcase_shapes: Any
) -> None:
    space = ezdxf.readfile(side).modelspace()
    cells = [t for t in space.query("TEXT") if t.has_xdata(APPLICATION)]
    found = numbers_proof(bookcase, ordered("refuge-bookcase"), [side], bookcase_shapes)

    assert found.dimensions.checked == len(space.query("DIMENSION"))
    assert found.figures.checked == len(cells)


@pytest.mark.parametrize("which", range(6))
def test_a_falsified_dimension_is_caught(which: int, side: Path, bookcase: Any, bookcase_shapes: Any) -> None:
    doc = ezdxf.readfile(side)
    dimension = dimensions(doc)[which]
    dimension.dxf.text = f"{float(dimension.dxf.text.lstrip('R').rstrip('°')) + 0.2:.1f}"
    doc.saveas(side)

    failed, complaints = proven(side, bookcase, bookcase_shapes)
    assert failed == 1
    assert dimension.dxf.text in complaints[0]


def test_a_falsified_cell_is_caught(side: Path, bookcase: Any, bookcase_shapes: Any) -> None:
    doc = ezdxf.readfile(side)
    cell = next(t for t in doc.modelspace().query("TEXT") if t.has_xdata(APPLICATION))
    cell.dxf.text = "1200.1"
    doc.saveas(side)

    assert proven(side, bookcase, bookcase_shapes)[0] == 1


def test_a_dimension_of_a_place_where_nothing_is_is_caught(side: Path, bookcase: Any, bookcase_shapes: Any) -> None:
    doc = ezdxf.readfile(side)
    dimension = next(d for d in dimensions(doc) if d.dimtype == 6)
    tags = list(dimension.get_xdata(APPLICATION))
    moved = [(t.code, (t.value[0] + 0.3, t.value[1], 0.0) if n == 4 else t.value) for n, t in enumerate(tags)]
    dimension.set_xdata(APPLICATION, moved)
    doc.saveas(side)

    failed, complaints = proven(side, bookcase, bookcase_shapes)
    assert failed == 1
    assert "measures nothing that is there" in complaints[0]


def test_a_dimension_drawn_elsewhere_is_caught(side: Path, bookcase: Any, bookcase_shapes: Any) -> None:
    doc = ezdxf.readfile(side)
    dimension = next(d for d in dimensions(doc) if d.dimtype == 6)
    x, y, _ = dimension.dxf.defpoint2
    dimension.dxf.defpoint2 = (x + 0.1, y + 0.1)
    doc.saveas(side)

    failed, complaints = proven(side, bookcase, bookcase_shapes)
    assert failed == 1
    assert "is drawn" in complaints[0]


def test_a_dimension_that_does_not_say_what_it_measures_is_caught(
    side: Path, bookcase: Any, bookcase_shapes: Any
) -> None:
    doc = ezdxf.readfile(side)
    dimensions(doc)[0].discard_xdata(APPLICATION)
    doc.saveas(side)

    assert proven(side, bookcase, bookcase_shapes)[0] == 1


def test_another_solid_is_caught(side: Path, bookcase: Any, bookcase_shapes: Any, monkeypatch: Any) -> None:
    """The numbers are held against the solid, not against the drawing's own data."""
    placed = bookcase["left side"]
    cuts = [c for c in placed.part.cuts if isinstance(c, Channel)]
    other = replace(cuts[0], depth=cuts[0].depth + 1.0)
    changed = replace(placed.part, cuts=tuple(other if c is cuts[0] else c for c in placed.part.cuts))
    monkeypatch.setattr(placed, "part", changed)

    assert proven(side, bookcase, bookcase_shapes)[0] >= 1
