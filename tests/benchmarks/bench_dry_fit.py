"""Processor seconds of each question of the dry fit, for the six examples: first, again, and with one size changed.

    python tests/benchmarks/bench_dry_fit.py [EXAMPLE ...]

Each run is a process of its own, its solids already standing; the children it forks are counted too. First: nothing is
remembered. Again: the same order, answers remembered from the first run. Changed: one size in the order is another, and
what has not changed is remembered; `anew` beside it is the changed order with nothing remembered. What they say is
compared: it must not depend on what is remembered.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from itertools import pairwise
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

#: One size of each example, and what it is changed to.
CHANGED: dict[str, tuple[str, Any]] = {
    "refuge-bench": ("seat_height", 440),
    "refuge-bookcase": ("base", 75),
    "refuge-chest": ("plinth_height", 104),
    "refuge-table": ("stretcher_height", 340),
    "refuge-cupboard": ("drawer_height", 95),
    "refuge-stool": ("hand_hold", 124),
}


def spent() -> float:
    t = os.times()
    return t.user + t.system + t.children_user + t.children_system


def one_run(name: str, size: dict[str, Any]) -> dict[str, Any]:
    """Seconds of each question, and all that is said."""
    from model.checks.dry_fit import dry_fit
    from model.order import read_order
    from model.pieces import design_of
    from model.solids import standing

    order = read_order(name)
    order.size.update(size)
    drawn = design_of(order)
    piece = drawn.make(order.parameters(drawn.parameters))
    shapes = standing(piece)
    laps: list[tuple[str, float]] = []
    answer = dry_fit(piece, shapes, shop=order.shop, at=order.place, progress=lambda q: laps.append((q, spent())))
    laps.append(("", spent()))
    seconds = {q: after - before for (q, before), (_, after) in pairwise(laps)}
    said = [f.as_dict() for f in answer.findings], [vars(p) for p in answer.proofs]
    return {"seconds": seconds, "said": json.dumps(said)}


def run(name: str, size: dict[str, Any], cache: str) -> dict[str, Any]:
    """The same in a process of its own, remembering in a folder, or nowhere."""
    command = [sys.executable, __file__, "--one", name, json.dumps(size)]
    told = subprocess.run(command, env={**os.environ, "DRYFIT_CACHE": cache}, cwd=ROOT, capture_output=True, check=True)
    found: dict[str, Any] = json.loads(told.stdout.splitlines()[-1])
    return found


def report(name: str) -> None:
    key, value = CHANGED[name]
    with tempfile.TemporaryDirectory() as cache:
        runs = [run(name, {}, cache), run(name, {}, cache), run(name, {key: value}, cache), run(name, {key: value}, "")]
    same = runs[0]["said"] == runs[1]["said"] and runs[2]["said"] == runs[3]["said"]
    print(f"\n{name}; changed: {key} = {value}; {'says the same' if same else 'SAYS SOMETHING ELSE'}")
    print(f"  {'':50}{'first':>8}{'again':>8}{'changed':>9}{'anew':>8}")
    for question in runs[0]["seconds"]:
        print(f"  {question:50}" + _row([r["seconds"][question] for r in runs]))
    print(f"  {'all':50}" + _row([sum(r["seconds"].values()) for r in runs]), flush=True)


def _row(figures: list[float]) -> str:
    return "".join(f"{f:{width}.2f}" for f, width in zip(figures, (8, 8, 9, 8), strict=True))


def main() -> None:
    if sys.argv[1:2] == ["--one"]:
        print(json.dumps(one_run(sys.argv[2], json.loads(sys.argv[3]))))
        return
    for name in sys.argv[1:] or CHANGED:
        report(name)


if __name__ == "__main__":
    main()
