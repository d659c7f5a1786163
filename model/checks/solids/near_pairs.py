"""Which parts stand near enough to each other to need a close look: boxes only, no CAD kernel.

Every box here holds all of its part. Where two boxes run into each other by `deeper` or less along some direction, any
wood the parts share lies in a slice no thicker than that, so passing the pair over hides nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from model.placement import Placement, Vector

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True)
class StoodBox:
    """A box in a part's own frame, from its `low` corner to its `high` one, mm, and where that frame stands."""

    low: Vector
    high: Vector
    at: Placement


def near_pairs(boxes: Sequence[StoodBox], deeper: float) -> list[tuple[int, int]]:
    """Pairs (i, j), i < j, in order, whose boxes run more than `deeper` mm into each other.

    First the boxes upright round each part, swept along x; then the parts' own boxes, tried along the fifteen
    directions that can part two boxes (S. Gottschalk, M. Lin, D. Manocha, OBBTree, SIGGRAPH 1996, section 5).
    """
    if len(boxes) < 2:
        return []
    middles, halves, axes = _arrays(boxes)
    first, second = _swept(middles, np.einsum("nkc,nk->nc", np.abs(axes), halves), deeper)
    kept = ~_parted(middles, halves, axes, first, second, deeper)
    return sorted((int(min(i, j)), int(max(i, j))) for i, j in zip(first[kept], second[kept], strict=True))


def _arrays(boxes: Sequence[StoodBox]) -> tuple[Numbers, Numbers, Numbers]:
    """Middles (n, 3), half sizes (n, 3) and own axes (n, 3, 3), one axis a row."""
    low, high = np.array([b.low for b in boxes]), np.array([b.high for b in boxes])
    axes = np.array([(b.at.x, b.at.y, b.at.z) for b in boxes])
    origins = np.array([b.at.origin for b in boxes])
    middles = origins + np.einsum("nk,nkc->nc", (low + high) / 2.0, axes)
    return middles, (high - low) / 2.0, axes


def _swept(middles: Numbers, reach: Numbers, deeper: float) -> tuple[Indices, Indices]:
    """Pairs whose upright boxes run into each other, by sorting along x and looking no further than each box goes."""
    low, high = middles - reach, middles + reach
    order = np.argsort(low[:, 0], kind="stable")
    ends = np.searchsorted(low[order, 0], high[order, 0] - deeper)
    counts = np.maximum(ends - np.arange(len(order)) - 1, 0)
    ahead = np.repeat(np.arange(len(order)), counts)
    steps = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    first, second = order[ahead], order[ahead + 1 + steps]
    into = np.minimum(high[first], high[second]) - np.maximum(low[first], low[second])
    kept = np.all(into > deeper, axis=1)
    return first[kept], second[kept]


def _parted(
    middles: Numbers, halves: Numbers, axes: Numbers, first: Indices, second: Indices, deeper: float
) -> NDArray[np.bool_]:
    """Whether some direction parts the own boxes of each pair, up to `deeper` mm."""
    apart = middles[second] - middles[first]
    found = np.zeros(len(first), dtype=bool)
    for direction in _directions(axes[first], axes[second]):
        length = np.linalg.norm(direction, axis=1)
        sound = length > 1e-6  # two axes that run alike have no cross product
        unit = direction / np.where(sound, length, 1.0)[:, None]
        reach = _reach(halves[first], axes[first], unit) + _reach(halves[second], axes[second], unit)
        into = reach - np.abs(np.einsum("nc,nc->n", apart, unit))
        found |= sound & (into <= deeper)
    return found


def _directions(a: Numbers, b: Numbers) -> Iterator[Numbers]:
    for k in range(3):
        yield a[:, k]
        yield b[:, k]
    for k, m in product(range(3), range(3)):
        yield np.cross(a[:, k], b[:, m])


def _reach(halves: Numbers, axes: Numbers, unit: Numbers) -> Numbers:
    return np.einsum("nk,nk->n", halves, np.abs(np.einsum("nkc,nc->nk", axes, unit)))
