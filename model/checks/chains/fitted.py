"""A joint as the shop fits it: its two parts, who makes their sizes, and the chains that come of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from model.checks.chains.chain import Chain, Link, Remedy, Size, Window, held
from model.checks.chains.made_sizes import Maker, Work
from model.cuts.cut import Cut
from model.joints.joint import Joint
from model.piece import Placed

Kind = TypeVar("Kind", bound=Cut)


@dataclass(frozen=True)
class Fitted:
    """One joint of the piece that `maker` makes."""

    joint: Joint
    maker: Maker

    @property
    def first(self) -> Placed:
        return self.maker.piece[self.joint.first]

    @property
    def second(self) -> Placed:
        return self.maker.piece[self.joint.second]

    @property
    def glued(self) -> bool:
        return self.joint.glue_area > 0.0

    def held(self, room: float) -> Window:
        """What a fit of this joint drawn with `room` mm needs."""
        return held(self.glued, room)

    def in_first(self, kind: type[Kind]) -> list[Kind]:
        """The joint's cuts of one kind in its first part."""
        return [c for c in self.joint.first_cuts if isinstance(c, kind)]

    def in_second(self, kind: type[Kind]) -> list[Kind]:
        return [c for c in self.joint.second_cuts if isinstance(c, kind)]

    def of_first(self, what: str, size: float, work: Work, cut: Cut | None = None, which: object = "") -> Size:
        """A size set on a machine for this joint in its first part; which: of several that may share a setting."""
        return self.maker.cut(self.joint.first, what, size, work, cut, self._for(self.joint.second, which))

    def of_second(self, what: str, size: float, work: Work, cut: Cut | None = None, which: object = "") -> Size:
        return self.maker.cut(self.joint.second, what, size, work, cut, self._for(self.joint.first, which))

    def by_hand_in_first(self, what: str, work: Work, cut: Cut | None = None, which: object = "") -> Size:
        """A size laid out for this joint in its first part."""
        return self.maker.laid_out(self.joint.first, what, work, cut, self._for(self.joint.second, which))

    def by_hand_in_second(self, what: str, work: Work, cut: Cut | None = None, which: object = "") -> Size:
        return self.maker.laid_out(self.joint.second, what, work, cut, self._for(self.joint.first, which))

    def _for(self, other: str, which: object) -> str:
        return f"for {other} {which}".rstrip()

    def chain(
        self,
        what: str,
        room: float,
        links: Iterable[Link],
        window: Window,
        remedy: Remedy,
        marked: Placed | None = None,
    ) -> Chain:
        """A chain of this joint, `what` of it; empty for the fit that the joint is about. marked: the part that the
        remedy is for, the first if not said."""
        kind = f"{self.joint.kind}, {what}" if what else self.joint.kind
        parts = (self.joint.first, self.joint.second)
        made = (marked or self.first).name
        return Chain(kind, parts, round(room, 6) + 0.0, tuple(links), window, remedy, made)
