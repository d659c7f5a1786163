"""Proportions of panels, breadboard ends and legs against the published manuals.

Noyes: W. Noyes, Handwork in Wood (1910), No. 42, and what it says of panels and of fastening tops.
NAVEDTRA 14119: Hull Maintenance Technician, US Navy, chapter 3, Standard Joints.
"""

import pytest

from model.cuts.edges import EdgeGroove, Tongue
from model.cuts.moulding import RaisedEdge
from model.cuts.slots import SlottedHole
from model.joints.breadboard import breadboard
from model.joints.panel import ROOM_ACROSS, floats, panel_run, panel_tongue
from model.part import Part
from model.piece import Placed
from model.placement import place
from model.stock import Stock, board, panel

INCH = 25.4


def stood(name: str, stock: Stock, at=None) -> Placed:  # type: ignore[no-untyped-def]
    return Placed(name, Part(stock.of(0.75 * INCH, "eastern white pine")), at or place())


def framed(thickness: float) -> tuple[Placed, Placed]:
    """A panel beside a stile of 3/4 in, running in as far as its groove takes it, its edge raised to its tongue."""
    run, stock = panel_run(0.75 * INCH), 0.75 * INCH
    stile = stood("stile", board(600.0, 60.0), place((0.0, -60.0, 0.0)))
    # the tongue, at the panel's back, comes to the middle of the stile
    up = (stock - panel_tongue(stock)) / 2.0
    part = stood("panel", panel(500.0, 300.0, thickness), place((50.0, -run, up)))
    part.cut(RaisedEdge(edge="near", width=40.0, tongue=panel_tongue(stock), flat=8.0, angle=9.0))
    return part, stile


def test_noyes_groove_a_third_of_the_frame_and_about_as_deep_as_wide() -> None:
    part, stile = framed(16.0)
    (cut,) = floats(part, into=stile).second_cuts

    assert isinstance(cut, EdgeGroove)
    assert cut.width == pytest.approx(0.25 * INCH)  # 3/4 in stock, 1/4 in groove
    assert cut.depth == pytest.approx(cut.width)


def test_noyes_the_panel_is_not_glued_and_its_corners_are_waxed() -> None:
    part, stile = framed(16.0)
    joint = floats(part, into=stile)

    assert joint.glue_area == 0.0
    assert "wax" in joint.source
    assert joint.contacts[0].gap == ROOM_ACROSS > 0.0


def test_navedtra_tongue_a_third_of_the_stock() -> None:
    top = stood("top", panel(900.0, 600.0))
    batten = stood("batten", board(600.0, 80.0), place((900.0 - 20.0 + 80.0, 0.0, 0.0), grain="back"))
    joint = breadboard(batten, over=top, movement=5.0)
    (tongue,) = (c for c in joint.second_cuts if isinstance(c, Tongue))

    assert tongue.thickness == pytest.approx(0.25 * INCH)


def test_noyes_a_solid_top_is_held_so_that_it_may_shrink_and_swell() -> None:
    """Only the middle fixing is fast; the outer ones slide by their share of the movement."""
    top = stood("top", panel(900.0, 600.0))
    batten = stood("batten", board(600.0, 80.0), place((900.0 - 20.0 + 80.0, 0.0, 0.0), grain="back"))
    joint = breadboard(batten, over=top, movement=6.0)
    travels = [c.travel for c in joint.second_cuts if isinstance(c, SlottedHole)]

    # at W/6, W/2 and 5W/6: a third of the width from the middle, so a third of the whole movement
    assert travels == pytest.approx([2.0, 0.0, 2.0])
