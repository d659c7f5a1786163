"""Rows of bores: holes alike, evenly spaced along the grain, as a maker bores them with one jig."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from model.cuts.cut import Cut
from model.cuts.faces import Bore, entered
from model.tolerance import SAME_POINT

#: So many holes evenly spaced are a row.
LEAST = 4


@dataclass(frozen=True)
class BoreRow:
    """Equal bores into one side, evenly spaced along the grain from the left end on."""

    bores: tuple[Bore, ...]

    @property
    def first(self) -> Bore:
        return self.bores[0]

    @property
    def spacing(self) -> float:
        """From middle to middle, mm."""
        return (self.bores[-1].at[0] - self.first.at[0]) / (len(self.bores) - 1)

    @property
    def side(self) -> str:
        return entered(self.first.into) or ""


def in_rows(cuts: Iterable[Cut]) -> list[Cut | BoreRow]:
    """The cuts in their order, bores that make rows put together where the first of them was."""
    cuts = list(cuts)
    lines: dict[tuple[object, ...], list[Bore]] = {}
    for cut in cuts:
        if type(cut) is Bore and entered(cut.into) is not None:
            lines.setdefault(_line(cut), []).append(cut)
    rows = {key: BoreRow(tuple(sorted(bores, key=_x))) for key, bores in lines.items() if _even(sorted(bores, key=_x))}
    told: list[Cut | BoreRow] = []
    for cut in cuts:
        row = rows.get(_line(cut)) if type(cut) is Bore else None
        if row is None:
            told.append(cut)
        elif row not in told:
            told.append(row)
    return told


def _line(bore: Bore) -> tuple[object, ...]:
    """What bores of one row have in common."""
    return (round(bore.at[1], 4), round(bore.at[2], 4), bore.into, bore.diameter, bore.depth)


def _x(bore: Bore) -> float:
    return bore.at[0]


def _even(bores: list[Bore]) -> bool:
    steps = [b.at[0] - a.at[0] for a, b in pairwise(bores)]
    return len(bores) >= LEAST and steps[0] > SAME_POINT and max(steps) - min(steps) < 10.0 * SAME_POINT
