"""Sheets of tapered and turned legs: legible, every number true, the legs made again; planted faults found."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.paper.audit import audit
from drawings.paper.sheet import Sheet
from drawings.parts import part_sheets
from drawings.parts.family import families
from drawings.parts.notes_of_part import notes
from drawings.parts.silhouette import silhouette
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import IncompleteError, rebuilt
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut
from model.cuts.legs import ALL_SIDES, Station, Taper, Turned
from model.order import read_order
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece
from model.placement import Placement
from model.solids import standing
from model.stock import board
from tests.drawings.proof.test_rebuilt import furthest_off

SQUARE = board(700.0, 44.0, 44.0, "red oak")
#: With a step, a cove, a bead, a slow hollow, and a foot turned down to its end.
PROFILE = (
    Station(0.0, 24.0), Station(40.0, 30.0), Station(300.0, 38.0), Station(300.0, 32.0, -3.0),
    Station(325.0, 32.0, 4.5), Station(345.0, 32.0), Station(520.0, 40.0, -2.0), Station(560.0, 40.0),
)  # fmt: skip
LEGS: dict[str, tuple[Any, Cut]] = {
    "two sides": (SQUARE, Taper(("far", "face"), 500.0, 28.0)),
    "all sides": (board(640.0, 48.0, 40.0, "red oak"), Taper(ALL_SIDES, 480.0, 26.0, "right")),
    "turned": (SQUARE, Turned(PROFILE)),
    "round": (SQUARE, Turned((Station(0.0, 31.0), Station(350.0, 37.0, 1.5), Station(700.0, 35.0)))),
}


def piece_of(legs: dict[str, tuple[Any, Cut]]) -> Piece:
    piece = Piece("legs", Parameters())
    for n, (name, (stock, cut)) in enumerate(legs.items()):
        piece.add(name, stock, Placement((0.0, 200.0 * n, 0.0)), cut)
    return piece


PIECE = piece_of(LEGS)


@cache
def sheets_of(units: str) -> list[Sheet]:
    return part_sheets(PIECE, replace(read_order("refuge-stool"), units=units))


def written(sheets: Iterable[Sheet], folder: Path) -> list[Path]:
    files = [folder / f"{sheet.name}.dxf" for sheet in sheets]
    for sheet, path in zip(sheets, files, strict=True):
        write_dxf(sheet, path)
    return files


@pytest.mark.parametrize("units", ["mm", "in"])
def test_they_are_legible(units: str) -> None:
    assert [(s.name, b) for s in sheets_of(units) for b in audit(s)] == []


def test_nothing_is_left_to_words() -> None:
    assert [note for family in families(PIECE, Lengths()) for note in notes(family, PIECE, Lengths())] == []


@pytest.mark.parametrize("units", ["mm", "in"])
def test_every_number_is_true_and_makes_the_legs_again(units: str, tmp_path: Path) -> None:
    order, files = replace(read_order("refuge-stool"), units=units), written(sheets_of(units), tmp_path)
    assert not numbers_proof(PIECE, order, files, dict(standing(PIECE))).complaints

    found = [r for path in files for r in readings(path)]
    for name, (_, cut) in LEGS.items():
        (again,) = rebuilt(name, PIECE[name].part, found, order.units, half_place(order)).cuts
        # a radius tells how far a bead rises only as exactly as its chord does
        assert furthest_off(cut, again) < 5.0 * half_place(order), name


@pytest.mark.parametrize(
    ("name", "text"),
    [("two sides", "28"), ("two sides", "500"), ("all sides", "26"), ("all sides", "37"), ("turned", "Ø38"),
     ("turned", "R27.5"), ("turned", "2"), ("turned", "325")],
)  # fmt: skip
def test_a_number_left_out_is_missed(name: str, text: str, tmp_path: Path) -> None:
    order = read_order("refuge-stool")
    found = [r for path in written(sheets_of("mm"), tmp_path) for r in readings(path)]
    left = [r for r in found if r.text != text]

    assert len(left) < len(found)
    with pytest.raises(IncompleteError, match=name):
        rebuilt(name, PIECE[name].part, left, order.units, half_place(order))


#: Legs made otherwise than their sheets say, and a text of the sheet that this makes wrong.
MADE_WRONG: list[tuple[str, Cut, str]] = [
    ("two sides", Taper(("far", "face"), 500.0, 29.0), "28"),
    ("all sides", Taper(ALL_SIDES, 470.0, 26.0, "right"), "160"),
    ("turned", Turned((*PROFILE[:2], Station(300.0, 37.0), *PROFILE[3:])), "Ø38"),
    ("turned", Turned((*PROFILE[:4], Station(325.0, 32.0, 5.0), *PROFILE[5:])), "R13.4"),
    ("turned", Turned((*PROFILE[:6], Station(520.0, 40.0, -1.5), PROFILE[7])), "2"),
]


@pytest.mark.parametrize(("name", "cut", "text"), MADE_WRONG)
def test_a_leg_made_otherwise_is_found_by_the_proof(name: str, cut: Cut, text: str, tmp_path: Path) -> None:
    wrong = piece_of(LEGS | {name: (LEGS[name][0], cut)})
    files = written(sheets_of("mm"), tmp_path)
    complaints = numbers_proof(wrong, read_order("refuge-stool"), files, dict(standing(wrong))).complaints

    assert text in {c.text for c in complaints}
    assert all(f"the {name}" in c.why for c in complaints), "and nothing else is accused"


@settings(max_examples=15)
@given(st.floats(15.0, 40.0), st.floats(100.0, 699.0), st.sampled_from(["left", "right"]))
def test_a_tapered_plan_has_the_area_that_geometry_says(size: float, start: float, foot: Any) -> None:
    leg = Part(SQUARE).cut(Taper(("near", "far"), start, size, foot))
    outline, left_over = silhouette(leg)

    assert outline.area == pytest.approx(700.0 * 44.0 - start * (44.0 - size) / 2.0)
    assert not left_over


@settings(max_examples=15)
@given(st.lists(st.floats(10.0, 40.0), min_size=2, max_size=6), st.sampled_from([-2.0, -0.4, 0.0, 1.5]))
def test_a_turned_plan_is_twice_its_half(diameters: list[float], swell: float) -> None:
    cut = Turned(tuple(Station(50.0 + 90.0 * n, d, swell) for n, d in enumerate(diameters)))
    outline, left_over = silhouette(Part(SQUARE).cut(cut))

    square = 44.0 * (700.0 - cut.stop + cut.start)
    assert outline.area == pytest.approx(square + 2.0 * cut.half.area)
    assert not left_over
