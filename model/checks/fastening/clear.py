"""Does each fastener keep clear of the others, of loose pieces, and of holes not bored for it?

An item is a rod, or a flat piece: a polygon on the flat and a thickness, so that a wedge and a three-cornered key are
no larger here than they are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.checks.fastening.lines import FastenerLine
from model.checks.fastening.seat import COVER, Wrong
from model.checks.solids.near_pairs import StoodBox, near_pairs
from model.cuts.faces import Bore, Counterbore
from model.cuts.slots import SlottedHole
from model.hardware import Hardware
from model.part import Part
from model.piece import Piece
from model.placement import Placement, Vector, added, cross, dot, scaled, square_to, unit
from model.tolerance import CONTACT

Numbers = NDArray[np.float64]

MEETING = "two things can't share one place"

#: Stations along a rod at which its distance from a flat piece is measured.
STATIONS = 65


@dataclass(frozen=True)
class Solidity:
    """One item, or a hole bored in a part: half sizes of its box along its own axes, mm, x along its length.

    outline: of a flat one, convex, anticlockwise in its own x and y; none for a rod. hole: the part it is bored in.
    """

    what: str
    middle: Vector
    at: Placement
    half: Vector
    outline: tuple[tuple[float, float], ...] = ()
    item: Hardware | None = None
    hole: str = ""

    @property
    def round(self) -> bool:
        """Whether it is a rod."""
        return not self.outline

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


def clear(piece: Piece, lines: Sequence[FastenerLine], loose: Sequence[Hardware], least_wood: float) -> Iterator[Wrong]:
    """Faults for items that run into each other or into a hole not bored for them; cautions for less than
    `least_wood` mm between them. loose: splines, keys, wedges and tongues, which the others must keep clear of."""
    things = [*(_of_item(f) for f in lines), *(_of_loose(h) for h in loose), *_holes(piece)]
    for i, j in near_pairs([t.grown(least_wood / 2.0) for t in things], 0.0):
        a, b = sorted((things[i], things[j]), key=lambda t: (t.item is None, not t.round))
        if a.item is None or not _strangers(a, b):
            continue
        apart = _apart(a, b)
        others = (b.hole,) if b.item is None else b.item.parts
        with_what = f"{b.what} in {b.hole}" if b.hole else f"the {b.what} that holds {' and '.join(others)}"
        if apart < -CONTACT:
            says = f"runs into {with_what}; move one of them"
            yield Wrong(a.item, "fault", says, -apart, 0.0, MEETING, a.middle, others)
        elif apart < least_wood - CONTACT:
            says = f"passes {max(apart, 0.0):.1f} mm from {with_what}; {least_wood:g} mm between them is the least"
            yield Wrong(a.item, "caution", says, max(apart, 0.0), least_wood, COVER, a.middle, others)


def _of_item(f: FastenerLine) -> Solidity:
    middle = f.point(f.length / 2.0)
    if f.item.across is None:
        half = (f.length / 2.0, f.radius, f.radius)
        return Solidity(f.item.label, middle, _frame(middle, f.along), half, item=f.item)
    at = Placement(middle, f.along, f.item.across, cross(f.along, f.item.across))
    long, wide = f.length / 2.0, f.item.diameter / 2.0
    return Solidity(f.item.label, middle, at, (long, wide, f.item.thickness / 2.0), _rectangle(long, wide), item=f.item)


def _of_loose(item: Hardware) -> Solidity:
    """As it is drawn: a wedge tapers across its thickness, a key has three corners, the rest are strips."""
    assert item.across is not None
    long, wide, thin = item.length / 2.0, item.diameter / 2.0, item.thickness / 2.0
    centred = 0.0 if item.kind == "loose tongue" else long
    across, half = item.across, (long, wide, thin)
    middle, outline = added(item.at, scaled(item.direction, centred)), _rectangle(long, wide)
    if item.kind == "wedge":
        across, half = cross(item.across, item.direction), (long, thin, wide)
        outline = ((-long, -thin), (long, 0.0), (-long, thin))
    elif item.kind == "key":
        middle = added(middle, scaled(across, wide))
        outline = ((-long, -wide), (long, -wide), (0.0, wide))
    at = Placement(middle, item.direction, across, cross(item.direction, across))
    return Solidity(item.label, middle, at, half, outline, item)


def _rectangle(long: float, wide: float) -> tuple[tuple[float, float], ...]:
    return ((-long, -wide), (long, -wide), (long, wide), (-long, wide))


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
                yield Solidity(f"a {cut.name}", middle, _frame(middle, into), half, hole=placed.name)


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
    """Whether `b` is neither the very hole that `a` sits in, nor made to meet it: loose pieces of one joint, and the
    heads of a hinge's two leaves."""
    assert a.item is not None
    if b.item is not None:
        heads = a.item.kind == b.item.kind == "hinge screw" and dot(a.at.x, b.at.x) < -0.98
        one_joint = bool(a.outline and b.outline) and set(a.item.parts) == set(b.item.parts)
        return not heads and not one_joint
    off = added(b.middle, scaled(a.middle, -1.0))
    aside = square_to(off, a.at.x)
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
    stations = p + np.linspace(0.0, 1.0, STATIONS)[:, None] * (q - p)
    beside, above = _from_outline(stations[:, :2], flat.outline), np.abs(stations[:, 2]) - flat.half[2]
    outside = np.hypot(np.maximum(beside, 0.0), np.maximum(above, 0.0)) + np.minimum(np.maximum(beside, above), 0.0)
    return float(outside.min()) - rod.half[1]


def _from_outline(points: Numbers, outline: Sequence[tuple[float, float]]) -> Numbers:
    """From each point (n, 2) to a convex outline, mm, negative inside."""
    start = np.array(outline)
    run = np.roll(start, -1, axis=0) - start
    off = points[:, None] - start[None]
    length = np.hypot(*run.T)
    out = (off[..., 0] * run[:, 1] - off[..., 1] * run[:, 0]) / length
    share = np.clip(np.einsum("nkc,kc->nk", off, run) / length**2, 0.0, 1.0)
    away = np.linalg.norm(off - share[..., None] * run, axis=2).min(axis=1)
    inside = out.max(axis=1)
    beside: Numbers = np.where(inside <= 0.0, inside, away)
    return beside


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
