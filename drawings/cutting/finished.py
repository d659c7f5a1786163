"""The outline of a part as it is in the end: what leaning saw cuts take from every level of its thickness is gone too.

A shop that reads "600 long" lays a rule on the finished part, not on the blank it was sawn from.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import product

from drawings.cutting.sawn_outline import sawn_outline
from model.cuts.cut import Blank, Cut
from model.cuts.legs import Turned
from model.cuts.sawn import SQUARE, SawCut
from model.layout.outline import Edge, Outline, Point
from model.part import Part

#: (least x, least y, greatest x, greatest y), mm.
Bounds = tuple[float, float, float, float]

_ON = 1e-4


@lru_cache(maxsize=1024)
def finished_outline(part: Part) -> tuple[Outline, tuple[Cut, ...]]:
    """Where a plan of the part ends, and those of its upright cuts that could not be worked into that: `sawn_outline`
    with the longest line of each leaning saw cut, and where two that lean toward each other meet."""
    return _sawn_with(part, tuple(_longest_lines(part)))


def finished_bounds(part: Part) -> Bounds:
    """How far the finished part reaches along the grain and across it, in its own frame, mm."""
    return finished_outline(part)[0].bounds


def finished_blank(part: Part) -> Blank:
    """The part as joinery at its ends and edges is measured on it: with its finished outline."""
    return replace(part.blank, outline=finished_outline(part)[0])


def finished_size(part: Part) -> tuple[float, float, float]:
    """Length, width and thickness of the finished part, mm; a part turned from end to end is as wide and thick as it is
    round."""
    (x0, y0, x1, y1), round_ = finished_bounds(part), turned_all_along(part)
    width, thickness = (round_.greatest,) * 2 if round_ else (y1 - y0, part.thickness)
    return x1 - x0, width, thickness


def turned_all_along(part: Part) -> Turned | None:
    """The turning that leaves nothing of a part's square, from end to end; None where a pommel is left."""
    x0, _, x1, _ = part.outline.bounds
    turnings = (c for c in part.cuts if isinstance(c, Turned))
    return next((c for c in turnings if c.start < x0 + _ON and c.stop > x1 - _ON), None)


def outline_at(part: Part, height: float) -> Outline:
    """The outline at a height over the back side, mm, of all that is sawn right through."""
    leaning = (c for c in part.cuts if isinstance(c, SawCut) and not c.upright)
    return _sawn_with(part, tuple(upright_at(c, height) for c in leaning))[0]


def sawn_lines(cut: SawCut, part: Part, height: float) -> list[Edge]:
    """What shows of a cut at a height over the back side, mm: the pieces of the outline there that it leaves."""
    line = upright_at(cut, height)
    (x, y, _), offset = line.out, line.kept.offset
    edges = (e for e in outline_at(part, height).edges if e.straight)
    return [e for e in edges if all(abs(x * p[0] + y * p[1] - offset) < _ON for p in (e.start, e.end))]


def upright_at(cut: SawCut, height: float) -> SawCut:
    """The cut stood upright through its line at a height over the back side, mm."""
    return _upright((cut.out[0], cut.out[1]), cut.kept.offset - cut.out[2] * height)


def _sawn_with(part: Part, more: tuple[SawCut, ...]) -> tuple[Outline, tuple[Cut, ...]]:
    outline, left_over = sawn_outline(replace(part, cuts=(*part.cuts, *more)))
    return outline, tuple(c for c in left_over if c not in more)


def _longest_lines(part: Part) -> Iterator[SawCut]:
    leaning = [c for c in part.cuts if isinstance(c, SawCut) and not c.upright]
    over, under = [c for c in leaning if c.out[2] > 0.0], [c for c in leaning if c.out[2] < 0.0]
    yield from (upright_at(c, 0.0) for c in over)
    yield from (upright_at(c, part.thickness) for c in under)
    for upper, lower in product(over, under):
        yield from _ridge(upper, lower)


def _ridge(upper: SawCut, lower: SawCut) -> Iterator[SawCut]:
    """Beyond the line where two cuts meet nothing is left: what one takes begins where the other's ends."""
    (a, b), offset = _heights(upper)
    (c, d), other = _heights(lower)
    if math.hypot(a - c, b - d) > SQUARE:
        yield _upright((a - c, b - d), offset - other)


def _heights(cut: SawCut) -> tuple[Point, float]:
    """The height of a leaning cut over the back side, as offset less a slope times where it is in the plan."""
    x, y, z = cut.out
    return (x / z, y / z), cut.kept.offset / z


def _upright(way: Point, offset: float) -> SawCut:
    """An upright cut that takes all p with way . p > offset."""
    size = math.hypot(*way)
    x, y = way[0] / size, way[1] / size
    return SawCut((x * offset / size, y * offset / size, 0.0), (x, y, 0.0))
