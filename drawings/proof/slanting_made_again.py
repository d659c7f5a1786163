"""Work that lies at a slant in the plan made again: by the places where its walls begin and end."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from drawings.parts.trenches import trenches
from drawings.proof.maker import Maker
from drawings.proof.printed_numbers import IncompleteError
from model.cuts.cut import Cut
from model.cuts.faces import Channel
from model.cuts.laps import Shoulder
from model.layout.outline import Point

_ON = 1e-4
#: A wall is known by the places of two points of it at least.
_ENDS = 2


def slanting_channel(cut: Channel, depth: float, maker: Maker) -> Channel:
    """Its middle line from those of its walls, which run alike; an end that runs out of the wood is left as it is."""
    way, corners = cut.direction, cut.footprint().corners
    across = -way[1], way[0]
    middle = _dot(across, cut.start)
    walls = [_wall(cut, across, middle + s * cut.width / 2.0, maker) for s in (-1.0, 1.0)]
    (ax, ay), (bx, by) = (_run(wall, way) for wall in walls)
    size = math.hypot(ax + bx, ay + by)
    way = (ax + bx) / size, (ay + by) / size
    across = -way[1], way[0]
    low, high = (sum(_dot(across, p) for p in wall) / len(wall) for wall in walls)
    ends = []
    for p, pair in zip((cut.start, cut.end), (corners[:2], corners[2:]), strict=True):
        there = all(q in trench.points for q in pair for trench in trenches(cut, maker.part))
        along = sum(_dot(way, maker.point(q)) for q in pair) / 2.0 if there else _dot(way, p)
        ends.append(_sum(along, way, (low + high) / 2.0, across))
    return replace(cut, start=ends[0], end=ends[1], width=high - low, depth=depth)


def slanting_shoulder(wall: Shoulder, cut: Cut, maker: Maker) -> Shoulder:
    """Through the places where it meets the edges of the part."""
    ends = _wall(cut, wall.beyond, _dot(wall.beyond, wall.at), maker)
    dx, dy = _run(ends, (-wall.beyond[1], wall.beyond[0]))
    size = math.hypot(dx, dy)
    return Shoulder(ends[0], (dy / size, -dx / size))


def _wall(cut: Cut, across: Point, offset: float, maker: Maker) -> list[Point]:
    """The printed places of the points of a cut that lie on one of its walls. Raises IncompleteError for less than
    two."""
    points = (p for trench in trenches(cut, maker.part) for p in trench.points)
    found = [maker.point(p) for p in points if abs(_dot(across, p) - offset) < _ON]
    if len(set(found)) < _ENDS:
        raise IncompleteError(f"{maker.numbers.part}: a wall of a {cut.name} is located in too few places")
    return found


def _run(points: Sequence[Point], way: Point) -> Point:
    """From the first to the last of some points along a direction."""
    first, last = min(points, key=lambda p: _dot(way, p)), max(points, key=lambda p: _dot(way, p))
    return last[0] - first[0], last[1] - first[1]


def _sum(along: float, way: Point, aside: float, across: Point) -> Point:
    return along * way[0] + aside * across[0], along * way[1] + aside * across[1]


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]
