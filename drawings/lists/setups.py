"""Cuts grouped by what a machine is set to: one setting serves all its cuts before anything is moved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from drawings.lists.bore_rows import BoreRow, in_rows
from drawings.lists.joinery_settings import JOINERY_SETTINGS
from drawings.lists.setting import SAME_SETTING, Setting, Settings
from drawings.lists.stock_settings import STOCK_SETTINGS, row_settings
from drawings.lists.teller import kind_of
from model.cuts.cut import Cut
from model.part import Part
from model.piece import Piece

#: What is set for each kind of cut.
SETTINGS: dict[type[Cut], Settings] = STOCK_SETTINGS | JOINERY_SETTINGS


@dataclass(frozen=True)
class Made:
    """A cut of a part by name, which of the settings it asks for, counted from 0, and that setting by itself."""

    name: str
    cut: Cut | BoreRow
    nth: int
    own: Setting


@dataclass(frozen=True)
class Setup:
    """One line of the set-up list.

    number: of the cutter's setting, the same while only the fence is moved; served: names of parts by the place they
    are cut in, a name once for each cut; made: the cuts themselves.
    """

    number: int
    setting: Setting
    served: tuple[tuple[str, tuple[str, ...]], ...]
    made: tuple[Made, ...] = ()

    @property
    def cuts(self) -> int:
        return sum(len(names) for _, names in self.served)


def setups(piece: Piece) -> list[Setup]:
    """Every cut that a fence or a stop sets, equal settings together; sawn outlines and openings are not among them."""
    found = [
        (Made(name, cut, nth, setting), setting)
        for name, part in _woods(piece)
        for cut in in_rows(part.cuts)
        for nth, setting in enumerate(settings_of(cut, part))
    ]
    served: dict[Setting, dict[str, list[str]]] = {}
    made: dict[Setting, list[Made]] = {}
    for (one, _), setting in zip(found, _agreed([s for _, s in found]), strict=True):
        served.setdefault(setting, {}).setdefault(setting.place, []).append(one.name)
        made.setdefault(setting, []).append(one)
    cutters = sorted({_cutter(s) for s in served})
    return [
        Setup(
            cutters.index(_cutter(s)) + 1,
            s,
            tuple((place, tuple(names)) for place, names in places.items()),
            tuple(made[s]),
        )
        for s, places in sorted(served.items(), key=lambda item: _order(item[0]))
    ]


def settings_of(cut: Cut | BoreRow, part: Part) -> Iterator[Setting]:
    """What is set for a cut, or for a whole row of bores; nothing for one that is laid out and sawn to a line."""
    if isinstance(cut, BoreRow):
        yield from row_settings(cut, part)
    elif kind := kind_of(cut, SETTINGS):
        yield from SETTINGS[kind](cut, part)


def _woods(piece: Piece) -> Iterator[tuple[str, Part]]:
    for placed in piece:
        if isinstance(placed.part, Part):
            yield placed.name, placed.part


def _cutter(s: Setting) -> tuple[str, float, float, float, float, float]:
    return (s.cut, s.spacing or 0.0, s.width or 0.0, s.depth or 0.0, s.angle or 0.0, s.tilt or 0.0)


def _order(s: Setting) -> tuple[object, ...]:
    return (_cutter(s), s.against, s.fence or 0.0)


def _agreed(settings: Sequence[Setting]) -> list[Setting]:
    """The settings, those of one kind of cut that differ by less than a shop can set made equal."""
    agreed = list(settings)
    for what in ("width", "depth", "angle", "tilt", "fence"):
        for kind in {s.cut for s in settings}:
            values = {v for s in settings if s.cut == kind and (v := getattr(s, what)) is not None}
            one = _drawn_together(sorted(values))
            agreed = [_set(s, what, one) if s.cut == kind else s for s in agreed]
    return agreed


def _set(setting: Setting, what: str, one: dict[float, float]) -> Setting:
    value = getattr(setting, what)
    changed: dict[str, Any] = {} if value is None else {what: one[value]}
    return replace(setting, **changed)


def _drawn_together(values: Sequence[float]) -> dict[float, float]:
    """Each value and what is set for it: the middle of its group, no group wider than `SAME_SETTING`."""
    groups: list[list[float]] = []
    for v in values:
        if groups and v - groups[-1][0] <= SAME_SETTING:
            groups[-1].append(v)
        else:
            groups.append([v])
    return {v: round((group[0] + group[-1]) / 2.0, 3) for group in groups for v in group}
