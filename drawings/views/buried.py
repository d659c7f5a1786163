"""Which drawn edges are really seen: a second opinion by looking toward the eye.

The kernel's exact hidden-line pass draws some edges that are buried inside closed joints in pictorial views (about
1 % of the line length of a bookcase with stopped dadoes). Here every edge that it calls visible is held against the
facets of all parts, and the stretches that wood covers are found: where on its way an edge is over a facet, and where
the facet is nearer to the eye, are both bounded by planes, so a stretch is cut out exactly, not by trying points.

All coordinates are view coordinates: x right, y up, z toward the eye, mm. No CAD kernel.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drawings.views.axes import facing, height
from drawings.views.chords import Chords, Span
from drawings.views.runs import Runs, joined, uncovered

Array = NDArray[np.float64]
Index = NDArray[np.int64]

#: An edge lies on the faces that meet in it, so facets nearer to it than this do not cover it, mm.
_ON_EDGE = 0.05

#: A look past the edge on either side starts this far from it, in the view plane, mm ...
_ASIDE = 0.2

#: ... and may start this deep in a face that slopes up beside the edge, mm: slopes up to 45 degrees.
_SLOPE_ASIDE = 0.2

#: No shorter stretch is cut out of an edge, and none is left of one that is, mm. An arc that goes under where it
#: touches the covering face lies within `_ON_EDGE` of it for the first few millimetres.
_WORTH_CUTTING, _WORTH_LEAVING = 0.5, 2.0

#: An edge this near a facet's outline is still over it, mm.
_ON_OUTLINE = 1e-6

#: Long edges are held against the facets in steps of this, mm, lest each be held against all that lie round it.
_STEP = 150.0


class Occluders:
    """Facets (n, 3, 3) of everything that may stand before an edge, anticlockwise as seen from outside.

    Only facets that face the eye are kept: a ray that enters wood leaves it again through one of them.
    """

    def __init__(self, facets: Array) -> None:
        from shapely import STRtree

        before = facets.take(np.flatnonzero(facing(facets)), axis=0)
        a, b, c = (before[:, n] for n in range(3))
        low, high = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
        self._top = high[:, 2]
        self._bounds = [_above(before), *(_inward(p, q) for p, q in ((a, b), (b, c), (c, a)))]
        self._boxes = STRtree(_boxes(low, high))

    def partly_seen(self, polylines: Sequence[Array]) -> dict[int, list[Span]]:
        """The polylines (k, 3) that are not seen from end to end, by number: the stretches that are, in order.

        A place counts as seen if it is seen itself, or if the view just beside it is free: a hollow's outline may
        lie a facet's sagitta inside the facets.
        """
        if not polylines:
            return {}
        chords = Chords.from_polylines(polylines)
        steps = chords.stepped(_STEP)
        near = self._near(steps)
        buried = _worth_cutting(self._covered(steps, near, _ON_EDGE))
        near = near[:, np.isin(steps.owner[near[0]], buried.carrier)]
        for side in (_ASIDE, -_ASIDE):
            beside = self._covered(steps.shifted(side), near, _SLOPE_ASIDE)
            buried = uncovered(buried, uncovered(buried, beside))
        return _left_over(chords, _worth_cutting(buried))

    def _near(self, steps: Chords) -> Index:
        """Columns (2, n) of a step and a facet that may lie before it, or before the view just beside it."""
        low, high = np.minimum(steps.start, steps.end), np.maximum(steps.start, steps.end)
        step, facet = self._boxes.query(_boxes(low - _ASIDE, high + _ASIDE))
        return np.stack([step, facet])[:, self._top[facet] > low[step, 2] + _ON_EDGE]

    def _covered(self, steps: Chords, near: Index, clearance: float) -> Runs:
        """The stretches that a facet covers, more than `clearance` mm before them; joined."""
        (step, facet), enters, leaves = near, np.zeros(near.shape[1]), np.ones(near.shape[1])
        start, end = (np.insert(ends, 3, 1.0, axis=1) for ends in (steps.start, steps.end))
        # One in thirty facets near a step covers it, so each bound has only those to try that the last has left.
        for bound, margin in zip(self._bounds, [-clearance, *[_ON_OUTLINE] * 3], strict=True):
            plane = bound.take(facet, axis=0)
            a, b = (np.einsum("ij,ij->i", plane, ends.take(step, axis=0)) + margin for ends in (start, end))
            crossing = a / np.where(a == b, 1.0, a - b)
            enters = np.maximum(enters, np.where(a < 0.0, np.where(b < 0.0, 1.0, crossing), 0.0))
            leaves = np.minimum(leaves, np.where((b < 0.0) & (a >= 0.0), crossing, 1.0))
            over = enters < leaves
            step, facet, enters, leaves = step[over], facet[over], enters[over], leaves[over]
        return joined(steps.runs(step, enters, leaves))


def _worth_cutting(runs: Runs) -> Runs:
    return runs.only(runs.end - runs.start > _WORTH_CUTTING)


def _left_over(chords: Chords, buried: Runs) -> dict[int, list[Span]]:
    """The stretches of each broken polyline that are left and worth drawing."""
    broken = np.unique(buried.carrier)
    seen = uncovered(chords.of(broken).whole(), buried)
    left: dict[int, list[Span]] = {owner: [] for owner in broken.tolist()}
    worth = seen.only(seen.end - seen.start > _WORTH_LEAVING)
    for owner, (start, end) in zip(worth.carrier.tolist(), chords.spans(worth).tolist(), strict=True):
        left[owner].append((start, end))
    return left


def _boxes(low: Array, high: Array) -> NDArray[Any]:
    """Upright boxes in the view plane from their least and greatest corners (n, 3), each as its diagonal: a tree knows
    things by their boxes only."""
    from shapely import linestrings

    return np.asarray(linestrings(np.stack([low[:, :2], high[:, :2]], axis=1)))


def _above(facets: Array) -> Array:
    """Rows (n, 4) that give, with a place's x, y, z and 1, how far a facet's plane is above the place."""
    return np.insert(height(facets), 2, -1.0, axis=1)


def _inward(p: Array, q: Array) -> Array:
    """Rows (n, 4) that give how far a place is to the left of the way from p to q, in the view plane, mm."""
    way = q[:, :2] - p[:, :2]
    left = np.column_stack([-way[:, 1], way[:, 0]]) / np.maximum(np.hypot(*way.T), 1e-12)[:, None]
    return np.column_stack([left, np.zeros(len(left)), -np.einsum("ij,ij->i", left, p[:, :2])])
