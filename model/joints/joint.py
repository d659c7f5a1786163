"""A joint as a value: cuts for two parts, the contact they make, the way the first one travels home."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from model.cuts.cut import Cut
from model.hardware import Hardware
from model.part import GivenPart, Part
from model.placement import Placement, Vector


class Stood(Protocol):
    """A part that stands in a piece."""

    @property
    def name(self) -> str: ...
    @property
    def at(self) -> Placement: ...
    @property
    def part(self) -> Part | GivenPart: ...
    @property
    def wood(self) -> Part: ...


@dataclass(frozen=True)
class Contact:
    """Where two parts meet: at `points`, the first part's wood lies `toward` (unit vector), the second's the other way.

    gap: how far apart the surfaces may stand there, mm, because the joint is made so.
    """

    points: tuple[Vector, ...]
    toward: Vector
    gap: float = 0.0


@dataclass(frozen=True)
class Joint:
    """kind: the trade's name. closes: unit vector along which the first part travels home. fit: clearance, mm.
    glue_area: mm2, 0 for a dry joint. source: of its proportions."""

    kind: str
    first: str
    second: str
    closes: Vector
    contacts: tuple[Contact, ...] = ()
    first_cuts: tuple[Cut, ...] = ()
    second_cuts: tuple[Cut, ...] = ()
    fit: float = 0.0
    glue_area: float = 0.0
    hardware: tuple[Hardware, ...] = ()
    source: str = "common practice"


def spread(length: float, margin: float, spacing: float) -> Sequence[float]:
    """Stations along a length: one `margin` in from each end, the rest evenly, no further than `spacing` apart; a
    single one in the middle where two would crowd each other."""
    if length < 2.5 * margin:
        return (length / 2.0,)
    inside = length - 2.0 * margin
    gaps = max(1, -int(-inside // spacing))
    return tuple(margin + inside * n / gaps for n in range(gaps + 1))


def clean(value: float) -> float:
    """A size worked out from placements, without the last digits' noise (1e-6 mm), so that equal parts stay equal."""
    return round(value, 6) + 0.0
