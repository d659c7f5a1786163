"""Square-sided holes for tenons: the mortise down into any side, the open mortise sawn into an end."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Self

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Cut, Footprint, positive, shallower
from model.cuts.faces import entered
from model.cuts.removal import RUN_OUT, Block, Plane, Removal
from model.cuts.run_out import open_out, past_blank
from model.cuts.tenons import LEAST_SHOULDER, End
from model.errors import CutError
from model.layout.outline import Outline
from model.placement import Vector, added, cross, dot, scaled
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class Mortise(AimedCut):
    """A square-sided hole for a tenon: middle of its mouth at `at` in the side that faces `mouth` (unit vector), run
    `into` the wood, `length` of it along `along` (square to `into`), `width` across, `depth` down its middle line.

    floor: its bottom in the part's own frame, or, for a through one, the side it comes out of; square to `into` if
    None. eased, ease_depth: how much longer it is at each end on that far side, and how far in, where wedges spread
    the tenon.
    """

    mouth: Vector
    into: Vector
    along: Vector
    length: float
    width: float
    depth: float
    floor: Plane | None = None
    through: bool = False
    eased: float = 0.0
    ease_depth: float = 0.0

    @property
    def name(self) -> str:
        return "through mortise" if self.through else "mortise"

    @property
    def across(self) -> Vector:
        return cross(self.into, self.along)

    @property
    def square(self) -> bool:
        """Whether it runs square to the side it opens on."""
        return dot(self.into, self.mouth) < -1.0 + 1e-9

    def removals(self, blank: Blank) -> Iterable[Removal]:
        floor = self.floor or Plane(self.into, dot(self.into, self.at) + self.depth)
        bottom = floor.moved_by(RUN_OUT) if self.through else floor
        top = Plane(self.mouth, dot(self.mouth, self.at) + RUN_OUT)
        sides = self._pair(self.along, self.length) + self._pair(self.across, self.width)
        yield Block((top, *open_out((bottom, *sides), blank)))
        if self.eased > 0.0:
            yield self._easing(bottom)

    def mirrored(self, blank: Blank) -> Self:
        floor = None if self.floor is None else self.floor.mirrored(blank.width)
        return replace(super().mirrored(blank), floor=floor)

    def check(self, blank: Blank) -> None:
        positive(self.name, length=self.length, width=self.width, depth=self.depth)
        if dot(self.into, self.mouth) > -0.1:
            raise CutError("a mortise must run into the side it opens on; check where the two parts stand")
        if not self.through and self.square and entered(self.mouth) is not None:
            shallower(self.name, self.depth, blank.thickness)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(scaled(self.mouth, -1.0))
        if side is not None and self.square:
            yield Footprint(self._plan(), side, min(self.depth, blank.thickness), self.through)

    def _plan(self) -> Outline:
        a, b = scaled(self.along, self.length / 2.0), scaled(self.across, self.width / 2.0)
        ring = [added(self.at, scaled(a, s), scaled(b, t)) for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        corners = tuple((p[0], p[1]) for p in ring)
        # across points up or down with the side it opens on
        left_handed = self.along[0] * self.across[1] - self.along[1] * self.across[0] < 0.0
        return Outline(corners[::-1] if left_handed else corners)

    def _pair(self, direction: Vector, size: float) -> tuple[Plane, ...]:
        middle = dot(direction, self.at)
        return (
            Plane(direction, middle + size / 2.0),
            Plane(scaled(direction, -1.0), size / 2.0 - middle),
        )

    def _easing(self, bottom: Plane) -> Removal:
        """A wedge-shaped block wider on the far side by `eased` at each end."""
        start = dot(self.into, self.at) + self.depth - self.ease_depth
        slope = math.atan2(self.eased, self.ease_depth)
        sides = []
        for sign in (1.0, -1.0):
            out = scaled(self.along, sign)
            normal = added(scaled(out, math.cos(slope)), scaled(self.into, -math.sin(slope)))
            foot = math.cos(slope) * (dot(out, self.at) + self.length / 2.0) - math.sin(slope) * start
            sides.append(Plane(normal, foot))
        within = Plane(scaled(self.into, -1.0), -start)
        return Block((*sides, *self._pair(self.across, self.width), within, bottom))


@dataclass(frozen=True)
class OpenMortise(Cut):
    """A slot sawn into an end, right across its width, that leaves two prongs: `width` of it, `rise` up from the back
    side, down to the plane `floor` (own frame; the wood inside it stays)."""

    floor: Plane
    width: float
    rise: float

    @property
    def name(self) -> str:
        return "open mortise"

    @property
    def end(self) -> End:
        return "right" if self.floor.normal[0] > 0.0 else "left"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        around = past_blank(blank)
        level = (Plane((0.0, 0.0, 1.0), self.rise + self.width), Plane((0.0, 0.0, -1.0), -self.rise))
        sideways = tuple(p for p in around if p.normal[2] == 0.0)
        return (Block((*sideways, *level, self.floor.flipped())),)

    def mirrored(self, blank: Blank) -> OpenMortise:
        return replace(self, floor=self.floor.mirrored(blank.width))

    def check(self, blank: Blank) -> None:
        positive("open mortise", width=self.width)
        least, third = min(LEAST_SHOULDER, blank.thickness / 4.0), blank.thickness / 3.0
        thinner = min(self.rise, blank.thickness - self.rise - self.width)
        if thinner < least - SAME_POINT:
            raise CutError(
                f"the open mortise would leave a prong of {thinner:.1f} mm in stock {blank.thickness:g} mm thick; "
                f"a third of the stock is {third:.1f} mm"
            )
