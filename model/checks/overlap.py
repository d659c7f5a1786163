"""Do any two parts claim the same place? Every pair, exact on the solids."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from multiprocessing import current_process, get_context
from typing import Any

import cadquery as cq

from model.checks.finding import Answer, Finding, Proof
from model.checks.near_pairs import near_pairs
from model.checks.places import spot
from model.checks.shared_wood import SharedWood, shared_wood
from model.checks.stood_solid import StoodSolid, stood_solids
from model.errors import DesignError
from model.piece import Piece
from model.placement import Placement
from model.tolerance import INTERFERENCE

CHECK = "overlap"
SOURCE = "two solids can't share one place; 0.01 mm is the finest a shop's machines hold (common practice)"

#: Fewer different pairs than this are done sooner by one process: a fork costs about 0.1 s, a pair about 15 ms.
WORTH_SHARING = 40

#: Pairs remembered before the oldest half is forgotten.
MOST_REMEMBERED = 20_000

#: Joints in which a cut can be deepened to take the other part.
HOUSED = ("dado", "groove", "rabbet", "tongue and groove")

Key = tuple[Any, Any, tuple[float, ...]]


@dataclass(frozen=True)
class _Pair:
    """Two parts to be looked at, in an order that their shapes and places decide, not their names."""

    first: StoodSolid
    second: StoodSolid
    relative: Placement
    key: Key


#: What pairs met before share; equal parts in the same place relative to each other share the same wood.
_met: dict[Key, tuple[SharedWood, ...]] = {}


def overlap(piece: Piece, shapes: Mapping[str, cq.Shape]) -> Answer:
    """Faults for pairs that share wood deeper than INTERFERENCE; depth as `shared_wood.depth_of` measures it, mm.

    shapes: every part's solid where it stands, by name. Raises DesignError if two solids can't be intersected.
    """
    solids = stood_solids(shapes)
    near = near_pairs([s.box for s in solids], INTERFERENCE)
    pairs = [_pair(solids[i], solids[j]) for i, j in near]
    _meet(pairs)
    clashes = [(pair, _met[pair.key]) for pair in pairs if _met[pair.key]]
    findings = sorted((_finding(piece, pair, shared) for pair, shared in clashes), key=lambda f: f.parts)
    count = len(solids) * (len(solids) - 1) // 2
    return Answer(tuple(findings), (Proof("pairs of parts that share no wood", count, count - len(clashes)),))


def different_pairs(shapes: Mapping[str, cq.Shape]) -> tuple[int, int]:
    """How many pairs stand near each other, and how many of those are different: what the kernel has to look at."""
    solids = stood_solids(shapes)
    pairs = [_pair(solids[i], solids[j]) for i, j in near_pairs([s.box for s in solids], INTERFERENCE)]
    return len(pairs), len({p.key for p in pairs})


def forget_pairs() -> None:
    """Forgets the pairs met before, so that the next check starts afresh."""
    _met.clear()


def _pair(a: StoodSolid, b: StoodSolid) -> _Pair:
    tries = []
    for first, second in ((a, b), (b, a)):
        relative = second.at.seen_from(first.at)
        rows = _rounded(relative)
        tries.append((_sizes(first), _sizes(second), rows, first, second, relative))
    *_, rows, first, second, relative = min(tries, key=lambda t: t[:3])
    return _Pair(first, second, relative, (first.geometry, second.geometry, rows))


def _sizes(solid: StoodSolid) -> tuple[float, ...]:
    return tuple(round(c, 4) + 0.0 for c in (*solid.box.low, *solid.box.high))


def _rounded(at: Placement) -> tuple[float, ...]:
    """Two places this much alike are the same: a millionth of a millimetre, and a thousandth of that in direction."""
    turned = (round(c, 9) + 0.0 for axis in (at.x, at.y, at.z) for c in axis)
    return (*turned, *(round(c, 6) + 0.0 for c in at.origin))


def _meet(pairs: Sequence[_Pair]) -> None:
    """Remembers what each pair shares, working out the ones not met before."""
    if len(_met) > MOST_REMEMBERED:
        for key in list(_met)[: MOST_REMEMBERED // 2]:
            del _met[key]
    fresh = list({p.key: p for p in pairs if p.key not in _met}.values())
    _met.update(zip((p.key for p in fresh), _worked_out(fresh), strict=True))


def _worked_out(pairs: Sequence[_Pair]) -> list[tuple[SharedWood, ...]]:
    if len(pairs) < WORTH_SHARING or not _can_fork():
        return [_shared(p) for p in pairs]
    global _handed_down
    _handed_down = pairs
    with get_context("fork").Pool(2) as pool:
        return pool.map(_shared_by_number, range(len(pairs)), chunksize=4)


#: The pairs a forked process finds in its memory; solids can't be sent to it.
_handed_down: Sequence[_Pair] = ()


def _shared_by_number(n: int) -> tuple[SharedWood, ...]:
    return _shared(_handed_down[n])


def _can_fork() -> bool:
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1 and not current_process().daemon


def _shared(pair: _Pair) -> tuple[SharedWood, ...]:
    try:
        return shared_wood(pair.first.own, pair.second.own, pair.relative, INTERFERENCE)
    except DesignError as error:
        raise DesignError(f"{pair.first.name} and {pair.second.name}: {error}") from None


def _finding(piece: Piece, pair: _Pair, shared: tuple[SharedWood, ...]) -> Finding:
    deepest = shared[0]
    where = pair.first.at.point(deepest.middle)
    first, second, advice = _told(piece, *sorted((pair.first.name, pair.second.name)))
    volume = sum(s.volume for s in shared)
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
