"""Each nail, screw, dowel, biscuit, peg and plug as a line in the piece, and the wood that line runs through."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from model.checks.solids.wood_along import StoodWood, Stretch
from model.hardware import Hardware
from model.piece import Piece
from model.placement import Vector, added, cross, scaled, unit

#: How far past a point wood is looked for, mm.
BEYOND = 25.0

#: What is driven with a hammer or a driver, and what is set in a hole or slot made for it.
DRIVEN = ("finish nail", "wood screw", "hinge screw")
SET = ("dowel", "biscuit", "peg")

#: Which ends of it must stay in the wood.
Ends = Literal["point", "both", "none"]
_ENDS: dict[str, Ends] = {**dict.fromkeys(DRIVEN, "point"), "dowel": "both", "biscuit": "both"}


@dataclass(frozen=True)
class FastenerLine:
    """The middle line of one item: from `start` along a unit vector for `length` mm; `radius` mm round it.

    A biscuit's runs across the joint, half to either side; its radius is half its thickness. ends: which of its ends
    must stay in the wood.
    """

    item: Hardware
    start: Vector
    along: Vector
    length: float
    radius: float
    ends: Ends

    @property
    def driven(self) -> bool:
        return self.item.kind in DRIVEN

    @property
    def tip(self) -> Vector:
        return self.point(self.length)

    def point(self, distance: float) -> Vector:
        """On the line, mm from its start."""
        return added(self.start, scaled(self.along, distance))

    @cached_property
    def round_about(self) -> tuple[Vector, ...]:
        """Four unit vectors square to the line, a quarter turn apart."""
        aside = (1.0, 0.0, 0.0) if abs(self.along[0]) < 0.7 else (0.0, 1.0, 0.0)
        u = unit(cross(self.along, aside))
        v = cross(self.along, u)
        return (u, v, scaled(u, -1.0), scaled(v, -1.0))


@dataclass(frozen=True)
class Passage:
    """The wood one line runs through: stretches by part, mm from its start, as they come."""

    line: FastenerLine
    wood: tuple[tuple[str, Stretch], ...]

    def within(self) -> Iterator[tuple[str, float, float]]:
        """Part, from, to: the stretches between the line's two ends."""
        for name, (a, b) in self.wood:
            if min(b, self.line.length) > max(a, 0.0):
                yield name, max(a, 0.0), min(b, self.line.length)

    def in_part(self, name: str) -> float:
        """Length of it in a part's wood, mm."""
        return sum(b - a for part, a, b in self.within() if part == name)

    def wood_round(self, name: str) -> float:
        """Length of a part's wood in line with it, from where it enters, mm."""
        return sum(b - max(a, 0.0) for part, (a, b) in self.wood if part == name and b > 0.0 and a < self.line.length)

    @property
    def struck(self) -> bool:
        """Whether it is driven from outside when its parts have met; a peg may be set in its hole before, and a hinge's
        screws are driven with the door open, or off."""
        if self.line.item.kind == "hinge screw":
            return False
        return self.line.driven or (self.line.item.kind == "peg" and self.at(-0.5) is None)

    def at(self, distance: float) -> Stretch | None:
        """The stretch of wood round a place on it."""
        return next((s for _, s in self.wood if s[0] - 1e-6 < distance < s[1] + 1e-6), None)

    @property
    def entered_last(self) -> str:
        """Of the parts it is said to hold, the one its point is in, or should be."""
        named = [name for name, _, _ in self.within() if name in self.line.item.parts]
        return named[-1] if named else self.line.item.parts[-1]


def fastener_lines(piece: Piece) -> list[FastenerLine]:
    """A line for every item that is driven or set into wood; hinges, splines and their like have none."""
    return [_line(h) for h in piece.hardware if h.kind in (*DRIVEN, *SET)]


def _line(item: Hardware) -> FastenerLine:
    ends = _ENDS.get(item.kind, "none")
    if item.kind == "biscuit":
        start = added(item.at, scaled(item.direction, -item.length / 2.0))
        return FastenerLine(item, start, item.direction, item.length, item.thickness / 2.0, ends)
    return FastenerLine(item, item.at, item.direction, item.length, item.diameter / 2.0, ends)


def passages(lines: Sequence[FastenerLine], woods: Sequence[StoodWood]) -> list[Passage]:
    """The wood each line runs through, up to `BEYOND` mm past either end."""
    if not lines:
        return []
    starts, along = np.array([f.start for f in lines]), np.array([f.along for f in lines])
    low, high = np.full(len(lines), -BEYOND), np.array([f.length + BEYOND for f in lines])
    found: list[list[tuple[str, Stretch]]] = [[] for _ in lines]
    for stood in woods:
        for n in np.flatnonzero(stood.near(starts, along, low, high, 0.01)).tolist():
            line = lines[n]
            runs = stood.stretches(line.start, line.along, -BEYOND, line.length + BEYOND)
            found[n] += [(stood.name, s) for s in runs]
    return [Passage(f, tuple(sorted(w, key=lambda s: s[1]))) for f, w in zip(lines, found, strict=True)]
