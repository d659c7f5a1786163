"""A slanted dado made again: by where its walls meet the side, its width, its lean and how deep its deeper wall is."""

from __future__ import annotations

import math
from dataclasses import replace

from drawings.proof.maker import Maker
from model.cuts.slanted_dado import SlantedDado
from model.placement import Vector


def slanted_dado(cut: SlantedDado, maker: Maker) -> SlantedDado:
    """Its middle half way between its walls on the side. Raises IncompleteError for a number that is missing."""
    axis, numbers = cut.axis, maker.numbers
    first, second = (numbers.place(axis, place) for place in cut.mouth)
    level = 0.0 if cut.side == "back" else maker.z(maker.part.thickness)
    width, wall = numbers.size(cut.width, "length"), numbers.size(cut.wall_depth, "length")
    lean = math.radians(numbers.size(cut.lean, "angle"))
    depth = wall - width / 2.0 * math.tan(lean)
    at = list(cut.at)
    at[axis], at[2] = (first + second) / 2.0, level
    into, across = (_turned(v, axis, lean) for v in (cut.into, cut.across))
    return replace(cut, at=(at[0], at[1], at[2]), into=into, across=across, width=width, depth=depth)


def _turned(like: Vector, axis: int, lean: float) -> Vector:
    """A unit direction in the plane of an axis and upright that turns as another does, by so much."""
    upright = abs(like[2]) > abs(like[axis])
    along, up = (math.sin(lean), math.cos(lean)) if upright else (math.cos(lean), math.sin(lean))
    made = [0.0, 0.0, math.copysign(up, like[2])]
    made[axis] = math.copysign(along, like[axis])
    return made[0], made[1], made[2]
