"""Arcs of circles in space, many at once, and the ellipses they are seen as.

View coordinates: x right, y up, z toward the eye, mm; angles in radians. No CAD kernel.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from drawings.views.runs import SAME_LINE, Labels
from model.tolerance import FACET

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Arcs:
    """The points centre + x cos t + y sin t for t from `start` to `end`: `centre`, `x` and `y` (n, 3), the last two at
    right angles and as long as the radius; `start` and `end` (n,)."""

    centre: Array
    x: Array
    y: Array
    start: Array
    end: Array

    @classmethod
    def none(cls) -> Arcs:
        """No arcs at all."""
        return cls(*(np.empty((0, 3)) for _ in range(3)), *(np.empty(0) for _ in range(2)))

    @classmethod
    def together(cls, some: Sequence[Arcs]) -> Arcs:
        """Several lots of arcs as one."""
        lots = [cls.none(), *some]
        return cls(*(np.concatenate([getattr(lot, f.name) for lot in lots]) for f in fields(cls)))

    @property
    def radius(self) -> Array:
        """Radii (n,), mm."""
        return np.asarray(np.linalg.norm(self.x, axis=1))

    @property
    def _facets(self) -> Labels:
        """Into how many facets each is divided to stay within the facet tolerance."""
        turn = 2.0 * np.arccos(np.maximum(1.0 - FACET / self.radius, 0.5))
        return np.maximum(1, np.ceil((self.end - self.start) / turn)).astype(np.int64)

    def polylines(self) -> list[Array]:
        """Points (k, 3) of each at even angles, both ends among them, within the facet tolerance."""
        count = self._facets + 1
        which = np.repeat(np.arange(len(count)), count)
        number = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
        t = (self.start[which] + number * ((self.end - self.start) / self._facets)[which])[:, None]
        points = self.centre[which] + self.x[which] * np.cos(t) + self.y[which] * np.sin(t)
        return np.split(points, np.cumsum(count)[:-1]) if len(count) else []

    def stretches(self, which: Labels, spans: Array) -> Arcs:
        """Parts of the arcs picked, each between two places (m, 2) told as spans of its `polylines`."""
        start, step = self.start[which], ((self.end - self.start) / self._facets)[which]
        ends = (start + place * step for place in spans.T)
        return Arcs(self.centre[which], self.x[which], self.y[which], *ends)

    def ellipses(self) -> Array:
        """The rows (n, 7) of `Linework.ellipses` that they are seen as: major axes are level with the view plane."""
        axis, radius = np.cross(self.x, self.y), self.radius
        level = np.hypot(axis[:, 0], axis[:, 1])
        upright = level < 1e-9 * radius**2
        turn = np.where(upright, 0.0, np.arctan2(axis[:, 0], -axis[:, 1]))
        along, minor = np.column_stack([np.cos(turn), np.sin(turn)]), np.abs(axis[:, 2]) / radius
        offset = np.arctan2(*(np.einsum("ij,ij->i", along, side[:, :2]) for side in (self.y, self.x)))
        start, end, turned = self.start - offset, self.end - offset, axis[:, 2] < 0.0
        start, end = np.where(turned, -end, start), np.where(turned, -start, end)
        round_ = radius - minor < SAME_LINE
        half_turns = np.floor(turn / math.pi + 1e-9) * math.pi
        ahead = np.where(round_, turn, half_turns)
        shape = np.where(round_, radius, minor), np.where(round_, 0.0, turn - half_turns)
        return np.column_stack([self.centre[:, :2], radius, *shape, start + ahead, end + ahead])
