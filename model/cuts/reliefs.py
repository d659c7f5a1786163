"""Round reliefs at inside corners, where a router's round cutter would leave wood that a square part must go into."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal, TypeVar

from model.cuts.cut import Blank
from model.cuts.through import Notch, Opening, Profile
from model.errors import DesignError
from model.layout.outline import Edge, Outline, Point
from model.tolerance import SAME_POINT

#: Which side of its outline the cutter takes away: the inside of an opening or pocket, the outside of a part.
Waste = Literal["inside", "outside"]

#: Where a relief goes: along the bisector into both sides of the corner, or into the longer or the shorter one only.
Into = Literal["both", "longer", "shorter"]

#: How much larger than the cutter's a relief's radius is, mm, so that the cutter surely turns in it (common practice).
HAIR = 0.02

#: The sharpest inside corner that is relieved, degrees; a sharper one would be cut far past its point.
SHARPEST = 30.0

#: Corners that turn less than this, degrees, are smooth enough for any cutter to follow.
SMOOTH = 1.0

RelievedCut = TypeVar("RelievedCut", Profile, Opening, Notch)


def relieved(
    outline: Outline, cutter: float, *, waste: Waste = "outside", into: Into = "both", within: Outline | None = None
) -> Outline:
    """The outline with a round relief at every inside corner, each a true arc of the cutter's radius and HAIR, which
    passes through the corner itself, so that a square corner goes home there.

    Nothing is cut further than one cutter's diameter from a corner of 60 degrees or more. A corner sharper than square
    is always relieved into both sides, with straight walls where the cutter comes in.
    cutter: diameter, mm. waste: the side the cutter takes away. within: only corners inside this outline, for a notch
    that runs out past the part's edge. Raises DesignError if a relief does not fit on its sides, or if an inside
    corner is rounded to less than the cutter's radius or is sharper than SHARPEST.
    """
    if not cutter > 0.0:
        raise DesignError(f"a cutter {cutter:g} mm across can't cut; give its diameter in mm")
    _followed(outline, cutter, waste, within)
    edges = outline.edges
    corners = [_corner(edges[n - 1], e, waste) for n, e in enumerate(edges)]
    reliefs = [_relief(c, cutter / 2.0 + HAIR, into) if c.inside and _holds(within, c.at) else None for c in corners]
    return _ring(list(edges), reliefs)


def relieved_cut(cut: RelievedCut, blank: Blank, cutter: float, into: Into = "both") -> RelievedCut:
    """The same profile, opening, notch or slot with reliefs at its inside corners."""
    waste: Waste = "outside" if isinstance(cut, Profile) else "inside"
    within = blank.outline if isinstance(cut, Notch) else None
    return replace(cut, outline=relieved(cut.outline, cutter, waste=waste, into=into, within=within))


@dataclass(frozen=True)
class _Corner:
    """Two edges that meet; turn: radians, positive to the side of the waste."""

    before: Edge
    after: Edge
    turn: float
    left: bool

    @property
    def at(self) -> Point:
        return self.after.start

    @property
    def inside(self) -> bool:
        return self.turn > math.radians(SMOOTH)

    @property
    def sharp(self) -> bool:
        """Whether it is sharper than a right angle."""
        return self.turn > math.pi / 2.0 + math.radians(SMOOTH)

    @property
    def bisector(self) -> Point:
        a, b = self.normal(self.before), self.normal(self.after)
        size = math.hypot(a[0] + b[0], a[1] + b[1])
        return ((a[0] + b[0]) / size, (a[1] + b[1]) / size)

    def normal(self, edge: Edge) -> Point:
        """Out of the wood, square to an edge at the corner."""
        dx, dy = edge.direction(1.0 if edge is self.before else 0.0)
        return (-dy, dx) if self.left else (dy, -dx)


@dataclass(frozen=True)
class _Relief:
    """The edges that take a corner's place, from a point of the edge before it to one of the edge after it."""

    edges: tuple[Edge, ...]

    @property
    def start(self) -> Point:
        return self.edges[0].start

    @property
    def end(self) -> Point:
        return self.edges[-1].end


def _corner(before: Edge, after: Edge, waste: Waste) -> _Corner:
    (ux, uy), (vx, vy) = before.direction(1.0), after.direction(0.0)
    turn = math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    left = waste == "inside"
    return _Corner(before, after, turn if left else -turn, left)


def _relief(corner: _Corner, radius: float, into: Into) -> _Relief:
    if math.degrees(corner.turn) > 180.0 - SHARPEST:
        raise DesignError(
            f"an inside corner of {180.0 - math.degrees(corner.turn):.0f} degrees is too sharp to be relieved; "
            f"{SHARPEST:g} degrees is the least, so open it or cut it by hand"
        )
    if corner.sharp:
        return _throat(corner, radius)
    centre = _moved(corner.at, _way(corner, into), radius)
    start, end = (_other_meeting(e, corner.at, centre) for e in (corner.before, corner.after))
    return _Relief((_arc(centre, start, end, corner.left),))


def _throat(corner: _Corner, radius: float) -> _Relief:
    """In a corner sharper than square the circle would lie behind a neck too narrow for the cutter: it is brought in
    along the bisector, and leaves straight walls."""
    way = corner.bisector
    across = (way[1], -way[0]) if corner.left else (-way[1], way[0])
    centre = _moved(corner.at, way, radius)
    start, end = (_moved(centre, across, k * radius) for k in (-1.0, 1.0))
    mouths = [_wall_meets(e, across, p, corner) for e, p in ((corner.before, start), (corner.after, end))]
    arc = _arc(centre, start, end, corner.left)
    return _Relief((Edge(mouths[0], start), arc, Edge(end, mouths[1])))


def _wall_meets(e: Edge, across: Point, p: Point, corner: _Corner) -> Point:
    found = e.crossings(across, across[0] * p[0] + across[1] * p[1])
    if not found:
        raise _too_short(e)
    return min(found, key=lambda q: math.dist(q, corner.at))


def _arc(centre: Point, start: Point, end: Point, left: bool) -> Edge:
    a, b = (math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (start, end))
    sweep = (b - a) % math.tau if left else -((a - b) % math.tau)
    return Edge(start, end, math.tan(sweep / 4.0))


def _way(corner: _Corner, into: Into) -> Point:
    """From the corner toward the relief's centre: the bisector, or square to the side that is to stay whole."""
    if into == "both":
        return corner.bisector
    longer = max((corner.before, corner.after), key=lambda e: round(e.length, 6))
    return corner.normal((corner.before, corner.after)[(longer is corner.before) == (into == "longer")])


def _moved(p: Point, way: Point, distance: float) -> Point:
    return (p[0] + distance * way[0], p[1] + distance * way[1])


def _other_meeting(e: Edge, corner: Point, centre: Point) -> Point:
    """Where a circle through an edge's end meets the edge again: the end reflected in the line that joins the two
    centres; for a straight edge in the square from the centre to it. The end itself where they only touch."""
    if e.straight:
        dx, dy = e.direction(0.0)
        along = (centre[0] - corner[0]) * dx + (centre[1] - corner[1]) * dy
        found = (corner[0] + 2.0 * along * dx, corner[1] + 2.0 * along * dy)
    else:
        kx, ky = e.centre
        gx, gy = kx - centre[0], ky - centre[1]
        away = ((corner[0] - centre[0]) * gy - (corner[1] - centre[1]) * gx) / (gx * gx + gy * gy)
        found = (corner[0] - 2.0 * away * gy, corner[1] + 2.0 * away * gx)
    return corner if math.dist(found, corner) < SAME_POINT else found


def _ring(edges: list[Edge], reliefs: list[_Relief | None]) -> Outline:
    """The edges shortened to their reliefs, and the reliefs between them."""
    ring: list[Edge] = []
    for n, e in enumerate(edges):
        relief, following = reliefs[n], reliefs[(n + 1) % len(edges)]
        if relief is not None:
            name = e.name if edges[n - 1].name == e.name else "relief"
            ring.extend(replace(made, name=name) for made in relief.edges)
        ring.extend(_shortened(e, relief.end if relief else e.start, following.start if following else e.end))
    return Outline(tuple(e.start for e in ring), tuple(e.bulge for e in ring), tuple(e.name for e in ring))


def _shortened(e: Edge, start: Point, end: Point) -> Iterator[Edge]:
    t, u = _share(e, start), _share(e, end)
    if u - t < -SAME_POINT / e.length:
        raise _too_short(e)
    if math.dist(start, end) > SAME_POINT:
        yield replace(e, start=start, end=end, bulge=math.tan((u - t) * e.sweep / 4.0))


def _share(e: Edge, p: Point) -> float:
    """How far along an edge a point of it lies, 0 to 1; past 1 or before 0 for one that lies beyond."""
    if e.straight:
        dx, dy = e.direction(0.0)
        return ((p[0] - e.start[0]) * dx + (p[1] - e.start[1]) * dy) / e.length
    (cx, cy), turned = e.centre, 0.0
    a = math.atan2(e.start[1] - cy, e.start[0] - cx)
    turned = (math.atan2(p[1] - cy, p[0] - cx) - a) * math.copysign(1.0, e.bulge)
    turned = (turned + math.pi - abs(e.sweep) / 2.0) % math.tau - math.pi + abs(e.sweep) / 2.0
    return turned / abs(e.sweep)


def _followed(outline: Outline, cutter: float, waste: Waste, within: Outline | None) -> None:
    """Raises DesignError for a hollow too tight for the cutter to follow."""
    for e in outline.edges:
        hollow = not e.straight and (e.bulge > 0.0) == (waste == "inside")
        if hollow and e.radius < cutter / 2.0 - SAME_POINT and _holds(within, e.point(0.5)):
            raise DesignError(
                f"an inside corner rounded to {e.radius:g} mm is too tight for a cutter {cutter:g} mm across; round it "
                f"to {cutter / 2.0:g} mm or more, or leave it square to be relieved"
            )


def _too_short(e: Edge) -> DesignError:
    return DesignError(
        f"the reliefs at the two ends of a side {e.length:.1f} mm long run into each other; "
        "take a smaller cutter or make the side longer"
    )


def _holds(within: Outline | None, p: Point) -> bool:
    return within is None or within.contains(p)
