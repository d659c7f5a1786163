"""Gains for hinge leaves: shallow seats that open on the side where the knuckle lies."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Footprint, positive
from model.cuts.faces import entered
from model.cuts.removal import RUN_OUT, Prism, Removal
from model.errors import CutError
from model.layout.outline import Outline, Point
from model.placement import Placement, Vector, added, cross, scaled


@dataclass(frozen=True)
class HingeGain(AimedCut):
    """A seat for one leaf, in the part's own frame: `at` the middle of its mouth on the arris, sunk `into` the wood,
    reaching `across` from the arris (unit vectors, square to each other).

    length: along the arris; leaf: across; depth: into the wood, mm.
    """

    into: Vector
    across: Vector
    length: float
    leaf: float
    depth: float

    @property
    def name(self) -> str:
        return "hinge gain"

    @property
    def along(self) -> Vector:
        """Along the arris."""
        return cross(self.across, self.into)

    def removals(self, blank: Blank) -> Iterable[Removal]:
        half = self.length / 2.0
        seat = Outline(((-half, -RUN_OUT), (half, -RUN_OUT), (half, self.leaf), (-half, self.leaf)))
        frame = Placement(added(self.at, scaled(self.into, -RUN_OUT)), self.along, self.across, self.into)
        return (Prism(frame, seat, self.depth + RUN_OUT),)

    def check(self, blank: Blank) -> None:
        positive(self.name, length=self.length, leaf=self.leaf, depth=self.depth)
        through = blank.thickness if abs(self.into[2]) > 0.5 else blank.width
        if self.depth > through / 3.0:
            raise CutError(
                f"a hinge gain {self.depth:.1f} mm deep is too much for {through:g} mm of wood; a third of it, "
                f"{through / 3.0:.1f} mm, is the most (common practice), so take a thinner hinge"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(self.into)
        if side is not None:
            half = self.length / 2.0
            ring = [self._plan(s, a) for s, a in ((-half, 0.0), (half, 0.0), (half, self.leaf), (-half, self.leaf))]
            # seen from above the ring runs clockwise where the seat is sunk from above
            yield Footprint(Outline(tuple(ring if side == "back" else ring[::-1])), side, self.depth)

    def _plan(self, along: float, across: float) -> Point:
        x, y, _ = added(self.at, scaled(self.along, along), scaled(self.across, across))
        return (x, y)
