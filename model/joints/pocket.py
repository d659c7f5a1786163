"""Pocket screws: driven at a slant from a pocket in the face of one part, out of its end, into the side of another."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model.cuts.cut import Side
from model.cuts.faces import Bore
from model.cuts.pockets import Pocket
from model.errors import DesignError
from model.hardware import Hardware, screw_pilot, screw_shank, wood_screw
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.entering import Entry, entry, exact_point, middle
from model.joints.meetings.shoulders import butting, width_contacts
from model.placement import Vector, added, dot, scaled, tidy

POCKETING = (
    "common practice: pockets 3/8 in across at 15 degrees, the screw out at mid-thickness, two or more to a joint"
)

#: Slant of the screw to the grain, degrees, and the pocket's diameter, mm (3/8 in; common practice).
SLANT, MOUTH = 15.0, 9.525
#: Screw by thickness of stock, both mm: the longest stock each serves (common practice: 1 1/4 in for 3/4 in stock).
SCREWS = ((13.0, 25.4), (22.0, 31.75), (29.0, 38.1), (36.0, 50.8), (51.0, 63.5))
#: From the edges to the outer screws, and between two, mm (common practice).
MARGIN, SPACING = 19.0, 100.0
#: Wood under the screw's point, mm (common practice).
UNDER = 3.0


def pocket_screwed(
    end: Stood,
    to: Stood,
    *,
    side: Side = "back",
    gauge: str = "8",
    length: float | None = None,
    count: int | None = None,
) -> Joint:
    """The end of `end` butted against a side of `to`, held by screws from pockets in one of its own faces.

    An end that comes in at a slant is sawn to the side: let it run in. side: the face the pockets are bored in. length:
    of the screws, mm, by the thickness of the stock if not said. count: as the width asks if not said. Raises
    DesignError if the end does not lie against the side, or the screws come through or find too little wood. Source:
    common practice.
    """
    e = entry(end, to)
    sawn = butting(e)
    stock = end.wood.thickness
    screw = length or screw_length(stock)
    up = 1.0 if side == "face" else -1.0
    own = (e.sense * math.cos(math.radians(SLANT)), 0.0, -up * math.sin(math.radians(SLANT)))
    way = end.at.direction(own)
    into = clean(screw - stock)
    _check_point(e, way, into, screw)
    pockets, pilots, items = [], [], []
    for y in _across(e, count):
        mouth = e.point(y, middle(e)[1])
        pockets.append(
            Pocket(
                exact_point(end.at.own_point(mouth)),
                tidy(own),
                MOUTH,
                clean(stock),
                clean(screw_shank(gauge) + 0.3),
            )
        )
        pilots.append(Bore(e.in_second(mouth), tidy(to.at.own_direction(way)), screw_pilot(gauge), clean(into)))
        items.append(_screw(e, gauge, screw, mouth, way))
    for pocket in pockets:
        pocket.check(end.wood.blank)
    closes = scaled(e.normal, -1.0)
    return Joint(
        "pocket screw",
        end.name,
        to.name,
        closes,
        (width_contacts(e),),
        (*sawn, *pockets),
        tuple(pilots),
        hardware=tuple(items),
        source=POCKETING,
    )


def screw_length(stock: float) -> float:
    """Of a pocket screw for stock of a thickness, mm (common practice); raises DesignError for thicker stock.

    >>> screw_length(19.05)
    31.75
    """
    for thickest, length in SCREWS:
        if stock <= thickest:
            return length
    raise DesignError(f"stock {stock:.1f} mm thick is too thick for pocket screws; {SCREWS[-1][0]:g} mm is the most")


def _across(e: Entry, count: int | None) -> Sequence[float]:
    low, high = e.section
    width = high - low
    if count is None:
        count = 1 if width < 2.0 * MARGIN + 2.0 * MOUTH else max(2, 1 + math.ceil((width - 2.0 * MARGIN) / SPACING))
    if count == 1:
        return (clean((low + high) / 2.0),)
    if (width - 2.0 * MARGIN) / (count - 1) < 1.5 * MOUTH:
        raise DesignError(
            f"{e.first.name}, {width:.1f} mm wide, is too narrow for {count} pockets {MOUTH:.1f} mm across; use fewer"
        )
    return tuple(clean(low + MARGIN + (width - 2.0 * MARGIN) * n / (count - 1)) for n in range(count))


def _check_point(e: Entry, way: Vector, into: float, screw: float) -> None:
    deep = into * -dot(way, e.normal)
    room = e.crossing(*middle(e)) * -dot(e.axis, e.normal)
    if into < 6.0 or deep > room - UNDER:
        fault = "hold too little" if into < 6.0 else "come through"
        raise DesignError(
            f"pocket screws {screw:.1f} mm long go {deep:.1f} mm into {e.second.name}, {room:.1f} mm deep there, and "
            f"would {fault}; they must go in 6 mm at least and stop {UNDER:g} mm short (common practice)"
        )


def _screw(e: Entry, gauge: str, length: float, mouth: Vector, way: Vector) -> Hardware:
    seat = added(mouth, scaled(way, -e.first.wood.thickness))
    return wood_screw(gauge, length, seat, way, (e.first.name, e.second.name))
