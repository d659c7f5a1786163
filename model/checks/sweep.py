"""Does a solid that moves in a straight line run into another, and how far does it get?

Seen along the way it goes, each solid is a set of facets cast on a plane, every point with its height along the way. A
moving solid leaves nothing standing that lies over its own rear: so it meets the other wherever one of the other's
far facets lies higher than one of its own rear facets over the same point of the plane. That is exact for flat faces,
and holds for the whole way at once. Curved faces are tried with coarse facets first; where those leave it open, with
fine ones, two of which stray by less than what counts as interference. Surfaces that slide along each other share no
more than a line of the plane.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.checks.facets import Facets, facets, fine_facets, together
from model.checks.stood_solid import StoodSolid
from model.placement import Placement, Vector
from model.tolerance import CONTACT, INTERFERENCE

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]

#: A facet cast narrower than this is seen edge on, mm.
EDGE_ON = 1e-6

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
    cast = pair.cast(facets(moving.own), facets(other.own), -1, 1)
    first, second = cast.overlapping(INTERFERENCE, np.inf)
    if not len(first):
        return None
    stray = float(cast.stray(first, second).max())
    if stray > 0.0:
        sure = INTERFERENCE + 4.0 * stray
        found = cast.met(first, second, sure, sure)
        if found is not None:
            return pair.meeting(0.0, found)
        cast = pair.refined(cast, first, second, -1, 1)
        first, second = cast.overlapping(INTERFERENCE, np.inf)
    found = cast.met(first, second, INTERFERENCE, INTERFERENCE)
    return None if found is None else pair.meeting(0.0, found)


def first_meeting(moving: StoodSolid, other: StoodSolid, at: Placement, along: Vector, reach: float) -> Meeting | None:
    """How far `moving` gets along a line, mm, before it meets `other`, which stands `at` in its frame; None if it gets
    `reach` mm. Surfaces must meet over more than INTERFERENCE mm across."""
    pair = _Pair(moving, other, at, along)
    cast = pair.cast(facets(moving.own), facets(other.own), 1, -1)
    first, second = cast.overlapping(-PAST, reach - INTERFERENCE)
    if len(first) and float(cast.stray(first, second).max()) > 0.0:
        cast = pair.refined(cast, first, second, 1, -1)
        first, second = cast.overlapping(-PAST, reach - INTERFERENCE)
    found = cast.nearest(first, second, reach)
    return None if found is None else pair.meeting(*found)


@dataclass(frozen=True, eq=False)
class _Cast:
    """Facets cast on the plane square to the way: corners (n, 3, 3) as u, v and height along the way."""

    skin: Facets
    corners: Numbers

    @property
    def height_least(self) -> Numbers:
        return self.corners[..., 2].min(axis=1) - self.skin.stray

    @property
    def height_most(self) -> Numbers:
        return self.corners[..., 2].max(axis=1) + self.skin.stray

    def only(self, kept: Any) -> _Cast:
        return _Cast(self.skin.only(kept), self.corners[kept])

    def bounds(self) -> tuple[Numbers, Numbers]:
        """Least and greatest (n, 2) of u and v, straying allowed for."""
        stray = self.skin.stray[:, None]
        return self.corners[..., :2].min(axis=1) - stray, self.corners[..., :2].max(axis=1) + stray

    def heights(self, numbers: Indices) -> Numbers:
        """(n, 3) of c, a, b: the height over (u, v) is c + a u + b v."""
        p = self.corners[numbers]
        ones = np.ones((len(numbers), 3, 1))
        return np.linalg.solve(np.concatenate([ones, p[..., :2]], axis=2), p[..., 2:])[..., 0]


@dataclass(frozen=True, eq=False)
class _Facing:
    """The moving solid's facets and the other's, cast on one plane."""

    first: _Cast
    second: _Cast

    def stray(self, i: Indices, j: Indices) -> Numbers:
        return self.first.skin.stray[i] + self.second.skin.stray[j]

    def overlapping(self, least: float, most: float) -> tuple[Indices, Indices]:
        """Pairs of facets whose boxes overlap on the plane, and where the second's height over the first may be between
        `least` and `most`."""
        i, j = np.arange(len(self.first.corners)), np.arange(len(self.second.corners))
        for _ in range(2):  # each only where the other's facets lie
            i = i[_beside(self.first.only(i), self.second.only(j))]
            j = j[_beside(self.second.only(j), self.first.only(i))]
        if not len(i) or not len(j):
            return i[:0], j[:0]
        a, b = self.first.only(i), self.second.only(j)
        (low_a, high_a), (low_b, high_b) = a.bounds(), b.bounds()
        meet = b.height_most[None] - a.height_least[:, None] > least
        meet &= b.height_least[None] - a.height_most[:, None] < most
        for axis in range(2):
            meet &= high_a[:, None, axis] - low_b[None, :, axis] > EDGE_ON
            meet &= high_b[None, :, axis] - low_a[:, None, axis] > EDGE_ON
        n, m = np.nonzero(meet)
        kept = self._may_meet(i[n], j[m], least, most)
        return i[n][kept], j[m][kept]

    def _may_meet(self, i: Indices, j: Indices, least: float, most: float) -> NDArray[np.bool_]:
        """Whether two facets' planes are anywhere between `least` and `most` apart over either of them, and no edge
        of either parts them on the plane; straying allowed for."""
        mine, its = self.first.heights(i), self.second.heights(j)
        slope = np.hypot(mine[:, 1], mine[:, 2]), np.hypot(its[:, 1], its[:, 2])
        stray = self.first.skin.stray[i] * (1.0 + slope[0]) + self.second.skin.stray[j] * (1.0 + slope[1])
        over = its - mine
        a, b = self.first.corners[i, :, :2], self.second.corners[j, :, :2]
        kept = np.ones(len(i), dtype=bool)
        for corners in (a, b):
            height = over[:, :1] + np.einsum("nkc,nc->nk", corners, over[:, 1:])
            kept &= (height.max(axis=1) + stray > least) & (height.min(axis=1) - stray < most)
        flat = self.stray(i, j)
        return kept & ~_parted(a, b, flat) & ~_parted(b, a, flat)

    def met(self, i: Indices, j: Indices, higher: float, wider: float) -> tuple[float, float, float] | None:
        """A point (u, v, height) where the second lies `higher` over the first, in a region `wider` across."""
        import shapely

        regions = [r for r, _ in self._regions(i, j, higher, np.inf)]
        if not regions:
            return None
        core = shapely.union_all(regions, grid_size=1e-7).buffer(-wider / 2.0, quad_segs=4)
        if core.is_empty:
            return None
        return self._over(core, self.second, j)

    def nearest(self, i: Indices, j: Indices, reach: float) -> tuple[float, tuple[float, float, float]] | None:
        """The least of the heights from the first's facets up to the second's, under `reach`, and where."""
        import shapely

        found = sorted(self._regions(i, j, -PAST, reach - INTERFERENCE), key=lambda r: r[1])
        for n, (_, least) in enumerate(found):
            level = [region for region, height in found[n:] if height <= least + INTERFERENCE]
            core = shapely.union_all(level, grid_size=1e-7).buffer(-INTERFERENCE / 2.0, quad_segs=4)
            if not core.is_empty:
                return max(least, 0.0), self._over(core, self.first, i)
        return None

    def _regions(self, i: Indices, j: Indices, least: float, most: float) -> Iterator[tuple[Any, float]]:
        """Regions of the plane where the second's height over the first is between `least` and `most`, each with its
        least height there."""
        import shapely

        if not len(i):
            return
        shared = shapely.intersection(_polygons(self.first.corners[i]), _polygons(self.second.corners[j]))
        over = self.second.heights(j) - self.first.heights(i)
        for region, (c, a, b) in zip(shared, over, strict=True):
            if region.is_empty or region.area <= EDGE_ON**2:
                continue
            kept = _between(region, c, a, b, least, most)
            if not kept.is_empty and kept.area > EDGE_ON**2:
                uv = shapely.get_coordinates(kept)
                yield kept, float((c + uv @ (a, b)).min())

    @staticmethod
    def _over(core: Any, side: _Cast, numbers: Indices) -> tuple[float, float, float]:
        """A point inside a region, at the height of one side's facet over it."""
        p = core.representative_point()
        chosen = np.unique(numbers)
        low, high = side.only(chosen).bounds()
        inside = np.all((low <= (p.x, p.y)) & (high >= (p.x, p.y)), axis=1)
        c, a, b = side.heights(chosen[inside])[0] if inside.any() else (0.0, 0.0, 0.0)
        return p.x, p.y, c + a * p.x + b * p.y


def _beside(these: _Cast, those: _Cast) -> NDArray[np.bool_]:
    """Which facets lie within the bounds of all the others."""
    if not len(those.corners) or not len(these.corners):
        return np.zeros(len(these.corners), dtype=bool)
    (low, high), (least, most) = these.bounds(), those.bounds()
    return np.all((high > least.min(axis=0) + EDGE_ON) & (low < most.max(axis=0) - EDGE_ON), axis=1)


def _parted(a: Numbers, b: Numbers, stray: Numbers) -> NDArray[np.bool_]:
    """Whether an edge of the first of two triangles (n, 3, 2) has all of the second on its outer side."""
    parted = np.zeros(len(a), dtype=bool)
    area = np.sign(_cross(a[:, 1] - a[:, 0], a[:, 2] - a[:, 0]))
    for k in range(3):
        start, along = a[:, k], a[:, (k + 1) % 3] - a[:, k]
        length = np.maximum(np.linalg.norm(along, axis=1), EDGE_ON)
        inside = area[:, None] * _cross(along[:, None], b - start[:, None]) / length[:, None]
        parted |= inside.max(axis=1) + stray <= EDGE_ON
    return parted


def _cross(a: Numbers, b: Numbers) -> Numbers:
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def _polygons(corners: Numbers) -> Any:
    import shapely

    return shapely.polygons(corners[..., :2])


def _between(region: Any, c: float, a: float, b: float, least: float, most: float) -> Any:
    """The part of a convex region where least < c + a u + b v < most."""
    import shapely

    for sign, limit in ((1.0, least), (-1.0, -most)):
        if not np.isfinite(limit) or region.is_empty:
            continue
        uv = shapely.get_coordinates(region)
        over = sign * (c + uv @ (a, b)) - limit
        if over.min() > 0.0:
            continue
        if over.max() <= 0.0:
            return shapely.Polygon()
        region = region.intersection(_half_plane(uv, sign * c - limit, sign * a, sign * b))
    return region


def _half_plane(uv: Numbers, c: float, a: float, b: float) -> Any:
    """Where c + a u + b v > 0, far enough out to hold all the points."""
    import shapely

    size = np.hypot(a, b)
    normal = np.array((a, b)) / size
    middle = uv.mean(axis=0)
    foot = middle - normal * ((c + middle @ (a, b)) / size)
    span = 4.0 * (np.ptp(uv, axis=0).sum() + np.linalg.norm(foot - middle) + 1.0)
    side = np.array((-normal[1], normal[0])) * span
    return shapely.Polygon([foot - side, foot + side, foot + side + normal * span, foot - side + normal * span])


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

    def cast(self, first: Facets, second: Facets, mine: int, its: int) -> _Facing:
        """The first's facets that face along the way (1) or against it (-1), as `mine` says, and the second's."""
        axes = np.array([self.at.x, self.at.y, self.at.z])
        way = np.array(self.along)
        a = first.only(mine * (first.normals @ way) > EDGE_ON)
        b = second.only(its * (second.normals @ (axes @ way)) > EDGE_ON)
        moved = b.corners @ (axes @ self.frame.T) + self.frame @ np.array(self.at.origin)
        return _Facing(_Cast(a, a.corners @ self.frame.T), _Cast(b, moved))

    def refined(self, cast: _Facing, i: Indices, j: Indices, mine: int, its: int) -> _Facing:
        """With fine facets in place of the coarse ones whose faces are in question; those out of question left out."""
        first, second = cast.first.skin.only(np.unique(i)), cast.second.skin.only(np.unique(j))
        return self.cast(_finer(self.moving, first), _finer(self.other, second), mine, its)

    def meeting(self, travel: float, p: tuple[float, float, float]) -> Meeting:
        x, y, z = np.array(p) @ self.frame
        return Meeting(travel, (float(x), float(y), float(z)))


def across_and_along(along: Vector) -> Numbers:
    """Two directions across a unit vector, and itself, as right-handed rows (3, 3)."""
    x, y, z = along
    size, (a, b, c) = min((abs(k), (float(n == 0), float(n == 1), float(n == 2))) for n, k in enumerate(along))
    u = np.array((y * c - z * b, z * a - x * c, x * b - y * a)) / math.sqrt(1.0 - size**2)
    v = np.array((y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0]))
    return np.array([u, v, along])


def _finer(solid: StoodSolid, skin: Facets) -> Facets:
    curved = skin.stray > 0.0
    fine = fine_facets(solid.own, (int(n) for n in np.unique(skin.face[curved])))
    return together([skin.only(~curved), fine])
