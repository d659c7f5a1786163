"""Does a printed value hold for what it measures: within half its last place of what the solids say?"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from drawings.paper.measured import Measured, Shown
from drawings.proof.witness import Witness
from model.order import Order

#: Half the last printed place of each unit that prints decimals, mm.
_HALF_PLACE = {"mm": 0.05, "cm": 0.05, "m": 0.05, "in.dec": 0.0127}
#: What rounding itself may add, mm; and half the last place of an angle, degrees, with it.
ROUNDING, HALF_TENTH = 1e-6, 0.05 + 1e-6

#: A printed value, mm or degrees, and how many times it goes into what is measured.
Value = tuple[float, int]


def half_place(order: Order) -> float:
    """Half the last place that lengths are printed to, mm."""
    return _HALF_PLACE.get(order.units, 25.4 / order.drawing.denominator / 2)


def printed_alike(order: Order) -> float:
    """Lengths no further apart than this may be printed the same, mm."""
    return half_place(order) + ROUNDING


def not_held(
    values: list[Value],
    meanings: Iterable[Measured],
    witness: Witness,
    order: Order,
    sign: Callable[[float], float] = float,
) -> str | None:
    """Why printed values don't hold for all that they measure, on each of the parts; None if they do."""
    for measured in (one for m in meanings for one in _each(m)):
        of = f" on the {measured.shown.subjects[0]}" if measured.shown.subjects else ""
        found = [sign(value) for value in witness.measure(measured)]
        if not found:
            return f"measures nothing that is there{of}"
        rounding = HALF_TENTH if measured.kind == "angle" else printed_alike(order)
        off = _off(values, found, rounding + measured.within)
        if off is not None:
            return f"is {off:.3f}{of}"
    return None


def _off(values: list[Value], found: list[float], allowed: float) -> float | None:
    """What the solid says instead of the first printed value that is not there; None where all are."""
    for value, times in values:
        nearest = min(found, key=lambda f: abs(f / times - value)) / times
        if abs(nearest - value) > allowed:
            return nearest
    return None


def _each(measured: Measured) -> list[Measured]:
    """The meaning for each of its parts alone."""
    shown: Shown = measured.shown
    return [replace(measured, shown=replace(shown, subjects=(name,))) for name in shown.subjects] or [measured]
