"""The wood a part is made from: boards, glued-up panels and sheets, at their finished sizes. Millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from model.errors import DesignError

Kind = Literal["board", "panel", "sheet"]


@dataclass(frozen=True)
class Stock:
    """One piece of finished stock: length along the grain, width across it, thickness.

    thickness and species are None until the stock joins a piece, which then gives the order's.
    """

    kind: Kind
    length: float
    width: float
    thickness: float | None = None
    species: str | None = None

    def __post_init__(self) -> None:
        for what in ("length", "width", "thickness"):
            size = getattr(self, what)
            if size is not None and not (math.isfinite(size) and size > 0):
                raise DesignError(f"the {self.kind}'s {what} comes out at {size:g} mm; it must be more than zero")

    def of(self, thickness: float, species: str) -> Stock:
        """The same stock, its open questions answered."""
        return replace(self, thickness=self.thickness or thickness, species=self.species or species)

    @property
    def thick(self) -> float:
        """Thickness in mm; raises DesignError while it is not known."""
        if self.thickness is None:
            raise DesignError(f"the {self.kind} has no thickness yet; give one, or add it to a piece first")
        return self.thickness


def board(length: float, width: float, thickness: float | None = None, species: str | None = None) -> Stock:
    """A single board."""
    return Stock("board", length, width, thickness, species)


def panel(length: float, width: float, thickness: float | None = None, species: str | None = None) -> Stock:
    """Boards glued edge to edge into one wide panel."""
    return Stock("panel", length, width, thickness, species)


def sheet(length: float, width: float, thickness: float | None = None, species: str | None = None) -> Stock:
    """A piece of sheet goods; length runs with the face grain."""
    return Stock("sheet", length, width, thickness, species)
