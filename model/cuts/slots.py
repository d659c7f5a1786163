"""Slotted holes, along which a screw or a peg slides as the wood moves."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Footprint, positive
from model.cuts.faces import entered
from model.cuts.removal import RUN_OUT, Prism, Removal
from model.errors import CutError
from model.layout.outline import Outline, circle
from model.placement import Placement, Vector, added, cross, scaled
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class SlottedHole(AimedCut):
    """A round-ended slot: the middle of its mouth at `at`, bored `into` the wood, long `along` (unit vectors).

    width: the diameter of its ends; length: over all; depth, mm. As long as it is wide, it is a plain round hole.
    """

    into: Vector
    along: Vector
    width: float
    length: float
    depth: float

    @property
    def name(self) -> str:
        return "hole" if self.round else "slotted hole"

    @property
    def round(self) -> bool:
        return self.length - self.width < SAME_POINT

    @property
    def travel(self) -> float:
        """How far what sits in its middle can slide either way, mm."""
        return (self.length - self.width) / 2.0

    @property
    def outline(self) -> Outline:
        """About its middle, x along it."""
        return circle((0.0, 0.0), self.width) if self.round else stadium(self.length, self.width)

    def removals(self, blank: Blank) -> Iterable[Removal]:
        mouth = added(self.at, scaled(self.into, -RUN_OUT))
        frame = Placement(mouth, self.along, cross(self.into, self.along), self.into)
        return (Prism(frame, self.outline, self.depth + RUN_OUT),)

    def check(self, blank: Blank) -> None:
        positive(self.name, width=self.width, length=self.length, depth=self.depth)
        if self.length < self.width - SAME_POINT:
            raise CutError(f"a slot {self.length:g} mm long can't be {self.width:g} mm wide; make it as long at least")

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(self.into)
        if side is not None:
            turned = self.outline.turned(math.degrees(math.atan2(self.along[1], self.along[0])))
            through = self.depth >= blank.thickness - SAME_POINT
            yield Footprint(turned.moved(*self.at[:2]), side, min(self.depth, blank.thickness), through)


def stadium(length: float, width: float) -> Outline:
    """A slot's outline about its middle, its ends half circles."""
    r, half = width / 2.0, (length - width) / 2.0
    return Outline(((-half, -r), (half, -r), (half, r), (-half, r)), (0.0, 1.0, 0.0, 1.0))
