"""Cuts a saw makes at any angle: right through the part, or as a square-bottomed trench across it."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Footprint, positive
from model.cuts.removal import RUN_OUT, Block, Plane, Removal, box
from model.errors import CutError
from model.layout.clipping import around, clipped
from model.layout.outline import Outline, Point
from model.placement import Vector, dot, scaled, tidy
from model.tolerance import SAME_POINT

#: Leaning less than this (as the sine) a sawn face counts as square; 0.01 mm over 1 m.
SQUARE = 1e-5


@dataclass(frozen=True)
class SawCut(AimedCut):
    """One straight cut right through: all the wood on the far side of a plane goes.

    at: a point of the plane, mm; out: unit vector square to it, toward the wood that goes; in the part's own frame.
    """

    out: Vector

    @property
    def name(self) -> str:
        return "saw cut"

    @property
    def end(self) -> str:
        """The end or edge that is sawn off: left, right, near or far."""
        x, y = self.out[0], self.out[1]
        if abs(x) >= abs(y):
            return "right" if x > 0.0 else "left"
        return "far" if y > 0.0 else "near"

    @property
    def miter(self) -> float:
        """Off square across the grain, degrees: 0 is a plain crosscut, positive where the far edge is left longer; a
        cut along the grain has 90 either way."""
        return math.degrees(math.atan2(-self.out[1], abs(self.out[0])))

    @property
    def bevel(self) -> float:
        """The blade's lean from upright, degrees: positive where the face side is left longer."""
        return math.degrees(math.asin(max(-1.0, min(1.0, -self.out[2]))))

    @property
    def kept(self) -> Plane:
        """The half of space that stays."""
        return Plane(self.out, dot(self.out, self.at))

    def removals(self, blank: Blank) -> Iterable[Removal]:
        return (Block((*_round(blank), self.kept.flipped())),)

    def check(self, blank: Blank) -> None:
        if abs(self.out[2]) > 1.0 - SQUARE:
            raise CutError("a saw cut along the face only makes the stock thinner; choose thinner stock")
        least, most = _reach(blank, self.out)
        offset = self.kept.offset
        if offset > most + SAME_POINT:
            raise CutError(f"a saw cut passes {offset - most:.2f} mm outside the part; check where the parts stand")
        if offset <= least + SAME_POINT:
            raise CutError("a saw cut takes the whole part; check where the parts stand")

    @property
    def upright(self) -> bool:
        """Whether the blade stands square to the face, so that a router can make the cut too."""
        return abs(self.out[2]) < SQUARE

    def region(self, blank: Blank, past: float = 0.0) -> list[Point]:
        """What an upright cut takes, its corners in plan, in the box round the part grown by `past` mm."""
        inside: Point = (-self.out[0], -self.out[1])
        return clipped(around(blank.outline.bounds, past), [(inside, -self.kept.offset)])

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        ring = self.region(blank) if self.upright else []
        if ring:
            yield Footprint(Outline(tuple(ring)), "face", blank.thickness, through=True)


@dataclass(frozen=True)
class SawnTrench(AimedCut):
    """A square-bottomed trench right across the part, at any angle.

    at: on the middle line of its mouth, mm; into: unit vector down into it; across: unit vector square to its walls;
    width between the walls and depth from the middle of its mouth, mm.
    """

    into: Vector
    across: Vector
    width: float
    depth: float

    @property
    @abstractmethod
    def name(self) -> str: ...

    def removals(self, blank: Blank) -> Iterable[Removal]:
        return (Block((*_round(blank), *self.walls, self.floor)),)

    @property
    def walls(self) -> tuple[Plane, Plane]:
        """What lies between them is within it: the wall that `across` leads to, and the other."""
        middle = dot(self.across, self.at)
        there, here = Plane(self.across, middle), Plane(scaled(self.across, -1.0), -middle)
        return there.moved_by(self.width / 2.0), here.moved_by(self.width / 2.0)

    @property
    def floor(self) -> Plane:
        """The half of space over it."""
        return Plane(self.into, dot(self.into, self.at) + self.depth)

    def check(self, blank: Blank) -> None:
        positive(self.name, width=self.width, depth=self.depth)
        if abs(dot(self.into, self.across)) > SQUARE:
            raise CutError(f"the {self.name}'s walls must run straight down into it; make into and across square")


@dataclass(frozen=True)
class SawnGroove(SawnTrench):
    """A groove in what was sawn, for a spline or a key. called: what it is for."""

    called: str = "spline groove"

    @property
    def name(self) -> str:
        return self.called

    def removals(self, blank: Blank) -> Iterable[Removal]:
        mouth = Plane(scaled(self.into, -1.0), -dot(self.into, self.at))
        return (Block((*_round(blank), *self.walls, self.floor, mouth.moved_by(RUN_OUT))),)


def sawn_through(plane: Plane) -> SawCut:
    """The saw cut that takes all beyond a plane of the part's own frame: where it crosses the back side's near edge
    (for a cut along the grain: the back side's left end). Raises CutError for a plane along the face."""
    x, y, _ = plane.normal
    if max(abs(x), abs(y)) < SQUARE:
        raise CutError("a saw cut along the face only makes the stock thinner; choose thinner stock")
    along = plane.offset / (x if abs(x) >= abs(y) else y)
    at = (round(along, 6) + 0.0, 0.0, 0.0) if abs(x) >= abs(y) else (0.0, round(along, 6) + 0.0, 0.0)
    return SawCut(at, tidy(plane.normal))


def _round(blank: Blank) -> tuple[Plane, ...]:
    """A box round the part, clear of it."""
    x0, y0, x1, y1 = blank.outline.bounds
    past = RUN_OUT
    return box((x0 - past, y0 - past, -past), (x1 + past, y1 + past, blank.thickness + past))


def _reach(blank: Blank, out: Vector) -> tuple[float, float]:
    """Least and greatest reach of the part along a direction of its own frame."""
    size = math.hypot(out[0], out[1])
    low, high = blank.outline.extent((out[0] / size, out[1] / size))
    rise = out[2] * blank.thickness
    return low * size + min(0.0, rise), high * size + max(0.0, rise)
