"""A dado that leans, for a shelf let into a side that splays: its walls are the shelf's own faces."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.cut import Blank, Side
from model.cuts.sawn import SQUARE, SawnTrench
from model.errors import CutError
from model.placement import Vector, added, scaled


@dataclass(frozen=True)
class SlantedDado(SawnTrench):
    """Run right across a face at a slant, its floor square to its walls, as a tilted dado head saws it: a dado across
    the grain, a groove along it.

    at: on the middle line of its mouth, in the face side or the back side; into: along the grain of what is let in.
    """

    @property
    def name(self) -> str:
        return "slanted dado" if self.axis == 0 else "slanted groove"

    @property
    def axis(self) -> int:
        """The part's own axis that its walls lie one after the other on: 0 along the grain, 1 across it."""
        return 0 if abs(self.across[0]) > abs(self.across[1]) else 1

    @property
    def side(self) -> Side:
        return "face" if self.into[2] < 0.0 else "back"

    @property
    def lean(self) -> float:
        """Of its walls from square to the side, degrees."""
        return math.degrees(math.acos(min(1.0, abs(self.into[2]))))

    @property
    def mouth(self) -> tuple[float, float]:
        """Where its walls meet the side, along its axis, mm, in that order."""
        half = self.width / 2.0 / abs(self.across[self.axis])
        return self.at[self.axis] - half, self.at[self.axis] + half

    @property
    def floor_edges(self) -> tuple[Vector, Vector]:
        """A point of either edge of its floor, mm, in the order of its mouth's walls."""
        middle, half = added(self.at, scaled(self.into, self.depth)), scaled(self.across, self.width / 2.0)
        ends = added(middle, scaled(half, -1.0)), added(middle, half)
        return ends if self.across[self.axis] > 0.0 else (ends[1], ends[0])

    @property
    def deep_wall(self) -> int:
        """Which of its walls is the deeper: the first or the second, 0 or 1."""
        first, second = (abs(p[2] - self.at[2]) for p in self.floor_edges)
        return 0 if first > second else 1

    @property
    def wall_depth(self) -> float:
        """Down its deeper wall, mm: what a maker can measure."""
        return self.depth + self._skew

    @property
    def _skew(self) -> float:
        """How much further than the middle its deeper wall reaches, and its other one less far, mm."""
        return self.width / 2.0 * math.tan(math.radians(self.lean))

    def check(self, blank: Blank) -> None:
        super().check(blank)
        if abs(self.into[1 - self.axis]) > SQUARE or abs(self.across[1 - self.axis]) > SQUARE:
            raise CutError(f"a {self.name} runs square across a part or along it; lay it out that way")
        if self.depth <= self._skew:
            raise CutError(
                f"a {self.name} {self.width:g} mm wide that leans {self.lean:.1f} degrees must be more than "
                f"{self._skew:.2f} mm deep, or its floor comes out at its mouth; it is {self.depth:.2f} mm"
            )
        most = (blank.thickness - self.width / 2.0 * math.sin(math.radians(self.lean))) / abs(self.into[2])
        if self.depth >= most:
            raise CutError(
                f"a {self.name} {self.depth:.2f} mm deep that leans {self.lean:.1f} degrees comes through stock "
                f"{blank.thickness:g} mm thick; {most / 2.0:.1f} mm, about half the way, is common practice"
            )
