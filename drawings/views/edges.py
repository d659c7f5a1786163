"""Edges in space, turned into the view's axes, and the flat lines they are drawn as.

View coordinates: x right, y up, z toward the eye, mm. A line seen end-on vanishes; a circle is drawn as a circle,
an ellipse or, edge-on, a straight line. No CAD kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drawings.views.arcs import Arcs
from drawings.views.buried import Occluders
from drawings.views.chords import Span
from drawings.views.merge import Linework
from drawings.views.runs import SAME_LINE

Array = NDArray[np.float64]


@dataclass(frozen=True)
class EdgesInView:
    """Edges in view coordinates: `lines` (n, 2, 3), arcs, and other curves as polylines (k, 3)."""

    lines: Array
    arcs: Arcs = field(default_factory=Arcs.none)
    free: list[Array] = field(default_factory=list)

    def unburied(self, occluders: Occluders) -> EdgesInView:
        """The stretches of these edges that have no wood before them."""
        polylines = self._polylines()
        broken = occluders.partly_seen(polylines)
        if not broken:
            return self
        left = [(n, span) for n, points in enumerate(polylines) for span in broken.get(n, [(0.0, len(points) - 1.0)])]
        which, spans = np.array([n for n, _ in left]), np.array([span for _, span in left]).reshape(-1, 2)
        first_arc, first_free = len(self.lines), len(polylines) - len(self.free)
        line, free = which < first_arc, which >= first_free
        arc = ~line & ~free
        return EdgesInView(
            _line_parts(self.lines[which[line]], spans[line]),
            self.arcs.stretches(which[arc] - first_arc, spans[arc]),
            [_part(polylines[n], span) if n in broken else polylines[n] for n, span in left if n >= first_free],
        )

    def drawn_length(self) -> float:
        """Length of all edges as they appear in the view, doubles counted, mm."""
        return sum(float(np.linalg.norm(np.diff(points[:, :2], axis=0), axis=1).sum()) for points in self._polylines())

    def linework(self) -> Linework:
        """The edges as drawn."""
        ellipses = self.arcs.ellipses()
        edge_on = ellipses[:, 3] < SAME_LINE
        straight = [_edge_on(row) for row in ellipses[edge_on].tolist()]
        chains = []
        for points in self.free:
            line = _straight(points[:, :2])
            if line is None:
                chains.append(points[:, :2])
            else:
                straight.append(line)
        segments = np.concatenate([self.lines[:, :, :2].reshape(-1, 4), np.array(straight).reshape(-1, 4)])
        return Linework(segments, ellipses[~edge_on], chains)

    def _polylines(self) -> list[Array]:
        return [*self.lines, *self.arcs.polylines(), *self.free]


def _edge_on(ellipse: list[float]) -> tuple[float, ...]:
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


def _line_parts(lines: Array, spans: Array) -> Array:
    """The stretches of lines (n, 2, 3) between shares (n, 2) of their way."""
    return lines[:, :1] + (lines[:, 1:] - lines[:, :1]) * spans[:, :, None]


def _part(points: Array, span: Span) -> Array:
    """The stretch of a polyline between two places."""
    place = np.arange(len(points), dtype=float)
    at = np.concatenate([[span[0]], place[(place > span[0]) & (place < span[1])], [span[1]]])
    return np.column_stack([np.interp(at, place, points[:, axis]) for axis in range(points.shape[1])])
