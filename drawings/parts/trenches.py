"""Every channel, pocket and opening of a part: where it lies in the plan, from which side it is sunk, how deep."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import singledispatch

from drawings.cutting.finished import finished_bounds
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.teller import edge_in_words
from drawings.paper.measured import Vector
from drawings.paper.sheet import Point
from drawings.parts.located import is_round
from drawings.parts.mortise_box import MortiseBox
from drawings.parts.relief_corners import without_reliefs
from drawings.parts.slanted_trench import SlantedTrench
from model.cuts.cut import Cut
from model.cuts.dovetails import Pins, Tails
from model.cuts.edges import EdgeCut
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore
from model.cuts.gains import HingeGain
from model.cuts.mortises import Mortise
from model.cuts.sawn import SawCut
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Kerf, TenonedEnd
from model.cuts.through import Notch, Profile
from model.layout.clipping import area
from model.layout.outline import Outline
from model.part import Part
from model.placement import added, dot, scaled, tidy

#: A trench runs along the part or across it within this (cosine).
_ALONG = 1e-9


@dataclass(frozen=True)
class Trench:
    """What is sunk from one side: its outline in the plan, the points of it to be located, its depth, mm.

    side: "face", "back" or, in words, the edge it is let into; axes: whether its points are located along the part,
    across it, or both. leans: a mortise or a dado that is not square to its side, as it is marked out.
    """

    what: str
    outline: Outline
    points: tuple[Point, ...]
    side: str
    depth: float
    through: bool
    axes: str = "xy"
    leans: MortiseBox | SlantedTrench | None = None

    @property
    def sunk_from_edge(self) -> bool:
        return self.side not in ("face", "back")

    @property
    def outline_depth(self) -> tuple[Point, Point]:
        """Of one let into an edge: the two ends of one of its walls, at the mouth and at the floor."""
        wall = next(e for e in self.outline.edges if self._at_mouth(e.start) and not self._at_mouth(e.end))
        return wall.start, wall.end

    def _at_mouth(self, p: Point) -> bool:
        return any(math.dist(p, mouth) < 1e-6 for mouth in self.points)


@singledispatch
def trenches(cut: Cut, part: Part) -> Iterator[Trench]:
    """What a cut sinks into a side; of a kind not known here, every footprint that is not round."""
    for found in cut.footprints(part.blank):
        if not is_round(found.outline):
            points = tuple(_within(without_reliefs(found.outline)[0], part))
            yield Trench(cut.name, found.outline, points, found.side, found.depth, found.through)


def _within(outline: Outline, part: Part) -> Iterator[Point]:
    """The corners of an outline that lie on the wood, and where its sides run out over an edge of the finished part."""
    x0, y0, x1, y1 = bounds = finished_bounds(part)
    for e in outline.edges:
        if _inside(e.start, (x0, y0, x1, y1)):
            yield e.start
        for axis, value in ((0, x0), (0, x1), (1, y0), (1, y1)):
            low, high = sorted((e.start[axis], e.end[axis]))
            if e.straight and low < value - 1e-6 and high > value + 1e-6:
                yield from (p for p in e.crossings(((1.0, 0.0), (0.0, 1.0))[axis], value) if _inside(p, bounds))


def _inside(p: Point, bounds: tuple[float, float, float, float]) -> bool:
    return bounds[0] - 1e-6 <= p[0] <= bounds[2] + 1e-6 and bounds[1] - 1e-6 <= p[1] <= bounds[3] + 1e-6


@trenches.register(Profile)
@trenches.register(Notch)
@trenches.register(EdgeCut)
@trenches.register(Bore)
@trenches.register(Counterbore)
@trenches.register(BiscuitSlot)
@trenches.register(SlottedHole)
@trenches.register(TenonedEnd)
@trenches.register(Tails)
@trenches.register(Pins)
@trenches.register(SawCut)
def _(cut: Cut, part: Part) -> Iterator[Trench]:
    yield from ()


@trenches.register
def _(cut: Channel, part: Part) -> Iterator[Trench]:
    for found in cut.footprints(part.blank):
        corners = found.outline.corners
        opened = cut.open_ends(part.blank)
        start, end = (corners[0], corners[1]), (corners[2], corners[3])
        if max(map(abs, cut.direction)) < 1.0 - _ALONG:
            run_out = cut.footprint((cut.width * opened[0], cut.width * opened[1]))
            yield Trench(cut.name, run_out, tuple(_within(run_out, part)), found.side, found.depth, False)
            continue
        points = start if opened[1] and not opened[0] else end if opened[0] and not opened[1] else corners
        left = tuple(_onto(p, finished_bounds(part)) for p in points)
        yield Trench(cut.name, found.outline, left, found.side, found.depth, found.through)


def _onto(p: Point, bounds: tuple[float, float, float, float]) -> Point:
    """A point, or where the finished part ends before it."""
    x0, y0, x1, y1 = bounds
    return min(max(p[0], x0), x1), min(max(p[1], y0), y1)


@trenches.register
def _(cut: SlantedDado, part: Part) -> Iterator[Trench]:
    """By where its walls meet the side."""
    leans = SlantedTrench(cut, part)
    (a, b), (c, d) = leans.mouth
    ring = (a, c, d, b) if cut.axis == 0 else (a, b, d, c)
    yield Trench(cut.name, Outline(ring), ring, cut.side, cut.wall_depth, False, "xy"[cut.axis], leans)


@trenches.register
def _(cut: DovetailSocket, part: Part) -> Iterator[Trench]:
    """By its mouth, which narrows from end to end where it is tapered."""
    (dx, dy), half, less = cut.direction, cut.width / 2.0, (cut.width - cut.taper) / 2.0
    sides = ((cut.start, half), (cut.start, -half), (cut.end, -less), (cut.end, less))
    outline = Outline(tuple((p[0] - s * dy, p[1] + s * dx) for p, s in sides))
    yield Trench(cut.name, outline, tuple(_within(outline, part)), cut.side, cut.depth, False)


@trenches.register
def _(cut: Kerf, part: Part) -> Iterator[Trench]:
    """Sawn into a tenon from its tip; it shows on both cheeks."""
    if abs(cut.into[2]) < 1e-9 and abs(cut.across[2]) < 1e-9:
        outline = _box(cut.at, cut.across, cut.width, cut.into, cut.depth)
        yield Trench(cut.name, outline, tuple(_within(outline, part)), "face", part.thickness, True)


@trenches.register
def _(cut: Mortise, part: Part) -> Iterator[Trench]:
    level = cut.along if abs(cut.along[2]) < 0.5 else cut.across
    length = cut.length if level == cut.along else cut.width
    if cut.square and abs(cut.into[2]) < 1e-9 and abs(level[2]) < 1e-9:
        yield _let_in(cut, part, cut.at, cut.into, level, length)
    elif not cut.square:
        yield _leaning(cut, part)
    else:
        for found in cut.footprints(part.blank):
            yield Trench(cut.name, found.outline, found.outline.corners, found.side, found.depth, found.through)


@trenches.register
def _(cut: HingeGain, part: Part) -> Iterator[Trench]:
    if abs(cut.into[2]) < 1e-9:
        yield _let_in(cut, part, cut.at, cut.into, cut.along, cut.length)
    else:
        for found in cut.footprints(part.blank):
            points = tuple(_within(found.outline, part))
            yield Trench(cut.name, found.outline, points, found.side, found.depth, found.through)


def _let_in(cut: Mortise | HingeGain, part: Part, at: Vector, into: Vector, level: Vector, length: float) -> Trench:
    """A box let into an edge, located by the two ends of its mouth."""
    through = isinstance(cut, Mortise) and cut.through
    outline = _box(at, level, length, into, cut.depth)
    ends = [added(at, scaled(level, s * length / 2.0)) for s in (-1.0, 1.0)]
    axes = "x" if abs(level[0]) > 1.0 - 1e-9 else "y" if abs(level[1]) > 1.0 - 1e-9 else "xy"
    edge, _ = nearest_edge(part.outline, (at[0], at[1]))
    points = tuple((p[0], p[1]) for p in ends)
    if isinstance(cut, Mortise) and cut.eased > 0.0 and cut.along == level:
        outline, points, axes = _widened(cut), (*points, *_widened(cut).corners), "xy"
    return Trench(cut.name, outline, points, edge_in_words(edge.name), cut.depth, through, axes)


def _leaning(cut: Mortise, part: Part) -> Trench:
    """A mortise that leans, by the four corners of its mouth; in an edge with all that lies under it in the plan."""
    box = MortiseBox(cut)
    mouth = tuple((p[0], p[1]) for p in box.mouth)
    if abs(cut.mouth[2]) > 1.0 - 1e-9:
        side = "face" if cut.mouth[2] > 0.0 else "back"
        ring = mouth if area(mouth) > 0.0 else tuple(reversed(mouth))
        return Trench(cut.name, Outline(ring), mouth, side, cut.depth, cut.through, leans=box)
    ring = _round_all([*mouth, *((p[0], p[1]) for p in box.floor)])
    edge, _ = nearest_edge(part.outline, (cut.at[0], cut.at[1]))
    axes = "x" if abs(cut.mouth[1]) > 1.0 - 1e-9 else "y" if abs(cut.mouth[0]) > 1.0 - 1e-9 else "xy"
    return Trench(cut.name, Outline(ring), mouth, edge_in_words(edge.name), cut.depth, cut.through, axes, box)


def _round_all(points: Iterable[Point]) -> tuple[Point, ...]:
    """The least convex outline about points."""
    from shapely.geometry import MultiPoint
    from shapely.geometry.polygon import orient

    return tuple((x, y) for x, y in orient(MultiPoint(list(points)).convex_hull).exterior.coords[:-1])


def _widened(cut: Mortise) -> Outline:
    """The plan of a mortise through an edge that widens toward its far side."""
    half, begins = cut.length / 2.0, cut.depth - cut.ease_depth
    run = ((-half, 0.0), (half, 0.0), (half, begins), (half + cut.eased, cut.depth))
    ring = [*run, *((-s, d) for s, d in reversed(run[2:]))]
    points = [added(cut.at, scaled(cut.along, s), scaled(cut.into, d)) for s, d in ring]
    plan = [(p[0], p[1]) for p in points]
    turned = dot(cut.along, (-cut.into[1], cut.into[0], 0.0)) > 0.0
    return Outline(tuple(reversed(plan) if turned else plan))


def _box(at: Vector, level: Vector, length: float, into: Vector, depth: float) -> Outline:
    """The plan of a box: so long about its mouth's middle, so deep."""
    mouth = [added(at, scaled(level, s * length / 2.0)) for s in (-1.0, 1.0)]
    floor = [added(p, scaled(into, depth)) for p in reversed(mouth)]
    ring = [(p[0], p[1]) for p in (*mouth, *floor)]
    turned = dot(level, (-into[1], into[0], 0.0)) > 0.0
    return Outline(tuple(reversed(ring) if turned else ring))


def letters(trenches_: Iterable[Trench]) -> list[str]:
    """A letter for each: A, B, … ; alike ones (kind, side, depth) share theirs."""
    known: dict[object, str] = {}
    keys = [(t.what, t.side, round(t.depth, 4), t.through, t.leans and tidy(t.leans.cut.into)) for t in trenches_]
    for key in keys:
        known.setdefault(key, _letter(len(known)))
    return [known[key] for key in keys]


def _letter(n: int) -> str:
    plain = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    return plain[n % len(plain)] * (n // len(plain) + 1)
