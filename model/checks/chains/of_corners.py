"""The chains of corners and crossings: dovetails, box fingers, laps, slots, and faces sawn at an angle."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model.checks.chains.chain import CLOSED, EASE, FLUSH, HIDDEN, OPEN, Chain, Window, gains, loses
from model.checks.chains.fitted import Fitted
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.laps import Lap, Slot
from model.cuts.sawn import SawCut, SawnGroove
from model.layout.outline import Outline
from model.placement import dot


def dovetailed(f: Fitted) -> Iterator[Chain]:
    """Every tail in its socket by its width, sawn by hand on both sides of both; the pins as long as the tails are
    thick."""
    tails, pins = f.in_first(Tails)[0], f.in_second(Pins)[0]
    wide = sorted(_mean_width(tail, 0) for tail in tails.tails)
    sockets = sorted(_mean_width(socket, 1) for socket in pins.sockets)
    cure = f.maker.fit("mark the pins from the tails, sawn first, and pare to the line")
    for n, (tail, socket) in enumerate(zip(wide, sockets, strict=True), 1):
        links = gains(f.by_hand_in_second("socket", "sawn", pins, which=n))
        links += loses(f.by_hand_in_first("tail", "sawn", tails, which=n))
        yield f.chain("", socket - tail, links, f.held(0.0), cure, f.second)
    deep = gains(f.by_hand_in_second("depth of sockets", "routed", pins)) + loses(f.maker.thickness(f.first.name))
    if pins.lap(f.second.wood.blank) <= 0.0:
        yield f.chain("flush", 0.0, deep, HIDDEN, f.maker.fit("gauge the baseline from the other board"), f.second)


def _mean_width(outline: Outline, along: int) -> float:
    """Square to the axis that a tail or a socket runs along, mm."""
    x0, y0, x1, y1 = outline.bounds
    return outline.area / ((x1 - x0) if along == 0 else (y1 - y0))


def fingered(f: Fitted) -> Iterator[Chain]:
    """Box fingers of both parts are cut on one jig: its pin's error widens every finger as it narrows its slot."""
    ours, theirs = f.in_first(Fingers)[0], f.in_second(Fingers)[0]
    cure = f.maker.fit("set the jig's pin on two scraps until they go together by hand")
    for n, finger in enumerate(theirs.tails, 1):
        _, y0, _, y1 = finger.bounds
        slot = f.of_first("slot between fingers", y1 - y0, "routed", ours, which=n)
        mate = f.of_second("slot between fingers", y1 - y0, "routed", theirs, which=n)
        yield f.chain("", f.joint.fit, gains(slot, mate), f.held(f.joint.fit), cure)


def halved(f: Fitted) -> Iterator[Chain]:
    """Two laps are flush together, and what crosses goes between its shoulders."""
    ours, theirs = f.in_first(Lap)[0], f.in_second(Lap)[0]
    deep = gains(f.of_first("depth of lap", ours.depth, "routed", ours))
    deep += gains(f.of_second("depth of lap", theirs.depth, "routed", theirs))
    links = deep + loses(f.maker.thickness(f.second.name))
    cure = f.maker.fit("set the second lap by the first, on a scrap")
    yield f.chain("faces flush", 0.0, links, HIDDEN, cure, f.second)
    for lap, size_of, part, other in ((ours, f.of_first, f.first, f.second), (theirs, f.of_second, f.second, f.first)):
        if lap.passes:
            wide, crossing = lap.width(part.wood.blank), other.wood.stock.width
            # a shaped part is narrower than its stock where it crosses
            room = wide - crossing if abs(wide - crossing) < crossing / 4.0 else f.joint.fit
            links = gains(size_of("width of lap", wide, "routed", lap)) + loses(f.maker.width(other.name))
            cure = f.maker.fit("saw the second shoulder by the other part laid on it")
            yield f.chain("shoulders", room, links, f.held(room), cure, part)


def slotted(f: Fitted) -> Iterator[Chain]:
    """Each slot as wide as the other part is thick, and both together as long as the parts have height in common."""
    ours, theirs = f.in_first(Slot)[0], f.in_second(Slot)[0]
    cosine = abs(dot(f.first.at.z, f.second.at.z))
    for slot, size_of, part, other in (
        (ours, f.of_first, f.first, f.second),
        (theirs, f.of_second, f.second, f.first),
    ):
        across = other.wood.thickness + part.wood.thickness * cosine
        room = slot.width - across / math.sqrt(1.0 - cosine**2)
        links = gains(size_of("width of slot", slot.width, "sawn", slot)) + loses(f.maker.thickness(other.name))
        yield f.chain("", room, links, f.held(room), f.maker.fit("file the slots to the other part"), part)
    links = gains(f.of_first("length of slot", ours.length, "sawn", ours))
    links += gains(f.of_second("length of slot", theirs.length, "sawn", theirs))
    links += loses(f.maker.width(f.second.name))
    yield f.chain("edges flush", 0.0, links, Window(-2.0 * FLUSH, 2.0 * FLUSH), f.maker.fit("file the slots deeper"))


def sawn_faces(f: Fitted) -> Iterator[Chain]:
    """Two faces sawn at one angle, which lean alike and so open twice as far; a spline or keys in their slots."""
    cut, span = f.in_first(SawCut)[0], _span(f)
    pair = ((f.first.name, f.second.name), (f.second.name, f.first.name))
    leans = gains(*(f.maker.angled(one, _slope(cut), span, f"for {other}") for one, other in pair))
    cure = f.maker.fit("plane both faces on a shooting board until they close")
    yield f.chain("", 0.0, leans, CLOSED, cure)
    strips = [h for h in f.joint.hardware if h.kind in ("spline", "key")]
    grooves = (*((g, f.of_first) for g in f.in_first(SawnGroove)), *((g, f.of_second) for g in f.in_second(SawnGroove)))
    for n, (groove, size_of) in enumerate(grooves if strips else (), 1):
        strip = strips[0]
        room = groove.width - strip.thickness
        links = gains(size_of(f"width of {groove.called}", groove.width, "routed", groove, which=n))
        links += loses(f.maker.bought(f"{strip.kind} thickness", strip.thickness))
        cure = f.maker.fit(f"plane each {strip.kind} to fit")
        yield f.chain(strip.kind, room, links, Window(-EASE, room + OPEN), cure)


def _slope(cut: SawCut) -> float:
    """Of the saw to the board it cuts, degrees."""
    return math.degrees(math.acos(min(1.0, max(abs(c) for c in cut.out))))


def _span(f: Fitted) -> float:
    """How wide the face is across which it may lean, mm."""
    (along, _, up), wood = f.in_first(SawCut)[0].out, f.first.wood
    if abs(up) > 0.1:  # a standing miter or a scarf leans through the thickness, a flat miter across the width
        return wood.thickness / math.sqrt(max(1.0 - up * up, 1e-6))
    return wood.stock.width / max(abs(along), 0.1)
