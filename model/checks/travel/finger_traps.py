"""Does what turns leave fingers whole: at the hinge, and where it passes near something on its way?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.checks.finding import Finding
from model.checks.solids.skins import stood_skin
from model.checks.solids.stood_solid import distance
from model.checks.travel.turning import in_reach, least_gap, pin_frame
from model.checks.travel.ways import Ways
from model.joints.hinged import Hinged
from model.piece import Piece, Swing

CHECK = "moving"
HINGE_GAP = (
    "BS EN 71-1:2001, 4.10.3, for toys: a gap at a hinge that takes a 5 mm rod must take one of 12 mm; so CEN/TR "
    "13387:2004, as ANEC's report on finger entrapment quotes it; [place] hinge_gap of the order"
)
SQUEEZE = (
    "EN 14749, EN 527-2 and EN 1335-2, as KF Quality (2021) quotes them: moving parts of indoor furniture under 8 or "
    "over 25 mm apart in every position; [place] finger_gap of the order"
)

#: Gaps at the hinge that catch a finger, mm: from, up to.
CATCHES = (5.0, 12.0)

#: Distances between parts that pass each other that squeeze a finger, mm: from, up to.
SQUEEZES = (8.0, 25.0)

#: Below this angle, degrees, everything is still near where it shuts, and nothing is said of fingers.
SHUT = 10.0

#: Stations at which clearances are looked at, degrees apart.
STATION = 5.0


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


def clearances(ways: Ways, turn: Turn, within: float = SQUEEZES[1]) -> list[Clearance]:
    """The nearest that each fixed part comes on the way, past SHUT degrees, if it is within so many mm; as seen at
    stations STATION degrees apart."""
    frame = pin_frame(turn.swing.pin, turn.swing.along)
    mover = [stood_skin(ways.solids[n], frame) for n in turn.parts]
    count = max(1, math.ceil((turn.swing.opens - SHUT) / STATION))
    stations = [SHUT + (turn.swing.opens - SHUT) * n / count for n in range(count + 1)]
    found = []
    for other in turn.fixed:
        skin = stood_skin(ways.solids[other], frame)
        pairs = [in_reach(m, skin, within) for m in mover]
        near = [(m, f) for m, f in pairs if len(m.corners) and len(f.corners)]
        if near:
            gaps = [min(least_gap(m, f, math.radians(a), within) for m, f in near) for a in stations]
            least, angle = min(zip(gaps, stations, strict=True))
            if least < within:
                found.append(Clearance(other, max(least, 0.0), angle, gaps[0]))
    return found


def fingers(
    piece: Piece,
    ways: Ways,
    turn: Turn,
    catches: Sequence[float] = CATCHES,
    squeezes: Sequence[float] = SQUEEZES,
) -> Iterator[Finding]:
    """Cautions for gaps at the hinge, shut, and notes of what comes near on the way; catches, squeezes: the gaps that
    do, from and up to, mm."""
    near = clearances(ways, turn, max(catches[1], squeezes[1]))
    hung = {n for j in piece.joints if isinstance(j, Hinged) for n in (j.first, j.second) if n not in turn.parts}
    part = turn.swing.part
    for other in sorted(hung & {c.other for c in near}):
        gap, where = distance(ways.solids[part], ways.solids[other])
        if catches[0] <= gap < catches[1]:
            message = (
                f"the gap of {gap:.1f} mm between {part} and {other} at the hinge takes a finger in; make it less than "
                f"{catches[0]:g} mm or {catches[1]:g} mm and more"
            )
            yield Finding(CHECK, "caution", (part, other), message, round(gap, 3), catches[0], "mm", HINGE_GAP, where)
    for c in near:
        if c.closes and c.other not in hung and squeezes[0] < c.least < squeezes[1]:
            message = (
                f"{part} passes {c.other} {c.least:.0f} mm off, at {c.angle:.0f}° open, and a finger can be squeezed "
                f"there; keep it under {squeezes[0]:g} mm or over {squeezes[1]:g} mm"
            )
            yield Finding(CHECK, "note", (part, c.other), message, round(c.least, 1), squeezes[1], "mm", SQUEEZE)
