"""The figures of cards, tables and lists: they hold, and one planted wrong or left unsaid is found and named alone."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from drawings.cards.setups import setup_leaves
from drawings.cards.story_sticks import story_stick_leaves
from drawings.cards.trammel import trammel_leaves
from drawings.paper.sheet import Sheet
from drawings.players.dxf import APPLICATION, write_dxf
from drawings.proof.numbers import Proved, numbers_answer, numbers_proof
from drawings.sheets.leaves import Leaf, bind
from drawings.sheets.parts_list import parts_listing
from drawings.sheets.principal import Lengths
from model.joints.slot_screwed import slot_screwed
from model.order import Order
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.solids import standing
from model.stock import board, panel
from tests.drawings.proof.sheets_written import ordered

#: A sheet of each family of figures, by its file's stem.
FAMILIES = ("setups-1", "setups-2", "trammel", "ordinates", "story-sticks", "parts-list")


def sheets_of_figures(piece: Any, order: Order) -> list[Sheet]:
    """The cards, and the parts list by itself."""
    listed = Leaf("parts-list", "Parts list", tuple(parts_listing(piece, Lengths(order.units)).marks((30.0, 280.0))))
    leaves = [*setup_leaves(piece, order), *trammel_leaves(piece, order), *story_stick_leaves(piece, order), listed]
    return bind(leaves, order)


@pytest.fixture(scope="module")
def files(bench: Any, tmp_path_factory: Any) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("figures")
    found = {}
    for sheet in sheets_of_figures(bench, ordered("refuge-bench")):
        found[sheet.name] = folder / f"{sheet.name}.dxf"
        write_dxf(sheet, found[sheet.name])
    return found


@pytest.fixture
def prove(bench: Any, bench_shapes: Any) -> Callable[[Path], Proved]:
    return lambda path: numbers_proof(bench, ordered("refuge-bench"), [path], bench_shapes)


def figures(doc: Any) -> list[Any]:
    """Those that are nothing but a number."""
    told = [t for t in doc.modelspace().query("TEXT") if t.has_xdata(APPLICATION)]
    return [t for t in told if re.fullmatch(r"[RØ]?[\d.]+°?", t.dxf.text)]


def more(text: str) -> str:
    """The same figure, a little larger."""
    before, number, after = re.fullmatch(r"([RØ]?)([\d.]+)(°?)", text).groups()  # type: ignore[union-attr]
    return f"{before}{float(number) + 0.2:.1f}{after}"


@pytest.mark.parametrize("family", FAMILIES)
def test_every_figure_holds(family: str, files: dict[str, Path], prove: Callable[[Path], Proved]) -> None:
    found = prove(files[family])

    assert found.complaints == ()
    assert found.figures.held == found.figures.checked > 5


@pytest.mark.parametrize("family", FAMILIES)
def test_a_falsified_figure_is_found_and_named(
    family: str, files: dict[str, Path], prove: Callable[[Path], Proved], tmp_path: Path
) -> None:
    doc = ezdxf.readfile(files[family])
    figure = figures(doc)[-1]
    figure.dxf.text = more(figure.dxf.text)
    doc.saveas(tmp_path / f"{family}.dxf")

    proved = prove(tmp_path / f"{family}.dxf")
    (complaint,) = proved.complaints
    assert [f.severity for f in numbers_answer([proved]).findings] == ["fault"]
    assert (complaint.file, complaint.text) == (f"{family}.dxf", figure.dxf.text)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_figure_that_does_not_say_what_it_measures_is_told(
    family: str, files: dict[str, Path], prove: Callable[[Path], Proved], tmp_path: Path
) -> None:
    doc = ezdxf.readfile(files[family])
    figure = figures(doc)[0]
    figure.discard_xdata(APPLICATION)
    doc.saveas(tmp_path / f"{family}.dxf")
    proved = prove(tmp_path / f"{family}.dxf")

    (finding,) = numbers_answer([proved]).findings
    assert finding.severity == "fault"
    assert finding.message == f'{family}.dxf: "{figure.dxf.text}" does not say what it measures'
    assert proved.figures.checked - proved.figures.held == 1


def test_another_solid_is_found(files: dict[str, Path], bench: Any, bench_shapes: Any, monkeypatch: Any) -> None:
    """The figures are held against the solid, not against the drawing's own data."""
    monkeypatch.setattr(bench["back board 2"], "part", bench["seat"].part)

    wrong = numbers_proof(bench, ordered("refuge-bench"), [files["parts-list"]], bench_shapes).complaints
    figures = [c for c in wrong if c.kind == "figure"]
    assert [c.text for c in figures] == ["1170", "111.2"]
    assert all("on the back board 2" in str(c) for c in figures)
    assert all(c.kind == "counted" for c in wrong if c not in figures)


def test_a_slot_is_measured_where_its_screw_heads_slot_has_left_its_walls(tmp_path: Path) -> None:
    piece = Piece("table", Parameters())
    top = piece.add("top", panel(600.0, 400.0, 22.0), place((0.0, 0.0, 120.0)))
    apron = piece.add("apron", board(380.0, 120.0, 22.0), place((311.0, 10.0, 0.0), grain="back", face="right"))
    piece.join(slot_screwed(apron, to=top, at=(120.0,), movement=4.0))
    order = ordered("refuge-bench")
    for sheet in bind(setup_leaves(piece, order), order):
        write_dxf(sheet, tmp_path / f"{sheet.name}.dxf")

    proved = numbers_proof(piece, order, sorted(tmp_path.glob("*.dxf")), standing(piece))
    assert proved.complaints == ()
    assert proved.figures.checked > 5
