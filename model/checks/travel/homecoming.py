"""What playing the steps finds of one move: how parts go home, or what keeps one from it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model.checks.travel.ways import InTheWay
from model.joints.joint import Joint
from model.placement import Vector, dot
from model.way_home import Leg, closing_direction

#: A part that goes home at less than this to a glued surface, as a sine, drags along it.
DRAGS = 0.1


@dataclass(frozen=True)
class Homecoming:
    """One move of a step: what goes home, along which unit vector at the last, and which joints close as it does; legs:
    of its whole way; said: whether its step says them; judged: whether the way was proved clear of all others, none of
    them set aside because it overlaps at home."""

    step: int
    parts: tuple[str, ...]
    along: Vector
    joints: tuple[Joint, ...]
    joined: bool
    legs: tuple[Leg, ...]
    said: bool
    judged: bool = True

    @property
    def dragged(self) -> tuple[Joint, ...]:
        """Glued joints along whose surfaces it slides home."""
        return tuple(j for j in self.joints if _drags(j, self.along))

    @property
    def ends(self) -> tuple[str, ...]:
        """Parts that its joints receive, or that they enter, all along the one way; not what is nailed on after."""
        met = [j for j in self.joints if abs(dot(j.closes, self.along)) > 1.0 - 1e-6]
        entering = [j for j in met if j.glue_area > 0.0 or not j.hardware]
        return tuple(sorted({j.first if j.second in self.parts else j.second for j in entering}))


@dataclass(frozen=True)
class Trapped:
    """Parts that can't go home in their step, the way tried first, and what stands in it; said: whether the step says
    that way; given_up: whether the search for a way round came to the end of its patience."""

    step: int
    parts: tuple[str, ...]
    legs: tuple[Leg, ...]
    blocker: InTheWay
    said: bool
    given_up: bool

    @property
    def along(self) -> Vector:
        """The unit vector along which it would come home."""
        return closing_direction(self.legs)


def drags(joints: Iterable[Joint], along: Vector) -> bool:
    """Whether what goes home along a unit vector slides along glue in any of its joints."""
    return any(_drags(j, along) for j in joints)


def _drags(joint: Joint, along: Vector) -> bool:
    return joint.glue_area > 0.0 and abs(dot(joint.closes, along)) < DRAGS
