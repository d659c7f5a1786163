"""A tapered leg seen from its near edge, with its size at the foot: what the plan can't show of its other two sides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from drawings.paper.dimensions import Side
from drawings.paper.saying import say
from drawings.paper.scales import scales, view_scale
from drawings.paper.sheet import Entity, Line, Point, Polyline, Text, ViewPort
from drawings.parts.family import Family
from drawings.parts.untangled import untangled
from drawings.sheets.clear_room import box_of
from drawings.sheets.principal import Lengths
from drawings.sheets.tiers import Span, tiered
from model.cuts.legs import Taper
from model.layout.clipping import around, clipped

#: No larger than half size, no wider than this on the paper, mm (ours).
_LARGEST, _WIDEST = 0.5, 150.0
_NAME, _GAP, _NOTHING = 2.5, 2.0, 1e-6


@dataclass(frozen=True)
class LegView:
    """The whole leg from its near edge, its face side above."""

    family: Family
    tapers: tuple[Taper, ...]
    form: Lengths

    @property
    def scale(self) -> float:
        x0, _, x1, _ = self.family.part.outline.bounds
        return next(s for s in scales(self.form.units) if s <= _LARGEST and (x1 - x0) * s <= _WIDEST)

    @property
    def _bounds(self) -> tuple[float, float, float, float]:
        x0, _, x1, _ = self.family.part.outline.bounds
        return x0, 0.0, x1, self.family.part.thickness

    def marks(self, origin: Point) -> list[Entity]:
        """The view with its sizes, its lower left corner at `origin`, paper mm."""
        x0 = self._bounds[0]
        shown = self.family.shown((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
        port = ViewPort(self.scale, (origin[0] - self.scale * x0, origin[1]), shown)
        marks: list[Entity] = [Polyline(tuple(map(port.place, self._ring())), closed=True)]
        marks += self._lines(port)
        marks += untangled(tiered(list(self._spans()), self._bounds, port, self.form))
        left, _, right, top = box_of(marks)
        name = say("View on near edge, {}", view_scale(self.scale, self.form.units, shown))
        return [*marks, Text(((left + right) / 2, top + _GAP), name, _NAME, "centre", bold=True)]

    def _ring(self) -> list[Point]:
        planed = [t.planed(s, self.family.part.blank) for t in self.tapers for s in t.sides if s in ("face", "back")]
        return clipped(around(self._bounds), [((p.normal[0], p.normal[2]), p.offset) for p in planed])

    def _lines(self, port: ViewPort) -> Iterator[Line]:
        """Where the near side begins to taper."""
        for taper in (t for t in self.tapers if "near" in t.sides):
            (begins, _), _ = taper.course("near", self.family.part.blank)
            yield Line(port.place((begins, 0.0)), port.place((begins, self.family.part.thickness)))

    def _spans(self) -> Iterator[Span]:
        """The size at each foot, and how far that is from the back side."""
        x0, low, x1, high = self._bounds
        for taper in self.tapers:
            ends = {side: taper.course(side, self.family.part.blank)[1][1] for side in taper.sides}
            foot, side = (x0, _LEFT) if taper.foot == "left" else (x1, _RIGHT)
            bottom, top = ends.get("back", low), ends.get("face", high)
            yield Span((foot, bottom), (foot, top), side)
            if bottom > low + _NOTHING:
                yield Span((foot, low), (foot, bottom), side)


_LEFT: Side = "left"
_RIGHT: Side = "right"


def leg_views(family: Family, form: Lengths) -> list[LegView]:
    """A view where the face or the back side of a leg tapers."""
    tapers = tuple(c for c in family.part.cuts if isinstance(c, Taper) and {"face", "back"} & set(c.sides))
    return [LegView(family, tapers, form)] if tapers else []
