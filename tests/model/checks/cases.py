"""Small cases and frames whose loops are known: sides and shelves, a drawer in them, four rails, four mitered ones."""

from __future__ import annotations

from typing import Any

from model.drawers import DrawerOpening, drawer
from model.joints.housed import dado
from model.joints.miter import miter
from model.joints.mortise import mortise_and_tenon
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board

THICK, HOUSED = 19.0, 6.0


def case(shelves: int, width: float = 600.0, height: float = 1800.0, depth: float = 250.0) -> Piece:
    """Two sides and shelves let into them, evenly spaced from the bottom up."""
    piece = Piece("case", Parameters())
    at = place((0.0, depth, 0.0), grain="up", face="right")
    left, right = piece.pair("side", board(height, depth, THICK), at, middle=width / 2.0)
    for n in range(shelves):
        z = 60.0 + n * (height - 160.0) / max(1, shelves - 1)
        stock = board(width - 2.0 * (THICK - HOUSED), depth, THICK)
        shelf = piece.add(f"shelf {n + 1}", stock, place((THICK - HOUSED, 0.0, z)))
        piece.join(dado(shelf, into=left), dado(shelf, into=right))
        piece.step(f"Glue in shelf {n + 1}", shelf)
    return piece


def case_with_drawer(side_play: float, top_play: float = 1.6, **sizes: Any) -> Piece:
    """A case of two shelves with a drawer between them that fills the opening but for its play."""
    piece = case(2, height=300.0, **sizes)
    low, high = piece["shelf 1"], piece["shelf 2"]
    right = piece["right side"].at.origin[0] - THICK
    opening = DrawerOpening((THICK, 0.0, low.at.origin[2] + THICK), (right, low.wood.stock.width, high.at.origin[2]))
    drawer(piece, "drawer", opening, side_play=side_play, top_play=top_play)
    return piece


def frame(width: float = 500.0, height: float = 700.0, wide: float = 60.0, tenon: float = 30.0) -> Piece:
    """Two stiles and two rails between them, tenoned, lying flat."""
    piece = Piece("frame", Parameters())
    stiles = [
        piece.add(f"{name} stile", board(height, wide), place((x, 0.0, 0.0), "back", "up"))
        for name, x in (("left", wide), ("right", width))
    ]
    for name, y in (("bottom", 20.0), ("top", height - wide - 20.0)):
        stock = board(width - 2.0 * (wide - tenon), wide)
        rail = piece.add(f"{name} rail", stock, place((wide - tenon, y, 0.0)))
        piece.join(*(mortise_and_tenon(rail, into=stile) for stile in stiles))
    return piece


def mitered(width: float = 400.0, height: float = 300.0, wide: float = 45.0) -> Piece:
    """Four members of a picture frame, lying flat."""
    piece = Piece("mitered", Parameters())
    bottom = piece.add("bottom", board(width, wide), place((0.0, 0.0, 0.0)))
    top = piece.add("top", board(width, wide), place((width, height, 0.0), "left", "up"))
    left = piece.add("left", board(height, wide), place((0.0, height, 0.0), "front", "up"))
    right = piece.add("right", board(height, wide), place((width, 0.0, 0.0), "back", "up"))
    piece.join(miter(bottom, right), miter(right, top), miter(top, left), miter(left, bottom))
    return piece
