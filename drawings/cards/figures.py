"""What each figure of a set-up card measures, on every part that the setting serves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Literal

from drawings.cards.joinery_figures import JOINERY_FIGURES
from drawings.cards.lap_figures import LAP_FIGURES
from drawings.cards.leg_figures import LEG_FIGURES
from drawings.cards.stock_figures import STOCK_FIGURES, Figures, Told, row_figures
from drawings.cards.wood import Wood
from drawings.lists.bore_rows import BoreRow
from drawings.lists.distinct import Distinct
from drawings.lists.setting import Setting
from drawings.lists.setups import Setup
from drawings.lists.teller import kind_of
from drawings.paper.measured import Measured
from model.cuts.cut import Cut

FIGURES: dict[type[Cut], Told] = STOCK_FIGURES | LEG_FIGURES | JOINERY_FIGURES | LAP_FIGURES

What = Literal["width", "depth", "angle", "fence", "tilt"]


def meant(rows: Iterable[Setup], what: What, distinct: Mapping[str, Distinct]) -> tuple[Measured, ...]:
    """All that one figure of some settings measures: on each distinct part once.

    distinct: the distinct part of each name. Empty where a cut can't say what it measures: the figure is then unproven.
    """
    asked = {(distinct[m.name].names[0], m.cut, m.nth): (m, row) for row in rows for m in row.made}
    found = []
    for (name, cut, nth), (made, row) in asked.items():
        measured = getattr(_figures(cut, Wood(distinct[name]), nth), what)
        if measured is None:
            return ()
        found.append(replace(measured, within=_set_off(made.own, row.setting, what)))
    return tuple(dict.fromkeys(found))


def _set_off(own: Setting, agreed: Setting, what: What) -> float:
    """How far what is set for several lies from what one of them asks for."""
    return round(abs((getattr(own, what) or 0.0) - (getattr(agreed, what) or 0.0)), 6)


def _figures(cut: Cut | BoreRow, wood: Wood, nth: int) -> Figures:
    """Those of the nth setting that a cut asks for; none of a kind not known here."""
    if isinstance(cut, BoreRow):
        return next(row_figures(cut, wood))
    kind = kind_of(cut, FIGURES)
    told = list(FIGURES[kind](cut, wood)) if kind else []
    return told[nth] if nth < len(told) else Figures()
