"""How exactly does this shop make each size, and which sizes come out of one setting?

What a fence, a stop or a cutter sets is cut in all parts that ask the same before it is moved, so those sizes share its
error. What is laid out by hand shares nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from model.checks.chains.chain import Remedy, Size
from model.checks.shop import machine_for
from model.cuts.cut import Cut
from model.cuts.through import Profile
from model.order_sections import Shop
from model.part import Part
from model.piece import Piece
from model.tolerance import SAME_SETTING

#: A kind of work that the shop states its accuracy of.
Work = Literal["sawn", "planed", "routed", "drilled"]

#: Where the steps of SAME_SETTING begin, so that no common size, in mm or in 64ths of an inch, lies just on one.
_FROM = 0.0187


@dataclass(frozen=True)
class Maker:
    """The shop at work on a piece."""

    piece: Piece
    shop: Shop

    def length(self, part: str) -> Size:
        """Of a part along its grain, cut off at a stop."""
        return self._stock(part, "length", self._wood(part).stock.length, "sawn")

    def width(self, part: str) -> Size:
        """Of a part across its grain, ripped at a fence."""
        return self._stock(part, "width", self._wood(part).stock.width, "sawn")

    def thickness(self, part: str) -> Size:
        """Of a part, off the planer."""
        return self._stock(part, "thickness", self._wood(part).thickness, "planed")

    def bought(self, what: str, size: float) -> Size:
        """Thickness or width of what is made of a strip for several joints, or bought."""
        return self._made("", what, what, size, "planed")

    def cut(self, part: str, what: str, size: float, work: Work, cut: Cut | None = None, which: str = "") -> Size:
        """A size set on a machine. what: of what, said alike wherever one setting may serve; which: tells it from the
        others in the part; cut: whose size it is, which a CNC may make."""
        return self._made(part, f"{what} in {part} {which}", what, size, work, self._on_cnc(part, cut))

    def laid_out(self, part: str, what: str, work: Work, cut: Cut | None = None, which: str = "") -> Size:
        """A size measured with the rule and cut by hand or by eye: its error is all its own. Where a CNC makes it, it
        is as exact as that."""
        name = f"{what} in {part} {which}"
        off = self.shop.accuracy.cnc if self._on_cnc(part, cut) else float(getattr(self.shop.accuracy, work))
        return Size(name, name, off, off, part=part)

    def angled(self, part: str, angle: float, span: float, which: str) -> Size:
        """How far a face sawn at an angle, degrees, leans out of it over `span` mm; all sawn at that angle lean
        alike."""
        off = span * math.tan(math.radians(self.shop.accuracy.angle))
        name = f"sawn face of {part} {which}"
        return Size(name, f"saw at {angle:.1f} degrees", off, off * self._again, part=part)

    def fit(self, says: str) -> Remedy:
        """Planed or pared until it goes."""
        return Remedy(says, self.shop.accuracy.fitted)

    def scribe(self, says: str) -> Remedy:
        """Marked from the work with a knife."""
        return Remedy(says, self.shop.accuracy.scribed)

    @cached_property
    def _again(self) -> float:
        return self.shop.accuracy.again_pct / 100.0

    @cached_property
    def _machines(self) -> dict[tuple[str, Cut], bool]:
        return {}

    def _wood(self, part: str) -> Part:
        return self.piece[part].wood

    def _stock(self, part: str, what: str, size: float, work: Work) -> Size:
        profile = next((c for c in self._wood(part).cuts if isinstance(c, Profile)), None)
        return self._made(part, f"{what} of {part}", what, size, work, work == "sawn" and self._on_cnc(part, profile))

    def _made(self, part: str, name: str, kind: str, size: float, work: Work, on_cnc: bool = False) -> Size:
        stated = self.shop.accuracy
        off = stated.cnc if on_cnc else float(getattr(stated, work))
        machine = "CNC" if on_cnc else work
        step = math.floor((size + _FROM) / SAME_SETTING)
        return Size(name, f"{machine} {kind} {step}", off, off * self._again, size, part)

    def _on_cnc(self, part: str, cut: Cut | None) -> bool:
        if cut is None:
            return False
        if (part, cut) not in self._machines:
            self._machines[part, cut] = machine_for(cut, self._wood(part), self.shop) == "CNC"
        return self._machines[part, cut]
