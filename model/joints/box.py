"""Boards fingered into each other at a corner: the box joint."""

from __future__ import annotations

from model.cuts.dovetails import Fingers
from model.cuts.removal import RUN_OUT
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood
from model.joints.meetings.box_corner import BoxCorner, box_corner
from model.joints.meetings.box_corner_ends import covers, end_cut, flanks, seats
from model.layout.outline import Outline
from model.layout.tails import finger_width
from model.placement import Vector, added, dot, scaled, tidy

FINGERING = "common practice: fingers as wide as the stock is thick, an odd number, whole at both edges"
#: Clearance between fingers, mm: room for glue in a machined joint (common practice).
FINGER_FIT = 0.1
#: The narrowest finger, mm: the narrowest cutter that stands up to it, 1/8 in (common practice).
NARROWEST_FINGER = 3.175


def box_joint(first: Stood, second: Stood, *, finger: float | None = None, fit: float = FINGER_FIT) -> Joint:
    """The ends of two boards cut to fingers that go between each other, whole fingers of `first` at both edges.

    Any angle and lean: the fingers' sides go the way of both boards' grain, their roots follow the other's inner face,
    and ends that run past the corner are trimmed to it. finger: width, mm, brought to the nearest odd number that
    fills the corner; the stock's thickness if not said. fit: clearance to either side of a finger, mm, in all.
    Raises DesignError where the boards don't come through each other or the fingers are too narrow. Source: FINGERING.
    """
    c = box_corner(first, second)
    covers(c)
    covers(c.turned)
    lo, hi = c.span()
    count = _count(hi - lo, first.wood.thickness if finger is None else finger)
    step = (hi - lo) / count
    depth = second.wood.thickness / c.lean
    plain = [c.four(lo + n * step, lo + (n + 1) * step, depth, 0.0) for n in range(count)]
    mine = [_mine(c, lo + n * step, step, depth, n == 0, n == count - 1) for n in range(0, count, 2)]
    theirs = [_theirs(c, lo + n * step + fit / 2.0, step - fit) for n in range(1, count, 2)]
    sides = flanks(c, plain[1::2])
    return Joint(
        "box joint",
        first.name,
        second.name,
        tidy(scaled(c.out_of_second, -1.0)),
        (
            *seats(c, plain[0::2], [lo + (n + 0.5) * step for n in range(1, count, 2)]),
            *(Contact((side.middle,), scaled(side.inward, -1.0), fit) for side in sides),
        ),
        (end_cut(c, mine, second.wood.thickness, Fingers),),
        (end_cut(c.turned, theirs, first.wood.thickness, Fingers),),
        fit,
        sum(side.area for side in sides),
        source=FINGERING,
    )


def _count(length: float, finger: float) -> int:
    """The odd number of fingers that brings them nearest to a width."""
    if not finger > 0.0:
        raise DesignError(f"box fingers {finger:g} mm wide; they must be wider than nothing")
    count = round(length / finger_width(length, finger))
    if length / count < NARROWEST_FINGER:
        raise DesignError(
            f"{count} fingers in {length:.1f} mm come out {length / count:.2f} mm wide; {NARROWEST_FINGER:g} mm is the "
            "narrowest a cutter stands up to, so make them wider"
        )
    return count


def _mine(c: BoxCorner, near: float, width: float, depth: float, first: bool, last: bool) -> Outline:
    """A finger of the first board, run out past the edge where it is the first or the last."""
    past = c.first.wood.thickness + c.second.wood.thickness + 2.0 * RUN_OUT
    return c.four(near - past * first, near + width + past * last, depth, 0.0)


def _theirs(c: BoxCorner, near: float, width: float) -> Outline:
    """A finger of the second board, drawn on its own outer side."""
    t = c.turned
    ends = sorted(t.along(_across(c, s)) for s in (near, near + width))
    return t.four(ends[0], ends[1], c.first.wood.thickness / c.lean, 0.0)


def _across(c: BoxCorner, along: float) -> Vector:
    """The side of a finger where it comes out: on the first board's inner face and the second's outside."""
    rise = -dot(c.out_of_first, c.face_of_second.normal)
    return added(c.spot(along, 0.0, 1.0), scaled(c.out_of_first, c.second.wood.thickness / rise))
