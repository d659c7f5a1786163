"""Cuts run along an edge, each a section taken off it: rabbet, tongue, groove, bead, bevel, ease, chamfer.

A section is drawn in (u, v): u inward from the edge, v up from the back side. Every cut names the edge it runs along
(near, right, far, left, or a name the outline gives) and may start and stop short of its ends.
"""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from model.cuts.cut import Blank, Cut, Footprint, Side, mirrored_edge, positive, shallower
from model.cuts.removal import RUN_OUT, Removal, along
from model.errors import CutError
from model.layout.outline import Edge, Outline

Sides = Literal["face", "back", "both"]


def _box(u0: float, v0: float, u1: float, v1: float) -> Outline:
    return Outline(((u0, v0), (u1, v0), (u1, v1), (u0, v1)))


def _from_side(section: Outline, side: Side, thickness: float) -> Outline:
    """A section drawn for the back side, moved to the side it is for."""
    return section if side == "back" else section.mirrored(thickness)


@dataclass(frozen=True, kw_only=True)
class EdgeCut(Cut):
    """A section taken off along one edge; start and stop in mm along it, None for right through."""

    edge: str
    start: float | None = None
    stop: float | None = None

    @abstractmethod
    def sections(self, thickness: float) -> tuple[Outline, ...]:
        """What is taken off, in (u, v)."""

    def removals(self, blank: Blank) -> Iterable[Removal]:
        blank.outline.named(self.edge)
        for section in self.sections(blank.thickness):
            yield from along(blank.outline.edges, self.edge, section, self.start, self.stop)

    def mirrored(self, blank: Blank) -> EdgeCut:
        # the mirrored edge is run from its other end
        total = sum(e.length for e in blank.outline.named(self.edge))
        start = None if self.stop is None else total - self.stop
        stop = None if self.start is None else total - self.start
        return replace(self, edge=mirrored_edge(self.edge), start=start, stop=stop)

    @property
    def full(self) -> bool:
        """Whether it runs right through."""
        return self.start is None and self.stop is None


@dataclass(frozen=True, kw_only=True)
class Rabbet(EdgeCut):
    """A step along an edge: `width` in from the edge, `depth` down from one side."""

    width: float
    depth: float
    side: Side = "back"

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        return (_from_side(_box(-RUN_OUT, -RUN_OUT, self.width, self.depth), self.side, thickness),)

    def check(self, blank: Blank) -> None:
        positive("rabbet", width=self.width, depth=self.depth)
        shallower("rabbet", self.depth, blank.thickness)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        edges = blank.outline.named(self.edge)
        if len(edges) == 1 and edges[0].straight:
            yield Footprint(strip(edges[0], self.width, self.start, self.stop), self.side, self.depth)


@dataclass(frozen=True, kw_only=True)
class Tongue(EdgeCut):
    """A tongue left along an edge by a rabbet from each side: `thickness`, `length` out, `rise` from the back."""

    thickness: float
    length: float
    rise: float

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        below = _box(-RUN_OUT, -RUN_OUT, self.length, self.rise)
        above = _box(-RUN_OUT, self.rise + self.thickness, self.length, thickness + RUN_OUT)
        return (below, above)

    def check(self, blank: Blank) -> None:
        positive("tongue", thickness=self.thickness, length=self.length, rise=self.rise)
        if self.rise + self.thickness >= blank.thickness:
            raise CutError(
                f"a tongue {self.thickness:g} mm thick, {self.rise:g} mm from the back, leaves no shoulder in stock "
                f"{blank.thickness:g} mm thick; a third of the stock, {blank.thickness / 3:.1f} mm, is the rule "
                "(NAVEDTRA 14119, chapter 3)"
            )


@dataclass(frozen=True, kw_only=True)
class EdgeGroove(EdgeCut):
    """A groove run in an edge: `width` of it, `depth` in, its lower wall `rise` from the back side."""

    width: float
    depth: float
    rise: float

    @property
    def name(self) -> str:
        return "edge groove"

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        return (_box(-RUN_OUT, self.rise, self.depth, self.rise + self.width),)

    def check(self, blank: Blank) -> None:
        positive("edge groove", width=self.width, depth=self.depth, rise=self.rise)
        if self.rise + self.width >= blank.thickness:
            raise CutError(
                f"an edge groove {self.width:g} mm wide, {self.rise:g} mm from the back, leaves no cheek in stock "
                f"{blank.thickness:g} mm thick; a third of the stock, {blank.thickness / 3:.1f} mm, is the rule "
                "(NAVEDTRA 14119, chapter 3)"
            )


@dataclass(frozen=True, kw_only=True)
class Bead(EdgeCut):
    """A half-round bead at the edge of one side, set off by a quirk: `radius`, `quirk` width, `inset` from the edge.

    inset is the length of a tongue that stands beyond the shoulder the bead is worked on.
    """

    radius: float
    quirk: float
    side: Side = "face"
    inset: float = 0.0

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        r, a, q = self.radius, self.inset, self.quirk
        quarter = -math.tan(math.pi / 8.0)
        # drawn for the back side: the bead stands on v = 0, its crown there
        corner = Outline(
            ((a - RUN_OUT, -RUN_OUT), (a + r, -RUN_OUT), (a + r, 0.0), (a, r), (a - RUN_OUT, r)),
            (0.0, 0.0, quarter, 0.0, 0.0),
        )
        beyond = a + 2.0 * r
        quirk = Outline(
            ((a + r, -RUN_OUT), (beyond + q, -RUN_OUT), (beyond + q, r), (beyond, r), (a + r, 0.0)),
            (0.0, 0.0, 0.0, quarter, 0.0),
        )
        return tuple(_from_side(s, self.side, thickness) for s in (corner, quirk))

    def check(self, blank: Blank) -> None:
        positive("bead", radius=self.radius, quirk=self.quirk)
        shallower("bead", self.radius, blank.thickness / 2.0)


@dataclass(frozen=True, kw_only=True)
class Bevel(EdgeCut):
    """The edge planed out of square by `angle` degrees; the arris on the `keep` side stays where it is."""

    angle: float
    keep: Side = "face"

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        slope = math.tan(math.radians(self.angle))
        foot = (thickness + RUN_OUT) * slope
        wedge = Outline(((-RUN_OUT, -RUN_OUT), (foot, -RUN_OUT), (0.0, thickness), (-RUN_OUT, thickness)))
        return (_from_side(wedge, "back" if self.keep == "face" else "face", thickness),)

    def check(self, blank: Blank) -> None:
        if not 0.0 < self.angle < 60.0:
            raise CutError(f"a bevel of {self.angle:g} degrees can't be planed; give more than 0 and less than 60")


@dataclass(frozen=True, kw_only=True)
class Ease(EdgeCut):
    """The arrises of an edge rounded over to a small `radius`."""

    radius: float
    sides: Sides = "both"

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        r, quarter = self.radius, -math.tan(math.pi / 8.0)
        corner = Outline(
            ((-RUN_OUT, -RUN_OUT), (r, -RUN_OUT), (r, 0.0), (0.0, r), (-RUN_OUT, r)),
            (0.0, 0.0, quarter, 0.0, 0.0),
        )
        return _on_sides(corner, self.sides, thickness)

    def check(self, blank: Blank) -> None:
        positive("ease", radius=self.radius)
        shallower("rounding", self.radius * (2.0 if self.sides == "both" else 1.0), blank.thickness)


@dataclass(frozen=True, kw_only=True)
class Chamfer(EdgeCut):
    """The arrises of an edge taken off at 45 degrees, `width` mm along each face."""

    width: float
    sides: Sides = "both"

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        w = self.width
        corner = Outline(((-RUN_OUT, -RUN_OUT), (w + RUN_OUT, -RUN_OUT), (-RUN_OUT, w + RUN_OUT)))
        return _on_sides(corner, self.sides, thickness)

    def check(self, blank: Blank) -> None:
        positive("chamfer", width=self.width)
        shallower("chamfer", self.width * (2.0 if self.sides == "both" else 1.0), blank.thickness)


def _on_sides(section: Outline, sides: Sides, thickness: float) -> tuple[Outline, ...]:
    wanted: tuple[Side, ...] = ("face", "back") if sides == "both" else (sides,)
    return tuple(_from_side(section, side, thickness) for side in wanted)


def strip(e: Edge, width: float, start: float | None, stop: float | None) -> Outline:
    """The band of `width` mm along a straight edge, between start and stop."""
    (dx, dy), lo, hi = e.direction(0.0), start or 0.0, e.length if stop is None else stop
    a = (e.start[0] + lo * dx, e.start[1] + lo * dy)
    b = (e.start[0] + hi * dx, e.start[1] + hi * dy)
    inner = ((b[0] - width * dy, b[1] + width * dx), (a[0] - width * dy, a[1] + width * dx))
    return Outline((a, b, *inner))
