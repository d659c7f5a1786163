"""The numbers that the sheets print for one part, to be asked for by what they measure."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.measured import Kind, Vector
from drawings.proof.held import HALF_TENTH, ROUNDING
from drawings.proof.readings import Reading
from drawings.proof.stations import THERE, Stations
from model.errors import DesignError
from model.layout.outline import Edge

_X: Vector = (1.0, 0.0, 0.0)
_Y: Vector = (0.0, 1.0, 0.0)
#: Kinds of size that a plan, too, shows true.
_OF_THE_PLAN = ("diameter", "depth", "height", "angle")
_AXES = ("along the part", "across it", "up from its back side")


class IncompleteError(DesignError):
    """A sheet from which the part can't be made: a number is missing."""


#: The least corner of a part and the greatest, true mm.
Ends = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Numbers:
    """What is printed for a part of these ends; everything is measured from the least corner, and the back side."""

    part: str
    readings: tuple[Reading, ...]
    unit: str
    half_place: float
    ends: Ends

    @classmethod
    def of(cls, part: str, readings: Iterable[Reading], unit: str, half_place: float, ends: Ends) -> Numbers:
        """Those of the readings that hold for a part, by its name."""
        own = (r for r in readings if any(part in m.shown.subjects for m in r.meanings))
        return cls(part, tuple(own), unit, half_place, ends)

    @cached_property
    def _stations(self) -> tuple[Stations, Stations, Stations]:
        along, across, up = (
            Stations.of(axis, self.ends[axis], self.readings, self.part, self.unit) for axis in range(3)
        )
        return along, across, up

    def place(self, axis: int, value: float) -> float:
        """The printed place of a station along the part (axis 0), across it (1) or up from its back side (2), mm."""
        datum = self.ends[axis][0]
        return datum if abs(value - datum) < THERE else datum + self.apart(axis, datum, value)

    def apart(self, axis: int, start: float, end: float) -> float:
        """The printed distance from one station to another, mm, negative if it leads back."""
        found = self._stations[axis].apart(start, end)
        if found is None:
            raise IncompleteError(f"{self.part}: nothing on its sheet locates {end:.3f} mm {_AXES[axis]}")
        return found

    def extent(self, axis: int) -> float:
        """The printed length (0), width (1) or thickness (2)."""
        return abs(self.apart(axis, *self.ends[axis]))

    def radius(self, edge: Edge) -> float:
        """The printed radius of an arc of the plan; of arcs about one centre the one that is nearest."""
        about = [
            abs(self._value(r))
            for r in self.readings
            for m in r.meanings
            if m.kind == "radius" and m.shown.up == _Y and math.dist(m.p, edge.centre) < THERE
        ]
        near = [r for r in about if abs(r - edge.radius) <= self.half_place + ROUNDING]
        if not near:
            x, y = edge.centre
            raise IncompleteError(
                f"{self.part}: the radius {edge.radius:.1f} mm about ({x:.1f}, {y:.1f}) is not printed"
            )
        return near[0]

    def size(self, value: float, *kinds: Kind) -> float:
        """A size of a cut as it is printed: in a view or section that shows the thickness, or in a table."""
        for reading in self.readings:
            for m in reading.meanings:
                plan = (m.shown.right, m.shown.up) == (_X, _Y) and m.kind not in _OF_THE_PLAN
                if m.kind in kinds and not plan and self.part in m.shown.subjects:
                    allowed = HALF_TENTH if m.kind == "angle" else self.half_place + ROUNDING
                    near = [abs(v) for v, _ in reading.values(self.unit) if abs(abs(v) - abs(value)) <= allowed]
                    if near:
                        return near[0]
        raise IncompleteError(f"{self.part}: a size of {value:.3f} mm is not printed on its sheet")

    def _value(self, reading: Reading) -> float:
        return reading.values(self.unit)[0][0]
