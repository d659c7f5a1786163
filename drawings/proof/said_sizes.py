"""Sizes said of a part in words: each is one that its solid has."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import partial

from drawings.paper.saying import Topic
from drawings.proof.ground import Ground
from drawings.proof.held import HALF_TENTH, printed_alike
from model.lengths import parse_length

#: Why a number is no size of a part; None if it is one.
Size = Callable[[str, tuple[str, ...], Ground], str | None]

#: The size of a part, by its name and one of its cuts or all, that is nearest to one.
_Nearest = Callable[[str, float, int | None], float]


def value_of(number: str, ground: Ground) -> float:
    """A printed length, mm, or angle, degrees."""
    return float(number[:-1]) if number.endswith("°") else parse_length(number, ground.order.units)


def _measured(nearest: Callable[[Ground], _Nearest], number: str, of: tuple[str, ...], ground: Ground) -> str | None:
    if ground.wood(of[0]) is None:
        return f"is of {of[0]}, and there is no such part"
    if ":" in number:
        steep, flat = (math.degrees(math.atan(1.0 / run)) for run in _runs(number))
        return _off((steep + flat) / 2.0, ground.witness.lean, of, (steep - flat) / 2.0)
    if number.endswith("°"):
        return _off(float(number[:-1]), ground.witness.lean, of, HALF_TENTH)
    return _off(value_of(number, ground), nearest(ground), of, printed_alike(ground.order))


def _runs(number: str) -> tuple[float, float]:
    """Of a slope, one in so much, the least and the most that print so."""
    run = float(number.partition(":")[2])
    return run - HALF_TENTH, run + HALF_TENTH


def _off(value: float, nearest: _Nearest, of: tuple[str, ...], allowed: float) -> str | None:
    """The part as it is; or, where other work took away what a cut left that it is said of, with that one alone."""
    found = [nearest(of[0], value, None)]
    cuts = [int(n) for told in of[1:] for n in told.split(",") if n]
    while cuts and abs(found[-1] - value) > allowed:
        found.append(nearest(of[0], value, cuts.pop()))
    return None if abs(found[-1] - value) <= allowed else f"is no size of the {of[0]}; the nearest is {found[0]:.3f}"


#: How each topic is measured.
SIZES: Mapping[Topic, Size] = {
    "size": partial(_measured, lambda ground: ground.witness.size),
    "along": partial(_measured, lambda ground: ground.witness.along),
    "bend": partial(_measured, lambda ground: ground.witness.bend),
}
