"""What a setting's figures measure on legs: tapers by their slope and start, turnings by their greatest diameter."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drawings.cards.stock_figures import Figures, Told
from drawings.cards.wood import Wood, X, Y, Z
from drawings.cutting.finished import finished_bounds
from drawings.paper.measured import Measured, Vector
from model.cuts.cut import Cut
from model.cuts.legs import LegSide, Taper, Turned


def _taper(cut: Taper, wood: Wood) -> Iterator[Figures]:
    for side in cut.sides:
        yield Figures(angle=_slope(cut, side, wood), fence=_start(cut, side, wood))


def _slope(cut: Taper, side: LegSide, wood: Wood) -> Measured:
    """Between a tapered side and the grain, where it begins."""
    _, up, level = _begins(cut, side, wood)
    lean = math.degrees(math.atan2(cut.taken(side, wood.part.blank), cut.start))
    inward = 1.0 if side in ("near", "back") else -1.0
    grain = 180.0 if cut.foot == "left" else 0.0
    turn = grain + lean * inward * (1.0 if cut.foot == "right" else -1.0)
    return wood.turned(X, up, level, *sorted((grain, turn)))


def _start(cut: Taper, side: LegSide, wood: Wood) -> Measured:
    """From the foot to where it begins."""
    begins, up, level = _begins(cut, side, wood)
    x0, _, x1, _ = wood.part.blank.outline.bounds
    low, high = sorted((begins, x0 if cut.foot == "left" else x1))
    return wood.span((low, *level[1:]), (high, *level[1:]), X, up)


def _begins(cut: Taper, side: LegSide, wood: Wood) -> tuple[float, Vector, Vector]:
    """How far along the leg a taper begins, the direction upwards in a view that shows it edge-on, and that point."""
    (x0, y0, x1, y1), t = wood.part.blank.outline.bounds, wood.part.thickness
    x = x0 + cut.start if cut.foot == "left" else x1 - cut.start
    if side in ("near", "far"):
        return x, Y, (x, y0 if side == "near" else y1, 0.0)
    return x, Z, (x, 0.0, t if side == "face" else 0.0)


def _turned(cut: Turned, wood: Wood) -> Iterator[Figures]:
    """The greatest diameter where it is greatest, in a section down the middle; the start where the pommel ends."""
    (_, y0, _, y1), t = wood.part.blank.outline.bounds, wood.part.thickness
    r, x = max(p for edge in cut.half.edges for p in edge.furthest((1.0, 0.0)))
    axis, middle = t / 2.0, (y0 + y1) / 2.0
    section = wood.section(X, Z, (0.0, middle, 0.0))
    wide = section.length((x, axis - r), (x, axis + r), (0.0, 1.0))
    yield Figures(wide, None, None, wood.span((finished_bounds(wood.part)[0], y0, 0.0), (cut.start, y0, 0.0), X, Y))


LEG_FIGURES: dict[type[Cut], Told] = {Taper: _taper, Turned: _turned}
