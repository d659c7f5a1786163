"""A section through a part's joinery, drawn large, with the sizes that the plan does not show."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from drawings.paper.dimensions import aligned, angular
from drawings.paper.saying import Saying, say
from drawings.paper.scales import scales, view_scale
from drawings.paper.sheet import AngularDimension, Entity, Hatch, Line, Pen, Point, Polyline, Text, ViewPort
from drawings.parts.broken import clear_of_lettering, cut_wood
from drawings.parts.cross_section import CrossSection
from drawings.parts.family import Family
from drawings.parts.joint_cuttings import cuttings
from drawings.parts.plan import Plan
from drawings.parts.plan_labels import least
from drawings.parts.untangled import untangled
from drawings.parts.wanted_section import Corner, Wanted
from drawings.sheets.clear_room import Drawn, box_of
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import fits, tiered

#: A section may be so wide on the paper, and thin stock is drawn larger than life, mm.
_WIDEST, _THIN, _LARGE = 85.0, 15.0, 2.0
#: How much wood is shown beside the work, in thicknesses of the stock.
_PAST = (0.9, 0.5, 0.3)
_NAME, _GAP = 2.5, 2.0
#: A dovetail's angle less than this is told as a slope, degrees.
_SLIGHT = 15.0
#: A middle line runs so far past what it halves, and its length stands so far beside it, paper mm.
_BEYOND, _BESIDE = 3.0, 10.0
#: The arc of a leaning face's angle stands so far clear of the wood, paper mm.
_CLEAR = 6.0
#: A length that would stand further from what it measures than this is rather set into the wood, paper mm.
_FAR_OFF = 40.0
_SAME = 1e-6


@dataclass(frozen=True)
class JointSection:
    """One section, standing for all the places that are cut alike."""

    family: Family
    wanted: Wanted
    places: tuple[str, ...]
    form: Lengths

    @cached_property
    def _section(self) -> CrossSection:
        return CrossSection(self.family.part, self.wanted.cutting)

    @property
    def meets_wood(self) -> bool:
        """Is there wood where it is taken? Other work may have left none."""
        return not self._section.wood.is_empty

    @cached_property
    def _room(self) -> tuple[tuple[float, float], float]:
        """From where to where it is drawn, and how large: all of a narrow part, else no more than the work and a good
        deal, or in the last resort a little, of the wood beside it; larger than life where that gives room for its
        sizes."""
        low, high = self._section.reach
        thick = self.family.part.thickness
        small = self.wanted.high - self.wanted.low < _THIN and bool(self.wanted.corners)
        cramped = any(fits(s, _LARGE, self.form) > fits(s, 1.0, self.form) for s in self.wanted.spans)
        full = _LARGE if thick < _THIN or small or cramped else 1.0
        around = [
            (max(low, self.wanted.low - past * thick), min(high, self.wanted.high + past * thick)) for past in _PAST
        ]
        tried = ((s, window) for s in scales(self.form.units) if s <= full for window in ((low, high), *around))
        scale, window = next((s, (a, b)) for s, (a, b) in tried if (b - a) * s <= _WIDEST)
        return window, scale

    @property
    def window(self) -> tuple[float, float, float, float]:
        """What is drawn of the plane: the least h and v, the greatest h and v."""
        (low, high), (bottom, top) = self._room[0], (0.0, self.family.part.thickness)
        if self.wanted.heights is not None:
            past, (_, least, _, most) = _PAST[-1] * self.family.part.thickness, self._section.bounds
            bottom, top = (max(least, self.wanted.heights[0] - past), min(most, self.wanted.heights[1] + past))
        return low, bottom, high, top

    @property
    def scale(self) -> float:
        return self._room[1]

    @property
    def name(self) -> Saying:
        """What stands over the section."""
        places = " and ".join(self.places) if len(self.places) < 3 else ", ".join(self.places)
        cutting = self.wanted.cutting
        shown = self.family.shown(cutting.right, cutting.up, cutting.at)
        return say("Section through {}, {}", places, view_scale(self.scale, self.form.units, shown))

    def marks(self, origin: Point) -> list[Entity]:
        """The section with its sizes, its lower left corner at `origin`."""
        low, bottom, high, _ = self.window
        cutting = self.wanted.cutting
        shown = self.family.shown(cutting.right, cutting.up, cutting.at)
        port = ViewPort(self.scale, (origin[0] - self.scale * low, origin[1] - self.scale * bottom), shown)
        marks: list[Entity] = list(self._wood(port))
        marks += untangled(tiered(self.wanted.spans, self.window, port, self.form))
        marks += self._slanting(port)
        marks += self._axes(port, marks)
        marks += self._corners(port, marks)
        middle = port.place(((low + high) / 2, 0.0))[0]
        marks += self._slopes(port, (middle, box_of(marks)[3] + _GAP))
        name = Text((middle, box_of(marks)[3] + _GAP), self.name, _NAME, "centre", bold=True)
        return [*clear_of_lettering(marks), name]

    def _wood(self, port: ViewPort) -> Iterator[Entity]:
        window, bounds = self.window, self._section.bounds
        broken = [abs(here - end) > _SAME for here, end in zip(window, bounds, strict=True)]
        ends = [port.place(window[:2]), port.place(window[2:])]
        upright = [ends[k][0] for k in (0, 1) if broken[2 * k]]
        level = [ends[k][1] for k in (0, 1) if broken[2 * k + 1] and self.wanted.heights]
        for piece in self._section.pieces(window):
            rings = [Polyline(tuple(map(port.place, corners)), tuple(b), closed=True) for corners, b in piece]
            yield from cut_wood(rings, upright, level)

    def _slanting(self, port: ViewPort) -> Sequence[Entity]:
        units, denominator = self.form.units, self.form.denominator
        return untangled([aligned(p, q, port, units=units, denominator=denominator) for p, q in self.wanted.slanting])

    def _axes(self, port: ViewPort, drawn: Sequence[Entity]) -> Iterator[Entity]:
        """Middle lines, a little past both ends; seen through the wood, for in a section there is no line of them."""
        through = replace(port, shown=replace(port.shown, at=None)) if port.shown else port
        units, denominator = self.form.units, self.form.denominator
        for p, q in self.wanted.axes:
            (ax, ay), (bx, by) = port.place(p), port.place(q)
            past = _BEYOND / math.dist((ax, ay), (bx, by))
            dx, dy = (bx - ax) * past, (by - ay) * past
            yield Line((ax - dx, ay - dy), (bx + dx, by + dy), Pen.CENTRE)
            tries = [aligned(p, q, through, d, units=units, denominator=denominator) for d in self._distances(p, q)]
            yield least(tries, _lines(drawn).strikes)

    def _distances(self, p: Point, q: Point) -> list[float]:
        """How far to the left of a line its dimension may stand, paper mm, negative to the right: outside the wood on
        either side, the nearer first, or beside the line where those are too far off."""
        low, bottom, high, top = self.window
        size = math.dist(p, q)
        left = (p[1] - q[1]) / size, (q[0] - p[0]) / size
        found = []
        for sign in (1.0, -1.0):
            x, y = sign * left[0], sign * left[1]
            ways = [min(_to_end(at[0], x, low, high), _to_end(at[1], y, bottom, top)) for at in (p, q)]
            found.append(sign * (max(ways) * self.scale + _CLEAR))
        found.sort(key=abs)
        return [*(d for d in found if abs(d) < _FAR_OFF), _BESIDE, -_BESIDE]

    def _corners(self, port: ViewPort, drawn: Sequence[Entity]) -> list[Entity]:
        """Each arc as near to its corner as it stands clear of the wood and of what is drawn."""
        marks: list[Entity] = []
        for corner in (c for c in self.wanted.corners if not _slight(c)):
            tries = [_arc(corner, reach, port) for reach in self._reaches(corner)]
            marks.append(least(tries, _lines([*drawn, *marks]).strikes))
        return marks

    def _reaches(self, corner: Corner) -> list[float]:
        """Radii of its arc: the usual one; of a leaning face those that go past the wood, then larger ones."""
        usual = 18.0 + 4.0 * self.scale
        if corner.sloped:
            return [usual]
        if corner.outside:
            return [usual + more for more in (-6.0, 0.0, 6.0, 12.0, 18.0, 24.0)]
        _, low, _, high = self.window
        first = max(usual, (high - low) * self.scale + _CLEAR)
        return [first, *(first + more for more in (5.0, 10.0, 15.0)), usual]

    def _slopes(self, port: ViewPort, at: Point) -> Iterator[Text]:
        """Angles too slight for an arc between their sides, as slopes."""
        for corner in (c for c in self.wanted.corners if _slight(c)):
            assert port.shown is not None
            slope = 1.0 / math.tan(math.radians(corner.end - corner.start))
            meant = port.shown.angle(corner.at, corner.start, corner.end)
            yield Text(at, f"Slope 1:{slope:.3g}", _NAME, "centre", measured=meant)


def _lines(marks: Sequence[Entity]) -> Drawn:
    """What lettering must stand clear of; hatching is broken off round it."""
    return Drawn(mark for mark in marks if not isinstance(mark, Hatch))


def _arc(corner: Corner, reach: float, port: ViewPort) -> AngularDimension:
    """An angle of the wood; one shown off it is the same at its opposite."""
    plain = angular(corner.at, corner.start, corner.end, port, reach)
    if not corner.outside:
        return plain
    return replace(plain, start=corner.start + 180.0, end=corner.end + 180.0)


def _to_end(at: float, way: float, low: float, high: float) -> float:
    """How far it is from a place between two ends to the one that a direction leads to."""
    if abs(way) < _SAME:
        return math.inf
    return ((high if way > 0.0 else low) - at) / way


def _slight(corner: Corner) -> bool:
    return corner.sloped and corner.end - corner.start < _SLIGHT


def joint_sections(plan: Plan) -> list[JointSection]:
    """A section for each way the part's joinery is cut; places that come out alike on paper share theirs."""
    alike: dict[object, tuple[Wanted, list[str]]] = {}
    for wanted, place in _one_plane(plan):
        places = alike.setdefault(_key(wanted, plan.form), (wanted, []))[1]
        if place not in places:
            places.append(place)
    found = (
        JointSection(plan.family, wanted, _told_once(places, wanted.what), plan.form)
        for wanted, places in alike.values()
    )
    return [section for section in found if section.meets_wood]


def _one_plane(plan: Plan) -> list[tuple[Wanted, str]]:
    """The sections that are asked for, each with its place; what one plane shows over one another, as twin mortises, is
    shown together."""
    found: dict[object, tuple[Wanted, str]] = {}
    for cut in plan.family.part.cuts:
        for wanted in cuttings(cut, plan.family.part):
            place = plan.lettered.get(cut) or f"{wanted.what} at {wanted.place}"
            stretch = round(wanted.low, 3), round(wanted.high, 3)
            key = place, wanted.cutting, stretch, wanted.corners, wanted.slanting, wanted.axes
            before, _ = found.setdefault(key, (wanted, place))
            spans = {(s.side, s.stretch): s for s in (*wanted.spans, *before.spans)}
            found[key] = replace(before, spans=tuple(spans.values())), place
    return list(found.values())


def _key(wanted: Wanted, form: Lengths) -> object:
    """The same for sections whose sizes are printed alike, whichever end they are at."""
    sizes = sorted((_upright(span.side), form(span.length)) for span in wanted.spans)
    angles = sorted(f"{(c.end - c.start):.1f}" for c in wanted.corners)
    slanting = sorted(form(math.dist(p, q)) for p, q in (*wanted.slanting, *wanted.axes))
    return wanted.what, tuple(sizes), tuple(angles), tuple(slanting)


def _upright(side: str) -> str:
    return "end" if side in ("left", "right") else side


def _told_once(places: Sequence[str], what: str) -> tuple[str, ...]:
    """ "tenon at left end", "right end": what is cut is named once."""
    first, *others = places
    return (first, *(place.removeprefix(f"{what} at ") for place in others))
