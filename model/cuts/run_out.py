"""Planes of a tool run out past the wood wherever it is open, so that no skin is left."""

from __future__ import annotations

import math
from collections.abc import Iterable

from model.cuts.cut import Blank
from model.cuts.removal import RUN_OUT, Plane, box
from model.placement import Vector
from model.tolerance import SAME_POINT


def past_blank(blank: Blank) -> tuple[Plane, ...]:
    """The box round a blank, grown by the run-out on every side."""
    x0, y0, x1, y1 = blank.outline.bounds
    low, high = (x0 - RUN_OUT, y0 - RUN_OUT, -RUN_OUT), (x1 + RUN_OUT, y1 + RUN_OUT, blank.thickness + RUN_OUT)
    return box(low, high)


def open_out(walls: Iterable[Plane], blank: Blank, by: float = RUN_OUT) -> tuple[Plane, ...]:
    """The same planes, those that lie on the outside of the wood or past it moved out, so that no skin is left."""
    return tuple(p.moved_by(by) if p.offset >= _reach(p.normal, blank) - SAME_POINT else p for p in walls)


def _reach(normal: Vector, blank: Blank) -> float:
    """How far the blank reaches along a direction."""
    level = math.hypot(normal[0], normal[1])
    up = max(0.0, normal[2]) * blank.thickness
    if level < 1e-12:
        return up
    return level * blank.outline.extent((normal[0] / level, normal[1] / level))[1] + up
