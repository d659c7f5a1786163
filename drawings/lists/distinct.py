"""The distinct parts of a piece: equal ones counted together, lefts and rights apart."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from drawings.paper.saying import Saying, counted, joined, named, say
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


def in_short(names: Iterable[str]) -> Saying:
    """Names in one line, those that differ only in the number at their end drawn together; each name once.

    >>> in_short(["back board 1", "back board 2", "back board 3", "back board 5", "seat"])
    'back board 1 to 3, 5, seat'
    >>> in_short(["left side", "right side", "left side"])
    'left side, right side'
    """
    told: list[str] = []
    for stem, group in groupby(dict.fromkeys(names), key=lambda name: stem_and_number(name)[0]):
        numbers = [number for _, number in map(stem_and_number, group) if number is not None]
        told.append(_together(stem, numbers) if numbers else named(stem, stem))
    return joined(", ", told)


def _together(stem: str, numbers: Sequence[int]) -> Saying:
    """Names that differ in the number at their end."""
    runs = joined(", ", _runs(stem, numbers))
    return say("{} {}", named(stem, f"{stem} {numbers[0]}"), runs) if stem else runs


def in_brief(names: Iterable[str], most: int = 60) -> Saying:
    """The same, but for a list too long for a line of `most` characters the first of them and how many there are more.

    >>> in_brief(["seat", "left side", "right side"], most=20)
    'seat and 2 more'
    """
    listed = list(dict.fromkeys(names))
    told = in_short(listed)
    if len(told) <= most:
        return told
    return say("{} and {} more", named(listed[0], listed[0]), counted(len(listed) - 1, "more", *listed))


def stem_and_number(name: str) -> tuple[str, int | None]:
    found = re.fullmatch(r"(.*?) ?([1-9]\d*)", name)
    return (found[1], int(found[2])) if found else (name, None)


def _runs(stem: str, numbers: Sequence[int]) -> Iterator[str]:
    """The numbers of names as they come, three or more in a row as the first "to" the last."""
    for _, run in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0]):
        each = [(str(number), f"{stem} {number}".strip()) for _, number in run]
        if len(each) > 2:
            (first, name), (last, other) = each[0], each[-1]
            yield say("{} to {}", named(first, name), named(last, name, other))
        else:
            yield from (named(number, name) for number, name in each)
