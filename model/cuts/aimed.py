"""Cuts that are set by one point of the part and by directions from there."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Self

from model.cuts.cut import Blank, Cut
from model.placement import Vector

#: What such a cut calls its directions: unit vectors in the part's frame.
_DIRECTIONS = frozenset({"into", "along", "across", "mouth", "out"})


@dataclass(frozen=True)
class AimedCut(Cut):
    """Set `at` a point of the part, mm."""

    at: Vector

    def mirrored(self, blank: Blank) -> Self:
        x, y, z = self.at
        turned = {f.name: _turned(getattr(self, f.name)) for f in fields(self) if f.name in _DIRECTIONS}
        return replace(self, at=(x, blank.width - y, z), **turned)


def _turned(direction: Vector) -> Vector:
    x, y, z = direction
    return (x, -y, z)
