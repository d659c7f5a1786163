"""Boards dovetailed at a corner: tails on one, pins on the other, right through or half-blind."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from model.cuts.cut import Side
from model.cuts.dovetails import Pins, Tails, ring
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.box_corner import BoxCorner, box_corner, seen
from model.joints.meetings.box_corner_ends import covers, end_cut, flanks, not_far_past, seats
from model.layout.outline import Outline, Point
from model.layout.tails import MACHINE_SLOPE, Pitch, TailRow, hand_row, machine_row, slope_for
from model.placement import Vector, scaled, tidy
from model.tolerance import CONTACT

DOVETAILING = (
    "Noyes, Handwork in Wood, No. 48: tails 1 to 4 times the pins, no wider than 1 3/4 in; "
    "slope 1:6 in softwood, 1:8 in hardwood, common practice"
)
#: Clearance between tail and pin, mm: none, they are sawn to drive home (common practice).
DOVETAIL_FIT = 0.0
#: The lap of a half-blind dovetail, to the pin board's thickness, and the least there may be, mm (common practice).
LAP, LEAST_LAP = 0.25, 2.0


def dovetail(
    tails: Stood,
    into: Stood,
    *,
    number: int | None = None,
    spacing: float | None = None,
    ratio: float | None = None,
    slope: float | None = None,
    pitch: Pitch = "hand",
    lap: float | None = None,
    fit: float = DOVETAIL_FIT,
) -> Joint:
    """The end of `tails` dovetailed to the end of `into`, whose sockets its tails are driven into along that board's
    grain. Where the tail board stops short of the pin board's outside the joint is half-blind.

    The boards may stand at any angle and lean (a canted box): tails splay about their own grain, their flanks go
    through in the direction of the pin board's grain, the shoulder follows its inner face, and ends that run past the
    corner are trimmed to it.

    number: of tails, or spacing: from tail to tail, mm (a jig's pitch with pitch="machine"); otherwise by rule. ratio:
    of tail to pin, 3 by hand. slope: of the flanks to the grain, as 1/8. lap: wood left in front of the tails, mm,
    measured if not said. fit: clearance between a tail and its pins, mm, in all.
    Raises DesignError where the boards make no such corner or the row can't be cut, CutError where a tail would break
    out of the pin board. Source of the proportions: DOVETAILING.
    """
    c = box_corner(tails, into)
    not_far_past(c)
    covers(c.turned)
    depth = into.wood.thickness - _lap(c, lap)
    row = _row(c, depth / c.lean, number, spacing, ratio, slope, pitch)
    lo, _ = c.span()
    places = [(lo + a, lo + b) for a, b in row.shoulders]
    drawn = [c.four(a, b, row.depth, row.slope) for a, b in places]
    sides = flanks(c, drawn)
    met = tuple(Contact((side.middle,), side.inward, fit) for side in sides)
    return Joint(
        "dovetail" if depth == into.wood.thickness else "half-blind dovetail",
        tails.name,
        into.name,
        tidy(scaled(c.out_of_second, -1.0)),
        (*seats(c, drawn, _pin_middles(c, places)), *met, *_blind(c, drawn, depth)),
        (end_cut(c, drawn, depth),),
        (_pins(c, [c.four(a - fit / 2.0, b + fit / 2.0, row.depth, row.slope) for a, b in places]),),
        fit,
        sum(side.area for side in sides),
        source=DOVETAILING,
    )


def first_tail(joint: Joint) -> tuple[float, float]:
    """From where to where, mm across the tail board from its near edge, the tail nearest to that edge is wood all along
    its length: a groove there is hidden in its socket."""
    cut = next(c for c in joint.first_cuts if isinstance(c, Tails))
    low, high = min(sorted(p[1] for p in tail.corners[:2]) for tail in cut.tails)
    return low, high


def _lap(c: BoxCorner, lap: float | None) -> float:
    """Wood left in front of the tails, measured or as asked, mm."""
    (least, most), thick = c.reach(), c.second.wood.thickness
    first, second = c.first.name, c.second.name
    if lap is None and most - least > CONTACT and least < thick - CONTACT:
        raise DesignError(
            f"{first} meets {second} at an angle and reaches only {least:.1f} to {most:.1f} mm into its {thick:g} mm; "
            "let it run past the outside, it is trimmed there, or say how thick a lap is to be left"
        )
    found = clean(max(0.0, thick - least)) if lap is None else clean(lap)
    found = 0.0 if found <= CONTACT else found
    if least <= 0.0:
        raise DesignError(f"{first} stops {-least:.2f} mm short of {second}; dovetails need it to run in")
    if thick - found > least + CONTACT:
        raise DesignError(
            f"{first} runs {least:.1f} mm into {second}; with a lap of {found:g} mm its tails are "
            f"{thick - found:.1f} mm long, so let it run in that far"
        )
    if 0.0 < found < LEAST_LAP or found > thick * 0.75:
        raise DesignError(
            f"the tails of {first} would leave a lap of {found:.1f} mm in {second}, which is {thick:g} mm thick; "
            f"a quarter of it, {LAP * thick:.1f} mm, is common practice, or let them come right through"
        )
    return found


def _row(
    c: BoxCorner,
    depth: float,
    number: int | None,
    spacing: float | None,
    ratio: float | None,
    slope: float | None,
    pitch: Pitch,
) -> TailRow:
    lo, hi = c.span()
    if pitch == "machine":
        return machine_row(hi - lo, depth, slope or MACHINE_SLOPE, number=number, spacing=spacing)
    chosen = {} if ratio is None else {"ratio": ratio}
    steep = slope or slope_for(c.first.wood.stock.species)
    return hand_row(hi - lo, depth, steep, number=number, spacing=spacing, **chosen)


def _pins(c: BoxCorner, drawn: Sequence[Outline]) -> Pins:
    at = c.second.at
    inner: Side = "back" if c.turned.outer_side == "face" else "face"
    sockets = tuple(ring([_on_end(at.own_point(c.carried(p))) for p in outline.corners]) for outline in drawn)
    return Pins(sockets, seen(c.face_of_first, at), seen(c.turned.tip(c.first.wood.thickness), at), inner)


def _on_end(own: Vector) -> Point:
    return (clean(own[1]), clean(own[2]))


def _pin_middles(c: BoxCorner, places: Sequence[tuple[float, float]]) -> list[float]:
    """Along the shoulder: of the whole pins, or of the half pins where there are no others."""
    lo, hi = c.span()
    if len(places) == 1:
        return [(lo + places[0][0]) / 2.0, (places[0][1] + hi) / 2.0]
    return [(a[1] + b[0]) / 2.0 for a, b in pairwise(places)]


def _blind(c: BoxCorner, drawn: Sequence[Outline], depth: float) -> tuple[Contact, ...]:
    """The tips of half-blind tails on the lap."""
    if depth >= c.second.wood.thickness - CONTACT:
        return ()
    tips = tuple(c.carried(outline.edges[2].point(0.5), 0.5) for outline in drawn)
    return (Contact(tips, c.face_of_second.normal),)
