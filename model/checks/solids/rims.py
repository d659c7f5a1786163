"""Where do the surfaces of a joint end, and how far apart do they stand there? The lines along which a joint shows.

What two surfaces share ends where either of them does; along that rim the clearance runs straight from corner to
corner. Each stretch of rim looks outward, away from what is shared.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

from model.layout.outline import Point

if TYPE_CHECKING:
    from model.checks.solids.facing import Met
    from model.placement import Vector

#: The longest piece of rim that is looked at as one, mm, or in how many a long edge is looked at.
PIECE, MOST = 5.0, 40

#: Rims are joined and straightened on a grid this fine, mm.
GRID = 1e-6

#: How far inside the rim its surfaces are asked for, mm.
INSIDE = 1e-3

#: Shorter pieces of rim are the noise of corners, mm.
SHORTEST = 1e-3


@dataclass(frozen=True)
class RimPiece:
    """A straight piece of rim, in the frame of the joint's first part. middle: midway between the surfaces; out: unit
    vector away from what they share; across: unit vector from the first part's surface to the second's; wide: the
    clearance at its wider end, mm, and widest: where; length: mm."""

    middle: Vector
    out: Vector
    across: Vector
    wide: float
    widest: Vector
    length: float


def open_rim(met: Met, wider: float) -> list[RimPiece]:
    """The pieces of rim where the surfaces stand more than `wider` mm apart."""
    import shapely

    whole = shapely.union_all(met.shared.shapes, grid_size=GRID).simplify(10.0 * GRID)
    tree = shapely.STRtree(met.shared.shapes)
    return [piece for p, q in _edges(whole) for piece in _open_pieces(met, tree, p, q, wider)]


def _edges(whole: Any) -> Iterator[tuple[Point, Point]]:
    """Each edge of the boundary, what is shared on its left."""
    import shapely

    for polygon in shapely.get_parts(whole):
        if polygon.geom_type != "Polygon":
            continue
        for ring, inner in [(polygon.exterior, False), *((r, True) for r in polygon.interiors)]:
            xy = [(float(x), float(y)) for x, y in ring.coords]
            yield from pairwise(xy if ring.is_ccw != inner else xy[::-1])


def _open_pieces(met: Met, tree: Any, p: Point, q: Point, wider: float) -> Iterator[RimPiece]:
    length = math.dist(p, q)
    if length < SHORTEST:
        return
    along = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)
    count = min(math.ceil(length / PIECE), MOST)
    for k in range(count):
        start, end = k / count * length, (k + 1) / count * length
        n = _under(met, tree, p, along, (start + end) / 2.0)
        if n is None:
            continue
        here, there = (_clearance(met, n, _on(p, along, s)) for s in (start, end))
        kept = _wider(start, end, here, there, wider)
        if kept is not None:
            yield _piece(met, n, p, along, kept)


def _wider(start: float, end: float, here: float, there: float, wider: float) -> tuple[float, float] | None:
    """What of a stretch has a clearance, running straight from `here` to `there`, above `wider`."""
    if max(here, there) <= wider:
        return None
    if min(here, there) >= wider:
        return start, end
    crossing = start + (wider - here) / (there - here) * (end - start)
    kept = (crossing, end) if there > here else (start, crossing)
    return kept if kept[1] - kept[0] > SHORTEST else None


def _piece(met: Met, n: int, p: Point, along: Point, kept: tuple[float, float]) -> RimPiece:
    ends = [_on(p, along, s) for s in kept]
    widest = max(ends, key=lambda e: _clearance(met, n, e))
    middle = _on(p, along, sum(kept) / 2.0)
    u, v, across = met.rows
    out = along[1] * u - along[0] * v
    return RimPiece(
        met.midway(n, *middle),
        _vector(out),
        _vector(across),
        _clearance(met, n, widest),
        met.midway(n, *widest),
        kept[1] - kept[0],
    )


def _under(met: Met, tree: Any, p: Point, along: Point, s: float) -> int | None:
    """The polygon that lies just inside the rim, `s` along an edge."""
    import shapely

    x, y = _on(p, along, s)
    inside = shapely.Point(x - INSIDE * along[1], y + INSIDE * along[0])
    found = tree.query(inside, predicate="dwithin", distance=INSIDE / 2.0)
    return int(found[0]) if len(found) else None


def _clearance(met: Met, n: int, at: Point) -> float:
    c, a, b = met.shared.over[n]
    return float(c + a * at[0] + b * at[1])


def _on(p: Point, along: Point, s: float) -> Point:
    return (p[0] + s * along[0], p[1] + s * along[1])


def _vector(v: np.ndarray[Any, Any]) -> Vector:
    return (float(v[0]), float(v[1]), float(v[2]))
