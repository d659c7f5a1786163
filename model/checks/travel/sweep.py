"""Does a solid that moves in a straight line run into another, and how far does it get?

Seen along the way it goes, each solid is a set of facets cast on a plane, every point with its height along the way. A
moving solid leaves nothing standing that lies over its own rear: so it meets the other wherever one of the other's
far facets lies higher than one of its own rear facets over the same point of the plane. That is exact for flat faces,
and holds for the whole way at once. Curved faces are tried with coarse facets first; where those leave it open, with
fine ones, two of which stray by less than what counts as interference. Surfaces that slide along each other share no
more than a line of the plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from model.checks.solids.cast import Cast, Facing, Indices, Numbers, across_and_along, cast, finer
from model.checks.solids.facets import Facets, facets
from model.checks.solids.stood_solid import StoodSolid
from model.placement import Placement, Vector
from model.tolerance import CONTACT, INTERFERENCE

#: Facets that already lie this far behind the other's, mm, are past it. More than interference: they may stand pressed
#: into each other a little at home.
PAST = 2.0 * CONTACT


@dataclass(frozen=True)
class Meeting:
    """Where a moving solid runs into another: after `travel` mm, at a point in the frame asked for."""

    travel: float
    where: Vector


def runs_into(moving: StoodSolid, other: StoodSolid, at: Placement, along: Vector) -> Meeting | None:
    """Where `moving`, on its way from home to clear of everything, runs into `other`, which stands `at` in its frame.

    along: unit vector in the moving solid's own frame. None if it goes clear, with less than INTERFERENCE mm of wood in
    the way, either along or across. The travel is 0: only whether, not when.
    """
    pair = _Pair(moving, other, at, along)
    seen = pair.cast(facets(moving.own), facets(other.own), -1, 1)
    first, second = seen.overlapping(INTERFERENCE, np.inf)
    if not len(first):
        return None
    stray = float(seen.stray(first, second).max())
    if stray > 0.0:
        sure = INTERFERENCE + 4.0 * stray
        found = _met(seen, first, second, sure, sure)
        if found is not None:
            return pair.meeting(0.0, found)
        seen = pair.refined(seen, first, second, -1, 1)
        first, second = seen.overlapping(INTERFERENCE, np.inf)
    found = _met(seen, first, second, INTERFERENCE, INTERFERENCE)
    return None if found is None else pair.meeting(0.0, found)


def first_meeting(moving: StoodSolid, other: StoodSolid, at: Placement, along: Vector, reach: float) -> Meeting | None:
    """How far `moving` gets along a line, mm, before it meets `other`, which stands `at` in its frame; None if it gets
    `reach` mm. Surfaces must meet over more than INTERFERENCE mm across."""
    pair = _Pair(moving, other, at, along)
    seen = pair.cast(facets(moving.own), facets(other.own), 1, -1)
    first, second = seen.overlapping(-PAST, reach - INTERFERENCE)
    if len(first) and float(seen.stray(first, second).max()) > 0.0:
        seen = pair.refined(seen, first, second, 1, -1)
        first, second = seen.overlapping(-PAST, reach - INTERFERENCE)
    found = _nearest(seen, first, second, reach)
    return None if found is None else pair.meeting(*found)


def _met(seen: Facing, i: Indices, j: Indices, higher: float, wider: float) -> tuple[float, float, float] | None:
    """A point (u, v, height) where the second lies `higher` over the first, in a region `wider` across."""
    import shapely

    regions = seen.shared(i, j, higher, np.inf).shapes
    if not len(regions):
        return None
    core = shapely.union_all(regions, grid_size=1e-7).buffer(-wider / 2.0, quad_segs=4)
    if core.is_empty:
        return None
    return _over(core, seen.second, j)


def _nearest(seen: Facing, i: Indices, j: Indices, reach: float) -> tuple[float, tuple[float, float, float]] | None:
    """The least of the heights from the first's facets up to the second's, under `reach`, and where."""
    import shapely

    found = seen.shared(i, j, -PAST, reach - INTERFERENCE)
    order = np.argsort(found.least, kind="stable")
    heights = found.least[order]
    for n, least in enumerate(map(float, heights)):
        level = found.shapes[order[n:][heights[n:] <= least + INTERFERENCE]]
        core = shapely.union_all(level, grid_size=1e-7).buffer(-INTERFERENCE / 2.0, quad_segs=4)
        if not core.is_empty:
            return max(least, 0.0), _over(core, seen.first, i)
    return None


def _over(core: Any, side: Cast, numbers: Indices) -> tuple[float, float, float]:
    """A point inside a region, at the height of one side's facet over it."""
    p = core.representative_point()
    chosen = np.unique(numbers)
    low, high = side.only(chosen).bounds()
    inside = np.all((low <= (p.x, p.y)) & (high >= (p.x, p.y)), axis=1)
    c, a, b = side.heights(chosen[inside])[0] if inside.any() else (0.0, 0.0, 0.0)
    return p.x, p.y, c + a * p.x + b * p.y


@dataclass(frozen=True, eq=False)
class _Pair:
    moving: StoodSolid
    other: StoodSolid
    at: Placement
    along: Vector

    @cached_property
    def frame(self) -> Numbers:
        """Rows u, v and the way, right-handed, in the moving solid's frame."""
        return across_and_along(self.along)

    def cast(self, first: Facets, second: Facets, mine: int, its: int) -> Facing:
        return cast(first, second, self.at, self.along, mine, its)

    def refined(self, seen: Facing, i: Indices, j: Indices, mine: int, its: int) -> Facing:
        """With fine facets in place of the coarse ones whose faces are in question; those out of question left out."""
        first, second = seen.first.skin.only(np.unique(i)), seen.second.skin.only(np.unique(j))
        return self.cast(finer(self.moving, first), finer(self.other, second), mine, its)

    def meeting(self, travel: float, p: tuple[float, float, float]) -> Meeting:
        x, y, z = np.array(p) @ self.frame
        return Meeting(travel, (float(x), float(y), float(z)))
