"""Wood drawn only as far as a break: its outline, hatched, with a zigzag where it is broken off."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from drawings.paper.sheet import Entity, Hatch, Pen, Point, Polyline

_ON = 1e-6


def cut_wood(rings: Sequence[Polyline], breaks: Sequence[float]) -> Iterator[Entity]:
    """A piece cut through, hatched: its outer ring, then those of its holes. breaks: the x at which it is broken off,
    paper mm."""
    yield Hatch(tuple(rings))
    for ring in rings:
        yield from outlined(ring, breaks)


def outlined(ring: Polyline, breaks: Sequence[float], axis: int = 0) -> Iterator[Entity]:
    """The ring drawn in full but for where it is broken off: at an x or, axis 1, at a y of the paper, mm."""
    stretches = ring.stretches()
    broken = [n for n, (p, q, _) in enumerate(stretches) if any(_at(p, q, axis, station) for station in breaks)]
    if not broken:
        yield ring
        return
    for here, there in zip(broken, [*broken[1:], broken[0] + len(stretches)], strict=True):
        order = [stretches[k % len(stretches)] for k in range(here + 1, there)]
        if order:
            points = (*(p for p, _, _ in order), order[-1][1])
            yield Polyline(points, (*(b for _, _, b in order), 0.0))
    for n in broken:
        yield zigzag(*stretches[n][:2])


def _at(p: Point, q: Point, axis: int, station: float) -> bool:
    return abs(p[axis] - station) < _ON and abs(q[axis] - station) < _ON


def zigzag(p: Point, q: Point) -> Polyline:
    """A thin zigzag from p to q, a little past both."""
    length = math.dist(p, q)
    (dx, dy), jog = ((q[0] - p[0]) / length, (q[1] - p[1]) / length), min(1.5, length / 6)
    middle = length / 2
    steps = (
        (-2.0, 0.0),
        (middle - jog, 0.0),
        (middle - jog / 3, jog),
        (middle + jog / 3, -jog),
        (middle + jog, 0.0),
        (length + 2.0, 0.0),
    )
    return Polyline(tuple((p[0] + s * dx - t * dy, p[1] + s * dy + t * dx) for s, t in steps), pen=Pen.THIN)
