"""A piece: parts by name, pairs, joints that cut, numbers that equal parts share."""

from __future__ import annotations

import math

import pytest

from model.cuts.faces import dado as dado_cut
from model.errors import CutError, DesignError
from model.joints.butt import rests
from model.joints.housed import dado
from model.layout.outline import ring_sector
from model.parameters import Parameters
from model.part import Part
from model.piece import WIDEST_BOARD, Piece
from model.placement import Placement, place
from model.stock import board


@pytest.fixture
def piece() -> Piece:
    return Piece("stand", Parameters(thickness=21.0, species="red oak"))


def test_stock_without_thickness_or_species_takes_the_orders(piece: Piece) -> None:
    assert piece.add("shelf", board(400, 100), place()).wood.stock == board(400, 100, 21.0, "red oak")
    assert piece.add("rail", board(400, 50, 15.0, "cherry"), place()).wood.stock.species == "cherry"


def test_a_name_taken_twice_is_refused(piece: Piece) -> None:
    piece.add("shelf", board(400, 100), place())
    with pytest.raises(DesignError, match='two parts are called "shelf"; give each its own name'):
        piece.add("shelf", board(400, 100), place())


def test_a_part_that_is_not_there_is_refused_with_those_there_are(piece: Piece) -> None:
    piece.add("shelf", board(400, 100), place())
    with pytest.raises(DesignError, match='no part is called "shlef"; there are: shelf'):
        _ = piece["shlef"]


def test_a_place_that_is_no_number_is_refused(piece: Piece) -> None:
    with pytest.raises(DesignError, match="shelf can't be placed: one of its coordinates is not a number"):
        piece.add("shelf", board(400, 100), Placement((math.nan, 0.0, 0.0)))


def test_a_cut_refused_names_its_part(piece: Piece) -> None:
    with pytest.raises(CutError, match=r"^shelf: a dado 30 mm deep would come through"):
        piece.add("shelf", board(400, 100), place(), dado_cut(50, 18, 30, 0, 100))


def test_equal_parts_share_a_number_and_others_do_not(piece: Piece) -> None:
    for n, length in enumerate((400, 300, 400, 400), 1):
        piece.add(f"shelf {n}", board(length, 100), place((0.0, 0.0, 100.0 * n)))
    piece["shelf 4"].cut(dado_cut(50, 18, 5, 0, 100))

    assert piece.items() == {"shelf 1": 1, "shelf 2": 2, "shelf 3": 1, "shelf 4": 3}


def test_a_pair_mirrors_part_and_place(piece: Piece) -> None:
    cut = dado_cut(50, 18, 5, 0, 70)
    at = place((-300.0, 0.0, 0.0), grain="up", face="right")
    left, right = piece.pair("side", board(400, 100), at, cut, middle=50.0)

    assert (left.name, right.name, right.mirror_of) == ("left side", "right side", "left side")
    assert right.part == left.wood.mirrored() != left.part
    for p in ((0.0, 0.0, 0.0), (400.0, 30.0, 21.0)):
        x, y, z = left.at.point(p)
        assert right.at.point((p[0], 100 - p[1], p[2])) == pytest.approx((100 - x, y, z))


def test_a_joint_cuts_both_parts_once_and_brings_its_hardware(piece: Piece) -> None:
    side = piece.add("side", board(600, 200), place((-21.0, 200.0, 0.0), grain="up", face="right"))
    shelf = piece.add("shelf", board(400, 190), place((-7.0, 5.0, 300.0)))
    piece.join(dado(shelf, into=side, stopped=20.0, nails="6d"))

    assert (len(side.wood.cuts), len(shelf.wood.cuts)) == (1, 1)
    assert piece.hardware == list(piece.joints[0].hardware) != []


def test_laid_parts_keep_their_plan(piece: Piece) -> None:
    plan = ring_sector(1000, 1066, 12, centre=(30.0, -900.0))
    rail = piece.lay("rail", plan, 250.0)
    wide = piece.lay("wide", ring_sector(1000, 1066 + WIDEST_BOARD, 12), 0.0)

    assert rail.wood.stock.kind == "board"
    assert wide.wood.stock.kind == "panel"
    assert rail.wood.outline.area == pytest.approx(plan.area)
    for here, there in zip(rail.wood.outline.corners, plan.corners, strict=True):
        assert rail.at.point((*here, 0.0)) == pytest.approx((*there, 250.0))


def test_steps_swings_and_distances_are_kept(piece: Piece) -> None:
    box, lid = piece.add("box", board(400, 300), place()), piece.add("lid", board(390, 290), place((5.0, 5.0, 21.0)))
    piece.join(rests(lid, on=box))
    piece.keep_apart(lid, box, 2.0)
    piece.swing(lid, (0.0, 300.0, 21.0), (1.0, 0.0, 0.0), 95.0)
    piece.step("Hang the lid", lid)

    assert [(a.first, a.second, a.gap) for a in piece.apart] == [("lid", "box", 2.0)]
    assert [(s.part, s.opens) for s in piece.swings] == [("lid", 95.0)]
    assert [(s.text, s.parts) for s in piece.steps] == [("Hang the lid", ("lid",))]
    assert [p.name for p in piece] == ["box", "lid"]
    assert isinstance(box.part, Part)
