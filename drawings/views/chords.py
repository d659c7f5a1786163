"""The straight stretches that polylines in space are made of, many polylines at once. View coordinates, mm.

Places on a polyline are told in two ways: by its length up to there, and as a span counts, where 2.5 is half way
between points 2 and 3. No CAD kernel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from drawings.views.runs import Labels, Runs

Array = NDArray[np.float64]

#: Stretch of a polyline kept, from one place to another; place 2.5 is half way between points 2 and 3.
Span = tuple[float, float]


@dataclass(frozen=True)
class Chords:
    """From `start` (n, 3) to `end`; `owner` (n,) says of which polyline, `along` (n,) its length up to the start."""

    owner: Labels
    start: Array
    end: Array
    along: Array

    @classmethod
    def from_polylines(cls, polylines: Sequence[Array]) -> Chords:
        """All chords of polylines (k, 3), in order."""
        corners = np.concatenate(polylines)
        label = np.repeat(np.arange(len(polylines)), [len(points) for points in polylines])
        within = label[1:] == label[:-1]
        start, end, owner = corners[:-1][within], corners[1:][within], label[1:][within]
        length = np.linalg.norm(end - start, axis=1)
        before = np.cumsum(length) - length
        first = np.searchsorted(owner, owner)
        return cls(owner, start, end, before - before[first])

    @property
    def length(self) -> Array:
        """Length of each chord in space (n,), mm."""
        return np.asarray(np.linalg.norm(self.end - self.start, axis=1))

    def of(self, owners: Labels) -> Chords:
        """The chords of some polylines only."""
        return self._picked(np.flatnonzero(np.isin(self.owner, owners)))

    def _picked(self, which: Labels) -> Chords:
        return Chords(self.owner[which], self.start[which], self.end[which], self.along[which])

    def stepped(self, longest: float) -> Chords:
        """The same way in chords of no more than so many mm."""
        count = np.maximum(1, np.ceil(self.length / longest)).astype(np.int64)
        which = np.repeat(np.arange(len(count)), count)
        number = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
        share, step = number / count[which], 1.0 / count[which]
        start, way = self.start[which], (self.end - self.start)[which]
        begin, finish = start + way * share[:, None], start + way * (share + step)[:, None]
        return Chords(self.owner[which], begin, finish, self.along[which] + share * self.length[which])

    def shifted(self, aside: float) -> Chords:
        """All of them moved so far to their own left in the view plane, mm; those seen end-on stay."""
        way = (self.end - self.start)[:, :2]
        left = np.column_stack([-way[:, 1], way[:, 0], np.zeros(len(way))])
        move = aside * left / np.maximum(np.hypot(*way.T), 1e-12)[:, None]
        return replace(self, start=self.start + move, end=self.end + move)

    def runs(self, which: Labels, start: Array, end: Array) -> Runs:
        """Stretches of the chords picked, between shares of each, as runs along their polylines."""
        length = self.length[which]
        return Runs(self.owner[which], self.along[which] + start * length, self.along[which] + end * length)

    def whole(self) -> Runs:
        """Each polyline from end to end."""
        last = np.flatnonzero(np.append(np.diff(self.owner) != 0, True)) if len(self.owner) else np.empty(0, np.int64)
        return Runs(self.owner[last], np.zeros(len(last)), self.along[last] + self.length[last])

    def spans(self, runs: Runs) -> Array:
        """Stretches of the polylines, told by length, as spans (n, 2) of their points."""
        apart = float((self.along + self.length).max(initial=0.0)) + 1.0
        first, begins = np.searchsorted(self.owner, runs.carrier), self.owner * apart + self.along

        def place(along: Array) -> Array:
            chord = np.searchsorted(begins, runs.carrier * apart + along, side="right") - 1
            share = (along - self.along[chord]) / np.maximum(self.length[chord], 1e-12)
            return np.asarray(np.maximum(chord - first + np.minimum(share, 1.0), 0.0))

        return np.column_stack([place(runs.start), place(runs.end)])
