"""The bridle joint: an open mortise in an end, astride a part that is thinned to go into it."""

from __future__ import annotations

from dataclasses import dataclass

from model.cuts.cut import Cut
from model.cuts.faces import Channel
from model.cuts.mortises import OpenMortise
from model.cuts.removal import Plane
from model.cuts.tenons import Tenon, TenonedEnd
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.entering import Entry, entry, middle
from model.joints.meetings.shoulders import sawn_along
from model.layout.outline import Point
from model.placement import Vector, added, dot, scaled, tidy
from model.tolerance import CONTACT, SAME_POINT

BRIDLE_RULE = "Noyes, Handwork in Wood (1910): the end divided in three, as for a tenon"


def bridle(
    end: Stood,
    over: Stood,
    *,
    thickness: float | None = None,
    rise: float | None = None,
    proud: float | None = None,
    fit: float = 0.0,
) -> Joint:
    """An open mortise in `end`, astride `over`, which it crosses from edge to edge: a corner bridle at an end of
    `over`, a tee bridle anywhere else. Millimetres.

    thickness: of what is left of `over` inside the slot, a third of `end` if not said. rise: from the back side of
    `end` to the slot, in its middle if not said. proud: the prongs are sawn off this far past the far edge of `over`,
    0 for flush; None leaves them as they stand. fit: play across the slot. Raises DesignError if the faces are not
    parallel or the prongs don't cross `over`; CutError if a prong or a cheek gets too thin.
    """
    e = entry(end, over)
    _check(e)
    slot = _slab(e, thickness, rise)
    low, high = slot
    mortise = OpenMortise(e.shoulder, clean(high - low + fit), clean(low - fit / 2.0))
    mortise.check(end.wood.blank)
    strip = _strip(e)
    corner = _corner(e, strip)
    kept = _in_over(e, slot)
    second: tuple[Cut, ...] = tuple(_housings(e, strip, kept)) if corner == 0 else (_tenon(e, strip, kept, corner),)
    for cut in second:
        cut.check(over.wood.blank)
    sawn: tuple[Cut, ...] = () if proud is None else (sawn_along(e, e.exit.moved_by(proud)),)
    y0, y1 = e.section
    return Joint(
        "corner bridle" if corner else "tee bridle",
        end.name,
        over.name,
        e.axis,
        tuple(_contacts(e, slot, fit)),
        (mortise, *sawn),
        second,
        fit,
        2.0 * (y1 - y0) * e.crossing(*middle(e)),
        (),
        BRIDLE_RULE,
    )


@dataclass(frozen=True)
class _Strip:
    """The end as it lies over the other part, in that part's own plane: between `low` and `high` along `across`."""

    run: Point
    across: Point
    low: float
    high: float


def _check(e: Entry) -> None:
    first, second = e.first.name, e.second.name
    if e.near.edge is None or abs(dot(e.first.at.z, e.second.at.z)) < 1.0 - 1e-9:
        raise DesignError(
            f"{first} does not lie in the plane of {second}; a bridle needs their faces parallel, so use a mortise and "
            "tenon"
        )
    low, high = e.section
    z = middle(e)[1]
    if e.run_in(*middle(e)) <= 0.0:
        raise DesignError(f"{first} stops short of {second}; a bridle's prongs must cross it from edge to edge")
    short = max(e.crossing(y, z) - e.run_in(y, z) for y in (low, high))
    if short > CONTACT:
        raise DesignError(
            f"the prongs of {first} stop {short:.2f} mm short of the far edge of {second}; they must cross it"
        )


def _slab(e: Entry, thickness: float | None, rise: float | None) -> tuple[float, float]:
    """From what to what height in the end the slot is."""
    stock = e.first.wood.thickness
    thick = thickness or stock / 3.0
    low = (stock - thick) / 2.0 if rise is None else rise
    return clean(low), clean(low + thick)


def _in_over(e: Entry, slot: tuple[float, float]) -> tuple[float, float]:
    """The same in the other part; raises DesignError if it does not lie within that."""
    y = middle(e)[0]
    low, high = sorted(clean(e.in_second(e.point(y, z))[2]) for z in slot)
    stock = e.second.wood.thickness
    if low < -SAME_POINT or high > stock + SAME_POINT:
        raise DesignError(
            f"the slot in {e.first.name} lies from {low:.1f} to {high:.1f} mm in {e.second.name}, {stock:.1f} mm "
            "thick; move one, or say where the slot is to be"
        )
    return low, high


def _strip(e: Entry) -> _Strip:
    run, across = e.turned_to_second((e.sense, 0.0, 0.0)), e.turned_to_second((0.0, 1.0, 0.0))
    z = middle(e)[1]
    low, high = (dot(across, e.in_second(e.point(y, z))) for y in e.section)
    return _Strip(run[:2], across[:2], round(low, 9), round(high, 9))


def _corner(e: Entry, s: _Strip) -> int:
    """On which side of the end the other part goes no further: -1 or 1 along `across`; 0 if on neither.

    It counts as going no further if one corner of its end lies under the strip: the rest is then sawn off.
    """
    sides = []
    for name in ("left", "right"):
        corners = [p for edge in e.second.wood.outline.edges if edge.name == name for p in (edge.start, edge.end)]
        offs = [s.across[0] * x + s.across[1] * y for x, y in corners]
        if any(s.low - SAME_POINT <= o <= s.high + SAME_POINT for o in offs):
            outer = sum(offs) / len(offs) - (s.low + s.high) / 2.0
            sides.append(1 if outer > 0.0 else -1)
    if len(sides) > 1:
        raise DesignError(f"{e.first.name} covers {e.second.name} from end to end; a bridle needs it to go on past one")
    return sides[0] if sides else 0


def _housings(e: Entry, s: _Strip, kept: tuple[float, float]) -> list[Channel]:
    """One for each prong that lies over the other part's wood."""
    away = (-s.across[0], -s.across[1])
    first, last = e.second.wood.outline.extent(s.run, [(s.across, s.high), (away, -s.low)])
    centre = (s.low + s.high) / 2.0
    start, stop = (
        (clean(t * s.run[0] + centre * s.across[0]), clean(t * s.run[1] + centre * s.across[1])) for t in (first, last)
    )
    width, stock = clean(s.high - s.low), e.second.wood.thickness
    found = []
    if stock - kept[1] > SAME_POINT:
        found.append(Channel(start, stop, width, clean(stock - kept[1]), "face"))
    if kept[0] > SAME_POINT:
        found.append(Channel(start, stop, width, kept[0], "back"))
    return found


def _tenon(e: Entry, s: _Strip, kept: tuple[float, float], corner: int) -> TenonedEnd:
    """The other part's end thinned to a tenon as wide as itself, sawn off with the far side of the prongs."""
    out: Vector = (corner * s.across[0], corner * s.across[1], 0.0)
    inner, outer = (s.low, s.high) if corner > 0 else (-s.high, -s.low)
    _, y0, _, y1 = e.second.wood.outline.bounds
    past = max(dot(out, (*p, 0.0)) for p in e.second.wood.outline.corners) - outer
    tip = Plane(tidy(out), outer) if past > SAME_POINT else None
    return TenonedEnd(Plane(tidy(out), inner), (Tenon(y0, y1 - y0, kept[0], kept[1] - kept[0], tip),))


def _contacts(e: Entry, slot: tuple[float, float], fit: float) -> list[Contact]:
    """The bottom of the slot on the other part's edge, and both its sides on the other part."""
    y, _ = middle(e)
    z = sum(slot) / 2.0
    found = [Contact((e.point(y, z),), e.normal)] if e.on_side(e.point(y, z)) else []
    inside = e.point(y, z, e.crossing(y, z) / 2.0)
    for level, sign in ((slot[0], -1.0), (slot[1], 1.0)):
        up = scaled(e.first.at.z, sign)
        found.append(Contact((added(inside, scaled(e.first.at.z, level - z)),), up, fit))
    return found
