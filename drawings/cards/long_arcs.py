"""The long arcs of a piece: those struck from one centre together, and where that centre lies.

An arc is long where a beam compass is no longer handy: over 600 mm (common practice). Millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from drawings.cutting.sawn_outline import sawn_outline
from drawings.lists.distinct import Distinct, distinct_parts
from model.cuts.through import Opening
from model.layout.outline import Edge, Outline, Point
from model.part import Part
from model.piece import Piece
from model.placement import Placement

#: Radii over this are swung with a trammel (common practice: a beam compass reaches 24 in), mm.
LONG = 600.0
#: Centres and radii nearer than this are one and the same, mm: finer than a trammel is set.
_DECIMALS = 2
#: A part lies in the plan when its own z is this near to upright.
_UPRIGHT = 1.0 - 1e-9

Shape = Literal["round", "hollow"]


@dataclass(frozen=True)
class Swept:
    """One long arc of one distinct part, in the part's own frame.

    It runs from `start` to `end` with the wood on its left, turning by `sweep` radians, positive to the left. edge: its
    name, if it has one; of: the opening that it bounds, if it is not of the outline.
    """

    distinct: Distinct
    part: Part
    edge: str
    of: str
    radius: float
    centre: Point
    start: Point
    end: Point
    sweep: float

    @property
    def shape(self) -> Shape:
        """Whether the wood is round or hollow there."""
        return "round" if self.sweep > 0.0 else "hollow"

    @property
    def chord(self) -> float:
        """From end to end, mm; the diameter where it is half a circle or more."""
        return 2.0 * self.radius if abs(self.sweep) >= math.pi else math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        """Half-way along it."""
        (cx, cy), a = self.centre, self.start_angle + self.sweep / 2.0
        return (cx + self.radius * math.cos(a), cy + self.radius * math.sin(a))

    @property
    def start_angle(self) -> float:
        """At the centre, radians."""
        return math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])

    @property
    def name(self) -> str:
        """Which edge of which part, in words."""
        where = f"{self.edge} edge" if self.edge else "curved edge"
        return f"{self.distinct.names[0]}, {where}" if not self.of else f"{self.distinct.names[0]}, {self.of}"


@dataclass(frozen=True)
class Pivot:
    """A place to set the trammel's point, and all that is swung from it.

    centre: in the piece's plan, or, where `part` is given, in that part's own frame. named: radii that the piece names
    an arc of its plan by.
    """

    centre: Point
    arcs: tuple[Swept, ...]
    named: tuple[tuple[str, float], ...] = ()
    part: Distinct | None = None

    @property
    def radii(self) -> list[float]:
        """Every radius swung from here, the shortest first."""
        found = {round(r, _DECIMALS): r for r in [*(a.radius for a in self.arcs), *(r for _, r in self.named)]}
        return [found[key] for key in sorted(found)]


def pivots(piece: Piece) -> list[Pivot]:
    """Every pivot of a piece: those in its plan, arcs sharing a centre together, then those of each other part."""
    swept = [arc for d in distinct_parts(piece) if d.wood is not None for arc in long_arcs(d, d.wood)]
    laid: dict[Point, list[Swept]] = {}
    own: dict[tuple[int, Point], list[Swept]] = {}
    for arc in swept:
        at = piece[arc.distinct.names[0]].at
        if abs(at.z[2]) >= _UPRIGHT and len(arc.distinct.names) == 1:
            laid.setdefault(_rounded(_in_plan(arc.centre, at)), []).append(arc)
        else:
            own.setdefault((arc.distinct.item, _rounded(arc.centre)), []).append(arc)
    named: dict[Point, list[tuple[str, float]]] = {}
    for name, (radius, centre) in piece.arcs.items():
        named.setdefault(_rounded(centre), []).append((name, radius))
    centres = list(dict.fromkeys([*named, *laid]))
    in_plan = [Pivot(c, tuple(laid.get(c, ())), tuple(named.get(c, ()))) for c in centres]
    return [*in_plan, *(Pivot(centre, tuple(arcs), part=arcs[0].distinct) for (_, centre), arcs in own.items())]


def long_arcs(distinct: Distinct, part: Part) -> Iterator[Swept]:
    """The long arcs of a part's outline and of its openings; stretches of one circle that a notch parts are one."""
    yield from _of(sawn_outline(part)[0], distinct, part, "", 1.0)
    for cut in part.cuts:
        if isinstance(cut, Opening):
            yield from _of(cut.outline, distinct, part, "opening", -1.0)


def _of(outline: Outline, distinct: Distinct, part: Part, of: str, wood: float) -> Iterator[Swept]:
    """wood: 1 where the wood lies inside the outline, -1 where it lies outside."""
    alike: dict[tuple[Point, float, bool], list[Edge]] = {}
    for e in outline.edges:
        if not e.straight and e.radius > LONG:
            alike.setdefault((_rounded(e.centre), round(e.radius, _DECIMALS), e.bulge > 0.0), []).append(e)
    for edges in alike.values():
        first, last, sweep = _joined(edges)
        name = next((e.name for e in edges if e.name), "")
        ends = (first.start, last.end) if wood > 0.0 else (last.end, first.start)
        yield Swept(distinct, part, name, of, first.radius, first.centre, *ends, wood * sweep)


def _joined(edges: Iterable[Edge]) -> tuple[Edge, Edge, float]:
    """Stretches of one circle as one: its first and last edge, leaving out the widest gap, and the sweep, radians."""
    ring = list(edges)
    sense = 1.0 if ring[0].bulge > 0.0 else -1.0

    cx, cy = ring[0].centre

    def turn(p: Point) -> float:
        return sense * math.atan2(p[1] - cy, p[0] - cx) % math.tau

    ring.sort(key=lambda e: turn(e.start))
    gaps = [(turn(ring[n].start) - turn(ring[n - 1].end)) % math.tau for n in range(len(ring))]
    begin = gaps.index(max(gaps)) if len(ring) > 1 else 0
    ring = ring[begin:] + ring[:begin]
    sweep = sum(abs(e.sweep) for e in ring)
    if len(ring) > 1 and max(gaps) > 1e-9:
        sweep = math.tau - max(gaps)
    return ring[0], ring[-1], sense * sweep


def _in_plan(p: Point, at: Placement) -> Point:
    x, y, _ = at.point((p[0], p[1], 0.0))
    return x, y


def _rounded(p: Point) -> Point:
    return round(p[0], _DECIMALS) + 0.0, round(p[1], _DECIMALS) + 0.0
