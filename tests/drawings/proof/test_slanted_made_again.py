"""Slanted dadoes at many leans, from either side, along and across: their numbers hold, and they come back from them;
a wrong or missing number is found."""

from __future__ import annotations

import math
from pathlib import Path

import ezdxf
import pytest

from drawings.cards.setups import setup_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import IncompleteError
from model.cuts.sawn import SawCut
from model.cuts.slanted_dado import SlantedDado
from model.solids import standing
from tests.drawings.proof.sheets_written import ordered
from tests.drawings.proof.test_leaning_made_again import again, piece_of, written
from tests.drawings.proof.test_rebuilt import furthest_off

#: How far off it may be made again, mm: four numbers, each rounded by half a tenth, add up.
OFF = 0.2


def slanted(lean: float, axis: int = 0, side: str = "face", width: float = 19.0, depth: float = 12.0) -> SlantedDado:
    """In a board 300 long, 100 wide and 30 thick."""
    s, c = math.sin(math.radians(lean)), math.cos(math.radians(lean))
    up = 1.0 if side == "face" else -1.0
    into, across = [0.0, 0.0, -up * c], [0.0, 0.0, up * s]
    into[axis], across[axis] = s, c
    at = ((110.0, 50.0), (150.0, 40.0))[axis]
    level = 30.0 if side == "face" else 0.0
    return SlantedDado((*at, level), (into[0], into[1], into[2]), (across[0], across[1], across[2]), width, depth)


DADOES = {
    "2 degrees": slanted(2.0),
    "9.3 degrees the other way": slanted(-9.3, width=17.3, depth=7.2),
    "25 degrees in the back": slanted(25.0, side="back"),
    "along the grain": slanted(11.0, axis=1),
    "along the grain in the back": slanted(-15.0, axis=1, side="back", width=25.0, depth=10.0),
}


@pytest.mark.parametrize("name", DADOES)
def test_its_numbers_hold_and_it_comes_back_from_them(name: str, tmp_path: Path) -> None:
    cut = DADOES[name]
    piece, order, files = piece_of((cut,)), ordered("refuge-bench"), written((cut,), tmp_path)

    assert numbers_proof(piece, order, files, dict(standing(piece))).complaints == ()
    made = again((cut,), [r for f in files for r in readings(f)])
    assert furthest_off(cut, made) < OFF


@pytest.mark.parametrize("name", DADOES)
def test_its_card_holds(name: str, tmp_path: Path) -> None:
    piece, order, files = piece_of((DADOES[name],)), ordered("refuge-bench"), []
    for sheet in setup_sheets(piece, order):
        files.append(tmp_path / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    told = [r.text for f in files for r in readings(f)]

    assert f"{abs(DADOES[name].wall_depth):.1f}" in told
    assert numbers_proof(piece, order, files, dict(standing(piece))).complaints == ()


#: Of the one at 9.3 degrees: its lean, its width, its depth, and where its first wall is.
NEEDED = ("9.3°", "17.3", "8.6", "101.2")


@pytest.mark.parametrize("text", NEEDED)
def test_a_number_left_out_is_missed(text: str, tmp_path: Path) -> None:
    cut = DADOES["9.3 degrees the other way"]
    found = [r for f in written((cut,), tmp_path) for r in readings(f)]
    assert any(r.text == text for r in found)
    with pytest.raises(IncompleteError):
        again((cut,), [r for r in found if r.text != text])


@pytest.mark.parametrize("text", NEEDED)
def test_a_number_printed_wrong_is_found_and_no_other_accused(text: str, tmp_path: Path) -> None:
    cut = DADOES["9.3 degrees the other way"]
    (file,) = written((cut,), tmp_path)
    doc = ezdxf.readfile(file)
    wrong = f"{float(text.rstrip('°')) + 0.3:.1f}" + "°" * text.endswith("°")
    told = [e for e in doc.modelspace().query("TEXT DIMENSION") if e.dxf.text == text]
    for entity in told:
        entity.dxf.text = wrong
    doc.saveas(file)

    piece = piece_of((cut,))
    complaints = numbers_proof(piece, ordered("refuge-bench"), [file], dict(standing(piece))).complaints
    assert [c.text for c in complaints] == [wrong] * len(told)
    assert told


def test_a_bevelled_end_that_a_groove_runs_out_at_is_cut_through_beside_it(tmp_path: Path) -> None:
    bevel = SawCut((290.0, 0.0, 0.0), (math.cos(0.15), 0.0, math.sin(0.15)))
    cuts = (bevel, slanted(10.0, axis=1, side="back", width=24.0, depth=9.0))
    piece, files = piece_of(cuts), written(cuts, tmp_path)

    assert "8.6°" in {r.text for f in files for r in readings(f)}
    assert numbers_proof(piece, ordered("refuge-bench"), files, dict(standing(piece))).complaints == ()
