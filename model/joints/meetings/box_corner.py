"""The corner of a box, where an end of one board comes into an end of another, at any angle: planes and lines."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.cut import Side
from model.cuts.removal import Plane
from model.errors import DesignError
from model.joints.joint import Stood, clean
from model.layout.outline import Outline, Point
from model.placement import Placement, Vector, added, cross, dot, scaled, tidy, unit
from model.tolerance import CONTACT

#: Boards whose faces, or whose grain and the corner, stand nearer than 30 degrees make no corner worth cutting.
LEAST_ANGLE = math.sin(math.radians(30.0))


@dataclass(frozen=True)
class BoxCorner:
    """`first` comes through or into `second`; everything here is in the piece.

    out_of_first, out_of_second: unit vectors along each board's grain, out of the end that lies at the corner.
    face_of_first, face_of_second: the half of space behind each board's inner face, where its wood is.
    """

    first: Stood
    second: Stood
    out_of_first: Vector
    out_of_second: Vector
    face_of_first: Plane
    face_of_second: Plane

    @property
    def turned(self) -> BoxCorner:
        """The same corner with the boards' parts changed over."""
        return BoxCorner(
            self.second, self.first, self.out_of_second, self.out_of_first, self.face_of_second, self.face_of_first
        )

    @property
    def run(self) -> Vector:
        """Unit vector along the corner, from the first board's near edge to its far one."""
        run = unit(cross(self.face_of_first.normal, self.face_of_second.normal))
        return run if dot(run, self.first.at.y) > 0.0 else scaled(run, -1.0)

    @property
    def outer_side(self) -> Side:
        """The first board's side that is outside the corner."""
        return "back" if dot(self.face_of_first.normal, self.first.at.z) > 0.0 else "face"

    @property
    def lean(self) -> float:
        """Sine of the angle between the boards' faces: 1 where they stand square to each other."""
        return math.sqrt(max(0.0, 1.0 - dot(self.face_of_first.normal, self.face_of_second.normal) ** 2))

    @property
    def square(self) -> bool:
        """Whether faces and grain all stand square to one another."""
        normal = dot(self.out_of_first, self.face_of_second.normal)
        return normal < -1.0 + 1e-9 and dot(self.out_of_second, self.face_of_first.normal) < -1.0 + 1e-9

    def reach(self) -> tuple[float, float]:
        """How deep the first board's end runs in behind the second's inner face, least and most, mm."""
        depths = [self.face_of_second.offset - dot(self.face_of_second.normal, p) for p in self._end_corners()]
        return clean(min(depths)), clean(max(depths))

    def tip(self, depth: float) -> Plane:
        """The half of space that stops `depth` mm behind the second board's inner face."""
        return Plane(scaled(self.face_of_second.normal, -1.0), depth - self.face_of_second.offset)

    def spot(self, along: float, out: float, back: float = 0.0) -> Vector:
        """A point `along` the corner, `out` from the second's inner face as measured on the first's outer side, then
        `back` through the first's thickness."""
        return self.carried(self.drawn(along, out), back)

    def carried(self, p: Point, back: float = 0.0) -> Vector:
        """A point drawn on the first's outer side, carried `back` through its thickness (0 to 1) along the second's
        grain."""
        return added(self.first.at.point((*p, self._level)), scaled(self.out_of_second, -back * self.through))

    @property
    def through(self) -> float:
        """Through the first board along the second's grain, mm."""
        return self.first.wood.thickness / -dot(self.face_of_first.normal, self.out_of_second)

    def drawn(self, along: float, out: float) -> Point:
        """A point `along` the corner and `out` from the second's inner face, drawn on the first's outer side."""
        (ax, ay), base = self._toward_body()
        rx, ry = self._run_drawn()
        return (along * rx + (base - out) * ax, along * ry + (base - out) * ay)

    def along(self, p: Vector) -> float:
        """How far along the corner a point of the piece lies, as the first board measures it."""
        (x, y, _), (rx, ry) = self.first.at.own_point(p), self._run_drawn()
        return x * rx + y * ry

    def span(self) -> tuple[float, float]:
        """Where along the corner both boards have wood all through, from the first's near edge to its far one, mm."""
        (ax, ay), base = self._toward_body()
        line = [((ax, ay), base), ((-ax, -ay), -base)]
        edges = self.first.wood.outline.extent(self._run_drawn(), line)
        start, further = self.spot(0.0, 0.0), self.spot(1.0, 0.0)
        # what is drawn on the first's outside strays from its edges on the way through, and from the second's on the
        # way out, where their grains don't lie in one plane
        astray = self._strays(self.first, start, further, self.spot(0.0, 0.0, 1.0))
        rise = -dot(self.out_of_first, self.face_of_second.normal)
        tip = added(start, scaled(self.out_of_first, self.second.wood.thickness / rise))
        away = self._strays(self.second, start, further, tip)
        at = [self.second.at.own_point(p)[1] for p in (start, further)]
        _, y0, _, y1 = self.second.wood.outline.bounds
        mine = sorted((y - at[0]) / (at[1] - at[0]) for y in (y0, y1))
        lo = clean(max(edges[0] - min(0.0, astray), mine[0] - min(0.0, away)))
        hi = clean(min(edges[1] - max(0.0, astray), mine[1] - max(0.0, away)))
        if hi <= lo:
            raise DesignError(f"{self.first.name} and {self.second.name} pass each other at the corner; move one")
        return lo, hi

    @staticmethod
    def _strays(part: Stood, start: Vector, further: Vector, end: Vector) -> float:
        """How far along the corner the way from `start` to `end` strays from a board's edges; `further` is 1 mm on."""
        ys = [part.at.own_point(p)[1] for p in (start, further, end)]
        return (ys[2] - ys[0]) / (ys[1] - ys[0])

    def four(self, near: float, far: float, depth: float, slope: float) -> Outline:
        """A tail on the first board's outer side, from `near` to `far` along the shoulder, which is its first edge; its
        flanks leave the grain by `slope` and go `depth` mm out."""
        corners = [self.drawn(near, 0.0), self.drawn(far, 0.0)]
        (ax, ay), _ = self._toward_body()
        gx, gy, _ = self.first.at.own_direction(self.out_of_first)
        tips = []
        for (x, y), side in zip(corners, (-1.0, 1.0), strict=True):
            u = (gx, gy + side * slope)
            t = -depth / (ax * u[0] + ay * u[1])
            tips.append((clean(x + t * u[0]), clean(y + t * u[1])))
        a, b = ((clean(x), clean(y)) for x, y in corners)
        ring = (a, b, tips[1], tips[0])
        return Outline(ring if gx < 0.0 else (b, a, tips[0], tips[1]))

    def limits(self) -> tuple[Plane, ...]:
        """The second board's edges, in the first's own frame, where the first board goes on past them."""
        if not self.square:
            return ()
        _, y0, _, y1 = self.first.wood.outline.bounds
        lo, hi = (self.drawn(s, 0.0)[1] for s in self.span())
        low = [Plane((0.0, -1.0, 0.0), -clean(lo))] if lo > y0 + CONTACT else []
        high = [Plane((0.0, 1.0, 0.0), clean(hi))] if hi < y1 - CONTACT else []
        return (*low, *high)

    @property
    def _level(self) -> float:
        return self.first.wood.thickness if self.outer_side == "face" else 0.0

    def _toward_body(self) -> tuple[Point, float]:
        """On the first's outer side: the unit direction square to the corner, into the first's body, and how far along
        it the second's inner face lies."""
        own = self.face_of_second.seen_from(self.first.at)
        size = math.hypot(own.normal[0], own.normal[1])
        return (own.normal[0] / size, own.normal[1] / size), (own.offset - own.normal[2] * self._level) / size

    def _run_drawn(self) -> Point:
        x, y, _ = self.first.at.own_direction(self.run)
        return (x, y)

    def _end_corners(self) -> list[Vector]:
        x0, y0, x1, y1 = self.first.wood.outline.bounds
        x = x1 if dot(self.out_of_first, self.first.at.x) > 0.0 else x0
        return [self.first.at.point((x, y, z)) for y in (y0, y1) for z in (0.0, self.first.wood.thickness)]


def box_corner(first: Stood, second: Stood) -> BoxCorner:
    """How two boards' ends come together; raises DesignError where they make no corner."""
    faces = _inner_face(first, second), _inner_face(second, first)
    outs = _out(first, faces[1], second), _out(second, faces[0], first)
    return BoxCorner(first, second, outs[0], outs[1], faces[0], faces[1])


def seen(plane: Plane, own: Placement) -> Plane:
    """A plane of the piece in a part's own frame, without the last digits' noise."""
    inner = plane.seen_from(own)
    return Plane(tidy(inner.normal), clean(inner.offset))


def _inner_face(part: Stood, other: Stood) -> Plane:
    """The half of space behind the side of `part` on which the other board's body lies."""
    x0, y0, x1, y1 = other.wood.outline.bounds
    body = other.at.point(((x0 + x1) / 2.0, (y0 + y1) / 2.0, other.wood.thickness / 2.0))
    inside = part.at.own_point(body)[2] > part.wood.thickness / 2.0
    own = Plane((0.0, 0.0, 1.0), part.wood.thickness) if inside else Plane((0.0, 0.0, -1.0), 0.0)
    return own.seen_outside(part.at)


def _out(part: Stood, face: Plane, other: Stood) -> Vector:
    """Along the grain of `part`, out of the end that lies behind the other board's inner face."""
    rise = dot(part.at.x, face.normal)
    if abs(rise) < LEAST_ANGLE:
        angle = math.degrees(math.asin(min(1.0, abs(rise))))
        raise DesignError(
            f"the grain of {part.name} stands at {angle:.0f} degrees to the face of {other.name}; a corner needs 30 "
            "or more, so that what is cut on its end does not break off along the grain"
        )
    return scaled(part.at.x, -1.0 if rise > 0.0 else 1.0)
