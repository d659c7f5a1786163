"""The way home of a part that can't go in one straight line: legs in the order in which it takes them.

    foot = tip(1.5, pin=(0, 8, 612), along="right")
    piece.step("Hang the door", door, way=(come(foot.leaning("up")), foot, push("down", 6)))

It comes from clear of everything, is pushed and tipped, and after the last leg is home. Millimetres, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from model.errors import DesignError
from model.placement import DIRECTIONS, Placement, Vector, added, dot, named_direction, scaled, turned_about

#: How a length, mm, is printed.
Show = Callable[[float], str]


@dataclass(frozen=True)
class Push:
    """A straight leg: the unit vector that it is pushed along, and how far, mm; infinite for the leg that brings it."""

    along: Vector
    travel: float

    @property
    def undone(self) -> Placement:
        """The motion that takes the part back to where the leg began, from where it ended; no further for the first."""
        return Placement(scaled(self.along, -self.travel if math.isfinite(self.travel) else 0.0))

    def words(self, show: Show) -> str:
        """As a maker says it."""
        if math.isinf(self.travel):
            return f"bring it in {toward(self.along)}"
        return f"push it {show(self.travel)} {toward(self.along)}"


@dataclass(frozen=True)
class Tip:
    """A leg that turns: by `angle` degrees, right-handed about `along` (unit vector) through `pin`, a point of the
    piece where that line lies as it turns; it leaned as much before."""

    angle: float
    pin: Vector
    along: Vector

    @property
    def undone(self) -> Placement:
        """The motion that leans it again."""
        return turned_about(self.pin, self.along, -self.angle)

    def leaning(self, direction: str | Vector) -> Vector:
        """A direction, by its name or as a vector, as it leans with the part before it is tipped true."""
        return self.undone.direction(named_direction(direction))

    def words(self, show: Show) -> str:
        """As a maker says it."""
        return f"tip it true by {self.angle:.1f}°"


Leg = Push | Tip


def come(direction: str | Vector) -> Push:
    """The first leg: straight in from clear of everything, a direction's name or a vector."""
    return Push(named_direction(direction), math.inf)


def push(direction: str | Vector, travel: float) -> Push:
    """A straight leg of `travel` mm; raises DesignError for one of no length."""
    if not 0.0 < travel < math.inf:
        raise DesignError(f"a part can't be pushed {travel:g} mm; give more than zero")
    return Push(named_direction(direction), travel)


def tip(angle: float, pin: Vector, along: str | Vector) -> Tip:
    """A turn by `angle` degrees, right-handed about a line through `pin` in a direction; raises DesignError for none,
    or for half a turn and more."""
    if not 0.0 < angle < 180.0:
        raise DesignError(f"a part can't be tipped by {angle:g}°; give more than 0 and less than 180")
    return Tip(angle, pin, named_direction(along))


def checked(way: Sequence[Leg]) -> tuple[Leg, ...]:
    """The legs of a way home; raises DesignError where only the first does not come from clear of everything."""
    brought = [isinstance(leg, Push) and math.isinf(leg.travel) for leg in way]
    if way and (not brought[0] or any(brought[1:])):
        raise DesignError("a way home begins with come(...), and only there; then push(...) and tip(...)")
    return tuple(way)


def millimetres(length: float) -> str:
    """A length to the millimetre, a short one to a tenth.

    >>> millimetres(12.4), millimetres(0.62)
    ('12 mm', '0.6 mm')
    """
    return f"{length:.0f} mm" if length >= 1.0 else f"{length:.1f} mm"


def told(way: Sequence[Leg], show: Show = millimetres) -> str:
    """The whole way in a maker's words; show: how a length is printed."""
    return ", then ".join(leg.words(show) for leg in way)


def closing_direction(way: Sequence[Leg]) -> Vector:
    """The unit vector along which it comes home at last."""
    return next(leg.along for leg in reversed(way) if isinstance(leg, Push))


def toward(along: Vector) -> str:
    """A direction in a maker's words."""
    name, v = max(DIRECTIONS.items(), key=lambda item: dot(item[1], along))
    off = math.hypot(*added(along, scaled(v, -1.0)))
    words = {"up": "upward", "down": "downward", "back": "to the back", "front": "to the front"}
    said = words.get(name, f"to the {name}")
    return said if off < 1e-3 else f"slantwise {said}"
