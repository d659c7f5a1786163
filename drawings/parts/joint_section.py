"""A section through a part's joinery, drawn large, with the sizes that the plan does not show."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.dimensions import aligned, angular
from drawings.paper.scales import scale_text, scales
from drawings.paper.sheet import Entity, Point, Polyline, Text, ViewPort
from drawings.parts.broken import cut_wood
from drawings.parts.cross_section import CrossSection
from drawings.parts.family import Family
from drawings.parts.joint_cuttings import cuttings
from drawings.parts.plan import Plan
from drawings.parts.untangled import untangled
from drawings.parts.wanted_section import Wanted
from drawings.sheets.clear_room import box_of
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import tiered

#: A section may be so wide on the paper, and thin stock is drawn larger than life, mm.
_WIDEST, _THIN, _LARGE = 85.0, 15.0, 2.0
#: How much wood is shown beside the work, in thicknesses of the stock.
_PAST = (0.9, 0.5, 0.3)
_NAME, _GAP = 2.5, 2.0
#: An angle less than this is told as a slope, degrees.
_SLIGHT = 15.0


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

    @cached_property
    def _room(self) -> tuple[tuple[float, float], float]:
        """From where to where it is drawn, and how large: all of a narrow part, else no more than the work and a good
        deal, or in the last resort a little, of the wood beside it."""
        low, high = self._section.reach
        thick = self.family.part.thickness
        small = self.wanted.high - self.wanted.low < _THIN and bool(self.wanted.corners)
        full = _LARGE if thick < _THIN or small else 1.0
        around = [
            (max(low, self.wanted.low - past * thick), min(high, self.wanted.high + past * thick)) for past in _PAST
        ]
        tried = ((s, window) for s in scales(self.form.units) if s <= full for window in ((low, high), *around))
        scale, window = next((s, (a, b)) for s, (a, b) in tried if (b - a) * s <= _WIDEST)
        return window, scale

    @property
    def window(self) -> tuple[float, float]:
        return self._room[0]

    @property
    def scale(self) -> float:
        return self._room[1]

    @property
    def name(self) -> str:
        """What stands over the section."""
        places = " and ".join(self.places) if len(self.places) < 3 else ", ".join(self.places)
        return f"Section through {places}, {scale_text(self.scale, self.form.units)}"

    def marks(self, origin: Point) -> list[Entity]:
        """The section with its sizes, its lower left corner at `origin`."""
        low, high = self.window
        cutting = self.wanted.cutting
        shown = self.family.shown(cutting.right, (0.0, 0.0, 1.0), cutting.at)
        port = ViewPort(self.scale, (origin[0] - self.scale * low, origin[1]), shown)
        marks: list[Entity] = list(self._wood(port))
        spans = tiered(self.wanted.spans, (low, 0.0, high, self.family.part.thickness), port, self.form)
        marks += untangled(spans)
        marks += self._slanting(port)
        marks += self._corners(port)
        middle = port.place(((low + high) / 2, 0.0))[0]
        marks += self._slopes(port, (middle, box_of(marks)[3] + _GAP))
        return [*marks, Text((middle, box_of(marks)[3] + _GAP), self.name, _NAME, "centre", bold=True)]

    def _wood(self, port: ViewPort) -> Iterator[Entity]:
        low, high = self.window
        first, last = self._section.reach
        breaks = [h for h, end in ((low, first), (high, last)) if abs(h - end) > 1e-6]
        for piece in self._section.pieces(low, high):
            rings = [Polyline(tuple(map(port.place, corners)), tuple(b), closed=True) for corners, b in piece]
            yield from cut_wood(rings, [port.place((h, 0.0))[0] for h in breaks])

    def _slanting(self, port: ViewPort) -> Iterator[Entity]:
        for p, q in self.wanted.slanting:
            yield aligned(p, q, port, units=self.form.units, denominator=self.form.denominator)

    def _corners(self, port: ViewPort) -> Iterator[Entity]:
        for corner in (c for c in self.wanted.corners if c.end - c.start >= _SLIGHT):
            yield angular(corner.at, corner.start, corner.end, port, 18.0 + 4.0 * port.scale)

    def _slopes(self, port: ViewPort, at: Point) -> Iterator[Text]:
        """Angles too slight for an arc between their sides, as slopes."""
        for corner in (c for c in self.wanted.corners if c.end - c.start < _SLIGHT):
            assert port.shown is not None
            slope = 1.0 / math.tan(math.radians(corner.end - corner.start))
            meant = port.shown.angle(corner.at, corner.start, corner.end)
            yield Text(at, f"Slope 1:{slope:.3g}", _NAME, "centre", measured=meant)


def joint_sections(plan: Plan) -> list[JointSection]:
    """A section for each way the part's joinery is cut; places that come out alike on paper share theirs."""
    alike: dict[object, tuple[Wanted, list[str]]] = {}
    for cut in plan.family.part.cuts:
        for wanted in cuttings(cut, plan.family.part):
            place = plan.lettered.get(cut) or f"{wanted.what} at {wanted.place}"
            places = alike.setdefault(_key(wanted, plan.form), (wanted, []))[1]
            if place not in places:
                places.append(place)
    return [
        JointSection(plan.family, wanted, _told_once(places, wanted.what), plan.form)
        for wanted, places in alike.values()
    ]


def _key(wanted: Wanted, form: Lengths) -> object:
    """The same for sections whose sizes are printed alike, whichever end they are at."""
    sizes = sorted((_upright(span.side), form(span.length)) for span in wanted.spans)
    angles = sorted(f"{(c.end - c.start):.1f}" for c in wanted.corners)
    slanting = sorted(form(math.dist(p, q)) for p, q in wanted.slanting)
    return wanted.what, tuple(sizes), tuple(angles), tuple(slanting)


def _upright(side: str) -> str:
    return "end" if side in ("left", "right") else side


def _told_once(places: Sequence[str], what: str) -> tuple[str, ...]:
    """ "tenon at left end", "right end": what is cut is named once."""
    first, *others = places
    return (first, *(place.removeprefix(f"{what} at ") for place in others))
