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
    from shapely import LineString
    from shapely.ops import polygonize, unary_union

    lines = [LineString(piece) for curve in curves for piece in pairwise(_lengthened(curve))]
    if not lines:
        return []
    fields = [f for f in polygonize(unary_union(lines)) if f.area > _LEAST]
    if not fields:
        return []
    samples = [_inside(f) for f in fields]
    found = iter((np.isin(foremost.at(np.concatenate(samples)), list(things))).tolist())
    shares = [sum(next(found) for _ in some) / len(some) for some in samples]
    lit = unary_union([f for f, share in zip(fields, shares, strict=True) if share > _MOSTLY])
    mixed = unary_union([f for f, share in zip(fields, shares, strict=True) if 1.0 - _MOSTLY < share <= _MOSTLY])
    if not mixed.is_empty:
        lit = lit.union(mixed.intersection(foremost.silhouette(things)))
    polygons = [p for p in getattr(lit, "geoms", [lit]) if p.area > _LEAST]
    return [tuple(_ring(ring) for ring in (p.exterior, *p.interiors)) for p in polygons]


def _inside(field: Any) -> NDArray[np.float64]:
    """Places inside a field, spread over its height: one alone may lie where two fields run together by a gap."""
    from shapely import LineString

    left, bottom, right, top = field.bounds
    levels = [bottom + (top - bottom) * (n + 0.5) / _LEVELS for n in range(_LEVELS)]
    cuts = [field.intersection(LineString([(left - 1.0, y), (right + 1.0, y)])) for y in levels]
    pieces = [piece for cut in cuts for piece in getattr(cut, "geoms", [cut]) if piece.length > 0.0]
    widest = sorted(pieces, key=lambda piece: -piece.length)[:_LEVELS]
    places = [piece.interpolate(0.5, normalized=True).coords[0] for piece in widest]
    return np.array(places or [field.representative_point().coords[0]])


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
