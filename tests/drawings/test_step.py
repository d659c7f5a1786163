from __future__ import annotations

from pathlib import Path
from typing import Any

import cadquery as cq
import pytest

from drawings.step import settled, write_step
from model.part import Part
from model.piece import Piece
from model.solids import standing


def test_names_count_and_volumes_come_back(bookcase: Piece, bookcase_shapes: dict[str, Any], tmp_path: Path) -> None:
    write_step(bookcase, tmp_path / "model.step")
    read = cq.Assembly.importStep(str(tmp_path / "model.step"))
    parts = {child.name: child for child in read.children}

    assert set(parts) == set(bookcase_shapes)
    for name, shape in bookcase_shapes.items():
        found = parts[name].toCompound()
        assert found.Volume() == pytest.approx(shape.Volume(), rel=1e-6)
        assert found.Center().toTuple() == pytest.approx(shape.Center().toTuple(), abs=1e-4)
        assert parts[name].color is not None


def test_equal_parts_are_stored_once(bookcase: Piece, tmp_path: Path) -> None:
    write_step(bookcase, tmp_path / "model.step")
    text = (tmp_path / "model.step").read_text()

    kinds = {p.part for p in bookcase if isinstance(p.part, Part)}
    assert len(kinds) < len(bookcase.parts)
    assert text.count("MANIFOLD_SOLID_BREP(") == len(kinds)


def test_the_same_piece_gives_the_same_bytes(bench: Piece, tmp_path: Path) -> None:
    write_step(bench, tmp_path / "a.step")
    write_step(bench, tmp_path / "b.step")

    first = (tmp_path / "a.step").read_bytes()
    assert first == (tmp_path / "b.step").read_bytes()
    assert b"2000-01-01T00:00:00" in first


def test_colours_are_put_in_order() -> None:
    def body(first: int, second: int) -> str:
        return (
            "HEADER;\nFILE_NAME('x','2026-01-01T10:00:00',('a'));\nENDSEC;\nDATA;\n#1 = A();\n#2 = B();\n"
            "#3 = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#4,#6),#1);\n"
            f"#4 = STYLED_ITEM('color',(#5),#{first});\n#5 = COLOUR();\n"
            f"#6 = STYLED_ITEM('color',(#7),#{second});\n#7 = COLOUR();\nENDSEC;\n"
        )

    assert settled(body(1, 2)) == settled(body(2, 1))


def test_solids_are_left_as_they_were(bench: Piece, bench_shapes: dict[str, Any], tmp_path: Path) -> None:
    before = bench_shapes["seat"].Volume()
    write_step(bench, tmp_path / "model.step")

    assert standing(bench)["seat"].Volume() == before
