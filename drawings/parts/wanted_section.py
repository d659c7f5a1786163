"""A section that a part's sheet is to show: where the part is cut through, and which sizes stand there."""

from __future__ import annotations

from dataclasses import dataclass, field

from drawings.paper.sheet import Point
from drawings.parts.cross_section import Cutting
from drawings.sheets.tiers import Span
from model.placement import Vector

_SLACK = 1e-6


@dataclass(frozen=True)
class Corner:
    """A wanted angle of a section: at a point, between the directions `start` and `end`, degrees.

    sloped: told as a slope where it is slight, as a dovetail's is laid out. outside: shown at its opposite, which lies
    off the wood.
    """

    at: Point
    start: float
    end: float
    sloped: bool = field(default=False, kw_only=True)
    outside: bool = field(default=False, kw_only=True)


@dataclass(frozen=True)
class Wanted:
    """A section: where, from which h to which the work reaches, and its sizes; `place` tells ends apart.

    slanting: sizes along a line that is neither level nor upright, by their two points. axes: middle lines of what is
    bored or chopped at a slant, each with its length. heights: from which v to which the work reaches, where the plane
    leans over and the part is broken off there too.
    """

    what: str
    cutting: Cutting
    low: float
    high: float
    spans: tuple[Span, ...]
    corners: tuple[Corner, ...] = ()
    slanting: tuple[tuple[Point, Point], ...] = ()
    place: str = ""
    axes: tuple[tuple[Point, Point], ...] = ()
    heights: tuple[float, float] | None = None


def rightward(direction: Vector) -> Vector:
    """A level direction or its opposite: whichever runs with the part's own axes."""
    x, y = direction[0], direction[1]
    return (x, y, 0.0) if x + y > 0.0 else (-x + 0.0, -y + 0.0, 0.0)


def ends_in_words(out: Vector) -> str:
    """The end or edge of a part that a level direction leads to."""
    if abs(out[0]) > abs(out[1]) - _SLACK:
        return "right end" if out[0] > 0.0 else "left end"
    return "far edge" if out[1] > 0.0 else "near edge"
