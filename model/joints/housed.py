"""Joints where a whole end or edge is let into another part: the dado (or groove) and the rabbet."""

from __future__ import annotations

import math
from dataclasses import replace

from model.cuts.cut import Cut, Side
from model.cuts.edges import Rabbet
from model.cuts.faces import Channel
from model.cuts.through import Notch, Profile
from model.errors import CutError, DesignError
from model.hardware import Hardware, finish_nail
from model.joints.joint import Contact, Joint, Stood, clean, spread
from model.joints.meetings.meeting import Meeting, meeting
from model.joints.meetings.shared_face import clear_of_edges
from model.joints.slanted_dado import LOW, leans, slanted_dado
from model.layout.outline import Outline, Point
from model.placement import Vector, added, scaled
from model.tolerance import CONTACT, SAME_POINT

HOUSING = "common practice: a dado a quarter to half the stock deep, commonly a third"
RABBETING = "common practice: a rabbet as wide as the stock it takes, half to two thirds deep"


def dado(
    shelf: Stood,
    into: Stood,
    *,
    fit: float = 0.0,
    room: float = 0.0,
    stopped: float = 0.0,
    through: bool = False,
    nails: str | None = None,
    nail_spacing: float = 120.0,
) -> Joint:
    """`shelf` let into a face of `into`, as deep as it runs in: a dado across the grain, a groove along it.

    Into a side that splays its end goes square, in a slanted dado right across it, which can't be stopped.

    fit: clearance in the width, mm. room: left open at the bottom for the shelf to swell into, mm; it is then not
    glued. stopped: mm from the shelf's front where the dado ends, the shelf notched to suit. through: a groove plowed
    from end to end of the other part. nails: finish-nail size driven from outside along the dado's centre line. Raises
    DesignError if the parts don't meet so, or the shelf stops short; CutError if the dado would come through.
    """
    if leans(shelf, into):
        if stopped > 0.0:
            raise DesignError(
                f"{into.name} leans to {shelf.name}, and a dado sawn at a slant runs right across; leave out stopped, "
                "or set the shelf back"
            )
        return slanted_dado(shelf, into, fit=fit, room=room, nails=nails, nail_spacing=nail_spacing)
    m = meeting(shelf, into)
    depth = _depth(m)
    lo, hi = _housed_reach(m, depth)
    first_cuts: tuple[Cut, ...] = ()
    shoulder: tuple[Contact, ...] = ()
    if stopped > 0.0:
        whole = (lo, hi)
        lo, hi, notch = _stopped(m, lo, hi, depth, stopped)
        first_cuts, shoulder = (notch,), _shoulder(m, whole, (lo, hi))
    channel = Channel(
        m.on_second(m.point(lo)), m.on_second(m.point(hi)), clean(shelf.wood.thickness + fit), depth + room, m.side
    )
    if through:
        channel = _end_to_end(channel, into)
    channel.check(into.wood.blank)
    glue = shelf.wood.thickness * (hi - lo) + 2.0 * depth * (hi - lo)
    return Joint(
        channel.name,
        shelf.name,
        into.name,
        scaled(m.normal, -1.0),
        (_seat(m, depth, lo, hi, room), *_cheeks(m, depth, lo, hi, fit), *shoulder),
        first_cuts,
        (channel,),
        fit,
        0.0 if room else glue,
        _nails(m, lo, hi, nails, nail_spacing) if nails else (),
        HOUSING,
    )


def rabbet(panel: Stood, into: Stood, *, nails: str | None = None, nail_spacing: float = 150.0) -> Joint:
    """`panel` let into a rabbet along an edge of `into`, which it overlaps there.

    nails: finish-nail size, driven through the panel. Raises DesignError if the panel does not lie square over an
    edge of the other part.
    """
    lows, highs = _box(panel, into)
    outline, thickness = into.wood.outline, into.wood.thickness
    x0, y0, x1, y1 = outline.bounds
    width_near, width_far = clean(highs[1] - y0), clean(y1 - lows[1])
    edge = "near" if lows[1] <= y0 + SAME_POINT else "far"
    width = width_near if edge == "near" else width_far
    side: Side = "back" if lows[2] <= SAME_POINT else "face"
    depth = clean(highs[2] if side == "back" else thickness - lows[2])
    reaches_edge = lows[1] <= y0 + SAME_POINT or highs[1] >= y1 - SAME_POINT
    if depth <= 0.0 or width <= 0.0 or not reaches_edge:
        raise DesignError(
            f"{panel.name} does not run into an edge of {into.name}; a rabbet needs it to overlap by the rabbet's depth"
        )
    start, stop = _stops(lows[0], highs[0], x0, x1, edge)
    cut = Rabbet(edge=edge, width=width, depth=depth, side=side, start=start, stop=stop)
    cut.check(into.wood.blank)
    length = min(highs[0], x1) - max(lows[0], x0)
    step = into.at.z if side == "face" else scaled(into.at.z, -1.0)
    wall = (lows[1] + highs[1]) / 2.0
    floor = thickness - depth if side == "face" else depth
    spots = [max(lows[0], x0) + t * length for t in (0.1, 0.5, 0.9)]
    on_floor = tuple(into.at.point((x, wall, floor)) for x in spots)
    outward = into.at.direction((0.0, -1.0 if edge == "near" else 1.0, 0.0))
    rises = min(highs[2], thickness) - floor if side == "face" else max(lows[2], 0.0) - floor
    inner = highs[1] if edge == "near" else lows[1]
    # low on the wall, where no dado that crosses the rabbet has taken it
    low = floor + math.copysign(LOW, rises)
    on_wall = tuple(into.at.point((x, inner, low)) for x in spots if y0 < inner < y1)
    return Joint(
        "rabbet",
        panel.name,
        into.name,
        scaled(outward, -1.0),
        (Contact(on_floor, step), *([Contact(on_wall, outward)] if on_wall else [])),
        (),
        (cut,),
        0.0,
        length * (width + depth),
        _rabbet_nails(panel, into, lows, highs, outward, nails, nail_spacing) if nails else (),
        RABBETING,
    )


def _end_to_end(channel: Channel, part: Stood) -> Channel:
    x0, _, x1, _ = part.wood.outline.bounds
    (start, y0), (end, y1) = channel.start, channel.end
    if abs(y0 - y1) > SAME_POINT:
        raise DesignError(f"the groove in {part.name} does not run along its grain; leave it as long as it need be")
    a, b = (x0, x1) if start < end else (x1, x0)
    return replace(channel, start=(a, y0), end=(b, y1))


def _depth(m: Meeting) -> float:
    depth = clean(m.depth)
    if depth <= 0.0:
        raise DesignError(
            f"{m.first.name} stops {-depth:.2f} mm short of {m.second.name}; a dado needs it to run in by its depth"
        )
    if depth >= m.second.wood.thickness:
        half = m.second.wood.thickness / 2.0
        raise CutError(
            f"{m.first.name} runs {depth:g} mm into {m.second.name}, which is {m.second.wood.thickness:g} mm thick; "
            f"a dado {half:g} mm deep, half the stock, is common practice"
        )
    return depth


def _housed_reach(m: Meeting, depth: float) -> tuple[float, float]:
    """The dado's ends along the meeting line: all of the shelf that is let in, within the other part."""
    lo, hi = m.reach()
    half = m.first.wood.thickness / 2.0
    ends = [m.on_second(m.point(s)) for s in (lo, hi)]
    run = _direction(ends[0], ends[1])
    across = (-run[1], run[0])
    level = across[0] * ends[0][0] + across[1] * ends[0][1]
    back = (-across[0], -across[1])
    strip = [(across, level + half), (back, half - level)]
    try:
        first, last = m.second.wood.outline.extent(run, strip)
    except DesignError:
        raise DesignError(
            f"{m.first.name} passes {m.second.name} where it has no wood; move one of them or make it larger"
        ) from None
    here = run[0] * ends[0][0] + run[1] * ends[0][1]
    return (max(lo, lo + first - here), min(hi, lo + last - here))


def _direction(a: Point, b: Point) -> Point:
    size = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    if size < SAME_POINT:
        raise DesignError("the two parts meet in a point only; a dado needs some length")
    return ((b[0] - a[0]) / size, (b[1] - a[1]) / size)


def _stopped(m: Meeting, lo: float, hi: float, depth: float, stopped: float) -> tuple[float, float, Notch]:
    """The dado ends `stopped` mm from the shelf's front (whichever end is nearer the front of the piece)."""
    if stopped >= hi - lo:
        raise DesignError(f"a dado {hi - lo:.1f} mm long can't stop {stopped:g} mm short; stop it shorter")
    front_first = m.point(lo)[1] < m.point(hi)[1]
    a, b = (lo - 1.0, lo + stopped) if front_first else (hi - stopped, hi + 1.0)
    corners = []
    for along, into in ((a, 0.0), (a, depth + 1.0), (b, depth + 1.0), (b, 0.0)):
        x, y, _ = m.first.at.own_point(m.point(along, into))
        corners.append((clean(x), clean(y)))
    try:
        notch = Outline(tuple(corners))
    except DesignError:  # the meeting line runs the other way round
        notch = Outline(tuple(reversed(corners)))
    return (b, hi, Notch(notch)) if front_first else (lo, a, Notch(notch))


def _seat(m: Meeting, depth: float, lo: float, hi: float, room: float) -> Contact:
    """Where the shelf's end sits on the bottom of its dado, or `room` mm off it."""
    first, last = m.reach(depth - CONTACT / 2.0)
    first, last = max(first, lo), min(last, hi)
    spots = (first + 0.1 * (last - first), (first + last) / 2.0, last - 0.1 * (last - first))
    return Contact(tuple(m.point(s, depth) for s in spots), m.normal, room)


def _cheeks(m: Meeting, depth: float, lo: float, hi: float, fit: float) -> tuple[Contact, ...]:
    """Both faces of the shelf against the walls of its dado, low down, where no other cut crosses it."""
    deep = depth - min(LOW, depth / 2.0)
    first, last = m.reach(deep)
    first, last = max(first, lo), min(last, hi)
    spots = [first + t * (last - first) for t in (0.1, 0.5, 0.9)]
    up, thickness = m.first.at.z, m.first.wood.thickness
    found = []
    for height, sign in ((0.0, 1.0), (thickness, -1.0)):
        points = [m.point(s, deep, height) for s in spots]
        walled = tuple(p for p in points if _has_wall(m.second, p, scaled(up, -sign)))
        found += [Contact(walled, scaled(up, sign), fit)] if walled else []
    return tuple(found)


def _has_wall(part: Stood, p: Vector, beyond: Vector) -> bool:
    """Whether a part goes on past a point: a dado flush with its end has no wall there, nor has one between tails."""
    x, y, _ = part.at.own_point(added(p, scaled(beyond, CONTACT)))
    cuts = (c for c in part.wood.cuts if not isinstance(c, Profile))
    gone = (f.outline for c in cuts for f in c.footprints(part.wood.blank) if f.through)
    return part.wood.outline.contains((x, y)) and not any(o.contains((x, y)) for o in gone)


def _shoulder(m: Meeting, whole: tuple[float, float], housed: tuple[float, float]) -> tuple[Contact, ...]:
    """In front of a stopped dado, the notched shelf against the side: near the dado, if no moulding reaches there."""
    (lo, hi), (start, end) = whole, housed
    p = m.point(start - 0.1 * (start - lo) if start > lo else end + 0.1 * (hi - end))
    return (Contact((p,), m.normal),) if clear_of_edges(m.second, p) else ()


def _nails(m: Meeting, lo: float, hi: float, penny: str, spacing: float) -> tuple[Hardware, ...]:
    through = m.second.wood.thickness
    return tuple(
        finish_nail(penny, m.point(lo + s, through), m.normal, (m.second.name, m.first.name))
        for s in spread(hi - lo, 30.0, spacing)
    )


def _box(panel: Stood, into: Stood) -> tuple[Vector, Vector]:
    """The panel's least and greatest corner in the other part's own coordinates; both must stand square."""
    seen = panel.at.seen_from(into.at)
    if any(1e-5 < abs(c) < 1.0 - 1e-5 for axis in (seen.x, seen.y, seen.z) for c in axis):
        raise DesignError(f"{panel.name} does not stand square to {into.name}; a rabbet needs it to")
    x0, y0, x1, y1 = panel.wood.outline.bounds
    corners = [seen.point((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (0.0, panel.wood.thickness)]
    lows = tuple(clean(min(c[i] for c in corners)) for i in range(3))
    highs = tuple(clean(max(c[i] for c in corners)) for i in range(3))
    return (lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2])


def _stops(low: float, high: float, x0: float, x1: float, edge: str) -> tuple[float | None, float | None]:
    """Start and stop along the edge (the far edge is run from the right), None where it runs right out."""
    at_left = None if low <= x0 + SAME_POINT else low - x0
    at_right = None if high >= x1 - SAME_POINT else high - x0
    if edge == "near":
        return at_left, at_right
    length = x1 - x0
    return (None if at_right is None else length - at_right, None if at_left is None else length - at_left)


def _rabbet_nails(
    panel: Stood, into: Stood, lows: Vector, highs: Vector, outward: Vector, penny: str, spacing: float
) -> tuple[Hardware, ...]:
    thickness = into.wood.thickness
    inset = (max(lows[2], 0.0) + min(highs[2], thickness)) / 2.0
    outer = lows[1] if into.at.own_direction(outward)[1] < 0 else highs[1]
    start = max(lows[0], 0.0)
    length = min(highs[0], into.wood.stock.length) - start
    return tuple(
        finish_nail(penny, into.at.point((start + s, outer, inset)), scaled(outward, -1.0), (panel.name, into.name))
        for s in spread(length, 40.0, spacing)
    )
