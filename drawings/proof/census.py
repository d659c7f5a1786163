"""The census of the numbers printed in texts: each is accounted for by what it says, and none is left over.

A number in words is measured on the solids, counted again in the piece, looked up where it refers to, or, where a solid
can't be asked, held against the order, the stock or the check that it comes from; these are told apart. The places of
a list must follow one another, and a number that stands for a thing must do so all over its sheet.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from drawings.paper.saying import Says
from drawings.proof.counted import COUNTS
from drawings.proof.ground import Ground, OnSheet
from drawings.proof.held import not_held
from drawings.proof.looked_up import LOOKUPS, drawn_factors, scale_off
from drawings.proof.numbered import Run, out_of_order, runs, strangers
from drawings.proof.readings import Reading
from drawings.proof.said import Said
from drawings.proof.said_sizes import SIZES, value_of
from drawings.proof.stated import ORIGINS
from model.errors import LengthError

#: How a number is accounted for.
Account = Literal["figure", "in words", "counted", "looked up", "stated"]


@dataclass(frozen=True)
class Unaccounted:
    """A number that does not hold or says nothing, and how it should have been accounted for."""

    said: Said
    account: Account
    why: str


@dataclass(frozen=True)
class Census:
    """How many numbers of a sheet were accounted for in which way, those that could not be, and its lists."""

    checked: Mapping[Account, int]
    unaccounted: tuple[Unaccounted, ...]
    runs: tuple[Run, ...]


def census(said: Sequence[Said], readings: Sequence[Reading], ground: Ground) -> Census:
    """Every number of a sheet's texts; readings: those of its numbers that are measured as a whole."""
    sheet, misplaced = OnSheet(ground, readings), out_of_order(said) | strangers(said)
    wrong, checked = list[Unaccounted](), Counter[Account]()
    for one in said:
        account = _account(one, sheet)
        checked[account] += 1
        why = misplaced.get(id(one)) or _why(one, sheet)
        if why:
            wrong.append(Unaccounted(one, account, why))
    return Census(checked, tuple(wrong), tuple(runs(said)))


def _account(said: Said, sheet: OnSheet) -> Account:
    """How a number is accounted for; a scale in which nothing is measured is only stated, and one that stands alone
    and says nothing should be a figure."""
    meaning = said.meaning
    if not meaning:
        return "figure" if _alone(said) else "in words"
    if isinstance(meaning, Says):
        if meaning.topic in SIZES:
            return "in words"
        return "stated" if meaning.topic in ORIGINS else "looked up" if meaning.topic in LOOKUPS else "counted"
    if _is_scale(said):
        return "looked up" if drawn_factors(meaning, sheet) else "stated"
    return "in words"


def _alone(said: Said) -> bool:
    """Is the number all that is said?"""
    return said.text.strip("RØ-≈") == said.number


def _is_scale(said: Said) -> bool:
    return isinstance(said.meaning, tuple) and any(m.kind == "scale" for m in said.meaning)


def _why(said: Said, sheet: OnSheet) -> str | None:
    """Why a number does not hold; None if it does."""
    meaning, number = said.meaning, said.number
    if not meaning:
        return "does not say what it measures" if _alone(said) else f"does not say what its {number} is"
    try:
        why = _says_wrong(meaning, number, sheet) if isinstance(meaning, Says) else _measures_wrong(said, sheet)
    except (LengthError, ValueError, IndexError):
        why = "can't be read as what it says"
    return f"has {number}, which {why}" if why and said.text != number else why


def _says_wrong(says: Says, number: str, sheet: OnSheet) -> str | None:
    if says.topic in COUNTS:
        true = COUNTS[says.topic](says.of, sheet.ground)
        return None if true == int(number) else "counts nothing that is there" if true is None else f"is {true}"
    if says.topic in LOOKUPS:
        return LOOKUPS[says.topic](number, says.of, sheet)
    if says.topic in ORIGINS:
        return ORIGINS[says.topic](number, says.of, sheet)
    return SIZES[says.topic](number, says.of, sheet.ground) if says.topic in SIZES else None


def _measures_wrong(said: Said, sheet: OnSheet) -> str | None:
    assert isinstance(said.meaning, tuple)
    if _is_scale(said):
        return scale_off(said.number, said.meaning, sheet)
    ground = sheet.ground
    return not_held([(value_of(said.number, ground), 1)], said.meaning, ground.witness, ground.order)
