"""What of many flat polygons lies between planes? All at once, without the CAD kernel."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from typing import Any

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

#: The cross product of u and v is sum over i, j of this [i, j] u[i] v[j].
_CROSS = np.cross(np.eye(3)[:, None], np.eye(3)[None])


@dataclass(frozen=True, eq=False)
class Planes:
    """Half spaces: unit normals (k, 3) and levels (k,), mm; a point x is inside where normal . x <= level."""

    normals: Numbers
    levels: Numbers

    def drawn_in(self, by: float | Numbers) -> Planes:
        """Each plane moved inward, mm."""
        return Planes(self.normals, self.levels - by)

    def corners(self) -> Numbers:
        """Corners (n, 3) of what lies inside all of them; none where nothing does."""
        chosen = _triples(len(self.levels))
        n = self.normals
        crosses = np.einsum("ijk,ai,bj->abk", _CROSS, n, n)
        size = np.einsum("nk,nk->n", self.normals[chosen[:, 0]], crosses[chosen[:, 1], chosen[:, 2]])
        sound = np.abs(size) > 1e-9
        a, b, c = chosen[sound].T
        i, j, k = (self.levels[n][:, None] for n in (a, b, c))
        points = (i * crosses[b, c] + j * crosses[c, a] + k * crosses[a, b]) / size[sound][:, None]
        within: Numbers = points[np.all(points @ self.normals.T <= self.levels + 1e-9, axis=1)]
        return within


@dataclass(frozen=True, eq=False)
class Polygons:
    """corners (n, m, 3), mm, a polygon of fewer repeating its last one; normals (n, 3), of length one; stray (n,): how
    far each may leave the surface it stands for, mm; flat (n,): in its own plane only."""

    corners: Numbers
    normals: Numbers
    stray: Numbers
    flat: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.corners)

    def only(self, kept: NDArray[Any]) -> Polygons:
        return Polygons(self.corners[kept], self.normals[kept], self.stray[kept], self.flat[kept])

    @property
    def levels(self) -> Numbers:
        """How far along its normal each one's plane lies, mm."""
        return np.einsum("nk,nk->n", self.normals, self.corners[:, 0])

    @property
    def areas(self) -> Numbers:
        """mm2 (n,)."""
        spokes = self.corners[:, 1:] - self.corners[:, :1]
        doubled = np.einsum("ijk,nai,naj->nk", _CROSS, spokes[:, :-1], spokes[:, 1:])
        areas: Numbers = np.sqrt(np.einsum("nk,nk->n", doubled, doubled)) / 2.0
        return areas

    def reach(self, normals: Numbers) -> Numbers:
        """How far each may stray along each of some directions (k, 3), mm (n, k)."""
        if not self.stray.any():
            return np.zeros((len(self), len(normals)))
        facing = self.normals @ normals.T
        aside: Numbers = np.sqrt(np.maximum(1.0 - facing**2, 0.0))
        return self.stray[:, None] * np.where(self.flat[:, None], aside, 1.0)

    def inside(self, planes: Planes) -> Polygons:
        """What of them lies inside all the planes, or within its straying of that."""
        if not len(self):
            return self
        heights = self._heights(planes)
        near = np.all(heights.min(axis=1) < 0.0, axis=1)
        left = self.only(near)
        for k in np.nonzero(heights[near].max(axis=(0, 1), initial=-1.0) > 0.0)[0]:
            left = left._cut(planes.normals[k], planes.levels[k])
        return left

    def may_be_inside(self, planes: Planes) -> NDArray[np.bool_]:
        """Which of them (n,) no plane shuts out whole."""
        inside: NDArray[np.bool_] = np.all(self._heights(planes).min(axis=1) < 0.0, axis=1)
        return inside

    def not_outside(self, planes: Planes) -> Polygons:
        """Those of them, whole, that no plane shuts out."""
        return self.only(self.may_be_inside(planes)) if len(self) else self

    def _heights(self, planes: Planes) -> Numbers:
        """Of each corner over each plane, straying let off, mm (n, m, k)."""
        heights: Numbers = self.corners @ planes.normals.T
        heights -= (planes.levels + self.reach(planes.normals))[:, None]
        return heights

    def _cut(self, normal: Numbers, level: float) -> Polygons:
        height = self.corners @ normal - level - self.reach(normal[None])
        kept = height.min(axis=1, initial=np.inf) < 0.0
        height, left = height[kept], self.only(kept)
        if not len(left) or height.max() <= 0.0:
            return left
        after = np.append(np.arange(1, height.shape[1]), 0)
        following, then = height[:, after], left.corners[:, after]
        crosses = (height <= 0.0) != (following <= 0.0)
        share = np.where(crosses, height, 0.0) / np.where(crosses, height - following, 1.0)
        crossing = left.corners + share[..., None] * (then - left.corners)
        return replace(left, corners=_closed_up(left.corners, height <= 0.0, crossing, crosses))


def times_round(corners: Numbers, p: Numbers) -> float:
    """How often closed facets (n, 3, 3) go round a point: 1 inside, 0 outside, between them near the skin.

    A. Van Oosterom, J. Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed. Eng. 30, 1983, eq. 8.
    """
    a, b, c = (corners[:, n] - p for n in range(3))
    la, lb, lc = (np.sqrt(np.einsum("nk,nk->n", k, k)) for k in (a, b, c))
    over = np.einsum("ijk,nk,ni,nj->n", _CROSS, a, b, c)
    ab, bc, ca = (np.einsum("nk,nk->n", *k) for k in ((a, b), (b, c), (c, a)))
    return float(np.arctan2(over, la * lb * lc + lc * ab + la * bc + lb * ca).sum() / (2.0 * np.pi))


def _closed_up(corners: Numbers, kept: NDArray[np.bool_], crossing: Numbers, crosses: NDArray[np.bool_]) -> Numbers:
    """Kept corners and crossings in turn, each polygon's last one repeated to fill its row."""
    count, width = kept.shape
    both = np.stack([corners, crossing], axis=2).reshape(count, 2 * width, 3)
    wanted = np.stack([kept, crosses], axis=2).reshape(count, 2 * width)
    numbers = np.argsort(~wanted, axis=1, kind="stable")
    lengths = wanted.sum(axis=1)
    places = np.minimum(np.arange(lengths.max()), lengths[:, None] - 1)
    return np.take_along_axis(both, np.take_along_axis(numbers, places, axis=1)[..., None], axis=1)


@cache
def _triples(count: int) -> NDArray[np.intp]:
    return np.array(list(combinations(range(count), 3)), dtype=np.intp).reshape(-1, 3)
