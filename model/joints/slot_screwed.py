"""A bearer screwed to a solid top from below, so that the top may move: slotted screw holes, a peg in the middle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from model.cuts.faces import Bore
from model.cuts.slots import SlottedHole
from model.errors import DesignError
from model.hardware import Hardware, screw_pilot, screw_shank, wood_screw
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.touch import touch
from model.layout.outline import Point
from model.placement import Vector, added, dot, scaled
from model.tolerance import CONTACT

SLOT_SCREWING = (
    "common practice: held in the middle, slotted outward; screws two thirds into the top (Noyes, Handwork in Wood, "
    "1910, asks of a top's fastening that it allow for shrinkage and swelling)"
)

#: Of a slot round a shank, and of the way in for a head with its washer, mm; wood kept under the head, mm.
SHANK_SLACK, HEAD, SEAT = 0.5, 13.0, 25.0
#: Wood kept over a screw's point, mm (common practice: 1/8 in).
OVER_POINT = 3.2
#: The peg in the middle, mm (common practice: 1/4 to 3/8 in).
PEG = 8.0


def slot_screwed(
    bearer: Stood, to: Stood, *, at: Sequence[float], movement: float, seat: float = SEAT, gauge: str = "10"
) -> Joint:
    """A bearer across the grain of a top, pegged to its middle and screwed to it on either side. Millimetres.

    at: the screws, this far to either side of the top's middle. movement: how much the top's whole width may grow or
    shrink from what it is now; a slot d from the middle of a top W wide lets its screw slide movement * d / W either
    way. seat: wood between the screw's head and the top. The screws go in from the bearer's other side. Nothing is
    glued. Raises DesignError if the bearer does not lie square across the top's grain, a screw would miss wood, or `at`
    is no list of different distances.
    """
    m = _Bearing(bearer, to, touch(bearer, to).points[0], movement, seat)
    if len(set(at)) < len(at) or min(at, default=0.0) <= 0.0:
        raise DesignError(
            f"the screws that hold {to.name} to {bearer.name}: give how far each pair stands from the middle, such as "
            f"at=(100.0, 200.0), and not {tuple(at)}"
        )
    stations = [s for d in sorted(at) for s in (-d, d)]
    m.check(stations)
    length = _length(seat, to.wood.thickness)
    holes, pilots, screws = [], [], []
    for s in stations:
        holes += [
            m.slot(s, HEAD, clean(m.through - seat)),
            m.slot(s, clean(screw_shank(gauge) + SHANK_SLACK), clean(m.through)),
        ]
        pilots.append(m.in_top(s, screw_pilot(gauge), length - seat))
        screws.append(wood_screw(gauge, length, m.point(s, -seat), m.into, (bearer.name, to.name)))
    deep = clean(to.wood.thickness / 2.0)
    names = (bearer.name, to.name)
    peg = Hardware("peg", f"{PEG:g} x {2.0 * deep:.0f} mm", m.point(0.0, -deep), m.into, names, 2 * deep, PEG)
    return Joint(
        "slot-screwed",
        bearer.name,
        to.name,
        m.into,
        (Contact(tuple(m.point(s) for s in m.between(stations)), scaled(m.into, -1.0)),),
        (*holes, m.in_bearer(PEG, deep)),
        (*pilots, m.in_top(0.0, PEG, deep)),
        hardware=(*screws, peg),
        source=SLOT_SCREWING,
    )


def _length(seat: float, top: float) -> float:
    """Two thirds into the top or the next 5 mm beyond, if that leaves wood over the point."""
    wanted = (seat + 2.0 * top / 3.0) / 5.0
    longer = 5.0 * math.ceil(wanted - 1e-9)
    return longer if longer - seat <= top - OVER_POINT else 5.0 * math.floor(wanted)


@dataclass(frozen=True)
class _Bearing:
    """Where the bearer lies against the top; stations are mm from the top's middle, along the bearer's grain."""

    bearer: Stood
    to: Stood
    touched: Vector
    movement: float
    seat: float

    @property
    def into(self) -> Vector:
        """From the bearer into the top, in the piece."""
        height = self.to.at.own_point(self.touched)[2]
        return self.to.at.z if height < self.to.wood.thickness / 2.0 else scaled(self.to.at.z, -1.0)

    @property
    def own_into(self) -> Vector:
        return _tidy(self.bearer.at.own_direction(self.into))

    @property
    def width(self) -> float:
        _, y0, _, y1 = self.to.wood.outline.bounds
        return y1 - y0

    @property
    def through(self) -> float:
        """The bearer's own size square to the top."""
        x, y, _ = self.own_into
        if math.hypot(x, y) < 0.5:
            return self.bearer.wood.thickness
        low, high = self.bearer.wood.outline.extent((x, y))
        return high - low

    @property
    def middle(self) -> Vector:
        """On the line along the bearer's middle, where it crosses the middle of the top."""
        bearer, to = self.bearer, self.to
        x, y, z = bearer.at.own_point(self.touched)
        _, y0, _, y1 = bearer.wood.outline.bounds
        on_edge = abs(self.own_into[2]) < 0.5
        p = bearer.at.point((x, y, bearer.wood.thickness / 2.0) if on_edge else (x, (y0 + y1) / 2.0, z))
        _, t0, _, t1 = to.wood.outline.bounds
        away = (t0 + t1) / 2.0 - to.at.own_point(p)[1]
        return added(p, scaled(to.at.y, away))

    def point(self, s: float, into: float = 0.0) -> Vector:
        return added(self.middle, scaled(self.bearer.at.x, s), scaled(self.into, into))

    def slide(self, s: float) -> float:
        return self.movement * abs(s) / self.width

    def slot(self, s: float, wide: float, depth: float) -> SlottedHole:
        """From the side of the bearer away from the top."""
        mouth = _exact(self.bearer.at.own_point(self.point(s, -self.through)))
        return SlottedHole(mouth, self.own_into, (1.0, 0.0, 0.0), wide, clean(wide + 2.0 * self.slide(s)), depth)

    def in_top(self, s: float, diameter: float, depth: float) -> Bore:
        mouth = _exact(self.to.at.own_point(self.point(s)))
        return Bore(mouth, _tidy(self.to.at.own_direction(self.into)), diameter, clean(depth))

    def in_bearer(self, diameter: float, depth: float) -> Bore:
        return Bore(_exact(self.bearer.at.own_point(self.point(0.0))), scaled(self.own_into, -1.0), diameter, depth)

    def between(self, stations: Sequence[float]) -> list[float]:
        """Midway between peg and screws, where nothing is bored."""
        return [(a + b) / 2.0 for a, b in pairwise(sorted([0.0, *stations]))]

    def check(self, stations: Sequence[float]) -> None:
        name, top = self.bearer.name, self.to.name
        if abs(dot(self.bearer.at.x, self.to.at.y)) < 1.0 - CONTACT**2:
            raise DesignError(
                f"{name} does not lie square across the grain of {top}; only across it does a top move, so turn it or "
                "screw it plainly"
            )
        if not 0.0 <= self.movement < 0.1 * self.width:
            raise DesignError(
                f"{top}, {self.width:g} mm wide, can't move by {self.movement:g} mm; no wood in a house moves by a "
                "tenth of its width, so give less"
            )
        for s in stations:
            left = self._wood_at(s)
            if left < self.seat:
                raise DesignError(
                    f"the screw {abs(s):.0f} mm from the middle of {name} has {max(left, 0.0):.1f} mm of wood to hold, "
                    f"{self.seat:g} mm is wanted under its head; move it in or make {name} deeper there"
                )

    def _wood_at(self, s: float) -> float:
        """How deep the bearer is at both ends of the way in for the head, the lesser, mm; 0 beyond its end."""
        x = self.bearer.at.own_point(self.point(s))[0]
        reach = HEAD / 2.0 + self.slide(s)
        return min(self._depth_on(x - reach), self._depth_on(x + reach))

    def _depth_on(self, x: float) -> float:
        outline, (dx, dy, dz) = self.bearer.wood.outline, self.own_into
        band: list[tuple[Point, float]] = [((1.0, 0.0), x + 0.01), ((-1.0, 0.0), 0.01 - x)]
        if not outline.candidates((0.0, 1.0), band):
            return 0.0
        if abs(dz) > 0.5:
            return self.bearer.wood.thickness
        low, high = outline.extent((dx, dy), band)
        return high - low


def _exact(p: Vector) -> Vector:
    return (clean(p[0]), clean(p[1]), clean(p[2]))


def _tidy(v: Vector) -> Vector:
    return (round(v[0], 12) + 0.0, round(v[1], 12) + 0.0, round(v[2], 12) + 0.0)
