"""Every number of the part sheets and set-up cards is proven whatever the joint or the cut: no figure of ours is left
unsaid."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from drawings.cards.figures import FIGURES
from drawings.cards.setups import setup_sheets
from drawings.lists.setups import SETTINGS
from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.numbers import Proved, numbers_proof
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import Bore, Channel, Counterbore
from model.cuts.laps import Lap, Shoulder
from model.cuts.legs import Station, Taper, Turned
from model.cuts.moulding import Moulding, ogee
from model.cuts.pockets import Pocket
from model.cuts.sawn import SawCut
from model.cuts.through import Notch, Opening
from model.joints.samples import Sample, samples
from model.layout.outline import circle, rectangle
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece, Placed
from model.placement import place
from model.solids import standing
from model.stock import board
from tests.drawings.proof.sheets_written import ordered

BOARD = Part(board(600, 100, 30, "red oak"))
LEG = Part(board(700, 45, 45, "red oak"))
COS, SIN = math.cos(math.radians(15)), math.sin(math.radians(15))
#: A shoulder at 60 degrees to the grain.
SKEW = (math.cos(math.radians(30)), -0.5)

#: Cuts that no joint's sample makes, or makes only one way round.
ALONE: list[tuple[Cut, Part]] = [
    (Bead(edge="near", radius=3, quirk=1.5, inset=4), BOARD),
    (Bead(edge="right", radius=3, quirk=1.5, side="back"), BOARD),
    (Bevel(edge="far", angle=5, keep="back"), BOARD),
    (Ease(edge="left", radius=3, sides="back"), BOARD),
    (Chamfer(edge="near", width=3), BOARD),
    (Chamfer(edge="far", width=3, sides="back"), BOARD),
    (Chamfer(edge="right", width=3, sides="both"), BOARD),
    (Rabbet(edge="near", width=8, depth=6, side="back", start=20, stop=60), BOARD),
    (EdgeGroove(edge="left", width=6, depth=8, rise=6, start=20, stop=60), BOARD),
    (Tongue(edge="right", thickness=6, length=8, rise=6), BOARD),
    (Moulding(edge="far", section=ogee(9), called="ogee", side="back"), BOARD),
    (Opening(circle((300, 50), 40)), BOARD),
    (Notch(rectangle(41, 30, -1, 40)), BOARD),
    (Channel((100, 20), (300, 70), 12, 8), BOARD),
    (Bore((200, 0, 15), (0.1, 0.99498743710662, 0.0), 8, 20), BOARD),
    (Bore((200, 50, 30), (SIN, 0.0, -COS), 8, 15), BOARD),
    (Bore((200, 50, 30), (0.0, -SIN, -COS), 16, 40), BOARD),
    (Bore((200, 50, 0), (0.3, -0.4, math.sqrt(0.75)), 8, 15), BOARD),
    (Counterbore((200, 50, 30), (-0.3, 0.4, -math.sqrt(0.75)), 16, 6, 5), BOARD),
    (Pocket((0, 50, 15), (-COS, 0.0, SIN), 9.5, 19, 4.5), BOARD),
    (Lap((Shoulder((100, 0), SKEW),), 12), BOARD),
    (Lap((Shoulder((200, 0), (-SKEW[0], 0.5)), Shoulder((260, 0), SKEW)), 12, "back"), BOARD),
    (Lap((Shoulder((0, 40), (0, 1)), Shoulder((200, 0), (1, 0))), 12), BOARD),
    (SawCut((600.0, 0.0, 0.0), (COS, SIN, 0.0)), BOARD),
    (SawCut((0.0, 100.0, 0.0), (0.0, COS, SIN)), BOARD),
    (Taper(("near", "face"), 500, 25), LEG),
    (Taper(("near", "far", "face", "back"), 700, 25, "right"), LEG),
    (Turned((Station(100, 40), Station(300, 30), Station(600, 42))), LEG),
    (Turned((Station(100, 20, 8), Station(300, 20), Station(300, 30, -4), Station(600, 20))), LEG),
]


def proven(parts: tuple[Placed, ...], folder: Path) -> Proved:
    piece, order, files = Piece("small", Parameters()), ordered("refuge-bench"), []
    piece.parts.update({placed.name: placed for placed in parts})
    for sheet in (*part_sheets(piece, order), *setup_sheets(piece, order)):
        files.append(folder / f"{sheet.name}.dxf")
        write_dxf(sheet, files[-1])
    return numbers_proof(piece, order, files, dict(standing(piece)))


@pytest.mark.parametrize("sample", samples(), ids=lambda s: s.name)
def test_every_number_of_a_joint_is_proven(sample: Sample, tmp_path: Path) -> None:
    found = proven(sample.parts, tmp_path)

    assert found.complaints == ()
    assert found.dimensions.held + found.figures.held > 8


@pytest.mark.parametrize(("cut", "part"), ALONE, ids=lambda v: v.name if isinstance(v, Cut) else "")
def test_every_number_of_a_cut_is_proven(cut: Cut, part: Part, tmp_path: Path) -> None:
    cut.check(part.blank)
    found = proven((Placed("board", replace(part, cuts=(cut,)), place()),), tmp_path)

    assert found.complaints == ()
    assert found.dimensions.held + found.figures.held > 5


def test_every_kind_of_cut_that_is_set_says_what_its_figures_measure() -> None:
    told = {kind for kind in SETTINGS if any(base in FIGURES for base in kind.__mro__)}

    assert told == set(SETTINGS)
