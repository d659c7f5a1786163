"""Where each hole and slot lies on its part, and what of it shows in the plan."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import singledispatch

from drawings.lists.hole_entry import Entry, bored_through, entry, wood_behind
from drawings.paper.measured import Vector
from drawings.paper.sheet import Point
from drawings.parts.cross_section import CrossSection, Cutting
from model.cuts.cut import Cut, Side
from model.cuts.edges import EdgeCut
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Counterbore, entered
from model.cuts.pockets import Pocket
from model.cuts.removal import Prism
from model.cuts.slots import SlottedHole
from model.cuts.through import Profile
from model.layout.outline import Outline
from model.part import Part
from model.placement import added, cross, scaled

#: A hole that leans no more than this off square to a side goes into it (sine).
_INTO_SIDE = 0.44
_NOTHING = 1e-6


@dataclass(frozen=True)
class Hole:
    """A hole or slot by the middle of its mouth, mm; each diameter with its depth, None for right through.

    direction: in which a slot is long; None for a round hole. entry: where it goes in.
    """

    what: str
    entry: Entry
    diameters: tuple[tuple[float, float | None], ...] = ()
    depth: float | None = None
    direction: Vector | None = None
    length: float = 0.0

    @property
    def at(self) -> Vector:
        """The middle of its mouth."""
        return self.entry.at

    @property
    def into(self) -> Vector:
        return self.entry.into

    @property
    def side(self) -> Side | None:
        """The side it is sunk into, straight or leaning; None for one in an edge."""
        return self.entry.side


@singledispatch
def holes(cut: Cut, part: Part) -> list[Hole]:
    """A cut's holes and slots; of a kind not known here, the round ones among its footprints."""
    found = []
    for print_ in cut.footprints(part.blank):
        if is_round(print_.outline):
            x0, y0, x1, y1 = print_.outline.bounds
            level, into = (part.thickness, -1.0) if print_.side == "face" else (0.0, 1.0)
            mouth = entry(((x0 + x1) / 2, (y0 + y1) / 2, level), (0.0, 0.0, into), part)
            depth = None if print_.through else print_.depth
            found.append(Hole(cut.name, mouth, ((x1 - x0, depth),)))
    return found


@holes.register
def _(cut: Profile, part: Part) -> list[Hole]:
    return []


@holes.register
def _(cut: Bore, part: Part) -> list[Hole]:
    mouth = entry(cut.at, cut.into, part)
    square = entered(cut.into) is not None
    through = bored_through(mouth, cut.depth, part) or (square and cut.depth >= _under(cut, part))
    return [Hole("hole", mouth, ((cut.diameter, None if through else cut.depth - mouth.off),))]


def _under(cut: Bore, part: Part) -> float:
    """The wood under the mouth of a hole in a side, mm; less than the stock where it is bored into a cheek."""
    top = part.thickness if cut.into[2] < 0.0 else 0.0
    if abs(cut.at[2] - top) < _NOTHING:
        return part.thickness
    from shapely.geometry import LineString

    others = replace(part, cuts=tuple(c for c in part.cuts if c is not cut))
    section = CrossSection(others, Cutting((1.0, 0.0, 0.0), -cut.at[1]))
    return section.wood.intersection(LineString([(cut.at[0], 0.0), (cut.at[0], part.thickness)])).length


@holes.register
def _(cut: Counterbore, part: Part) -> list[Hole]:
    mouth = entry(cut.at, cut.into, part)
    sizes = ((cut.clearance, None), (cut.diameter, cut.depth - mouth.off))
    return [Hole("counterbore", mouth, sizes)]


@holes.register
def _(cut: Pocket, part: Part) -> list[Hole]:
    """By where its middle line comes out of the side it is bored from, down to the seat of the screw's head."""
    level = part.thickness if cut.into[2] < 0.0 else 0.0
    back = (cut.at[2] - level) / cut.into[2]
    mouth = entry(added(cut.at, scaled(cut.into, -back)), cut.into, part)
    return [Hole(cut.name, mouth, ((cut.clearance, None), (cut.diameter, back - cut.collar)))]


@holes.register
def _(cut: SlottedHole, part: Part) -> list[Hole]:
    through = cut.depth >= wood_behind(cut.at, cut.into, part)
    width, along = (cut.width, None if through else cut.depth), None if cut.round else cut.along
    return [Hole(cut.name, _as_begun(cut, part), (width,), None, along, cut.length)]


@holes.register
def _(cut: BiscuitSlot, part: Part) -> list[Hole]:
    what = f"biscuit slot No. {cut.size}"
    return [Hole(what, _as_begun(cut, part), (), cut.depth, cut.along, cut.length)]


def _as_begun(cut: SlottedHole | BiscuitSlot, part: Part) -> Entry:
    """A slot's mouth where it is begun: its walls are measured from there."""
    return replace(entry(cut.at, cut.into, part), at=cut.at, off=0.0)


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
        return list(_bands(found, part))
    if found is not None and found.direction is not None and abs(found.direction[2]) > 0.9:
        return [_band(found, BISCUIT_THICKNESS, 0.0, found.depth or 0.0)]
    return [
        [(p[0], p[1]) for p in (r.frame.point((u, max(v, 0.0), 0.0)) for u, v in r.outline.points(0.2))]
        for r in cut.removals(part.blank)
        if isinstance(r, Prism) and abs(r.frame.z[2]) > 1.0 - 1e-9
    ]


def _bands(found: Hole, part: Part) -> Iterator[list[Point]]:
    """Its widest bore first, then what goes on from the floor of that."""
    begins = 0.0
    for diameter, depth in reversed(found.diameters):
        ends = wood_behind(found.at, found.into, part) if depth is None else depth
        across = found.length if found.direction is not None and abs(found.direction[2]) < 0.5 else diameter
        yield _band(found, across, begins, ends)
        begins = ends


def _band(found: Hole, width: float, begins: float, ends: float) -> list[Point]:
    """A hole as it lies under the face: so wide, from and to so far down it."""
    level = math.hypot(found.into[0], found.into[1])
    half = scaled(cross((0.0, 0.0, 1.0), found.into), width / 2 / level)
    walls = ((half, begins), (half, ends), (scaled(half, -1.0), ends), (scaled(half, -1.0), begins))
    ring = (added(found.at, side, scaled(found.into, deep)) for side, deep in walls)
    return [(p[0], p[1]) for p in ring]
