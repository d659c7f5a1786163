"""stock.csv: the lumber and sheet goods to buy, with what is lost on the way."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from drawings.lists.columns import Column, Speech, decimal, exact, lengths
from drawings.lists.part_lines import PartLine
from model.lengths import INCH, INCH_UNITS

#: Steps in which boards are counted by width, mm.
_STEP_MM, _STEP_IN = 50.0, float(2 * INCH)


@dataclass(frozen=True)
class StockLine:
    """All parts of one kind, species and nominal thickness."""

    parts: tuple[PartLine, ...]

    @property
    def boards(self) -> int:
        return sum(p.quantity * p.boards for p in self.parts)

    @property
    def board_feet(self) -> float | None:
        """Rough, before waste; None for sheet goods."""
        return sum(p.total_board_feet for p in self.parts) if self.parts[0].rough else None

    @property
    def sheet_area(self) -> float | None:
        """Finished area in m2, before waste; None for boards."""
        return None if self.parts[0].rough else sum(p.sheet_area for p in self.parts) / 1e6

    @property
    def longest(self) -> float:
        """The longest rough piece, mm."""
        return max(p.rough.length if p.rough else p.part.stock.length for p in self.parts if p.part)

    def by_width(self, step: float) -> dict[float, int]:
        """How many boards by rough width rounded up to whole steps, mm."""
        counts: Counter[float] = Counter()
        for p in self.parts:
            if p.rough:
                counts[math.ceil(p.rough.width / step - 1e-9) * step] += p.quantity * p.boards
        return dict(sorted(counts.items()))


def stock_lines(lines: Iterable[PartLine]) -> list[StockLine]:
    """A line for each kind, species and nominal thickness; parts given as solids are left out."""
    alike: dict[tuple[str, str, str], list[PartLine]] = {}
    for line in lines:
        if line.part is not None:
            alike.setdefault((line.species, line.kind, line.nominal), []).append(line)
    return [StockLine(tuple(parts)) for _, parts in sorted(alike.items())]


def stock_columns(speech: Speech, waste_pct: float) -> list[Column]:
    """The columns of the stock list; its lines are `StockLine`s. waste_pct: bought beyond the rough sizes."""
    more = 1.0 + waste_pct / 100.0
    return [
        Column("species", lambda line: line.parts[0].species),
        Column("kind", lambda line: line.parts[0].kind),
        Column("nominal thickness (inches)", lambda line: line.parts[0].nominal),
        Column("boards", lambda line: str(line.boards)),
        lengths("longest", lambda line: line.longest, speech),
        Column(f"boards by rough width ({speech.unit})", lambda line: _widths(line, speech)),
        Column("board feet, rough", lambda line: decimal(line.board_feet, 2)),
        Column("sheet area (m2)", lambda line: decimal(line.sheet_area, 3)),
        Column("waste (%)", lambda _: decimal(waste_pct, 1)),
        Column("board feet to buy", lambda line: decimal(_times(line.board_feet, more), 2)),
        Column("sheet area to buy (m2)", lambda line: decimal(_times(line.sheet_area, more), 3)),
        exact("longest", lambda line: line.longest),
    ]


def _widths(line: StockLine, speech: Speech) -> str:
    step = _STEP_IN if speech.units in INCH_UNITS else _STEP_MM
    return "; ".join(f"up to {speech.length(width)}: {count}" for width, count in line.by_width(step).items())


def _times(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor
