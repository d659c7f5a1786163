"""Do lids, doors and drawers move through their whole travel, leave fingers whole, and have play enough and no more?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.checks.finding import Answer, Finding, Proof
from model.checks.places import spot
from model.checks.solids.skins import stood_skin
from model.checks.travel.drawer_play import EACH_SIDE, play, played
from model.checks.travel.finger_traps import CATCHES, SQUEEZES, Turn, fingers
from model.checks.travel.turning import Stop, first_stop, pin_frame
from model.checks.travel.ways import Ways
from model.joints.hinged import Hinged
from model.piece import Piece, Slide
from model.placement import Placement, Vector, scaled

CHECK = "moving"
SOURCE = "a part can't pass through wood; the travel is the design's own"

#: A part that stops within this of where it starts does not move at all, degrees.
STUCK = 1.0

#: A stop this near the pin is the hinge's own doing, mm.
AT_HINGE = 40.0

#: Kinds of joints that let go as a part moves.
LOOSE = ("rest",)


@dataclass(frozen=True)
class Limits:
    """From and up to, mm: gaps at a hinge that catch a finger, distances in passing that squeeze one, and the play that
    a drawer is to have on each side."""

    hinge_gap: Sequence[float] = CATCHES
    finger_gap: Sequence[float] = SQUEEZES
    drawer_play: Sequence[float] = EACH_SIDE


def moving(piece: Piece, ways: Ways, limits: Limits | None = None) -> Answer:
    """Faults for parts that stop before their travel ends, notes of where fingers could be caught, and how much play
    each drawer has, with cautions for too little and too much.

    ways: of the piece's solids. Raises DesignError for a pin with no direction.
    """
    limits = limits or Limits()
    moved = [list(_turning(piece, ways, turn, limits)) for turn in turns(piece)]
    moved += [list(_sliding(piece, ways, slide, parts)) for slide, parts in slides(piece)]
    held = sum(all(f.severity != "fault" for f in found) for found in moved)
    plays = [found for slide, parts in slides(piece) if (found := play(piece, ways, slide, parts)) is not None]
    told = [list(played(found, limits.drawer_play)) for found in plays]
    fair = sum(all(f.severity == "note" for f in found) for found in told)
    proofs = (
        Proof("moving parts clear through their travel", len(moved), held),
        Proof("drawers with play enough and no more", len(plays), fair),
    )
    figures = {"drawer play": [found.as_dict() for found in plays]} if plays else {}
    return Answer(tuple(f for found in (*moved, *told) for f in found), proofs, figures)


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


def _turning(piece: Piece, ways: Ways, turn: Turn, limits: Limits) -> Iterator[Finding]:
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
    yield from fingers(piece, ways, turn, limits.hinge_gap, limits.finger_gap)


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
