"""A piece as a stranger would write it, from the public words alone: it must work out as the shipped designs do."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any

import pytest

import model
from model.checks.dry_fit import dry_fit, fits
from model.order import read_order
from model.pieces import design_of

SCRIPT = Path(__file__).with_name("wall_shelf.py")

ORDER = """
piece = "wall_shelf.py"
name = "refuge-wall-shelf"
title = "Wall shelf for the refuge's door"
units = "{units}"
[size]
{sizes}
"""

SIZES = [
    ("mm", ""),
    ("mm", 'width = 700\nheight = 450\ndepth = 260\ndrawer_height = 120\ndrawer_back = "dovetail"'),
    ("mm", "width = 300\nheight = 240\ndepth = 150\ndrawer_height = 70\nhousing = 4\neased = false"),
    ("in", 'width = "16 1/2"\nheight = 12\ndepth = "7 1/2"\ndrawer_height = "3 1/2"'),
]


def ordered(folder: Path, units: str, sizes: str) -> Any:
    """The order, in a file beside a copy of the script, as it is read."""
    (folder / SCRIPT.name).write_text(SCRIPT.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "order.toml").write_text(ORDER.format(units=units, sizes=sizes), encoding="utf-8")
    return read_order(str(folder / "order.toml"))


def test_the_script_imports_nothing_but_the_public_words() -> None:
    tree = ast.parse(SCRIPT.read_text(encoding="utf-8"))
    imported = [node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom)]

    assert [node.module for node in imported if isinstance(node, ast.ImportFrom)] == ["model"]
    assert len(imported) == 1
    assert {a.name for a in imported[0].names} <= set(model.__all__)


@pytest.mark.parametrize(("units", "sizes"), SIZES)
def test_the_wall_shelf_fits(units: str, sizes: str, tmp_path: Path) -> None:
    from model.solids import standing

    order = ordered(tmp_path, units, sizes)
    design = design_of(order)
    piece = design.make(order.parameters(design.parameters))
    shapes = standing(piece)
    answer = dry_fit(piece, shapes, least_wood=order.shop.least_wood)

    assert len(piece.parts) == 10
    assert all(shape.isValid() for shape in shapes.values())
    assert [f.message for f in answer.findings if f.severity == "fault"] == []
    assert fits(answer)


def test_its_own_refusals_reach_the_maker(tmp_path: Path) -> None:
    order = ordered(tmp_path, "mm", "height = 240\ndrawer_height = 120\n[wood]\nthickness = 25")
    design = design_of(order)

    with pytest.raises(model.DesignError, match=r"no room above the shelf; make the sides at least"):
        order.parameters(design.parameters)
