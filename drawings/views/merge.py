"""One line on the paper for each line that is seen: drawn curves joined, doubles dropped, hidden under visible cut.

A hidden-line pass gives every edge of every part, so a shelf's arris is drawn four times and most of the hidden
length lies under visible lines. Here lines that lie on one another become runs along a common carrier (a straight
line or an ellipse) and are joined and subtracted as intervals, which is exact and quick.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from operator import attrgetter

import numpy as np
from numpy.typing import NDArray

from drawings.views.curves import Chain, CircularArc, Curve, Segment
from drawings.views.runs import SAME_LINE, Array, Labels, Runs, mean_of, refined, seen_and_unseen
from model.tolerance import FACET

#: Do two drawn lines run the same way? Radians; over a 10 m line it amounts to 0.02 mm.
SAME_SLOPE = 2e-6

_DECIMALS = 6


@dataclass
class Linework:
    """Drawn curves before merging, mm and radians.

    `segments` (n, 4): x, y of both ends. `ellipses` (n, 7): centre x, y, half axes a >= b, turn of the major axis
    (0 to pi), start and end parameter (end > start). A circle has a = b and no turn. `chains`: (k, 2) polylines.
    """

    segments: Array = field(default_factory=lambda: np.empty((0, 4)))
    ellipses: Array = field(default_factory=lambda: np.empty((0, 7)))
    chains: list[Array] = field(default_factory=list)

    @classmethod
    def of(cls, curves: Iterable[Curve]) -> Linework:
        """Linework holding finished curves again, to merge them with others."""
        segments, ellipses, chains = [], [], []
        for curve in curves:
            if isinstance(curve, Segment):
                segments.append((*curve.p, *curve.q))
            elif isinstance(curve, CircularArc):
                ellipses.append(_circle_row(curve))
            else:
                chains.append(np.array(curve.points))
        return cls(np.array(segments).reshape(-1, 4), np.array(ellipses).reshape(-1, 7), chains)


def merge(visible: Linework, hidden: Linework) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """Visible and hidden curves, each drawn once, hidden ones only where nothing visible covers them.

    Sorted, and rounded to a millionth of a millimetre, so that equal input gives equal output.
    """
    seen_lines, unseen_lines = _merge_segments(visible.segments, hidden.segments)
    seen_arcs, unseen_arcs = _merge_ellipses(visible.ellipses, hidden.ellipses)
    seen_chains = _without_doubles(visible.chains, [])
    unseen_chains = _without_doubles(hidden.chains, seen_chains)
    return (
        _in_order([*seen_lines, *seen_arcs, *map(_chain, seen_chains)]),
        _in_order([*unseen_lines, *unseen_arcs, *map(_chain, unseen_chains)]),
    )


def merge_curves(visible: Sequence[Curve], hidden: Sequence[Curve] = ()) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """`merge` for finished curves: returns (visible, hidden)."""
    return merge(Linework.of(visible), Linework.of(hidden))


# Straight lines


def _merge_segments(visible: Array, hidden: Array) -> tuple[list[Curve], list[Curve]]:
    ends = np.concatenate([visible, hidden])
    is_hidden = np.arange(len(ends)) >= len(visible)
    run = ends[:, 2:] - ends[:, :2]
    length = np.hypot(run[:, 0], run[:, 1])
    keep = length > SAME_LINE
    if not keep.any():
        return [], []
    ends, run, length, is_hidden = ends[keep], run[keep], length[keep], is_hidden[keep]

    slope = np.arctan2(run[:, 1], run[:, 0]) % math.pi
    slope[slope > math.pi - SAME_SLOPE] -= math.pi
    ways = refined(np.zeros(len(slope), dtype=np.int64), slope, SAME_SLOPE)
    turn = mean_of(ways, slope, length)
    turn[np.abs(turn) < SAME_SLOPE] = 0.0
    turn = turn[ways]
    along = np.column_stack([np.cos(turn), np.sin(turn)])
    across = np.column_stack([-along[:, 1], along[:, 0]])
    offset = np.einsum("ij,ij->i", (ends[:, :2] + ends[:, 2:]) / 2, across)
    carrier = refined(ways, offset, SAME_LINE)

    at = np.stack([np.einsum("ij,ij->i", ends[:, :2], along), np.einsum("ij,ij->i", ends[:, 2:], along)])
    runs = Runs(carrier, at.min(axis=0), at.max(axis=0))
    mean_offset = mean_of(carrier, offset, length)
    _, member = np.unique(carrier, return_index=True)
    base = across[member] * mean_offset[:, None]
    seen, unseen = seen_and_unseen(runs, is_hidden)
    return _segments(seen, base, along[member]), _segments(unseen, base, along[member])


def _segments(runs: Runs, base: Array, along: Array) -> list[Curve]:
    way, origin = along[runs.carrier], base[runs.carrier]
    p = _rounded(origin + way * runs.start[:, None])
    q = _rounded(origin + way * runs.end[:, None])
    pairs = zip(map(tuple, p.tolist()), map(tuple, q.tolist()), strict=True)
    return [Segment(min(pair), max(pair)) for pair in pairs]


# Circles and the ellipses they are seen as


def _merge_ellipses(visible: Array, hidden: Array) -> tuple[list[Curve], list[Curve]]:
    rows = np.concatenate([visible, hidden])
    if not len(rows):
        return [], []
    is_hidden = np.arange(len(rows)) >= len(visible)
    carrier = np.zeros(len(rows), dtype=np.int64)
    for column, tolerance in enumerate([SAME_LINE] * 4 + [SAME_SLOPE]):
        carrier = refined(carrier, rows[:, column], tolerance)
    _, member = np.unique(carrier, return_index=True)
    runs, is_hidden = _unrolled(rows, carrier, is_hidden)
    seen, unseen = seen_and_unseen(runs, is_hidden)
    return _arcs(seen, rows[member]), _arcs(unseen, rows[member])


def _unrolled(rows: Array, carrier: Labels, is_hidden: NDArray[np.bool_]) -> tuple[Runs, NDArray[np.bool_]]:
    """Parameters as lengths a x parameter within one turn; a run past the end of the turn is split there."""
    radius = rows[:, 2]
    around = 2 * math.pi * radius
    sweep = np.minimum((rows[:, 6] - rows[:, 5]) * radius, around)
    start = (rows[:, 5] * radius) % around
    start[around - start < SAME_LINE] = 0.0
    end = start + sweep
    over = end > around
    runs = Runs(
        np.concatenate([carrier, carrier[over]]),
        np.concatenate([start, np.zeros(over.sum())]),
        np.concatenate([np.minimum(end, around), (end - around)[over]]),
    )
    return runs, np.concatenate([is_hidden, is_hidden[over]])


def _arcs(runs: Runs, ellipses: Array) -> list[Curve]:
    turns: dict[int, list[tuple[float, float]]] = {}
    for carrier, start, end in runs.rows():
        turns.setdefault(carrier, []).append((start, end))
    curves: list[Curve] = []
    for carrier, pieces in turns.items():
        radius = float(ellipses[carrier, 2])
        rolled = _rolled_up(pieces, 2 * math.pi * radius)
        curves += [_arc(ellipses[carrier], start / radius, end / radius) for start, end in rolled]
    return curves


def _rolled_up(pieces: list[tuple[float, float]], around: float) -> list[tuple[float, float]]:
    """Runs of one turn, the last joined to the first where they meet at the turn's end."""
    (first, first_end), (last, last_end) = pieces[0], pieces[-1]
    meets = first < SAME_LINE and around - last_end < SAME_LINE
    if not meets:
        return pieces
    if len(pieces) == 1:
        return [(0.0, around)]
    return [*pieces[1:-1], (last, around + first_end)]


def _arc(ellipse: Array, start: float, end: float) -> Curve:
    x, y, a, b, turn = ellipse[:5].tolist()
    if a - b < SAME_LINE:
        centre = (round(x, _DECIMALS) + 0.0, round(y, _DECIMALS) + 0.0)
        degrees = round(math.degrees(start), _DECIMALS), round(math.degrees(end), _DECIMALS)
        return CircularArc(centre, round(a, _DECIMALS), *degrees)
    # The finest facets are needed at the ends of the major axis, but a circle of radius a needs no coarser ones.
    step = 2 * math.acos(max(1.0 - FACET / a, 0.5))
    angle = np.linspace(start, end, max(2, math.ceil((end - start) / step) + 1))[:, None]
    cosine, sine = math.cos(turn), math.sin(turn)
    major, minor = np.array((a * cosine, a * sine)), np.array((-b * sine, b * cosine))
    return _chain(np.array((x, y)) + np.cos(angle) * major + np.sin(angle) * minor)


def _circle_row(arc: CircularArc) -> tuple[float, ...]:
    start, end = math.radians(arc.start_deg), math.radians(arc.end_deg)
    return (*arc.centre, arc.radius, arc.radius, 0.0, start, end)


# Free curves


def _without_doubles(chains: list[Array], cover: list[Array]) -> list[Array]:
    """Chains less the facets that lie along a chain of `cover` or along a longer one of their own."""
    if not chains:
        return []
    from shapely import STRtree, linestrings

    ranked = sorted(chains, key=lambda points: (-_length(points), _rounded(points).tolist()))
    ranked = [points for points in ranked if _length(points) > SAME_LINE]
    lines = [linestrings(points) for points in [*cover, *ranked]]
    tree = STRtree(lines)
    kept: list[Array] = []
    for rank, points in enumerate(ranked, start=len(cover)):
        near = tree.query(lines[rank].buffer(FACET))
        kept += _left_over(points, [lines[other] for other in near if other < rank])
    return kept


def _left_over(points: Array, covers: list) -> list[Array]:
    """The stretches of a chain whose facets do not lie along any of the covering lines.

    A facet lies along a line when both its ends and its middle are within the facet tolerance of it; a line
    that only crosses it takes nothing away.
    """
    if not covers:
        return [points]
    from shapely import distance
    from shapely import points as as_points

    middles = (points[1:] + points[:-1]) / 2
    corner, middle = as_points(points), as_points(middles)
    covered = np.zeros(len(middles), dtype=bool)
    for cover in covers:
        on_corner = distance(corner, cover) <= FACET
        covered |= on_corner[:-1] & on_corner[1:] & (distance(middle, cover) <= 2 * FACET)
    return _stretches(points, ~covered)


def _stretches(points: Array, keep: NDArray[np.bool_]) -> list[Array]:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], keep.astype(np.int8), [0]])))
    return [points[first : last + 1] for first, last in edges.reshape(-1, 2)]


def _length(points: Array) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def _chain(points: Array) -> Chain:
    rows = [tuple(row) for row in _rounded(points).tolist()]
    return Chain(tuple(rows if rows <= rows[::-1] else rows[::-1]))


def _rounded(values: Array) -> Array:
    return np.round(values, _DECIMALS) + 0.0


#: In this order curves are drawn, and those of a kind by these of their figures.
_ORDER = {
    Segment: attrgetter("p", "q"),
    CircularArc: attrgetter("centre", "radius", "start_deg", "end_deg"),
    Chain: attrgetter("points"),
}


def _in_order(curves: list[Curve]) -> tuple[Curve, ...]:
    return tuple(
        c for kind, figures in _ORDER.items() for c in sorted((c for c in curves if type(c) is kind), key=figures)
    )
