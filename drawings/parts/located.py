"""Where each hole and slot lies on its part, and what of it shows in the plan."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import singledispatch

from drawings.paper.measured import Vector
from drawings.paper.sheet import Point
from drawings.parts.cross_section import CrossSection, Cutting
from model.cuts.cut import Cut, Side
from model.cuts.drilling import leaning_from
from model.cuts.edges import EdgeCut
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Counterbore, entered
from model.cuts.removal import Prism
from model.cuts.slots import SlottedHole
from model.cuts.through import Profile
from model.layout.outline import Outline
from model.part import Part
from model.placement import added, cross, scaled

#: A hole that leans no more than this off square to a side goes into it (sine).
_INTO_SIDE = 0.44


@dataclass(frozen=True)
class Hole:
    """A hole or slot by the middle of its mouth, mm; each diameter with its depth, None for right through.

    direction: in which a slot is long; None for a round hole. leans_from: the side that one not square to it goes into.
    """

    what: str
    at: Vector
    into: Vector
    diameters: tuple[tuple[float, float | None], ...] = ()
    depth: float | None = None
    direction: Vector | None = None
    length: float = 0.0
    leans_from: Side | None = None

    @property
    def side(self) -> Side | None:
        """The side it is sunk into, straight or leaning; None for one in an edge."""
        return entered(self.into) or self.leans_from


@singledispatch
def holes(cut: Cut, part: Part) -> list[Hole]:
    """A cut's holes and slots; of a kind not known here, the round ones among its footprints."""
    found = []
    for print_ in cut.footprints(part.blank):
        if is_round(print_.outline):
            x0, y0, x1, y1 = print_.outline.bounds
            level, into = (part.thickness, -1.0) if print_.side == "face" else (0.0, 1.0)
            at = (x0 + x1) / 2, (y0 + y1) / 2, level
            depth = None if print_.through else print_.depth
            found.append(Hole(cut.name, at, (0.0, 0.0, into), ((x1 - x0, depth),)))
    return found


@holes.register
def _(cut: Profile, part: Part) -> list[Hole]:
    return []


@holes.register
def _(cut: Bore, part: Part) -> list[Hole]:
    leaning = leaning_from(cut.at, cut.into, part.thickness)
    if leaning:
        through = cut.depth >= part.thickness / abs(cut.into[2])
    else:
        through = entered(cut.into) is not None and cut.depth >= _under(cut, part)
    depth = None if through else cut.depth
    return [Hole("hole", cut.at, cut.into, ((cut.diameter, depth),), leans_from=leaning)]


def _under(cut: Bore, part: Part) -> float:
    """The wood under the mouth of a hole in a side, mm; less than the stock where it is bored into a cheek."""
    top = part.thickness if cut.into[2] < 0.0 else 0.0
    if abs(cut.at[2] - top) < 1e-6:
        return part.thickness
    from shapely.geometry import LineString

    others = replace(part, cuts=tuple(c for c in part.cuts if c is not cut))
    section = CrossSection(others, Cutting((1.0, 0.0, 0.0), -cut.at[1]))
    return section.wood.intersection(LineString([(cut.at[0], 0.0), (cut.at[0], part.thickness)])).length


@holes.register
def _(cut: Counterbore, part: Part) -> list[Hole]:
    leaning = leaning_from(cut.at, cut.into, part.thickness)
    sizes = ((cut.clearance, None), (cut.diameter, cut.depth))
    return [Hole("counterbore", cut.at, cut.into, sizes, leans_from=leaning)]


@holes.register
def _(cut: SlottedHole, part: Part) -> list[Hole]:
    through = cut.depth >= wood_behind(cut.at, cut.into, part)
    width, along = (cut.width, None if through else cut.depth), None if cut.round else cut.along
    return [Hole(cut.name, cut.at, cut.into, (width,), None, along, cut.length)]


def wood_behind(at: Vector, into: Vector, part: Part) -> float:
    """From a hole's mouth to where it comes out on the far side, mm."""
    if entered(into) is not None:
        return part.thickness - at[2] if into[2] > 0.0 else at[2]
    level = into[0], into[1]
    return part.outline.extent(level)[1] - at[0] * level[0] - at[1] * level[1]


@holes.register
def _(cut: BiscuitSlot, part: Part) -> list[Hole]:
    what = f"biscuit slot No. {cut.size}"
    return [Hole(what, cut.at, cut.into, (), cut.depth, cut.along, cut.length)]


def looking_into(into: Vector) -> tuple[Vector, Vector]:
    """Two directions, to the right and upwards, of one who looks straight into a hole: the first level, but for a hole
    into a side, where it lies as near to the grain as it can."""
    x, y, z = into
    if math.hypot(x, y) > _INTO_SIDE:
        level = math.hypot(x, y)
        right: Vector = (-y / level, x / level, 0.0)
    else:
        size = math.copysign(math.hypot(x, z), z)
        right = (z / size, 0.0, -x / size)
    return right, cross(into, right)


def is_round(outline: Outline) -> bool:
    """Is it one full circle?"""
    return outline.bulges == (1.0, 1.0)


def hidden_outline(cut: Cut, part: Part) -> list[list[Point]]:
    """What a cut into an edge shows of itself from above, dashed; nothing for work along an edge."""
    if isinstance(cut, EdgeCut):
        return []
    found = next(iter(holes(cut, part)), None)
    if found is not None and found.diameters:
        diameter, depth = found.diameters[-1]
        across = found.length if found.direction is not None and abs(found.direction[2]) < 0.5 else diameter
        return [_band(found, across, wood_behind(found.at, found.into, part) if depth is None else depth)]
    if found is not None and found.direction is not None and abs(found.direction[2]) > 0.9:
        return [_band(found, BISCUIT_THICKNESS, found.depth or 0.0)]
    return [
        [(p[0], p[1]) for p in (r.frame.point((u, max(v, 0.0), 0.0)) for u, v in r.outline.points(0.2))]
        for r in cut.removals(part.blank)
        if isinstance(r, Prism) and abs(r.frame.z[2]) > 1.0 - 1e-9
    ]


def _band(found: Hole, width: float, depth: float) -> list[Point]:
    """A hole in an edge as it lies under the face: so wide, so deep from its mouth."""
    level = math.hypot(found.into[0], found.into[1])
    half, deep = scaled(cross((0.0, 0.0, 1.0), found.into), width / 2 / level), scaled(found.into, depth)
    other = scaled(half, -1.0)
    ring = (added(found.at, half), added(found.at, half, deep), added(found.at, other, deep), added(found.at, other))
    return [(p[0], p[1]) for p in ring]
