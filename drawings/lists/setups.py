"""Cuts grouped by what a machine is set to: one setting serves all its cuts before anything is moved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import singledispatch
from typing import Any

from drawings.lists.teller import edge_in_words, nearest_edge, notch_bounds
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.through import Notch
from model.part import Part
from model.piece import Piece

#: Settings closer than this are one, mm: finer than a shop can set a fence or a cutter (common practice).
SAME_SETTING = 0.05

#: Where no fence sets the place.
LAID_OUT = "laid out"


@dataclass(frozen=True)
class Setting:
    """What is set for one cut: cutter width, depth and angle, then the fence. mm and degrees; None: nothing to set.

    fence: from the nearer wall of a cut to what rides `against` it; place: the side and edge it is made on, which
    changes nothing of the setting.
    """

    cut: str
    width: float | None
    depth: float | None
    angle: float | None = None
    fence: float | None = None
    against: str = ""
    place: str = field(default="", compare=False)


@dataclass(frozen=True)
class Setup:
    """One line of the set-up list.

    number: of the cutter's setting, the same while only the fence is moved; served: names of parts by the place they
    are cut in, a name once for each cut.
    """

    number: int
    setting: Setting
    served: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def cuts(self) -> int:
        return sum(len(names) for _, names in self.served)


def setups(piece: Piece) -> list[Setup]:
    """Every cut that a fence or a stop sets, equal settings together; sawn outlines and openings are not among them."""
    made = [(name, s) for name, part in _woods(piece) for cut in part.cuts for s in _settings(cut, part)]
    served: dict[Setting, dict[str, list[str]]] = {}
    for (name, _), setting in zip(made, _agreed([s for _, s in made]), strict=True):
        served.setdefault(setting, {}).setdefault(setting.place, []).append(name)
    cutters = sorted({_cutter(s) for s in served})
    return [
        Setup(cutters.index(_cutter(s)) + 1, s, tuple((place, tuple(names)) for place, names in places.items()))
        for s, places in sorted(served.items(), key=lambda item: _order(item[0]))
    ]


def _woods(piece: Piece) -> Iterator[tuple[str, Part]]:
    for placed in piece:
        if isinstance(placed.part, Part):
            yield placed.name, placed.part


def _cutter(s: Setting) -> tuple[str, float, float, float]:
    return (s.cut, s.width or 0.0, s.depth or 0.0, s.angle or 0.0)


def _order(s: Setting) -> tuple[object, ...]:
    return (_cutter(s), s.against, s.fence or 0.0)


def _agreed(settings: Sequence[Setting]) -> list[Setting]:
    """The settings, those of one kind of cut that differ by less than a shop can set made equal."""
    agreed = list(settings)
    for what in ("width", "depth", "angle", "fence"):
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


@singledispatch
def _settings(cut: Cut, part: Part) -> Iterator[Setting]:
    """What is set for a cut; nothing for one that is laid out and sawn to a line."""
    yield from ()


@_settings.register
def _(cut: Channel, part: Part) -> Iterator[Setting]:
    (dx, dy), half = cut.direction, cut.width / 2.0
    axis = 0 if abs(dx) < 1e-9 else 1 if abs(dy) < 1e-9 else None
    if axis is None:
        yield Setting(cut.name, cut.width, cut.depth, place=f"{cut.side} side, {LAID_OUT}")
        return
    size = (part.stock.length, part.stock.width)[axis]
    low, high, against = (("left end", "right end", "end"), ("near edge", "far edge", "edge"))[axis]
    lo, beyond = cut.start[axis] - half, size - cut.start[axis] - half
    fence, nearer = (lo, low) if lo <= beyond + SAME_SETTING else (beyond, high)
    yield Setting(cut.name, cut.width, cut.depth, None, fence, against, f"{cut.side} side from {nearer}")


@_settings.register
def _(cut: Bore, part: Part) -> Iterator[Setting]:
    yield _plunged("hole", cut.diameter, cut.depth, cut, part)


@_settings.register
def _(cut: Counterbore, part: Part) -> Iterator[Setting]:
    yield _plunged("counterbore", cut.diameter, cut.depth, cut, part)
    yield _plunged("clearance hole", cut.clearance, part.thickness, cut, part)


@_settings.register
def _(cut: BiscuitSlot, part: Part) -> Iterator[Setting]:
    yield _plunged(f"biscuit slot No. {cut.size}", BISCUIT_THICKNESS, cut.depth, cut, part)


def _plunged(name: str, width: float, depth: float, cut: Bore | Counterbore | BiscuitSlot, part: Part) -> Setting:
    """Into a side at a place laid out, or into an edge at a height set from the back side, to the cut's middle."""
    side = entered(cut.into)
    if side is not None:
        return Setting(name, width, depth, place=f"{side} side, {LAID_OUT}")
    edge, _ = nearest_edge(part.outline, (cut.at[0], cut.at[1]))
    return Setting(name, width, depth, None, cut.at[2], "back side, to its middle", edge_in_words(edge.name))


@_settings.register
def _(cut: Rabbet, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.depth, None, 0.0, "edge", _along(cut, cut.side))


@_settings.register
def _(cut: Tongue, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.thickness, cut.length, None, cut.rise, "back side", _along(cut))


@_settings.register
def _(cut: EdgeGroove, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.depth, None, cut.rise, "back side", _along(cut))


@_settings.register
def _(cut: Bead, part: Part) -> Iterator[Setting]:
    wide = 2.0 * cut.radius + cut.quirk
    yield Setting(cut.name, wide, cut.radius, None, cut.inset, "edge", _along(cut, cut.side))


@_settings.register
def _(cut: Bevel, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, None, None, cut.angle, place=f"{edge_in_words(cut.edge)}, full on {cut.keep} side")


@_settings.register
def _(cut: Ease, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.radius, cut.radius, place=_along(cut, cut.sides))


@_settings.register
def _(cut: Chamfer, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.width, 45.0, place=_along(cut, cut.sides))


@_settings.register
def _(cut: Notch, part: Part) -> Iterator[Setting]:
    x0, y0, x1, y1 = notch_bounds(cut, part)
    yield Setting(cut.name, x1 - x0, y1 - y0, place="right through")


def _along(cut: EdgeCut, side: str = "") -> str:
    """The edge it runs along, and the side it is worked on."""
    edge = edge_in_words(cut.edge)
    if not side:
        return edge
    return f"both sides of {edge}" if side == "both" else f"{side} side of {edge}"
