"""Cuts made down into a face of the stock: dadoes, grooves, bores, counterbores, biscuit slots."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Cut, Footprint, Side, positive, shallower
from model.cuts.drilling import drilled, leaning
from model.cuts.drilling import entered as entered
from model.cuts.removal import RUN_OUT, Prism, Removal
from model.errors import CutError
from model.layout.outline import Outline, Point, circle
from model.placement import Placement, Vector, added, cross, scaled
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class Channel(Cut):
    """A straight trench down into one side, square-bottomed: a dado across the grain, a groove along it.

    start, end: ends of its centre line (x, y); an end on the edge of the stock is open, any other is stopped.
    """

    start: Point
    end: Point
    width: float
    depth: float
    side: Side = "face"

    @property
    def name(self) -> str:
        across = abs(self.end[1] - self.start[1]) >= abs(self.end[0] - self.start[0])
        return "dado" if across else "groove"

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def direction(self) -> Point:
        return ((self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length)

    def footprint(self, beyond: tuple[float, float] = (0.0, 0.0)) -> Outline:
        """Its outline on the stock, run `beyond` mm past its start and end."""
        (dx, dy), h = self.direction, self.width / 2.0
        a = (self.start[0] - beyond[0] * dx, self.start[1] - beyond[0] * dy)
        b = (self.end[0] + beyond[1] * dx, self.end[1] + beyond[1] * dy)
        corners = ((a, h), (a, -h), (b, -h), (b, h))
        return Outline(tuple((p[0] - s * dy, p[1] + s * dx) for p, s in corners))

    def open_ends(self, blank: Blank) -> tuple[bool, bool]:
        """Whether it runs out at its start and at its end: just past there, across its width, is no wood."""
        (dx, dy), h = self.direction, 0.4 * self.width

        def no_wood(p: Point, sign: float) -> bool:
            x, y = p[0] + sign * 0.1 * dx, p[1] + sign * 0.1 * dy
            return not any(blank.outline.contains((x - s * dy, y + s * dx)) for s in (-h, 0.0, h))

        return (no_wood(self.start, -1.0), no_wood(self.end, 1.0))

    def removals(self, blank: Blank) -> Iterable[Removal]:
        opened = self.open_ends(blank)
        outline = self.footprint((RUN_OUT * opened[0], RUN_OUT * opened[1]))
        return (sunk(outline, self.side, self.depth, blank.thickness),)

    def mirrored(self, blank: Blank) -> Channel:
        # ends change places, so that the run keeps its sense along the width
        return replace(
            self,
            start=(self.end[0], blank.width - self.end[1]),
            end=(self.start[0], blank.width - self.start[1]),
        )

    def check(self, blank: Blank) -> None:
        if self.length < SAME_POINT:
            raise CutError(f"a {self.name} must have some length; its two ends lie in the same place")
        positive(self.name, width=self.width, depth=self.depth)
        shallower(self.name, self.depth, blank.thickness)
        middle = ((self.start[0] + self.end[0]) / 2.0, (self.start[1] + self.end[1]) / 2.0)
        if not blank.outline.contains(middle):
            raise CutError(
                f"a {self.name} at ({middle[0]:.1f}, {middle[1]:.1f}) misses the part it is cut in; "
                "check where the two parts stand"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        return (Footprint(self.footprint(), self.side, self.depth),)


def dado(at: float, width: float, depth: float, start: float, stop: float, side: Side = "face") -> Channel:
    """A dado square across the grain: its near wall `at` mm from the left end, from y = start to y = stop."""
    return Channel((at + width / 2.0, start), (at + width / 2.0, stop), width, depth, side)


def groove(at: float, width: float, depth: float, start: float, stop: float, side: Side = "face") -> Channel:
    """A groove along the grain: its near wall `at` mm from the near edge, from x = start to x = stop."""
    return Channel((start, at + width / 2.0), (stop, at + width / 2.0), width, depth, side)


@dataclass(frozen=True)
class Bore(AimedCut):
    """A round hole: its mouth at `at`, boring `into` the wood (unit vector), `depth` mm deep."""

    into: Vector
    diameter: float
    depth: float

    def removals(self, blank: Blank) -> Iterable[Removal]:
        lean = leaning(self.at, self.into, blank)
        return (drilled(self.at, self.into, self.diameter, self.depth, lean),)

    def check(self, blank: Blank) -> None:
        positive("bore", diameter=self.diameter, depth=self.depth)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(self.into)
        if side is not None:
            # its mouth may lie lower than the side, on the cheek of a tenon
            sunk_by = blank.thickness - self.at[2] if side == "face" else self.at[2]
            depth = self.depth + sunk_by
            through = depth >= blank.thickness - SAME_POINT
            yield Footprint(circle(self.at[:2], self.diameter), side, min(depth, blank.thickness), through)


@dataclass(frozen=True)
class Counterbore(AimedCut):
    """A screw hole with a wider mouth for head and plug: mouth `diameter` by `depth`, then `clearance` through."""

    into: Vector
    diameter: float
    depth: float
    clearance: float

    def removals(self, blank: Blank) -> Iterable[Removal]:
        lean = leaning(self.at, self.into, blank)
        right_through = blank.thickness * math.hypot(1.0, lean) + RUN_OUT + lean * self.clearance / 2.0
        yield drilled(self.at, self.into, self.diameter, self.depth, lean)
        yield drilled(self.at, self.into, self.clearance, right_through, lean)

    def check(self, blank: Blank) -> None:
        positive("counterbore", diameter=self.diameter, depth=self.depth, clearance=self.clearance)
        shallower("counterbore", self.depth, blank.thickness)
        if self.clearance >= self.diameter:
            raise CutError(
                f"a counterbore {self.diameter:g} mm across can't hold a clearance hole of {self.clearance:g} mm; "
                "make the counterbore wider"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(self.into)
        if side is not None:
            yield Footprint(circle(self.at[:2], self.diameter), side, self.depth)
            yield Footprint(circle(self.at[:2], self.clearance), side, blank.thickness, through=True)


#: Biscuit sizes: length, width and slot depth in mm (common practice: slots a shade deeper than half the biscuit).
BISCUITS = {"0": (47.0, 15.0, 8.0), "10": (53.0, 19.0, 10.0), "20": (56.0, 23.0, 12.3)}
BISCUIT_THICKNESS = 4.0
#: Diameter of the biscuit joiner's cutter, mm (common practice).
BISCUIT_CUTTER = 100.0


@dataclass(frozen=True)
class BiscuitSlot(AimedCut):
    """A slot for half a biscuit: middle of its mouth at `at`, plunged `into` the wood, long `along`."""

    into: Vector
    along: Vector
    size: str = "20"

    @property
    def name(self) -> str:
        return "biscuit slot"

    @property
    def depth(self) -> float:
        return BISCUITS[self.size][2]

    @property
    def length(self) -> float:
        """Of the mouth, mm: the chord a cutter leaves at that depth, c = 2 sqrt(h (2r - h)) (Machinery's
        Handbook, 31st ed., p.79)."""
        return 2.0 * math.sqrt(self.depth * (BISCUIT_CUTTER - self.depth))

    def removals(self, blank: Blank) -> Iterable[Removal]:
        half, deep = self.length / 2.0, self.depth
        bulge = 2.0 * deep / self.length  # the arc bellies into the wood, +y
        mouth = Outline(((-half, -0.2), (half, -0.2), (half, 0.0), (-half, 0.0)), (0.0, 0.0, bulge, 0.0))
        across = cross(self.along, self.into)
        origin = added(self.at, scaled(across, -BISCUIT_THICKNESS / 2.0))
        return (Prism(Placement(origin, self.along, self.into, across), mouth, BISCUIT_THICKNESS),)

    def check(self, blank: Blank) -> None:
        if self.size not in BISCUITS:
            raise CutError(f'no biscuit has size "{self.size}"; there are {", ".join(BISCUITS)}')
        if entered(self.into) is not None:
            shallower("biscuit slot", self.depth, blank.thickness)
        elif blank.thickness < 2.0 * BISCUIT_THICKNESS:
            raise CutError(
                f"stock {blank.thickness:g} mm thick is too thin for a biscuit {BISCUIT_THICKNESS:g} mm thick; "
                f"{2.0 * BISCUIT_THICKNESS:g} mm is the least (common practice)"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(self.into)
        if side is not None:
            along = (self.along[0], self.along[1])
            half = (along[0] * self.length / 2.0, along[1] * self.length / 2.0)
            start, end = (
                (self.at[0] - half[0], self.at[1] - half[1]),
                (self.at[0] + half[0], self.at[1] + half[1]),
            )
            yield Footprint(Channel(start, end, BISCUIT_THICKNESS, self.depth).footprint(), side, self.depth)


def sunk(outline: Outline, side: Side, depth: float, thickness: float) -> Prism:
    """`outline` sunk `depth` mm into one side, run out above it."""
    floor = thickness - depth if side == "face" else -RUN_OUT
    return Prism(Placement((0.0, 0.0, floor)), outline, depth + RUN_OUT)
