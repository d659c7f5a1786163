"""The sizes of a part as its solid has them: how far everything lies from its ends, how long its edges are and how far
apart, how wide and deep its holes, how it leans. Words about a part's cuts say no other."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import numpy as np

from drawings.proof.measurable import Measurable

#: Corners lie across from one another where they are aside by no more than this share of how far they are apart.
_ASIDE = 0.1
_NOTHING = 1e-6

#: Numbers in an array of any shape.
Sizes = Any


def nearest(found: Sizes, wanted: float) -> float:
    """The size nearest to one that is wanted; infinite where there is none."""
    return float(found[abs(found - wanted).argmin()]) if len(found) else math.inf


@lru_cache(maxsize=512)
def sizes(solid: Measurable) -> Sizes:
    """All sizes of a solid, mm."""
    return np.concatenate([_from_ends(solid), _reach(solid), _across(solid), _long(solid), _round(solid)])


@lru_cache(maxsize=512)
def alongs(solid: Measurable) -> Sizes:
    """How far middles and corners lie from the corners in the plan, straight and along the solid's arcs, mm."""
    corners = np.array(solid.corners)[:, :2]
    spots = np.array([*solid.corners, *solid.middles, *(c.point for c in solid.cylinders)])[:, :2]
    spots = np.concatenate([spots, *(_on_arc(spots, r.centre, r.radius) for r in _upright_rims(solid))])
    apart = np.unique(np.hypot(*(spots[:, None] - corners[None]).reshape(-1, 2).T).round(6))
    arcs = [2.0 * r * np.arcsin(apart[apart < 2.0 * r] / 2.0 / r) for r in {c.radius for c in solid.cylinders}]
    return np.concatenate([apart, *arcs])


@lru_cache(maxsize=512)
def angles(solid: Measurable) -> Sizes:
    """How faces, edges and holes lean from the axes of the part, in space and as each of its three views shows them,
    degrees."""
    edges = [np.subtract(q, p) for p, q in solid.straight]
    ways = np.array([*(f.direction for f in (*solid.planes, *solid.cylinders)), *edges])
    ways = abs(ways / np.linalg.norm(ways, axis=1)[:, None])
    in_space = np.degrees(np.arccos(np.clip(ways, 0.0, 1.0))).ravel()
    seen = [np.degrees(np.arctan2(ways[:, a], ways[:, b])) for a, b in ((0, 1), (0, 2), (1, 2))]
    found = np.concatenate([in_space, *seen])
    return np.concatenate([found, 90.0 - found])


def _upright_rims(solid: Measurable) -> list[Any]:
    return [r for r in solid.rims if abs(abs(r.axis[2]) - 1.0) < _NOTHING]


def _on_arc(spots: Sizes, centre: tuple[float, float, float], radius: float) -> Sizes:
    """Where the level and upright lines through spots in the plan meet a circle."""
    off = spots - np.array(centre[:2])
    met = []
    for axis in (0, 1):
        near = off[abs(off[:, axis]) < radius]
        other = np.sqrt(radius**2 - near[:, axis] ** 2)
        for sign in (1.0, -1.0):
            met.append(np.stack([near[:, axis], sign * other][:: 1 if axis == 0 else -1], axis=1))
    return np.concatenate(met) + np.array(centre[:2])


def _from_ends(solid: Measurable) -> Sizes:
    """How far corners and middles lie from either end of the part, along each of its axes."""
    middles = [end for c in solid.cylinders for end in (c.point, _end(c.point, c.direction, c.length))]
    crowns = [p for r in solid.rims for p in r.crowns]
    corners = np.array([*solid.corners, *crowns])
    spots = np.array([*solid.corners, *crowns, *solid.middles, *middles, *(r.centre for r in solid.rims)])
    low, high = corners.min(axis=0), corners.max(axis=0)
    return np.concatenate([(spots - low).ravel(), (high - spots).ravel()])


def _reach(solid: Measurable) -> Sizes:
    """How far all that is cut reaches: whatever lies at no corner of the box round the part."""
    spots = np.array([*solid.corners, *(p for r in solid.rims for p in r.crowns)])
    low, high = spots.min(axis=0), spots.max(axis=0)
    at_end = (abs(spots - low) < _NOTHING) | (abs(spots - high) < _NOTHING)
    cut = spots[~at_end.all(axis=1)]
    return cut.max(axis=0) - cut.min(axis=0) if len(cut) else np.array([])


def _across(solid: Measurable) -> Sizes:
    """From corner to corner along an axis of the part, where they lie across from one another."""
    corners = np.array([*solid.corners, *(p for r in solid.rims for p in r.crowns)])
    apart = abs(corners[:, None] - corners[None]).reshape(-1, 3)
    aside = apart.sum(axis=1)[:, None] - apart
    return np.unique(apart[(apart > _NOTHING) & (aside <= _ASIDE * apart)].round(6))


def _long(solid: Measurable) -> Sizes:
    """Lengths of the straight edges."""
    return np.array([math.dist(p, q) for p, q in solid.straight])


def _round(solid: Measurable) -> Sizes:
    """Radii, diameters and depths of all that is round."""
    radii = [*(c.radius for c in solid.cylinders), *(r.radius for r in solid.rims)]
    return np.array([*radii, *(2.0 * r for r in radii), *(c.length for c in solid.cylinders)])


def _end(point: tuple[float, float, float], direction: tuple[float, float, float], length: float) -> tuple[float, ...]:
    return tuple(p + length * d for p, d in zip(point, direction, strict=True))
