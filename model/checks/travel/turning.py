"""Does a solid that turns about a line run into another, at what angle, and how near do they come?

Two facets that a plane parts all through a span of angles don't meet in it. In a span, a corner's reach along any
direction is one arch of a sine, so its least and greatest are exact. A span in which no direction parts two facets is
halved; it ends in a span proved clear, or at an angle where they cross by more than interference. So the whole travel
is proved, not a few stills of it: to INTERFERENCE mm between flat faces, and as much more as facets stray where it
curves.

Directions: S. Gottschalk, M. Lin, D. Manocha, OBBTree, SIGGRAPH 1996, section 5, for triangles. No CAD kernel here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from model.placement import Placement, Vector, cross, unit
from model.tolerance import INTERFERENCE

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]

#: Spans that the travel is cut into at first, radians, and the shortest one that is still halved.
FIRST, SHORTEST = 0.2, 1e-6

#: Pairs of facets looked at in one go.
AT_ONCE = 20_000


@dataclass(frozen=True, eq=False)
class Skin:
    """Facets (n, 3, 3) in the pin's frame, z along the pin, and how far each strays, (n,), mm."""

    corners: Numbers
    stray: Numbers

    def only(self, kept: NDArray[Any]) -> Skin:
        return Skin(self.corners[kept], self.stray[kept])

    def turned(self, angle: float) -> Skin:
        c, s = np.cos(angle), np.sin(angle)
        return Skin(self.corners @ np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]]), self.stray)


@dataclass(frozen=True)
class Stop:
    """angle in radians, where in the pin's frame."""

    angle: float
    where: Vector


def pin_frame(pin: Vector, along: Vector) -> Placement:
    """A frame with its origin on the pin and z along it. Raises DesignError for a direction of no length."""
    z = unit(along)
    least = min(range(3), key=lambda n: abs(z[n]))
    x = unit(cross(z, (float(least == 0), float(least == 1), float(least == 2))))
    return Placement(pin, x, cross(z, x), z)


def first_stop(moving: Skin, fixed: Skin, opens: float) -> Stop | None:
    """The least angle up to `opens`, radians, right-handed about z, at which the skins cross; None if they never do."""
    moving, fixed = in_reach(moving, fixed, 0.0)
    stop: Stop | None = None
    count = max(1, int(np.ceil(opens / FIRST)))
    for n in range(count):
        start, half = opens * n / count, opens / count / 2.0
        for i, j in _near(moving, fixed, start + half, half):
            stop = _earlier(stop, _searched(moving, fixed, i, j, start + half, half, stop))
        if stop is not None:
            return stop
    return None


def least_gap(moving: Skin, fixed: Skin, angle: float, most: float) -> float:
    """The least distance between the skins at an angle, mm, no more than `most`; where two edges or corners come
    nearest, it may be told too small, never too great."""
    turned = moving.turned(angle)
    apart = _boxes_apart(turned, fixed)
    i, j = np.nonzero(apart < most)
    nearest = np.argsort(apart[i, j], kind="stable")
    least, start, count = most, 0, 64
    while start < len(nearest) and apart[i[nearest[start]], j[nearest[start]]] < least:
        n = nearest[start : start + count]
        gaps = _gaps(turned.corners[i[n]], fixed.corners[j[n]], np.zeros(len(n)))
        least = min(least, float((gaps - turned.stray[i[n]] - fixed.stray[j[n]]).min()))
        start, count = start + count, 2 * count
    return least


def in_reach(moving: Skin, fixed: Skin, margin: float) -> tuple[Skin, Skin]:
    """The facets of each that a whole turn about the pin could bring within `margin` mm of the other: those that pass
    each other on some circle round the pin."""
    (near_a, far_a), (near_b, far_b) = _radii(moving.corners), _radii(fixed.corners)
    (low_a, high_a), (low_b, high_b) = _levels(moving), _levels(fixed)
    kept_b = (near_b < far_a.max(initial=0.0) + margin) & (far_b > near_a.min(initial=np.inf) - margin)
    kept_b &= (high_b > low_a.min(initial=np.inf) - margin) & (low_b < high_a.max(initial=-np.inf) + margin)
    kept_a = (near_a < far_b[kept_b].max(initial=0.0) + margin) & (far_a > near_b[kept_b].min(initial=np.inf) - margin)
    kept_a &= (high_a > low_b[kept_b].min(initial=np.inf) - margin) & (
        low_a < high_b[kept_b].max(initial=-np.inf) + margin
    )
    return moving.only(kept_a), fixed.only(kept_b)


def _levels(skin: Skin) -> tuple[Numbers, Numbers]:
    """Least and greatest height of each facet along the pin."""
    z = skin.corners[..., 2]
    return z.min(axis=1), z.max(axis=1)


def _boxes_apart(a: Skin, b: Skin) -> Numbers:
    """Distance between the boxes of every two facets, mm: never more than between the facets."""
    (low_a, high_a), (low_b, high_b) = _boxes(a, a.stray), _boxes(b, b.stray)
    squared = np.zeros((len(low_a), len(low_b)))
    for axis in range(3):
        between = np.maximum(low_b[None, :, axis] - high_a[:, None, axis], low_a[:, None, axis] - high_b[None, :, axis])
        squared += np.maximum(between, 0.0) ** 2
    return np.sqrt(squared)


def _earlier(a: Stop | None, b: Stop | None) -> Stop | None:
    return min((s for s in (a, b) if s is not None), key=lambda s: s.angle, default=None)


def _radii(corners: Numbers) -> tuple[Numbers, Numbers]:
    """Least and greatest distance of each facet from the pin."""
    p = corners[..., :2]
    q = np.roll(p, -1, axis=1)
    along = q - p
    share = -np.einsum("nkc,nkc->nk", p, along) / np.maximum(np.einsum("nkc,nkc->nk", along, along), 1e-18)
    foot = p + np.clip(share, 0.0, 1.0)[..., None] * along
    near = np.linalg.norm(foot, axis=2).min(axis=1)
    turns = p[..., 0] * q[..., 1] - p[..., 1] * q[..., 0]
    near[np.all(turns >= 0.0, axis=1) | np.all(turns <= 0.0, axis=1)] = 0.0
    return near, np.linalg.norm(p, axis=2).max(axis=1)


def _near(moving: Skin, fixed: Skin, middle: float, half: float) -> Iterator[tuple[Indices, Indices]]:
    """Pairs of facets whose boxes meet anywhere in the span: a corner strays from where it is in the middle by no more
    than the chord of half the span."""
    turned = moving.turned(middle)
    chord = 2.0 * np.sin(min(half, np.pi / 2.0) / 2.0) * np.linalg.norm(turned.corners[..., :2], axis=2).max(axis=1)
    low, high = _boxes(turned, chord)
    yield from _overlapping(low, high, *_boxes(fixed, 0.0))


def _boxes(skin: Skin, margin: Numbers | float) -> tuple[Numbers, Numbers]:
    around = np.broadcast_to(np.asarray(margin), (len(skin.corners),))[:, None]
    return skin.corners.min(axis=1) - around, skin.corners.max(axis=1) + around


def _overlapping(low_a: Numbers, high_a: Numbers, low_b: Numbers, high_b: Numbers) -> Iterator[tuple[Indices, Indices]]:
    if not len(low_a) or not len(low_b):
        return
    rows = max(1, 2_000_000 // len(low_b))
    for start in range(0, len(low_a), rows):
        part = slice(start, start + rows)
        meet = np.ones((len(low_a[part]), len(low_b)), dtype=bool)
        for axis in range(3):
            meet &= high_a[part, None, axis] > low_b[None, :, axis]
            meet &= high_b[None, :, axis] > low_a[part, None, axis]
        i, j = np.nonzero(meet)
        for n in range(0, len(i), AT_ONCE):
            yield i[n : n + AT_ONCE] + start, j[n : n + AT_ONCE]


def _searched(
    moving: Skin, fixed: Skin, i: Indices, j: Indices, middle: float, half: float, stop: Stop | None
) -> Stop | None:
    """The first angle in a span, if any before `stop`, at which one of the pairs crosses."""
    middles, halves = np.full(len(i), middle), np.full(len(i), half)
    while len(i):
        a, b = _turned(moving.corners[i], middles), fixed.corners[j]
        allowed = -INTERFERENCE - moving.stray[i] - fixed.stray[j]
        open_ = _gaps(a, b, halves) < allowed
        i, j, middles, halves = i[open_], j[open_], middles[open_], halves[open_]
        a, b, allowed = a[open_], b[open_], allowed[open_]
        if not len(i):
            break
        crossed = _gaps(a, b, np.zeros(len(i))) < allowed
        if crossed.any():
            n = int(np.flatnonzero(crossed)[np.argmin(middles[crossed])])
            if stop is None or middles[n] < stop.angle:
                x, y, z = (a[n].mean(axis=0) + b[n].mean(axis=0)) / 2.0
                stop = Stop(float(middles[n]), (float(x), float(y), float(z)))
        i, j = np.concatenate([i, i]), np.concatenate([j, j])
        middles = np.concatenate([middles - halves / 2.0, middles + halves / 2.0])
        halves = np.concatenate([halves, halves]) / 2.0
        kept = halves > SHORTEST
        if stop is not None:
            kept &= middles - halves < stop.angle - SHORTEST
        i, j, middles, halves = i[kept], j[kept], middles[kept], halves[kept]
    return stop


def _turned(corners: Numbers, angles: Numbers) -> Numbers:
    c, s = np.cos(angles)[:, None], np.sin(angles)[:, None]
    x, y = corners[..., 0], corners[..., 1]
    return np.stack([c * x - s * y, s * x + c * y, corners[..., 2]], axis=2)


def _gaps(a: Numbers, b: Numbers, halves: Numbers) -> Numbers:
    """How far the best direction parts each two facets (n, 3, 3) while the first turns `halves` radians either way, mm;
    negative where none does."""
    best = np.full(len(a), -np.inf)
    for direction in _directions(a, b):
        length = np.linalg.norm(direction, axis=1)
        sound = length > 1e-9
        d = direction / np.where(sound, length, 1.0)[:, None]
        low, high = _reach(a, d, halves)
        still = np.einsum("nkc,nc->nk", b, d)
        gap = np.maximum(still.min(axis=1) - high, low - still.max(axis=1))
        best = np.where(sound, np.maximum(best, gap), best)
    return best


def _reach(a: Numbers, d: Numbers, halves: Numbers) -> tuple[Numbers, Numbers]:
    """Least and greatest reach along `d` of facets that turn `halves` radians either way."""
    d = d[:, None]
    level = d[..., 2] * a[..., 2]
    even = d[..., 0] * a[..., 0] + d[..., 1] * a[..., 1]
    odd = d[..., 1] * a[..., 0] - d[..., 0] * a[..., 1]
    h = halves[:, None]
    ends = level + even * np.cos(h), odd * np.sin(h)
    swing, peak = np.hypot(even, odd), np.abs(np.arctan2(odd, even))
    high = np.where(peak <= h, level + swing, ends[0] + np.abs(ends[1]))
    low = np.where(np.pi - peak <= h, level - swing, ends[0] - np.abs(ends[1]))
    return low.min(axis=1), high.max(axis=1)


def _directions(a: Numbers, b: Numbers) -> Iterator[Numbers]:
    """Normals, edges across edges, edges' own normals in the facets' planes, and from the nearest corner to the
    other's."""
    edges_a, edges_b = np.roll(a, -1, axis=1) - a, np.roll(b, -1, axis=1) - b
    normal_a, normal_b = np.cross(edges_a[:, 0], edges_a[:, 1]), np.cross(edges_b[:, 0], edges_b[:, 1])
    yield normal_a / np.maximum(np.linalg.norm(normal_a, axis=1), 1e-12)[:, None]
    yield normal_b / np.maximum(np.linalg.norm(normal_b, axis=1), 1e-12)[:, None]
    unit_a, unit_b = (e / np.maximum(np.linalg.norm(e, axis=2), 1e-12)[..., None] for e in (edges_a, edges_b))
    for k in range(3):
        for m in range(3):
            yield np.cross(unit_a[:, k], unit_b[:, m])
        yield np.cross(unit_a[:, k], normal_a)
        yield np.cross(unit_b[:, k], normal_b)
    between = b[:, None] - a[:, :, None]
    nearest = np.argmin(np.linalg.norm(between, axis=3).reshape(len(a), 9), axis=1)
    yield between.reshape(len(a), 9, 3)[np.arange(len(a)), nearest]
