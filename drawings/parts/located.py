"""Where each cut lies on its part: points to be dimensioned in the plan, rows for the tables of holes and trenches."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch

from drawings.paper.measured import Vector
from drawings.paper.sheet import Point
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.removal import Prism
from model.cuts.through import Notch, Profile
from model.layout.outline import Outline
from model.part import Part
from model.placement import added, cross, scaled


@dataclass(frozen=True)
class Hole:
    """A hole or slot by the middle of its mouth, mm; each diameter with its depth, None for right through.

    direction: in which a slot is long; None for a round hole.
    """

    what: str
    at: Vector
    into: Vector
    diameters: tuple[tuple[float, float | None], ...] = ()
    depth: float | None = None
    direction: Vector | None = None
    length: float = 0.0

    @property
    def side(self) -> str | None:
        """The side it is sunk into; None for one in an edge."""
        return entered(self.into)


@dataclass(frozen=True)
class Trench:
    """A pocket or trench sunk from one side: its outline, the points of it to be located, its depth, mm."""

    what: str
    outline: Outline
    points: tuple[Point, ...]
    side: str
    depth: float
    through: bool


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
def _(cut: Bore, part: Part) -> list[Hole]:
    through = cut.depth >= part.thickness and entered(cut.into) is not None
    return [Hole("hole", cut.at, cut.into, ((cut.diameter, None if through else cut.depth),))]


@holes.register
def _(cut: Counterbore, part: Part) -> list[Hole]:
    return [Hole("counterbore", cut.at, cut.into, ((cut.clearance, None), (cut.diameter, cut.depth)))]


@holes.register
def _(cut: BiscuitSlot, part: Part) -> list[Hole]:
    what = f"biscuit slot No. {cut.size}"
    return [Hole(what, cut.at, cut.into, (), cut.depth, cut.along, cut.length)]


def is_round(outline: Outline) -> bool:
    """Is it one full circle?"""
    return outline.bulges == (1.0, 1.0)


@singledispatch
def trenches(cut: Cut, part: Part) -> Iterator[Trench]:
    """What a cut sinks into a side; of a kind not known here, every footprint that is not round."""
    for found in cut.footprints(part.blank):
        if not is_round(found.outline):
            points = tuple(_within(found.outline, part.outline))
            yield Trench(cut.name, found.outline, points, found.side, found.depth, found.through)


def _within(outline: Outline, wood: Outline) -> Iterator[Point]:
    """The corners of an outline that lie on the wood, and where its sides run out over an edge."""
    x0, y0, x1, y1 = wood.bounds
    for e in outline.edges:
        if _inside(e.start, (x0, y0, x1, y1)):
            yield e.start
        for axis, value in ((0, x0), (0, x1), (1, y0), (1, y1)):
            low, high = sorted((e.start[axis], e.end[axis]))
            if e.straight and low < value - 1e-6 and high > value + 1e-6:
                yield from (p for p in e.crossings(((1.0, 0.0), (0.0, 1.0))[axis], value) if _inside(p, wood.bounds))


def _inside(p: Point, bounds: tuple[float, float, float, float]) -> bool:
    return bounds[0] - 1e-6 <= p[0] <= bounds[2] + 1e-6 and bounds[1] - 1e-6 <= p[1] <= bounds[3] + 1e-6


@trenches.register(Profile)
@trenches.register(Notch)
@trenches.register(EdgeCut)
@trenches.register(Bore)
@trenches.register(Counterbore)
@trenches.register(BiscuitSlot)
def _(cut: Cut, part: Part) -> Iterator[Trench]:
    yield from ()


@trenches.register
def _(cut: Channel, part: Part) -> Iterator[Trench]:
    for found in cut.footprints(part.blank):
        corners = found.outline.corners
        opened = cut.open_ends(part.blank)
        start, end = (corners[0], corners[1]), (corners[2], corners[3])
        points = start if opened[1] and not opened[0] else end if opened[0] and not opened[1] else corners
        yield Trench(cut.name, found.outline, tuple(points), found.side, found.depth, found.through)


def hidden_outline(cut: Cut, part: Part) -> list[list[Point]]:
    """What a cut into an edge shows of itself from above, dashed; nothing for work along an edge."""
    if isinstance(cut, EdgeCut):
        return []
    found = next(iter(holes(cut, part)), None)
    if found is not None and found.direction is None and found.diameters:
        diameter, depth = found.diameters[-1]
        return [_band(found, diameter, depth or part.thickness)]
    if found is not None and found.direction is not None and abs(found.direction[2]) > 0.9:
        return [_band(found, BISCUIT_THICKNESS, found.depth or 0.0)]
    return [
        [(p[0], p[1]) for p in (r.frame.point((u, max(v, 0.0), 0.0)) for u, v in r.outline.points(0.2))]
        for r in cut.removals(part.blank)
        if isinstance(r, Prism) and abs(r.frame.z[2]) > 1.0 - 1e-9
    ]


def _band(found: Hole, width: float, depth: float) -> list[Point]:
    """A hole in an edge as it lies under the face: so wide, so deep from its mouth."""
    half, deep = scaled(cross((0.0, 0.0, 1.0), found.into), width / 2), scaled(found.into, depth)
    other = scaled(half, -1.0)
    ring = (added(found.at, half), added(found.at, half, deep), added(found.at, other, deep), added(found.at, other))
    return [(p[0], p[1]) for p in ring]
