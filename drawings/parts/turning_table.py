"""What a turner gauges: the diameter at every lettered station of a turning, and how it goes on to the next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest

from drawings.paper.measured import Shown
from drawings.paper.sheet import Point
from drawings.parts.family import Family
from drawings.parts.silhouette import turned_edges
from drawings.parts.table import Cell, Row, Table
from drawings.sheets.principal import Lengths
from model.cuts.legs import Turned
from model.layout.outline import Edge
from model.part import Part

_ALPHABET = "abcdefghijkmnpqrstuvwxyz"  # without l and o, which look like figures
_STEP = 1e-6
#: Of an arc flatter than this, in chords, the rise over its chord is told: so large a radius can't be gauged (ours).
_FLAT = 2.0


@dataclass(frozen=True)
class TurningRow:
    """One station: its letter, the point of the far rim in the plan, the near one, and the course to the next."""

    letter: str
    rim: Point
    opposite: Point
    onward: Edge | None

    @property
    def words(self) -> str:
        """What the wood does from this station to the next; nothing at the last."""
        if self.onward is None:
            return ""
        if not self.onward.straight:
            return "bead" if self.onward.bulge < 0.0 else "cove"
        return "step" if abs(self.onward.end[0] - self.onward.start[0]) < _STEP else "straight"


def turning_rows(part: Part) -> list[TurningRow]:
    """The stations of all that is turned on a part, from its left end, lettered on."""
    found: list[TurningRow] = []
    for cut in sorted((c for c in part.cuts if isinstance(c, Turned)), key=lambda c: c.start):
        found += _rows(cut, part, len(found))
    return found


def _rows(cut: Turned, part: Part, before: int) -> Iterator[TurningRow]:
    edges = turned_edges(cut, part.blank)
    _, y0, _, y1 = part.outline.bounds
    for n, (station, onward) in enumerate(zip_longest(cut.profile, edges), before):
        rim = station.at, (y0 + y1 + station.diameter) / 2.0
        yield TurningRow(_letter(n), rim, (station.at, rim[1] - station.diameter), onward)


def _letter(n: int) -> str:
    return _ALPHABET[n % len(_ALPHABET)] * (n // len(_ALPHABET) + 1)


def turning_table(family: Family, form: Lengths) -> Table:
    """The diameters, and the radii of beads and coves between them, or how far they rise; the plan locates the
    stations."""
    heads = ("Mark", "Diameter", "To the next", "Radius", "Rise")
    return Table("Turning", heads, tuple(_row(row, family, form) for row in turning_rows(family.part)))


def _row(row: TurningRow, family: Family, form: Lengths) -> Row:
    across = family.shown().length(row.opposite, row.rim, (0.0, 1.0))
    diameter = Cell(form(row.rim[1] - row.opposite[1], "Ø"), across)
    return Cell(row.letter), diameter, Cell(row.words), *_arc(row.onward, family.shown(), form)


def _arc(onward: Edge | None, shown: Shown, form: Lengths) -> tuple[Cell, Cell]:
    if onward is None or onward.straight:
        return Cell(""), Cell("")
    if not flat(onward):
        return Cell(form(onward.radius, "R"), shown.radius(onward.centre)), Cell("")
    chord = onward.start, onward.end
    return Cell(""), Cell(form(rise(onward)), shown.height(chord, onward.point(0.5)))


def flat(arc: Edge) -> bool:
    """Is its rise told, not its radius?"""
    return arc.radius > _FLAT * arc.chord


def rise(arc: Edge) -> float:
    """Of an arc's middle over its chord, mm."""
    return abs(arc.bulge) * arc.chord / 2.0
