"""The proof pass: every number on the written sheets, measured again on the solids it was printed for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from drawings.paper.measured import Measured, Shown, Vector
from drawings.proof.features import Features, together
from drawings.proof.readings import Reading, readings
from model.checks.finding import Proof
from model.errors import LengthError
from model.order import Order
from model.part import Part
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

#: Half the last printed place of each unit that prints decimals, mm.
_HALF_PLACE = {"mm": 0.05, "cm": 0.05, "m": 0.05, "in.dec": 0.0127}
#: What rounding itself may add, mm; and half the last place of an angle, degrees.
_ROUNDING, _HALF_TENTH = 1e-6, 0.05 + 1e-9
#: How far a dimension may be drawn from what it measures, mm of the model: the DXF's own digits.
_DRAWN = 1e-4


#: Complaints that speak of what could not be proven, not of what is wrong.
_UNSAID, _NOTHING = "does not say what it measures", "measures nothing that is there"


@dataclass(frozen=True)
class Proved:
    """What the proof pass found: the count, and a sentence for each number that does not hold.

    wrong: those of the complaints where the solid says otherwise; the rest could not be held against it.
    """

    proof: Proof
    complaints: tuple[str, ...]
    wrong: tuple[str, ...] = ()


def numbers_proof(piece: Piece, order: Order, files: Iterable[Path], shapes: dict[str, cq.Shape]) -> Proved:
    """Every number on the sheets in `files`, their DXF, held against the solids. Loads the CAD kernel.

    shapes: the solids where they stand, by name (`model.solids.standing`).
    """
    witness = _Witness(piece, shapes)
    checked, complaints, wrong = 0, [], []
    for path in files:
        found = list(readings(path))
        explained = any(not r.dimension for r in found)
        for reading in found:
            if reading.symbol and explained:
                continue
            checked += 1
            told = witness.complaint(reading, order)
            if told:
                complaints.append(f'{path.name}: "{reading.text}" {told}')
                wrong += [] if told.startswith((_UNSAID, _NOTHING)) else complaints[-1:]
    proof = Proof("printed dimensions measured on the solids", checked, checked - len(complaints))
    return Proved(proof, tuple(complaints), tuple(wrong))


def half_place(order: Order) -> float:
    """Half the last place that lengths are printed to, mm."""
    return _HALF_PLACE.get(order.units, 25.4 / order.drawing.denominator / 2)


class _Witness:
    """The solids, and what has been found on them already."""

    def __init__(self, piece: Piece, shapes: dict[str, cq.Shape]) -> None:
        self._piece = piece
        self._shapes = shapes
        self.features: Callable[[Shown], Features] = cache(self._features)
        self._solid: Callable[[str], cq.Shape] = cache(self._solid_of)

    def complaint(self, reading: Reading, order: Order) -> str | None:
        """Why a printed number does not hold; None if it does."""
        if reading.measured is None:
            return _UNSAID
        try:
            values = reading.values(order.units)
        except LengthError:
            return "can't be read as a length"
        sign = abs if reading.dimension else float
        told = (
            self._held(values, replace(reading.measured, shown=one), order, sign)
            for one in _each(reading.measured.shown)
        )
        return next((t for t in (*told, _drawn(reading)) if t), None)

    def _held(
        self, values: list[tuple[float, int]], measured: Measured, order: Order, sign: Callable[[float], float]
    ) -> str | None:
        """sign: a dimension has none; a table's place on the near side of the datum is printed with its own."""
        allowed = _HALF_TENTH if measured.kind == "angle" else half_place(order) + _ROUNDING
        found = [sign(value) for value in self._measure(measured)]
        of = f" on the {measured.shown.subjects[0]}" if measured.shown.subjects else ""
        if not found:
            return f"{_NOTHING}{of}"
        for value, times in values:
            nearest = min(found, key=lambda f: abs(f / times - value))
            if abs(nearest / times - value) > allowed:
                return f"is {nearest / times:.3f}{of}"
        return None

    def _measure(self, m: Measured) -> Iterator[float]:
        """What the solid itself has to say; nothing where the features are not found."""
        if m.kind == "extent":
            yield self._extent(m.shown, m.along)
            return
        found = self.features(m.shown)
        if m.kind == "angle":
            turned = found.angle(m.p, *m.along)
            if turned is not None:
                yield turned
        elif m.kind == "length":
            strict = bool(m.shown.subjects)
            p, q = found.station(m.p, m.along, strict), found.station(m.q, m.along, strict)
            if p is not None and q is not None:
                yield q - p
        elif m.kind == "depth":
            yield from found.depths(m.p, m.along[0])
        else:
            yield from (r * (2 if m.kind == "diameter" else 1) for r in found.radii(m.p))

    def _extent(self, shown: Shown, along: tuple[float, float]) -> float:
        from drawings.proof.measurable import extent

        right, up = shown.right, shown.up
        way: Vector = (
            right[0] * along[0] + up[0] * along[1],
            right[1] * along[0] + up[1] * along[1],
            right[2] * along[0] + up[2] * along[1],
        )
        return extent(self._solids(shown), way)

    def _features(self, shown: Shown) -> Features:
        from drawings.proof.measurable import measurable
        from drawings.proof.sectioned import cut_features
        from drawings.proof.seen import seen_features

        if shown.at is not None:
            return together(cut_features(s, shown) for s in self._solids(shown))
        return together(seen_features(measurable(s), shown) for s in self._solids(shown))

    def _solids(self, shown: Shown) -> list[cq.Shape]:
        """The part as it is cut, flat; or everything where it stands."""
        if not shown.subjects:
            return list(self._shapes.values())
        return [self._solid(name) for name in shown.subjects]

    def _solid_of(self, name: str) -> cq.Shape:
        from model.solids import solid

        part = self._piece[name].part
        return solid(replace(part, bend=None) if isinstance(part, Part) and part.bend else part)


def _each(shown: Shown) -> list[Shown]:
    """The view for each of its parts alone."""
    return [replace(shown, subjects=(name,)) for name in shown.subjects] or [shown]


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
