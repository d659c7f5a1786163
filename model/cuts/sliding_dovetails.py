"""The two halves of a sliding dovetail: a tongue splayed along a board's end, and the socket it slides into.

Both are given from the end the tongue goes in by to the end it stops at, and may narrow on the way by `taper` mm in
all, so that they bind only when home.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from model.cuts.cut import Blank, Cut, Footprint, positive
from model.cuts.faces import Channel
from model.cuts.removal import RUN_OUT, Block, Plane, Removal, box
from model.errors import CutError
from model.layout.outline import Point
from model.placement import Vector, dot, scaled


@dataclass(frozen=True)
class DovetailTongue(Cut):
    """A tongue along the shoulder line `start` to `end` (x, y), its flanks splayed by `slope` toward its tip.

    out: unit direction from the shoulder to the tip; length: that way, mm; inset: of the tip's arrises from the faces;
    heel: mm from `end` over which the tongue is cut away.
    """

    start: Point
    end: Point
    out: Point
    length: float
    slope: float
    inset: float
    taper: float = 0.0
    heel: float = 0.0

    @property
    def name(self) -> str:
        return "dovetail tongue"

    @property
    def run(self) -> float:
        """Of the shoulder, mm."""
        return math.dist(self.start, self.end)

    def neck(self, thickness: float) -> float:
        """The tongue's thickness at its shoulder where it is fullest, mm."""
        return thickness - 2.0 * (self.inset + self.slope * self.length)

    def removals(self, blank: Blank) -> Iterable[Removal]:
        x0, y0, x1, y1 = blank.outline.bounds
        around = box((x0 - RUN_OUT, y0 - RUN_OUT, -RUN_OUT), (x1 + RUN_OUT, y1 + RUN_OUT, blank.thickness + RUN_OUT))
        beyond = _half((-self.out[0], -self.out[1], 0.0), (*self.start, 0.0))
        for z, rise in ((0.0, 1.0), (blank.thickness, -1.0)):
            yield Block((*around, beyond, self._flank(z, rise)))
        if self.heel > 0.0:
            dx, dy = self._direction
            back = (self.end[0] - self.heel * dx, self.end[1] - self.heel * dy, 0.0)
            yield Block((*around, beyond, _half((-dx, -dy, 0.0), back)))

    def mirrored(self, blank: Blank) -> DovetailTongue:
        (x0, y0), (x1, y1) = self.start, self.end
        return replace(self, start=(x0, blank.width - y0), end=(x1, blank.width - y1), out=(self.out[0], -self.out[1]))

    def check(self, blank: Blank) -> None:
        positive("dovetail tongue", length=self.length, slope=self.slope)
        neck = self.neck(blank.thickness) - self.taper
        if neck < blank.thickness / 3.0:
            raise CutError(
                f"a dovetail tongue {self.length:g} mm long would be {neck:.1f} mm thick at its neck in stock "
                f"{blank.thickness:g} mm thick; a third of the stock, {blank.thickness / 3.0:.1f} mm, is the least, so "
                "make it shorter or its slope flatter"
            )
        if self.heel >= self.run:
            raise CutError(
                f"a dovetail tongue {self.run:.1f} mm long can't stop {self.heel:g} mm short; stop it shorter"
            )

    @property
    def _direction(self) -> Point:
        return ((self.end[0] - self.start[0]) / self.run, (self.end[1] - self.start[1]) / self.run)

    def _flank(self, z: float, rise: float) -> Plane:
        """The half of space outside one flank, from the face at `z` inward by `rise`."""
        (dx, dy), k = self._direction, self.taper / 2.0 / self.run
        neck = z + rise * (self.inset + self.slope * self.length)
        return _half((self.slope * self.out[0] - k * dx, self.slope * self.out[1] - k * dy, rise), (*self.start, neck))


@dataclass(frozen=True)
class DovetailSocket(Channel):
    """A channel whose walls splay by `slope` toward its floor; `width` is that of its mouth where it starts."""

    slope: float = 1.0 / 8.0
    taper: float = 0.0

    @property
    def name(self) -> str:
        return "dovetail socket"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        (dx, dy), top = self.direction, blank.thickness if self.side == "face" else 0.0
        up = 1.0 if self.side == "face" else -1.0
        opened = self.open_ends(blank)
        start = (self.start[0] - RUN_OUT * opened[0] * dx, self.start[1] - RUN_OUT * opened[0] * dy, top)
        end = (self.end[0] + RUN_OUT * opened[1] * dx, self.end[1] + RUN_OUT * opened[1] * dy, top)
        planes = [_half((-dx, -dy, 0.0), start), _half((dx, dy, 0.0), end)]
        planes += [
            _half((0.0, 0.0, up), (0.0, 0.0, top + up * RUN_OUT)),
            _half((0.0, 0.0, -up), (0.0, 0.0, top - up * self.depth)),
        ]
        return (Block((*planes, self._wall(1.0, top, up), self._wall(-1.0, top, up))),)

    def mirrored(self, blank: Blank) -> DovetailSocket:
        (x0, y0), (x1, y1) = self.start, self.end
        return replace(self, start=(x0, blank.width - y0), end=(x1, blank.width - y1))

    def check(self, blank: Blank) -> None:
        super().check(blank)
        positive(self.name, slope=self.slope)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return ()  # its walls overhang: a straight cutter can't leave them

    def _wall(self, hand: float, top: float, up: float) -> Plane:
        """The half of space inside the wall on the left (hand 1) or on the right (-1) of the run."""
        (dx, dy), k = self.direction, self.taper / 2.0 / self.length
        nx, ny = -hand * dy, hand * dx
        mouth = (self.start[0] + nx * self.width / 2.0, self.start[1] + ny * self.width / 2.0, top)
        return _half((nx + k * dx, ny + k * dy, self.slope * up), mouth)


def _half(normal: Vector, through: Vector) -> Plane:
    """The half of space behind a plane through a point, its normal of any length."""
    size = math.sqrt(dot(normal, normal))
    n = scaled(normal, 1.0 / size)
    return Plane(n, dot(n, through))
