"""Breadboard ends: a batten across the end of a solid top, which holds it flat and lets it move."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from model.cuts.cut import Cut
from model.cuts.edges import EdgeGroove, Tongue
from model.cuts.faces import Bore
from model.cuts.removal import RUN_OUT
from model.cuts.slots import SlottedHole
from model.cuts.through import Notch
from model.errors import DesignError
from model.hardware import Hardware, screw_pilot, screw_shank, wood_screw
from model.joints.edge import BOTTOM_ROOM, PLAY
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.edgewise import Edgewise, edgewise, grain_along
from model.layout.outline import Outline, Point
from model.placement import Vector, added, scaled
from model.tolerance import CONTACT

BREADBOARDING = (
    "tongue a third of the stock: NAVEDTRA 14119, chapter 3; fixed in the middle, slotted outward: common practice "
    "(Noyes, Handwork in Wood, 1910, asks of a top's fastening that it allow for shrinkage and swelling)"
)

Fixing = Literal["pegs", "screws"]

#: Diameter of the pegs, mm (common practice: 1/4 to 3/8 in), and least wood between a peg's hole and the tongue's tip.
PEG, BEYOND_PEG = 8.0, 3.0
#: Screws: gauge, counterbore, slack of the slot round the shank, and how far the thread bites into the top, mm.
GAUGE, HEAD, SHANK_SLACK, BITE = "8", 10.0, 0.3, 38.0


def breadboard(
    end: Stood,
    over: Stood,
    *,
    movement: float,
    tongue: float | None = None,
    tenons: int = 0,
    fixing: Fixing = "pegs",
    fixings: int = 3,
    stopped: float = 0.0,
) -> Joint:
    """A batten across the end of a top, `over`, which runs into its edge by the length of the tongue.

    movement: how much the top's whole width may grow or shrink from what it is now, mm; a fixing d from the middle of
    a top W wide then slides movement * d / W either way, and its slot is that much longer than it is wide, twice.
    tongue: thickness, mm, a third of the top if not said. tenons: an odd number of them, as wide as the spaces between
    them, longer than the tongue, which is then a third as long; 0 for a plain tongue. fixing: pegs through batten and
    tongue from the side that lies down or back, or screws from the batten's outer edge; as many as there are tenons,
    else `fixings`, an odd number: the middle one holds, the others slide. stopped: mm inside the top's edges where
    the groove ends. Only the middle may be glued. Raises DesignError if the top does not run square to its grain into
    the batten's edge, or the sizes leave too little wood. Sources: BREADBOARDING.
    """
    m = edgewise(over, end)
    b = _Breadboard(m, movement, clean(tongue or over.wood.thickness / 3.0), tenons, fixings, stopped)
    b.check()
    held = b.pegged() if fixing == "pegs" else b.screwed()
    return Joint(
        "breadboard end",
        end.name,
        over.name,
        m.out,
        (b.shoulders(),),
        (*b.grooves(), *held.in_batten),
        (*b.tongues(), *held.in_top),
        fit=PLAY,
        hardware=held.hardware,
        source=BREADBOARDING,
    )


@dataclass(frozen=True)
class _Held:
    in_batten: tuple[Cut, ...]
    in_top: tuple[Cut, ...]
    hardware: tuple[Hardware, ...]


@dataclass(frozen=True)
class _Breadboard:
    """Stations along the batten's edge are in mm from its start, as in Edgewise."""

    m: Edgewise
    movement: float
    thickness: float
    tenons: int
    fixings: int
    stopped: float

    @property
    def width(self) -> float:
        return self.m.high - self.m.low

    @property
    def middle(self) -> float:
        return (self.m.low + self.m.high) / 2.0

    @property
    def haunch(self) -> float:
        """Length of the tongue, between the tenons where there are any."""
        return clean(self.m.run / 3.0 if self.tenons else self.m.run)

    @property
    def levels(self) -> tuple[float, float]:
        """Back and face of the tongue, in the batten's own frame."""
        spare = (self.m.first.wood.thickness - self.thickness) / 2.0
        return self.m.heights(spare, spare + self.thickness)

    @property
    def stations(self) -> list[float]:
        """Middles of the fixings, and of the tenons."""
        count = self.tenons or self.fixings
        return [self.m.low + self.width * (n + 0.5) / count for n in range(count)]

    @property
    def tenon(self) -> float:
        """Width of a tenon: as wide as the space beside it."""
        return self.width / (2.0 * self.tenons)

    def slide(self, station: float) -> float:
        """How far the top moves there, either way, mm."""
        return self.movement * abs(station - self.middle) / self.width

    def grooves(self) -> Iterator[Cut]:
        """In the batten: for the tongue all along, deeper for each tenon and as much longer as that moves."""
        rise, wide = clean(self.levels[0] - PLAY / 2.0), clean(self.thickness + PLAY)
        edge = self.m.entered.name
        start, stop = (None, None)
        if self.stopped:
            start, stop = clean(self.m.low + self.stopped), clean(self.m.high - self.stopped)
        depth = clean(self.haunch + BOTTOM_ROOM)
        yield EdgeGroove(edge=edge, width=wide, depth=depth, rise=rise, start=start, stop=stop)
        for s in self.stations if self.tenons else ():
            half = self.tenon / 2.0 + self.slide(s + math.copysign(self.tenon / 2.0, s - self.middle)) + PLAY / 2.0
            depth = clean(self.m.run + BOTTOM_ROOM)
            yield EdgeGroove(
                edge=edge, width=wide, depth=depth, rise=rise, start=clean(s - half), stop=clean(s + half)
            )  # fmt: skip

    def tongues(self) -> Iterator[Cut]:
        """In the top: a tongue as long as the tenons, cut back between them."""
        rise = clean((self.m.first.wood.thickness - self.thickness) / 2.0)
        yield Tongue(edge=self.m.lip.name, thickness=self.thickness, length=self.m.run, rise=rise)
        if self.stopped:
            short = self.stopped + self.movement / 2.0 + BOTTOM_ROOM
            yield self._notch(self.m.low - RUN_OUT, self.m.low + short, 0.0)
            yield self._notch(self.m.high - short, self.m.high + RUN_OUT, 0.0)
        if self.tenons:
            half = self.tenon / 2.0
            begins = [self.m.low - RUN_OUT, *(s + half for s in self.stations)]
            ends = [*(s - half for s in self.stations), self.m.high + RUN_OUT]
            for a, b in zip(begins, ends, strict=True):
                yield self._notch(a, b, self.haunch)

    def _notch(self, begin: float, stop: float, length: float) -> Notch:
        """Cuts the tongue back to a length between two stations."""
        corners: list[Point] = []
        for along, into in (
            (begin, length),
            (stop, length),
            (stop, self.m.run + RUN_OUT),
            (begin, self.m.run + RUN_OUT),
        ):
            x, y, _ = self.m.in_first(self.m.point(along, into, 0.0))
            corners.append((x, y))
        try:
            return Notch(Outline(tuple(corners)))
        except DesignError:  # the two parts lie face to back
            return Notch(Outline(tuple(reversed(corners))))

    def shoulders(self) -> Contact:
        """The top's shoulders against the batten's edge, above and below the tongue."""
        low, high = self.levels
        bottom, top = self.m.heights(0.0, self.m.first.wood.thickness)
        cheeks = ((max(bottom, 0.0), low), (high, min(top, self.m.second.wood.thickness)))
        points = tuple(
            self.m.point(self.m.low + t * self.width, 0.0, (a + b) / 2.0)
            for a, b in cheeks
            for t in (0.1, 0.35, 0.9)
            if b - a > 2.0 * CONTACT
        )
        return Contact(points, self.m.closing)

    def pegged(self) -> _Held:
        """Pegs through the batten's lower cheek and the tongue, into the other cheek."""
        batten = self.m.second
        up = self._up
        low, high = self.levels
        thick = batten.wood.thickness
        depth = clean((thick + high) / 2.0 if up > 0.0 else thick - low / 2.0)
        into = scaled(batten.at.z, up)
        mouth = 0.0 if up > 0.0 else thick
        bores, slots, pegs = [], [], []
        for s in self.stations:
            p = self.m.point(s, self.haunch_middle, mouth)
            along = _own(batten, self.m.along)
            # a plain hole, since it is meant to open into the groove
            bores.append(SlottedHole(self.m.in_second(p), (0.0, 0.0, up), along, PEG, PEG, depth))
            slots.append(self._slot(added(p, scaled(into, -thick)), into, self.m.first, PEG, s, 3.0 * thick))
            names = (batten.name, self.m.first.name)
            pegs.append(Hardware("peg", f"{PEG:g} x {depth:.0f} mm", p, into, names, depth, PEG))
        return _Held(tuple(bores), tuple(slots), tuple(pegs))

    @property
    def haunch_middle(self) -> float:
        """How deep the pegs go through tongue or tenons: midway."""
        return clean(self.m.run / 2.0)

    @property
    def _up(self) -> float:
        """1 if the batten's back side is the one that lies down, or to the back; -1 if its face side is."""
        _, y, z = self.m.second.at.z
        return math.copysign(1.0, z) if abs(z) > 0.1 else (-1.0 if y > 0.1 else 1.0)

    def screwed(self) -> _Held:
        """Screws from the batten's outer edge, their heads sunk halfway, into the end of the top."""
        batten, top, run = self.m.second, self.m.first, self.m.run
        reach = _through(self.m)
        sunk = clean(reach / 2.0)
        length = 5.0 * math.ceil((reach - run - sunk + BITE) / 5.0)
        shank = clean(screw_shank(GAUGE) + SHANK_SLACK)
        height = sum(self.levels) / 2.0
        into = self.m.out
        holes, pilots, screws = [], [], []
        for s in self.stations:
            mouth, tip = self.m.point(s, reach, height), self.m.point(s, run, height)
            holes.append(self._slot(mouth, into, batten, HEAD, s, sunk))
            holes.append(self._slot(mouth, into, batten, shank, s, clean(reach - run)))
            bite = clean(length - (reach - run - sunk))
            pilots.append(Bore(self.m.in_first(tip), _own(top, into), screw_pilot(GAUGE), bite))
            head = added(mouth, scaled(into, sunk))
            screws.append(wood_screw(GAUGE, length, head, into, (batten.name, top.name)))
        return _Held(tuple(holes), tuple(pilots), tuple(screws))

    def _slot(self, p: Vector, into: Vector, part: Stood, width: float, s: float, depth: float) -> SlottedHole:
        at = self.m.in_first(p) if part is self.m.first else self.m.in_second(p)
        length = clean(width + 2.0 * self.slide(s))
        return SlottedHole(at, _own(part, into), _own(part, self.m.along), width, length, depth)

    def check(self) -> None:
        top, batten, run = self.m.first, self.m.second, self.m.run
        if grain_along(top.wood, self.m.lip):
            raise DesignError(
                f"{batten.name} lies along the grain of {top.name}; a breadboard end goes across it, "
                "so glue it on plainly"
            )
        if not 0.0 <= self.movement < 0.1 * self.width:
            raise DesignError(
                f"{top.name}, {self.width:g} mm wide, can't move by {self.movement:g} mm; no wood in a house moves by "
                "a tenth of its width"
            )
        for what, count in (("tenons", self.tenons), ("fixings", self.fixings)):
            if count and (count < 1 or count % 2 == 0):
                raise DesignError(f"a breadboard end needs an odd number of {what}, so that one is in the middle")
        cheek = min(self.levels[0], batten.wood.thickness - self.levels[1]) - PLAY / 2.0
        if cheek < self.thickness / 2.0:
            raise DesignError(
                f"a tongue {self.thickness:.1f} mm thick would leave {max(cheek, 0.0):.1f} mm of cheek in "
                f"{batten.name}; a third of its {batten.wood.thickness:g} mm is {batten.wood.thickness / 3.0:.1f} mm"
            )
        most = 2.0 * _through(self.m) / 3.0
        if run > most:
            raise DesignError(
                f"{top.name} runs {run:g} mm into {batten.name}, {_through(self.m):g} mm wide; two thirds of it, "
                f"{most:.1f} mm, is the most (common practice)"
            )
        least = PEG + 2.0 * BEYOND_PEG
        if run < least:
            raise DesignError(
                f"{top.name} runs {run:g} mm into {batten.name}; a tongue {least:g} mm long or longer has room for its "
                "fixings, so let it run in further"
            )
        self._check_tenons()

    def _check_tenons(self) -> None:
        if not self.tenons:
            return
        outer = self.slide(self.m.high - self.tenon / 2.0) * 2.0
        if self.tenon - outer < 2.0 * self.thickness:
            raise DesignError(
                f"{self.tenons} tenons across {self.width:g} mm are {self.tenon:.1f} mm wide and move {outer:.1f} mm; "
                "take fewer, so that wood is left between their mortises"
            )
        if self.stopped > self.tenon / 2.0 - self.movement / 2.0 - BOTTOM_ROOM:
            raise DesignError(
                f"a groove stopped {self.stopped:g} mm inside the edges runs into the outer tenons; stop it at "
                f"{max(0.0, self.tenon / 2.0 - self.movement / 2.0 - BOTTOM_ROOM):.1f} mm or less"
            )


def _through(m: Edgewise) -> float:
    """The batten's size square to the edge entered, mm."""
    low, high = m.second.wood.outline.extent(_flat(m))
    return clean(high - low)


def _flat(m: Edgewise) -> Point:
    x, y, _ = m.second.at.own_direction(m.out)
    return (x, y)


def _own(part: Stood, direction: Vector) -> Vector:
    x, y, z = part.at.own_direction(direction)
    return (round(x, 12) + 0.0, round(y, 12) + 0.0, round(z, 12) + 0.0)
