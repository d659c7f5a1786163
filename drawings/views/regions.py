"""The stretches of paper on which certain things are seen, bounded by the lines of a view. No CAD kernel."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drawings.views.curves import Chain, CircularArc, Curve, Point, Segment
from drawings.views.foremost import Foremost

Array = NDArray[np.float64]
Index = NDArray[np.int64]

#: Ends of lines that miss each other by less than this still close a region, mm.
_GAP = 1.5
#: Arcs become chords with this sagitta, mm, and no smaller region is worth filling, mm2.
_SAGITTA, _LEAST = 0.2, 4.0
#: A field is looked at on so many levels.
_LEVELS = 7
#: A field belongs to whoever is foremost at more than this share of its places.
_MOSTLY = 0.8

#: An outline and the holes in it.
Region = tuple[tuple[Point, ...], ...]


def regions(curves: Iterable[Curve], foremost: Foremost, things: Collection[int]) -> list[Region]:
    """Where one of the `things`, by number, is foremost: every field that the curves bound is one thing's or another's.

    A field whose lines don't close is left out; of one that runs into its neighbour by a gap, what lies in the things'
    silhouette is taken.
    """
    from shapely import area, get_parts, linestrings, polygonize, union_all

    chords = [piece for curve in curves for piece in pairwise(_lengthened(curve))]
    if not chords:
        return []
    fields = get_parts(polygonize(get_parts(union_all(linestrings(np.array(chords))))))
    fields = fields[area(fields) > _LEAST]
    if not len(fields):
        return []
    places, field = _inside(fields)
    found = np.isin(foremost.at(places), list(things))
    share = np.bincount(field, found, len(fields)) / np.bincount(field, minlength=len(fields))
    lit, mixed = union_all(fields[share > _MOSTLY]), union_all(fields[(share > 1.0 - _MOSTLY) & (share <= _MOSTLY)])
    if not mixed.is_empty:
        lit = lit.union(mixed.intersection(foremost.silhouette(things)))
    polygons = [p for p in getattr(lit, "geoms", [lit]) if p.area > _LEAST]
    return [tuple(_ring(ring) for ring in (p.exterior, *p.interiors)) for p in polygons]


def _inside(fields: NDArray[Any]) -> tuple[Array, Index]:
    """Places (n, 2) inside fields, and of which field each is. They are spread over a field's height: one alone may lie
    where two fields run together by a gap."""
    from shapely import bounds, get_coordinates, intersection, linestrings, point_on_surface

    left, bottom, right, top = bounds(fields).T
    y = bottom[:, None] + (top - bottom)[:, None] * (np.arange(_LEVELS) + 0.5) / _LEVELS
    ends = [np.stack(np.broadcast_arrays(x[:, None], y), axis=-1) for x in (left - 1.0, right + 1.0)]
    middles, field = _widest(intersection(fields[:, None], linestrings(np.stack(ends, axis=-2))))
    without = np.setdiff1d(np.arange(len(fields)), field)
    any_place = get_coordinates(point_on_surface(fields[without]))
    return np.concatenate([middles, any_place]), np.concatenate([field, without])


def _widest(cuts: NDArray[Any]) -> tuple[Array, Index]:
    """The middles of the longest stretches in each row of `cuts`, as many as there are levels, and of which row each
    is."""
    from shapely import get_coordinates, get_parts, length, line_interpolate_point

    pieces, cut = get_parts(cuts.ravel(), return_index=True)
    row, wide = cut // cuts.shape[1], length(pieces)
    order = np.lexsort((-wide, row))
    order = order[wide[order] > 0.0]
    rank = np.arange(len(order)) - np.searchsorted(row[order], row[order])
    kept = order[rank < _LEVELS]
    return get_coordinates(line_interpolate_point(pieces[kept], 0.5, normalized=True)), row[kept]


def _ring(ring: Any) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in ring.coords[:-1])


def _lengthened(curve: Curve) -> Sequence[Point]:
    """The curve as points, a little longer at both ends, so that lines that all but meet do."""
    points = list(_points(curve))
    if isinstance(curve, CircularArc) and curve.full:
        return points
    return [_beyond(points[1], points[0]), *points[1:-1], _beyond(points[-2], points[-1])]


def _points(curve: Curve) -> Sequence[Point]:
    if isinstance(curve, Segment):
        return curve.p, curve.q
    if isinstance(curve, Chain):
        return curve.points
    turn = math.degrees(2.0 * math.acos(max(1.0 - _SAGITTA / curve.radius, 0.5)))
    count = max(math.ceil((curve.end_deg - curve.start_deg) / turn), 2)
    step = (curve.end_deg - curve.start_deg) / count
    return [curve.at(curve.start_deg + n * step) for n in range(count + 1)]


def _beyond(p: Point, q: Point) -> Point:
    """A little past q, coming from p."""
    length = math.dist(p, q)
    share = _GAP / length if length > 0.0 else 0.0
    return q[0] + (q[0] - p[0]) * share, q[1] + (q[1] - p[1]) * share
