"""The end of a part cut back to tenons, and the kerf for a wedge in one.

Tenons run along the grain of their own part, square to its faces; the shoulder lies in whatever plane it meets.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from model.cuts.aimed import AimedCut
from model.cuts.cut import Blank, Cut, Footprint, positive
from model.cuts.removal import RUN_OUT, Block, Leaving, Plane, Removal, box
from model.cuts.run_out import open_out, past_blank
from model.errors import CutError
from model.layout.clipping import HalfPlane, around, clipped
from model.layout.outline import Outline, Point
from model.placement import Vector, cross, dot, scaled
from model.tolerance import SAME_POINT

End = Literal["left", "right"]

#: Least wood left beside a tenon, mm (1/8 in), or a quarter of thinner stock (common practice).
LEAST_SHOULDER = 3.175
#: Far enough to pass any part, mm.
_PAST_ALL = 1e4


@dataclass(frozen=True)
class Tenon:
    """What is left standing past a shoulder, mm: `width` of it, `inset` from the near edge; `thickness`, `rise` up
    from the back side. tip: the plane it is cut off at, in the part's own frame; None where it ends with the part."""

    inset: float
    width: float
    rise: float
    thickness: float
    tip: Plane | None = None

    @property
    def middle(self) -> tuple[float, float]:
        """Of its section: (y, z)."""
        return (self.inset + self.width / 2.0, self.rise + self.thickness / 2.0)

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Of its section: (y, z) each."""
        ys, zs = (self.inset, self.inset + self.width), (self.rise, self.rise + self.thickness)
        return tuple((y, z) for y in ys for z in zs)

    @property
    def walls(self) -> tuple[Plane, ...]:
        """Its four sides."""
        return (
            Plane((0.0, 1.0, 0.0), self.inset + self.width),
            Plane((0.0, -1.0, 0.0), -self.inset),
            Plane((0.0, 0.0, 1.0), self.rise + self.thickness),
            Plane((0.0, 0.0, -1.0), -self.rise),
        )

    def mirrored(self, width: float) -> Tenon:
        tip = None if self.tip is None else self.tip.mirrored(width)
        return replace(self, inset=width - self.inset - self.width, tip=tip)


@dataclass(frozen=True)
class TenonedEnd(Cut):
    """An end cut back to a shoulder, but for its tenons. shoulder: in the part's own frame, the wood inside it stays;
    haunch: the short tongue that fills out the rest of the width."""

    shoulder: Plane
    tenons: tuple[Tenon, ...]
    haunch: Tenon | None = None

    @property
    def name(self) -> str:
        levels, rows = (len({getattr(t, side) for t in self.tenons}) for side in ("rise", "inset"))
        words = ["haunched"] * (self.haunch is not None) + ["double"] * (rows > 1) + ["twin"] * (levels > 1)
        return " ".join([*words, "tenon"])

    @property
    def end(self) -> End:
        return "right" if self.shoulder.normal[0] > 0.0 else "left"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        beyond = Block((*past_blank(blank), self.shoulder.flipped()))
        standing = self.tenons if self.haunch is None else (*self.tenons, self.haunch)
        return (Leaving(beyond, tuple(_standing(t, blank) for t in standing)),)

    def mirrored(self, blank: Blank) -> TenonedEnd:
        return replace(
            self,
            shoulder=self.shoulder.mirrored(blank.width),
            tenons=tuple(t.mirrored(blank.width) for t in self.tenons),
            haunch=None if self.haunch is None else self.haunch.mirrored(blank.width),
        )

    def check(self, blank: Blank) -> None:
        for t in self.tenons:
            positive("tenon", width=t.width, thickness=t.thickness)
        _enough_cheek(self.tenons, blank.thickness)
        low, high = min(t.inset for t in self.tenons), max(t.inset + t.width for t in self.tenons)
        if low < -SAME_POINT or high > blank.width + SAME_POINT:
            raise CutError(
                f"a tenon from {low:.1f} to {high:.1f} mm across does not lie within a part {blank.width:.1f} mm wide; "
                "make it narrower"
            )

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        """The cheeks from both sides and what goes beside the tenons, where all stands square to the faces and no two
        tenons lie over each other."""
        standing = self.tenons if self.haunch is None else (*self.tenons, self.haunch)
        levels = {(round(t.rise, 6), round(t.thickness, 6)) for t in standing}
        upright = all(abs(p.normal[2]) < SAME_POINT for p in (self.shoulder, *(t.tip for t in standing if t.tip)))
        if len(levels) > 1 or not upright:
            return
        for tenon in standing:
            cheek = Outline(tuple(self.plan(tenon, blank)))
            if tenon.rise > SAME_POINT:
                yield Footprint(cheek, "back", tenon.rise)
            above = blank.thickness - tenon.rise - tenon.thickness
            if above > SAME_POINT:
                yield Footprint(cheek, "face", above)
        for ring in self._beside(standing, blank):
            yield Footprint(Outline(tuple(ring)), "face", blank.thickness, through=True)

    def plan(self, tenon: Tenon, blank: Blank) -> list[Point]:
        """Where a tenon stands, seen on the face."""
        within = () if tenon.tip is None else (_in_plan(tenon.tip),)
        return self._beyond(blank, 0.0, *_between(tenon.inset, tenon.inset + tenon.width), *within)

    def _beyond(self, blank: Blank, past: float = 0.0, *within: HalfPlane) -> list[Point]:
        """What lies beyond the shoulder, in plan."""
        return clipped(around(blank.outline.bounds, past), [_in_plan(self.shoulder.flipped()), *within])

    def _beside(self, standing: Sequence[Tenon], blank: Blank) -> Iterable[list[Point]]:
        """The strips between the tenons and past the tips of all that lie side by side, run out past the wood."""
        _, low, _, high = blank.outline.bounds
        sides = {y for t in standing for y in (t.inset, t.inset + t.width) if low + SAME_POINT < y < high - SAME_POINT}
        for a, b in pairwise([low - RUN_OUT, *sorted(sides), high + RUN_OUT]):
            here = [t for t in standing if t.inset < (a + b) / 2.0 < t.inset + t.width]
            tips = [t.tip for t in here if t.tip is not None]
            within = (*_between(a, b), *(_in_plan(tip.flipped()) for tip in tips))
            # a tip at the part's own end leaves nothing past it
            if len(tips) == len(here) and self._beyond(blank, 0.0, *within):
                yield self._beyond(blank, RUN_OUT, *within)


@dataclass(frozen=True)
class Kerf(AimedCut):
    """A saw kerf down a tenon for a wedge: middle of its mouth at `at` on the tip, run `into` the wood (along the
    grain), `across` (unit vector) the way the wedge spreads it, `width` of the kerf, `depth`, `length` of its mouth."""

    into: Vector
    across: Vector
    width: float
    depth: float
    length: float

    @property
    def name(self) -> str:
        return "wedge kerf"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        level = cross(self.into, self.across)
        # the tip may slant: start well before its middle
        planes = [Plane(scaled(self.into, -1.0), self.length + RUN_OUT - dot(self.into, self.at))]
        planes.append(Plane(self.into, dot(self.into, self.at) + self.depth))
        for direction, half in ((self.across, self.width / 2.0), (level, self.length / 2.0 + RUN_OUT)):
            middle = dot(direction, self.at)
            planes += [Plane(direction, middle + half), Plane(scaled(direction, -1.0), half - middle)]
        return (Block(tuple(planes)),)

    def check(self, blank: Blank) -> None:
        positive("wedge kerf", width=self.width, depth=self.depth, length=self.length)


def _in_plan(plane: Plane) -> HalfPlane:
    """An upright plane's half of the plan."""
    x, y, _ = plane.normal
    return (x, y), plane.offset


def _between(low: float, high: float) -> tuple[HalfPlane, HalfPlane]:
    return ((0.0, -1.0), -low), ((0.0, 1.0), high)


def _standing(tenon: Tenon, blank: Blank) -> Block:
    lengthways = box((-_PAST_ALL,) * 3, (_PAST_ALL,) * 3)
    along = tuple(p for p in lengthways if p.normal[0] != 0.0)
    tip = () if tenon.tip is None else (tenon.tip,)
    return Block((*open_out(tenon.walls, blank, 2.0 * RUN_OUT), *along, *tip))


def _enough_cheek(tenons: Sequence[Tenon], thickness: float) -> None:
    """Raises CutError for cheeks of the end, or room between two tenons, too thin to stand."""
    ups = sorted({(t.rise, t.rise + t.thickness) for t in tenons})
    edges = [0.0, *(level for pair in ups for level in pair), thickness]
    least = min(LEAST_SHOULDER, thickness / 4.0)
    if len(ups) > 1:
        least = min(least, thickness / (2.0 * len(ups) + 1.0))
    for low, high in zip(edges[::2], edges[1::2], strict=True):
        bare = low == 0.0 or high == thickness
        if high - low < least - SAME_POINT and not (bare and abs(high - low) < SAME_POINT):
            raise CutError(
                f"the tenon would leave {high - low:.1f} mm of cheek in a {thickness:g} mm rail; "
                f"a third of the rail is {thickness / 3.0:.1f} mm"
            )
