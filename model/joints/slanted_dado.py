"""A shelf let into a side that splays: its square end in a dado that leans as the side does."""

from __future__ import annotations

from model.cuts.slanted_dado import SlantedDado
from model.errors import DesignError
from model.hardware import Hardware, finish_nail
from model.joints.joint import Contact, Joint, Stood, clean, spread
from model.joints.meetings.entering import Entry, entry, exact
from model.joints.meetings.meeting import SQUARE
from model.layout.outline import Point
from model.placement import Vector, added, dot, scaled
from model.tolerance import CONTACT

SLANTED_HOUSING = (
    "common practice: a dado a quarter to half the stock deep, sawn square to the shelf with the blade tilted as the "
    "side splays"
)
#: How far off a dado's bottom its walls are looked at, mm.
LOW = 0.5
#: How far from square a side may lean, degrees: no saw tilts its blade further (common practice).
MOST_SPLAY = 45.0
#: How narrow a strip of the side stands for a line across it, mm.
_LINE = 0.01


def leans(shelf: Stood, into: Stood) -> bool:
    """Whether a shelf's faces stand at a slant to a side's, so that only a slanted dado takes it."""
    return SQUARE < abs(dot(shelf.at.z, into.at.z)) < 1.0 - SQUARE


def slanted_dado(
    shelf: Stood,
    into: Stood,
    *,
    fit: float = 0.0,
    room: float = 0.0,
    nails: str | None = None,
    nail_spacing: float = 120.0,
) -> Joint:
    """`shelf` let with its square end into a face of `into` that leans, in a dado right across it.

    fit: clearance in the width, mm. room: left open at the bottom, mm; it is then not glued. nails: finish-nail size
    driven from outside along the shelf's grain. glue_area, mm2: the floor and both walls as far as the shelf is wide.
    Raises DesignError if no end of the shelf comes to a face of the other part, if it leans both ways or too far, or if
    a corner of its end stops short; CutError if the dado would come through.
    """
    e = entry(shelf, into)
    _require_one_lean(e)
    depth = _depth(e)
    low, high = _housed(e)
    made = SlantedDado(
        e.in_second(e.point((low + high) / 2.0, shelf.wood.thickness / 2.0)),
        e.turned_to_second((e.sense, 0.0, 0.0)),
        e.turned_to_second((0.0, 0.0, 1.0)),
        clean(shelf.wood.thickness + fit),
        depth + room,
    )
    made.check(into.wood.blank)
    glue = (shelf.wood.thickness + 2.0 * depth) * (high - low)
    return Joint(
        made.name,
        shelf.name,
        into.name,
        e.axis,
        (_seat(e, low, high, room), *_cheeks(e, low, high, fit)),
        (),
        (made,),
        fit,
        0.0 if room else glue,
        _nails(e, low, high, nails, nail_spacing) if nails else (),
        SLANTED_HOUSING,
    )


def _require_one_lean(e: Entry) -> None:
    """The shelf must come to a face, leaning the way its end is thick and no other."""
    shelf, side = e.first.name, e.second.name
    if e.near.edge is not None:
        raise DesignError(f"{shelf} runs into the {e.near.name} edge of {side}; a dado is let into a face")
    run = e.turned_to_second((0.0, 1.0, 0.0))
    if max(abs(run[0]), abs(run[1])) < 1.0 - SQUARE:
        raise DesignError(
            f"{shelf} leans to {side} across its width too; turn it so that its edges run square across {side} or "
            "along its grain"
        )
    if e.lean > MOST_SPLAY:
        raise DesignError(
            f"{side} leans {e.lean:.1f} degrees from square to {shelf}; a dado is sawn at no more than "
            f"{MOST_SPLAY:.0f} (common practice)"
        )


def _depth(e: Entry) -> float:
    """Down the middle of its end, mm."""
    (y0, y1), thickness = e.section, e.first.wood.thickness
    least = min(e.run_in((y0 + y1) / 2.0, z) for z in (0.0, thickness))
    if least <= CONTACT:
        raise DesignError(
            f"a corner of {e.first.name} stops {max(-least, 0.0):.2f} mm short of {e.second.name}, which leans "
            f"{e.lean:.1f} degrees; all of its end must run in, so let it reach at least "
            f"{CONTACT - least:.2f} mm further"
        )
    return exact(e.run_in((y0 + y1) / 2.0, thickness / 2.0))


def _housed(e: Entry) -> tuple[float, float]:
    """From where to where across the shelf, in its own y, its end lies within the side, mm."""
    y0, y1 = e.section
    middle = e.in_second(e.point((y0 + y1) / 2.0, e.first.wood.thickness / 2.0))
    way = e.turned_to_second((0.0, 1.0, 0.0))
    run, square = (way[0], way[1]), (-way[1], way[0])
    level = _along(square, middle)
    strip = [(square, level + _LINE), ((-square[0], -square[1]), _LINE - level)]
    first, last = e.second.wood.outline.extent(run, strip)
    here = _along(run, middle) - (y0 + y1) / 2.0
    return clean(max(y0, first - here)), clean(min(y1, last - here))


def _along(way: Point, p: Vector) -> float:
    return way[0] * p[0] + way[1] * p[1]


def _seat(e: Entry, low: float, high: float, room: float) -> Contact:
    """The shelf's end on the floor of its dado, or `room` mm off it."""
    middle = e.first.wood.thickness / 2.0
    points = [e.first.at.point((e.tip, y, middle)) for y in _spots(low, high)]
    return Contact(tuple(_walled(e, points, e.axis)), scaled(e.axis, -1.0), room)


def _cheeks(e: Entry, low: float, high: float, fit: float) -> list[Contact]:
    """Both faces of the shelf against the walls of its dado, low down, where no other cut crosses it."""
    up, found = e.first.at.z, []
    for height, sign in ((0.0, 1.0), (e.first.wood.thickness, -1.0)):
        run = e.run_in((low + high) / 2.0, height)
        x = e.tip - e.sense * min(LOW, run / 2.0)
        points = [e.first.at.point((x, y, height)) for y in _spots(low, high)]
        walled = _walled(e, points, scaled(up, -sign))
        found += [Contact(tuple(walled), scaled(up, sign), fit)] if walled else []
    return found


def _spots(low: float, high: float) -> list[float]:
    return [low + share * (high - low) for share in (0.1, 0.5, 0.9)]


def _walled(e: Entry, points: list[Vector], beyond: Vector) -> list[Vector]:
    """The points past which the side goes on; past an end of it, or in a hollow, it doesn't."""
    outline = e.second.wood.outline
    return [p for p in points if outline.contains(e.in_second(added(p, scaled(beyond, CONTACT)))[:2])]


def _nails(e: Entry, low: float, high: float, penny: str, spacing: float) -> tuple[Hardware, ...]:
    """From outside, along the shelf's grain, into the middle of its end."""
    middle, names = e.first.wood.thickness / 2.0, (e.second.name, e.first.name)
    stations = [low + s for s in spread(high - low, 30.0, spacing)]
    return tuple(
        finish_nail(penny, e.point(y, middle, e.crossing(y, middle)), scaled(e.axis, -1.0), names) for y in stations
    )
