"""Tenons, bridles and dowels against the manuals' own figures; inches as they print them."""

from __future__ import annotations

import pytest

from model.joints.bridle import bridle
from model.joints.dowelled import HOLE, RODS, dowel_length, dowelled, rod_for
from model.joints.mortise import mortise_and_tenon
from model.placement import place
from model.stock import board
from tests.model.joints.legs_and_rails import Run
from tests.model.joints.witness import stood

INCH = 25.4


def test_tenon_a_third_of_the_frame() -> None:
    """Noyes, Handwork in Wood (1910), no. 42: a tenon is ordinarily a third of the frame; 3/4 in gives 1/4 in."""
    rail, leg = Run(thick=0.75 * INCH).stood()
    (tenon,) = mortise_and_tenon(rail, leg).first_cuts[0].tenons  # type: ignore[attr-defined]
    assert tenon.thickness == pytest.approx(0.25 * INCH, abs=1e-5)
    # the end divided in three parts, both outer ones cut away
    assert tenon.rise == pytest.approx(0.25 * INCH, abs=1e-5)


@pytest.mark.parametrize(("rail_in", "groove_in", "tenon_in"), [(2.0, 0.25, 0.75), (3.0, 0.375, 1.125)])
def test_haunched_tenon_half_the_rail_less_the_groove(rail_in: float, groove_in: float, tenon_in: float) -> None:
    """Noyes, no. 42: width of the tenon half the rail's, minus the groove; the rest is haunch."""
    wide = rail_in * INCH
    rail, leg = Run(wide=wide, up=wide / 2).stood()
    end = mortise_and_tenon(rail, leg, haunch=groove_in * INCH).first_cuts[0]
    (tenon,) = end.tenons  # type: ignore[attr-defined]
    assert tenon.width == pytest.approx(tenon_in * INCH, abs=1e-5)
    assert end.haunch.width - tenon.width == pytest.approx(wide / 2, abs=1e-5)  # type: ignore[attr-defined]


def test_mortise_slightly_deeper_than_the_tenon_is_long() -> None:
    """Noyes: "slightly"; 1/16 in is common practice. To 0.1 mm, since 1.5 mm stands for 1/16 in."""
    rail, leg = Run(run=32.0).stood()
    (mortise,) = mortise_and_tenon(rail, leg).second_cuts
    assert mortise.depth - 32.0 == pytest.approx(INCH / 16, abs=0.1)  # type: ignore[attr-defined]


def test_through_tenon_at_least_as_long_as_the_part_is_thick() -> None:
    """Noyes, no. 31."""
    leg_in = 2.0
    for run, holds in ((leg_in * INCH - 0.5, False), (leg_in * INCH, True)):
        rail, leg = Run(run=run, leg=(leg_in * INCH, 2.5 * INCH)).stood()
        if holds:
            assert mortise_and_tenon(rail, leg, kind="through").second_cuts[0].depth == pytest.approx(leg_in * INCH)  # type: ignore[attr-defined]
        else:
            with pytest.raises(ValueError, match="at least as long as the part is thick"):
                mortise_and_tenon(rail, leg, kind="through")


def test_bridle_divided_in_three() -> None:
    """Noyes: the end divided into three parts."""
    rail = stood("rail", board(400, 50, 0.75 * INCH), place())
    stile = stood("stile", board(300, 50, 0.75 * INCH), place((225, 0, 0), "back", "up").moved(dx=50))
    slot = bridle(stile, over=rail).first_cuts[0]
    assert slot.width == pytest.approx(0.25 * INCH, abs=1e-5)  # type: ignore[attr-defined]


@pytest.mark.parametrize(("stock_in", "dowel_in"), [(0.75, 0.25), (1.125, 0.375), (1.5, 0.5)])
def test_dowel_a_third_of_the_stock(stock_in: float, dowel_in: float) -> None:
    """NAVEDTRA 14119, chapter 3, Standard Joints: a third of the stock; its example is 3/4 in and 1/4 in."""
    assert rod_for(stock_in * INCH) == pytest.approx(dowel_in * INCH)


def test_dowel_eighth_of_an_inch_shorter_than_its_holes() -> None:
    """US Army Engineer School Subcourse EN0533, paragraph 2-22: L = d1 + d2 - 1/8 in."""
    assert dowel_length(1.0 * INCH, 1.0 * INCH) == pytest.approx(1.875 * INCH)


def test_dowel_holes_an_inch_deep_and_equal() -> None:
    """Noyes, no. 75: all holes equal, say 1 in."""
    rail, leg = Run(run=0.0).stood()
    joint = dowelled(rail, to=leg)
    assert pytest.approx(INCH) == HOLE
    assert {cut.depth for cut in (*joint.first_cuts, *joint.second_cuts)} == {HOLE}  # type: ignore[attr-defined]


def test_rods_are_those_sold() -> None:
    """Noyes: dowel rods from 3/16 to 1 in."""
    assert (min(RODS), max(RODS)) == (pytest.approx(3 / 16 * INCH), pytest.approx(INCH))
