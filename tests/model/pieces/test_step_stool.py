"""A step stool with splayed sides, from the public words alone: it fits, and a shop can make it from its sheets."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from drawings.cards.setups import setup_sheets
from drawings.lists.distinct import distinct_parts
from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import rebuilt
from model.checks.dry_fit import dry_fit
from model.cuts.slanted_dado import SlantedDado
from model.order import read_order
from model.pieces import design_of
from model.solids import standing
from tests.model.checks.planting import recut
from tests.model.pieces.sound import assert_fits, assert_sound

#: By how much a printed length may be rounded, mm: half of a tenth, or of a sixteenth of an inch.
HALF_PLACE = {"mm": 0.05, "in": 25.4 / 32.0}
SCRIPT = Path(__file__).with_name("step_stool.py")

ORDER = """
piece = "step_stool.py"
name = "refuge-step"
title = "Step to the upper bunks"
units = "{units}"
[size]
{sizes}
"""


def ordered(folder: Path, units: str = "mm", **sizes: float) -> Any:
    """The order, in a file beside a copy of the script, as it is read."""
    (folder / SCRIPT.name).write_text(SCRIPT.read_text(encoding="utf-8"), encoding="utf-8")
    said = "\n".join(f"{name} = {size}" for name, size in sizes.items())
    (folder / "order.toml").write_text(ORDER.format(units=units, sizes=said), encoding="utf-8")
    return read_order(str(folder / "order.toml"))


def made(order: Any) -> Any:
    """Its piece."""
    design = design_of(order)
    return design.make(order.parameters(design.parameters))


def test_it_is_sound_as_it_is_drawn(tmp_path: Path) -> None:
    piece = made(ordered(tmp_path))

    assert_sound(piece)
    assert [type(c) for c in piece["left side"].wood.cuts if isinstance(c, SlantedDado)] == [SlantedDado]


@pytest.mark.parametrize("seed", range(4))
def test_it_fits_at_any_size(seed: int, tmp_path: Path) -> None:
    chosen = random.Random(seed)
    splay, shelf = round(chosen.uniform(3.0, 12.0), 1), round(chosen.uniform(60.0, 160.0), 1)
    assert_fits(made(ordered(tmp_path, height=chosen.randint(220, 400), shelf=shelf, splay=splay)))


@pytest.mark.parametrize(("units", "sizes"), [("mm", {"splay": 11.3}), ("in", {"height": 12.25, "splay": 5})])
def test_every_number_holds_and_its_parts_come_back(units: str, sizes: dict[str, float], tmp_path: Path) -> None:
    order = ordered(tmp_path, units, **sizes)
    piece, files = made(order), list[Path]()
    for sheet in (*part_sheets(piece, order), *setup_sheets(piece, order)):
        files.append(tmp_path / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    found = [r for f in files for r in readings(f)]

    assert numbers_proof(piece, order, files, dict(standing(piece))).complaints == ()
    for kind in distinct_parts(piece):
        assert kind.wood is not None
        again = rebuilt(kind.names[0], replace(kind.wood, bend=None), found, order.units, HALF_PLACE[units])
        assert [type(c) for c in again.cuts] == [type(c) for c in kind.wood.cuts]


#: What is wrong with the left side's dado, and the check that must find it.
WRONG = [
    ({"depth": 6.0}, "overlap"),
    ({"width": 18.8}, "overlap"),
    ({"depth": 8.0}, "contact"),
    ({"width": 20.0}, "contact"),
]


@pytest.mark.parametrize(("sizes", "check"), WRONG)
def test_a_dado_made_wrong_is_found_and_nothing_else_accused(
    sizes: dict[str, float], check: str, tmp_path: Path
) -> None:
    piece = recut("left side", SlantedDado, **sizes)(made(ordered(tmp_path)))
    found = [f for f in dry_fit(piece, standing(piece)).findings if f.severity == "fault"]

    assert check in {f.check for f in found}
    assert {f.parts for f in found} <= {("left side", "shelf"), ("shelf", "left side")}
