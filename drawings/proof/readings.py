"""Every number on a sheet that is measured as a whole, read back from its DXF: dimensions, and the cells of tables."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import cast

from drawings.paper.measured import Kind, Measured, Shown, Vector
from drawings.players.dxf import APPLICATION
from drawings.proof.written_dxf import Record, WrittenDxf
from model.errors import LengthError
from model.lengths import parse_length

#: A letter that stands for a column of a table.
_SYMBOL = re.compile(r"[A-Z]")
#: DXF reference, DIMENSION, group code 70: the kind of dimension in its lowest three bits, and an ordinate of x.
_LINEAR, _ORDINATE, _ALONG_X = 0, 6, 64
#: A ratio that tells a slope; and what a table's cell says after its number.
_SLOPE = re.compile(r"(Slope )?1:(?P<run>\d+(\.\d+)?)")
_WORDS = re.compile(r",? (outside.*|its centre line)$")
_EQUAL = re.compile(r"(?P<times>\d+) × (?P<each>.+?)(?: \((?P<all>.+)\))?")


@dataclass(frozen=True)
class Reading:
    """A printed number: its sheet's file, its text, all that it measures; drawn: the distance drawn, model mm.

    dimension: whether it is a DIMENSION or stands in a table or on a card; factor: model over paper, of a dimension.
    """

    file: str
    text: str
    dimension: bool
    meanings: tuple[Measured, ...] = ()
    drawn: float | None = None
    factor: float | None = None

    @property
    def measured(self) -> Measured | None:
        """The first that it measures."""
        return self.meanings[0] if self.meanings else None

    @property
    def symbol(self) -> bool:
        """Is it a letter that a table explains?"""
        return _SYMBOL.fullmatch(self.text) is not None

    def values(self, unit: str) -> list[tuple[float, int]]:
        """The printed values, mm or degrees, each with how many times it goes into what is measured.

        Raises LengthError for a text that is no number.
        """
        text = self.text if self.dimension else _WORDS.sub("", self.text)
        if text.endswith("°"):
            return [(_degrees(text), 1)]
        if slope := _SLOPE.fullmatch(text):
            return [(math.degrees(math.atan(1.0 / float(slope["run"]))), 1)]
        equal = _EQUAL.fullmatch(text)
        if equal is None:
            return [(parse_length(one.lstrip("RØ"), unit), 1) for one in text.split(" and ")]
        each = parse_length(equal["each"], unit)
        if equal["all"]:
            return [(each, int(equal["times"])), (parse_length(equal["all"], unit), 1)]
        return [(each, 1)]


def readings(path: Path) -> Iterator[Reading]:
    """The numbers of one written sheet, in the order they were written. Raises ValueError for a file that is no DXF."""
    yield from readings_of(WrittenDxf(path), path.name)


def readings_of(written: WrittenDxf, file: str) -> Iterator[Reading]:
    """The same of one that has been read already."""
    factors = {style.text(2): style.number(144, 1.0) for style in written.table_records("DIMSTYLE")}
    for entity in written.entities(("DIMENSION", "TEXT")):
        meanings = _meanings(entity)
        if entity.kind == "DIMENSION":
            factor = factors[entity.text(3)]
            yield Reading(file, entity.text(1), True, meanings, _drawn(entity, factor), factor)
        elif meanings:
            yield Reading(file, entity.text(1), False, meanings)


def _meanings(entity: Record) -> tuple[Measured, ...]:
    """What the number measures; each meaning begins with its kind, which points follow."""
    return measured_in(entity.extended(APPLICATION))


def measured_in(tags: list[tuple[int, str]]) -> tuple[Measured, ...]:
    """The meanings that extended data tells, one after the other."""
    starts = [n for n, (code, _) in enumerate(tags[:-1]) if code == 1000 and tags[n + 1][0] == 1010]
    return tuple(_measured(tags[a:b]) for a, b in pairwise([*starts, len(tags)]))


def _measured(tags: list[tuple[int, str]]) -> Measured:
    words = [value for code, value in tags if code == 1000]
    station = next((float(value) for code, value in tags if code == 1040), None)
    right, up, p, q, along = _points(tags)
    shown = Shown(tuple(words[1:]), right, up, station)
    within = next((float(value) for code, value in tags if code == 1041), 0.0)
    return Measured(shown, cast(Kind, words[0]), p[:2], q[:2], along[:2], within)


def _points(tags: list[tuple[int, str]]) -> list[Vector]:
    axes = [[float(value) for code, value in tags if code == axis] for axis in (1010, 1020, 1030)]
    return list(zip(*axes, strict=True))


def _drawn(entity: Record, factor: float) -> float | None:
    """What a linear or ordinate dimension spans as drawn, by its style's factor."""
    kind = int(entity.number(70))
    origin, p, q = entity.point(10), entity.point(13), entity.point(14)
    if kind & 7 == _LINEAR:
        turn = math.radians(entity.number(50))
        return abs((q[0] - p[0]) * math.cos(turn) + (q[1] - p[1]) * math.sin(turn)) * factor
    if kind & 7 == _ORDINATE:
        axis = 0 if kind & _ALONG_X else 1
        return abs(p[axis] - origin[axis]) * factor
    return None


def _degrees(text: str) -> float:
    try:
        return float(text.removesuffix("°"))
    except ValueError:
        raise LengthError(f'can\'t read "{text}" as an angle') from None
