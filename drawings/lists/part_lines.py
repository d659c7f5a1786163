"""What the lists say of each distinct part: its kind, finished and rough sizes, and the lumber it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from drawings.cutting.finished import finished_size
from drawings.lists.distinct import Distinct, distinct_parts
from model.part import Part
from model.piece import Piece
from model.wood.lumber import COMMON_PRACTICE, Rough, plywood_categories, rough_size
from model.wood.material import material_named

#: Rough width that boards for a panel are ripped to at most, mm: wider ones cup (common practice: 4 to 6 in).
GLUE_UP = 152.4


@dataclass(frozen=True)
class PartLine:
    """One line of the parts list. Lengths in mm; sizes are None for a part given as a solid."""

    distinct: Distinct

    @property
    def part(self) -> Part | None:
        return self.distinct.wood

    @property
    def quantity(self) -> int:
        return self.distinct.quantity

    @property
    def kind(self) -> str:
        """The stock it is made of, in the list's words."""
        if self.part is None:
            return "given solid"
        return f"bent {self.part.stock.kind}" if self.part.bend else self.part.stock.kind

    @property
    def species(self) -> str:
        part = self.distinct.part
        return (part.stock.species if isinstance(part, Part) else part.species) or ""

    @property
    def finished(self) -> tuple[float, float, float] | None:
        """Length, width and thickness; a bent part's on the flat."""
        return finished_size(self.part) if self.part else None

    @property
    def boards(self) -> int:
        """Boards glued up for it, each no wider in the rough than `GLUE_UP`; 1 for anything else than a panel."""
        if self.part is None or self.part.stock.kind != "panel":
            return 1
        return math.ceil(self.part.stock.width / (GLUE_UP - COMMON_PRACTICE.width) - 1e-9)

    @cached_property
    def rough(self) -> Rough | None:
        """Each rough board to cut for it; None for sheet goods and given solids.

        Raises DesignError if no single board is thick enough.
        """
        if self.part is None or self.part.stock.kind == "sheet":
            return None
        length, width, thickness = self.part.stock.length, self.part.stock.width, self.part.thickness
        return rough_size(length, width / self.boards, thickness, hardwood=not material_named(self.species).softwood)

    @property
    def nominal(self) -> str:
        """The thickness to ask for, as the yard names it; empty where nothing is bought."""
        if self.rough is not None:
            return self.rough.nominal.text
        return _sheet_category(self.part.thickness) if self.part else ""

    @property
    def board_feet(self) -> float:
        """Of one part, rough, before waste; 0 for sheet goods and given solids."""
        return self.boards * self.rough.board_feet if self.rough else 0.0

    @property
    def total_board_feet(self) -> float:
        return self.quantity * self.board_feet

    @property
    def sheet_area(self) -> float:
        """Of all its parts, mm2, where they are cut from sheet goods."""
        if self.part is None or self.part.stock.kind != "sheet":
            return 0.0
        return self.quantity * self.part.stock.length * self.part.stock.width


def part_lines(piece: Piece) -> list[PartLine]:
    """A line for each distinct part, in the order of their numbers."""
    return [PartLine(d) for d in distinct_parts(piece)]


def _sheet_category(thickness: float) -> str:
    """The plywood category whose limits hold this thickness (PS 1-22), or the thickness itself."""
    fitting = [s for s in plywood_categories() if s.least <= thickness <= s.most]
    nearest = min(fitting, key=lambda s: abs(s.thickness - thickness), default=None)
    return nearest.category if nearest else f"{thickness:g} mm"
