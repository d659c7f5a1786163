"""An end slid sideways into the face of another board and held there: the sliding dovetail, through or stopped."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.meeting import Meeting, meeting
from model.layout.outline import Point
from model.layout.tails import slope_for
from model.placement import Vector, added, scaled, tidy, unit

SLIDING = "common practice: a third of the stock deep, slope 1:6 in softwood, 1:8 in hardwood"
#: Clearance across the tongue, mm: it slides the whole width of a board (common practice).
SLIDING_FIT = 0.1
#: How far inside the board's faces the tongue's tip stays, mm (common practice).
TIP_INSET = 1.0


@dataclass(frozen=True)
class _Slide:
    """Stations along the meeting line, mm: where the shelf begins (`enters`) and ends (`stops`), the tongue's own end
    (`home`), and where the socket opens (`mouth`)."""

    meeting: Meeting
    depth: float
    slope: float
    taper: float
    enters: float
    stops: float
    home: float
    mouth: float

    @property
    def closes(self) -> Vector:
        return tidy(scaled(self.meeting.along, 1.0 if self.stops > self.enters else -1.0))

    def narrowed(self, station: float) -> float:
        """How much each flank of the tongue has come in at a station, mm."""
        return self.taper / 2.0 * (station - self.enters) / (self.stops - self.enters)

    def half(self, station: float, into: float) -> float:
        """Half the tongue's thickness, `into` mm past the shoulder."""
        tip = self.meeting.first.wood.thickness / 2.0 - TIP_INSET
        return tip - self.slope * (self.depth - into) - self.narrowed(station)


def sliding_dovetail(
    shelf: Stood,
    into: Stood,
    *,
    stopped: float = 0.0,
    slope: float | None = None,
    taper: float = 0.0,
    fit: float = SLIDING_FIT,
) -> Joint:
    """The end of `shelf` slid from the back into a face of `into`, as deep as it runs in, and held there by its slope.

    The two must stand face square to face; the shelf may go slantwise across. stopped: mm from the shelf's front where
    the tongue and its socket end. slope: of the flanks, as 1/8. taper: how much narrower tongue and socket are at the
    front than at the back, mm, so that it binds only when home. fit: clearance across the tongue, mm, in all.
    Raises DesignError if the parts don't meet squarely or the shelf stops short, CutError if the tongue's neck would be
    too thin or the socket would come through. Source of the proportions: SLIDING.
    """
    m = meeting(shelf, into)
    depth = _depth(m)
    lo, hi = m.reach()
    front_first = m.point(lo)[1] < m.point(hi)[1]
    enters, stops = (hi, lo) if front_first else (lo, hi)
    way = math.copysign(1.0, stops - enters)
    steep = slope_for(shelf.wood.stock.species) if slope is None else slope
    mouth = _opening(m, enters, way, shelf.wood.thickness)
    s = _Slide(m, depth, steep, taper, enters, stops, stops - way * stopped, mouth)
    tongue, socket = _tongue(s, stopped), _socket(s, fit)
    tongue.check(shelf.wood.blank)
    socket.check(into.wood.blank)
    run = abs(s.home - s.enters)
    return Joint(
        "stopped sliding dovetail" if stopped > 0.0 else "sliding dovetail",
        shelf.name,
        into.name,
        s.closes,
        _contacts(s, fit),
        (tongue,),
        (socket,),
        fit,
        2.0 * run * depth * math.hypot(1.0, steep),
        source=SLIDING,
    )


def _depth(m: Meeting) -> float:
    depth, thick = clean(m.depth), m.second.wood.thickness
    if depth <= 0.0:
        raise DesignError(
            f"{m.first.name} stops {-depth:.2f} mm short of {m.second.name}; a sliding dovetail needs it to run in by "
            f"its depth, {thick / 3.0:.1f} mm by common practice"
        )
    if depth >= thick:
        raise DesignError(
            f"{m.first.name} runs {depth:g} mm into {m.second.name}, which is {thick:g} mm thick; a third of it, "
            f"{thick / 3.0:.1f} mm, is common practice"
        )
    return depth


def _opening(m: Meeting, enters: float, way: float, width: float) -> float:
    """The station at the edge of the second part by which the tongue goes in."""
    a, b = (m.on_second(m.point(s)) for s in (enters, enters - way))
    out: Point = (b[0] - a[0], b[1] - a[1])
    across: Point = (-out[1], out[0])
    level = across[0] * a[0] + across[1] * a[1]
    strip = [(across, level + width / 2.0), ((-across[0], -across[1]), width / 2.0 - level)]
    reach = m.second.wood.outline.extent(out, strip)[1] - (out[0] * a[0] + out[1] * a[1])
    return clean(enters - way * max(0.0, reach))


def _tongue(s: _Slide, heel: float) -> DovetailTongue:
    m = s.meeting
    start, end = (_on_first(m, station) for station in (s.enters, s.stops))
    out = (round(-m.slope[0], 12) + 0.0, round(-m.slope[1], 12) + 0.0)
    return DovetailTongue(start, end, out, s.depth, s.slope, TIP_INSET, s.taper, clean(heel))


def _socket(s: _Slide, fit: float) -> DovetailSocket:
    m = s.meeting
    width = 2.0 * s.half(s.mouth, 0.0) + fit
    narrowing = 2.0 * (s.narrowed(s.home) - s.narrowed(s.mouth))
    start, end = m.on_second(m.point(s.mouth)), m.on_second(m.point(s.home))
    return DovetailSocket(start, end, clean(width), s.depth, m.side, slope=s.slope, taper=clean(narrowing))


def _on_first(m: Meeting, station: float) -> Point:
    x, y, _ = m.first.at.own_point(m.point(station))
    return (clean(x), clean(y))


def _contacts(s: _Slide, fit: float) -> tuple[Contact, ...]:
    """The tip on the socket's floor, the shoulders on the face, the flanks on the walls."""
    m, half = s.meeting, s.meeting.first.wood.thickness / 2.0
    stations = [s.enters + t * (s.home - s.enters) for t in (0.1, 0.5, 0.9)]
    floor = tuple(m.point(station, s.depth) for station in stations)
    ledge = (half + s.half(s.enters, 0.0)) / 2.0
    shoulders = tuple(m.point(station, 0.0, half + hand * ledge) for station in stations for hand in (1.0, -1.0))
    return (
        Contact(floor, m.normal),
        Contact(shoulders, m.normal),
        *(_flank(s, stations, hand, fit) for hand in (1.0, -1.0)),
    )


def _flank(s: _Slide, stations: list[float], hand: float, fit: float) -> Contact:
    m, half = s.meeting, s.meeting.first.wood.thickness / 2.0
    level = s.depth / 2.0
    points = tuple(m.point(a, level, half + hand * s.half(a, level)) for a in stations)
    up = scaled(m.first.at.z, -hand)
    return Contact(points, unit(added(up, scaled(m.normal, -s.slope))), fit)
