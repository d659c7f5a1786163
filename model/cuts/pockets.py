"""The pocket for a slanting screw: a wide flat-bottomed bore in from the face, a clearance hole on out of the end."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, positive
from model.cuts.drilling import drilled
from model.cuts.removal import RUN_OUT, Removal
from model.errors import CutError
from model.placement import Vector, added, scaled

#: Least wood between the pocket and the other side, mm (1/8 in, common practice).
LEAST_UNDER = 3.0


@dataclass(frozen=True)
class Pocket(AimedCut):
    """The screw leaves the wood at `at`, going `into` the next part (unit vector); its head sits `collar` mm back from
    there, in a bore of `diameter` that runs on out of the face; `clearance`: diameter of the hole for its shank."""

    into: Vector
    diameter: float
    collar: float
    clearance: float

    @property
    def name(self) -> str:
        return "screw pocket"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        seat = added(self.at, scaled(self.into, -self.collar))
        rise = blank.thickness + self.diameter
        back = rise / abs(self.into[2])
        mouth = added(seat, scaled(self.into, -back))
        yield drilled(mouth, self.into, self.diameter, back)
        # on past the end, which may slant to the screw
        yield drilled(seat, self.into, self.clearance, self.collar + self.clearance + RUN_OUT)

    def check(self, blank: Blank) -> None:
        positive("screw pocket", diameter=self.diameter, collar=self.collar, clearance=self.clearance)
        if abs(self.into[2]) < 0.05:
            raise CutError("a screw pocket must slant down from a face; 15 degrees is common practice")
        back = self.at[2] - self.collar * self.into[2]
        level = (1.0 - self.into[2] ** 2) ** 0.5
        lowest = (back if self.into[2] < 0.0 else blank.thickness - back) - self.diameter / 2.0 * level
        if lowest < LEAST_UNDER:
            raise CutError(
                f"a screw pocket {self.diameter:.1f} mm across leaves {lowest:.1f} mm under it in stock "
                f"{blank.thickness:g} mm thick; {LEAST_UNDER:g} mm is the least, so use thicker stock"
            )
