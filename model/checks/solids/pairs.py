"""Which two parts have to be looked at closely, and what wood do they share? Each different pair once.

Boxes drop most pairs, planes most of the rest; the kernel is asked about those that neither can show apart.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from multiprocessing import current_process, get_context
from typing import Any

from model.checks.memory.remembered import remembered
from model.checks.memory.solid_digest import key_of
from model.checks.solids.facets import facets, finer
from model.checks.solids.near_pairs import near_pairs
from model.checks.solids.parted import Skinned, shown_apart
from model.checks.solids.shared_wood import SharedWood, shared_wood
from model.checks.solids.stood_solid import StoodSolid, alike
from model.errors import DesignError
from model.placement import Placement
from model.tolerance import INTERFERENCE

#: Fewer different pairs than this are done sooner by one process: a fork costs about 0.1 s, a pair about 5 ms.
WORTH_SHARING = 60

#: Pairs remembered before the oldest half is forgotten.
MOST_REMEMBERED = 20_000

Key = tuple[Any, Any, tuple[float, ...]]


@dataclass(frozen=True)
class Pair:
    """Two parts to be looked at, in an order that their shapes and places decide, not their names.

    relative: where the second stands, seen from the first; what is worked out follows from it and both solids alone.
    """

    first: StoodSolid
    second: StoodSolid
    relative: Placement
    key: Key


#: What pairs met before share; equal parts in the same place relative to each other share the same wood.
_met: dict[Key, tuple[SharedWood, ...]] = {}


def near(solids: Sequence[StoodSolid]) -> list[Pair]:
    """The pairs whose boxes run into each other."""
    return [_pair(solids[i], solids[j]) for i, j in near_pairs([s.box for s in solids], INTERFERENCE)]


def shared(pairs: Sequence[Pair]) -> list[tuple[SharedWood, ...]]:
    """What each pair shares deeper than INTERFERENCE. Raises DesignError if two solids can't be intersected."""
    if len(_met) > MOST_REMEMBERED:
        for key in list(_met)[: MOST_REMEMBERED // 2]:
            del _met[key]
    fresh = list({p.key: p for p in pairs if p.key not in _met}.values())
    keys = [key_of("overlap", (p.first, p.second), p.key[2], INTERFERENCE) for p in fresh]
    found = remembered(keys, lambda asked: _worked_out([fresh[n] for n in asked]), _written, _read)
    _met.update(zip((p.key for p in fresh), found, strict=True))
    return [_met[p.key] for p in pairs]


def sharing(solids: Sequence[StoodSolid]) -> frozenset[frozenset[str]]:
    """The names of every two that share wood where they stand. Raises DesignError if two solids can't be
    intersected."""
    pairs = near(solids)
    return frozenset(
        frozenset((p.first.name, p.second.name)) for p, found in zip(pairs, shared(pairs), strict=True) if found
    )


def forget_pairs() -> None:
    """Forgets the pairs met before, so that the next check starts afresh."""
    _met.clear()


def _pair(a: StoodSolid, b: StoodSolid) -> Pair:
    tries = []
    for first, second in ((a, b), (b, a)):
        rows = alike(second.at.seen_from(first.at))
        tries.append((_sizes(first), _sizes(second), rows, first, second))
    *_, rows, first, second = min(tries, key=lambda t: t[:3])
    return Pair(first, second, _placement(rows), (first.geometry, second.geometry, rows))


def _sizes(solid: StoodSolid) -> tuple[float, ...]:
    return tuple(round(c, 4) + 0.0 for c in (*solid.box.low, *solid.box.high))


def _placement(rows: tuple[float, ...]) -> Placement:
    x, y, z, origin = ((rows[n], rows[n + 1], rows[n + 2]) for n in (0, 3, 6, 9))
    return Placement(origin, x, y, z)


def _written(found: tuple[SharedWood, ...]) -> Any:
    return [[s.depth, s.volume, *s.middle] for s in found]


def _read(told: Any) -> tuple[SharedWood, ...]:
    return tuple(SharedWood(depth, volume, (x, y, z)) for depth, volume, x, y, z in told)


def _worked_out(pairs: Sequence[Pair]) -> list[tuple[SharedWood, ...]]:
    if len(pairs) < WORTH_SHARING or not _can_fork():
        return [_shared(p) for p in pairs]
    for pair in pairs:  # here, where later questions find them too
        facets(pair.first.own), facets(pair.second.own)
    global _handed_down
    _handed_down = pairs
    with get_context("fork").Pool(2) as pool:
        return pool.map(_shared_by_number, range(len(pairs)), chunksize=4)


#: The pairs a forked process finds in its memory; solids can't be sent to it.
_handed_down: Sequence[Pair] = ()


def _shared_by_number(n: int) -> tuple[SharedWood, ...]:
    return _shared(_handed_down[n])


def _can_fork() -> bool:
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1 and not current_process().daemon


def _shared(pair: Pair) -> tuple[SharedWood, ...]:
    if shown_apart(_skinned(pair.first), _skinned(pair.second), pair.relative, INTERFERENCE):
        return ()
    try:
        return shared_wood(pair.first.own, pair.second.own, pair.relative, INTERFERENCE)
    except DesignError as error:
        raise DesignError(f"{pair.first.name} and {pair.second.name}: {error}") from None


def _skinned(solid: StoodSolid) -> Skinned:
    return Skinned(solid.box, facets(solid.own), lambda faces, stray: finer(solid.own, faces, stray))
