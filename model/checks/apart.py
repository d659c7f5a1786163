"""Do parts that must never touch keep their distance?"""

from __future__ import annotations

from collections.abc import Mapping

import cadquery as cq

from model.checks.finding import Answer, Finding, Proof
from model.checks.solids.stood_solid import StoodSolid, distance, stood_solids
from model.piece import Apart, Piece

CHECK = "apart"
SOURCE = "the clearance the design itself asks for"

#: A gap this much short of what is asked is still that gap, mm.
SHORT = 1e-3


def apart(piece: Piece, shapes: Mapping[str, cq.Shape]) -> Answer:
    """Faults for the piece's `apart` pairs that stand nearer than their gap; exact distances, mm.

    shapes: every part's solid where it stands, by name. Raises DesignError if a distance can't be measured.
    """
    needed = {name: shapes[name] for pair in piece.apart for name in (pair.first, pair.second)}
    solids = {s.name: s for s in stood_solids(needed)}
    findings = [f for pair in piece.apart if (f := _finding(pair, solids)) is not None]
    count = len(piece.apart)
    proof = Proof("pairs that must stay apart and do", count, count - len(findings))
    return Answer(tuple(sorted(findings, key=lambda f: f.parts)), (proof,))


def _finding(pair: Apart, solids: Mapping[str, StoodSolid]) -> Finding | None:
    first, second = sorted((pair.first, pair.second))
    gap, where = distance(solids[first], solids[second])
    if gap >= pair.gap - SHORT:
        return None
    stands = f"stands {gap:.2f} mm off" if gap > SHORT else "touches"
    message = f"{first} {stands} {second}; they need {pair.gap:.2f} mm between them, so make one smaller or move it"
    return Finding(CHECK, "fault", (first, second), message, round(gap, 4), pair.gap, "mm", SOURCE, where)
