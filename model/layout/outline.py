"""Closed plane outlines of straight lines and true arcs: what a part looks like laid flat.

An outline is a ring of corners, each with the bulge of the edge that leaves it: bulge = tan(sweep / 4),
positive when the arc turns left, zero for a straight edge (AutoCAD DXF Reference, LWPOLYLINE group 42).
Rings run counter-clockwise, so that wood lies to the left of every edge. Millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from model.errors import DesignError
from model.tolerance import SAME_POINT

Point = tuple[float, float]


@dataclass(frozen=True)
class Edge:
    """One side of an outline, straight or a true arc, from `start` to `end`."""

    start: Point
    end: Point
    bulge: float = 0.0
    name: str = ""

    @property
    def straight(self) -> bool:
        return self.bulge == 0.0

    @property
    def chord(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def sweep(self) -> float:
        """Angle turned through, radians; positive to the left."""
        return 4.0 * math.atan(self.bulge)

    @property
    def radius(self) -> float:
        """Radius in mm, positive; infinite for a straight edge."""
        return math.inf if self.straight else self.chord * (1.0 + self.bulge**2) / (4.0 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of the arc; raises DesignError for a straight edge."""
        if self.straight:
            raise DesignError("a straight edge has no centre")
        (x0, y0), (x1, y1), b = self.start, self.end, self.bulge
        k = (1.0 - b * b) / (4.0 * b)
        return ((x0 + x1) / 2.0 - k * (y1 - y0), (y0 + y1) / 2.0 + k * (x1 - x0))

    @property
    def length(self) -> float:
        return self.chord if self.straight else self.radius * abs(self.sweep)

    def point(self, t: float) -> Point:
        """The point at fraction `t` of the way along (0 to 1)."""
        if self.straight:
            (x0, y0), (x1, y1) = self.start, self.end
            return (x0 + t * (x1 - x0), y0 + t * (y1 - y0))
        cx, cy = self.centre
        a = math.atan2(self.start[1] - cy, self.start[0] - cx) + t * self.sweep
        return (cx + self.radius * math.cos(a), cy + self.radius * math.sin(a))

    def direction(self, t: float) -> Point:
        """Unit direction of travel at fraction `t`."""
        if self.straight:
            return ((self.end[0] - self.start[0]) / self.chord, (self.end[1] - self.start[1]) / self.chord)
        (x, y), (cx, cy) = self.point(t), self.centre
        turn = math.copysign(1.0 / self.radius, self.bulge)
        return (-(y - cy) * turn, (x - cx) * turn)

    def crossings(self, normal: Point, offset: float) -> list[Point]:
        """Where the edge meets the line {p : normal . p = offset}; `normal` of unit length."""
        side = [normal[0] * p[0] + normal[1] * p[1] - offset for p in (self.start, self.end)]
        if self.straight:
            if side[0] * side[1] > 0 or side[0] == side[1]:
                return []
            return [self.point(side[0] / (side[0] - side[1]))]
        cx, cy = self.centre
        away = offset - normal[0] * cx - normal[1] * cy
        if abs(away) > self.radius:
            return []
        half = math.sqrt(self.radius**2 - away**2)
        foot = (cx + away * normal[0], cy + away * normal[1])
        ends = [(foot[0] - s * half * normal[1], foot[1] + s * half * normal[0]) for s in (-1.0, 1.0)]
        return [p for p in ends if self._holds(p)]

    def furthest(self, direction: Point) -> list[Point]:
        """Points that may lie furthest along `direction`: both ends, and an arc's crown if it is on it."""
        points = [self.start, self.end]
        if not self.straight:
            cx, cy = self.centre
            crown = (cx + self.radius * direction[0], cy + self.radius * direction[1])
            if self._holds(crown):
                points.append(crown)
        return points

    def _holds(self, p: Point) -> bool:
        """Whether a point of the full circle lies on this arc."""
        cx, cy = self.centre
        start = math.atan2(self.start[1] - cy, self.start[0] - cx)
        turned = math.atan2(p[1] - cy, p[0] - cx) - start
        turned = turned % math.tau if self.bulge > 0 else -((-turned) % math.tau)
        slack = SAME_POINT / self.radius
        return abs(turned) <= abs(self.sweep) + slack or math.tau - abs(turned) <= slack


@dataclass(frozen=True)
class Outline:
    """A closed, counter-clockwise ring of edges.

    corners: (x, y) of each corner in mm; bulges: one for the edge leaving each corner; names: one for each
    edge, may repeat (an edge of several segments) or be empty.
    """

    corners: tuple[Point, ...]
    bulges: tuple[float, ...] = ()
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        count = len(self.corners)
        object.__setattr__(self, "bulges", tuple(self.bulges) or (0.0,) * count)
        object.__setattr__(self, "names", tuple(self.names) or ("",) * count)
        if count < 2 or len(self.bulges) != count or len(self.names) != count:
            raise DesignError(f"an outline needs at least two corners, each with a bulge and a name; got {count}")
        if any(e.chord < SAME_POINT for e in self.edges):
            raise DesignError("an outline has two corners in the same place; leave one out")
        if self.area <= 0:
            raise DesignError("an outline must run counter-clockwise and enclose wood; its area is not positive")

    @cached_property
    def edges(self) -> tuple[Edge, ...]:
        ends = self.corners[1:] + self.corners[:1]
        return tuple(map(Edge, self.corners, ends, self.bulges, self.names))

    @cached_property
    def area(self) -> float:
        """Enclosed area, mm2: the polygon of the corners plus each arc's segment."""
        total = 0.0
        for e in self.edges:
            total += (e.start[0] * e.end[1] - e.end[0] * e.start[1]) / 2.0
            if not e.straight:
                total += e.radius**2 * (e.sweep - math.sin(e.sweep)) / 2.0
        return total

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """(least x, least y, greatest x, greatest y)."""
        reach = [self.extent(d) for d in ((1.0, 0.0), (0.0, 1.0))]
        return (reach[0][0], reach[1][0], reach[0][1], reach[1][1])

    @property
    def perimeter(self) -> float:
        return sum(e.length for e in self.edges)

    def extent(self, direction: Point, within: Sequence[tuple[Point, float]] = ()) -> tuple[float, float]:
        """Least and greatest reach along unit `direction` of the part of the outline inside every half-plane
        {p : normal . p <= offset} of `within`; raises DesignError if nothing is inside."""
        reach = [direction[0] * x + direction[1] * y for x, y in self.candidates(direction, within)]
        if not reach:
            raise DesignError("no wood lies there")
        return (min(reach), max(reach))

    def candidates(self, direction: Point, within: Sequence[tuple[Point, float]] = ()) -> list[Point]:
        """Points among which the extremes along `direction` of the limited region are found."""
        back = (-direction[0], -direction[1])
        points = [p for e in self.edges for p in (*e.furthest(direction), *e.furthest(back))]
        points += [p for normal, offset in within for e in self.edges for p in e.crossings(normal, offset)]
        points += [p for p in _meetings(within) if self.contains(p)]
        return [p for p in points if all(n[0] * p[0] + n[1] * p[1] <= c + SAME_POINT for n, c in within)]

    def contains(self, p: Point) -> bool:
        """Whether a point is inside, by winding number; a point on the edge may fall either way."""
        return sum(_angle_seen(p, e) for e in self.edges) > math.pi

    def points(self, sagitta: float) -> list[Point]:
        """The outline as a polygon whose facets leave the arcs by at most `sagitta` mm."""
        return [p for e in self.edges for p in facets(e, sagitta)[:-1]]

    def named(self, name: str) -> list[Edge]:
        """The edges that bear a name, in order; raises DesignError if there is none."""
        found = [e for e in self.edges if e.name == name]
        if not found:
            known = ", ".join(dict.fromkeys(n for n in self.names if n)) or "none has a name"
            raise DesignError(f'no edge is called "{name}"; there are: {known}')
        return found

    def moved(self, dx: float, dy: float) -> Outline:
        return replace(self, corners=tuple((x + dx, y + dy) for x, y in self.corners))

    def turned(self, degrees: float) -> Outline:
        """Turned about the origin, counter-clockwise."""
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        return replace(self, corners=tuple((c * x - s * y, s * x + c * y) for x, y in self.corners))

    def mirrored(self, width: float, swap: Callable[[str], str] = lambda name: name) -> Outline:
        """Reflected to y' = width - y, run counter-clockwise again; `swap` renames the edges."""
        corners = tuple((x, width - y) for x, y in self.corners)
        names = tuple(swap(n) for n in reversed(self.names))
        return Outline(corners[:1] + corners[:0:-1], tuple(reversed(self.bulges)), names)


def rectangle(length: float, width: float, x: float = 0.0, y: float = 0.0) -> Outline:
    """A board's own outline, edges named near, right, far and left."""
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    return Outline(corners, names=("near", "right", "far", "left"))


def circle(centre: Point, diameter: float) -> Outline:
    """A full circle, mm, as two half circles."""
    r = diameter / 2.0
    return Outline(((centre[0] - r, centre[1]), (centre[0] + r, centre[1])), (1.0, 1.0))


def rounded(corners: Sequence[Point], radii: Sequence[float], names: Sequence[str] = ()) -> Outline:
    """A polygon with each corner rounded by a tangent arc of its radius (0 leaves it sharp).

    Works for corners that turn either way. Raises DesignError when two roundings don't fit on their side.
    """
    count = len(corners)
    labels = tuple(names) or ("",) * count
    cuts = [_tangent_length(corners[i - 1], corners[i], corners[(i + 1) % count], radii[i]) for i in range(count)]
    points: list[Point] = []
    bulges: list[float] = []
    marks: list[str] = []
    for i, here in enumerate(corners):
        before, after = corners[i - 1], corners[(i + 1) % count]
        if cuts[i] + cuts[(i + 1) % count] > math.dist(here, after) + SAME_POINT:
            raise DesignError(
                f"corner radii {radii[i]:g} and {radii[(i + 1) % count]:g} mm don't fit on a side "
                f"{math.dist(here, after):.1f} mm long; make them smaller"
            )
        if cuts[i] <= 0:
            points.append(here)
            bulges.append(0.0)
            marks.append(labels[i])
            continue
        points += [_toward(here, before, cuts[i]), _toward(here, after, cuts[i])]
        bulges += [math.tan(_turn(before, here, after) / 4.0), 0.0]
        marks += [labels[i - 1], labels[i]]
    return _without_empty_edges(points, bulges, marks)


def ring_sector(
    inner: float, outer: float, half_angle: float, end_offset: float = 0.0, centre: Point = (0.0, 0.0)
) -> Outline:
    """A curved board: concentric edges, ends parallel to the radial lines at +-half_angle.

    The arc's middle lies in +y from the centre. Ends are moved outward by `end_offset` mm, so that a board let
    into a groove of that depth shows exactly the radial line. Edges are named front (inner), right, back
    (outer) and left. inner, outer: radii, mm; half_angle: degrees. Raises DesignError when there is no such
    board.
    """
    if not 0 < inner < outer or not 0 < half_angle < 90:
        raise DesignError(f"no curved board lies between radii {inner:g} and {outer:g} mm at {half_angle:g} degrees")
    a = math.radians(half_angle)

    def end(radius: float) -> Point:
        along = math.sqrt(radius**2 - end_offset**2)
        return (
            along * math.sin(a) + end_offset * math.cos(a),
            along * math.cos(a) - end_offset * math.sin(a),
        )

    (xi, yi), (xo, yo) = end(inner), end(outer)
    bulge_in = math.tan(math.atan2(xi, yi) / 2.0)
    bulge_out = math.tan(math.atan2(xo, yo) / 2.0)
    corners = ((-xi, yi), (xi, yi), (xo, yo), (-xo, yo))
    # the front edge runs left to right over the crown, so it turns right: its bulge is negative
    shape = Outline(corners, (-bulge_in, 0.0, bulge_out, 0.0), ("front", "right", "back", "left"))
    return shape.moved(*centre)


def facets(edge: Edge, sagitta: float) -> list[Point]:
    """Points along an edge, ends included, whose chords leave it by at most `sagitta` mm."""
    if edge.straight:
        return [edge.start, edge.end]
    # by the sine of a quarter of the step: a cosine so near to 1 would lose a long arc's
    step = 4.0 * math.asin(math.sqrt(min(0.5, sagitta / (2.0 * edge.radius))))
    count = max(1, math.ceil(abs(edge.sweep) / step))
    return [edge.start, *(edge.point(i / count) for i in range(1, count)), edge.end]


def _meetings(lines: Sequence[tuple[Point, float]]) -> Iterator[Point]:
    for i, ((a, b), c) in enumerate(lines):
        for (d, e), f in lines[i + 1 :]:
            det = a * e - b * d
            if abs(det) > 1e-12:
                yield ((c * e - b * f) / det, (a * f - c * d) / det)


def _angle_seen(p: Point, e: Edge) -> float:
    """Angle that travel along an edge turns through, seen from a point, radians.

    An arc adds a whole turn to its chord's where the point lies between the two; which side of the chord that is must
    be judged once, or points on the chord would be seen from both sides at once.
    """
    ax, ay, bx, by = e.start[0] - p[0], e.start[1] - p[1], e.end[0] - p[0], e.end[1] - p[1]
    left_of_chord = ax * by - ay * bx + 0.0  # never -0.0, which atan2 takes for the other side
    turned = math.atan2(left_of_chord, ax * bx + ay * by)
    if not e.straight and (left_of_chord >= 0.0) is (e.bulge < 0.0) and math.dist(p, e.centre) < e.radius:
        turned += math.copysign(math.tau, e.bulge)
    return turned


def _turn(before: Point, here: Point, after: Point) -> float:
    """Angle turned at a corner, radians, positive to the left."""
    ux, uy, vx, vy = here[0] - before[0], here[1] - before[1], after[0] - here[0], after[1] - here[1]
    return math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)


def _tangent_length(before: Point, here: Point, after: Point, radius: float) -> float:
    return radius * math.tan(abs(_turn(before, here, after)) / 2.0)


def _toward(here: Point, there: Point, distance: float) -> Point:
    t = distance / math.dist(here, there)
    return (here[0] + t * (there[0] - here[0]), here[1] + t * (there[1] - here[1]))


def _without_empty_edges(points: Iterable[Point], bulges: Iterable[float], names: Iterable[str]) -> Outline:
    ring = list(zip(points, bulges, names, strict=True))
    kept = [
        item for item, following in zip(ring, ring[1:] + ring[:1], strict=True)
        if math.dist(item[0], following[0]) > SAME_POINT
    ]  # fmt: skip
    return Outline(tuple(p for p, _, _ in kept), tuple(b for _, b, _ in kept), tuple(n for _, _, n in kept))
