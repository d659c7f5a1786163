"""How one placed part comes to a flat side of another: the plane between them, seen from both."""

from __future__ import annotations

from dataclasses import dataclass

from model.cuts.cut import Side
from model.errors import DesignError
from model.joints.joint import Stood, clean
from model.layout.outline import Point
from model.placement import Vector, added, dot, scaled

#: Parts whose faces lean less than this (as the sine) count as square to each other; 0.01 mm over 1 m.
SQUARE = 1e-5


@dataclass(frozen=True)
class Meeting:
    """`first` comes square to one side of `second` with an end or an edge.

    side: of the second part; normal: out of that side, in the piece; slope: the same normal in the first part's own
    plane (x, y); offset: the side's distance along it, in the first part's own coordinates.
    """

    first: Stood
    second: Stood
    side: Side
    normal: Vector
    slope: Point
    offset: float

    @property
    def run(self) -> Point:
        """Unit direction along the meeting line, in the first part's own plane."""
        return (-self.slope[1], self.slope[0])

    @property
    def depth(self) -> float:
        """How far the first part runs in past the side, mm; negative for how far it stops short."""
        return self.offset - self.first.wood.outline.extent(self.slope)[0]

    def reach(self, down_to: float = 0.0) -> tuple[float, float]:
        """Ends, along the meeting line, of what of the first part lies beyond `down_to` mm into the second."""
        return self.first.wood.outline.extent(self.run, [(self.slope, self.offset - down_to)])

    def point(self, along: float, into: float = 0.0, height: float | None = None) -> Vector:
        """In the piece: `along` the meeting line, `into` the second part, at `height` in the first's thickness (its
        middle if not said)."""
        away, z = self.offset - into, self.first.wood.thickness / 2.0 if height is None else height
        x = along * self.run[0] + away * self.slope[0]
        y = along * self.run[1] + away * self.slope[1]
        return self.first.at.point((x, y, z))

    @property
    def along(self) -> Vector:
        """The meeting line's unit direction in the piece."""
        return self.first.at.direction((*self.run, 0.0))

    def on_second(self, p: Vector) -> Point:
        """A point of the piece in the second part's own plane."""
        x, y, _ = self.second.at.own_point(p)
        return (clean(x), clean(y))


def meeting(first: Stood, second: Stood) -> Meeting:
    """How `first` comes to the nearest side of `second`; raises DesignError if it doesn't stand square to it."""
    axis = second.at.z
    middle = first.at.point(_middle(first))
    height = dot(axis, added(middle, scaled(second.at.origin, -1.0)))
    side: Side = "face" if height > second.wood.thickness / 2.0 else "back"
    normal = axis if side == "face" else scaled(axis, -1.0)
    own = first.at.own_direction(normal)
    if abs(own[2]) > SQUARE:
        raise DesignError(
            f"{first.name} does not stand square to {second.name}; place it so that its face is square to the other's"
        )
    plane = second.wood.thickness if side == "face" else 0.0
    foot = second.at.point((0.0, 0.0, plane))
    offset = dot(normal, added(foot, scaled(first.at.origin, -1.0)))
    return Meeting(first, second, side, normal, (own[0], own[1]), offset)


def _middle(part: Stood) -> Vector:
    x0, y0, x1, y1 = part.wood.outline.bounds
    return ((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.wood.thickness / 2.0)
