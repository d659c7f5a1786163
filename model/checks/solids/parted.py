"""Can it be shown with planes alone that two solids share no wood worth speaking of? No CAD kernel here.

Were a ball as wide as the depth asked about in both solids, its middle would lie its radius inside every face near it.
So the room where the ball may be is bounded: first by both parts' boxes, then by each face that has all of its part's
skin in the room behind it; a face that crosses the whole room divides it in two. A room whose middles no skin of one
part comes near, and which lies outside of that part, holds no such ball. When every room is settled so, nothing is
shared; when one is not, nothing is said, and the kernel must be asked. Slits thinner than a fifth of the ball are taken
for faces that touch.

Rooms divided by the solids' own faces: W. Thibault, B. Naylor, Set operations on polyhedra using binary space
partitioning trees, SIGGRAPH 1987.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from model.checks.solids.clipped import Numbers, Planes, Polygons, times_round
from model.checks.solids.near_pairs import StoodBox
from model.placement import Placement
from model.tolerance import SAME_FACE

if TYPE_CHECKING:
    from model.checks.solids.facets import Facets

#: Of the depth asked about, the ball's own; what lies nearer to the limit is left to the kernel.
BALL = 0.95

#: Of the depth asked about, how near to a wall skin is not looked at; it takes in what strays by FINEST and what
#: rounding leaves.
RIM = 0.14

#: Of the depth asked about, how much facets may stray when coarse ones leave the question open.
FINEST = 0.12

#: Of the depth asked about, how far skin may stand before a face that still counts as foremost.
STANDS_OUT = 0.2

#: Coarse facets of curved faces in the room up to which finer ones are sooner made than the kernel asked.
MOST_CURVED = 300

#: Rooms looked at before it is given up.
MOST_ROOMS = 60

#: Faces lie in one plane to this much, mm: the slack the kernel cuts with, and half as much again.
FLAT = 1.5 * SAME_FACE

#: Faces that cross a room leave no more than this open along its walls, mm.
SEAM = 2e-5

#: Faces look the same way when the cosine between them is over this.
ALIKE = 1.0 - 1e-10

#: Facets that go round a point less often than this leave it outside for certain.
OUTSIDE = 0.25


@dataclass(frozen=True, eq=False)
class Skinned:
    """A solid in its own frame: its box, its facets, and finer facets of some of its faces, straying so much, mm."""

    box: StoodBox
    skin: Facets
    finer: Callable[[Iterable[int], float], Facets]


def shown_apart(first: Skinned, second: Skinned, at: Placement, deeper: float) -> bool:
    """Whether no ball `deeper` mm across can lie in both solids, where the second stands `at` in the first one's frame.
    False says nothing: they may share wood or not."""
    stood = _Stood(first, Placement()), _Stood(second, at)
    bounds, deep = _within_both(*stood, deeper)
    room = bounds.drawn_in(RIM * deeper)
    coarse, others = stood[0].part(room), stood[1].part(room)
    if _all_settled(_Room(bounds, deep, (coarse, others), deeper)):
        return True
    curved = [s.curved(room) for s in stood]
    facets = sum(s.facets_of(faces) for s, faces in zip(stood, curved, strict=True))
    if not 0 < facets <= MOST_CURVED:
        return False
    fine, others = (s.finer_part(room, faces, FINEST * deeper) for s, faces in zip(stood, curved, strict=True))
    return _all_settled(_Room(bounds, deep, (fine, others), deeper))


def _all_settled(room: _Room) -> bool:
    rooms = [room]
    for _ in range(MOST_ROOMS):
        if not rooms:
            return True
        divided = rooms.pop().settled()
        if divided is None:
            return False
        rooms += divided
    return False


@dataclass(frozen=True, eq=False)
class _Part:
    """A part as a room has it: all its facets' corners (n, 3, 3), and what of its skin is in the room."""

    whole: Numbers
    near: Polygons


@dataclass(frozen=True, eq=False)
class _Room:
    """bounds: the ball lies inside them; deep (k,): its middle at least so far in from each, mm; cut: whether the skin
    is cut off at the bounds, as it is once whole facets leave the question open."""

    bounds: Planes
    deep: Numbers
    parts: tuple[_Part, _Part]
    deeper: float
    cut: bool = False

    def settled(self) -> list[_Room] | None:
        """Nothing where no ball can be; else smaller rooms that hold every ball this one holds, or None if that can't
        be said."""
        if not len(self.corners):
            return []
        entered = [p.near.inside(self.middles) if self.cut else p.near.not_outside(self.middles) for p in self.parts]
        middle = self.corners.mean(axis=0)
        for part, skin in zip(self.parts, entered, strict=True):
            if not len(skin) and times_round(part.whole, middle) < OUTSIDE:
                return []
        smaller = self._tightened() or self._cut_off()
        return [smaller] if smaller is not None else self._divided(entered)

    @cached_property
    def middles(self) -> Planes:
        """Where the ball's middle may be."""
        return self.bounds.drawn_in(self.deep)

    @cached_property
    def corners(self) -> Numbers:
        return self.middles.corners()

    def _bounded(self, more: Planes) -> _Room:
        """Bounded by more planes. The ball reaches its whole radius towards each, less where a wall that faces alike
        hides the skin near it."""
        rim = RIM * self.deeper
        facing = more.normals @ self.bounds.normals.T
        hidden = np.where(facing > 1e-9, (self.deep - rim) / np.maximum(facing, 1e-9), np.inf)
        deep = np.minimum(hidden.min(axis=1), BALL * self.deeper / 2.0)
        left = more.drawn_in(rim)
        first, second = (
            _Part(p.whole, p.near.inside(left) if self.cut else p.near.not_outside(left)) for p in self.parts
        )
        joined = np.concatenate([self.bounds.normals, more.normals]), np.concatenate([self.bounds.levels, more.levels])
        return _Room(*_foremost(*joined, np.concatenate([self.deep, deep])), (first, second), self.deeper, self.cut)

    def _cut_off(self) -> _Room | None:
        if self.cut:
            return None
        inside = self.bounds.drawn_in(RIM * self.deeper)
        first, second = (_Part(p.whole, p.near.inside(inside)) for p in self.parts)
        return replace(self, parts=(first, second), cut=True)

    def _tightened(self) -> _Room | None:
        """The room bounded by every face that has all of its part's skin in the room behind it."""
        found = [k for p in self.parts for k in self._with_all_behind(p.near)]
        return self._bounded(Planes(*map(np.array, zip(*found, strict=True)))) if found else None

    def _with_all_behind(self, near: Polygons) -> Iterator[tuple[Numbers, float]]:
        normals, levels = _planes_of(near)
        if not len(levels):
            return
        most = ((near.corners @ normals.T).max(axis=1) + near.reach(normals)).max(axis=0)
        cuts = (self.corners @ normals.T).max(axis=0) > most - RIM * self.deeper
        for n in np.nonzero((most < levels + STANDS_OUT * self.deeper) & cuts)[0]:
            yield normals[n], float(most[n])

    def _divided(self, entered: list[Polygons]) -> list[_Room] | None:
        """The two rooms before and behind a face that crosses this one from wall to wall, as evenly as may be."""
        tried = []
        for part, skin in zip(self.parts, entered, strict=True):
            for normal, level in zip(*_planes_of(skin), strict=True):
                heights = self.corners @ normal - level
                tried.append((min(-heights.min(), heights.max()), part.near, normal, level))
        for _, near, normal, level in sorted(tried, key=lambda t: -t[0]):
            if self._crossed_by(near, normal, level):
                return [self._bounded(Planes(s * normal[None], np.array([s * level]))) for s in (1.0, -1.0)]
        return None

    def _crossed_by(self, near: Polygons, normal: Numbers, level: float) -> bool:
        """Whether a part's faces in a plane leave no way through it from one side of the room to the other."""
        square = _square(normal, level, self.corners.mean(axis=0))
        section = square.inside(self.bounds.drawn_in(RIM * self.deeper))
        if not len(section):
            return False
        same = (near.normals @ normal > ALIKE) & (np.abs(near.corners @ normal - level).max(axis=1) < FLAT)
        rim = section.corners[0]
        around = float(np.linalg.norm(rim - np.roll(rim, 1, axis=0), axis=1).sum())
        return bool(near.only(same & (near.stray == 0.0)).areas.sum() > section.areas[0] - SEAM * around)


@dataclass(frozen=True, eq=False)
class _Stood:
    solid: Skinned
    at: Placement

    @cached_property
    def axes(self) -> Numbers:
        return np.array([self.at.x, self.at.y, self.at.z])

    def walls(self) -> Planes:
        """The box round it, where it stands: the kernel's or its facets', whichever is nearer."""
        box, (least, most) = self.solid.box, self.solid.skin.bounds
        low, high = np.maximum(box.low, least), np.minimum(box.high, most)
        shift = self.axes @ np.array(self.at.origin)
        return Planes(np.concatenate([self.axes, -self.axes]), np.concatenate([shift + high, -shift - low]))

    def part(self, room: Planes) -> _Part:
        """The part and what of its skin may be in a room."""
        placed = self._polygons(self.solid.skin)
        return _Part(placed.corners, placed.not_outside(room))

    def curved(self, room: Planes) -> NDArray[np.intp]:
        """Numbers of the faces of which facets that stray may be in a room."""
        skin = self.solid.skin
        return np.unique(skin.face[self._polygons(skin).may_be_inside(room) & (skin.stray > 0.0)])

    def facets_of(self, faces: NDArray[np.intp]) -> int:
        return int(np.isin(self.solid.skin.face, faces).sum())

    def finer_part(self, room: Planes, faces: NDArray[np.intp], stray: float) -> _Part:
        """The same, with some faces straying no more than so much, mm."""
        coarse = self.solid.skin.corners @ self.axes + self.at.origin
        return _Part(coarse, self._polygons(self.solid.finer(faces, stray)).not_outside(room))

    def _polygons(self, skin: Facets) -> Polygons:
        return Polygons(skin.corners @ self.axes + self.at.origin, skin.facing @ self.axes, skin.stray, skin.flat)


def _within_both(first: _Stood, second: _Stood, deeper: float) -> tuple[Planes, Numbers]:
    """Both boxes, and how deep a ball's middle lies in each of their walls, mm."""
    here, there = first.walls(), second.walls()
    normals = np.concatenate([here.normals, there.normals])
    levels = np.concatenate([here.levels, there.levels])
    return _foremost(normals, levels, np.full(len(levels), BALL * deeper / 2.0))


def _foremost(normals: Numbers, levels: Numbers, deep: Numbers) -> tuple[Planes, Numbers]:
    """Of planes that face alike, only the one that leaves least room; and how deep the middle is in each."""
    order = np.argsort(levels - deep, kind="stable")
    facing, level, depth = normals[order], levels[order], deep[order]
    idle = np.tril(facing @ facing.T > ALIKE, -1).any(axis=1)
    return Planes(facing[~idle], level[~idle]), depth[~idle]


def _planes_of(skin: Polygons) -> tuple[Numbers, Numbers]:
    """Different planes (k, 3), (k,) of the flat polygons that are more than slivers."""
    sound = skin.only(skin.flat & (skin.areas > FLAT))
    rows = np.round(np.column_stack([sound.normals, sound.levels]), 5)
    _, kept = np.unique(rows, axis=0, return_index=True)
    return sound.normals[kept], sound.levels[kept]


def _square(normal: Numbers, level: float, near: Numbers, half: float = 1e5) -> Polygons:
    """A great square in a plane, its middle over a point."""
    u = np.cross(normal, np.eye(3)[np.argmin(np.abs(normal))])
    u /= np.linalg.norm(u)
    v = np.cross(normal, u)
    middle = near + (level - near @ normal) * normal
    corners = np.array([[middle + half * (a * u + b * v) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]])
    return Polygons(corners, normal[None], np.zeros(1), np.ones(1, dtype=np.bool_))
