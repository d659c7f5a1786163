"""Which points of a part's outline belong to its tails: a view of the end at a larger scale locates them."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from drawings.paper.sheet import Point
from model.cuts.dovetails import Tails
from model.part import Part

_ON = 1e-4


def on_tails(part: Part) -> Callable[[Point], bool]:
    """Whether a point is a corner of some tail of the part, or of what is cut away beside one."""
    cuts = [c for c in part.cuts if isinstance(c, Tails)]
    corners = [p for c in cuts for tail in c.tails for p in tail.corners]
    limits = [(c, w.offset * w.normal[1]) for c in cuts for w in c.within]

    def on(p: Point) -> bool:
        tail = any(abs(p[0] - x) < _ON and abs(p[1] - y) < _ON for x, y in corners)
        return tail or any(abs(p[1] - y) < _ON and _past_shoulder(c, p) for c, y in limits)

    return on


def _past_shoulder(cut: Tails, p: Point) -> bool:
    nx, ny, _ = cut.shoulder.normal
    return nx * p[0] + ny * p[1] < cut.shoulder.offset + _ON


def baselines(part: Part) -> Iterator[Point]:
    """A corner of the first tail at each end, on the line that all of them there are cut down to."""
    for cut in part.cuts:
        if isinstance(cut, Tails):
            yield min(cut.tails[0].corners, key=lambda p: _depth(cut, p))
            yield max(cut.tails[0].corners, key=lambda p: _depth(cut, p))


def _depth(cut: Tails, p: Point) -> float:
    nx, ny, _ = cut.shoulder.normal
    return abs(nx * p[0] + ny * p[1] - cut.shoulder.offset)
