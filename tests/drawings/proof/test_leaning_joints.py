"""Joints at slants that no sample shows: their sheets and cards leave nothing to words, every number holds, and the
parts come back from them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from drawings.cards.setups import setup_sheets
from drawings.lists.distinct import distinct_parts
from drawings.paper.audit import audit
from drawings.parts import part_sheets
from drawings.players.dxf import write_dxf
from drawings.proof.held import half_place
from drawings.proof.numbers import numbers_proof
from drawings.proof.readings import readings
from drawings.proof.rebuilt import rebuilt
from model.joints.dowelled import dowelled
from model.joints.joint import Joint
from model.joints.miter import miter
from model.joints.mortise import loose_tongue, mortise_and_tenon
from model.joints.pocket import pocket_screwed
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import Placement
from model.solids import solid, standing
from model.stock import board
from tests.drawings.proof.sheets_written import ordered
from tests.model.joints.legs_and_rails import Run
from tests.model.joints.test_miter import carcass, frame
from tests.model.joints.witness import stood

Pair = tuple[Placed, Placed]
BOTH_WAYS = Run(skew=11.0, tilt=-7.0, side="face", leg=(60.0, 100.0), wide=70.0)


def hopper(lean: float) -> Pair:
    """Two of the four boards of a box whose sides lean out."""
    s, c = math.sin(math.radians(lean)), math.cos(math.radians(lean))
    front = Placement((-150, 0, 0), (1.0, 0.0, 0.0), (0.0, -s, c), (0.0, -c, -s))
    left = Placement((0, 250, 0), (0.0, -1.0, 0.0), (-s, 0.0, c), (-c, 0.0, -s))
    return stood("front", board(400, 150, 15), front), stood("left side", board(400, 150, 15), left)


JOINTS: dict[str, tuple[Callable[[], Pair], Callable[[Placed, Placed], Joint]]] = {
    "tenon": (replace(BOTH_WAYS, run=40.0).stood, mortise_and_tenon),
    "draw-bored tenon": (
        replace(BOTH_WAYS, run=40.0, side="near", end="left", leg=(100.0, 60.0)).stood,
        lambda rail, leg: mortise_and_tenon(rail, leg, draw_bore=1.5),
    ),
    "wedged tenon": (
        replace(BOTH_WAYS, run=122.0, tilt=0.0).stood,
        lambda rail, leg: mortise_and_tenon(rail, leg, kind="through", wedged=True),
    ),
    "twin tenon": (
        replace(BOTH_WAYS, run=40.0, thick=45.0, leg=(100.0, 100.0)).stood,
        lambda rail, leg: mortise_and_tenon(rail, leg, count=2),
    ),
    "loose tongue": (replace(BOTH_WAYS, run=14.0, tilt=0.0).stood, loose_tongue),
    "dowels": (replace(BOTH_WAYS, run=14.0).stood, dowelled),
    "pocket screws": (
        replace(BOTH_WAYS, run=10.0, thick=19.0).stood,
        lambda rail, leg: pocket_screwed(rail, leg, side="back"),
    ),
    "splined frame": (lambda: frame(127.0, 45, 45, 19), lambda a, b: miter(a, b, spline=True)),
    "splined carcass": (lambda: carcass(104.0), lambda a, b: miter(a, b, spline=4.0)),
    "keyed carcass": (lambda: carcass(77.0), lambda a, b: miter(a, b, keys=3)),
    "splined hopper": (lambda: hopper(23.0), lambda a, b: miter(a, b, spline=3.0)),
    "keyed hopper": (lambda: hopper(17.0), lambda a, b: miter(a, b, keys=2)),
}


@pytest.mark.parametrize("name", JOINTS)
def test_a_shop_can_make_it_from_its_sheets(name: str, tmp_path: Path) -> None:
    stand, join = JOINTS[name]
    pair = stand()
    joint = join(*pair)
    for placed, cuts in zip(pair, (joint.first_cuts, joint.second_cuts), strict=True):
        placed.cut(*cuts)
    piece, order = Piece("small", Parameters()), ordered("refuge-bench")
    piece.parts.update({placed.name: placed for placed in pair})
    sheets, cards = part_sheets(piece, order), setup_sheets(piece, order)
    files = [tmp_path / f"{sheet.name}.dxf" for sheet in (*sheets, *cards)]
    for sheet, file in zip((*sheets, *cards), files, strict=True):
        write_dxf(sheet, file)

    assert [blemish for sheet in sheets for blemish in audit(sheet)] == []
    assert numbers_proof(piece, order, files, dict(standing(piece))).complaints == ()
    found = [r for file in files[: len(sheets)] for r in readings(file)]
    for kind in distinct_parts(piece):
        assert kind.wood is not None
        made = rebuilt(kind.names[0], kind.wood, found, order.units, half_place(order))
        true, again = solid(kind.wood), solid(made)
        off = true.Volume() + again.Volume() - 2.0 * true.intersect(again).Volume()
        assert off < half_place(order) * true.Area(), kind.names[0]
