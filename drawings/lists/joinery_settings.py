"""What is set for the cuts by which parts join at their ends: tenons and mortises, laps, dovetails, splines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from drawings.cutting.finished import finished_blank, finished_bounds
from drawings.lists.fences import nearer_fence, shoulder_stop
from drawings.lists.hole_entry import entry
from drawings.lists.joinery_sizes import (
    baseline_depth,
    end_of,
    from_arris,
    lean,
    open_depth,
    sawn,
    sawn_face,
    slot_angle,
    splays,
    tenon_length,
)
from drawings.lists.notch_walls import notch_bounds
from drawings.lists.setting import LAID_OUT, Setting, Settings
from drawings.lists.stock_settings import channel, leaning_in_words, plunged
from drawings.lists.teller import edge_in_words
from model.cuts.cut import Cut
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.laps import Lap, Slot
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.sawn import SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.tenons import Kerf, TenonedEnd
from model.part import Part
from model.placement import scaled
from model.tolerance import SAME_POINT

#: A mortise that leans no more than this is chopped square, degrees.
_SQUARE = 0.05


def _tenoned_end(cut: TenonedEnd, part: Part) -> Iterator[Setting]:
    """The shoulder's saw cut, its stop at the tenon's length; then the cheeks and the edges of each tenon."""
    shoulder, end = sawn(cut.shoulder), edge_in_words(cut.end)
    long = max(tenon_length(cut, t, part.blank) for t in cut.tenons)
    lows = {round(t.rise, 6) for t in cut.tenons} | {
        round(part.thickness - t.rise - t.thickness, 6) for t in cut.tenons
    }
    bare = [low for low in sorted(lows) if low > SAME_POINT]
    deep = bare[0] if bare else None
    miter, bevel = abs(shoulder.miter), abs(shoulder.bevel)
    yield Setting("tenon shoulder", None, deep, miter, long, "tip of the tenon", end, bevel)
    for tenon in cut.tenons:
        long = tenon_length(cut, tenon, part.blank)
        yield Setting("tenon cheeks", tenon.thickness, long, None, tenon.rise, "back side", end)
        if tenon.width < part.stock.width - SAME_POINT:
            inset = tenon.inset - finished_bounds(part)[1]
            yield Setting("tenon edges", tenon.width, long, None, inset, "near edge", end)
    if cut.haunch is not None:
        yield Setting("haunch", cut.haunch.thickness, tenon_length(cut, cut.haunch, part.blank), place=end)


def _mortise(cut: Mortise, part: Part) -> Iterator[Setting]:
    """The chisel's width and depth; in an edge with its height from the back side, to the middle."""
    into = scaled(cut.mouth, -1.0)
    made = plunged(cut.name, cut.width, cut.depth, cut.at, into, part)
    if lean(cut) <= _SQUARE:
        yield made
        return
    found = replace(entry(cut.at, into, part), into=cut.into)
    side, _, laid_out = made.place.partition(",")
    place = f"{side}{leaning_in_words(found)}{',' * bool(laid_out)}{laid_out}"
    yield replace(made, angle=lean(cut), depth=None if cut.through else made.depth, place=place)


def _open_mortise(cut: OpenMortise, part: Part) -> Iterator[Setting]:
    deep = open_depth(cut, finished_blank(part))
    yield Setting(cut.name, cut.width, deep, None, cut.rise, "back side", edge_in_words(cut.end))


def _kerf(cut: Kerf, part: Part) -> Iterator[Setting]:
    end = "right end" if cut.into[0] < 0.0 else "left end"
    yield Setting(cut.name, cut.width, cut.depth, place=f"tenon on {end}, {LAID_OUT}")


def _tails(cut: Tails, part: Part) -> Iterator[Setting]:
    tail = splays(cut, part.blank)[0]
    slope = math.degrees(math.atan(tail.slope))
    end = edge_in_words(end_of(cut.shoulder))
    yield Setting("tails", None, tail.length, slope, place=f"{end}, {LAID_OUT} on {cut.side} side")


def _fingers(cut: Fingers, part: Part) -> Iterator[Setting]:
    fingers = splays(cut, part.blank)
    first, wide = fingers[0], max(f.width for f in fingers)
    inset = first.wide[0] - finished_bounds(part)[1]
    yield Setting(cut.name, wide, first.length, None, inset, "near edge", edge_in_words(end_of(cut.shoulder)))


def _pins(cut: Pins, part: Part) -> Iterator[Setting]:
    slope = math.degrees(math.atan(splays(cut, part.blank)[0].slope))
    long = baseline_depth(cut, part.blank)
    place = f"{edge_in_words(end_of(cut.baseline))}, {LAID_OUT}"
    yield Setting("sockets between pins", None, cut.depth, slope, long, "end", place)


def _lap(cut: Lap, part: Part) -> Iterator[Setting]:
    """Each shoulder is a line of its own, the angle off square."""
    for shoulder in cut.shoulders:
        stop, wide = shoulder_stop(shoulder, part), cut.width(finished_blank(part))
        off = abs(90.0 - shoulder.angle) if stop.axis == 0 else shoulder.angle
        yield Setting("lap", wide, cut.depth, off, stop.distance, stop.against, f"{cut.side} side")


def _slot(cut: Slot, part: Part) -> Iterator[Setting]:
    x0, y0, x1, y1 = notch_bounds(cut, part)
    upright = abs((x1 - x0) - cut.width) < abs((y1 - y0) - cut.width)
    place = "right through, across the grain" if upright else "right through, along the grain"
    yield Setting(cut.name, cut.width, cut.length, place=f"{place}, {LAID_OUT}")


def _dovetail_tongue(cut: DovetailTongue, part: Part) -> Iterator[Setting]:
    slope = math.degrees(math.atan(cut.slope))
    end = "right end" if cut.out[0] > 0.7 else "left end" if cut.out[0] < -0.7 else "edge"
    yield Setting(cut.name, cut.neck(part.thickness), cut.length, slope, cut.inset, "face and back side", end)


def _dovetail_socket(cut: DovetailSocket, part: Part) -> Iterator[Setting]:
    yield from channel(cut, part, math.degrees(math.atan(cut.slope)))


def _sawn_groove(cut: SawnGroove, part: Part) -> Iterator[Setting]:
    """A level groove from the side on the fence, a slanting one down the sawn face; a key's slot with the work in a
    cradle, from edge to edge."""
    end = ("left end" if cut.into[0] > 0.0 else "right end") if abs(cut.into[0]) >= abs(cut.into[1]) else "edge"
    sawn = sawn_face(cut, part)
    if sawn is None:
        against = "near edge, to its middle" if end != "edge" else "left end, to its middle"
        middle = cut.at[1] if end != "edge" else cut.at[0]
        if max(map(abs, cut.across)) < 1.0 - SAME_POINT:  # along a leaning arris, which no edge tells
            yield Setting(cut.called, cut.width, cut.depth, slot_angle(cut), place=f"{end}, in a cradle, {LAID_OUT}")
        else:
            yield Setting(cut.called, cut.width, cut.depth, slot_angle(cut), middle, against, f"{end}, in a cradle")
    elif abs(cut.across[2]) > 1.0 - SAME_POINT:
        yield Setting(cut.called, cut.width, cut.depth, None, cut.at[2], "back side, to its middle", end)
    else:
        tilt = abs(math.degrees(math.asin(max(-1.0, min(1.0, cut.into[2])))))
        fence = math.dist(*from_arris(cut, sawn, part))
        yield Setting(cut.called, cut.width, cut.depth, None, fence, "sharp arris of the sawn face", end, tilt)


def _slanted_dado(cut: SlantedDado, part: Part) -> Iterator[Setting]:
    """The head tilted as the dado leans, the fence at the nearer end or edge, to the nearer wall at the mouth."""
    fence = nearer_fence(part, cut.axis, *cut.mouth)
    away = (cut.into[cut.axis] > 0.0) is (fence.wall > fence.end)
    against = f"{fence.against}, leaning {'away from' if away else 'toward'} it"
    place = f"{cut.side} side from {fence.named}"
    yield Setting(cut.name, cut.width, cut.wall_depth, None, fence.distance, against, place, cut.lean)


JOINERY_SETTINGS: dict[type[Cut], Settings] = {
    TenonedEnd: _tenoned_end,
    Mortise: _mortise,
    OpenMortise: _open_mortise,
    Kerf: _kerf,
    Tails: _tails,
    Fingers: _fingers,
    Pins: _pins,
    Lap: _lap,
    Slot: _slot,
    DovetailTongue: _dovetail_tongue,
    DovetailSocket: _dovetail_socket,
    SawnGroove: _sawn_groove,
    SlantedDado: _slanted_dado,
}
