"""A slanted dado as it is marked out: the four corners of its mouth, the edges of its floor, the way it leans."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.cutting.finished import outline_at
from model.cuts.slanted_dado import SlantedDado
from model.layout.outline import Point
from model.part import Part
from model.placement import Vector, added, scaled, square_to, unit


@dataclass(frozen=True)
class SlantedTrench:
    """A slanted dado right across its part, mm, in the frame of the part."""

    cut: SlantedDado
    part: Part

    @property
    def run(self) -> Vector:
        """The unit direction that it runs in."""
        return (0.0, 1.0, 0.0) if self.cut.axis == 0 else (1.0, 0.0, 0.0)

    @property
    def inward(self) -> Vector:
        """Square into the side it opens on."""
        return (0.0, 0.0, -1.0) if self.cut.side == "face" else (0.0, 0.0, 1.0)

    @property
    def aside(self) -> Vector:
        """The unit direction in that side toward which it leans."""
        return unit(square_to(self.cut.into, self.inward))

    @property
    def lean(self) -> float:
        """Off square to that side, degrees."""
        return self.cut.lean

    @property
    def level(self) -> float:
        """The height of that side over the back side, mm."""
        return self.part.thickness if self.cut.side == "face" else 0.0

    @property
    def mouth(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        """Either wall's two ends on that side, in the plan."""
        first, second = (self._across(place, self.level) for place in self.cut.mouth)
        return first, second

    @property
    def floor(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        """The ends of either edge of its floor, in the plan."""
        first, second = (self._across(p[self.cut.axis], p[2]) for p in self.cut.floor_edges)
        return first, second

    @property
    def deep(self) -> tuple[Vector, Vector]:
        """A line down its deeper wall, from a corner of its mouth to its floor."""
        x, y = self.mouth[self.cut.deep_wall][0]
        corner = (x, y, self.level)
        return corner, added(corner, scaled(self.cut.into, self.cut.wall_depth))

    @property
    def down(self) -> Vector:
        """A point half way down that line."""
        return scaled(added(*self.deep), 0.5)

    def _across(self, place: float, height: float) -> tuple[Point, Point]:
        """Where a line that runs as it does enters the part and leaves it, at a height over the back side."""
        axis = self.cut.axis
        way = (1.0, 0.0) if axis == 0 else (0.0, 1.0)
        on = [(way, place), ((-way[0], -way[1]), -place)]
        low, high = outline_at(self.part, height).extent((self.run[0], self.run[1]), on)
        return ((place, low), (place, high)) if axis == 0 else ((low, place), (high, place))
