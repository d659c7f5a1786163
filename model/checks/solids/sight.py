"""What does a straight line of sight meet first, among all the parts of a piece?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.checks.solids.cast import Numbers
from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import StoodSolid
from model.placement import Vector

#: A line this nearly along a facet does not cross it (as the sine).
GRAZING = 1e-9

#: How far outside a facet, as a share of it, a line still counts as crossing it: no line slips between two.
SLACK = 1e-7

#: A facet this far behind a line's start, mm, is ahead of it: where the eye is right on the wood, wood is in its way.
BEHIND = 1e-6


@dataclass(frozen=True, eq=False)
class Sight:
    """Facets to look at, corners (n, 3, 3) in the piece; curved ones stray a little (facets.COARSE)."""

    corners: Numbers

    def near(self, points: Iterable[Vector], reach: float) -> Sight:
        """Those within reach of any of the points, by their bounds."""
        p = np.array(list(points))
        low, high = p.min(axis=0) - reach, p.max(axis=0) + reach
        return Sight(self.corners[((self._high > low) & (self._low < high)).all(axis=1)])

    def free(self, start: Vector, directions: Sequence[Vector]) -> Numbers:
        """How far one sees from a point along each unit direction (n,), mm: to the first wood ahead; infinite where
        there is none, 0 where the point itself lies in wood."""
        return self._free(np.array(start), np.array(directions))

    @cached_property
    def _low(self) -> Numbers:
        least: Numbers = self.corners.min(axis=1)
        return least

    @cached_property
    def _high(self) -> Numbers:
        most: Numbers = self.corners.max(axis=1)
        return most

    @cached_property
    def _sides(self) -> tuple[Numbers, Numbers, Numbers, Numbers]:
        """Two sides of each facet, its normal as long as twice its area, and that length."""
        a, b = (self.corners[:, k] - self.corners[:, 0] for k in (1, 2))
        normal = np.cross(a, b)
        return a, b, normal, np.linalg.norm(normal, axis=1)

    def _free(self, start: Numbers, ways: Numbers) -> Numbers:
        """T. Moeller, B. Trumbore, Fast, minimum storage ray/triangle intersection, Journal of Graphics Tools, 1997."""
        a, b, normal, size = self._sides
        off = self.corners[:, 0] - start
        slope = ways @ normal.T
        turned = np.cross(off[None], ways[:, None])
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            travel = np.einsum("nc,nc->n", off, normal) / slope
            u = np.einsum("nc,knc->kn", b, turned) / slope
            v = -np.einsum("nc,knc->kn", a, turned) / slope
            crossed = (np.abs(slope) > GRAZING * size) & (u > -SLACK) & (v > -SLACK) & (u + v < 1.0 + SLACK)
        travel = np.where(crossed & (travel > -BEHIND), travel, np.inf)
        if not travel.shape[1]:
            return np.full(len(ways), np.inf)
        nearest = travel.argmin(axis=1)[:, None]
        first, leaving = np.take_along_axis(travel, nearest, 1), np.take_along_axis(slope, nearest, 1) > 0.0
        free: Numbers = np.where(leaving & np.isfinite(first), 0.0, np.maximum(first, 0.0))[:, 0]
        return free


def sight_of(solids: Mapping[str, StoodSolid]) -> Sight:
    """All the parts of a piece where they stand."""
    at = [np.array([s.at.x, s.at.y, s.at.z]) for s in solids.values()]
    stood = [facets(s.own).corners @ axes + s.at.origin for s, axes in zip(solids.values(), at, strict=True)]
    return Sight(np.concatenate(stood) if stood else np.empty((0, 3, 3)))
