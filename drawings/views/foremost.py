"""Which thing stands foremost at a place of a view, by the facets of all of them. No CAD kernel.

View coordinates are x right, y up, z toward the eye, mm.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from copy import copy
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drawings.views.axes import facing, height, in_view
from drawings.views.curves import Bounds, Point, ViewSpec

Array = NDArray[np.float64]
Index = NDArray[np.int64]

#: No thing stands there.
NOTHING = -1


class Foremost:
    """Things as facets (n, 3, 3) in the piece's own coordinates, anticlockwise as seen from outside."""

    def __init__(self, things: Sequence[Array], spec: ViewSpec) -> None:
        from shapely import STRtree, polygons

        facets = in_view(np.concatenate(things), spec)
        faces = np.flatnonzero(facing(facets))
        facets = facets.take(faces, axis=0)
        self._owner = np.repeat(np.arange(len(things)), [len(t) for t in things])[faces]
        self._many = len(things)
        self._height = height(facets)
        self._outlines = polygons(facets[:, :, :2])
        self._tree = STRtree(self._outlines)

    def first(self, many: int) -> Foremost:
        """The same with so many things only, the first ones."""
        fewer = copy(self)
        fewer._many = many
        return fewer

    @property
    def bounds(self) -> Bounds:
        """Left, bottom, right, top of all that faces the eye, mm."""
        from shapely import total_bounds

        left, bottom, right, top = total_bounds(self._outlines).tolist()
        return left, bottom, right, top

    def at(self, places: Array) -> Index:
        """The number of the foremost thing at each place (n, 2), NOTHING where there is none."""
        place, thing = self.lined_up(places)
        there = thing < self._many
        found = np.full(len(places), NOTHING, dtype=np.int64)
        found[place[there]] = thing[there]
        return found

    def lined_up(self, places: Array) -> tuple[Index, Index]:
        """All that lies behind each place (n, 2), the foremost last: the numbers of the place and of the thing."""
        from shapely import points

        place, facet = self._tree.query(points(places), predicate="intersects")
        plane = self._height.take(facet, axis=0)
        depth = np.einsum("ij,ij->i", plane[:, :2], places.take(place, axis=0)) + plane[:, 2]
        nearest_last = np.lexsort((depth, place))
        return place[nearest_last], self._owner[facet[nearest_last]]

    def silhouette(self, things: Collection[int]) -> Any:
        """All that the things cover in the view, whatever stands before them, as a shapely area."""
        from shapely import union_all

        return union_all(self._outlines[np.isin(self._owner, list(things))], grid_size=1e-3)


@dataclass(frozen=True)
class Seen:
    """What is seen at each place of an even grid: `things` (rows, columns), the lower left place at `corner`."""

    things: Index
    corner: Point
    step: float

    def roomiest(self) -> dict[int, tuple[Point, float]]:
        """For each thing that is seen, the place deepest inside what is seen of it, and how deep that is, mm."""
        depth = _depths(self.things)
        found: dict[int, tuple[Point, float]] = {}
        for thing in np.unique(self.things).tolist():
            if thing != NOTHING:
                inside = np.where(self.things == thing, depth, 0)
                rows, columns = np.nonzero(inside == inside.max())
                n = _most_central(rows, columns)
                at = self.corner[0] + columns[n] * self.step, self.corner[1] + rows[n] * self.step
                found[thing] = (float(at[0]), float(at[1])), float(inside.max()) * self.step
        return found


def seen(foremost: Foremost, bounds: Bounds, places: int) -> Seen:
    """What is seen over the bounds of a view, mm, at about so many places along its longer side."""
    grid, step = even_grid(bounds, places)
    return Seen(foremost.at(grid.reshape(-1, 2)).reshape(grid.shape[:2]), (bounds[0], bounds[1]), step)


def even_grid(bounds: Bounds, places: int) -> tuple[Array, float]:
    """Places (rows, columns, 2) over the bounds, mm, about so many along the longer side, and their spacing."""
    left, bottom, right, top = bounds
    step = max(right - left, top - bottom) / places
    x, y = np.arange(left, right + step, step), np.arange(bottom, top + step, step)
    return np.stack(np.meshgrid(x, y), axis=-1), step


def _depths(things: Index) -> Index:
    """How many steps each place is from one where something else is seen, the sheet's rim being something else."""
    depth = np.zeros(things.shape, dtype=np.int64)
    inside = np.ones(things.shape, dtype=bool)
    around = np.pad(things, 1, constant_values=NOTHING - 1)
    for dy, dx in ((0, 1), (2, 1), (1, 0), (1, 2)):
        inside &= around[dy : dy + things.shape[0], dx : dx + things.shape[1]] == things
    while inside.any():
        depth[inside] += 1
        ring = np.pad(inside, 1)
        inside = ring[:-2, 1:-1] & ring[2:, 1:-1] & ring[1:-1, :-2] & ring[1:-1, 2:] & inside
    return depth


def _most_central(rows: Index, columns: Index) -> int:
    away = (rows - rows.mean()) ** 2 + (columns - columns.mean()) ** 2
    return int(np.argmin(away))
