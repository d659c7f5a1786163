"""The corner two boards make, flat or standing: its outer and inner line and the plane of its miter."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from model.cuts.removal import Plane
from model.errors import DesignError
from model.joints.joint import Stood
from model.placement import Vector, added, cross, dot, scaled, unit
from model.tolerance import CONTACT

#: Boards that lean less than this (as the sine) lie in the same plane; 0.01 mm over 1 m.
PARALLEL = 1e-5
#: The least turn, as the sine, that a miter makes sense for: half a degree.
LEAST_TURN = 0.0087


@dataclass(frozen=True)
class Band:
    """A board between its outer and its inner side, as the corner has them: `outward` (unit vector in the piece) out of
    the outer side, which lies at `outer` along it; the inner side lies `width` further in, mm."""

    part: Stood
    outward: Vector
    outer: float
    width: float

    def depth(self, p: Vector) -> float:
        """How far a point lies inside the outer side, as a share of the width: 0 on it, 1 on the inner side."""
        return (self.outer - dot(self.outward, p)) / self.width


@dataclass(frozen=True)
class Corner:
    """Two boards that run into each other at a corner. flat: their faces lie level, as in a frame; otherwise they
    stand, as in a carcass, and may lean as in a hopper."""

    first: Band
    second: Band
    flat: bool

    @cached_property
    def line(self) -> Vector:
        """Unit vector along the corner's outer line."""
        return unit(cross(self.first.outward, self.second.outward))

    @cached_property
    def outside(self) -> Vector:
        """A point of the outer line."""
        return self._met(0.0)

    @cached_property
    def inward(self) -> Vector:
        """From the outer line straight to the inner one, mm."""
        return added(self._met(1.0), scaled(self.outside, -1.0))

    @property
    def length(self) -> float:
        """Of the miter, from the outer line to the inner one, mm."""
        return math.sqrt(dot(self.inward, self.inward))

    @cached_property
    def plane(self) -> Plane:
        """The miter's plane, through the outer and the inner line; it bisects boards of one size. Its normal points
        to the first board."""
        a, b = self.first, self.second
        normal = unit(added(scaled(a.outward, 1.0 / a.width), scaled(b.outward, -1.0 / b.width)))
        return Plane(normal, dot(normal, self.outside))

    def half_angle(self, band: Band) -> float:
        """Between the miter and one board's outer side, radians."""
        return math.asin(min(1.0, band.width / self.length))

    def _met(self, depth: float) -> Vector:
        """The point nearest the piece's origin where both bands have the same depth, as a share."""
        a, b = self.first, self.second
        levels = (a.outer - depth * a.width, b.outer - depth * b.width)
        c = dot(a.outward, b.outward)
        u, v = ((levels[n] - c * levels[1 - n]) / (1.0 - c * c) for n in (0, 1))
        return added(scaled(a.outward, u), scaled(b.outward, v))


def corner(first: Stood, second: Stood) -> Corner:
    """The corner two boards make. Raises DesignError if they lie in line, cross, or stop short of its outer line."""
    flat = abs(dot(first.at.z, second.at.z)) > 1.0 - PARALLEL**2
    found = Corner(_band(first, second, flat), _band(second, first, flat), flat)
    turn = cross(found.first.outward, found.second.outward)
    if dot(turn, turn) < LEAST_TURN**2:
        raise DesignError(
            f"{first.name} and {second.name} lie in line and make no corner; a miter needs one (for boards end to "
            "end, a scarf)"
        )
    for band, other in ((found.first, found.second), (found.second, found.first)):
        _require_reach(found, band, other)
    return found


def _band(part: Stood, other: Stood, flat: bool) -> Band:
    """The board as the corner has it: between its edges if flat, between its faces if standing."""
    axis = part.at.y if flat else part.at.z
    _, low, _, high = part.wood.outline.bounds if flat else (0.0, 0.0, 0.0, part.wood.thickness)
    start = dot(axis, part.at.origin)
    toward_other = dot(axis, _middle(other)) - start - (low + high) / 2.0
    if toward_other > 0.0:
        return Band(part, scaled(axis, -1.0), -start - low, high - low)
    return Band(part, axis, start + high, high - low)


def _require_reach(c: Corner, band: Band, other: Band) -> None:
    """A board must run on to the whole of the miter, or past it; its middle must lie on its own side."""
    part = band.part
    out = cross(c.line, band.outward)
    middle = _middle(part)
    if dot(out, added(c.outside, scaled(middle, -1.0))) < 0.0:
        out = scaled(out, -1.0)
    if other.depth(middle) < 1.0:
        raise DesignError(
            f"{part.name} does not meet {other.part.name} at a corner; place both so that each runs on to the outside "
            "of the other"
        )
    own = part.at.own_direction(out)
    size = math.hypot(own[0], own[1])
    reach = part.wood.outline.extent((own[0] / size, own[1] / size))[1] * size + dot(out, part.at.origin)
    short = dot(out, c.outside) + max(0.0, dot(out, c.inward)) - reach
    if short > CONTACT:
        raise DesignError(
            f"{part.name} stops {short:.2f} mm short of the corner with {other.part.name}; for a miter both boards run "
            "on to its outside, where they are sawn off"
        )


def _middle(part: Stood) -> Vector:
    x0, y0, x1, y1 = part.wood.outline.bounds
    return part.at.point(((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.wood.thickness / 2.0))
