"""Legs shaped from square stock: tapered on some of their sides, or turned between square pommels.

A leg lies along its grain like any part: its four long sides are near, far, face and back.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from model.cuts.cut import Blank, Cut, mirrored_edge, positive
from model.cuts.removal import RUN_OUT, Block, Leaving, Plane, Removal, Turning, box
from model.errors import CutError
from model.layout.outline import Outline, Point
from model.placement import Placement, Vector
from model.tolerance import SAME_POINT

LegSide = Literal["near", "far", "face", "back"]
End = Literal["left", "right"]

#: The two inner sides of a leg, or all four.
ALL_SIDES: tuple[LegSide, ...] = ("near", "far", "face", "back")

#: Least wood between a turning and the flats of its square, mm, so that it comes out round (common practice).
TURNED_OFF = 0.5


@dataclass(frozen=True)
class Taper(Cut):
    """A leg planed to a straight taper: from full size `start` mm from its foot to `size` mm at the foot.

    sides: the sides that are planed; of two that lie across from each other each gives half. foot: the end that is
    the foot.
    """

    sides: tuple[LegSide, ...]
    start: float
    size: float
    foot: End = "left"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        (x0, y0, x1, y1), t = blank.outline.bounds, blank.thickness
        grown = box((x0 - RUN_OUT, y0 - RUN_OUT, -RUN_OUT), (x1 + RUN_OUT, y1 + RUN_OUT, t + RUN_OUT))
        for side in self.sides:
            yield Block((*grown, self.planed(side, blank).flipped()))

    def planed(self, side: LegSide, blank: Blank) -> Plane:
        """One tapered side; the leg lies inside it."""
        (x0, y0, x1, y1), t = blank.outline.bounds, blank.thickness
        toward_foot = -1.0 if self.foot == "left" else 1.0
        begins = x0 + self.start if self.foot == "left" else x1 - self.start
        slope = self.taken(side, blank) / self.start
        c, s = 1.0 / math.hypot(1.0, slope), slope / math.hypot(1.0, slope)
        out, level = {
            "near": ((0.0, -1.0, 0.0), -y0),
            "far": ((0.0, 1.0, 0.0), y1),
            "back": ((0.0, 0.0, -1.0), 0.0),
            "face": ((0.0, 0.0, 1.0), t),
        }[side]
        normal: Vector = (s * toward_foot, c * out[1], c * out[2])
        return Plane(normal, c * level + normal[0] * begins)

    def course(self, side: LegSide, blank: Blank) -> tuple[Point, Point]:
        """Where one side begins to taper and where it ends at the foot, mm: along the leg, and across it from the near
        edge's zero, or up from its back side."""
        (x0, y0, x1, y1), t = blank.outline.bounds, blank.thickness
        begins, foot = (x0 + self.start, x0) if self.foot == "left" else (x1 - self.start, x1)
        level, inward = {"near": (y0, 1.0), "far": (y1, -1.0), "back": (0.0, 1.0), "face": (t, -1.0)}[side]
        return (begins, level), (foot, level + inward * self.taken(side, blank))

    def taken(self, side: LegSide, blank: Blank) -> float:
        """What one side loses at the foot, mm."""
        across, opposite = _across(side, blank)
        return (across - self.size) / (2.0 if opposite in self.sides else 1.0)

    def mirrored(self, blank: Blank) -> Taper:
        swapped: list[LegSide] = [_mirrored(side) for side in self.sides]
        return replace(self, sides=tuple(sorted(swapped, key=ALL_SIDES.index)))

    def check(self, blank: Blank) -> None:
        positive("taper", start=self.start, size=self.size)
        x0, _, x1, _ = blank.outline.bounds
        if self.start > x1 - x0 + SAME_POINT:
            raise CutError(
                f"a taper can't begin {self.start:g} mm from the foot of a leg {x1 - x0:g} mm long; begin it lower"
            )
        if not self.sides or len(set(self.sides)) < len(self.sides):
            raise CutError("a taper needs the sides to be planed, each once: near, far, face, back")
        for side in self.sides:
            across, _ = _across(side, blank)
            if self.size >= across - SAME_POINT:
                raise CutError(
                    f"a leg {across:g} mm thick can't taper to {self.size:g} mm; half to two thirds of it, "
                    f"{across / 2:.1f} to {2 * across / 3:.1f} mm, is common practice"
                )


@dataclass(frozen=True)
class Station:
    """One place along a turning: `at` mm from the left end, `diameter` there. The line to the next station swells out
    by `swell` mm over its straight course, a bead, or hollows by that much, a cove, when negative; a true arc."""

    at: float
    diameter: float
    swell: float = 0.0


@dataclass(frozen=True)
class Turned(Cut):
    """Turned round about its middle line between its first and its last station; what lies beyond stays square, the
    pommels where rails join. Two stations in the same place make a step."""

    profile: tuple[Station, ...]

    def __post_init__(self) -> None:
        stations = tuple(s if isinstance(s, Station) else Station(*s) for s in self.profile)
        object.__setattr__(self, "profile", stations)

    @property
    def start(self) -> float:
        return self.profile[0].at

    @property
    def stop(self) -> float:
        return self.profile[-1].at

    @property
    def half(self) -> Outline:
        """Half its lengthwise section: (distance from the middle line, mm from the left end)."""
        points: list[Point] = [(0.0, self.start), *((s.diameter / 2.0, s.at) for s in self.profile), (0.0, self.stop)]
        bulges = [0.0]
        for here, there in _pairs(self.profile):
            chord = math.hypot((there.diameter - here.diameter) / 2.0, there.at - here.at)
            bulges.append(2.0 * here.swell / chord)
        return Outline(tuple(points), (*bulges, 0.0, 0.0))

    @property
    def greatest(self) -> float:
        """Greatest diameter, mm."""
        return 2.0 * self.half.bounds[2]

    def removals(self, blank: Blank) -> Iterable[Removal]:
        (x0, y0, x1, y1), t = blank.outline.bounds, blank.thickness
        low = self.start - (RUN_OUT if self.start < x0 + SAME_POINT else 0.0)
        high = self.stop + (RUN_OUT if self.stop > x1 - SAME_POINT else 0.0)
        square = Block(box((low, y0 - RUN_OUT, -RUN_OUT), (high, y1 + RUN_OUT, t + RUN_OUT)))
        axis = Placement((0.0, (y0 + y1) / 2.0, t / 2.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0))
        yield Leaving(square, (Turning(axis, self.half, 0.0, math.tau),))

    def mirrored(self, blank: Blank) -> Turned:
        return self

    def check(self, blank: Blank) -> None:
        x0, y0, x1, y1 = blank.outline.bounds
        if len(self.profile) < 2 or self.stop - self.start < SAME_POINT:
            raise CutError("a turning needs at least two stations along the leg")
        if any(b.at < a.at for a, b in _pairs(self.profile)):
            raise CutError("the stations of a turning must follow one another from left to right")
        if any(a.at == b.at and (a.swell or a.diameter == b.diameter) for a, b in _pairs(self.profile)):
            raise CutError("two stations in the same place make a plain step; give them two diameters and no swell")
        for s in self.profile:
            positive("turning", diameter=s.diameter)
        if self.start < x0 - SAME_POINT or self.stop > x1 + SAME_POINT:
            raise CutError(
                f"a turning from {self.start:g} to {self.stop:g} mm runs out of a leg {x1 - x0:g} mm long; shorten it"
            )
        most = min(y1 - y0, blank.thickness) - 2.0 * TURNED_OFF
        if self.greatest > most + SAME_POINT:
            raise CutError(
                f"a turning {self.greatest:.1f} mm thick can't come from a square of {most + 2 * TURNED_OFF:g} mm; "
                f"{most:.1f} mm is the most that turns out round"
            )
        thinnest = min(e.point(t)[0] for e in self.half.edges[1:-2] for t in (0.0, 0.25, 0.5, 0.75, 1.0))
        if thinnest <= 0.0:
            raise CutError("a cove cuts the turning in two; make it shallower")


def _pairs(profile: tuple[Station, ...]) -> Iterable[tuple[Station, Station]]:
    return pairwise(profile)


def _across(side: LegSide, blank: Blank) -> tuple[float, LegSide]:
    """The leg's size square to a side, and the side across from it."""
    _, y0, _, y1 = blank.outline.bounds
    opposite: dict[LegSide, LegSide] = {"near": "far", "far": "near", "face": "back", "back": "face"}
    return (y1 - y0 if side in ("near", "far") else blank.thickness), opposite[side]


def _mirrored(side: LegSide) -> LegSide:
    swapped = mirrored_edge(side)
    return next(s for s in ALL_SIDES if s == swapped)
