"""The few ways in which two parts of a piece commonly meet, for showing a joint: small, plain, named for the trade.

Millimetres. Each gives the part that runs in first and the one it meets second, placed so that from the front, the
right and above both halves of the joint are seen once the first is drawn back.
"""

from __future__ import annotations

from model.part import Part
from model.piece import Placed
from model.placement import Placement, Vector, place
from model.stock import Stock, board

#: The wood of the samples, and how thick it is if nothing else is said.
SPECIES, THICKNESS = "eastern white pine", 19.0

Pair = tuple[Placed, Placed]


def stood(name: str, stock: Stock, at: Placement) -> Placed:
    """A part by itself, its open questions answered."""
    return Placed(name, Part(stock.of(THICKNESS, SPECIES)), at)


def shelf_and_side(run: float = 0.0, back: float = 150.0) -> Pair:
    """A shelf that runs `run` mm into the inside of an upright side."""
    side = stood("side", board(190, 150), place((0, 150, 0), "up", "right"))
    return stood("shelf", board(160, back), place((THICKNESS - run, 0, 85))), side


def rail_and_stile(run: float = 0.0) -> Pair:
    """Two members of a frame that lies flat, the rail's end against the stile's edge or `run` mm into it."""
    stile = stood("stile", board(170, 50), place((50, -85, 0), "back", "up"))
    return stood("rail", board(130, 60), place((50 - run, -30, 0))), stile


def rail_and_leg(run: float, wide: float = 60.0, thick: float = 22.0, leg: float = 45.0, at: float = 85.0) -> Pair:
    """A rail on edge that runs `run` mm into an upright leg, `at` mm from its foot."""
    post = stood("leg", board(200, leg, leg), place((leg, leg, 0), "up", "front"))
    rail = board(150, wide, thick)
    return stood("rail", rail, place((leg - run, (leg + thick) / 2.0, at), "right", "front")), post


def edge_to_edge(lap: float = 0.0, thick: float = THICKNESS) -> Pair:
    """Two boards side by side, the one in front running `lap` mm past the other's edge."""
    behind = stood("second board", board(170, 70, thick), place((0, 70, 0)))
    return stood("first board", board(170, 70 + lap, thick), place()), behind


def crossing(a: Vector, over: Vector, wide: float = 45.0) -> Pair:
    """Two laths in one level, from `a` to the right and from `over` to the back."""
    lath = stood("first lath", board(170, wide, 25), place(a))
    return lath, stood("second lath", board(170, wide, 25), place(over, "back", "up"))


def case_corner(lap: float = 0.0, thick: float = 16.0) -> Pair:
    """A board whose end comes to a corner from the left, and one that goes to the back from there; `lap` mm of the
    second is left in front of the first's end."""
    first = stood("front", board(150 - lap, 96, thick), place((0, thick, 0), "right", "front"))
    return first, stood("side", board(150, 96, thick), place((150 - thick, 0, 0), "back", "right"))


def drawer_corner(lap: float) -> Pair:
    """A drawer's side that stops `lap` mm behind the front's outside."""
    front = stood("drawer front", board(150, 96), place((0, THICKNESS, 0), "right", "front"))
    side = board(140, 96, 12.7)
    return stood("drawer side", side, place((150 - 12.7, lap, 0), "back", "right")), front


def frame_corner() -> Pair:
    """Two members of a frame that lies flat, both running on to its outer corner."""
    second = stood("second member", board(150, 45), place((150, 0, 0), "back", "up"))
    return stood("first member", board(150, 45), place()), second
