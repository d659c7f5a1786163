"""Where would light show through a joint?

A joint shows along the rim of the surfaces that are meant to meet: there an eye sees into whatever stands open. Rooms
that a joint is made to leave (its contacts' gaps), surfaces it does not name (a mortise's bottom) and rims that no eye
gets near (the wood about them closes them in) are none of this check's business.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from model.checks.finding import Answer, Finding, Proof
from model.checks.places import spot
from model.checks.solids.clearance import Surfaces, clearances, surfaces, told
from model.checks.solids.rims import RimPiece, open_rim
from model.checks.solids.sight import Sight, sight_of
from model.checks.solids.stood_solid import StoodSolid, stood_solids
from model.joints.joint import Joint
from model.piece import Piece
from model.placement import Placement, Vector, added, cross, scaled
from model.tolerance import SAME_POINT

if TYPE_CHECKING:
    import cadquery as cq

CHECK = "light"
SOURCE = "common practice: a line of 0.15 mm is where a joint begins to look open"

#: An eye comes no nearer to the wood than this, mm.
EYE = 100.0

#: How far outside the rim the eye's line starts, mm, so that the wood on either side is clear of it.
OUTSIDE = 0.01

#: Lines of sight into a joint, degrees: how far they rise off its surfaces, and how far they turn along its rim.
RISES, TURNS = (5.0, 18.0, 42.0, 71.0), (-38.0, 3.0, 41.0)

#: Pieces of rim from which a line right through is tried, spread over all that show.
MOST_TRIED = 24

#: Lines of sight along a joint's surfaces, through it, turned to both sides, degrees.
THROUGH = (0.0, -7.0, 7.0, -21.0, 21.0, -44.0, 44.0)


def light(piece: Piece, shapes: Mapping[str, cq.Shape], widest: float) -> Answer:
    """Cautions for joints that show a line open more than `widest` mm, beyond the gap they are made to leave; among the
    figures, the `clearances` of all joints, as `clearance.told` has them.

    shapes: every part's solid where it stands, by name. Raises DesignError if a distance can't be measured.
    """
    room = _Room({s.name: s for s in stood_solids(shapes)})
    shown = [joint for joint in piece.joints if any(c.points for c in joint.contacts)]
    faced = [(joint, surfaces(joint, room.solids)) for joint in shown]
    findings = [f for joint, met in faced if (f := _finding(piece, joint, met, room, widest)) is not None]
    proofs = (
        Proof("joints measured all along where they meet", len(shown), sum(bool(met) for _, met in faced)),
        Proof("joints that show no light", len(shown), len(shown) - len(findings)),
    )
    ordered = sorted(findings, key=lambda f: (f.parts, f.message))
    return Answer(tuple(ordered), proofs, {"clearances": told(clearances(piece, shapes))})


class _Room:
    """The parts where they stand, and what an eye sees of them."""

    def __init__(self, solids: Mapping[str, StoodSolid]) -> None:
        self.solids = solids

    @cached_property
    def sight(self) -> Sight:
        """Made only where something stands open."""
        return sight_of(self.solids)


@dataclass(frozen=True)
class _Open:
    """A line that shows: how wide at its widest, mm, and where; how long; whether one sees right through."""

    wide: float
    limit: float
    where: Vector
    length: float
    through: bool


def _finding(piece: Piece, joint: Joint, met: Sequence[Surfaces], room: _Room, widest: float) -> Finding | None:
    lines = [_line(s, room, s.gap + widest) for s in met if s.met.fitting]
    shown = max((line for line in lines if line is not None), key=lambda line: line.wide - line.limit, default=None)
    if shown is None:
        return None
    first, second = joint.first, joint.second
    lit = ", and light shows through" if shown.through else ""
    message = (
        f"the {joint.kind} joint of {first} and {second} shows a gap of up to {shown.wide:.2f} mm, {shown.length:.0f} "
        f"mm of it in sight{lit}, near {spot(piece[first], shown.where)}; cut or plane the two to meet"
    )
    parts = (first, second)
    return Finding(CHECK, "caution", parts, message, round(shown.wide, 4), shown.limit, "mm", SOURCE, shown.where)


def _line(met: Surfaces, room: _Room, limit: float) -> _Open | None:
    """What shows of one contact's rim, or None."""
    if met.met.greatest <= limit:
        return None
    pieces = [_stood(p, met.at) for p in open_rim(met.met, limit)]
    if not pieces:
        return None
    near = room.sight.near((p.middle for p in pieces), EYE)
    seen = [p for p in pieces if _seen(p, near, room.sight)]
    if not seen:
        return None
    worst = _foremost(seen)
    reach = _span(seen) + EYE
    through = any(_through(p, room.sight, reach) for p in seen[:: 1 + len(seen) // MOST_TRIED])
    return _Open(worst.wide, limit, worst.widest, sum(p.length for p in seen), through)


def _foremost(pieces: Sequence[RimPiece]) -> RimPiece:
    """The widest; of several, the one nearest to the middle of them all."""
    widest = max(p.wide for p in pieces)
    alike = [p for p in pieces if p.wide > widest - SAME_POINT]
    middle = [sum(c) / len(alike) for c in zip(*(p.widest for p in alike), strict=True)]
    return min(alike, key=lambda p: math.dist(p.widest, middle))


def _stood(p: RimPiece, at: Placement) -> RimPiece:
    """A piece of rim where it stands in the piece."""
    return RimPiece(
        at.point(p.middle), at.direction(p.out), at.direction(p.across), p.wide, at.point(p.widest), p.length
    )


def _seen(p: RimPiece, near: Sight, sight: Sight) -> bool:
    """Whether an eye finds a line to a piece of rim that is clear of wood. Lines that lie in the joint's own surfaces
    don't count: they would see a seam inside it through its open end."""
    start = added(p.middle, scaled(p.out, OUTSIDE))
    lines = [_line_of(p, rise, turn) for rise in (*RISES, *(-r for r in RISES)) for turn in TURNS]
    clear = [line for line, seen in zip(lines, near.near([start], EYE).free(start, lines), strict=True) if seen > EYE]
    # a start in the wood sees nothing near only if it is deep in it; asked of all the wood there is
    return bool(clear) and bool(sight.free(start, clear[:1])[0] > EYE)


def _through(p: RimPiece, sight: Sight, reach: float) -> bool:
    """Whether a line goes in at a piece of rim, between the two parts, and out again to where an eye may be."""
    inward = [_line_of(p, 0.0, 180.0 + turn) for turn in THROUGH]
    return bool((sight.free(added(p.middle, scaled(p.out, OUTSIDE)), inward) > reach).any())


def _line_of(p: RimPiece, rise: float, turn: float) -> Vector:
    """The unit direction that rises off the joint's surfaces and turns along its rim, degrees, from straight out."""
    r, t = math.radians(rise), math.radians(turn)
    aside = scaled(cross(p.across, p.out), math.sin(t))
    return added(scaled(added(scaled(p.out, math.cos(t)), aside), math.cos(r)), scaled(p.across, math.sin(r)))


def _span(pieces: Sequence[RimPiece]) -> float:
    """The diagonal of what holds all the pieces, mm."""
    return math.hypot(*(max(c) - min(c) for c in zip(*(p.middle for p in pieces), strict=True)))
