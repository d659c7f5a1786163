"""Where dovetails go along a corner: by number or by spacing, by hand or at a machine's fixed pitch. No CAD kernel.

A row begins and ends with half a pin. Widths are those half way along the tails, unless they say wide or narrow.
Millimetres; a slope is how much a flank leaves the grain in 1 (1/6 is "1 in 6").
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from model.errors import DesignError, OrderError
from model.wood.material import material_named

Pitch = Literal["hand", "machine"]

#: 1:6 in softwood, 1:8 in hardwood (common practice).
SOFTWOOD_SLOPE, HARDWOOD_SLOPE = 1.0 / 6.0, 1.0 / 8.0
#: "A right triangle 3 in by 5/8 in" (Noyes, Handwork in Wood, 1910, No. 48).
NOYES_SLOPE = 0.625 / 3.0
#: Tails as wide as the pins are strongest; for looks up to 4 times, and no wider than 1 3/4 in (Noyes, No. 48).
GREATEST_RATIO, WIDEST_TAIL = 4.0, 44.45
#: Tails to pins when a row is laid out by hand (common practice, within what Noyes allows).
HAND_RATIO = 3.0
#: A dovetail jig's pitch, 7/8 in, and its cutter's 14 degrees (common practice).
MACHINE_PITCH, MACHINE_SLOPE = 22.225, math.tan(math.radians(14.0))
#: The narrowest that a pin or the neck of a tail may be: a 1/8 in chisel must clear it (common practice).
NARROWEST = 3.0


@dataclass(frozen=True)
class TailRow:
    """A row of equal tails along a corner `length` mm long, each `depth` mm from shoulder to tip.

    centres: of the tails, mm from the corner's near end; width: of a tail half way along it.
    """

    length: float
    depth: float
    slope: float
    centres: tuple[float, ...]
    width: float

    @property
    def number(self) -> int:
        return len(self.centres)

    @property
    def flare(self) -> float:
        """How much wider a tail is at its tip than half way."""
        return self.slope * self.depth

    @property
    def narrow(self) -> float:
        """A tail's width at its shoulder."""
        return self.width - self.flare

    @property
    def wide(self) -> float:
        """A tail's width at its tip."""
        return self.width + self.flare

    @property
    def pitch(self) -> float:
        """From tail to tail; the whole length where there is but one."""
        return self.length if self.number == 1 else self.centres[1] - self.centres[0]

    @property
    def pin(self) -> float:
        """Width of a whole pin; infinite where a single tail leaves none."""
        return math.inf if self.number == 1 else self.pitch - self.width

    @property
    def half_pin(self) -> float:
        """Width of the pin at either edge."""
        return self.centres[0] - self.width / 2.0

    @property
    def shoulders(self) -> tuple[tuple[float, float], ...]:
        """Where each tail begins and ends along the shoulder."""
        return tuple((c - self.narrow / 2.0, c + self.narrow / 2.0) for c in self.centres)


def slope_for(species: str | None) -> float:
    """1:6 in softwood, 1:8 in hardwood and in sheet goods."""
    try:
        return SOFTWOOD_SLOPE if species and material_named(species).softwood else HARDWOOD_SLOPE
    except OrderError:  # sheet goods go by other names
        return HARDWOOD_SLOPE


def hand_row(
    length: float,
    depth: float,
    slope: float,
    *,
    number: int | None = None,
    spacing: float | None = None,
    ratio: float = HAND_RATIO,
) -> TailRow:
    """Tails evenly spaced to fill the corner, each `ratio` times as wide as a pin, half a pin at either edge.

    number: of tails; or spacing: from tail to tail, brought to the nearest that comes out even; else the fewest that
    keep within 1 3/4 in at the tip. Raises DesignError for a row that can't be cut.
    """
    if not 1.0 <= ratio <= GREATEST_RATIO:
        raise DesignError(
            f"tails {ratio:g} times as wide as the pins: give from 1, the strongest, to {GREATEST_RATIO:g} "
            "(Noyes, Handwork in Wood, No. 48)"
        )
    share = ratio / (1.0 + ratio)
    widest = max(WIDEST_TAIL - slope * depth, NARROWEST) / share
    count = _count(length, number, spacing, math.ceil(length / widest - 1e-9))
    step = length / count
    centres = tuple(step * (n + 0.5) for n in range(count))
    return _cuttable(TailRow(length, depth, slope, centres, share * step))


def machine_row(
    length: float, depth: float, slope: float, *, number: int | None = None, spacing: float | None = None
) -> TailRow:
    """Tails and pins of equal width at a jig's fixed pitch, as many as go in; what is left over goes to the half pins.

    spacing: the jig's pitch, 7/8 in if not said. Raises DesignError for a row that can't be cut.
    """
    pitch = MACHINE_PITCH if spacing is None else spacing
    if not pitch > 0.0:
        raise DesignError(f"a jig's pitch of {pitch:g} mm; it must be more than zero")
    most = math.floor(length / pitch + 1e-9)
    count = most if number is None else number
    if not 1 <= count <= most:
        raise DesignError(
            f"{count} tails at a pitch of {pitch:g} mm do not go into a corner {length:.1f} mm long; it takes {most}"
        )
    first = (length - pitch * (count - 1)) / 2.0
    return _cuttable(TailRow(length, depth, slope, tuple(first + pitch * n for n in range(count)), pitch / 2.0))


def finger_width(length: float, thickness: float) -> float:
    """Of a box joint's fingers, mm: the odd number, at least 3, that brings them nearest to the stock's thickness."""
    counts = [n for n in range(3, max(4, int(length / thickness) + 3)) if n % 2]
    return length / min(counts, key=lambda n: abs(length / n - thickness))


def _count(length: float, number: int | None, spacing: float | None, fewest: int) -> int:
    if number is not None and spacing is not None:
        raise DesignError(f"{number} tails and {spacing:g} mm from tail to tail: give one or the other")
    if number is not None and number < 1:
        raise DesignError(f"{number} tails make no joint; give 1 or more")
    if spacing is not None and not spacing > 0.0:
        raise DesignError(f"tails {spacing:g} mm apart; the spacing must be more than zero")
    if spacing is not None:
        return max(1, round(length / spacing))
    return number or max(1, fewest)


def _cuttable(row: TailRow) -> TailRow:
    """The row itself; raises DesignError where a tail's neck or a pin's tip comes out too narrow."""
    if not 0.0 < row.slope < 1.0:
        raise DesignError(f"a dovetail's slope of {row.slope:g} in 1; give 1/6 in softwood, 1/8 in hardwood")
    tip = min(row.pin - row.flare, 2.0 * row.half_pin - row.flare)
    for what, width in (("the neck of a tail", row.narrow), ("a pin's narrow side", tip)):
        if width < NARROWEST - 1e-9:
            raise DesignError(
                f"{row.number} tails in {row.length:.1f} mm would leave {what} {width:.1f} mm wide; {NARROWEST:g} mm "
                "is the least a chisel clears, so make fewer tails or a flatter slope"
            )
    return row
