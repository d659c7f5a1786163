"""What lies on the way in: the doorway, a corner, a flight of stairs and its landing, the height of the room.

Each is judged by the hull of what is carried. A flight is a doorway as high as its headroom is square to the pitch, the
load carried along the slope. A corner and a landing are turned level, whatever stands upright, a landing's flights
taken for its arms. No CAD kernel here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from model.checks.passage.flat_hull import SLACK, rectangles
from model.checks.passage.load import Load
from model.checks.passage.turns_round import Corner, longest_round, rounds

DOORS = "[place] door and corner of the order; a door of 760 x 1980 mm is common practice"
STAIRS = (
    "[place] stair of the order; headroom square up from the line of the nosings, as International Residential Code "
    "(2018), R311.7.2, measures it; carried along the slope and turned level on the landing (common practice)"
)
CEILING = "[place] ceiling of the order; what is carried in lying is stood up over one of its edges (common practice)"


@dataclass(frozen=True)
class Verdict:
    """passes: whether; says: how it passes, or what it would need; value against limit in mm."""

    passes: bool
    says: str
    value: float
    limit: float


class Obstacle(Protocol):
    """Something on the way in; proof: what is proved of it; source: of its limits."""

    @property
    def proof(self) -> str: ...
    @property
    def source(self) -> str: ...
    def judge(self, load: Load) -> Verdict:
        """Whether a load passes."""


@dataclass(frozen=True)
class Doorway:
    """Clear width and height, mm."""

    width: float
    height: float
    proof: str = "doorways that it passes whole"
    source: str = DOORS

    def judge(self, load: Load) -> Verdict:
        """The narrowest doorway of this height that it passes, carried along one of its axes, rolled as helps."""
        found = load.passage(self.height)
        if found is None:
            return Verdict(False, f"needs a doorway higher than {self.height:g} mm", 0.0, self.width)
        passes = found.width <= self.width + SLACK
        if passes:
            return Verdict(True, f"a doorway {found.width:.0f} mm wide, {found.manner}", found.width, self.width)
        lowest = load.lowest(self.width)
        other = f" (or one {self.width:g} mm wide and {lowest:.0f} mm high)" if lowest is not None else ""
        says = f"needs a doorway {found.width:.0f} mm wide, {found.manner}{other}; the door is {self.width:g} x "
        return Verdict(False, f"{says}{self.height:g} mm", found.width, self.width)


@dataclass(frozen=True)
class Bend:
    """A square corner of a passage: widths before and after, and height, mm."""

    corner: Corner
    height: float
    proof: str = "corners that it goes round whole"
    source: str = DOORS

    def judge(self, load: Load) -> Verdict:
        """Whether it goes round with one of its axes upright."""
        a, b = self.corner
        return _turned(load, self.corner, self.height, math.inf, f"round a corner of {a:g} and {b:g} mm")


@dataclass(frozen=True)
class Flight:
    """A straight flight: clear width, headroom square up from the nosings, rise and going of a step, mm."""

    width: float
    headroom: float
    rise: float
    going: float
    proof: str = "flights of stairs that it goes up whole"
    source: str = STAIRS

    @property
    def pitch(self) -> float:
        """Degrees from the level."""
        return math.degrees(math.atan2(self.rise, self.going))

    @property
    def clear(self) -> float:
        """Height square to the slope, mm: headroom times the cosine of the pitch."""
        return self.headroom * math.cos(math.radians(self.pitch))

    def judge(self, load: Load) -> Verdict:
        """The narrowest flight of this pitch and headroom that it goes up, along the slope."""
        found = load.passage(self.clear)
        stair = f"a stair of {self.pitch:.0f}° with {self.headroom:g} mm of headroom"
        if found is None:
            return Verdict(False, f"is too tall for {stair}, {self.clear:.0f} mm square to the slope", 0.0, self.width)
        if found.width <= self.width + SLACK:
            return Verdict(True, f"up {stair}, {found.manner}", found.width, self.width)
        says = f"needs {stair} to be {found.width:.0f} mm wide, {found.manner}; it is {self.width:g} mm"
        return Verdict(False, says, found.width, self.width)


@dataclass(frozen=True)
class Landing:
    """Where a stair turns: the flights' width, the landing's depth and headroom, mm; half: whether the next flight goes
    back beside the first, so that the landing is only two flights long."""

    width: float
    depth: float
    headroom: float
    half: bool
    proof: str = "landings that it turns on whole"
    source: str = STAIRS

    def judge(self, load: Load) -> Verdict:
        """Whether it turns, level, with one of its axes upright."""
        room = 2.0 * self.width if self.half else math.inf
        what = f"on a landing {self.depth:g} mm deep, the flights {self.width:g} mm wide"
        return _turned(load, (self.width, self.depth), self.headroom, room, what)


@dataclass(frozen=True)
class Room:
    """The height of the room, mm, for what comes in lying and must be stood up; doorway: that it comes in by."""

    ceiling: float
    doorway: Doorway
    proof: str = "rooms in which it can be stood up whole"
    source: str = CEILING

    def judge(self, load: Load) -> Verdict:
        """Whether it comes in upright, or can be stood up under the ceiling."""
        stands = load.tall((0.0, 0.0, 1.0))
        if stands > self.ceiling + SLACK:
            return Verdict(False, f"is {stands:.0f} mm tall; the room {self.ceiling:g} mm", stands, self.ceiling)
        if self._upright(load, stands):
            return Verdict(True, "into the room as it stands", stands, self.ceiling)
        needs = max(load.stood_up, stands)
        if needs <= self.ceiling + SLACK:
            return Verdict(True, f"into the room, stood up under {needs:.0f} mm", needs, self.ceiling)
        says = f"comes in lying and needs {needs:.0f} mm of height to be stood up; the room has {self.ceiling:g} mm"
        return Verdict(False, says, needs, self.ceiling)

    def _upright(self, load: Load, stands: float) -> bool:
        level = [axis for axis in load.axes if abs(axis[2]) < 1e-6]
        narrow = min((load.tall(axis) for axis in level), default=math.inf)
        return stands <= self.doorway.height + SLACK and narrow <= self.doorway.width + SLACK


def obstacles(
    door: Sequence[float], corner: Sequence[float], stair: Sequence[float], landing: float, half: bool, ceiling: float
) -> Iterator[Obstacle]:
    """What there is of them, in the order it is met; a zero stands for none. stair: width, headroom, rise, going."""
    doorway = Doorway(door[0], door[1])
    yield doorway
    if max(corner) > 0.0:
        yield Bend((corner[0], corner[1]), door[1])
    if stair[0] > 0.0:
        yield Flight(stair[0], stair[1], stair[2], stair[3])
        if landing > 0.0:
            yield Landing(stair[0], landing, stair[1], half)
    if ceiling > 0.0:
        yield Room(ceiling, doorway)


def _turned(load: Load, corner: Corner, height: float, room: float, what: str) -> Verdict:
    """Turned level in a corner, its length no more than the room there is: the rectangle round it that has least too
    much, and how long it may be."""
    over, best, thin = math.inf, (0.0, 0.0), math.inf
    for axis, seen in zip(load.axes, load.shadows, strict=True):
        if load.tall(axis) > height + SLACK:
            continue
        for length, thickness in rectangles(seen):
            sideways = thickness <= min(corner) + SLACK and length <= max(corner) + SLACK
            if sideways or (rounds(length, thickness, corner) and length <= room + SLACK):
                return Verdict(True, what, length, max(length, min(max(corner), room)))
            thin = min(thin, thickness)
            longest = min(longest_round(thickness, corner), room)
            if longest > 0.0 and length - longest < over:
                over, best = length - longest, (length, longest)
    if math.isinf(over) and math.isfinite(thin):
        says = f"can't be turned {what}: it is {thin:.0f} mm across, and only {min(corner):g} mm goes round"
        return Verdict(False, says, thin, min(corner))
    if math.isinf(over):
        return Verdict(False, f"is too tall every way to be turned {what}", 0.0, height)
    says = f"can't be turned {what}: {best[0]:.0f} mm long, where {best[1]:.0f} mm would go round"
    return Verdict(False, says, *best)
