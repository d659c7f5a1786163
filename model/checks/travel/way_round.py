"""No straight way home is clear: is one of two legs, or one tipped in?

Two legs: away from home along one direction until something is met, or until a corner of the part has passed a corner
of what holds it, and from there away along another. Tipped: pushed as far, then turned about an edge of its own as far
as it goes, and out slanting; so a sliding door comes out of its grooves. Directions are those that the joints and the
sides of the part and its neighbours point in; a search, so a way may be overlooked; each one found is proved.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import StoodSolid
from model.checks.travel.way_legs import in_the_way, least_turn
from model.checks.travel.ways import Ways
from model.placement import Placement, Vector, added, cross, dot, scaled
from model.way_home import Leg, Push, Tip, come

Numbers = NDArray[np.float64]

#: A first leg shorter than this is none, mm; and a turn smaller than this, degrees.
LEAST, LEAST_TURN = 0.2, 0.1

#: Further than this no part is pushed before it turns off, mm (common practice: what a hand does in one go).
FARTHEST = 300.0

#: A part is tipped no further than this, degrees.
MOST_TURN = 60.0

#: So many travels of a first leg are tried, before it turns off and before it is tipped.
MANY, FEW = 8, 3

#: How much of the turn that there is room for is tried; and, where that frees it, shares of it that may do.
SHARE, GENTLER = 0.98, (0.3, 0.5, 0.7, 1.0)

#: Directions nearer to each other than this are one, as a cosine; and so many of them are tried.
NEARLY, DIRECTIONS_TRIED = 0.985, 12

#: The search for one part ends when it has tried so many turns; all searches of a piece together end when so many
#: facets have been moved, where a turn costs as much as a push of A_TURN facets: some 5 s.
MANY_TURNS, A_TURN, MOST_MOVED = 60, 100, 12_000


class OutOfPatienceError(Exception):
    """The patience for searches is at an end."""


class Patience:
    """What there still is for the searches of a piece, in facets moved: the same on every machine."""

    def __init__(self, left: int = MOST_MOVED) -> None:
        self.left = left

    @property
    def ended(self) -> bool:
        return self.left < 0

    def spend(self, facets: int) -> None:
        """Raises OutOfPatienceError where it is too much; then for whatever follows, too."""
        self.left -= self.left + 1 if facets > self.left else facets
        if self.ended:
            raise OutOfPatienceError


class Search:
    """Ways home for some parts among others; directions: unit vectors in which they may leave, the likeliest first.

    Its questions raise OutOfPatienceError when the patience is at an end.
    """

    def __init__(
        self,
        ways: Ways,
        moving: Sequence[str],
        others: Sequence[str],
        directions: Sequence[Vector],
        patience: Patience,
    ) -> None:
        self.ways, self.moving, self.others = ways, moving, others
        self.directions = _apart(directions)[:DIRECTIONS_TRIED]
        self.facets = sum(len(facets(s.own).corners) for s in ways.stood(moving))
        self.patience, self.turns = patience, MANY_TURNS

    def two_legs(self) -> tuple[Leg, ...] | None:
        """The legs of a way home that is pushed twice, or None."""
        for away, room in self.rooms:
            for out in self.directions:
                if abs(dot(away, out)) > NEARLY:
                    continue
                for travel in self._travels(away, out, room, MANY):
                    if self._leaves(out, Placement(scaled(away, travel))):
                        midway = _pushed(away, out, (travel + room) / 2.0)
                        return midway if self._clear(midway) else _pushed(away, out, travel)
        return None

    def tipped_in(self) -> tuple[Leg, ...] | None:
        """The legs of a way home that comes slanting, is tipped true and pushed on, or None."""
        for away, room in self.rooms:
            last = (Push(scaled(away, -1.0), travel) for travel in self._travels(away, None, room, FEW))
            found = next((way for push in last if (way := self._tipped(push)) is not None), None)
            if found is not None or self.turns <= 0:
                return found
        return None

    @cached_property
    def rooms(self) -> list[tuple[Vector, float]]:
        """The directions in which they may be pushed at all, and how far before they meet something, mm."""
        found = []
        for away in self.directions:
            self.patience.spend(self.facets)
            if not self.ways.stuck(self.moving, self.others, away, LEAST):
                met = self.ways.first_met(self.moving, self.others, away, FARTHEST)
                found.append((away, FARTHEST if met is None else met.travel))
        return found

    def _tipped(self, last: Push) -> tuple[Leg, ...] | None:
        moved = last.undone
        for turn in _turns(self.ways.stood(self.moving, moved), scaled(last.along, -1.0), self.directions):
            self.turns -= 1
            if self.turns < 0:
                return None
            self.patience.spend(max(A_TURN, self.facets))
            angle = self._turned(turn, moved)
            if angle == 0.0:
                continue
            home = Tip(angle, turn.pin, scaled(turn.along, -1.0))
            if self._tipped_out(home, last) is not None:
                gentler = (self._tipped_out(replace(home, angle=angle * share), last) for share in GENTLER)
                return next(way for way in gentler if way is not None)
        return None

    def _tipped_out(self, home: Tip, last: Push) -> tuple[Leg, ...] | None:
        """The whole way, if there is one out from where it leans: slanting as it does, or else straight."""
        moved = home.undone @ last.undone
        for out in (home.leaning(last.along), *self.directions):
            way = (come(scaled(out, -1.0)), home, last)
            if self._leaves(out, moved) and self._clear(way):
                return way
        return None

    def _turned(self, turn: Tip, moved: Placement) -> float:
        """How far they may be turned, degrees, 0 where it is too little to count."""
        for angle in (LEAST_TURN, MOST_TURN):
            met = least_turn(self.ways, self.moving, self.others, replace(turn, angle=angle), moved)
            if met is not None:
                return met.travel * SHARE if angle == MOST_TURN else 0.0
        return MOST_TURN

    def _leaves(self, out: Vector, moved: Placement) -> bool:
        self.patience.spend(self.facets)
        return next(self.ways.blockers(self.moving, self.others, out, moved), None) is None

    def _clear(self, way: tuple[Leg, ...]) -> bool:
        return in_the_way(self.ways, self.moving, self.others, way) is None

    def _travels(self, away: Vector, out: Vector | None, room: float, many: int) -> list[float]:
        """Travels at which a corner of the moving parts passes a corner of what is in their way, the least first, and
        all the room there is; no more than so many, mm."""
        blocking = [] if out is None else [m.other for m in self.ways.blockers(self.moving, self.others, out)]
        mine = np.concatenate([_heights(s, away) for s in self.ways.stood(self.moving)])
        its = np.concatenate([_heights(s, away) for s in self.ways.stood(blocking or self.others)])
        passing = np.unique(np.round(its[:, None] - mine[None], 3))
        passing = passing[(passing > LEAST) & (passing < room)]
        picked = np.unique(np.linspace(0, max(len(passing) - 1, 0), many).round().astype(int))
        return [*passing[picked[: len(passing)]].tolist(), room]


def _apart(directions: Sequence[Vector]) -> list[Vector]:
    kept: list[Vector] = []
    for d in directions:
        if all(dot(d, k) < NEARLY for k in kept):
            kept.append(d)
    return kept


def _pushed(away: Vector, out: Vector, travel: float) -> tuple[Leg, ...]:
    return come(scaled(out, -1.0)), Push(scaled(away, -1.0), travel)


def _heights(solid: StoodSolid, away: Vector) -> Numbers:
    """Of the corners of a solid along a direction, each once, mm."""
    own = np.array(solid.at.own_direction(away))
    heights: Numbers = np.unique(np.round(facets(solid.own).points @ own + dot(away, solid.at.origin), 3))
    return heights


def _turns(moving: Sequence[StoodSolid], away: Vector, directions: Sequence[Vector]) -> Iterator[Tip]:
    """Turns about lines across the end that goes ahead: along either face of it, and midway."""
    axes: list[Vector] = []
    for d in directions:
        if abs(dot(d, away)) < 1e-6 and all(abs(dot(d, a)) < 1.0 - 1e-6 for a in axes):
            axes.append(d)
    for axis in axes:
        across = cross(axis, away)
        ahead = max(float(_heights(s, away).max()) for s in moving)
        aside = [float(h) for s in moving for h in (_heights(s, across).min(), _heights(s, across).max())]
        for place in (min(aside), max(aside), (min(aside) + max(aside)) / 2.0):
            pin = added(scaled(away, ahead), scaled(across, place))
            for way in (axis, scaled(axis, -1.0)):
                yield Tip(MOST_TURN, pin, way)
