"""Does each fastener keep clear of the others and of holes, and can hammer or driver reach it when its step comes?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.checks.fastener_lines import FastenerLine, Passage
from model.checks.fastener_seat import COVER, Wrong
from model.checks.near_pairs import StoodBox, near_pairs
from model.checks.wood_along import StoodWood
from model.cuts.faces import Bore, Counterbore
from model.cuts.slots import SlottedHole
from model.part import Part
from model.piece import Piece
from model.placement import Placement, Vector, added, cross, dot, scaled, unit
from model.tolerance import CONTACT

Numbers = NDArray[np.float64]

MEETING = "two things can't share one place"
REACHED = "common practice: room for a driver or a nail set in line; [shop] driver_room of the order"

#: Half the width of what must get at the head, mm (common practice: a nail set or a driver's chuck).
TOOL = 6.0

#: Nearer to the head than this nothing is in its way, mm.
_CLEAR_OF_HEAD = 0.5


@dataclass(frozen=True)
class Solidity:
    """A box round one item, or round a hole bored in a part: half sizes along its own axes, mm; x along its length.

    round: whether it is a rod; hole: the part it is bored in.
    """

    what: str
    middle: Vector
    at: Placement
    half: Vector
    round: bool
    line: FastenerLine | None = None
    hole: str = ""

    @property
    def box(self) -> StoodBox:
        x, y, z = self.half
        return StoodBox((-x, -y, -z), (x, y, z), self.at)

    def grown(self, by: float) -> StoodBox:
        x, y, z = (h + by for h in self.half)
        return StoodBox((-x, -y, -z), (x, y, z), self.at)

    @property
    def ends(self) -> tuple[Vector, Vector]:
        run = scaled(self.at.x, self.half[0])
        return added(self.middle, scaled(run, -1.0)), added(self.middle, run)


def clear(piece: Piece, lines: Sequence[FastenerLine], least_wood: float) -> Iterator[Wrong]:
    """Faults for items that run into each other or into a hole not bored for them; cautions for less than
    `least_wood` mm between them."""
    things = [*(_of_item(f) for f in lines), *_holes(piece)]
    for i, j in near_pairs([t.grown(least_wood / 2.0) for t in things], 0.0):
        a, b = sorted((things[i], things[j]), key=lambda t: t.line is None)
        if a.line is None or not _strangers(a, b):
            continue
        apart = _apart(a, b)
        others = (b.hole,) if b.line is None else b.line.item.parts
        with_what = f"{b.what} in {b.hole}" if b.hole else f"the {b.what} that holds {' and '.join(others)}"
        if apart < -CONTACT:
            says = f"runs into {with_what}; move one of them"
            yield Wrong(a.line.item, "fault", says, -apart, 0.0, MEETING, a.middle, others)
        elif apart < least_wood - CONTACT:
            says = f"passes {max(apart, 0.0):.1f} mm from {with_what}; {least_wood:g} mm between them is the least"
            yield Wrong(a.line.item, "caution", says, max(apart, 0.0), least_wood, COVER, a.middle, others)


def _of_item(f: FastenerLine) -> Solidity:
    middle = f.point(f.length / 2.0)
    if f.item.across is None:
        return Solidity(f.item.label, middle, _frame(middle, f.along), (f.length / 2.0, f.radius, f.radius), True, f)
    at = Placement(middle, f.along, f.item.across, cross(f.along, f.item.across))
    half = (f.length / 2.0, f.item.diameter / 2.0, f.item.thickness / 2.0)
    return Solidity(f.item.label, middle, at, half, False, f)


def _holes(piece: Piece) -> Iterator[Solidity]:
    for placed in piece:
        if not isinstance(placed.part, Part):
            continue
        for cut in placed.part.cuts:
            if isinstance(cut, Bore | Counterbore | SlottedHole):
                wide = cut.width if isinstance(cut, SlottedHole) else cut.diameter
                start = placed.at.point(placed.part.station(cut.at))
                into = _way(placed.at, placed.part, cut.at, cut.into)
                middle = added(start, scaled(into, cut.depth / 2.0))
                half = (cut.depth / 2.0, wide / 2.0, wide / 2.0)
                yield Solidity(f"a {cut.name}", middle, _frame(middle, into), half, True, None, placed.name)


def _way(at: Placement, part: Part, p: Vector, into: Vector) -> Vector:
    """Which way a hole goes, in the piece; the wood round it may have been bent."""
    if part.bend is not None:
        into = part.bend.placement(p[0], part.stock.length, part.thickness).direction(into)
    return at.direction(into)


def _frame(middle: Vector, along: Vector) -> Placement:
    aside = (1.0, 0.0, 0.0) if abs(along[0]) < 0.7 else (0.0, 1.0, 0.0)
    y = unit(cross(along, aside))
    return Placement(middle, along, y, cross(along, y))


def _strangers(a: Solidity, b: Solidity) -> bool:
    """Whether `b` is not the very hole that `a` sits in."""
    if not b.hole:
        return True
    off = added(b.middle, scaled(a.middle, -1.0))
    aside = added(off, scaled(a.at.x, -dot(off, a.at.x)))
    own = abs(dot(a.at.x, b.at.x)) > 0.98 and math.hypot(*aside) < max(a.half[1], b.half[1])
    return not own


def _apart(a: Solidity, b: Solidity) -> float:
    """Between the surfaces of the two, mm; negative where they run into each other."""
    if a.round and b.round:
        return _between(*a.ends, *b.ends) - a.half[1] - b.half[1]
    if not a.round and not b.round:
        return -min(a.half[2], b.half[2]) if near_pairs([a.box, b.box], 0.0) else 0.0
    rod, flat = (a, b) if a.round else (b, a)
    p, q = (np.array(flat.at.own_point(e)) for e in rod.ends)
    share = np.linspace(0.0, 1.0, 65)[:, None]
    beyond = np.abs(p + share * (q - p)) - np.array(flat.half)
    outside = np.linalg.norm(np.maximum(beyond, 0.0), axis=1) + np.minimum(beyond.max(axis=1), 0.0)
    return float(outside.min()) - rod.half[1]


def _between(p: Vector, q: Vector, r: Vector, s: Vector) -> float:
    """Least distance of two straight pieces, mm (C. Ericson, Real-Time Collision Detection, 2005, section 5.1.9)."""
    u, v, w = np.subtract(q, p), np.subtract(s, r), np.subtract(p, r)
    a, b, c, d, e = u @ u, u @ v, v @ v, u @ w, v @ w
    slant = a * c - b * b
    first = float(np.clip((b * e - c * d) / slant, 0.0, 1.0)) if slant > 1e-9 * a * c else 0.0
    second = (b * first + e) / c
    if not 0.0 <= second <= 1.0:
        second = min(max(second, 0.0), 1.0)
        first = float(np.clip((b * second - d) / a, 0.0, 1.0))
    return float(np.linalg.norm(w + first * u - second * v))


def reached(piece: Piece, found: Sequence[Passage], woods: Sequence[StoodWood], room: float) -> Iterator[Wrong]:
    """Faults for heads with less than `room` mm clear in line with them when their last part has come on.

    woods: of every part, with its holes. Parts stand in the order their steps name them; those named later don't
    count, nor does the floor: a piece can be turned over.
    """
    struck = [p.line for p in found if p.struck]
    if not struck:
        return
    stands = _turns(piece)
    when = np.array([max(stands[name] for name in f.item.parts) for f in struck])
    starts, back = np.array([f.start for f in struck]), np.array([scaled(f.along, -1.0) for f in struck])
    low, high = np.full(len(struck), _CLEAR_OF_HEAD), np.full(len(struck), room)
    nearest: dict[int, tuple[float, str]] = {}
    for stood in woods:
        near = stood.near(starts, back, low, high, TOOL) & (when >= stands[stood.name])
        for n in np.flatnonzero(near).tolist():
            met = _met(struck[n], stood, room)
            if met < nearest.get(n, (room, ""))[0]:
                nearest[n] = (met, stood.name)
    for n, (met, name) in sorted(nearest.items()):
        says = (
            f"can't be reached: {name} stands in line with it, {met:.0f} mm from its head; drive it before that is on"
        )
        yield Wrong(struck[n].item, "fault", says, met, room, REACHED, struck[n].start, (name,))


def _met(f: FastenerLine, stood: StoodWood, room: float) -> float:
    """How far back from the head the tool meets a part, mm. Through a part it holds, only the middle line must be
    clear: a bit is narrow, and so is the way down to a sunk head."""
    starts = [f.start]
    if stood.name not in f.item.parts:
        starts += [added(f.start, scaled(out, TOOL)) for out in f.round_about]
    back = scaled(f.along, -1.0)
    return min((s[0] for p in starts for s in stood.stretches(p, back, _CLEAR_OF_HEAD, room)), default=math.inf)


def _turns(piece: Piece) -> dict[str, int]:
    """When each part comes on: its turn among all, in the order of the steps; unnamed ones come last."""
    named = [name for step in piece.steps for name in step.parts]
    turns: dict[str, int] = {}
    for n, name in enumerate(named):
        turns.setdefault(name, n)
    return {p.name: turns.get(p.name, len(named)) for p in piece}
