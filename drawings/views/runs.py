"""Stretches of one line: intervals on numbered carriers, joined where they meet, subtracted where they overlap.

A carrier is whatever the stretches lie along, a straight line or a circle, and its measure is in mm. The same few
steps then serve all of them, for thousands of stretches at once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Labels = NDArray[np.int64]

#: Do two drawn curves lie on one another, and do two ends meet? Nothing this small shows on paper, mm.
SAME_LINE = 1e-3


@dataclass
class Runs:
    """Intervals `start` to `end` (n,), each on the carrier numbered in `carrier` (n,)."""

    carrier: Labels
    start: Array
    end: Array

    def only(self, which: NDArray[np.bool_]) -> Runs:
        """The runs picked by a mask (n,)."""
        return Runs(self.carrier[which], self.start[which], self.end[which])

    def rows(self) -> Iterable[tuple[int, float, float]]:
        """Each run as carrier, start, end."""
        return zip(self.carrier.tolist(), self.start.tolist(), self.end.tolist(), strict=True)


def joined(runs: Runs) -> Runs:
    """Runs that overlap or meet become one; the result is sorted by carrier and start."""
    if not len(runs.carrier):
        return runs
    order = np.lexsort((runs.start, runs.carrier))
    carrier, start, end = runs.carrier[order], runs.start[order], runs.end[order]
    shift = carrier * _span(start, end)
    reach = np.maximum.accumulate(end + shift)
    opens = np.ones(len(start), dtype=bool)
    opens[1:] = (start + shift)[1:] > reach[:-1] + SAME_LINE
    first = np.flatnonzero(opens)
    return Runs(carrier[first], start[first], np.maximum.reduceat(end, first))


def uncovered(runs: Runs, cover: Runs) -> Runs:
    """What is left of joined runs where no joined run of `cover` lies on the same carrier."""
    if not len(runs.carrier) or not len(cover.carrier):
        return runs
    carrier = np.concatenate([runs.carrier, runs.carrier, cover.carrier, cover.carrier])
    place = np.concatenate([runs.start, runs.end, cover.start, cover.end])
    n, m = len(runs.carrier), len(cover.carrier)
    own_step = np.repeat([1, -1, 0, 0], [n, n, m, m])
    cover_step = np.repeat([0, 0, 1, -1], [n, n, m, m])
    order = np.lexsort((place, carrier))
    carrier, place = carrier[order], place[order]
    bare = (np.cumsum(own_step[order]) > 0) & (np.cumsum(cover_step[order]) == 0)
    pieces = Runs(carrier[:-1], place[:-1], place[1:])
    return pieces.only(bare[:-1] & (pieces.end - pieces.start > SAME_LINE))


def seen_and_unseen(runs: Runs, is_hidden: NDArray[np.bool_]) -> tuple[Runs, Runs]:
    """Runs that are drawn visible, and hidden ones where no visible one covers them; both joined."""
    seen = joined(runs.only(~is_hidden))
    return seen, uncovered(joined(runs.only(is_hidden)), seen)


def _span(start: Array, end: Array) -> float:
    """A distance wider than everything, to set carriers apart on one number line."""
    return float(end.max() - start.min()) + 1.0


def refined(labels: Labels, values: Array, tolerance: float) -> Labels:
    """Labels split further wherever sorted `values` of one label leave a gap wider than `tolerance`."""
    order = np.lexsort((values, labels))
    breaks = (np.diff(labels[order]) != 0) | (np.diff(values[order]) > tolerance)
    finer = np.empty(len(values), dtype=np.int64)
    finer[order] = np.concatenate([[0], np.cumsum(breaks)])
    return finer


def mean_of(labels: Labels, values: Array, weights: Array) -> Array:
    """The weighted mean of `values` over each label."""
    total = np.bincount(labels, weights)
    return np.asarray(np.bincount(labels, values * weights) / total)
