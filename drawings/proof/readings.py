"""Every number printed on a sheet, read back from its DXF: dimensions, and the cells of tables."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from drawings.paper.measured import Kind, Measured, Shown
from drawings.players.dxf import APPLICATION
from model.errors import LengthError
from model.lengths import parse_length

#: A letter that stands for a column of a table.
_SYMBOL = re.compile(r"[A-Z]")
_EQUAL = re.compile(r"(?P<times>\d+) × (?P<each>.+?)(?: \((?P<all>.+)\))?")


@dataclass(frozen=True)
class Reading:
    """A printed number: its sheet's file, its text, what it measures; drawn: the distance drawn, model mm.

    dimension: whether it is a DIMENSION or a table's cell.
    """

    file: str
    text: str
    dimension: bool
    measured: Measured | None
    drawn: float | None = None

    @property
    def symbol(self) -> bool:
        """Is it a letter that a table explains?"""
        return _SYMBOL.fullmatch(self.text) is not None

    def values(self, unit: str) -> list[tuple[float, int]]:
        """The printed values, mm or degrees, each with how many times it goes into what is measured.

        Raises LengthError for a text that is no number.
        """
        if self.text.endswith("°"):
            return [(_degrees(self.text), 1)]
        equal = _EQUAL.fullmatch(self.text)
        if equal is None:
            return [(parse_length(one.lstrip("RØ"), unit), 1) for one in self.text.split(" and ")]
        each = parse_length(equal["each"], unit)
        if equal["all"]:
            return [(each, int(equal["times"])), (parse_length(equal["all"], unit), 1)]
        return [(each, 1)]


def readings(path: Path) -> Iterator[Reading]:
    """The numbers of one written sheet, in the order they were written."""
    import ezdxf

    for entity in ezdxf.readfile(path).modelspace():
        if entity.dxftype() == "DIMENSION":
            yield Reading(path.name, entity.dxf.text, True, _measured(entity), _drawn(entity))
        elif entity.dxftype() == "TEXT" and entity.has_xdata(APPLICATION):
            yield Reading(path.name, entity.dxf.text, False, _measured(entity))


def _measured(entity: Any) -> Measured | None:
    if not entity.has_xdata(APPLICATION):
        return None
    tags = entity.get_xdata(APPLICATION)
    words = [tag.value for tag in tags if tag.code == 1000]
    points = [tuple(tag.value) for tag in tags if tag.code == 1010]
    station = next((tag.value for tag in tags if tag.code == 1040), None)
    right, up, p, q, along = points
    shown = Shown(tuple(words[1:]), right, up, station)
    return Measured(shown, cast(Kind, words[0]), p[:2], q[:2], along[:2])


def _drawn(entity: Any) -> float | None:
    """What a linear or ordinate dimension spans as drawn, by its style's factor."""
    kind, factor = entity.dxf.dimtype & 7, _factor(entity)
    if kind == 0:
        turn, step = math.radians(entity.dxf.angle), entity.dxf.defpoint3 - entity.dxf.defpoint2
        return float(abs(step.x * math.cos(turn) + step.y * math.sin(turn)) * factor)
    if kind == 6:
        step = entity.dxf.defpoint2 - entity.dxf.defpoint
        return float(abs(step.x if entity.dxf.dimtype & 64 else step.y) * factor)
    return None


def _factor(entity: Any) -> float:
    return float(entity.doc.dimstyles.get(entity.dxf.dimstyle).dxf.dimlfac)


def _degrees(text: str) -> float:
    try:
        return float(text.removesuffix("°"))
    except ValueError:
        raise LengthError(f'can\'t read "{text}" as an angle') from None
