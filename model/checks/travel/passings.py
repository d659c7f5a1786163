"""At which points of its travel can the room beside something that slides change?

Where a corner of what slides passes a corner of what stays, both on surfaces that face each other across the way: up to
the next such passing the same two surfaces stand opposite each other, so their distance changes evenly, or not at all.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import StoodSolid
from model.placement import Vector, cross

Numbers = NDArray[np.float64]

#: A surface that leans less than this off the way, as a sine, faces nothing across it; one that leans no more than the
#: second along the slide keeps its distance.
FACES, EVEN = 0.05, 1e-6

#: So near before and after a passing its two sides are looked at; passings nearer to each other than twice that are
#: one, mm.
BESIDE = 0.02


def stations(
    moving: Sequence[StoodSolid],
    fixed: Sequence[StoodSolid],
    along: Vector,
    opens: float,
    sides: Iterable[Vector],
    reach: float,
) -> list[float]:
    """Points of the travel at which the least and the most room to the sides, within `reach` mm, are met: the ends, and
    between every two passings one, or both ends where a surface slants along the slide. along: unit vector of the
    slide; sides: unit vectors across it."""
    passings, slants = [np.array([0.0, opens])], False
    for side in sides:
        mine = _Facing(moving, side, along, 1.0)
        its = _Facing(fixed, side, along, -1.0).within(mine, reach)
        passed = (its.along.ravel()[:, None] - mine.along.ravel()[None]).ravel()
        passings.append(passed[(passed > BESIDE) & (passed < opens - BESIDE)])
        slants = slants or mine.slants or its.slants
    levels = np.unique(np.round(np.concatenate(passings), 3))
    spans = [(a, b) for a, b in pairwise(levels) if b - a > 2.0 * BESIDE]
    between = [s for a, b in spans for s in ((a + BESIDE, b - BESIDE) if slants else ((a + b) / 2.0,))]
    inside = (float(s) for s in between if 2.0 * BESIDE < s < opens - 2.0 * BESIDE)
    return [0.0, *inside, opens]


class _Facing:
    """Facets that face one way along a side: `along` the slide, `out` to the side and `over` across both, (n, 3) each,
    mm."""

    def __init__(self, solids: Sequence[StoodSolid], side: Vector, along: Vector, way: float) -> None:
        frame = np.array([along, side, cross(along, side)])
        corners, facing = [np.empty((0, 3, 3))], [np.empty((0, 3))]
        for solid in solids:
            skin, axes = facets(solid.own), np.array([solid.at.x, solid.at.y, solid.at.z])
            corners.append((skin.corners @ axes + np.array(solid.at.origin)) @ frame.T)
            facing.append(skin.facing @ axes @ frame.T)
        stood, turned = np.concatenate(corners), np.concatenate(facing)
        kept = way * turned[:, 1] > FACES
        self._take(stood[kept], turned[kept])

    def _take(self, stood: Numbers, turned: Numbers) -> None:
        self.stood, self.turned = stood, turned
        self.along, self.out, self.over = stood[..., 0], stood[..., 1], stood[..., 2]
        self.slants = bool((np.abs(turned[:, 0]) > EVEN).any())

    def within(self, other: _Facing, reach: float) -> _Facing:
        """Those of its facets that come within reach of the other's, somewhere on the slide."""
        if not len(other.stood):
            self._take(self.stood[:0], self.turned[:0])
            return self
        low, high = other.over.min(), other.over.max()
        near = (self.out.max(axis=1) > other.out.min()) & (self.out.min(axis=1) < other.out.max() + reach)
        near &= (self.over.max(axis=1) > low) & (self.over.min(axis=1) < high)
        self._take(self.stood[near], self.turned[near])
        return self
