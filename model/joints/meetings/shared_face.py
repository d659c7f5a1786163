"""The flat face two parts have in common when a plane parts them: its corners, its area, points to look at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from model.cuts.edges import EdgeCut
from model.cuts.removal import Plane
from model.errors import DesignError
from model.joints.joint import Contact, Stood
from model.layout.clipping import HalfPlane, area, clipped, middle
from model.layout.outline import Point
from model.placement import Placement, Vector, cross, dot, scaled, unit

#: Larger than any piece, mm: the plane's own square that the parts are cut out of.
_EVERYWHERE = 1e5
#: How far clear of a cut a point is looked at, mm.
_BESIDE = 0.3
#: A plane square to this (as the sine) runs along another.
_ALONG = 1e-9


@dataclass(frozen=True)
class SharedFace:
    """`corners` in the frame's own x-y plane; its z points to the first part."""

    frame: Placement
    corners: tuple[Point, ...]

    @cached_property
    def area(self) -> float:
        """mm2."""
        return area(self.corners)

    @property
    def middle(self) -> Vector:
        """Its centroid, in the piece."""
        return self.point(middle(self.corners))

    def point(self, p: Point) -> Vector:
        return self.frame.point((p[0], p[1], 0.0))

    def extent(self, direction: Vector) -> tuple[float, float]:
        """Least and greatest reach along a direction of the piece."""
        reach = [dot(direction, self.point(c)) for c in self.corners]
        return min(reach), max(reach)

    def contact(self, clear: Callable[[Vector], bool] = lambda p: True, gap: float = 0.0) -> Contact:
        """The contact over this face, at its middle and well inside each corner, where `clear` says there is wood.
        Raises DesignError if it says so nowhere."""
        x, y = middle(self.corners)
        spots = [(x + s * (c[0] - x), y + s * (c[1] - y)) for s in (0.8, 0.5, 0.2) for c in self.corners]
        points = [p for p in map(self.point, [(x, y), *spots]) if clear(p)]
        if not points:
            raise DesignError("no wood of the two parts is left in contact; make the grooves or slots smaller")
        return Contact(tuple(points[:5]), self.frame.z, gap)


def shared_face(first: Stood, second: Stood, plane: Plane) -> SharedFace | None:
    """What both parts' wood has in common of a plane of the piece, before any cut in either; None for nothing.

    The plane's normal points to the first part. A part's outline is taken as convex and its arcs as their chords.
    """
    frame = _frame(plane)
    ring: Sequence[Point] = [(s * _EVERYWHERE, t * _EVERYWHERE) for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    for part in (first, second):
        halves = [_in_plane(half.seen_outside(part.at), frame) for half in _halves(part)]
        if any(half is None for half in halves):
            return None
        ring = clipped(ring, [h for h in halves if h is not None and h[1] < 2.0 * _EVERYWHERE])
        if not ring:
            return None
    return SharedFace(frame, tuple(ring))


def clear_of_edges(part: Stood, p: Vector) -> bool:
    """Whether a point lies clear of all that is worked along the part's straight edges: mouldings, rabbets, grooves."""
    x, y, z = part.at.own_point(p)
    wood = part.wood
    for cut in wood.cuts:
        if not isinstance(cut, EdgeCut):
            continue
        for e in wood.outline.named(cut.edge):
            (dx, dy), (sx, sy) = e.direction(0.0), e.start
            inward = dx * (y - sy) - dy * (x - sx)
            for _, low, width, high in (section.bounds for section in cut.sections(wood.thickness)):
                if e.straight and inward < width + _BESIDE and low - _BESIDE < z < high + _BESIDE:
                    return False
    return True


def _frame(plane: Plane) -> Placement:
    n = plane.normal
    aside: Vector = (0.0, 0.0, 1.0) if abs(n[2]) < 0.9 else (1.0, 0.0, 0.0)
    x = unit(cross(aside, n))
    return Placement(scaled(n, plane.offset), x, cross(n, x), n)


def _halves(part: Stood) -> list[Plane]:
    """The planes between which a part's wood lies, in its own frame."""
    halves = [Plane((0.0, 0.0, 1.0), part.wood.thickness), Plane((0.0, 0.0, -1.0), 0.0)]
    for e in part.wood.outline.edges:
        length = e.chord
        out: Vector = ((e.end[1] - e.start[1]) / length, (e.start[0] - e.end[0]) / length, 0.0)
        halves.append(Plane(out, dot(out, (*e.start, 0.0))))
    return halves


def _in_plane(half: Plane, frame: Placement) -> HalfPlane | None:
    """A half of space as the frame's plane shows it; None if that lies wholly outside it."""
    u, v = dot(half.normal, frame.x), dot(half.normal, frame.y)
    size = (u * u + v * v) ** 0.5
    away = half.offset - dot(half.normal, frame.origin)
    if size < _ALONG:
        return None if away < -1e-6 else ((1.0, 0.0), 3.0 * _EVERYWHERE)
    return (u / size, v / size), away / size
