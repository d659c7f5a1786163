"""Where the faces of a part lie by the numbers printed for it: stations along its length, its width and its thickness.

Each printed length says how far two stations lie apart; from the datum, every station that a chain of them reaches is
known. Of several chains the shortest is believed, as a maker would who lets roundings add up as little as may be.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from drawings.paper.measured import Measured, Vector
from drawings.proof.readings import Reading
from model.errors import LengthError

#: Two stations are one within this, mm: far finer than any printed place.
THERE = 1e-3
_ALIGNED = 1e-9

#: From and to, mm, and the printed distance between them.
Step = tuple[float, float, float]


@dataclass(frozen=True)
class Stations:
    """Along one axis of a part (0 length, 1 width, 2 thickness): its two ends, and the printed steps."""

    axis: int
    ends: tuple[float, float]
    steps: tuple[Step, ...]
    _known: dict[int, dict[int, float]] = field(default_factory=dict, compare=False)

    @classmethod
    def of(cls, axis: int, ends: tuple[float, float], readings: Iterable[Reading], part: str, unit: str) -> Stations:
        """All that the readings for a part say along one axis; ends: of the part, true mm."""
        found = (
            step
            for reading in readings
            for measured in reading.meanings
            if part in measured.shown.subjects
            for step in _steps(reading, measured, axis, ends, unit)
        )
        return cls(axis, ends, tuple(found))

    def apart(self, start: float, end: float) -> float | None:
        """How far from one station to another by the printed numbers, mm; None where no chain of them leads there."""
        known = self._from(start)
        return known.get(_key(end), known.get(_key(end) + 1, known.get(_key(end) - 1)))

    def _from(self, start: float) -> dict[int, float]:
        """Every station that can be reached from one, by the fewest steps."""
        first = _key(start)
        if first not in self._known:
            known, waiting = {first: 0.0}, deque([first])
            for near in (first - 1, first + 1):  # the same station in another rounding
                known[near] = 0.0
                waiting.append(near)
            while waiting:
                here = waiting.popleft()
                for there, distance in self._near.get(here, ()):
                    for key in (there, there - 1, there + 1):
                        if key not in known:
                            known[key] = known[here] + distance
                            waiting.append(key)
            self._known[first] = known
        return self._known[first]

    @cached_property
    def _near(self) -> dict[int, list[tuple[int, float]]]:
        near: dict[int, list[tuple[int, float]]] = {}
        for start, end, distance in self.steps:
            near.setdefault(_key(start), []).append((_key(end), distance))
            near.setdefault(_key(end), []).append((_key(start), -distance))
        return near


def _key(station: float) -> int:
    return round(station / THERE)


def _steps(reading: Reading, measured: Measured, axis: int, ends: tuple[float, float], unit: str) -> Iterator[Step]:
    """What one printed number says along an axis; nothing if it says nothing of it."""
    if measured.kind not in ("length", "extent"):
        return
    way = _way(measured)
    if abs(abs(way[axis]) - 1.0) > _ALIGNED:
        return
    sign = 1.0 if way[axis] > 0.0 else -1.0
    if measured.kind == "extent":
        start, end = ends
    else:
        start, end = (sign * (p[0] * measured.along[0] + p[1] * measured.along[1]) for p in (measured.p, measured.q))
    yield from _told(reading, start, end, unit)


def _told(reading: Reading, start: float, end: float, unit: str) -> Iterator[Step]:
    """The steps between two stations, of which a reading may tell several equal ones."""
    try:
        values = reading.values(unit)
    except LengthError:  # a letter that stands for a column of a table
        return
    forward = 1.0 if end >= start else -1.0
    for printed, times in values:
        # a table's place on the near side of the datum is printed with its own sign, which the drawing shows too
        each = forward * abs(printed)
        for n in range(times):
            a, b = (start + (end - start) * k / times for k in (n, n + 1))
            yield a, b, each


def _way(measured: Measured) -> Vector:
    """The direction that a number is measured along, in the part's own frame."""
    (u, v), right, up = measured.along, measured.shown.right, measured.shown.up
    return u * right[0] + v * up[0], u * right[1] + v * up[1], u * right[2] + v * up[2]
