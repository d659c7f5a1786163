"""Who stands in whose way? Straight ways of parts, asked of many at once, equal relative moves worked out once."""

from __future__ import annotations

import copy
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import cadquery as cq
import numpy as np
from numpy.typing import NDArray

from model.checks.memory.remembered import remembered_one
from model.checks.memory.solid_digest import key_of
from model.checks.solids.cast import across_and_along
from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import StoodSolid, stood_solids
from model.checks.travel.sweep import Meeting, first_meeting, runs_into
from model.placement import Placement, Vector, scaled
from model.tolerance import INTERFERENCE

Numbers = NDArray[np.float64]

#: Parts that have not moved.
HOME = Placement()

#: Moves remembered before they are forgotten.
MOST_REMEMBERED = 50_000

#: What moves met before came to, by shapes, relative place and direction.
_met: dict[Any, Meeting | None] = {}


def forget_ways() -> None:
    """Forgets the moves met before, so that the next check starts afresh."""
    _met.clear()


@dataclass(frozen=True)
class InTheWay:
    """`moving` runs into `other` after `travel` mm, at a point of the piece."""

    moving: str
    other: str
    travel: float
    where: Vector


class Ways:
    """The straight ways of a piece's parts: shapes is every part's solid where it stands, by name. aside: pairs of
    names that are not asked about, and never stand in each other's way."""

    aside: Collection[frozenset[str]] = ()

    def __init__(self, shapes: Mapping[str, cq.Shape]) -> None:
        self.solids = {s.name: s for s in stood_solids(shapes)}
        self._numbers = {name: n for n, name in enumerate(self.solids)}
        self._bounds: dict[tuple[float, ...], tuple[Numbers, Numbers]] = {}

    def setting_aside(self, pairs: Collection[frozenset[str]]) -> Ways:
        """The same ways, but for some pairs."""
        other = copy.copy(self)
        other.aside = pairs
        return other

    def asked(self, moving: str, others: Sequence[str]) -> list[str]:
        """Those of the others that may stand in its way."""
        return [o for o in others if frozenset((moving, o)) not in self.aside] if self.aside else list(others)

    def blockers(
        self, moving: Sequence[str], others: Sequence[str], along: Vector, moved: Placement = HOME
    ) -> Iterator[InTheWay]:
        """Parts that stand in the way when the moving ones leave together along a unit vector of the piece, as far as
        it takes to be clear of everything; moved: the motion that has brought them where they start, from home. Worked
        out one by one, as they are asked for."""
        for a, b in self._perhaps(self.stood(moving, moved), others, along, np.inf):
            yield from self._told(a, b, self._meeting(a, b, along))

    def first_met(
        self, moving: Sequence[str], others: Sequence[str], along: Vector, reach: float, moved: Placement = HOME
    ) -> InTheWay | None:
        """What the moving parts meet first, together, within `reach` mm along a unit vector; None if nothing."""
        found = [
            met
            for a, b in self._perhaps(self.stood(moving, moved), others, along, reach)
            for met in self._told(a, b, self._first(a, b, along, reach))
        ]
        return min(found, key=lambda m: (round(m.travel, 3), m.moving, m.other), default=None)

    def stuck(self, moving: Sequence[str], others: Sequence[str], along: Vector, reach: float) -> bool:
        """Whether the moving parts meet anything within `reach` mm along a unit vector; quicker than what they meet
        first."""
        pairs = self._perhaps(self.stood(moving), others, along, reach)
        return any(self._first(a, b, along, reach)[1] is not None for a, b in pairs)

    def stood(self, names: Sequence[str], moved: Placement = HOME) -> list[StoodSolid]:
        """Parts where they stand once a motion has taken them from home."""
        solids = [self.solids[n] for n in names]
        if moved == HOME:
            return solids
        return [replace(s, box=replace(s.box, at=moved @ s.at)) for s in solids]

    def _perhaps(
        self, moving: Sequence[StoodSolid], others: Sequence[str], along: Vector, reach: float
    ) -> list[tuple[StoodSolid, StoodSolid]]:
        """Pairs that their bounds, seen along the way, do not already clear; the nearest first."""
        if not moving or not others:
            return []
        low, high = self._seen_along(along)
        j = np.array([self._numbers[n] for n in others])
        low_i, high_i = (k[:, None] for k in self._bounds_of(moving, along))
        low_j, high_j = low[j][None], high[j][None]
        beside = np.all(np.minimum(high_i, high_j)[..., :2] - np.maximum(low_i, low_j)[..., :2] > INTERFERENCE, axis=2)
        ahead = high_j[..., 2] - low_i[..., 2] > INTERFERENCE
        near = low_j[..., 2] - high_i[..., 2] < reach
        n, m = np.nonzero(beside & ahead & near)
        nearest = np.argsort((low_j[..., 2] - high_i[..., 2])[n, m], kind="stable")
        pairs = [(moving[k], self.solids[others[o]]) for k, o in zip(n[nearest], m[nearest], strict=True)]
        return [(a, b) for a, b in pairs if frozenset((a.name, b.name)) not in self.aside] if self.aside else pairs

    def _bounds_of(self, moving: Sequence[StoodSolid], along: Vector) -> tuple[Numbers, Numbers]:
        if all(s is self.solids[s.name] for s in moving):
            low, high = self._seen_along(along)
            i = np.array([self._numbers[s.name] for s in moving])
            return low[i], high[i]
        spans = [_span(s, across_and_along(along)) for s in moving]
        return np.array([s[0] for s in spans]), np.array([s[1] for s in spans])

    def _seen_along(self, along: Vector) -> tuple[Numbers, Numbers]:
        """Least and greatest corners (n, 3) of every part across, across and along the way, mm."""
        key = tuple(round(c, 9) + 0.0 for c in along)
        if key not in self._bounds:
            rows = across_and_along(along)
            spans = [_span(s, rows) for s in self.solids.values()]
            self._bounds[key] = np.array([s[0] for s in spans]), np.array([s[1] for s in spans])
        return self._bounds[key]

    def _meeting(self, a: StoodSolid, b: StoodSolid, along: Vector) -> tuple[StoodSolid, Meeting | None]:
        """A part is in another's way just as that one is in its own, going the other way: worked out once."""
        first, second, way = (a, b, along) if _sizes(a) <= _sizes(b) else (b, a, scaled(along, -1.0))
        return first, _remembered(first, second, way, None)

    def _first(self, a: StoodSolid, b: StoodSolid, along: Vector, reach: float) -> tuple[StoodSolid, Meeting | None]:
        return a, _remembered(a, b, along, reach)

    @staticmethod
    def _told(a: StoodSolid, b: StoodSolid, found: tuple[StoodSolid, Meeting | None]) -> Iterator[InTheWay]:
        frame, meeting = found
        if meeting is not None:
            yield InTheWay(a.name, b.name, meeting.travel, frame.at.point(meeting.where))


def _span(solid: StoodSolid, rows: Numbers) -> tuple[Numbers, Numbers]:
    skin = facets(solid.own)
    axes = np.array([solid.at.x, solid.at.y, solid.at.z])
    points = (axes @ rows.T).T @ skin.points.T + (rows @ np.array(solid.at.origin))[:, None]
    return points.min(axis=1) - skin.farthest_stray, points.max(axis=1) + skin.farthest_stray


def _remembered(first: StoodSolid, second: StoodSolid, along: Vector, reach: float | None) -> Meeting | None:
    relative, way = second.at.seen_from(first.at), first.at.own_direction(along)
    key = (first.geometry, second.geometry, _rounded(relative), tuple(round(c, 9) + 0.0 for c in way), reach)
    if key not in _met:
        if len(_met) > MOST_REMEMBERED:
            _met.clear()
        told = key_of("way", (first, second), relative, way, reach)
        _met[key] = remembered_one(told, lambda: _asked(first, second, relative, way, reach), _written, _read)
    return _met[key]


def _asked(first: StoodSolid, second: StoodSolid, at: Placement, way: Vector, reach: float | None) -> Meeting | None:
    return runs_into(first, second, at, way) if reach is None else first_meeting(first, second, at, way, reach)


def _written(met: Meeting | None) -> Any:
    return None if met is None else [met.travel, *met.where]


def _read(told: Any) -> Meeting | None:
    if told is None:
        return None
    travel, x, y, z = told
    return Meeting(travel, (x, y, z))


def _sizes(solid: StoodSolid) -> tuple[float, ...]:
    return tuple(round(c, 4) + 0.0 for c in (*solid.box.low, *solid.box.high))


def _rounded(at: Placement) -> tuple[float, ...]:
    """Two places this much alike are the same: a millionth of a millimetre, and a thousandth of that in direction."""
    turned = (round(c, 9) + 0.0 for axis in (at.x, at.y, at.z) for c in axis)
    return (*turned, *(round(c, 6) + 0.0 for c in at.origin))
