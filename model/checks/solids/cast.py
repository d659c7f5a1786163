"""Two solids' facets cast on one plane: which lie over which, and how high one stands over the other there.

Every point keeps its height along the way that the facets are cast. Exact for flat faces; a facet of a curved one says
how far it may stray.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.checks.solids.facets import Facets, fine_facets, together
from model.checks.solids.stood_solid import StoodSolid
from model.placement import Placement, Vector

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]

#: A facet cast narrower than this is seen edge on, mm.
EDGE_ON = 1e-6


def cast(first: Facets, second: Facets, at: Placement, along: Vector, mine: int, its: int) -> Facing:
    """The first's facets that face along the way (1) or against it (-1), as `mine` says, and those of the second, which
    stands `at` in the first's frame, as `its` does; along: unit vector in that frame."""
    axes, way, frame = np.array([at.x, at.y, at.z]), np.array(along), across_and_along(along)
    a = first.only(mine * (first.normals @ way) > EDGE_ON)
    b = second.only(its * (second.normals @ (axes @ way)) > EDGE_ON)
    moved = b.corners @ (axes @ frame.T) + frame @ np.array(at.origin)
    return Facing(Cast(a, a.corners @ frame.T), Cast(b, moved))


def across_and_along(along: Vector) -> Numbers:
    """Two directions across a unit vector, and itself, as right-handed rows (3, 3)."""
    x, y, z = along
    size, (a, b, c) = min((abs(k), (float(n == 0), float(n == 1), float(n == 2))) for n, k in enumerate(along))
    u = np.array((y * c - z * b, z * a - x * c, x * b - y * a)) / math.sqrt(1.0 - size**2)
    v = np.array((y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0]))
    return np.array([u, v, along])


def finer(solid: StoodSolid, skin: Facets) -> Facets:
    """The same facets, but every face that any curved one of them belongs to is made up of fine ones, all of it."""
    faces = np.unique(skin.face[skin.stray > 0.0])
    fine = fine_facets(solid.own, (int(n) for n in faces))
    return together([skin.only(~np.isin(skin.face, faces)), fine])


@dataclass(frozen=True, eq=False)
class Cast:
    """Facets cast on the plane square to the way: corners (n, 3, 3) as u, v and height along the way."""

    skin: Facets
    corners: Numbers

    @property
    def height_least(self) -> Numbers:
        """Of each facet, straying allowed for."""
        return self.corners[..., 2].min(axis=1) - self.skin.stray

    @property
    def height_most(self) -> Numbers:
        """Of each facet, straying allowed for."""
        return self.corners[..., 2].max(axis=1) + self.skin.stray

    def only(self, kept: Any) -> Cast:
        """The facets chosen by a mask or by their numbers."""
        return Cast(self.skin.only(kept), self.corners[kept])

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
class Facing:
    """One solid's facets and another's, cast on one plane."""

    first: Cast
    second: Cast

    def stray(self, i: Indices, j: Indices) -> Numbers:
        """How far the two of each pair may stray together, mm."""
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

    def shared(self, i: Indices, j: Indices, least: float, most: float) -> Shared:
        """Where the second's height over the first is between `least` and `most`, a polygon for each pair of facets
        that has any."""
        import shapely

        shapes = shapely.intersection(polygons(self.first.corners[i]), polygons(self.second.corners[j]))
        floor = self.first.heights(i)
        found = Shared(shapes, floor, self.second.heights(j) - floor, i, j).worth_speaking_of()
        crossing = np.nonzero((found.least < least) | (found.greatest > most))[0]
        if not len(crossing):
            return found
        clipped = found.shapes.copy()
        for n in crossing:
            c, a, b = map(float, found.over[n])
            clipped[n] = _between(found.shapes[n], c, a, b, least, most)
        return replace(found, shapes=clipped).worth_speaking_of()


@dataclass(frozen=True, eq=False)
class Shared:
    """Polygons of the plane over which one facet lies above another, `shapes` (n,). floor, over (n, 3): c, a, b, so
    that the height at (u, v), of the first and of the second over the first, is c + a u + b v; i, j: the facets."""

    shapes: Any
    floor: Numbers
    over: Numbers
    i: Indices
    j: Indices

    def __len__(self) -> int:
        return len(self.i)

    def only(self, kept: Any) -> Shared:
        """The polygons chosen by a mask or by their numbers."""
        return Shared(self.shapes[kept], self.floor[kept], self.over[kept], self.i[kept], self.j[kept])

    def worth_speaking_of(self) -> Shared:
        """Those with any area."""
        return self.only(self.area > EDGE_ON**2)

    @cached_property
    def area(self) -> Numbers:
        """Of each, mm2."""
        import shapely

        area: Numbers = shapely.area(self.shapes)
        return area

    @cached_property
    def corners(self) -> tuple[Numbers, Indices, Numbers]:
        """Every corner (m, 2), the polygon it belongs to (m,), and the second's height over the first there (m,)."""
        import shapely

        uv, n = shapely.get_coordinates(self.shapes, return_index=True)
        over = self.over[n]
        return uv, n, over[:, 0] + np.einsum("mc,mc->m", uv, over[:, 1:])

    @cached_property
    def least(self) -> Numbers:
        """Of the second's height over the first, in each polygon (n,)."""
        return self._extreme(np.minimum)

    @cached_property
    def greatest(self) -> Numbers:
        """Of the second's height over the first, in each polygon (n,)."""
        return self._extreme(np.maximum)

    def _extreme(self, of: np.ufunc) -> Numbers:
        _, n, heights = self.corners
        if not len(n):
            return np.empty(0)
        found: Numbers = of.reduceat(heights, np.nonzero(np.diff(n, prepend=-1))[0])
        return found


def both(a: Shared, b: Shared) -> Shared:
    """The polygons of both; the facets' numbers each keep their own meaning."""
    names = ("shapes", "floor", "over", "i", "j")
    return Shared(*(np.concatenate([getattr(a, name), getattr(b, name)]) for name in names))


def _beside(these: Cast, those: Cast) -> NDArray[np.bool_]:
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


def polygons(corners: Numbers) -> Any:
    """Cast facets (n, 3, 3) as polygons of the plane."""
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
