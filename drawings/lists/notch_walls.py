"""How long and wide a notch is, from wall to wall or to where it runs out over the part's own edge.

Reliefs in its corners are no part of that, and a side that lies off the wood is no wall: where a notch runs out over a
slanting edge it has no size of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from model.cuts.through import Notch
from model.layout.outline import Point
from model.part import Part

_SAME = 1e-6

Walls = tuple[Point, Point] | None


def notch_walls(cut: Notch, part: Part) -> tuple[Walls, Walls]:
    """Along the grain and across it: a point of either wall, on one line; None where it has no such size."""
    return _walls(cut, part, 0), _walls(cut, part, 1)


def _walls(cut: Notch, part: Part, axis: int) -> Walls:
    bounds = part.outline.bounds
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
    """The middles of its straight sides that run square to an axis on the wood, as far as they do."""
    bounds = part.outline.bounds
    for edge in cut.outline.edges:
        if edge.straight and abs(edge.start[axis] - edge.end[axis]) < _SAME:
            ends = [min(max(p[1 - axis], bounds[1 - axis]), bounds[3 - axis]) for p in (edge.start, edge.end)]
            middle = (edge.start[0], sum(ends) / 2.0) if axis == 0 else (sum(ends) / 2.0, edge.start[1])
            if part.outline.contains(middle):
                yield middle


def _at(p: Point, axis: int, value: float) -> Point:
    return (value, p[1]) if axis == 0 else (p[0], value)
