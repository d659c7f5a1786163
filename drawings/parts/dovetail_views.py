"""Dovetails at a scale to be marked out from: tails from above, pins on the end, each station from the near edge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawings.paper.saying import say
from drawings.paper.scales import scales, view_scale
from drawings.paper.sheet import Entity, OrdinateDimension, Point, Polyline, Text, ViewPort
from drawings.parts.broken import cut_wood, outlined
from drawings.parts.cross_section import CrossSection, Cutting
from drawings.parts.edge_section import with_arcs
from drawings.parts.family import Family
from drawings.parts.ordinates import PITCH, one_side
from drawings.parts.plan import Plan
from drawings.sheets.clear_room import box_of
from drawings.sheets.principal import Lengths
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.removal import Plane
from model.layout.outline import Outline, rectangle

#: An end may be so long on the paper, mm, and is drawn no larger than life; its stations take so much more, mm.
_LONGEST, _LARGEST, _STATIONS = 210.0, 1.0, 24.0
_NAME, _SMALL, _GAP = 2.5, 2.5, 2.0
_FLAT = 1e-6


@dataclass(frozen=True)
class TailView:
    """The end of a board with its tails, from above, the wood behind them broken off."""

    plan: Plan
    cut: Tails
    places: tuple[str, ...]
    longest: float = _LONGEST

    @property
    def form(self) -> Lengths:
        return self.plan.form

    @property
    def scale(self) -> float:
        return _scale(self.plan.bounds[3] - self.plan.bounds[1], len(self.cut.tails), self.form, self.longest)

    @property
    def right_hand(self) -> bool:
        return self.cut.shoulder.normal[0] < 0.0

    @property
    def base(self) -> float:
        """Where the tails begin, mm from the left end."""
        return _level(self.cut.shoulder)

    @property
    def inner(self) -> float:
        """Where the wood is broken off."""
        deep = abs(self.plan.bounds[2 if self.right_hand else 0] - self.base)
        return self.base + 0.8 * (-deep if self.right_hand else deep)

    def marks(self, origin: Point) -> list[Entity]:
        """The end with its stations: at the tips on the outside, at the baseline on the inside. Its near edge is
        on the left."""
        x0, y0, x1, y1 = self.plan.bounds
        low, high = (self.inner, x1) if self.right_hand else (x0, self.inner)
        shown = self.plan.family.shown((0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))
        port = ViewPort(self.scale, (origin[0] - self.scale * y0, origin[1] + self.scale * high), shown)
        frame = rectangle(y1 - y0, high - low, y0, -high)
        marks: list[Entity] = list(self._wood(low, high, port))
        roots, tips = zip(*map(self._ends, self.cut.tails), strict=True)
        rows = [(tips, True), (roots, False)]
        for points, outward in rows[:1] if isinstance(self.cut, Fingers) else rows:  # fingers are as wide all along
            flat = [p for pair in points for p in pair if y0 + _FLAT < p[0] < y1 - _FLAT]
            flat.append((y0, -self.base))
            marks += one_side("x", flat, outward != self.right_hand, frame, port, self.form, (y0, -x0))
        box = box_of(marks)
        middle = port.place(((y0 + y1) / 2, 0.0))[0]
        if not isinstance(self.cut, Fingers):
            marks.append(self._slope(port, (middle, box[3] + _GAP)))
        scale = view_scale(self.scale, self.form.units, shown)
        name = say("{} at {}, {}", _capital(self.cut.name), _both(self.places), scale)
        return [*marks, Text((middle, box_of(marks)[3] + _GAP), name, _NAME, "centre", bold=True)]

    def _slope(self, port: ViewPort, at: Point) -> Text:
        """How far a flank runs out for each mm that it is deep, told of the first tail's flank on the near side."""
        ((h, v), _), ((tip_h, tip_v), _) = self._ends(self.cut.tails[0])
        turn = math.degrees(math.atan2(tip_v - v, tip_h - h))
        upright = math.copysign(90.0, turn)
        assert port.shown is not None
        measured = port.shown.angle((h, v), *sorted((turn, upright)))
        slope = abs(tip_h - h) / abs(tip_v - v)
        return Text(at, f"Slope 1:{1 / slope:.3g}", _SMALL, "centre", measured=measured)

    def _ends(self, tail: Outline) -> tuple[list[Point], list[Point]]:
        """A tail's corners at its root and at its tip as this view shows them, those nearer to the near edge first."""
        across = sorted(tail.corners, key=lambda p: abs(p[0] - self.base))
        roots, tips = (sorted((y, -x) for x, y in pair) for pair in (across[:2], across[2:]))
        return roots, tips

    def _wood(self, low: float, high: float, port: ViewPort) -> Iterator[Entity]:
        from shapely.geometry import Polygon, box
        from shapely.geometry.polygon import orient

        outline = self.plan.outline
        _, y0, _, y1 = outline.bounds
        seen = Polygon(outline.points(0.002)).intersection(box(low, y0 - 1.0, high, y1 + 1.0))
        circles = [(e.centre, e.radius) for e in outline.edges if not e.straight]
        broken = port.place((0.0, -self.inner))[1]
        for piece in getattr(seen, "geoms", [seen]):
            corners, bulges = with_arcs(list(orient(piece).exterior.coords)[:-1], circles)
            points = tuple(port.place((y, -x)) for x, y in corners)
            yield from outlined(Polyline(points, tuple(bulges), closed=True), (), [broken])


@dataclass(frozen=True)
class PinView:
    """The end of a board with its pins, cut just behind the end grain and seen along the grain."""

    family: Family
    cut: Pins
    places: tuple[str, ...]
    form: Lengths
    longest: float = _LONGEST

    @property
    def cutting(self) -> Cutting:
        base, end = _level(self.cut.baseline), _level(self.cut.end)
        return Cutting((0.0, 1.0, 0.0), (base + end) / 2.0)

    @property
    def scale(self) -> float:
        _, y0, _, y1 = self.family.part.outline.bounds
        return _scale(y1 - y0, len(self.cut.sockets), self.form, self.longest)

    def marks(self, origin: Point) -> list[Entity]:
        """The end, the near edge on its left, stations at the face side above, at the back side below."""
        section = CrossSection(self.family.part, self.cutting)
        low, high = section.reach
        thick = self.family.part.thickness
        shown = self.family.shown(self.cutting.right, (0.0, 0.0, 1.0), self.cutting.at)
        port = ViewPort(self.scale, (origin[0] - self.scale * low, origin[1]), shown)
        marks: list[Entity] = []
        for piece in section.pieces():
            rings = [Polyline(tuple(map(port.place, corners)), tuple(b), closed=True) for corners, b in piece]
            marks += cut_wood(rings, [])
        marks += self._stations(rectangle(high - low, thick, low), port)
        box = box_of(marks)
        middle = port.place(((low + high) / 2, 0.0))[0]
        name = say("Pins on {}, {}", _both(self.places), view_scale(self.scale, self.form.units, shown))
        return [*marks, Text((middle, box[3] + _GAP), name, _NAME, "centre", bold=True)]

    def _stations(self, frame: Outline, port: ViewPort) -> Iterator[OrdinateDimension]:
        """Sockets at their mouths and at their floors, each on the side it is nearer to; the depth of a lapped one."""
        thick, datum = self.family.part.thickness, (frame.bounds[0], 0.0)
        corners = [p for socket in self.cut.sockets for p in socket.corners]
        for above in (True, False):
            points = sorted(p for p in corners if (p[1] > thick / 2) is above)
            points = [(datum[0], thick if above else 0.0), *points]
            yield from one_side("x", points, above, frame, port, self.form, datum)
        if self.cut.lap(self.family.part.blank) > _FLAT:
            floor = [p for p in corners if _FLAT < p[1] < thick - _FLAT]
            yield from one_side("y", [max(floor)], True, frame, port, self.form, datum)


def dovetail_views(plan: Plan, width: float = math.inf) -> list[TailView | PinView]:
    """A view for each end with tails or pins; two ends laid out alike share theirs. width: the sheets' room, mm."""
    longest = min(_LONGEST, width - _STATIONS)
    found: dict[object, tuple[Tails | Pins, list[str]]] = {}
    for cut in plan.family.part.cuts:
        if isinstance(cut, Tails | Pins) and _square(cut):
            place = f"{_end(cut)} end"
            found.setdefault(_layout(cut, plan.form), (cut, []))[1].append(place)
    views: list[TailView | PinView] = []
    for cut, places in found.values():
        if isinstance(cut, Tails):
            views.append(TailView(plan, cut, tuple(places), longest))
        else:
            views.append(PinView(plan.family, cut, tuple(places), plan.form, longest))
    return views


def _square(cut: Tails | Pins) -> bool:
    plane = cut.shoulder if isinstance(cut, Tails) else cut.baseline
    return abs(plane.normal[0]) > 1.0 - _FLAT and (isinstance(cut, Pins) or cut.square)


def _end(cut: Tails | Pins) -> str:
    # both planes take in what lies toward the end
    inward = cut.shoulder.normal[0] if isinstance(cut, Tails) else cut.baseline.normal[0]
    return "right" if inward < 0.0 else "left"


def _layout(cut: Tails | Pins, form: Lengths) -> object:
    """What is printed of an end; the same for two ends laid out alike."""
    if isinstance(cut, Pins):
        return "pins", tuple(sorted((form(y), form(z)) for s in cut.sockets for y, z in s.corners))
    base = _level(cut.shoulder)
    return "tails", tuple(sorted((form(y), form(abs(x - base))) for t in cut.tails for x, y in t.corners))


def _level(plane: Plane) -> float:
    """Where a plane square across the part lies, mm from the left end."""
    return plane.normal[0] * plane.offset


def _scale(width: float, count: int, form: Lengths, longest: float) -> float:
    """The largest scale at which the end goes on; at least so large that the stations of its tails stand apart."""
    room = max(longest, 2 * count * PITCH)
    return next(s for s in scales(form.units) if s <= _LARGEST and width * s <= room)


def _both(places: Sequence[str]) -> str:
    return " and ".join(places)


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
