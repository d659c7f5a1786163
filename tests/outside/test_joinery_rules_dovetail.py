"""Dovetails and drawers against the cited manual.

Source: W. Noyes, Handwork in Wood (1910), US public domain, No. 48 (dovetail) and its section on drawers, as quoted in
each test. The 1:6 and 1:8 of today's custom have no published source and are held to be common practice.
"""

from __future__ import annotations

import math

import pytest

from model.drawers import DrawerOpening, drawer
from model.joints.dovetail import dovetail
from model.layout.tails import NOYES_SLOPE, hand_row, slope_for
from model.parameters import Parameters
from model.piece import Piece
from model.stock import board
from tests.model.joints.corners import boards_at_corner

INCH = 25.4


def test_noyes_slope_is_a_little_more_than_one_to_five():
    # "a right triangle, 3 in by 5/8 in", "approximately 80 degrees", "a little more than one to five"
    angle = math.degrees(math.atan2(1.0, NOYES_SLOPE))

    assert NOYES_SLOPE == 5 / 8 / 3
    assert 1 / 5 < NOYES_SLOPE < 1 / 4
    assert angle == pytest.approx(80.0, abs=2.0)


def test_customary_slopes_stand_flatter_than_noyes():
    # common practice: 1:6 softwood, 1:8 hardwood
    pine, oak = slope_for("eastern white pine"), slope_for("white oak")

    assert (1 / pine, 1 / oak) == pytest.approx((6.0, 8.0))
    assert oak < pine < NOYES_SLOPE


@pytest.mark.parametrize("width", [2.0, 4.0, 6.0, 9.25, 11.25, 16.0])
def test_tails_keep_within_noyes_limits(width):
    # "not wider than 1 3/4 in"; "up to 4 times the spaces"
    a, b = boards_at_corner(board(12 * INCH, width * INCH, 0.75 * INCH), board(12 * INCH, width * INCH, 0.75 * INCH))
    tails = dovetail(a, b).first_cuts[0].tails

    tips = [math.dist(*tail.corners[2:]) for tail in tails]
    halfway = sum(sum(math.dist(*t.corners[i : i + 2]) for i in (0, 2)) / 2.0 for t in tails)
    assert max(tips) <= 1.75 * INCH + 1e-6
    assert 1.0 <= halfway / (width * INCH - halfway) <= 4.0


def test_the_strongest_tails_are_as_wide_as_the_spaces():
    # "strongest: tails equal in width to the spaces"
    row = hand_row(6 * INCH, 0.75 * INCH, NOYES_SLOPE, number=4, ratio=1.0)

    assert row.width == pytest.approx(row.pin)
    assert row.width == pytest.approx(0.75 * INCH)


def test_tails_as_long_as_the_other_board_is_thick():
    # Noyes scribes 1/32 in more than the other's thickness, to be planed off; what is left is flush
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0), over=(INCH / 32, 0.0))
    cut = dovetail(a, b).first_cuts[0]

    tail = cut.tails[0]
    assert abs(tail.corners[2][0] - tail.corners[1][0]) == pytest.approx(16.0)
    assert cut.tip.offset == pytest.approx(300.0 - INCH / 32)


def test_a_drawer_as_noyes_has_it():
    # "sides half-blind dovetailed to the front; the bottom grooved into the sides with the grain parallel to the front,
    # and fastened only at the front; the back dadoed and resting on the bottom"
    piece = Piece("case", Parameters())
    made = drawer(piece, "drawer", DrawerOpening((0, 0, 0), (450, 400, 130)))
    kinds = {(j.first, j.second): j for j in piece.joints}

    for side in ("left drawer side", "right drawer side"):
        assert kinds[side, "drawer front"].kind == "half-blind dovetail"
        assert kinds["drawer back", side].kind == "dado"
        groove = kinds["drawer bottom", side]
        assert (groove.kind, groove.glue_area, groove.hardware) == ("groove", 0.0, ())
    assert made.bottom.at.x == pytest.approx(made.front.at.x)
    assert kinds["drawer bottom", "drawer front"].glue_area > 0.0
    assert kinds["drawer back", "drawer bottom"].kind == "rest"
