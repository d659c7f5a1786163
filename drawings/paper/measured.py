"""What a printed number measures: the part it is read off, how that part is looked at, and between which points.

It travels with each dimension, and with each number in a table, into the written DXF, so that whoever reads the file
back can find the same two features on the solid and measure them again.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Vector = tuple[float, float, float]

#: length: from p to q along a direction; extent: of the whole part along it; radius and diameter: about p; depth: of
#: the round hole about p that the view looks into; angle: at p; height: of a point of an arc over its chord from p to
#: q; station: how far that point is from the chord's middle, along it; scale: how large the view is drawn.
Kind = Literal["length", "extent", "radius", "diameter", "depth", "angle", "height", "station", "scale"]


@dataclass(frozen=True, slots=True)
class Shown:
    """How a view shows a part: `right` and `up` on the paper as unit directions of the part's own frame.

    subjects: the names of the parts it holds for; none for the whole piece. A bent part is shown flat. at: for a
    section, how far along the direction to the eye (right x up) it is taken, mm.
    """

    subjects: tuple[str, ...] = ()
    right: Vector = (1.0, 0.0, 0.0)
    up: Vector = (0.0, 1.0, 0.0)
    at: float | None = None

    def length(self, p: Point, q: Point, along: Point) -> Measured:
        """The distance from p to q, view mm, along a unit direction of the view."""
        return Measured(self, "length", p, q, along)

    def extent(self, along: Point) -> Measured:
        """The whole part's reach along a unit direction of the view."""
        return Measured(self, "extent", (0.0, 0.0), (0.0, 0.0), along)

    def radius(self, centre: Point) -> Measured:
        return Measured(self, "radius", centre, centre, (0.0, 0.0))

    def diameter(self, centre: Point) -> Measured:
        return Measured(self, "diameter", centre, centre, (0.0, 0.0))

    def depth(self, centre: Point, radius: float) -> Measured:
        """Of the round hole of a radius about a point, its bottom away from the eye."""
        return Measured(self, "depth", centre, centre, (radius, radius))

    def height(self, chord: tuple[Point, Point], on_arc: Point) -> Measured:
        """Of a point of an arc over a chord of the same circle."""
        return Measured(self, "height", *chord, on_arc)

    def station(self, chord: tuple[Point, Point], on_arc: Point) -> Measured:
        """How far a point of an arc is from the middle of a chord of the same circle, along the chord."""
        return Measured(self, "station", *chord, on_arc)

    def scale(self) -> Measured:
        """How large the view is drawn on the paper."""
        return self.drawn(0.0)

    def drawn(self, long: float) -> Measured:
        """How large the view is drawn, by how long, paper mm, it shows what is measured before this."""
        return Measured(self, "scale", (0.0, 0.0), (long, 0.0), (0.0, 0.0))

    def angle(self, centre: Point, start: float, end: float) -> Measured:
        """The angle at a point between two lines of the view that leave it at so many degrees."""
        return Measured(self, "angle", centre, centre, (start, end))


@dataclass(frozen=True, slots=True)
class Measured:
    """What a number measures, view millimetres.

    along: the unit direction of a length; for an angle the directions of its two sides, degrees; for a depth the
    hole's radius; for an ordinate the point of the arc. within: how much more than its rounding the number may be off,
    because it is set alike for several that differ by less than a shop can set, mm.
    """

    shown: Shown
    kind: Kind
    p: Point
    q: Point
    along: Point
    within: float = 0.0


#: All that one number stands for: on several parts, or at several places.
Meant = Measured | tuple[Measured, ...] | None


def meanings(meant: Meant) -> tuple[Measured, ...]:
    """All of them, none where nothing is measured."""
    return (meant,) if isinstance(meant, Measured) else meant or ()
