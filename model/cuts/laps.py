"""Cuts by which two parts lie over each other: the lap sunk into a side, the slot let in from an edge."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from model.cuts.cut import Blank, Cut, Footprint, Side, mirrored_edge, positive, shallower
from model.cuts.faces import sunk
from model.cuts.removal import RUN_OUT, Removal
from model.cuts.through import Notch
from model.errors import CutError
from model.layout.clipping import HalfPlane, around, clipped
from model.layout.outline import Outline, Point


@dataclass(frozen=True)
class Shoulder:
    """The straight wall a lap ends at: through `at` (x, y), mm; `beyond` (unit) points into the wood that stays."""

    at: Point
    beyond: Point

    @property
    def angle(self) -> float:
        """Between the shoulder and the grain, degrees: 90 is square across, 0 runs along it."""
        return math.degrees(math.atan2(abs(self.beyond[0]), abs(self.beyond[1])))

    @property
    def half(self) -> HalfPlane:
        """The lap's side of it."""
        return self.beyond, self.beyond[0] * self.at[0] + self.beyond[1] * self.at[1]

    def mirrored(self, width: float) -> Shoulder:
        return Shoulder((self.at[0], width - self.at[1]), (self.beyond[0], -self.beyond[1]))


@dataclass(frozen=True)
class Lap(Cut):
    """Wood sunk `depth` mm into one side between its shoulders, and out of the part wherever none stands: one
    shoulder makes an end lap, two a lap that the other part crosses."""

    shoulders: tuple[Shoulder, ...]
    depth: float
    side: Side = "face"

    @property
    def passes(self) -> bool:
        """Whether wood stands on two opposite sides, so that the part runs on past the lap."""
        walls = [s.beyond for s in self.shoulders]
        return any(a[0] * b[0] + a[1] * b[1] < -0.5 for n, a in enumerate(walls) for b in walls[n + 1 :])

    def width(self, blank: Blank) -> float:
        """From the first shoulder square across the lap to where it ends, mm: the next shoulder or the part's end."""
        beyond, offset = self.shoulders[0].half
        return offset - min(beyond[0] * x + beyond[1] * y for x, y in self.region(blank))

    def region(self, blank: Blank, past: float = 0.0) -> list[Point]:
        """Its corners in plan, in the box round the part grown by `past` mm."""
        return clipped(around(blank.outline.bounds, past), [s.half for s in self.shoulders])

    def removals(self, blank: Blank) -> Iterable[Removal]:
        return (sunk(Outline(tuple(self.region(blank, RUN_OUT))), self.side, self.depth, blank.thickness),)

    def mirrored(self, blank: Blank) -> Lap:
        return replace(self, shoulders=tuple(s.mirrored(blank.width) for s in self.shoulders))

    def check(self, blank: Blank) -> None:
        positive("lap", depth=self.depth)
        shallower("lap", self.depth, blank.thickness)
        if not self.shoulders:
            raise CutError("a lap needs a shoulder; without one it would thin the whole part, so choose thinner stock")
        if not self.region(blank):
            raise CutError("a lap misses the part it is cut in; check where the two parts stand")

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return (Footprint(Outline(tuple(self.region(blank))), self.side, self.depth),)


@dataclass(frozen=True)
class Slot(Notch):
    """A slot let in square through the part from one edge, for another part to slide into: `width` mm across,
    `length` mm in from the edge along its middle. Its outline runs out past the edge."""

    width: float
    length: float

    def mirrored(self, blank: Blank) -> Slot:
        return replace(self, outline=self.outline.mirrored(blank.width, mirrored_edge))

    def check(self, blank: Blank) -> None:
        positive("slot", width=self.width, length=self.length)
        super().check(blank)
