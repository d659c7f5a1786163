"""Holes bored again: their mouths and sizes from the rows of the hole table, leaning ones by their two angles."""

from __future__ import annotations

import math
from dataclasses import replace

from drawings.lists.hole_entry import Entry, entry, sunk
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.teller import lean_angles
from drawings.paper.measured import Vector
from drawings.parts.located import holes
from drawings.proof.maker import Maker
from model.cuts.faces import BiscuitSlot, Bore, Counterbore
from model.placement import added, scaled

#: An angle that prints as none, or as a right one, degrees.
_NO_ANGLE = 0.05


def bore(cut: Bore, maker: Maker) -> Bore:
    """Begun as far before the wood as it was."""
    (told,) = holes(cut, maker.part)
    ((_, depth),), off = told.diameters, told.entry.off
    deep = cut.depth if depth is None else off + maker.numbers.size(depth, "depth")
    into = direction(told.entry, maker)
    at = added(mouth(told.entry, maker), scaled(into, -off))
    return replace(cut, at=at, into=into, diameter=maker.numbers.size(cut.diameter, "diameter"), depth=deep)


def counterbore(cut: Counterbore, maker: Maker) -> Counterbore:
    """Its place and direction from the table and the views, its two diameters and its depth as printed."""
    (told,) = holes(cut, maker.part)
    off, into = told.entry.off, direction(told.entry, maker)
    wide, narrow = (maker.numbers.size(d, "diameter") for d in (cut.diameter, cut.clearance))
    depth = off + maker.numbers.size(cut.depth - off, "depth")
    at = added(mouth(told.entry, maker), scaled(into, -off))
    return replace(cut, at=at, into=into, diameter=wide, clearance=narrow, depth=depth)


def biscuit_slot(cut: BiscuitSlot, maker: Maker) -> BiscuitSlot:
    """Its middle as located; its size and depth go with its number."""
    axis = next((k for k in range(3) if abs(cut.into[k]) > 1.0 - 1e-6), None)
    if axis is None:  # let into a slanting edge: its depth is told in a view of its own
        maker.numbers.size(cut.depth, "length")
    else:
        maker.numbers.apart(axis, cut.at[axis], cut.at[axis] + cut.into[axis] * cut.depth)
    found = entry(cut.at, cut.into, maker.part)
    if found.side is not None:
        return replace(cut, at=mouth(found, maker))
    edge, along = nearest_edge(maker.sawn, (cut.at[0], cut.at[1]))
    return replace(cut, at=(*maker.point(edge.point(along / edge.length)), maker.z(cut.at[2])))


def mouth(found: Entry, maker: Maker) -> Vector:
    """The middle of a hole's mouth: on a side, or so high over the back side."""
    x, y = maker.point((found.at[0], found.at[1]))
    if found.side is not None and not (found.leaning and sunk(found, maker.part)):
        return x, y, maker.z(maker.part.thickness) if found.side == "face" else 0.0
    return x, y, maker.z(found.at[2])


def direction(found: Entry, maker: Maker) -> Vector:
    """The way a hole runs; of one that lies askew by its angles to the face side and to the grain."""
    if not found.slanting:
        return found.into
    steep, to_grain = (_printed(turn, maker) for turn in lean_angles(found.into))
    level = math.cos(steep)
    sizes = level * math.cos(to_grain), level * math.sin(to_grain), math.sin(steep)
    x, y, z = (math.copysign(size, way) for size, way in zip(sizes, found.into, strict=True))
    return x, y, z


def _printed(turn: float, maker: Maker) -> float:
    """An angle as it is printed, in radians; none where it prints as none."""
    return 0.0 if turn <= _NO_ANGLE else math.radians(maker.numbers.size(turn, "angle"))
