"""A line of the plan that the outline and the trenches don't show."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.paper.sheet import Point


@dataclass(frozen=True)
class EndLine:
    """A line (or a ring, if closed) of the plan; whether the face side shows it; the points located along and across
    the part."""

    points: tuple[Point, ...]
    seen: bool
    along: tuple[Point, ...] = ()
    across: tuple[Point, ...] = ()
    closed: bool = False
