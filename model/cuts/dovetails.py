"""The ends of boards that interlock at a corner: tails and box fingers, and the pins they go between.

Tails are drawn on the board's outer side and go `through` its thickness in one direction, the pin board's grain;
pins are drawn on the end of the board, seen along its grain.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from model.cuts.cut import Blank, Cut, Footprint, Side
from model.cuts.removal import RUN_OUT, Block, Leaving, Plane, Removal, box
from model.errors import CutError
from model.layout.outline import Edge, Outline, Point
from model.placement import Vector, cross, dot, unit
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class Tails(Cut):
    """What is left of a board's end beyond its shoulder: tails, each drawn from shoulder to tip on the outer `side`.

    shoulder: the half of space beyond it; tip: the half up to the tails' tips; through: unit vector in which the
    flanks go through the thickness; within: limits across the board past which its end is left alone.
    """

    tails: tuple[Outline, ...]
    shoulder: Plane
    tip: Plane
    side: Side
    through: Vector
    within: tuple[Plane, ...] = ()

    @property
    def square(self) -> bool:
        """Whether the flanks go square through the thickness."""
        return abs(self.through[2]) > 1.0 - 1e-9

    def removals(self, blank: Blank) -> Iterable[Removal]:
        low, high = _bounds(blank)
        around = box(_outward(low, -RUN_OUT), _outward(high, RUN_OUT))
        taken = Block((*around, self.shoulder, *(p.moved_by(RUN_OUT * self._open(p, blank)) for p in self.within)))
        # the tip stays the board's own end where nothing is left over past it
        past = self.tip.moved_by(0.0 if _beyond(self.tip, blank) > SAME_POINT else 4.0 * RUN_OUT)
        level = box(_outward(low, -2.0 * RUN_OUT), _outward(high, 2.0 * RUN_OUT))
        left = tuple(
            Block((*self._flanks(tail, blank), self.shoulder.moved_by(RUN_OUT), past, level[2], level[5]))
            for tail in self.tails
        )
        return (Leaving(taken, left),)

    def mirrored(self, blank: Blank) -> Tails:
        return replace(
            self,
            tails=tuple(_mirrored(t, blank.width, 1) for t in reversed(self.tails)),
            shoulder=self.shoulder.mirrored(blank.width),
            tip=self.tip.mirrored(blank.width),
            through=(self.through[0], -self.through[1], self.through[2]),
            within=tuple(p.mirrored(blank.width) for p in self.within),
        )

    def check(self, blank: Blank) -> None:
        if not self.tails:
            raise CutError(f"there are no {self.name} to cut; give at least one")
        if not any(blank.outline.contains(t.edges[n].point(0.5)) for t in self.tails for n in (1, 3)):
            raise CutError(f"the {self.name} miss the part they are cut in; check where the two parts stand")

    def footprints(self, blank: Blank) -> Iterable[Footprint]:
        if self.square and abs(self.shoulder.normal[0]) > 1.0 - 1e-9:
            for outline in (*self._spaces(blank), *self._left_over(blank)):
                yield Footprint(outline, "face", blank.thickness, through=True)

    def _flanks(self, tail: Outline, blank: Blank) -> tuple[Plane, Plane]:
        """The planes of a tail's two flanks, wood inside."""
        z = blank.thickness if self.side == "face" else 0.0
        planes = [self._flank(tail.edges[n], z, middle(tail)) for n in (1, 3)]
        return planes[0], planes[1]

    def _flank(self, e: Edge, z: float, inside: Point) -> Plane:
        (dx, dy), start = e.direction(0.0), (*e.start, z)
        normal = unit(cross((dx, dy, 0.0), self.through))
        plane = Plane(normal, dot(normal, start))
        return plane if dot(normal, (*inside, z)) < plane.offset else plane.flipped()

    def _open(self, limit: Plane, blank: Blank) -> bool:
        """Whether a limit lies at the board's own edge, where the cutter may run past it."""
        return _beyond(limit, blank) <= SAME_POINT

    def _spaces(self, blank: Blank) -> Iterable[Outline]:
        """The notches between the tails and beside them, run out past the end and the edges."""
        flanks = [side for near, far in sorted(map(_sides, self.tails), key=_least_y) for side in (near, far)]
        (x0, _), (x1, _) = flanks[0]
        out = RUN_OUT if x1 > x0 else -RUN_OUT
        low, high = self._across(blank)
        walls = [((x0, low), (x1, low)), *flanks, ((x0, high), (x1, high))]
        for near, far in zip(walls[0::2], walls[1::2], strict=True):
            if far[0][1] - near[0][1] > SAME_POINT:
                yield ring((near[0], _longer(near, out), _longer(far, out), far[0]))

    def _left_over(self, blank: Blank) -> Iterable[Outline]:
        """The strip past the tips that is trimmed off, if there is one."""
        past = _beyond(self.tip, blank)
        if past > SAME_POINT:
            x, (low, high) = self.tip.normal[0] * self.tip.offset, self._across(blank)
            end = x + self.tip.normal[0] * (past + RUN_OUT)
            yield ring(((x, low), (end, low), (end, high), (x, high)))

    def _across(self, blank: Blank) -> tuple[float, float]:
        """From where to where the end is worked, in y, run out past the board's own edges."""
        _, y0, _, y1 = blank.outline.bounds
        edges = {p.normal[1]: p.offset for p in self.within}
        return -edges.get(-1.0, RUN_OUT - y0), edges.get(1.0, y1 + RUN_OUT)


@dataclass(frozen=True)
class Fingers(Tails):
    """The fingers of a box joint: tails without slope."""

    @property
    def name(self) -> str:
        return "box fingers"


@dataclass(frozen=True)
class Pins(Cut):
    """The pins left at a board's end by sockets let into one `side`, each drawn in (y, z) as seen on the end.

    baseline: the half of space the sockets lie in, up to the board's end; end: the half the board is trimmed to.
    """

    sockets: tuple[Outline, ...]
    baseline: Plane
    end: Plane
    side: Side

    @property
    def depth(self) -> float:
        """Of the sockets into the side, mm."""
        _, z0, _, z1 = self.sockets[0].bounds
        return z1 - z0

    def lap(self, blank: Blank) -> float:
        """Wood left in front of the sockets, mm; 0 where they go right through."""
        return max(0.0, blank.thickness - self.depth)

    def removals(self, blank: Blank) -> Iterable[Removal]:
        low, high = _bounds(blank)
        wide, tall = _outward(low, -RUN_OUT), _outward(high, RUN_OUT)
        if _beyond(self.end, blank) > SAME_POINT:
            yield Block((*box(wide, tall), self.end.flipped()))
        floor = 0.0 if self.lap(blank) > SAME_POINT else RUN_OUT
        z0, z1 = (-RUN_OUT, self.depth + floor)
        if self.side == "face":
            z0, z1 = blank.thickness - self.depth - floor, blank.thickness + RUN_OUT
        ends = box((wide[0], 0.0, z0), (tall[0], 0.0, z1))
        bounds = (ends[0], ends[2], ends[3], ends[5])
        for socket in self.sockets:
            yield Block((*bounds, *(_wall(socket.edges[n]) for n in (1, 3)), self.baseline))

    def mirrored(self, blank: Blank) -> Pins:
        return replace(
            self,
            sockets=tuple(_mirrored(s, blank.width, 0) for s in reversed(self.sockets)),
            baseline=self.baseline.mirrored(blank.width),
            end=self.end.mirrored(blank.width),
        )

    def check(self, blank: Blank) -> None:
        if not self.sockets:
            raise CutError("there are no pins to cut; give at least one tail")
        _, y0, _, y1 = blank.outline.bounds
        for socket in self.sockets:
            lo, _, hi, _ = socket.bounds
            if lo < y0 + SAME_POINT or hi > y1 - SAME_POINT:
                raise CutError(
                    f"a tail from {lo:.1f} to {hi:.1f} mm would break out of an edge of the pin board, which goes from "
                    f"{y0:.1f} to {y1:.1f} mm; half a pin must stand at each edge, so make fewer or narrower tails"
                )


def ring(corners: Sequence[Point]) -> Outline:
    """The outline round four or more corners, whichever way round they are given; the first stays the first, or
    the first two change places, so that a base stays the first edge."""
    turned = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    return Outline(tuple(corners) if turned > 0.0 else (corners[1], corners[0], *reversed(corners[2:])))


def middle(outline: Outline) -> Point:
    """Of a tail's or socket's four corners."""
    xs, ys = zip(*outline.corners, strict=True)
    return (sum(xs) / len(xs), sum(ys) / len(ys))


def _mirrored(four: Outline, width: float, axis: int) -> Outline:
    """Four corners reflected in one of their two coordinates, the base still the first edge."""
    return ring(tuple((x, width - y) if axis else (width - x, y) for x, y in four.corners))


def _sides(tail: Outline) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """A tail's flanks from shoulder to tip, the near one first."""
    a, b, c, d = tail.corners
    near, far = sorted(((a, d), (b, c)), key=lambda side: side[0][1])
    return near, far


def _least_y(sides: tuple[tuple[Point, Point], tuple[Point, Point]]) -> float:
    return sides[0][0][1]


def _longer(side: tuple[Point, Point], out: float) -> Point:
    """Where a flank, or a straight run past an edge, comes to `out` mm past the tips in x."""
    (x0, y0), (x1, y1) = side
    t = (x1 + out - x0) / (x1 - x0)
    return (x0 + t * (x1 - x0), y0 + t * (y1 - y0))


def _wall(e: Edge) -> Plane:
    """A socket's flank along the grain, the socket inside."""
    dy, dz = e.direction(0.0)
    normal = (0.0, dz, -dy)  # to the right of a counter-clockwise edge
    return Plane(normal, normal[1] * e.start[0] + normal[2] * e.start[1])


def _bounds(blank: Blank) -> tuple[Vector, Vector]:
    x0, y0, x1, y1 = blank.outline.bounds
    return (x0, y0, 0.0), (x1, y1, blank.thickness)


def _outward(corner: Vector, by: float) -> Vector:
    return (corner[0] + by, corner[1] + by, corner[2] + by)


def _beyond(plane: Plane, blank: Blank) -> float:
    """How far the blank reaches out of a half of space, mm."""
    nx, ny, nz = plane.normal
    size = (nx * nx + ny * ny) ** 0.5
    flat = size * blank.outline.extent((nx / size, ny / size))[1] if size > 1e-12 else 0.0
    return flat + max(0.0, nz * blank.thickness) - plane.offset
