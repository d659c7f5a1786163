"""Two boards at a corner, at any angle and with their grain aslant of it, for the tests of corner joints."""

from __future__ import annotations

import math

from model.piece import Placed
from model.placement import Placement, Vector, added, cross, dot, scaled
from model.stock import Stock
from tests.model.joints.witness import stood

UP: Vector = (0.0, 0.0, 1.0)


def boards_at_corner(
    first: Stock,
    second: Stock,
    *,
    angle: float = 90.0,
    slants: tuple[float, float] = (0.0, 0.0),
    over: tuple[float, float] = (0.0, 0.0),
    ends: tuple[str, str] = ("right", "left"),
) -> tuple[Placed, Placed]:
    """A tail board and a pin board that meet `angle` degrees apart, the corner upright through the origin.

    slants: of each board's grain to the level, degrees; over: how far each end runs past the other's outside (negative:
    short of it), mm; ends: which of each board's ends lies there.
    """
    t = math.radians(angle)
    bodies: tuple[Vector, Vector] = ((-1.0, 0.0, 0.0), (-math.cos(t), math.sin(t), 0.0))
    a = _stood("tail board", first, bodies, slants[0], over[0], ends[0])
    b = _stood("pin board", second, (bodies[1], bodies[0]), slants[1], over[1], ends[1])
    return a, b


def _stood(name: str, stock: Stock, bodies: tuple[Vector, Vector], slant: float, over: float, end: str) -> Placed:
    body, other = bodies
    c, s = math.cos(math.radians(slant)), math.sin(math.radians(slant))
    out = added(scaled(body, -c), scaled(UP, s))
    x = out if end == "right" else scaled(out, -1.0)
    y = added(scaled(UP, c), scaled(body, s))
    z = cross(x, y)
    outer = 0.0 if dot(z, other) > 0.0 else stock.thick
    corner = (stock.length - over if end == "right" else over, stock.width / 2.0, outer)
    turned = Placement((0.0, 0.0, 0.0), x, y, z)
    return stood(name, stock, Placement(scaled(turned.point(corner), -1.0), x, y, z))
