"""From which end or edge of the finished part a cut is set, and where along that axis its wall lies."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.cutting.finished import finished_bounds, sawn_lines
from drawings.lists.joinery_sizes import shoulder_place
from drawings.lists.setting import SAME_SETTING
from model.cuts.laps import Shoulder
from model.cuts.sawn import SawCut
from model.part import Part
from model.placement import Vector
from model.tolerance import SAME_POINT

#: The lower and the upper end of a part along the grain (axis 0) and across it (1), and what rides a fence there.
_NAMES = (("left end", "right end", "end"), ("near edge", "far edge", "edge"))

#: Where in the thickness a sawn face is looked for, as shares of it.
_HEIGHTS = (0.5, 0.25, 0.75, 0.1, 0.9, 0.0, 1.0)


@dataclass(frozen=True)
class Fence:
    """`end`: where the fence touches; `wall`: what is set from it; both along an axis (0 length, 1 width), mm in the
    part's own frame. named: that end or edge; against: what rides the fence."""

    axis: int
    end: float
    wall: float
    named: str
    against: str

    @property
    def distance(self) -> float:
        """What is set, mm."""
        return abs(self.wall - self.end)


def nearer_fence(part: Part, axis: int, low: float, high: float) -> Fence:
    """For a trench or row between two stations: from the nearer end or edge to the nearer wall."""
    bounds, (first, last, against) = finished_bounds(part), _NAMES[axis]
    start, stop = bounds[axis], bounds[axis + 2]
    if low - start <= stop - high + SAME_SETTING:
        return Fence(axis, start, low, first, against)
    return Fence(axis, stop, high, last, against)


def shoulder_stop(shoulder: Shoulder, part: Part) -> Fence:
    """For a lap's shoulder: where it crosses the near edge, from the nearer end; of one along the grain, where it meets
    the left end, from the near edge."""
    (x0, y0, x1, _), (off, named) = finished_bounds(part), shoulder_place(shoulder, part)
    if named == "near edge":
        return Fence(1, y0, y0 + off, named, named)
    if off > (x1 - x0) / 2.0:
        return Fence(0, x1, x0 + off, "right end", "right end")
    return Fence(0, x0, x0 + off, named, named)


def saw_stop(cut: SawCut, part: Part) -> Fence:
    """For a saw cut: from the other end to where it meets the near edge; for one along the grain, from the other edge
    to where it meets the left end. See `stop_point`."""
    bounds, axis = finished_bounds(part), 0 if cut.end in ("left", "right") else 1
    wall, lower = stop_point(cut, part)[0][axis], cut.out[axis] > 0.0
    named = _NAMES[axis][0 if lower else 1]
    return Fence(axis, bounds[axis if lower else axis + 2], wall, named, f"other {_NAMES[axis][2]}")


def sawn_middle(cut: SawCut, part: Part, height: float | None = None) -> Vector:
    """The middle of what a saw cut leaves at a height over the back side; if that is not said, about half way up."""
    shares = [share * part.thickness for share in _HEIGHTS] if height is None else [height]
    for z in shares:
        lines = sawn_lines(cut, part, z)
        if lines:
            return (*max(lines, key=lambda e: e.length).point(0.5), z)
    return cut.at


def stop_point(cut: SawCut, part: Part) -> tuple[Vector, str]:
    """The corner of what a saw cut leaves that a stop or a fence is set to, and where that is: on the near edge or, of
    one that does not reach it, on the far edge (for a cut along the grain, at the left or the right end); on the back
    side or, of one that does not reach it, on the face side."""
    axis, bounds = 1 if cut.end in ("left", "right") else 0, finished_bounds(part)
    low, high, _ = _NAMES[axis]
    for height in (0.0, part.thickness):
        ends = sorted((p for e in sawn_lines(cut, part, height) for p in (e.start, e.end)), key=lambda p: p[axis])
        if ends:
            beyond = ends[0][axis] > bounds[axis] + SAME_POINT and ends[-1][axis] > bounds[axis + 2] - SAME_POINT
            return (*ends[-1 if beyond else 0], height), high if beyond else low
    return cut.at, low
