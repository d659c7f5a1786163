"""How wide and how tall is a flat shape as it turns? Its hull, its least width under a height, the rectangles round it.

A shadow of what is carried, seen along the way it goes, is such a shape. No CAD kernel here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

#: Rounding that no passage is judged by, mm.
SLACK = 1e-6


def hull(points: Numbers) -> Numbers:
    """The convex polygon (m, 2) round points (n, 2), anticlockwise (Andrew's monotone chain)."""
    ordered = np.unique(np.round(_outermost(_outermost(points, 8), 32), 6), axis=0).tolist()
    if len(ordered) < 3:
        return np.array(ordered)
    return np.array([*_chain(ordered)[:-1], *_chain(ordered[::-1])[:-1]])


def least_width(polygon: Numbers, height: float) -> list[tuple[float, float]]:
    """The least width of a polygon turned so that it is no taller than `height`, mm, and the turn in radians: a list of
    one, or empty where it is taller every way.

    Between turns that lay an edge along an axis each extent is r cos(turn - t), which has no lowest point inside; so
    the least lies at such a turn, or where the height is just met. Exact.
    """
    turns = _turns(polygon)
    turns = np.concatenate([turns, _just_as_tall(polygon, turns, height)])
    wide, tall = _extent(polygon, turns), _extent(polygon, turns + math.pi / 2.0)
    passing = tall <= height + SLACK
    if not passing.any():
        return []
    least = float(wide[passing].min())
    upright = min(turns[passing & (wide <= least + SLACK)], key=leaning)
    return [(least, float(upright))]


def rectangles(polygon: Numbers) -> Iterator[tuple[float, float]]:
    """Length and thickness, mm, of every rectangle round a polygon with a side along one of its edges."""
    turns = _turns(polygon)
    for a, b in zip(_extent(polygon, turns), _extent(polygon, turns + math.pi / 2.0), strict=True):
        yield max(float(a), float(b)), min(float(a), float(b))


def tallest(polygon: Numbers, start: float, end: float) -> float:
    """The most that a polygon is tall, mm, anywhere as it turns from one angle to another, radians, anticlockwise: its
    height has its peaks where it runs from one corner to another."""
    i, j = np.triu_indices(len(polygon), 1)
    span = polygon[j] - polygon[i]
    upright = (math.pi / 2.0 - np.arctan2(span[:, 1], span[:, 0])) % math.pi
    over = np.hypot(*span.T)
    peaks = [start + (u - start) % math.pi for u in upright]
    ends = [float(np.ptp(polygon @ np.array([math.sin(t), math.cos(t)]))) for t in (start, end)]
    return max([*ends, *(float(r) for t, r in zip(peaks, over, strict=True) if t <= end)])


def leaning(turn: float) -> float:
    """How far from upright a turn leaves it, degrees, 0 to 90."""
    half = math.degrees(turn) % 180.0
    return float(min(half, 180.0 - half))


def _turns(polygon: Numbers) -> Numbers:
    """The turns that lay an edge of the polygon along either axis, radians, all of a half turn, in order."""
    edges = np.roll(polygon, -1, axis=0) - polygon
    along = np.arctan2(edges[:, 1], edges[:, 0]) % (math.pi / 2.0)
    turns: Numbers = np.unique(np.round(np.concatenate([[0.0], along, along + math.pi / 2.0]), 12))
    return turns


def _extent(polygon: Numbers, turns: Numbers) -> Numbers:
    """How far the polygon reaches along the direction at each turn, mm."""
    extent: Numbers = np.ptp(polygon @ np.array([np.cos(turns), np.sin(turns)]), axis=0)
    return extent


def _just_as_tall(polygon: Numbers, turns: Numbers, height: float) -> Numbers:
    """The turns at which the polygon is just `height` tall, mm."""
    ends = np.append(turns, math.pi)
    middle = (ends[:-1] + ends[1:]) / 2.0 + math.pi / 2.0
    reach = polygon @ np.array([np.cos(middle), np.sin(middle)])
    span = polygon[reach.argmax(axis=0)] - polygon[reach.argmin(axis=0)]
    r, t = np.hypot(*span.T), np.arctan2(span[:, 1], span[:, 0])
    swing = np.arccos(np.clip(height / np.maximum(r, 1e-12), -1.0, 1.0))

    found = np.concatenate([t + swing, t - swing]) - math.pi / 2.0
    met = np.abs(_extent(polygon, found + math.pi / 2.0) - height) < SLACK
    just: Numbers = found[met] % math.pi
    return just


def _outermost(points: Numbers, ways: int) -> Numbers:
    """The points but for those that lie inside the polygon of those farthest so many ways (Akl, Toussaint 1978)."""
    t = np.arange(ways) * 2.0 * math.pi / ways
    far = points[(points @ np.array([np.cos(t), np.sin(t)])).argmax(axis=0)]
    edge = np.roll(far, -1, axis=0) - far
    off = points[:, None, :] - far[None]
    inside = (edge[:, 0] * off[..., 1] - edge[:, 1] * off[..., 0] > -SLACK) | (np.hypot(*edge.T) < SLACK)
    kept: Numbers = np.concatenate([far, points[~inside.all(axis=1)]])
    return kept


def _chain(ordered: list[list[float]]) -> list[list[float]]:
    chain: list[list[float]] = []
    for p in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0.0:
            chain.pop()
        chain.append(p)
    return chain


def _turn(a: list[float], b: list[float], c: list[float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
