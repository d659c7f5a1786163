"""A leg and a rail that runs into one of its sides at any slant, for the tests of joints that let an end in."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.piece import Placed
from model.placement import Placement, Vector, added, cross, dot, place, scaled, unit
from model.stock import board
from tests.model.joints.witness import stood

#: Out of each side of the leg, and along the leg's width or thickness, in the leg's own frame.
SIDES: dict[str, tuple[Vector, Vector]] = {
    "near": ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
    "far": ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "face": ((0.0, 0.0, 1.0), (0.0, 1.0, 0.0)),
    "back": ((0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
}


@dataclass(frozen=True)
class Run:
    """A rail's own middle line meets the leg's side `up` mm from its foot and runs `run` mm in along the rail.

    skew: along the leg's length, tilt: across it, degrees from square; end: the rail's end that runs in; on_edge: the
    rail's width along the leg, or across it.
    """

    run: float = 30.0
    skew: float = 0.0
    tilt: float = 0.0
    wide: float = 80.0
    thick: float = 22.0
    leg: tuple[float, float] = (60.0, 60.0)
    up: float = 300.0
    side: str = "near"
    end: str = "right"
    on_edge: bool = True
    long: float = 300.0

    @property
    def cosine(self) -> float:
        """Of the angle between the rail's grain and square to the side."""
        a, b = (math.tan(math.radians(d)) for d in (self.skew, self.tilt))
        return 1.0 / math.sqrt(1.0 + a * a + b * b)

    @property
    def through(self) -> float:
        """The leg's size square to the side entered."""
        return self.leg[0] if self.side in ("near", "far") else self.leg[1]

    def stood(self) -> tuple[Placed, Placed]:
        """(rail, leg)."""
        leg = stood("leg", board(600.0, *self.leg), place((0.0, 0.0, 0.0), "up", "front"))
        out, over = (leg.at.direction(v) for v in SIDES[self.side])
        middle = (self.up, self.leg[0] / 2.0, self.leg[1] / 2.0)
        foot = added(leg.at.point(middle), scaled(out, self.through / 2.0))
        way = unit(added(scaled(out, -1.0), scaled(leg.at.x, _tan(self.skew)), scaled(over, _tan(self.tilt))))
        x = way if self.end == "right" else scaled(way, -1.0)
        level = over if self.on_edge else leg.at.x
        z = unit(added(level, scaled(x, -dot(level, x))))
        y = cross(z, x)
        end = self.long if self.end == "right" else 0.0
        tip = added(foot, scaled(way, self.run))
        origin = added(tip, scaled(x, -end), scaled(y, -self.wide / 2.0), scaled(z, -self.thick / 2.0))
        return stood("rail", board(self.long, self.wide, self.thick), Placement(origin, x, y, z)), leg


def mirror_image(part: Placed) -> Placed:
    """The bare part where its mirror image stands."""
    return Placed(part.name, part.wood.mirrored(), part.at.mirrored(part.wood.stock.width))


def _tan(degrees: float) -> float:
    return math.tan(math.radians(degrees))
