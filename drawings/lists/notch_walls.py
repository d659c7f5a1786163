"""How long and wide a notch is, from wall to wall or to where it runs out over the part's own edge.

Reliefs in its corners are no part of that, and a side that lies off the wood is no wall: where a notch runs out over a
slanting edge it has no size of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from drawings.cutting.finished import finished_bounds
from model.cuts.through import Notch
from model.layout.outline import Point
from model.part import Part

_SAME = 1e-6
#: Where along a side wood is looked for, as shares of its length: another cut may have taken its middle.
_SHARES = (0.5, 0.25, 0.75, 0.1, 0.9, 0.02, 0.98)

Walls = tuple[Point, Point] | None


def notch_walls(cut: Notch, part: Part) -> tuple[Walls, Walls]:
    """Along the grain and across it: a point of either wall, on one line; None where it has no such size."""
    return _walls(cut, part, 0), _walls(cut, part, 1)


def notch_bounds(cut: Notch, part: Part) -> tuple[float, float, float, float]:
    """Least and greatest x and y of a notch from wall to wall, mm; where it has no such size, of what it takes out of
    the part's own bounds."""
    (x0, y0, x1, y1), (bx0, by0, bx1, by1) = cut.outline.bounds, finished_bounds(part)
    along, across = notch_walls(cut, part)
    left, right = (along[0][0], along[1][0]) if along else (max(x0, bx0), min(x1, bx1))
    near, far = (across[0][1], across[1][1]) if across else (max(y0, by0), min(y1, by1))
    return left, near, right, far


def _walls(cut: Notch, part: Part, axis: int) -> Walls:
    bounds = finished_bounds(part)
    found = sorted(sides(cut, part, axis), key=lambda p: p[axis])
    if not found:
        return None
    low, high = found[0], found[-1]
    if cut.outline.bounds[axis] < bounds[axis] + _SAME:
        low = _at(low, axis, bounds[axis])
    if cut.outline.bounds[axis + 2] > bounds[axis + 2] - _SAME:
        high = _at(high, axis, bounds[axis + 2])
    return (low, high) if high[axis] - low[axis] > _SAME else None


def sides(cut: Notch, part: Part, axis: int) -> Iterator[Point]:
    """A point of each straight side that runs square to an axis on the wood: its middle, or where there is wood yet."""
    bounds = finished_bounds(part)
    for edge in cut.outline.edges:
        if edge.straight and abs(edge.start[axis] - edge.end[axis]) < _SAME:
            low, high = (min(max(p[1 - axis], bounds[1 - axis]), bounds[3 - axis]) for p in (edge.start, edge.end))
            tried = (low + share * (high - low) for share in _SHARES)
            points = ((edge.start[0], at) if axis == 0 else (at, edge.start[1]) for at in tried)
            yield from islice((p for p in points if part.outline.contains(p)), 1)


def _at(p: Point, axis: int, value: float) -> Point:
    return (value, p[1]) if axis == 0 else (p[0], value)
