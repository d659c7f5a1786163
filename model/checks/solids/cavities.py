"""What a part's cuts hollow out, as plain upright blocks: a footprint in plan, from one height to another.

Taken from what the cuts mean, without the CAD kernel. A bent part is taken on the flat. Cuts along curved edges have
no plain footprint and are left out here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from model.cuts.cut import Cut, Footprint
from model.cuts.dovetails import Pins
from model.cuts.edges import Bead, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue, strip
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Channel, entered
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket
from model.cuts.through import Notch, Opening, Profile
from model.layout.clipping import around, clipped
from model.layout.outline import Outline, Point, circle, rectangle
from model.part import Part
from model.placement import Vector, added, scaled
from model.tolerance import SAME_POINT

if TYPE_CHECKING:
    from shapely import Polygon

#: Where a hollow opens: down from the face side, up from the back side, in from an edge, or right through.
Opens = Literal["face", "back", "edge", "through"]

#: How far a faceted footprint may leave a curved one, mm.
FINE = 0.005

_ARRIS = (Bead, Ease, Chamfer)


@dataclass(frozen=True)
class Cavity:
    """One hollow: `outline` in the part's own plane, between heights `low` and `high` above the back side, mm."""

    cut: Cut
    outline: Outline
    low: float
    high: float
    opens: Opens

    @property
    def name(self) -> str:
        return self.cut.name

    @property
    def on_arris(self) -> bool:
        """Whether it only dresses an arris: bead, ease or chamfer."""
        return isinstance(self.cut, _ARRIS)

    @property
    def hidden(self) -> bool:
        """Whether it is a hole for something that must be held all round."""
        return isinstance(self.cut, BiscuitSlot | Bore)

    @cached_property
    def plan(self) -> Polygon:
        """Its outline as a polygon, arcs faceted to FINE."""
        return polygon(self.outline)

    @property
    def middle(self) -> tuple[float, float]:
        x0, y0, x1, y1 = self.outline.bounds
        return ((x0 + x1) / 2.0, (y0 + y1) / 2.0)


def polygon(outline: Outline) -> Polygon:
    """An outline as a polygon, arcs faceted to FINE."""
    from shapely import Polygon

    return Polygon(outline.points(FINE))


def cavities(part: Part) -> list[Cavity]:
    """Every hollow its cuts leave, in the order of the cuts; what is sawn off leaves none."""
    return [c for cut in part.cuts if not isinstance(cut, Profile | SawCut) for c in _of(cut, part)]


def _of(cut: Cut, part: Part) -> Iterator[Cavity]:
    if isinstance(cut, EdgeCut):
        yield from _along_edge(cut, part)
    elif isinstance(cut, Opening | Notch):
        yield Cavity(cut, cut.outline, 0.0, part.thickness, "through")
    elif isinstance(cut, Mortise):
        yield _mortise(cut, part.thickness)
    elif isinstance(cut, OpenMortise):
        yield from _open_mortise(cut, part)
    elif isinstance(cut, Pins):
        yield from _sockets(cut, part)
    elif isinstance(cut, SlantedDado):
        yield _slanted(cut, part)
    elif isinstance(cut, DovetailSocket):
        at_floor = Channel(cut.start, cut.end, cut.width + 2.0 * cut.slope * cut.depth, cut.depth)
        yield _down(cut, Footprint(at_floor.footprint(), cut.side, cut.depth), part.thickness)
    elif isinstance(cut, Bore | BiscuitSlot) and entered(cut.into) is None:
        yield from _into_edge(cut)
    else:
        yield from (_down(cut, f, part.thickness) for f in cut.footprints(part.blank))


def _slanted(cut: SlantedDado, part: Part) -> Cavity:
    """A slanted dado as the block round it, right across the part."""
    stations, heights = zip(*((p[cut.axis], p[2]) for p in cut.floor_edges), strict=True)
    low, high = min(*stations, *cut.mouth), max(*stations, *cut.mouth)
    x0, y0, x1, y1 = part.outline.bounds
    lane = rectangle(high - low, y1 - y0, low, y0) if cut.axis == 0 else rectangle(x1 - x0, high - low, x0, low)
    deep = part.thickness - min(heights) if cut.side == "face" else max(heights)
    return Cavity(cut, lane, *_from_side(cut.side, deep, part.thickness))


def _down(cut: Cut, f: Footprint, thickness: float) -> Cavity:
    if f.through:
        return Cavity(cut, f.outline, 0.0, thickness, "through")
    low, high = (thickness - f.depth, thickness) if f.side == "face" else (0.0, f.depth)
    return Cavity(cut, f.outline, low, high, f.side)


def _along_edge(cut: EdgeCut, part: Part) -> Iterator[Cavity]:
    for edge in part.outline.named(cut.edge):
        if not edge.straight:
            continue
        dx, dy = edge.direction(0.0)
        inset = cut.inset if isinstance(cut, Bead) else 0.0
        for inward, low, high, opens in _sections(cut, part.thickness):
            band = strip(edge, inward, cut.start, cut.stop).moved(-inset * dy, inset * dx)
            yield Cavity(cut, band, low, high, opens)


def _sections(cut: EdgeCut, thickness: float) -> Iterator[tuple[float, float, float, Opens]]:
    """How far in from the edge, between which heights, open where."""
    if isinstance(cut, EdgeGroove):
        yield cut.depth, cut.rise, cut.rise + cut.width, "edge"
    elif isinstance(cut, Tongue):
        yield cut.length, 0.0, cut.rise, "back"
        yield cut.length, cut.rise + cut.thickness, thickness, "face"
    elif isinstance(cut, Rabbet):
        yield cut.width, *_from_side(cut.side, cut.depth, thickness)
    elif isinstance(cut, Bead):
        yield 2.0 * cut.radius + cut.quirk, *_from_side(cut.side, cut.radius, thickness)
    elif isinstance(cut, Ease | Chamfer):
        size = cut.radius if isinstance(cut, Ease) else cut.width
        sides: tuple[Literal["face", "back"], ...] = ("face", "back") if cut.sides == "both" else (cut.sides,)
        for side in sides:
            yield size, *_from_side(side, size, thickness)


def _from_side(side: Literal["face", "back"], depth: float, thickness: float) -> tuple[float, float, Opens]:
    return (thickness - depth, thickness, "face") if side == "face" else (0.0, depth, "back")


def _into_edge(cut: Bore | BiscuitSlot) -> Iterator[Cavity]:
    """A hole bored or plunged into an edge, as the block round it."""
    end = added(cut.at, scaled(cut.into, cut.depth))
    if isinstance(cut, BiscuitSlot):
        half, thick = cut.length / 2.0, BISCUIT_THICKNESS / 2.0
        if abs(cut.along[2]) > 0.5:  # stands upright in the edge
            low, high, half = cut.at[2] - half, cut.at[2] + half, thick
        else:
            low, high = cut.at[2] - thick, cut.at[2] + thick
    else:
        half = cut.diameter / 2.0
        low, high = min(cut.at[2], end[2]) - half, max(cut.at[2], end[2]) + half
    yield Cavity(cut, _lane(cut.at, end, half), low, high, "edge")


def _mortise(cut: Mortise, thickness: float) -> Cavity:
    """A mortise as the block round it, whichever side it is let into and however it leans."""
    end, side = added(cut.at, scaled(cut.into, cut.depth)), entered(scaled(cut.mouth, -1.0))
    run = math.hypot(cut.into[0], cut.into[1])
    across = (-cut.into[1] / run, cut.into[0] / run) if run > SAME_POINT else _level(cut.along)
    sizes = ((cut.along, cut.length / 2.0), (cut.across, cut.width / 2.0))
    half = sum(abs(v[0] * across[0] + v[1] * across[1]) * size for v, size in sizes)
    rise = sum(abs(v[2]) * size for v, size in sizes)
    low, high = min(cut.at[2], end[2]) - rise, max(cut.at[2], end[2]) + rise
    opens: Opens = "edge" if side is None else "through" if cut.through else side
    if run <= SAME_POINT:
        ahead = sum(abs(v[0] * across[1] - v[1] * across[0]) * size for v, size in sizes)
        way = (across[1] * ahead, -across[0] * ahead, 0.0)
        return Cavity(cut, _lane(added(cut.at, scaled(way, -1.0)), added(cut.at, way), half), low, high, opens)
    outside = added(cut.at, scaled(cut.into, -half - SAME_POINT))  # so that a leaning one has no wall at its mouth
    return Cavity(cut, _lane(outside, end, half), max(low, 0.0), min(high, thickness), opens)


def _level(along: Vector) -> tuple[float, float]:
    """Square to a direction, in plan."""
    size = math.hypot(along[0], along[1])
    return (-along[1] / size, along[0] / size)


def _open_mortise(cut: OpenMortise, part: Part) -> Iterator[Cavity]:
    ring = _beyond(cut.floor, cut.rise + cut.width / 2.0, part)
    if ring:
        yield Cavity(cut, Outline(tuple(ring)), cut.rise, cut.rise + cut.width, "edge")


def _sockets(cut: Pins, part: Part) -> Iterator[Cavity]:
    """Each socket as wide as it is anywhere, up to the board's end."""
    low, high, opens = _from_side(cut.side, cut.depth, part.thickness)
    if cut.lap(part.blank) < SAME_POINT:
        low, high, opens = 0.0, part.thickness, "through"
    for socket in cut.sockets:
        y0, _, y1, _ = socket.bounds
        ring = clipped(
            _beyond(cut.baseline.flipped(), (low + high) / 2.0, part), [((0.0, -1.0), -y0), ((0.0, 1.0), y1)]
        )
        if ring:
            yield Cavity(cut, Outline(tuple(ring)), low, high, opens)


def _beyond(plane: Plane, z: float, part: Part) -> list[Point]:
    """What of the part's box lies outside a plane, in plan at one height."""
    (x, y, up), size = plane.normal, math.hypot(plane.normal[0], plane.normal[1])
    return clipped(around(part.outline.bounds), [((-x / size, -y / size), -(plane.offset - up * z) / size)])


def _lane(start: Vector, end: Vector, half: float) -> Outline:
    if math.dist(start[:2], end[:2]) < SAME_POINT:
        return circle(start[:2], 2.0 * half)
    return Channel(start[:2], end[:2], 2.0 * half, 1.0).footprint()
