"""Where a part stands: a rigid placement of its own frame in the piece, without the CAD kernel.

Directions have the maker's names, seen from in front of the piece: right (+x), left, back (+y), front, up (+z),
down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.errors import DesignError

Vector = tuple[float, float, float]

DIRECTIONS: dict[str, Vector] = {
    "right": (1.0, 0.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
    "back": (0.0, 1.0, 0.0),
    "front": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}


def dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def scaled(a: Vector, k: float) -> Vector:
    return (k * a[0], k * a[1], k * a[2])


def added(a: Vector, *others: Vector) -> Vector:
    """The sum of all the vectors."""
    return (
        a[0] + sum(o[0] for o in others),
        a[1] + sum(o[1] for o in others),
        a[2] + sum(o[2] for o in others),
    )


def unit(a: Vector) -> Vector:
    """`a` at length one; raises DesignError for a zero vector."""
    size = math.sqrt(dot(a, a))
    if size < 1e-12:
        raise DesignError("a direction can't have zero length")
    return scaled(a, 1.0 / size)


def square_to(v: Vector, axis: Vector) -> Vector:
    """What of a vector is square to a unit vector."""
    return added(v, scaled(axis, -dot(v, axis)))


def tidy(v: Vector) -> Vector:
    """A direction worked out from placements without its last digits' noise, so that equal parts stay equal; a unit
    vector still, to 1e-12."""
    return (round(v[0], 12) + 0.0, round(v[1], 12) + 0.0, round(v[2], 12) + 0.0)


@dataclass(frozen=True)
class Placement:
    """A rigid motion: own axes x, y, z and origin, in mm, right-handed.

    origin: where the own origin lands; x, y, z: unit vectors, the own axes seen from outside.
    """

    origin: Vector = (0.0, 0.0, 0.0)
    x: Vector = (1.0, 0.0, 0.0)
    y: Vector = (0.0, 1.0, 0.0)
    z: Vector = (0.0, 0.0, 1.0)

    def point(self, p: Vector) -> Vector:
        """An own point, seen from outside."""
        return added(self.origin, self.direction(p))

    def direction(self, v: Vector) -> Vector:
        """An own direction, seen from outside."""
        return added(scaled(self.x, v[0]), scaled(self.y, v[1]), scaled(self.z, v[2]))

    def own_point(self, p: Vector) -> Vector:
        """An outside point, in own coordinates."""
        return self.own_direction(added(p, scaled(self.origin, -1.0)))

    def own_direction(self, v: Vector) -> Vector:
        """An outside direction, in own coordinates."""
        return (dot(self.x, v), dot(self.y, v), dot(self.z, v))

    def __matmul__(self, inner: Placement) -> Placement:
        """First `inner`, then this."""
        return Placement(
            self.point(inner.origin),
            self.direction(inner.x),
            self.direction(inner.y),
            self.direction(inner.z),
        )

    def seen_from(self, other: Placement) -> Placement:
        """This placement in the coordinates of `other`."""
        return Placement(
            other.own_point(self.origin),
            other.own_direction(self.x),
            other.own_direction(self.y),
            other.own_direction(self.z),
        )

    def moved(self, dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Placement:
        """Shifted, in the piece's directions."""
        return Placement(added(self.origin, (dx, dy, dz)), self.x, self.y, self.z)

    def swung(self, degrees: float, about: tuple[float, float]) -> Placement:
        """Swung about the upright line through `about` (x, y); positive is counter-clockwise from above."""
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

        def turn(v: Vector) -> Vector:
            return (c * v[0] - s * v[1], s * v[0] + c * v[1], v[2])

        arm = added(self.origin, (-about[0], -about[1], 0.0))
        return Placement(added(turn(arm), (about[0], about[1], 0.0)), turn(self.x), turn(self.y), turn(self.z))

    def mirrored(self, width: float, middle: float = 0.0) -> Placement:
        """Where a part's mirror image stands, mirrored left for right in the plane x = `middle`.

        The image is reflected in its own frame too (y' = width - y), so both frames stay right-handed.
        """

        def flip(v: Vector) -> Vector:
            return (-v[0], v[1], v[2])

        far = self.point((0.0, width, 0.0))
        origin = (2.0 * middle - far[0], far[1], far[2])
        return Placement(origin, flip(self.x), scaled(flip(self.y), -1.0), flip(self.z))

    def matrix(self) -> tuple[tuple[float, float, float, float], ...]:
        """Rows of the 3 x 4 matrix [x y z | origin]."""
        return tuple((self.x[i], self.y[i], self.z[i], self.origin[i]) for i in range(3))


def turned_about(pin: Vector, along: Vector, degrees: float) -> Placement:
    """The motion that turns things right-handed about a line through `pin` along a unit vector (Rodrigues' formula)."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def turn(v: Vector) -> Vector:
        return added(scaled(v, c), scaled(cross(along, v), s), scaled(along, (1.0 - c) * dot(along, v)))

    x, y, z = (turn(v) for v in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
    return Placement(added(pin, scaled(turn(pin), -1.0)), x, y, z)


def place(origin: Vector = (0.0, 0.0, 0.0), grain: str | Vector = "right", face: str | Vector = "up") -> Placement:
    """A part with its own origin at `origin`, its grain (own x) and its face side (own z) pointing as named.

    Raises DesignError for an unknown direction or when grain and face are not square to each other.
    """
    x, z = named_direction(grain), named_direction(face)
    if abs(dot(x, z)) > 1e-9:
        raise DesignError("grain and face must be square to each other; choose two different directions")
    return Placement(origin, x, cross(z, x), z)


def named_direction(direction: str | Vector) -> Vector:
    """A direction by its name, or a vector at length one; raises DesignError for a name there is none of."""
    if not isinstance(direction, str):
        return unit(direction)
    if direction not in DIRECTIONS:
        raise DesignError(f'no direction is called "{direction}"; use {", ".join(DIRECTIONS)}')
    return DIRECTIONS[direction]
