"""Overlap, side by side in one run: the plain way, boxes and the kernel, meshes, and ours.

    pip install -e '.[bench]'
    python tests/benchmarks/bench_overlap.py [PIECE ...]

PIECE: an example order, a number of parts (a bookcase of about so many), or `unlike:` and a number for the same
bookcase with every solid a copy of its own, so that no two joints are known to be alike. Without any: the bench, the
chest, bookcases of 50, 200 and 1000 parts, and 50, 200 and 1000 with nothing alike.

The solids already stand, nothing is remembered. Plain: every pair through the kernel's boolean. Boxes: only pairs whose
boxes meet. Both are timed on a random sample and multiplied up where they would take longer than a minute, which the
figure says. Processor seconds of this process, but for `two processes`, which is by the clock: of a busy machine it
tells little. Then a few dozen parts are pushed 0.02 mm into a neighbour that they touch, and each way is asked which
pairs share wood: planted ones missed, and pairs accused that only touch.
"""

from __future__ import annotations

import math
import os
import random
import sys
import time
from collections.abc import Callable, Sequence
from itertools import combinations
from pathlib import Path

os.environ["DRYFIT_CACHE"] = ""
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import cadquery as cq

from model.checks.overlap import overlap
from model.checks.solids import facets as facets_module
from model.checks.solids import pairs as pairs_module
from model.checks.solids.facets import facets
from model.checks.solids.pairs import Pair, forget_pairs, near, shared
from model.checks.solids.shared_wood import shared_wood
from model.checks.solids.stood_solid import stood_solids
from model.order import read_order
from model.piece import Piece, Placed
from model.pieces import design
from model.solids import standing
from model.tolerance import INTERFERENCE
from tests.benchmarks.mesh_rivals import by_contact_depth, by_contacts, by_mesh_boolean
from tests.benchmarks.planted_overlaps import planted

SHELVES, DEEP, PUSHED = 8, 0.02, 48
SAMPLE, LONG = 400, 60.0

Found = set[tuple[str, str]]


def example(name: str) -> Piece:
    order = read_order(name)
    drawn = design(order.piece)
    return drawn.make(order.parameters(drawn.parameters))


def bookcase(parts: int) -> Piece:
    """About so many parts: bays of eight shelves, bottom, top, plinth and upright, and five or six back boards each;
    more than one wall of them, one behind the other, where one would be longer than 12 m."""
    walls = -(-parts // 400)
    piece = _wall(parts // walls)
    single, joints = list(piece), list(piece.joints)
    for n in range(1, walls):
        for p in single:
            name = f"{p.name} of wall {n + 1}"
            piece.parts[name] = Placed(name, p.part, p.at.moved(dy=1000.0 * n))
    piece.joints = joints
    return piece


def _wall(parts: int) -> Piece:
    order = read_order("refuge-bookcase")
    drawn = design(order.piece)
    bays = max(1, round(parts / 17))
    order.size.update(bays=bays, shelves=SHELVES, width=500 * bays, height=2400)
    return drawn.make(order.parameters(drawn.parameters))


def unlike(shapes: dict[str, cq.Shape]) -> dict[str, cq.Shape]:
    """The same solids, each a copy of its own, so that none is known to be another's equal."""
    return {name: shape.copy() for name, shape in shapes.items()}


def seconds(work: Callable[[], object], clock: Callable[[], float] = time.process_time) -> float:
    start = clock()
    work()
    return clock() - start


def sampled(work: Callable[[int], object], count: int) -> tuple[float, str]:
    """Seconds for all of `count` askings, and how many were timed: the first SAMPLE of a random order where they tell
    that all would take LONG, else all."""
    order = random.Random(1).sample(range(count), count)
    some = seconds(lambda: [work(n) for n in order[:SAMPLE]])
    if count > SAMPLE and some * count / SAMPLE > LONG:
        return some * count / SAMPLE, f"{SAMPLE} of {count} timed, multiplied up"
    return some + seconds(lambda: [work(n) for n in order[SAMPLE:]]), "all"


def ours(pairs: Sequence[Pair]) -> Found:
    found = zip(pairs, shared(pairs), strict=True)
    return {tuple(sorted((p.first.name, p.second.name))) for p, wood in found if wood}  # type: ignore[misc]


def afresh(piece: Piece, shapes: dict[str, cq.Shape], worth_sharing: int, clock: Callable[[], float]) -> float:
    """Seconds of the whole question, nothing met before, no facets made: the best of two."""
    usual, pairs_module.WORTH_SHARING = pairs_module.WORTH_SHARING, worth_sharing
    took = []
    for _ in range(2):
        forget_pairs()
        facets_module._known.cache_clear()
        facets_module._known_faces.cache_clear()
        took.append(seconds(lambda: overlap(piece, shapes), clock))
    pairs_module.WORTH_SHARING = usual
    return min(took)


def report(name: str) -> tuple[int, float]:
    """Prints all of one piece; its parts and our seconds on one process."""
    piece, shapes, alike = _asked_for(name)
    pairs = near(stood_solids(shapes))
    every = list(combinations(shapes.values(), 2))
    plain, timed = sampled(lambda n: every[n][0].intersect(every[n][1]).Volume(), len(every))
    boxed, boxed_timed = sampled(lambda n: _kernel(pairs[n]), len(pairs))
    one = afresh(piece, shapes, sys.maxsize, time.process_time)
    two = afresh(piece, shapes, pairs_module.WORTH_SHARING, time.perf_counter)
    print(
        f"\n{name}: {len(shapes)} parts, {len(every)} pairs, {len(pairs)} near, {len({p.key for p in pairs})} different"
        f"{'' if alike else ' (nothing alike)'}\n"
        f"  plain                {plain:10.2f} s  ({timed})\n"
        f"  boxes and kernel     {boxed:10.2f} s  1/{plain / boxed:<8.0f} ({boxed_timed})\n"
        f"  ours                 {one:10.2f} s  1/{plain / one:<8.0f} two processes {two:.2f} s by the clock",
        flush=True,
    )
    _planted(piece, alike)
    return len(shapes), one


def _asked_for(name: str) -> tuple[Piece, dict[str, cq.Shape], bool]:
    alike = not name.startswith("unlike:")
    bare = name.removeprefix("unlike:")
    piece = bookcase(int(bare)) if bare.isdigit() else example(bare)
    shapes = standing(piece)
    return piece, shapes if alike else unlike(shapes), alike


def _kernel(pair: Pair) -> object:
    return shared_wood(pair.first.own, pair.second.own, pair.relative, INTERFERENCE)


def _planted(piece: Piece, alike: bool) -> None:
    """Each way on the sound piece and on one with parts pushed, in one process: what it takes, what it misses, whom it
    accuses."""
    usual, pairs_module.WORTH_SHARING = pairs_module.WORTH_SHARING, sys.maxsize
    faulty = planted(piece, DEEP, PUSHED, seed=1)
    sound_shapes, faulty_shapes = standing(piece), standing(faulty.piece)
    if not alike:
        sound_shapes, faulty_shapes = unlike(sound_shapes), unlike(faulty_shapes)
    sound, pushed = near(stood_solids(sound_shapes)), near(stood_solids(faulty_shapes))
    for shape in (s.own for p in sound for s in (p.first, p.second)):
        facets(shape)
    ways: dict[str, Callable[[Sequence[Pair]], Found]] = {
        "ours": ours,
        "collision, yes or no": by_contacts,
        "collision, depth": by_contact_depth,
        "mesh boolean": by_mesh_boolean,
    }
    for what, way in ways.items():
        forget_pairs()
        found: list[Found] = []
        took = seconds(lambda way=way, found=found: found.append(way(sound)))  # type: ignore[misc]
        missed, false = faulty.score(way(pushed))
        print(
            f"  {what:21}{took:10.2f} s  of {len(faulty.pairs)} planted {missed} missed; accused falsely: "
            f"{len(found[0])} in the sound piece, {false} in the pushed one",
            flush=True,
        )
    pairs_module.WORTH_SHARING = usual


def growth(measured: Sequence[tuple[int, float]]) -> float:
    """The exponent that fits seconds over parts best."""
    x = [math.log(parts) for parts, _ in measured]
    y = [math.log(took) for _, took in measured]
    mx, my = sum(x) / len(x), sum(y) / len(y)
    return sum((a - mx) * (b - my) for a, b in zip(x, y, strict=True)) / sum((a - mx) ** 2 for a in x)


def main() -> None:
    named = sys.argv[1:] or [
        "refuge-bench",
        "refuge-chest",
        *("50", "200", "1000", "unlike:50", "unlike:200", "unlike:1000"),
    ]
    measured = {name: report(name) for name in named}
    for kind in ("", "unlike:"):
        sizes = [m for name, m in measured.items() if name.startswith(kind) and name.removeprefix(kind).isdigit()]
        if len(sizes) > 1:
            told = "nothing alike" if kind else "joints that repeat"
            print(f"\ngrowth with parts, bookcases, {told}: exponent {growth(sizes):.2f}")


if __name__ == "__main__":
    main()
