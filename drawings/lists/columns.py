"""The columns of a list: a header that names its unit, and what stands under it for each line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from model.lengths import format_length

_UNIT_NAMES = {"ft-in": "feet and inches", "in": "inches", "in.dec": "decimal inches"}

#: Of a line of a list: a length in mm, or None where there is none.
Measure = Callable[[Any], float | None]


@dataclass(frozen=True)
class Speech:
    """How the order speaks of lengths: a key of lengths.UNITS, and the finest inch fraction, one over."""

    units: str
    denominator: int

    @property
    def unit(self) -> str:
        """The unit as a header names it."""
        return _UNIT_NAMES.get(self.units, self.units)

    def length(self, mm: float | None) -> str:
        return "" if mm is None else format_length(mm, self.units, self.denominator)


@dataclass(frozen=True)
class Column:
    """A header, and the text of a line's cell."""

    header: str
    cell: Callable[[Any], str]


def lengths(what: str, measure: Measure, speech: Speech) -> Column:
    """A column of lengths as the order prints them, to the nearest that its unit shows."""
    return Column(f"{what} ({speech.unit})", lambda line: speech.length(measure(line)))


def exact(what: str, measure: Measure) -> Column:
    """A column of lengths in mm to 0.001."""
    return Column(f"{what}, exact mm", lambda line: decimal(measure(line), 3))


def decimal(value: float | None, places: int) -> str:
    """A number to so many decimals, zeros at the end dropped; nothing for None.

    >>> decimal(9.5, 3), decimal(20.0, 2), decimal(None, 1)
    ('9.5', '20', '')
    """
    if value is None:
        return ""
    text = f"{round(value, places) + 0.0:.{places}f}"
    return text.rstrip("0").rstrip(".") if places else text
