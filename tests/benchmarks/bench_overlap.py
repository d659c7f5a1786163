"""Seconds for the dry fit's overlap check, beside the plain way: every pair through the kernel's boolean.

    python tests/benchmarks/bench_overlap.py [PARTS ...]

The refuge bench, then bookcases of about so many parts (50, 200 and 1000 unless said). The solids already stand and no
pair has been met before. Boxes: every part's box and the pairs they leave; pairs: near ones, and different ones among
them; one process and total: the whole check, best of three, in one process and as it is called, with two where it
pays. The plain way is timed on up to SAMPLE random pairs and multiplied up to all of them, which the figure says.
Beside them the seconds of the other questions of the dry fit.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import cadquery as cq

from model.checks import pairs as pairs_module
from model.checks.apart import apart
from model.checks.contact import contact
from model.checks.near_pairs import near_pairs
from model.checks.overlap import different_pairs, overlap
from model.checks.pairs import forget_pairs
from model.checks.stood_solid import stood_solids
from model.checks.wood_left import wood_left
from model.order import read_order
from model.piece import Piece, Placed
from model.pieces import design
from model.solids import standing
from model.tolerance import INTERFERENCE

SAMPLE = 300
SHELVES = 8


def bench() -> Piece:
    order = read_order("refuge-bench")
    drawn = design(order.piece)
    return drawn.make(order.parameters(drawn.parameters))


def bookcase(parts: int) -> Piece:
    """About so many parts: bays of eight shelves, bottom, top, plinth and upright, and five or six back boards each;
    more than one wall of them, one behind the other, where one would be longer than 12 m."""
    walls = -(-parts // 400)
    piece = _wall(parts // walls)
    single = list(piece)
    for n in range(1, walls):
        for p in single:
            name = f"{p.name} of wall {n + 1}"
            piece.parts[name] = Placed(name, p.part, p.at.moved(dy=1000.0 * n))
    return piece


def _wall(parts: int) -> Piece:
    order = read_order("refuge-bookcase")
    drawn = design(order.piece)
    bays = max(1, round(parts / 17))
    order.size.update(bays=bays, shelves=SHELVES, width=500 * bays, height=2400)
    return drawn.make(order.parameters(drawn.parameters))


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def plain(shapes: dict[str, cq.Shape]) -> tuple[float, int, int]:
    """Seconds for every pair, from a sample; how many were timed, of how many."""
    pairs = list(combinations(shapes.values(), 2))
    sample = random.Random(1).sample(pairs, min(SAMPLE, len(pairs)))
    return (
        seconds(lambda: [a.intersect(b).Volume() for a, b in sample]) * len(pairs) / len(sample),
        len(sample),
        len(pairs),
    )


def afresh(piece: Piece, shapes: dict[str, cq.Shape], worth_sharing: int) -> float:
    """Seconds of the whole check, no pair met before: the best of three."""
    usual, pairs_module.WORTH_SHARING = pairs_module.WORTH_SHARING, worth_sharing
    took = []
    for _ in range(3):
        forget_pairs()
        took.append(seconds(lambda: overlap(piece, shapes)))
    pairs_module.WORTH_SHARING = usual
    return min(took)


def row(name: str, piece: Piece) -> str:
    shapes: dict[str, cq.Shape] = {}
    made = seconds(lambda: shapes.update(standing(piece)))
    boxes = seconds(lambda: near_pairs([s.box for s in stood_solids(shapes)], INTERFERENCE))
    near, different = different_pairs(shapes)
    alone = afresh(piece, shapes, sys.maxsize)
    total = afresh(piece, shapes, pairs_module.WORTH_SHARING)
    others = [seconds(lambda q=q: q(piece, shapes)) for q in (contact, apart)]
    wood = seconds(lambda: wood_left(piece, 3.0))
    slow, timed, pairs = plain(shapes)
    return (
        f"{name:>14}: {len(shapes)} parts, solids {made:.2f} s | "
        f"boxes {boxes:.3f} s, {near} near, {different} different pairs"
        " | "
        f"one process {alone:.2f} s | total {total:.2f} s | plain {slow:.1f} s ({timed} of {pairs} timed) | "
        f"ratio {total / slow:.5f} | contact {others[0]:.2f}, apart {others[1]:.3f}, wood left {wood:.2f} s"
    )


def main() -> None:
    print(row("refuge-bench", bench()), flush=True)
    for parts in [int(a) for a in sys.argv[1:]] or [50, 200, 1000]:
        print(row(f"bookcase {parts}", bookcase(parts)), flush=True)


if __name__ == "__main__":
    main()
