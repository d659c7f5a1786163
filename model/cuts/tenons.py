"""Cuts that hold by wood let into wood: the end left as tenons, the mortise, the open mortise, the kerf for a wedge.

Tenons run along the grain of their own part, square to its faces; the shoulder lies in whatever plane it meets.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from model.cuts.cut import Blank, Cut, Footprint, positive, shallower
from model.cuts.faces import entered, mirrored_direction, mirrored_point
from model.cuts.removal import RUN_OUT, Block, Leaving, Plane, Removal, box
from model.errors import CutError
from model.layout.outline import Outline
from model.placement import Vector, added, cross, dot, scaled
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
        tip = None if self.tip is None else mirrored_plane(self.tip, width)
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
        beyond = Block((*_around(blank, RUN_OUT), self.shoulder.flipped()))
        standing = self.tenons if self.haunch is None else (*self.tenons, self.haunch)
        return (Leaving(beyond, tuple(_standing(t, blank) for t in standing)),)

    def mirrored(self, blank: Blank) -> TenonedEnd:
        return replace(
            self,
            shoulder=mirrored_plane(self.shoulder, blank.width),
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


@dataclass(frozen=True)
class Mortise(Cut):
    """A square-sided hole for a tenon: middle of its mouth at `at` in the side that faces `mouth` (unit vector), run
    `into` the wood, `length` of it along `along` (square to `into`), `width` across, `depth` down its middle line.

    floor: its bottom in the part's own frame, or, for a through one, the side it comes out of; square to `into` if
    None. eased, ease_depth: how much longer it is at each end on that far side, and how far in, where wedges spread
    the tenon.
    """

    at: Vector
    mouth: Vector
    into: Vector
    along: Vector
    length: float
    width: float
    depth: float
    floor: Plane | None = None
    through: bool = False
    eased: float = 0.0
    ease_depth: float = 0.0

    @property
    def name(self) -> str:
        return "through mortise" if self.through else "mortise"

    @property
    def across(self) -> Vector:
        return cross(self.into, self.along)

    @property
    def square(self) -> bool:
        """Whether it runs square to the side it opens on."""
        return dot(self.into, self.mouth) < -1.0 + 1e-9

    def removals(self, blank: Blank) -> Iterable[Removal]:
        floor = self.floor or Plane(self.into, dot(self.into, self.at) + self.depth)
        bottom = floor.moved_by(RUN_OUT) if self.through else floor
        top = Plane(self.mouth, dot(self.mouth, self.at) + RUN_OUT)
        sides = self._pair(self.along, self.length) + self._pair(self.across, self.width)
        yield Block((top, *open_out((bottom, *sides), blank)))
        if self.eased > 0.0:
            yield self._easing(bottom)

    def mirrored(self, blank: Blank) -> Mortise:
        return replace(
            self,
            at=mirrored_point(self.at, blank.width),
            mouth=mirrored_direction(self.mouth),
            into=mirrored_direction(self.into),
            along=mirrored_direction(self.along),
            floor=None if self.floor is None else mirrored_plane(self.floor, blank.width),
        )

    def check(self, blank: Blank) -> None:
        positive(self.name, length=self.length, width=self.width, depth=self.depth)
        if dot(self.into, self.mouth) > -0.1:
            raise CutError("a mortise must run into the side it opens on; check where the two parts stand")
        if not self.through and self.square and entered(self.mouth) is not None:
            shallower(self.name, self.depth, blank.thickness)

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        side = entered(scaled(self.mouth, -1.0))
        if side is not None and self.square:
            yield Footprint(self._plan(), side, min(self.depth, blank.thickness), self.through)

    def _plan(self) -> Outline:
        a, b = scaled(self.along, self.length / 2.0), scaled(self.across, self.width / 2.0)
        ring = [added(self.at, scaled(a, s), scaled(b, t)) for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        corners = tuple((p[0], p[1]) for p in ring)
        # across points up or down with the side it opens on
        left_handed = self.along[0] * self.across[1] - self.along[1] * self.across[0] < 0.0
        return Outline(corners[::-1] if left_handed else corners)

    def _pair(self, direction: Vector, size: float) -> tuple[Plane, ...]:
        middle = dot(direction, self.at)
        return (
            Plane(direction, middle + size / 2.0),
            Plane(scaled(direction, -1.0), size / 2.0 - middle),
        )

    def _easing(self, bottom: Plane) -> Removal:
        """A wedge-shaped block wider on the far side by `eased` at each end."""
        start = dot(self.into, self.at) + self.depth - self.ease_depth
        slope = math.atan2(self.eased, self.ease_depth)
        sides = []
        for sign in (1.0, -1.0):
            out = scaled(self.along, sign)
            normal = added(scaled(out, math.cos(slope)), scaled(self.into, -math.sin(slope)))
            foot = math.cos(slope) * (dot(out, self.at) + self.length / 2.0) - math.sin(slope) * start
            sides.append(Plane(normal, foot))
        within = Plane(scaled(self.into, -1.0), -start)
        return Block((*sides, *self._pair(self.across, self.width), within, bottom))


@dataclass(frozen=True)
class OpenMortise(Cut):
    """A slot sawn into an end, right across its width, that leaves two prongs: `width` of it, `rise` up from the back
    side, down to the plane `floor` (own frame; the wood inside it stays)."""

    floor: Plane
    width: float
    rise: float

    @property
    def name(self) -> str:
        return "open mortise"

    @property
    def end(self) -> End:
        return "right" if self.floor.normal[0] > 0.0 else "left"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        around = _around(blank, RUN_OUT)
        level = (Plane((0.0, 0.0, 1.0), self.rise + self.width), Plane((0.0, 0.0, -1.0), -self.rise))
        sideways = tuple(p for p in around if p.normal[2] == 0.0)
        return (Block((*sideways, *level, self.floor.flipped())),)

    def mirrored(self, blank: Blank) -> OpenMortise:
        return replace(self, floor=mirrored_plane(self.floor, blank.width))

    def check(self, blank: Blank) -> None:
        positive("open mortise", width=self.width)
        least, third = min(LEAST_SHOULDER, blank.thickness / 4.0), blank.thickness / 3.0
        thinner = min(self.rise, blank.thickness - self.rise - self.width)
        if thinner < least - SAME_POINT:
            raise CutError(
                f"the open mortise would leave a prong of {thinner:.1f} mm in stock {blank.thickness:g} mm thick; "
                f"a third of the stock is {third:.1f} mm"
            )


@dataclass(frozen=True)
class Kerf(Cut):
    """A saw kerf down a tenon for a wedge: middle of its mouth at `at` on the tip, run `into` the wood (along the
    grain), `across` (unit vector) the way the wedge spreads it, `width` of the kerf, `depth`, `length` of its mouth."""

    at: Vector
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

    def mirrored(self, blank: Blank) -> Kerf:
        return replace(
            self,
            at=mirrored_point(self.at, blank.width),
            into=mirrored_direction(self.into),
            across=mirrored_direction(self.across),
        )

    def check(self, blank: Blank) -> None:
        positive("wedge kerf", width=self.width, depth=self.depth, length=self.length)


@dataclass(frozen=True)
class SawnEnd(Cut):
    """An end sawn off at any slant: the wood inside the plane `along` (own frame) stays."""

    along: Plane

    @property
    def name(self) -> str:
        return "end cut"

    def removals(self, blank: Blank) -> Iterable[Removal]:
        return (Block((*_around(blank, RUN_OUT), self.along.flipped())),)

    def mirrored(self, blank: Blank) -> SawnEnd:
        return SawnEnd(mirrored_plane(self.along, blank.width))

    def check(self, blank: Blank) -> None:
        if abs(self.along.normal[0]) < 0.1:
            raise CutError("an end cut must run across the grain; check where the two parts stand")


def open_out(walls: Iterable[Plane], blank: Blank, by: float = RUN_OUT) -> tuple[Plane, ...]:
    """The same planes, those that lie on the outside of the wood or past it moved out, so that no skin is left."""
    return tuple(p.moved_by(by) if p.offset >= _reach(p.normal, blank) - SAME_POINT else p for p in walls)


def mirrored_plane(p: Plane, width: float) -> Plane:
    """Its image at y' = width - y."""
    return Plane(mirrored_direction(p.normal), p.offset - width * p.normal[1])


def _reach(normal: Vector, blank: Blank) -> float:
    """How far the blank reaches along a direction."""
    level = math.hypot(normal[0], normal[1])
    up = max(0.0, normal[2]) * blank.thickness
    if level < 1e-12:
        return up
    return level * blank.outline.extent((normal[0] / level, normal[1] / level))[1] + up


def _around(blank: Blank, by: float) -> tuple[Plane, ...]:
    x0, y0, x1, y1 = blank.outline.bounds
    return box((x0 - by, y0 - by, -by), (x1 + by, y1 + by, blank.thickness + by))


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
