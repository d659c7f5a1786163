"""The census: every number printed in a text is accounted for, and a planted fault is found, nothing else accused."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from drawings.proof.looked_up import model_over_paper
from drawings.proof.numbers import numbers_answer, numbers_proof
from drawings.set_out import Built, build, draw
from model.order import read_order


@cache
def stool(units: str) -> Built:
    """The stool, which has all kinds of sheets and few of each; printed in any units."""
    built = build(read_order("refuge-stool"))
    return replace(built, order=replace(built.order, units=units))


@pytest.fixture(scope="module", params=["mm", "in"])
def drawn(request: Any, tmp_path_factory: Any) -> tuple[Built, Path]:
    folder = tmp_path_factory.mktemp(f"set-{request.param}")
    draw(stool(request.param), folder)
    return stool(request.param), folder / "drawings"


@pytest.fixture
def metric(written: dict[str, str], tmp_path: Path) -> Path:
    """A set of one's own to spoil, in mm."""
    for name, text in written.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture(scope="module")
def written(tmp_path_factory: Any) -> dict[str, str]:
    folder = tmp_path_factory.mktemp("whole")
    draw(stool("mm"), folder)
    return {p.name: p.read_text(encoding="utf-8") for p in sorted((folder / "drawings").glob("*.dxf"))}


def found(built: Built, folder: Path) -> list[str]:
    proved = numbers_proof(built.piece, built.order, sorted(folder.glob("*.dxf")), dict(built.shapes))
    return [f.message for f in numbers_answer([proved], whole=True).findings]


def test_no_number_of_a_set_is_left_over(drawn: tuple[Built, Path]) -> None:
    built, folder = drawn
    proved = numbers_proof(built.piece, built.order, sorted(folder.glob("*.dxf")), dict(built.shapes))
    answer = numbers_answer([proved], whole=True)

    assert [f.message for f in answer.findings] == []
    assert all(p.checked == p.held for p in answer.proofs)
    assert proved.of("counted").checked > 100
    assert proved.of("looked up").checked > 10


def spoil(folder: Path, sheet: str, printed: str, instead: str, layer: str = "lettering") -> None:
    """Another text in the place of the first that is printed on a sheet, what it says left as it is."""
    told = re.compile(rf"(?m)^(  8\n{layer}\n(?:(?!  0\n).*\n)*?  1\n){printed}\n")
    path = next(p for p in sorted(folder.glob(f"{sheet}*.dxf")) if told.search(_read(p)))
    path.write_text(told.sub(rf"\g<1>{instead}\n", _read(path), count=1), encoding="utf-8")


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("sheet", "printed", "instead", "why"),
    [
        ("general", "3 parts of 3 kinds, .*", "4 parts of 3 kinds, listed.", "has 4, which is 3"),
        ("general", "3 parts of 3 kinds, .*", "3 parts of 2 kinds, listed.", "has 2, which is 3"),
        ("sections", "(C: )?Slotted, .*", "Slotted, 1:50", "is no scale that is drawn in"),
        ("parts", "Seat, 1:.*", "Seat, 1:20", "is no scale that is drawn in"),
        ("general", "A3", "A4", "is not what the order says: drawing.paper"),
        ("steps", "Step 2", "Step 1", "is the number of another step"),
        (
            "sections",
            "(first frame: slot 18.2 wide × )75.3(.*)",
            "first frame: slot 18.2 wide × 76.1 long",
            "is no size",
        ),
        ("sections", "Fit: 0.2 clear", "Fit: 0.4 clear", "has 0.4, which is 0.2"),
    ],
)
def test_a_planted_fault_is_found_alone(metric: Path, sheet: str, printed: str, instead: str, why: str) -> None:
    spoil(metric, sheet, printed, instead)
    complaints = found(stool("mm"), metric)

    assert len(complaints) == 1, complaints
    assert why in complaints[0]


@pytest.mark.parametrize(
    ("sheet", "layer", "printed", "instead", "why"),
    [
        ("exploded", "grid", "3", "4", "does not follow 2 in the list of fields"),
        ("exploded", "reference", "2", "3", '"3" is 2'),
        ("parts", "reference", "1", "9", '"9" is 1'),
        ("story", "reference", "2", "7", "stands for"),
    ],
)
def test_a_wrong_item_count_or_place_is_found_alone(
    metric: Path, sheet: str, layer: str, printed: str, instead: str, why: str
) -> None:
    spoil(metric, sheet, printed, instead, layer)
    complaints = found(stool("mm"), metric)

    assert complaints, (sheet, printed)
    assert all(why in complaint for complaint in complaints)


def test_a_glue_area_in_square_inches_is_held_against_the_joints(drawn: tuple[Built, Path], tmp_path: Path) -> None:
    built, folder = drawn
    inches = ("in²", "8.9", "9.1", "8.9")
    unit, printed, instead, true = inches if built.order.units == "in" else ("cm²", "58", "59", "57.6")
    for path in folder.glob("*.dxf"):
        (tmp_path / path.name).write_text(_read(path), encoding="utf-8")
    spoil(tmp_path, "steps", f"(.*){printed} {unit}(.*)", rf"\g<2>{instead} {unit}\g<3>")

    (complaint,) = found(built, tmp_path)
    assert f"has {instead}, which is {true}" in complaint


def test_a_wrong_sheet_number_is_found(metric: Path) -> None:
    count = len(list(metric.glob("*.dxf")))
    spoil(metric, "general", f"1 of {count}", f"1 of {count + 1}")

    assert found(stool("mm"), metric) == [f'general.dxf: "of {count + 1}" but there are {count} sheets']


def test_two_sheets_of_one_number_are_found(metric: Path) -> None:
    count = len(list(metric.glob("*.dxf")))
    spoil(metric, "general", f"1 of {count}", f"2 of {count}")

    assert [c.partition(": ")[2] for c in found(stool("mm"), metric)] == [f"no 1 among the {count} sheets"]


def test_a_sheet_that_is_missing_is_found(metric: Path) -> None:
    next(iter(sorted(metric.glob("parts*.dxf")))).unlink()

    assert any("sheets" in complaint for complaint in found(stool("mm"), metric))


def test_an_unexplained_number_is_found(metric: Path) -> None:
    spoil(metric, "general", "Front", "Front 7")

    assert found(stool("mm"), metric) == ['general.dxf: "Front 7" does not say what its 7 is']


def test_a_number_that_says_what_is_not_there_is_found(metric: Path) -> None:
    """What it says is spoilt, not what is printed: a name that no part has."""
    path = next(p for p in sorted(metric.glob("exploded*.dxf")))
    path.write_text(_read(path).replace("1000\nitem\n1000\nseat\n", "1000\nitem\n1000\nsettle\n", 1), encoding="utf-8")

    assert found(stool("mm"), metric) == ['exploded.dxf: "3" counts nothing that is there']


@pytest.mark.parametrize(
    ("printed", "factor"), [("1:10", 10.0), ("2:1", 0.5), ('3" = 1\'-0"', 4.0), ('1 1/2" = 1\'-0"', 8.0)]
)
def test_a_scale_is_read_as_the_trade_writes_it(printed: str, factor: float) -> None:
    assert model_over_paper(printed) == pytest.approx(factor)
