"""Which drawn edges are really seen: a second opinion by rays toward the eye.

The kernel's exact hidden-line pass draws some edges that are buried inside closed joints in pictorial views (about
1 % of the line length of a bookcase with stopped dadoes). Here points along each edge that it calls visible look
toward the eye past the facets of all parts, and the stretches that wood covers are found.

All coordinates are view coordinates: x right, y up, z toward the eye, mm. No CAD kernel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Index = NDArray[np.int64]

#: Stretch of a polyline kept, from one place to another; place 2.5 is half way between points 2 and 3.
Span = tuple[float, float]

#: An edge lies on the faces that meet in it, so facets nearer to it than this do not cover it, mm.
_ON_EDGE = 0.05

#: A look past the edge on either side starts this far from it, in the view plane, mm ...
_ASIDE = 0.1

#: ... and may start this deep in a face that slopes up beside the edge, mm: slopes up to 84 degrees.
_SLOPE_ASIDE = 1.0

#: Points along an edge stand no farther apart than this, mm, and the place where wood begins to cover it is
#: then halved down.
_SPACING = 10.0
_HALVINGS = 7


class Occluders:
    """Facets (n, 3, 3) of everything that may stand before an edge, anticlockwise as seen from outside.

    Only facets that face the eye are kept: a ray that enters wood leaves it again through one of them.
    """

    def __init__(self, facets: Array) -> None:
        from shapely import polygons

        a, b, c = facets[:, 0], facets[:, 1], facets[:, 2]
        normal = np.cross(b - a, c - a)
        faces = normal[:, 2] > 1e-6 * np.maximum(np.linalg.norm(normal, axis=1), 1e-12)
        a, normal = a[faces], normal[faces]
        self._slope = -normal[:, :2] / normal[:, 2:]
        self._height = a[:, 2] - np.einsum("ij,ij->i", self._slope, a[:, :2])
        self._outlines = polygons(facets[faces][:, :, :2])

    def covered(self, points: Array, clearance: float) -> Mask:
        """Which points (n, 3) have a facet more than `clearance` mm before them."""
        from shapely import STRtree
        from shapely import points as as_points

        tree = STRtree(as_points(points[:, :2]))
        facet, point = tree.query(self._outlines, predicate="intersects")
        depth = np.einsum("ij,ij->i", self._slope[facet], points[point, :2]) + self._height[facet]
        covered = np.zeros(len(points), dtype=bool)
        covered[point[depth > points[point, 2] + clearance]] = True
        return covered

    def buried(self, points: Array, aside: Array) -> Mask:
        """Which points (n, 3) of edges can't be seen, `aside` (n, 2) being unit vectors across the edges.

        A point counts as seen if it is seen itself, or if the view just beside it is free: a hollow's outline
        may lie a facet's sagitta inside the facets.
        """
        buried = self.covered(points, _ON_EDGE)
        for side in (_ASIDE, -_ASIDE):
            which = np.flatnonzero(buried)
            if len(which):
                moved = points[which].copy()
                moved[:, :2] += side * aside[which]
                buried[which] = self.covered(moved, _SLOPE_ASIDE)
        return buried

    def seen_spans(self, polylines: Sequence[Array]) -> list[list[Span]]:
        """For each polyline (k, 3) the stretches that are seen, in order."""
        if not polylines:
            return []
        places = _Places.along(polylines)
        buried = self.buried(*places.look())
        spans: list[list[Span]] = [[(0.0, len(points) - 1.0)] for points in polylines]
        owners = np.unique(places.owner[buried])
        changes, at = self._changes(places, buried)
        first = np.searchsorted(places.owner, owners)
        for owner, starts_buried in zip(owners.tolist(), buried[first].tolist(), strict=True):
            cuts = at[places.owner[changes] == owner].tolist()
            ends = [*([] if starts_buried else [0.0]), *cuts, len(polylines[owner]) - 1.0]
            spans[owner] = list(zip(ends[::2], ends[1::2], strict=False))
        return spans

    def _changes(self, places: _Places, buried: Mask) -> tuple[Index, Array]:
        """Samples after which an edge goes under or comes out, and where it does."""
        same_edge = places.owner[1:] == places.owner[:-1]
        changes = np.flatnonzero(same_edge & (buried[1:] != buried[:-1]))
        low, high = places.place[changes], places.place[changes + 1]
        for _ in range(_HALVINGS if len(changes) else 0):
            middle = (low + high) / 2
            as_before = self.buried(*places.at(changes, middle).look()) == buried[changes]
            low, high = np.where(as_before, middle, low), np.where(as_before, high, middle)
        return changes, (low + high) / 2


@dataclass(frozen=True)
class _Places:
    """Places along polylines: `owner` (n,) says which polyline, `place` (n,) where on it."""

    corners: Array
    first: Index
    count: Index
    owner: Index
    place: Array

    @classmethod
    def along(cls, polylines: Sequence[Array]) -> _Places:
        """Evenly spread places, three or more on each polyline."""
        count = np.array([len(points) for points in polylines])
        first = np.concatenate([[0], np.cumsum(count)[:-1]])
        corners = np.concatenate(polylines)
        steps = np.linalg.norm(np.diff(corners, axis=0), axis=1)
        steps[first[1:] - 1] = 0.0
        length = np.add.reduceat(np.append(steps, 0.0), first)
        samples = np.maximum(3, np.ceil(length / _SPACING)).astype(np.int64)
        owner = np.repeat(np.arange(len(polylines)), samples)
        number = np.arange(len(owner)) - np.repeat(np.cumsum(samples) - samples, samples)
        return cls(corners, first, count, owner, (number + 0.5) / samples[owner] * (count[owner] - 1))

    def at(self, which: Index, place: Array) -> _Places:
        """Other places on the polylines of the places picked."""
        return _Places(self.corners, self.first, self.count, self.owner[which], place)

    def look(self) -> tuple[Array, Array]:
        """The points (n, 3) and unit vectors across the polyline there (n, 2)."""
        whole = np.minimum(self.place.astype(np.int64), self.count[self.owner] - 2)
        start = self.first[self.owner] + whole
        step = self.corners[start + 1] - self.corners[start]
        points = self.corners[start] + step * (self.place - whole)[:, None]
        across = np.column_stack([-step[:, 1], step[:, 0]])
        return points, across / np.maximum(np.linalg.norm(across, axis=1), 1e-12)[:, None]
