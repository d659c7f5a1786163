"""How much play has a drawer, from side to side and above, all along its travel?

Measured as how far all that slides could be moved that way before it met what stays, wherever along the travel that
may change (`passings`): so nowhere is it less than the least told, or more than the most.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from model.checks.finding import Finding
from model.checks.travel.passings import stations
from model.checks.travel.ways import Ways
from model.joints.joint import Joint
from model.piece import Piece, Slide
from model.placement import Placement, Vector, cross, dot, scaled

CHECK = "moving"
PLAY = "[shop] drawer_play of the order; 1/64 to 1/16 in on each side is common practice"
GUIDED = "a drawer is guided as far as it is meant to open (common practice)"

#: Play on each side, mm: the least, under which it binds in a damp season, and the most, over which it racks.
EACH_SIDE = (0.4, 1.6)

#: Above it as much at the least; at the most so many times as much, for its sides swell in height (common practice).
ABOVE = 3.0

#: How far aside anything is looked for, mm.
REACH = 25.0

#: A play this near a limit keeps it, mm.
SLACK = 0.01


@dataclass(frozen=True)
class Station:
    """mm: how far open, play to either side, and above; REACH where nothing is met."""

    open: float
    sides: tuple[float, float]
    above: float

    @property
    def across(self) -> float:
        """From side to side."""
        return self.sides[0] + self.sides[1]

    @property
    def guided(self) -> bool:
        """Whether there is something on both sides."""
        return max(self.sides) < REACH


@dataclass(frozen=True)
class Play:
    """The play of what slides with `part`, at stations from shut to open between which it changes evenly."""

    part: str
    stations: tuple[Station, ...]

    @property
    def across(self) -> tuple[float, float]:
        """The least and the most from side to side, where it is guided, mm."""
        found = [s.across for s in self.stations if s.guided]
        return min(found), max(found)

    @property
    def above(self) -> tuple[float, float]:
        """The least and the most above it, mm."""
        return min(s.above for s in self.stations), max(s.above for s in self.stations)

    def as_dict(self) -> dict[str, Any]:
        """As it stands in report.json."""
        return {
            "part": self.part,
            "stations_mm": [round(s.open, 1) for s in self.stations],
            "side_to_side_mm": [round(s.across, 2) for s in self.stations],
            "above_mm": [round(s.above, 2) for s in self.stations],
        }


def play(piece: Piece, ways: Ways, slide: Slide, parts: Sequence[str]) -> Play | None:
    """Of a slide's parts; None where nothing guides them on both sides when shut, as in a slide that is no drawer."""
    fixed = [n for n in piece.parts if n not in parts]
    side, up = _aside(piece, slide, parts)
    sides = (side, scaled(side, -1.0), up)
    found: list[Station] = []
    for travel in stations(ways.stood(parts), ways.stood(fixed), slide.along, slide.opens, sides, REACH):
        moved = Placement(scaled(slide.along, travel))
        one, other, above = (_room(ways, parts, fixed, way, moved) for way in sides)
        found.append(Station(travel, (one, other), above))
        if not found[0].guided:
            return None
    return Play(slide.part, tuple(found))


def played(found: Play, each_side: Sequence[float] = EACH_SIDE) -> Iterator[Finding]:
    """A note of the play, or cautions for too little, too much, or a drawer that leaves its guides. each_side: the
    least and the most on each side, mm."""
    grave = [*_across(found, *each_side), *_above(found, *each_side), *_unguided(found)]
    yield from grave
    if not grave:
        (low, high), above = found.across, found.above[0]
        even = f"{low:.1f} mm" if high - low < 0.05 else f"{low:.1f} to {high:.1f} mm"
        kicked = f" and {above:.1f} mm above it" if above < REACH else ""
        message = f"{found.part} slides with {even} of play from side to side{kicked}, all the way it opens"
        yield Finding(CHECK, "note", (found.part,), message, round(low, 3), 2.0 * each_side[1], "mm", PLAY)


def _across(found: Play, least: float, most: float) -> Iterator[Finding]:
    low, high = found.across
    if low < 2.0 * least - SLACK:
        tight = [s.open for s in found.stations if s.guided and s.across < low + SLACK]
        place = f", {tight[0]:.0f} mm open," if len(tight) < len(found.stations) else ""
        message = (
            f"{found.part} has only {low:.2f} mm of play from side to side{place} and binds in a damp season; "
            f"{2.0 * least:.1f} mm is the least, so make it narrower"
        )
        yield Finding(CHECK, "caution", (found.part,), message, round(low, 3), 2.0 * least, "mm", PLAY)
    if high > 2.0 * most + SLACK:
        where = next(s.open for s in found.stations if s.guided and s.across == high)
        message = (
            f"{found.part} has {high:.1f} mm of play from side to side, {where:.0f} mm open, and racks; "
            f"{2.0 * most:.1f} mm is the most, so make it wider, or set guides beside it"
        )
        yield Finding(CHECK, "caution", (found.part,), message, round(high, 3), 2.0 * most, "mm", PLAY)


def _above(found: Play, least: float, most: float) -> Iterator[Finding]:
    low, high = found.above
    if low < least - SLACK:
        message = f"{found.part} has only {low:.2f} mm above it; {least:.1f} mm is the least, so make it lower"
        yield Finding(CHECK, "caution", (found.part,), message, round(low, 3), least, "mm", PLAY)
    limit = ABOVE * most
    if limit + SLACK < high < REACH or (high >= REACH > low):
        message = (
            f"{found.part} can rise {high:.1f} mm as it opens and tips down in front; {limit:.1f} mm is the most, so "
            "set a kicker over its sides"
        )
        yield Finding(CHECK, "caution", (found.part,), message, round(high, 3), limit, "mm", PLAY)


def _unguided(found: Play) -> Iterator[Finding]:
    free = next((s for s in found.stations if not s.guided), None)
    if free is not None:
        opens = found.stations[-1].open
        message = (
            f"{found.part} leaves its guides when it is {free.open:.0f} mm open of {opens:.0f} mm; let it open less, "
            "or make the guides longer"
        )
        yield Finding(CHECK, "caution", (found.part,), message, round(free.open, 2), round(opens, 2), "mm", GUIDED)


def _room(ways: Ways, parts: Sequence[str], fixed: Sequence[str], way: Vector, moved: Placement) -> float:
    met = ways.first_met(parts, fixed, way, REACH, moved)
    return REACH if met is None else met.travel


def _aside(piece: Piece, slide: Slide, parts: Sequence[str]) -> tuple[Vector, Vector]:
    """To one side, and up: away from what it rests on; or, resting on nothing, along and across its front's grain."""
    for joint in piece.joints:
        if joint.kind == "rest" and len({joint.first, joint.second} & set(parts)) == 1:
            up = _away(joint, parts)
            if abs(dot(up, slide.along)) < 1e-6:
                return cross(slide.along, up), up
    at = piece[slide.part].at
    side = at.x if abs(dot(at.x, slide.along)) < 1e-6 else at.y
    return side, cross(side, slide.along)


def _away(joint: Joint, parts: Sequence[str]) -> Vector:
    return scaled(joint.closes, -1.0) if joint.first in parts else joint.closes
