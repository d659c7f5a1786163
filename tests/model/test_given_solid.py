"""A part of the author's own: any CadQuery solid or workplane, standing with the others."""

from __future__ import annotations

import cadquery as cq
import pytest

from model.errors import DesignError
from model.joints.housed import dado
from model.parameters import Parameters
from model.part import GivenPart
from model.piece import Piece
from model.placement import place
from model.solids import solid, standing
from model.stock import board


@pytest.mark.parametrize(
    "own",
    [
        cq.Workplane().box(40, 30, 20),
        cq.Workplane().box(40, 30, 20).edges("|Z").fillet(4),
        cq.Solid.makeBox(40, 30, 20),
        cq.Solid.makeCylinder(10, 50),
        cq.Workplane().circle(10).workplane(offset=30).rect(15, 15).loft(),
    ],
    ids=["workplane", "filleted workplane", "box", "turned leg", "loft"],
)
def test_any_solid_stands_where_it_is_put(own) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("stand", Parameters())
    at = place((100.0, 50.0, 20.0), grain="up", face="right")
    piece.given("knob", own, at)
    shape = own.val() if isinstance(own, cq.Workplane) else own
    there = standing(piece)["knob"]

    assert there.isValid()
    assert there.Volume() == pytest.approx(shape.Volume())
    assert there.Center().toTuple() == pytest.approx(at.point(shape.Center().toTuple()), abs=1e-9)
    assert solid(piece["knob"].part) is solid(piece["knob"].part)


def test_a_given_part_takes_part_in_the_fit(overlaps) -> None:  # type: ignore[no-untyped-def]
    piece = Piece("stand", Parameters())
    piece.add("top", board(400, 300), place((0.0, 0.0, 100.0)))
    piece.given("leg", cq.Solid.makeCylinder(15, 101), place((100.0, 100.0, 0.0)))
    piece.given("clear leg", cq.Solid.makeCylinder(15, 100), place((300.0, 100.0, 0.0)))

    assert [(a, b) for a, b, _ in overlaps(standing(piece))] == [("top", "leg")]


def test_the_same_solid_twice_is_one_item() -> None:
    piece, leg = Piece("stand", Parameters()), cq.Solid.makeCylinder(15, 100)
    piece.given("leg 1", leg)
    piece.given("leg 2", leg, place((100.0, 0.0, 0.0)))

    assert piece.items() == {"leg 1": 1, "leg 2": 1}


@pytest.mark.parametrize("nothing", [None, 12.5, "box", object()])
def test_what_is_no_solid_is_refused(nothing: object) -> None:
    with pytest.raises(DesignError, match="must be a CadQuery solid or workplane"):
        GivenPart(nothing).shape()


def test_joints_can_not_be_cut_in_it() -> None:
    piece = Piece("stand", Parameters())
    leg = piece.given("leg", cq.Solid.makeBox(40, 40, 400))
    rail = piece.add("rail", board(300, 60), place((0.0, 0.0, 100.0)))
    with pytest.raises(DesignError, match="leg is given as a solid; joints can only be cut in parts made of stock"):
        dado(rail, into=leg)
