"""Do any two parts claim the same place? Every pair, exact on the solids."""

from __future__ import annotations

from collections.abc import Mapping

import cadquery as cq

from model.checks.finding import Answer, Finding, Proof
from model.checks.places import spot
from model.checks.solids.pairs import Pair, near, shared
from model.checks.solids.shared_wood import SharedWood
from model.checks.solids.stood_solid import stood_solids
from model.piece import Piece
from model.tolerance import INTERFERENCE

CHECK = "overlap"
SOURCE = "two solids can't share one place; 0.01 mm is the finest a shop's machines hold (common practice)"

#: Joints in which a cut can be deepened to take the other part.
HOUSED = ("dado", "groove", "slanted dado", "slanted groove", "rabbet", "tongue and groove")


def overlap(piece: Piece, shapes: Mapping[str, cq.Shape]) -> Answer:
    """Faults for pairs that share wood deeper than INTERFERENCE; depth as `shared_wood.depth_of` measures it, mm.

    shapes: every part's solid where it stands, by name. Raises DesignError if two solids can't be intersected.
    """
    solids = stood_solids(shapes)
    pairs = near(solids)
    clashes = [(pair, found) for pair, found in zip(pairs, shared(pairs), strict=True) if found]
    findings = sorted((_finding(piece, pair, found) for pair, found in clashes), key=lambda f: f.parts)
    count = len(solids) * (len(solids) - 1) // 2
    return Answer(tuple(findings), (Proof("pairs of parts that share no wood", count, count - len(clashes)),))


def different_pairs(shapes: Mapping[str, cq.Shape]) -> tuple[int, int]:
    """How many pairs stand near each other, and how many of those are different: what the kernel has to look at."""
    pairs = near(stood_solids(shapes))
    return len(pairs), len({p.key for p in pairs})


def _finding(piece: Piece, pair: Pair, found: tuple[SharedWood, ...]) -> Finding:
    deepest = found[0]
    where = pair.first.at.point(deepest.middle)
    first, second, advice = _told(piece, *sorted((pair.first.name, pair.second.name)))
    volume = sum(s.volume for s in found)
    near = spot(piece[first], where)
    return Finding(
        CHECK,
        "fault",
        (first, second),
        f"{first} runs {deepest.depth:.2f} mm into {second} over {_volume(volume)}, near {near}; {advice}",
        round(deepest.depth, 4),
        INTERFERENCE,
        "mm",
        SOURCE,
        where,
    )


def _told(piece: Piece, a: str, b: str) -> tuple[str, str, str]:
    """The pair as their joint names them, and what can be done."""
    if any({apart.first, apart.second} == {a, b} for apart in piece.apart):
        return a, b, "these two must stay apart, so move or shorten one"
    for joint in piece.joints:
        if {joint.first, joint.second} == {a, b}:
            advice = f"move one, or deepen the {joint.kind}" if joint.kind in HOUSED else "move or shorten one"
            return joint.first, joint.second, advice
    return a, b, "no joint lets them, so move or shorten one"


def _volume(cubic_mm: float) -> str:
    return f"{cubic_mm / 1000.0:.1f} cm³" if cubic_mm >= 100.0 else f"{cubic_mm:.2g} mm³"
