"""Edges in space, turned into the view's axes, and the flat lines they are drawn as.

View coordinates: x right, y up, z toward the eye, mm. A line seen end-on vanishes; a circle is drawn as a circle,
an ellipse or, edge-on, a straight line. No CAD kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drawings.views.buried import Occluders
from drawings.views.chords import Span
from drawings.views.merge import Linework
from drawings.views.runs import SAME_LINE
from model.tolerance import FACET

Array = NDArray[np.float64]


@dataclass(frozen=True)
class CircleEdge:
    """The points centre + x cos t + y sin t for t from `start` to `end` radians; x and y (3,) as long as the radius."""

    centre: Array
    x: Array
    y: Array
    start: float
    end: float

    @property
    def radius(self) -> float:
        """Radius, mm."""
        return float(np.linalg.norm(self.x))

    def points(self) -> Array:
        """Points (k, 3) at even angles, with facets within the facet tolerance."""
        step = 2 * math.acos(max(1.0 - FACET / self.radius, 0.5))
        t = np.linspace(self.start, self.end, max(2, math.ceil((self.end - self.start) / step) + 1))[:, None]
        return np.asarray(self.centre + self.x * np.cos(t) + self.y * np.sin(t))

    def part(self, span: Span, count: int) -> CircleEdge:
        """The stretch of the arc between two places on its `count` points."""
        step = (self.end - self.start) / (count - 1)
        return CircleEdge(self.centre, self.x, self.y, self.start + span[0] * step, self.start + span[1] * step)


@dataclass(frozen=True)
class EdgesInView:
    """Edges in view coordinates: `lines` (n, 2, 3), circles, and other curves as polylines (k, 3)."""

    lines: Array
    circles: list[CircleEdge] = field(default_factory=list)
    free: list[Array] = field(default_factory=list)

    def unburied(self, occluders: Occluders) -> EdgesInView:
        """The stretches of these edges that have no wood before them."""
        arcs = [circle.points() for circle in self.circles]
        broken = occluders.partly_seen([*self.lines, *arcs, *self.free])
        if not broken:
            return self
        first_arc, first_free = len(self.lines), len(self.lines) + len(arcs)
        whole = [n for n in range(first_arc) if n not in broken]
        parts = [_line_part(line, span) for n, line in enumerate(self.lines) for span in broken.get(n, ())]
        circles = [
            kept
            for n, (circle, arc) in enumerate(zip(self.circles, arcs, strict=True), first_arc)
            for kept in ([circle.part(span, len(arc)) for span in broken[n]] if n in broken else [circle])
        ]
        free = [
            kept
            for n, points in enumerate(self.free, first_free)
            for kept in ([_part(points, span) for span in broken[n]] if n in broken else [points])
        ]
        return EdgesInView(np.concatenate([self.lines[whole], np.array(parts).reshape(-1, 2, 3)]), circles, free)

    def drawn_length(self) -> float:
        """Length of all edges as they appear in the view, doubles counted, mm."""
        polylines = [*self.lines, *(circle.points() for circle in self.circles), *self.free]
        return sum(float(np.linalg.norm(np.diff(points[:, :2], axis=0), axis=1).sum()) for points in polylines)

    def linework(self) -> Linework:
        """The edges as drawn."""
        rows = [_ellipse(circle) for circle in self.circles]
        ellipses = [row for row in rows if row[3] >= SAME_LINE]
        straight = [_edge_on(row) for row in rows if row[3] < SAME_LINE]
        chains = []
        for points in self.free:
            line = _straight(points[:, :2])
            if line is None:
                chains.append(points[:, :2])
            else:
                straight.append(line)
        segments = np.concatenate([self.lines[:, :, :2].reshape(-1, 4), np.array(straight).reshape(-1, 4)])
        return Linework(segments, np.array(ellipses).reshape(-1, 7), chains)


def _ellipse(circle: CircleEdge) -> tuple[float, ...]:
    """The row of `Linework.ellipses` that a circle is seen as: its major axis is level with the view plane."""
    (x1, x2, x3), (y1, y2, y3) = circle.x.tolist(), circle.y.tolist()
    radius = circle.radius
    axis = (x2 * y3 - x3 * y2, x3 * y1 - x1 * y3, x1 * y2 - x2 * y1)
    level = math.hypot(axis[0], axis[1])
    major = (1.0, 0.0) if level < 1e-9 * radius**2 else (-axis[1] / level, axis[0] / level)
    turn = math.atan2(major[1], major[0])
    offset = math.atan2(major[0] * y1 + major[1] * y2, major[0] * x1 + major[1] * x2)
    start, end = circle.start - offset, circle.end - offset
    if axis[2] < 0:
        start, end = -end, -start
    centre, minor = circle.centre.tolist()[:2], abs(axis[2]) / radius
    if radius - minor < SAME_LINE:
        return (*centre, radius, radius, 0.0, start + turn, end + turn)
    flip = math.floor(turn / math.pi + 1e-9) * math.pi
    return (*centre, radius, minor, turn - flip, start + flip, end + flip)


def _edge_on(ellipse: tuple[float, ...]) -> tuple[float, ...]:
    """A circle seen edge-on: from the least to the greatest reach along its major axis."""
    x, y, radius, _, turn, start, end = ellipse
    peaks = range(math.ceil(start / math.pi), math.floor(end / math.pi) + 1)
    reach = [radius * math.cos(t) for t in (start, end, *(peak * math.pi for peak in peaks))]
    low, high, cosine, sine = min(reach), max(reach), math.cos(turn), math.sin(turn)
    return x + low * cosine, y + low * sine, x + high * cosine, y + high * sine


def _straight(points: Array) -> tuple[float, ...] | None:
    """The straight line that a polyline (k, 2) lies on from its one end to the other, or None if it bends."""
    apart = np.linalg.norm(points - points[0], axis=1)
    way = (points[apart.argmax()] - points[0]) / max(float(apart.max()), SAME_LINE)
    along = (points - points[0]) @ way
    foot = points[0] + along[:, None] * way
    if np.abs(points - foot).max() > SAME_LINE:
        return None
    return (*foot[along.argmin()].tolist(), *foot[along.argmax()].tolist())


def _line_part(line: Array, span: Span) -> Array:
    return line[0] + (line[1] - line[0]) * np.array(span)[:, None]


def _part(points: Array, span: Span) -> Array:
    """The stretch of a polyline between two places."""
    place = np.arange(len(points), dtype=float)
    at = np.concatenate([[span[0]], place[(place > span[0]) & (place < span[1])], [span[1]]])
    return np.column_stack([np.interp(at, place, points[:, axis]) for axis in range(points.shape[1])])
