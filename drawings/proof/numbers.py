"""The proof pass: every number on the written sheets, measured again on the solids it was printed for.

Dimensions and figures (the numbers of tables, cards and lists) are counted apart. A number that differs from the solid
by more than half its last place, or that says nothing the solid can be asked, is our own mistake.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from drawings.paper.measured import Measured, Shown
from drawings.proof.readings import Reading, readings
from drawings.proof.witness import Witness
from model.checks.finding import Answer, Finding, Proof
from model.errors import LengthError
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

#: Half the last printed place of each unit that prints decimals, mm.
_HALF_PLACE = {"mm": 0.05, "cm": 0.05, "m": 0.05, "in.dec": 0.0127}
#: What rounding itself may add, mm; and half the last place of an angle, degrees.
_ROUNDING, _HALF_TENTH = 1e-6, 0.05 + 1e-9
#: How far a dimension may be drawn from what it measures, mm of the model: the DXF's own digits.
_DRAWN = 1e-4

#: What is proved, of dimensions and of figures.
_WHAT = {
    True: "printed dimensions measured on the solids",
    False: "printed figures of tables, cards and lists measured on the solids",
}
#: Why a printed number is held to the model.
_RULE = "a printed number is within half its last place of the solid (our own rule)"


@dataclass(frozen=True)
class Complaint:
    """A printed number that is not proven: on which sheet, whether a dimension, what it prints and why."""

    file: str
    dimension: bool
    text: str
    why: str

    def __str__(self) -> str:
        return f'{self.file}: "{self.text}" {self.why}'


@dataclass(frozen=True)
class Proved:
    """How many dimensions and figures were checked and held, and a complaint for each that was not proven."""

    dimensions: Proof
    figures: Proof
    complaints: tuple[Complaint, ...]


def numbers_proof(piece: Piece, order: Order, files: Iterable[Path], shapes: dict[str, cq.Shape]) -> Proved:
    """Every number on the sheets in `files`, their DXF, held against the solids. Loads the CAD kernel.

    shapes: the solids where they stand, by name (`model.solids.standing`). Raises ValueError for a file that is no DXF.
    """
    witness, checked, complaints = Witness(piece, shapes), {True: 0, False: 0}, list[Complaint]()
    for path in files:
        found = list(readings(path))
        explained = any(not r.dimension for r in found)
        for reading in (r for r in found if not (r.symbol and explained)):
            checked[reading.dimension] += 1
            complaints += [c for c in [_complaint(reading, witness, order)] if c]
    dimensions, figures = (
        Proof(_WHAT[kind], n, n - sum(c.dimension is kind for c in complaints)) for kind, n in checked.items()
    )
    return Proved(dimensions, figures, tuple(complaints))


def numbers_answer(proved: Sequence[Proved]) -> Answer:
    """The proofs of several lots of sheets added up; a fault for each number that is wrong or could not be proven:
    either is our own mistake, and nobody should cut by it."""
    findings = (Finding("numbers", "fault", (), str(c), 1.0, 0.0, "", _RULE) for one in proved for c in one.complaints)
    return Answer(tuple(findings), (_added(p.dimensions for p in proved), _added(p.figures for p in proved)))


def _added(proofs: Iterable[Proof]) -> Proof:
    each = list(proofs)
    return Proof(each[0].what, sum(p.checked for p in each), sum(p.held for p in each))


def half_place(order: Order) -> float:
    """Half the last place that lengths are printed to, mm."""
    return _HALF_PLACE.get(order.units, 25.4 / order.drawing.denominator / 2)


def _complaint(reading: Reading, witness: Witness, order: Order) -> Complaint | None:
    """Why a printed number does not hold; None if it does."""

    def told(why: str) -> Complaint:
        return Complaint(reading.file, reading.dimension, reading.text, why)

    if not reading.meanings:
        return told("does not say what it measures")
    try:
        values = reading.values(order.units)
    except LengthError:
        return told("can't be read as a length")
    sign: Callable[[float], float] = abs if reading.dimension else float
    for measured in (one for m in reading.meanings for one in _each(m)):
        of = f" on the {measured.shown.subjects[0]}" if measured.shown.subjects else ""
        found = [sign(value) for value in witness.measure(measured)]
        if not found:
            return told(f"measures nothing that is there{of}")
        rounding = _HALF_TENTH if measured.kind == "angle" else half_place(order) + _ROUNDING
        off = _off(values, found, rounding + measured.within)
        if off is not None:
            return told(f"is {off:.3f}{of}")
    drawn = _drawn(reading)
    return told(drawn) if drawn else None


def _off(values: list[tuple[float, int]], found: list[float], allowed: float) -> float | None:
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


def _drawn(reading: Reading) -> str | None:
    """Is the drawn distance what the points are apart?"""
    m = reading.measured
    if m is None or reading.drawn is None:
        return None
    apart = abs((m.q[0] - m.p[0]) * m.along[0] + (m.q[1] - m.p[1]) * m.along[1])
    return (
        None
        if abs(apart - reading.drawn) <= _DRAWN
        else f"is drawn {reading.drawn:.3f} long, but stands for {apart:.3f}"
    )
