"""The lines of a hatch, cut to its outlines, so that every player draws the same ones."""

from __future__ import annotations

import math
from itertools import pairwise

from drawings.paper.arcs import flattened
from drawings.paper.sheet import Hatch, Line, Point


def hatch_lines(hatch: Hatch) -> tuple[Line, ...]:
    """The hatch as lines in paper mm, inside by the even-odd rule; the family of lines passes through (0, 0).

    Raises ValueError for a spacing that is not positive.
    """
    if hatch.spacing <= 0:
        raise ValueError(f"hatch spacing is {hatch.spacing} mm; it must be over 0")
    turn = math.radians(hatch.angle)
    cos, sin = math.cos(turn), math.sin(turn)
    edges = [
        edge
        for outline in hatch.outlines
        for edge in _edges([(x * cos + y * sin, y * cos - x * sin) for x, y in flattened(outline)])
    ]
    return tuple(
        Line((u0 * cos - v * sin, u0 * sin + v * cos), (u1 * cos - v * sin, u1 * sin + v * cos), hatch.pen)
        for v, crossings in _levels(edges, hatch.spacing)
        for u0, u1 in zip(crossings[::2], crossings[1::2], strict=True)
        if u1 - u0 > 1e-6
    )


def _edges(loop: list[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise([*loop, loop[0]])) if loop else []


def _levels(edges: list[tuple[Point, Point]], spacing: float) -> list[tuple[float, list[float]]]:
    """Each hatch level with its sorted crossings; half-open edges, so the crossings always come in pairs."""
    levels: dict[int, list[float]] = {}
    for (u0, v0), (u1, v1) in edges:
        low, high = sorted((v0, v1))
        for k in range(math.ceil(low / spacing), math.ceil(high / spacing)):
            t = (k * spacing - v0) / (v1 - v0)
            levels.setdefault(k, []).append(u0 + t * (u1 - u0))
    return [(k * spacing, sorted(levels[k])) for k in sorted(levels)]
