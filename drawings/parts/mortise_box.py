"""The eight corners of a mortise, leaning or not, and the way it leans."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.mortises import Mortise
from model.cuts.removal import Plane
from model.placement import Vector, added, dot, scaled, square_to, unit

Corners = tuple[Vector, Vector, Vector, Vector]
_ROUND = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))


@dataclass(frozen=True)
class MortiseBox:
    """A mortise as it is marked out, mm, in the frame of its part."""

    cut: Mortise

    @property
    def mouth(self) -> Corners:
        """The corners of its mouth, in the side it opens on."""
        return self._where(Plane(self.cut.mouth, dot(self.cut.mouth, self.cut.at)))

    @property
    def floor(self) -> Corners:
        """Those of its floor, in the same order."""
        cut = self.cut
        return self._where(cut.floor or Plane(cut.into, dot(cut.into, cut.at) + cut.depth))

    @property
    def inward(self) -> Vector:
        """Square into the side it opens on."""
        return scaled(self.cut.mouth, -1.0)

    @property
    def aside(self) -> Vector:
        """The unit direction in that side toward which it leans."""
        return unit(square_to(self.cut.into, self.inward))

    @property
    def down(self) -> Vector:
        """A point half way down one of its corners, where nothing of the solid runs but that."""
        return scaled(added(self.mouth[0], self.floor[0]), 0.5)

    @property
    def run(self) -> Vector:
        """The unit direction that it is long in."""
        return self.cut.along

    @property
    def deep(self) -> tuple[Vector, Vector]:
        """Its middle line, from its mouth as far as it is deep."""
        return self.cut.at, added(self.cut.at, scaled(self.cut.into, self.cut.depth))

    @property
    def lean(self) -> float:
        """Off square to that side, degrees."""
        return math.degrees(math.acos(max(-1.0, min(1.0, dot(self.cut.into, self.inward)))))

    def _where(self, plane: Plane) -> Corners:
        """Where the four edges down the mortise meet a plane."""
        cut, found = self.cut, []
        for s, t in _ROUND:
            p = added(cut.at, scaled(cut.along, s * cut.length / 2.0), scaled(cut.across, t * cut.width / 2.0))
            deep = (plane.offset - dot(plane.normal, p)) / dot(plane.normal, cut.into)
            found.append(added(p, scaled(cut.into, deep)))
        a, b, c, d = found
        return a, b, c, d
