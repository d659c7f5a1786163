"""Proportions of laps, miters, scarfs and splines against the published manuals.

Noyes: W. Noyes, Handwork in Wood (1910).
NAVEDTRA 14119: Hull Maintenance Technician, US Navy, chapter 3, Standard Joints.
Wood Handbook: FPL-GTR-282 (2021), chapter 10, Adhesives with Wood Materials: Bond Formation and Performance.
"""

import math

import pytest

from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Joint
from model.joints.lap import half_lap
from model.joints.miter import miter
from model.joints.scarf import scarf, scarf_length
from model.joints.splined import splined
from model.part import Part
from model.piece import Placed
from model.placement import place
from model.stock import Stock, board, sheet

INCH = 25.4


def stood(name: str, stock: Stock, at=None) -> Placed:  # type: ignore[no-untyped-def]
    return Placed(name, Part(stock.of(0.75 * INCH, "eastern white pine")), at or place())


def test_noyes_half_the_thickness_of_each_member_so_that_faces_are_flush() -> None:
    rail = stood("rail", board(500, 60))
    stile = stood("stile", board(500, 50), place((200, -100, 0), "back"))
    joint = half_lap(rail, over=stile)

    assert [cut.depth for cut in (*joint.first_cuts, *joint.second_cuts)] == pytest.approx([0.375 * INCH] * 2)  # type: ignore[attr-defined]


def spline_of(joint: Joint) -> Hardware:
    (spline,) = joint.hardware
    return spline


def test_navedtra_spline_a_third_of_the_stock_and_twice_as_wide() -> None:
    """3/4 in stock takes a spline 1/4 in thick and 1 1/2 in wide."""
    joint = splined(stood("board 2", board(500, 100), place((0, 100, 0))), to=stood("board 1", board(500, 100)))

    assert spline_of(joint).thickness == pytest.approx(INCH / 4, abs=1e-6)
    assert spline_of(joint).size == f"{INCH / 4:g} x {1.5 * INCH:g} x 500.0 mm, grain across"


def test_navedtra_spline_a_third_of_the_stock_in_a_miter() -> None:
    joint = miter(
        stood("rail", board(500, 60)), to=stood("stile", board(500, 60), place((60, 0, 0), "back")), spline=True
    )

    assert spline_of(joint).thickness == pytest.approx(INCH / 4, abs=1e-6)


def test_wood_handbook_scarf_slopes() -> None:
    """1 in 12 or flatter for solid wood, 1 in 8 for plywood; the glued slope then is at least ten times the section."""
    assert scarf_length(INCH) == pytest.approx(12 * INCH)
    for stock, run, least in ((board(900, 100), 9 * INCH, 10.0), (sheet(900, 100), 6 * INCH, 0.0)):
        first, second = stood("piece 2", stock, place((900 - run, 0, 0))), stood("piece 1", stock)
        joint = scarf(first, to=second)
        assert joint.glue_area == pytest.approx(100 * math.hypot(0.75 * INCH, run), rel=1e-6)
        assert joint.glue_area > least * 100 * 0.75 * INCH
        first.at = first.at.moved(1.0)
        with pytest.raises(DesignError, match="is the steepest"):
            scarf(first, to=second)
