"""Long arcs without a trammel: heights over the chord at even stations, drawn and as a table."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawings.cards.long_arcs import Swept
from drawings.paper.lettering import paragraph, text_width, wrapped
from drawings.paper.measured import Measured, Shown
from drawings.paper.saying import Saying, joined, number, say
from drawings.paper.sheet import Arc, Entity, Line, Pen, Point, Text
from drawings.parts.table import Cell, Table
from drawings.sheets.principal import Lengths
from model.layout.arcs import rise_from_radius_chord
from model.layout.ordinates import Ordinate, ordinates_by_spacing
from model.lengths import INCH_UNITS

#: Spacings that are easily read off a rule, mm: metric, and inches.
_METRIC = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0)
_INCHES = tuple(25.4 * n for n in (0.25, 0.5, 1.0, 2.0, 3.0, 4.0, 6.0, 12.0, 24.0, 48.0))
#: Lettering, mm; from the chord to the heights under it, the table's rows and what it keeps over them, between blocks.
_HEIGHT, _OFF, _ROWS, _OVER, _BETWEEN = 2.5, 1.2, 9.6, 4.1, 6.0
_TITLE_LINE, _TITLED = 1.5 * _HEIGHT, 2.0


@dataclass(frozen=True)
class Bow:
    """An arc over a chord, mm, and the edges that are laid out by it."""

    radius: float
    chord: float
    arcs: tuple[Swept, ...]

    @property
    def rise(self) -> float:
        return rise_from_radius_chord(self.radius, self.chord)

    def measured(self, along: float, station: bool = False) -> tuple[Measured, ...]:
        """A height so far from the middle, or that distance itself, as it is on every part."""
        return tuple(_ordinate(arc, along, station) for arc in self.arcs)

    @property
    def names(self) -> Saying:
        return joined("; ", dict.fromkeys(arc.name for arc in self.arcs))

    def stations(self, form: Lengths, most: int) -> list[Ordinate]:
        """From the middle to the end, at most so many, evenly spaced but for the last."""
        spacing = even_spacing(self.chord, form.units, most)
        return [o for o in ordinates_by_spacing(self.chord, self.radius, spacing) if o[0] >= 0.0]


def bows(arcs: Sequence[Swept]) -> list[Bow]:
    """Each arc over each chord once, the largest radius first."""
    alike: dict[tuple[float, float], list[Swept]] = {}
    for arc in arcs:
        alike.setdefault((round(arc.radius, 2), round(arc.chord, 2)), []).append(arc)
    ordered = sorted(alike.items(), reverse=True)
    return [Bow(found[0].radius, found[0].chord, tuple(found)) for _, found in ordered]


def even_spacing(chord: float, units: str, most: int) -> float:
    """The least handy spacing that puts no more than `most` stations on half a chord, mm."""
    handy = _INCHES if units in INCH_UNITS else _METRIC
    return next((s for s in handy if math.ceil(chord / 2.0 / s) + 1 <= most), chord / 2.0 / (most - 1))


def _ordinate(arc: Swept, along: float, station: bool) -> Measured:
    """Of the point of an arc that lies so far along its chord from the middle."""
    chord, on_arc = _ends(arc), _from_centre(arc, along, math.sqrt(arc.radius**2 - along**2))
    return _shown(arc).station(chord, on_arc) if station else _shown(arc).height(chord, on_arc)


def _chord(arc: Swept) -> Measured:
    """From one end of an arc to the other."""
    (ax, ay), (bx, by) = _ends(arc)
    return _shown(arc).length((ax, ay), (bx, by), ((bx - ax) / arc.chord, (by - ay) / arc.chord))


def _shown(arc: Swept) -> Shown:
    return Shown((arc.distinct.names[0],))


def _ends(arc: Swept) -> tuple[Point, Point]:
    """Of the chord."""
    deep = math.sqrt(arc.radius**2 - (arc.chord / 2.0) ** 2)
    return _from_centre(arc, -arc.chord / 2.0, deep), _from_centre(arc, arc.chord / 2.0, deep)


def _from_centre(arc: Swept, x: float, y: float) -> Point:
    """A point so far along the chord from the middle, and so far from the centre toward the middle of the arc."""
    (cx, cy), (mx, my) = arc.centre, arc.middle
    up = ((mx - cx) / arc.radius, (my - cy) / arc.radius)
    return cx + up[1] * x + up[0] * y, cy - up[0] * x + up[1] * y


@dataclass(frozen=True)
class BowBlock:
    """A bow as it is set on a sheet, `width` mm wide at a scale (paper over model)."""

    bow: Bow
    scale: float
    width: float
    form: Lengths

    @property
    def title(self) -> Saying:
        """Radius, chord and rise, and the edges they are for."""
        form, bow = self.form, self.bow
        radius = number(form(bow.radius, "R"), tuple(_shown(arc).radius(arc.centre) for arc in bow.arcs))
        chord = number(form(bow.chord), tuple(_chord(arc) for arc in bow.arcs))
        rise = number(form(bow.rise), bow.measured(0.0))
        return say("{}, chord {}, rise {}: {}", radius, chord, rise, bow.names)

    @property
    def height(self) -> float:
        lines = len(wrapped(self.title, self.width, _HEIGHT, bold=True))
        return lines * _TITLE_LINE + _TITLED + self.bow.rise * self.scale + self._under + _ROWS + _BETWEEN

    @property
    def spare(self) -> float:
        """How much of its height is the room kept under it."""
        return _BETWEEN

    @property
    def _under(self) -> float:
        """Room for the heights under the chord."""
        return max(text_width(self.form(height), _HEIGHT) for _, height in self.stations) + _OFF + 1.5

    @property
    def stations(self) -> list[Ordinate]:
        return self.bow.stations(self.form, 12 if self.width > 200.0 else 8)

    def marks(self, left: float, top: float) -> Iterator[Entity]:
        """Its drawing and table with the upper left corner at a point of the sheet, mm."""
        title = paragraph((left, top), self.title, self.width, _HEIGHT, bold=True)
        yield from title
        chord_y = top - len(title) * _TITLE_LINE - _TITLED - self.bow.rise * self.scale
        yield from self._drawn((left + self.width / 2.0, chord_y))
        table = self._table()
        corner = (left + (self.width - sum(table.widths)) / 2.0, chord_y - self._under + _OVER)
        yield from (mark for mark in table.marks(corner) if not (isinstance(mark, Text) and not mark.text))

    def _drawn(self, middle: Point) -> Iterator[Entity]:
        """Chord, arc and ordinates to scale, each with its height under the chord."""
        (x, y), scale, bow = middle, self.scale, self.bow
        half, radius = bow.chord / 2.0 * scale, bow.radius * scale
        lean = math.degrees(math.asin(min(1.0, half / radius)))
        yield Arc((x, y + bow.rise * scale - radius), radius, 90.0 - lean, 90.0 + lean)
        yield Line((x - half, y), (x + half, y), Pen.THIN)
        for along, height in self.stations[:-1]:
            for side in (1.0, -1.0) if along else (1.0,):
                at = x + side * along * scale
                yield Line((at, y), (at, y + height * scale), Pen.THIN)
                measured = bow.measured(side * along)
                yield Text((at, y - _OFF), self.form(height), _HEIGHT, "right", "middle", 90.0, measured=measured)

    def _table(self) -> Table:
        bow, form = self.bow, self.form
        stations = [Cell(form(along), bow.measured(along, station=True)) for along, _ in self.stations]
        heights = [Cell(form(height), bow.measured(along)) for along, height in self.stations]
        return Table("", ("From the middle, both ways", *stations), ((Cell("Height over the chord"), *heights),))
