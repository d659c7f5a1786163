"""Cuts that go right through: the outline a part is sawn to, and openings inside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model.cuts.cut import Blank, Cut, Footprint, mirrored_edge
from model.cuts.removal import RUN_OUT, Prism, Removal
from model.errors import CutError
from model.layout.outline import Outline
from model.placement import Placement
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class Profile(Cut):
    """The outline the blank is sawn to; everything outside it goes."""

    outline: Outline

    def removals(self, blank: Blank) -> Iterable[Removal]:
        return ()  # the solid starts from the outline, so nothing is left to take away

    def mirrored(self, blank: Blank) -> Profile:
        return Profile(self.outline.mirrored(blank.width, mirrored_edge))

    def check(self, blank: Blank) -> None:
        x0, y0, x1, y1 = self.outline.bounds
        _, _, length, width = blank.outline.bounds
        if min(x0, y0) < -SAME_POINT or x1 > length + SAME_POINT or y1 > width + SAME_POINT:
            raise CutError(
                f"an outline {x1 - x0:.1f} by {y1 - y0:.1f} mm doesn't lie within its blank of "
                f"{length:.1f} by {width:.1f} mm; make the blank larger or move the outline"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return (Footprint(self.outline, "face", blank.thickness, through=True),)


@dataclass(frozen=True)
class Opening(Cut):
    """A hole of any outline, right through."""

    outline: Outline

    def removals(self, blank: Blank) -> Iterable[Removal]:
        below = Placement((0.0, 0.0, -RUN_OUT))
        return (Prism(below, self.outline, blank.thickness + 2 * RUN_OUT),)

    def mirrored(self, blank: Blank) -> Opening:
        return Opening(self.outline.mirrored(blank.width, mirrored_edge))

    def check(self, blank: Blank) -> None:
        if not all(blank.outline.contains(p) for p in self.outline.points(1.0)):
            raise CutError("an opening runs out of the part it is cut in; move it in or make it smaller")

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return (Footprint(self.outline, "face", blank.thickness, through=True),)


@dataclass(frozen=True)
class Notch(Cut):
    """A piece sawn out of an edge or a corner, right through; its outline may run past the edge."""

    outline: Outline

    def removals(self, blank: Blank) -> Iterable[Removal]:
        below = Placement((0.0, 0.0, -RUN_OUT))
        return (Prism(below, self.outline, blank.thickness + 2 * RUN_OUT),)

    def mirrored(self, blank: Blank) -> Notch:
        return Notch(self.outline.mirrored(blank.width, mirrored_edge))

    def check(self, blank: Blank) -> None:
        if not self._meets(blank.outline):
            raise CutError("a notch misses the part it is cut in; check where the two parts stand")

    def _meets(self, wood: Outline) -> bool:
        """Whether it holds a corner of the wood, or one of its sides, which may cross it, passes over wood."""
        over = (wood.contains(e.point(n / 32.0)) for e in self.outline.edges for n in range(32))
        return any(self.outline.contains(p) for p in wood.corners) or any(over)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return (Footprint(self.outline, "face", blank.thickness, through=True),)
