"""The preview's list of parts: each in its group, with its finished size as the order prints lengths."""

from dataclasses import replace

import cadquery as cq

from drawings.preview.parts_shown import parts_shown
from model.order import read_order
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board


def shelf() -> Piece:
    piece = Piece("shelf", Parameters())
    piece.add("left board", board(609.6, 152.4, 19.05), place((0, 0, 0)))
    piece.given("bracket", cq.Workplane().box(10, 10, 10), place((0, 0, 30)))
    return piece


def test_sizes_are_the_finished_ones_in_the_orders_units():
    order = read_order("refuge-bench")
    rows = parts_shown(shelf(), order)
    assert [(row["name"], row["group"], row["size"]) for row in rows] == [
        ("left board", "board", "609.6 × 152.4 × 19.1 mm"),
        ("bracket", "bracket", ""),
    ]
    assert parts_shown(shelf(), replace(order, units="in"))[0]["size"] == '24" × 6" × 3/4"'
