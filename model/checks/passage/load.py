"""What is carried in, as a carrier sees it: its shadow along each of its axes, and the passages that its shadow leaves.

The axes are the parts' own, so that turning the whole piece changes nothing. Its hull is what counts: nobody threads a
piece through a door by its hollows. No CAD kernel here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.checks.passage.flat_hull import Numbers, hull, leaning, least_width, tallest
from model.placement import Vector, cross, unit


@dataclass(frozen=True)
class Passage:
    """The narrowest doorway of a given height that something passes: width, mm; along, the unit vector of the piece
    that leads; roll, degrees, how far its upright leans in the doorway, 0 to 90."""

    width: float
    along: Vector
    roll: float

    @property
    def manner(self) -> str:
        """How it is carried, in a carrier's words."""
        if abs(self.along[2]) > 0.7:
            return "laid down, its top or its foot first" + ("" if _square(self.roll) else f", rolled {self.roll:.0f}°")
        if self.roll < 1.0:
            return "upright"
        return "on its side" if self.roll > 89.0 else f"leaning {self.roll:.0f}°"


@dataclass(frozen=True, eq=False)
class Load:
    """What is carried: points (n, 3) of its skin, mm, and the axes it may be carried along."""

    points: Numbers
    axes: tuple[Vector, ...]

    @cached_property
    def shadows(self) -> list[Numbers]:
        """What each axis's eye sees of it: a convex polygon (m, 2), mm; as nearly as may be, its second axis is up."""
        return [hull(self.points @ np.array(_across(axis)).T) for axis in self.axes]

    def passage(self, height: float) -> Passage | None:
        """The narrowest doorway of a given height, mm, that it passes; None where it's too tall every way."""
        found = [
            Passage(width, axis, leaning(angle))
            for axis, seen in zip(self.axes, self.shadows, strict=True)
            for width, angle in least_width(seen, height)
        ]
        return min(found, key=lambda p: (round(p.width, 3), p.roll), default=None)

    def lowest(self, width: float) -> float | None:
        """The lowest doorway of a given width, mm, that it passes; None where it's too wide every way."""
        # a doorway laid on its side
        found = self.passage(width)
        return None if found is None else found.width

    def tall(self, axis: Vector) -> float:
        """How far it reaches along an axis, mm."""
        return float(np.ptp(self.points @ np.array(axis)))

    @cached_property
    def stood_up(self) -> float:
        """The room's height, mm, in which it can be stood up from lying: turned about a level axis of its own, over
        either edge, whichever takes least. For a box h high and d deep, (h^2 + d^2)^(1/2)."""
        level = [seen for axis, seen in zip(self.axes, self.shadows, strict=True) if abs(axis[2]) < 1e-6]
        quarters = ((-math.pi / 2.0, 0.0), (0.0, math.pi / 2.0))
        return min((tallest(seen, *quarter) for seen in level for quarter in quarters), default=0.0)


def _across(along: Vector) -> tuple[Vector, Vector]:
    """Two unit vectors square to a direction and to each other, the second as nearly up as may be."""
    level = cross((0.0, 0.0, 1.0) if abs(along[2]) < 1.0 - 1e-9 else (0.0, 1.0, 0.0), along)
    across = unit(level)
    return across, cross(along, across)


def _square(degrees: float) -> bool:
    return min(degrees, 90.0 - degrees) < 1.0
