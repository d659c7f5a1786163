"""Work that leans: every number on its sheet proven, the cut made again from them, and a wrong or missing one found."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest

from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import Reading, readings
from drawings.proof.rebuilt import IncompleteError, rebuilt
from model.cuts.cut import Cut
from model.cuts.faces import Bore, Channel, Counterbore
from model.cuts.mortises import Mortise
from model.cuts.pockets import Pocket
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.tenons import Tenon, TenonedEnd
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece, Placed
from model.placement import Vector, cross, dot, place, scaled, unit
from model.solids import standing
from model.stock import board
from tests.drawings.proof.sheets_written import ordered
from tests.drawings.proof.test_rebuilt import furthest_off

BOARD = Part(board(300, 100, 30, "red oak"))
COS, SIN = math.cos(math.radians(15)), math.sin(math.radians(15))
BEVEL = SawCut((300.0, 0.0, 0.0), unit((1.0, 0.0, 0.4)))
STEEP = (math.cos(math.radians(60)), math.sin(math.radians(60)))
LEAN = unit((1.0, 0.4, -0.3))
BOTH_WAYS = unit((0.3, 0.2, -1.0))


def mortise(at: Vector, mouth: Vector, into: Vector, across: Vector) -> Mortise:
    """Leaning, its length square to `across` as far as it can be."""
    return Mortise(at, mouth, into, unit(cross(into, across)), 30.0, 8.0, 20.0)


#: The last cut of each is made again; the others it needs.
LEANING: dict[str, tuple[Cut, ...]] = {
    "hole into an edge, toward a side": (Bore((100, 0, 15), (0.0, COS, -SIN), 8, 20),),
    "hole into an end, both ways": (Bore((0, 50, 15), unit((1.0, 0.3, 0.25)), 8, 25),),
    "hole begun off its edge": (Bore((100, -3, 15), unit((0.3, 1.0, 0.2)), 8, 25),),
    "hole square to a bevel": (BEVEL, Bore((294, 50, 15), scaled(BEVEL.out, -1.0), 8, 25)),
    "hole in the floor of a dado": (Channel((100, 0), (100, 100), 20, 10), Bore((100, 50, 20), BOTH_WAYS, 6, 15)),
    "counterbore into an edge": (Counterbore((100, 0, 15), unit((0.2, 1.0, 0.1)), 12, 10, 5),),
    "pocket from the back": (Pocket((300, 50, 15), (COS, 0.0, SIN), 9.5, 19, 4.5),),
    "pocket across the grain": (Pocket((150, 100, 15), (0.0, COS, -SIN), 9.5, 25, 4.5),),
    "compound saw cut": (SawCut((300.0, 0.0, 0.0), unit((1.0, 0.5, 0.3))),),
    "shoulder leaning both ways": (
        TenonedEnd(Plane(LEAN, 230.0), (Tenon(20, 60, 10, 10, Plane(LEAN, dot(LEAN, (300.0, 20.0, 20.0)))),)),
    ),
    "mortise into the face": (mortise((150, 50, 30), (0.0, 0.0, 1.0), unit((0.3, 0.0, -1.0)), (0.0, 1.0, 0.0)),),
    "mortise into the face, both ways": (mortise((150, 50, 30), (0.0, 0.0, 1.0), BOTH_WAYS, (0.2, -0.3, 0.1)),),
    "mortise into an edge, both ways": (
        mortise((150, 100, 15), (0.0, 1.0, 0.0), unit((0.3, -1.0, 0.2)), (0.0, 0.0, 1.0)),
    ),
    "spline in a bevel": (
        SawCut((300.0, 0.0, 0.0), unit((1.0, 0.0, 1.0))),
        SawnGroove((290.0, 50.0, 10.0), unit((-1.0, 0.0, -1.0)), unit((-1.0, 0.0, 1.0)), 4, 8),
    ),
    "key at a corner that is not square": (
        SawCut((300.0, 0.0, 30.0), (STEEP[0], 0.0, -STEEP[1])),
        SawnGroove((300.0, 50.0, 30.0), (-STEEP[1], 0.0, -STEEP[0]), (0.0, 1.0, 0.0), 4, 12, "key slot"),
    ),
}  # fmt: skip


def piece_of(cuts: tuple[Cut, ...]) -> Piece:
    piece = Piece("small", Parameters())
    piece.parts["board"] = Placed("board", replace(BOARD, cuts=cuts), place())
    return piece


def written(cuts: tuple[Cut, ...], folder: Path) -> list[Path]:
    files = []
    for sheet in part_sheets(piece_of(cuts), ordered("refuge-bench")):
        files.append(folder / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    return files


def again(cuts: tuple[Cut, ...], found: list[Reading]) -> Cut:
    """The last cut from the numbers."""
    order = ordered("refuge-bench")
    return rebuilt("board", replace(BOARD, cuts=cuts), found, order.units, half_place(order)).cuts[-1]


@pytest.mark.parametrize("name", LEANING)
def test_its_numbers_hold_and_it_comes_back_from_them(name: str, tmp_path: Path) -> None:
    cuts = LEANING[name]
    files = written(cuts, tmp_path)
    order = ordered("refuge-bench")

    assert numbers_proof(piece_of(cuts), order, files, dict(standing(piece_of(cuts)))).complaints == ()
    made = again(cuts, [r for f in files for r in readings(f)])
    assert furthest_off(cuts[-1], made) < 4.0 * half_place(order)


#: A number of each without which it can't be made.
NEEDED = [
    ("hole into an edge, toward a side", "15°"),
    ("pocket from the back", "19"),
    ("mortise into the face, both ways", "33.7°"),
    ("mortise into an edge, both ways", "19.8°"),
    ("spline in a bevel", "12.1"),
    ("key at a corner that is not square", "60°"),
]


@pytest.mark.parametrize(("name", "text"), NEEDED)
def test_a_number_left_out_is_missed(name: str, text: str, tmp_path: Path) -> None:
    found = [r for f in written(LEANING[name], tmp_path) for r in readings(f)]
    assert any(r.text == text for r in found)
    with pytest.raises(IncompleteError):
        again(LEANING[name], [r for r in found if r.text != text])


@pytest.mark.parametrize(("name", "text"), NEEDED)
def test_a_number_printed_wrong_is_found_and_no_other_accused(name: str, text: str, tmp_path: Path) -> None:
    cuts = LEANING[name]
    (file,) = written(cuts, tmp_path)
    doc = ezdxf.readfile(file)
    wrong = f"{float(text.rstrip('°')) + 0.3:.1f}" + "°" * text.endswith("°")
    told = [e for e in doc.modelspace().query("TEXT DIMENSION") if e.dxf.text == text]
    for entity in told:
        entity.dxf.text = wrong
    doc.saveas(file)

    complaints = numbers_proof(
        piece_of(cuts), ordered("refuge-bench"), [file], dict(standing(piece_of(cuts)))
    ).complaints
    assert [c.text for c in complaints] == [wrong] * len(told)
