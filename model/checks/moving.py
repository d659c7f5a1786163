"""Do lids, doors and drawers move through their whole travel, and do they leave fingers whole?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.checks.finding import Answer, Finding, Proof
from model.checks.places import spot
from model.checks.skins import stood_skin
from model.checks.stood_solid import distance
from model.checks.turning import Stop, first_stop, in_reach, least_gap, pin_frame
from model.checks.ways import Ways
from model.joints.hinged import Hinged
from model.piece import Piece, Slide, Swing
from model.placement import Placement, Vector, scaled

CHECK = "moving"
SOURCE = "a part can't pass through wood; the travel is the design's own"
HINGE_GAP = "BS EN 71-1:2001, 4.10.3, for toys: a gap at a hinge that takes a 5 mm rod must take one of 12 mm"
SQUEEZE = "EN 14749 and EN 527-2, as quoted elsewhere: moving parts of indoor furniture under 8 or over 25 mm apart"

#: Gaps at the hinge that catch a finger, mm: from, up to.
CATCHES = (5.0, 12.0)

#: Distances between parts that pass each other that squeeze a finger, mm: from, up to.
SQUEEZES = (8.0, 25.0)

#: Below this angle, degrees, everything is still near where it shuts, and nothing is said of fingers.
SHUT = 10.0

#: Stations at which clearances are looked at, degrees apart.
STATION = 5.0

#: A part that stops within this of where it starts does not move at all, degrees.
STUCK = 1.0

#: A stop this near the pin is the hinge's own doing, mm.
AT_HINGE = 40.0

#: Kinds of joints that let go as a part moves.
LOOSE = ("rest",)


@dataclass(frozen=True)
class Turn:
    """Parts that turn together about one pin, and those that stay."""

    swing: Swing
    parts: tuple[str, ...]
    fixed: tuple[str, ...]


@dataclass(frozen=True)
class Clearance:
    """Nearest that the moving parts come to `other` on the way, mm, and at which angle, degrees; shut: how near they
    are when they have hardly begun."""

    other: str
    least: float
    angle: float
    shut: float

    @property
    def closes(self) -> bool:
        """Whether the two come nearer as the part opens."""
        return self.shut - self.least > 1.0


def moving(piece: Piece, ways: Ways) -> Answer:
    """Faults for parts that stop before their travel ends, notes of where fingers could be caught.

    ways: of the piece's solids. Raises DesignError for a pin with no direction.
    """
    findings: list[Finding] = []
    checked = held = 0
    for turn in turns(piece):
        found = list(_turning(piece, ways, turn))
        checked, held = checked + 1, held + all(f.severity != "fault" for f in found)
        findings += found
    for slide, parts in slides(piece):
        found = list(_sliding(piece, ways, slide, parts))
        checked, held = checked + 1, held + (not found)
        findings += found
    return Answer(tuple(findings), (Proof("moving parts clear through their travel", checked, held),))


def turns(piece: Piece) -> Iterator[Turn]:
    """Each swing with all that hangs on the part that swings."""
    done: list[tuple[Vector, Vector, float, str]] = []
    for swing in piece.swings:
        parts = carried(piece, [swing.part])
        if any(known[:3] == (swing.pin, swing.along, swing.opens) and known[3] in parts for known in done):
            continue
        done.append((swing.pin, swing.along, swing.opens, swing.part))
        yield Turn(swing, parts, tuple(n for n in piece.parts if n not in parts))


def slides(piece: Piece) -> Iterator[tuple[Slide, tuple[str, ...]]]:
    """Each slide with all that it carries; parts that slide as one are one slide."""
    done: set[str] = set()
    for slide in piece.slides:
        if slide.part not in done:
            parts = carried(piece, [slide.part])
            done.update(parts)
            yield slide, parts


def carried(piece: Piece, names: Sequence[str]) -> tuple[str, ...]:
    """Parts that go along with others: all that joints hold to them, but for hinges and rests, in the order of the
    piece's own steps of joining."""
    found = list(names)
    for name in found:
        for joint in piece.joints:
            if name not in (joint.first, joint.second) or joint.kind in LOOSE or isinstance(joint, Hinged):
                continue
            other = joint.second if joint.first == name else joint.first
            if other not in found:
                found.append(other)
    return tuple(found)


def _turning(piece: Piece, ways: Ways, turn: Turn) -> Iterator[Finding]:
    frame = pin_frame(turn.swing.pin, turn.swing.along)
    mover = [stood_skin(ways.solids[n], frame) for n in turn.parts]
    opens = math.radians(turn.swing.opens)
    stops = [
        (s, n, o)
        for n, a in zip(turn.parts, mover, strict=True)
        for o in turn.fixed
        if (s := first_stop(a, stood_skin(ways.solids[o], frame), opens)) is not None
    ]
    if stops:
        stop, part, other = min(stops, key=lambda s: (round(s[0].angle, 6), s[1], s[2]))
        yield _stopped(piece, ways, turn, frame, stop, part, other)
        return
    yield from _fingers(piece, ways, turn, clearances(ways, turn))


def clearances(ways: Ways, turn: Turn) -> list[Clearance]:
    """The nearest that each fixed part comes on the way, past SHUT degrees, if it is within SQUEEZES; as seen at
    stations STATION degrees apart."""
    frame = pin_frame(turn.swing.pin, turn.swing.along)
    mover = [stood_skin(ways.solids[n], frame) for n in turn.parts]
    count = max(1, math.ceil((turn.swing.opens - SHUT) / STATION))
    stations = [SHUT + (turn.swing.opens - SHUT) * n / count for n in range(count + 1)]
    found = []
    for other in turn.fixed:
        skin = stood_skin(ways.solids[other], frame)
        pairs = [in_reach(m, skin, SQUEEZES[1]) for m in mover]
        near = [(m, f) for m, f in pairs if len(m.corners) and len(f.corners)]
        if near:
            gaps = [min(least_gap(m, f, math.radians(a), SQUEEZES[1]) for m, f in near) for a in stations]
            least, angle = min(zip(gaps, stations, strict=True))
            if least < SQUEEZES[1]:
                found.append(Clearance(other, max(least, 0.0), angle, gaps[0]))
    return found


def _stopped(piece: Piece, ways: Ways, turn: Turn, frame: Placement, stop: Stop, part: str, other: str) -> Finding:
    degrees = math.degrees(stop.angle)
    where = frame.point(stop.where)
    near = spot(piece[other], where)
    message = (
        f"{part} opens {degrees:.1f}° of {turn.swing.opens:g}° and then runs into {other}, near {near}; "
        f"{_remedy(ways, turn, frame, stop)}"
    )
    return Finding(
        CHECK, "fault", (part, other), message, round(degrees, 2), turn.swing.opens, "degrees", SOURCE, where
    )


def _remedy(ways: Ways, turn: Turn, frame: Placement, stop: Stop) -> str:
    if math.degrees(stop.angle) < STUCK and _opens_the_other_way(ways, turn):
        return "it opens the other way, so turn the pin's direction round"
    if math.hypot(*stop.where[:2]) < AT_HINGE:
        return "set the pin further out, on the side it opens to, or leave more room at the hinge"
    return "move the pin, make one of them smaller, or let it open less"


def _opens_the_other_way(ways: Ways, turn: Turn) -> bool:
    frame = pin_frame(turn.swing.pin, scaled(turn.swing.along, -1.0))
    fixed = [stood_skin(ways.solids[o], frame) for o in turn.fixed]
    mover = [stood_skin(ways.solids[n], frame) for n in turn.parts]
    return all(first_stop(m, f, math.radians(turn.swing.opens)) is None for m in mover for f in fixed)


def _fingers(piece: Piece, ways: Ways, turn: Turn, near: Sequence[Clearance]) -> Iterator[Finding]:
    """Gaps at the hinge, shut, and what comes near on the way."""
    hung = {n for j in piece.joints if isinstance(j, Hinged) for n in (j.first, j.second) if n not in turn.parts}
    part = turn.swing.part
    for other in sorted(hung & {c.other for c in near}):
        gap, where = distance(ways.solids[part], ways.solids[other])
        if CATCHES[0] <= gap < CATCHES[1]:
            message = (
                f"the gap of {gap:.1f} mm between {part} and {other} at the hinge takes a finger in; make it less than "
                f"{CATCHES[0]:g} mm or {CATCHES[1]:g} mm and more"
            )
            yield Finding(CHECK, "caution", (part, other), message, round(gap, 3), CATCHES[0], "mm", HINGE_GAP, where)
    for c in near:
        if c.closes and c.other not in hung and SQUEEZES[0] < c.least < SQUEEZES[1]:
            message = (
                f"{part} passes {c.other} {c.least:.0f} mm off, at {c.angle:.0f}° open, and a finger can be squeezed "
                f"there; keep it under {SQUEEZES[0]:g} or over {SQUEEZES[1]:g} mm"
            )
            yield Finding(CHECK, "note", (part, c.other), message, round(c.least, 1), SQUEEZES[1], "mm", SQUEEZE)


def _sliding(piece: Piece, ways: Ways, slide: Slide, parts: Sequence[str]) -> Iterator[Finding]:
    fixed = [n for n in piece.parts if n not in parts]
    met = ways.first_met(parts, fixed, slide.along, slide.opens)
    if met is None:
        return
    near = spot(piece[met.other], met.where)
    message = (
        f"{met.moving} slides {met.travel:.1f} mm of {slide.opens:.0f} mm and then runs into {met.other}, near {near}; "
        "make room for it, or let it slide less"
    )
    pair = (met.moving, met.other)
    yield Finding(CHECK, "fault", pair, message, round(met.travel, 2), round(slide.opens, 2), "mm", SOURCE, met.where)
