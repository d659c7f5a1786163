"""The distinct parts of a piece: equal ones counted together, lefts and rights apart."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from model.part import GivenPart, Part
from model.piece import Piece


@dataclass(frozen=True)
class Distinct:
    """Parts that are made alike: their number, their names in order, the part, and whose mirror image it is."""

    item: int
    names: tuple[str, ...]
    part: Part | GivenPart
    mirror_of: str | None

    @property
    def quantity(self) -> int:
        return len(self.names)

    @property
    def wood(self) -> Part | None:
        """The part as stock and cuts; None for one given as a solid."""
        return self.part if isinstance(self.part, Part) else None


def distinct_parts(piece: Piece) -> list[Distinct]:
    """Every part of the piece, equal ones once, in the order of their numbers."""
    alike: dict[int, list[str]] = {}
    for name, item in piece.items().items():
        alike.setdefault(item, []).append(name)
    return [
        Distinct(item, tuple(names), piece[names[0]].part, piece[names[0]].mirror_of) for item, names in alike.items()
    ]


def in_short(names: Iterable[str]) -> str:
    """Names in one line, those that differ only in the number at their end drawn together; each name once.

    >>> in_short(["back board 1", "back board 2", "back board 3", "back board 5", "seat"])
    'back board 1 to 3, 5, seat'
    >>> in_short(["left side", "right side", "left side"])
    'left side, right side'
    """
    told: list[str] = []
    for stem, group in groupby(dict.fromkeys(names), key=lambda name: stem_and_number(name)[0]):
        numbers = [number for _, number in map(stem_and_number, group) if number is not None]
        told.append(f"{stem} {', '.join(_runs(numbers))}".strip())
    return ", ".join(told)


def in_brief(names: Iterable[str], most: int = 60) -> str:
    """The same, but for a list too long for a line of `most` characters the first of them and how many there are more.

    >>> in_brief(["seat", "left side", "right side"], most=20)
    'seat and 2 more'
    """
    listed = list(dict.fromkeys(names))
    told = in_short(listed)
    return told if len(told) <= most else f"{listed[0]} and {len(listed) - 1} more"


def stem_and_number(name: str) -> tuple[str, int | None]:
    found = re.fullmatch(r"(.*?) ?([1-9]\d*)", name)
    return (found[1], int(found[2])) if found else (name, None)


def _runs(numbers: Sequence[int]) -> Iterator[str]:
    """Numbers as they come, three or more in a row as the first "to" the last."""
    for _, run in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0]):
        found = [number for _, number in run]
        if len(found) > 2:
            yield f"{found[0]} to {found[-1]}"
        else:
            yield from map(str, found)
