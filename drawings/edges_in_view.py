"""Edges in space, turned into the view's axes, and the flat lines they are drawn as.

View coordinates: x right, y up, z toward the eye, mm. A line seen end-on vanishes; a circle is drawn as a circle,
an ellipse or, edge-on, a straight line. No CAD kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drawings.buried_edges import Occluders, Span
from drawings.line_merge import Linework
from drawings.line_runs import SAME_LINE
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
        spans = occluders.seen_spans([*self.lines, *arcs, *self.free])
        n, m = len(self.lines), len(self.lines) + len(arcs)
        lines = [_line_part(line, span) for line, found in zip(self.lines, spans, strict=False) for span in found]
        circles = [
            circle.part(span, len(arc))
            for circle, arc, found in zip(self.circles, arcs, spans[n:m], strict=True)
            for span in found
        ]
        free = [_part(points, span) for points, found in zip(self.free, spans[m:], strict=True) for span in found]
        return EdgesInView(np.array(lines).reshape(-1, 2, 3), circles, free)

    def drawn_length(self) -> float:
        """Length of all edges as they appear in the view, doubles counted, mm."""
        polylines = [*self.lines, *(circle.points() for circle in self.circles), *self.free]
        return sum(float(np.linalg.norm(np.diff(points[:, :2], axis=0), axis=1).sum()) for points in polylines)

    def linework(self) -> Linework:
        """The edges as drawn."""
        segments = [self.lines[:, :, :2].reshape(-1, 4)]
        ellipses = []
        chains = []
        for circle in self.circles:
            shape = _ellipse(circle)
            if shape[3] < SAME_LINE:
                segments.append(_edge_on(shape))
            else:
                ellipses.append(shape)
        for points in self.free:
            flat = points[:, :2]
            straight = _straight(flat)
            if straight is None:
                chains.append(flat)
            else:
                segments.append(straight)
        return Linework(np.concatenate(segments), np.array(ellipses).reshape(-1, 7), chains)


def _ellipse(circle: CircleEdge) -> tuple[float, ...]:
    """The row of `Linework.ellipses` that a circle is seen as."""
    x, y, radius = circle.x, circle.y, circle.radius
    axis = np.cross(x, y) / radius**2
    level = math.hypot(axis[0], axis[1])
    centre = (float(circle.centre[0]), float(circle.centre[1]))
    major = np.array([1.0, 0.0, 0.0]) if level < 1e-9 else np.array([-axis[1], axis[0], 0.0]) / level
    minor = radius * abs(float(axis[2]))
    offset = math.atan2(float(major @ y), float(major @ x))
    turn = math.atan2(major[1], major[0])
    start, end = circle.start - offset, circle.end - offset
    if axis[2] < 0:
        start, end = -end, -start
    if radius - minor < SAME_LINE:
        return (*centre, radius, radius, 0.0, start + turn, end + turn)
    half_turns = math.floor(turn / math.pi + 1e-9)
    turn, start, end = turn - half_turns * math.pi, start + half_turns * math.pi, end + half_turns * math.pi
    return (*centre, radius, minor, turn, start, end)


def _edge_on(ellipse: tuple[float, ...]) -> Array:
    """A circle seen edge-on, (1, 4): from the least to the greatest reach along its major axis."""
    x, y, radius, _, turn, start, end = ellipse
    peaks = np.arange(math.ceil(start / math.pi), math.floor(end / math.pi) + 1) * math.pi
    reach = radius * np.cos([start, end, *peaks])
    way = np.array([math.cos(turn), math.sin(turn)])
    centre = np.array([x, y])
    return np.concatenate([centre + way * reach.min(), centre + way * reach.max()])[None, :]


def _straight(points: Array) -> Array | None:
    """The straight line (1, 4) that a polyline (k, 2) lies on, or None if it bends."""
    apart = np.linalg.norm(points - points[0], axis=1)
    far = points[apart.argmax()] - points[0]
    size = float(np.linalg.norm(far))
    if size < SAME_LINE:
        return np.concatenate([points[0], points[0]])[None, :]
    way = far / size
    beside = (points - points[0]) @ np.array([-way[1], way[0]])
    if np.abs(beside).max() > SAME_LINE:
        return None
    along = (points - points[0]) @ way
    return np.concatenate([points[0] + way * along.min(), points[0] + way * along.max()])[None, :]


def _line_part(line: Array, span: Span) -> Array:
    return line[0] + (line[1] - line[0]) * np.array(span)[:, None]


def _part(points: Array, span: Span) -> Array:
    """The stretch of a polyline between two places."""
    place = np.arange(len(points), dtype=float)
    at = np.concatenate([[span[0]], place[(place > span[0]) & (place < span[1])], [span[1]]])
    return np.column_stack([np.interp(at, place, points[:, axis]) for axis in range(points.shape[1])])
