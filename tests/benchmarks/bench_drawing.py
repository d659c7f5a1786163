"""Processor seconds for the drawing set of a piece, stage by stage, beside plain and foreign ways in the same run.

    python tests/benchmarks/bench_drawing.py [--peer PYTHON] [ORDER | PARTS ...]

ORDER is an order's file or the name of an example, PARTS a wall of bookcase of about so many; without any,
refuge-bench and 200. Figures are the best of three for views (of one for the plain way), of one warm run for the rest;
repeats vary by 30 %, so read the ratios.

Views, of the whole piece: bare is the kernel's exact hidden-line pass over one compound and nothing else, plain the
same with every part added by itself, ours the merged curves, hidden ones too where the general sheet has them,
pictorial rid of buried edges. Facets are made once for all views of a set.

The peer is build123d's project_to_viewport, another library's projection of the same solids, read from a STEP file. It
wants another release of the kernel than ours, so it stands in an environment of its own: name that environment's
Python, by --peer or in DRYFIT_BENCH_PEER, and it is run as a process beside. Without it its column stays empty.
"""

from __future__ import annotations

import argparse
import functools
import gc
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any
from unittest import mock

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import cadquery as cq
from bench_stages import wall
from bench_views import bare, best_of_three
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo

from drawings.players.dxf import write_dxf
from drawings.players.pdf import write_pdf
from drawings.players.svg import write_svg
from drawings.set_out import Built, build, draw
from drawings.sheets import book as book_module
from drawings.views.curves import FRONT, PICTORIAL, RIGHT, TOP, ViewSpec
from drawings.views.facets import triangles
from drawings.views.project import project_views
from drawings.views.shown import shown_solids
from model.order import read_order

VIEWS = (FRONT, TOP, RIGHT, PICTORIAL)
WITH_HIDDEN = {TOP.name, RIGHT.name}

#: What the peer's Python runs: views as direction to the eye and up, each three times.
PEER = """
import json, sys, time
from build123d import Vector, import_step
shape = import_step(sys.argv[1])
middle = shape.bounding_box().center()
taken = {}
for name, direction, up in json.loads(sys.argv[2]):
    runs = []
    for _ in range(3):
        start = time.process_time()
        shape.project_to_viewport(middle + Vector(*direction) * 10_000, Vector(*up), middle)
        runs.append(time.process_time() - start)
    taken[name] = min(runs)
print(json.dumps(taken))
"""


def main() -> None:
    asked = _arguments()
    gc.disable()
    for name in asked.orders:
        built = build(wall(max(1, int(name) // 14), 9) if name.isdigit() else read_order(name))
        shown = shown_solids(built.piece, built.shapes)
        kinds = len(set(built.piece.items().values()))
        print(f"\n{built.order.name}: {len(shown)} parts of {kinds} kinds\n")
        tell_views(list(shown.values()), asked.peer)
        tell_stages(built)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="What the drawing set costs, stage by stage.")
    parser.add_argument("orders", nargs="*", default=["refuge-bench", "200"], metavar="ORDER | PARTS")
    parser.add_argument("--peer", default=os.environ.get("DRYFIT_BENCH_PEER"), metavar="PYTHON")
    return parser.parse_args()


def tell_views(shapes: Sequence[cq.Shape], peer: str | None) -> None:
    """A line for each view: the kernel alone, each part by itself, ours, and the peer."""
    facets = seconds(lambda: triangles(shapes))
    foreign = peer_seconds(shapes, peer) if peer else {}
    compound = cq.Compound.makeCompound(shapes)
    print(f"  {'view':12}{'bare':>9}{'plain':>9}{'ours':>9}{'ours/bare':>11}{'build123d':>11}   seconds")
    for spec in VIEWS:
        hidden = WITH_HIDDEN & {spec.name}
        alone, ours = best_of_three(
            functools.partial(bare, compound, spec),
            functools.partial(project_views, shapes, [spec], hidden),
        )
        plain = seconds(functools.partial(part_by_part, shapes, spec))
        other = f"{foreign[spec.name]:11.3f}" if spec.name in foreign else f"{'-':>11}"
        print(f"  {spec.name:12}{alone:9.3f}{plain:9.3f}{ours:9.3f}{ours / alone:11.2f}{other}", flush=True)
    print(f"  {'facets, once':12}{'':18}{facets:9.3f}\n")


def part_by_part(shapes: Sequence[cq.Shape], spec: ViewSpec) -> None:
    """The kernel's pass as a plain script has it, every part added by itself."""
    pass_ = HLRBRep_Algo()
    for shape in shapes:
        pass_.Add(shape.wrapped)
    pass_.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*spec.direction), gp_Dir(*spec.right))))
    pass_.Update()
    pass_.Hide()


def peer_seconds(shapes: Sequence[cq.Shape], peer: str) -> Mapping[str, float]:
    """What the peer takes for each view, by name; nothing, and the reason told, where it can't be run."""
    asked = json.dumps([(spec.name, spec.direction, spec.up) for spec in VIEWS])
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "piece.step"
        cq.Compound.makeCompound(shapes).exportStep(str(path))
        done = subprocess.run([peer, "-c", PEER, str(path), asked], capture_output=True, text=True, check=False)
    if done.returncode:
        print(f"  the peer could not be run: {(done.stderr.strip().splitlines() or ['no reason given'])[-1]}")
        return {}
    return dict(json.loads(done.stdout.splitlines()[-1]))


def tell_stages(built: Built) -> None:
    """A line for each kind of sheet and each kind of file, then the whole, of a warm run: in turn, and on two cores as
    `make` has it where nothing else is asked of them."""
    with tempfile.TemporaryDirectory() as folder:
        drawn(built, Path(folder))
        start, at = time.perf_counter(), time.process_time()
        stages = drawn(built, Path(folder))
        total, whole = time.process_time() - at, time.perf_counter() - start
    for stage, share in stages.items():
        if share >= 0.005:
            print(f"  {stage:24}{share:9.3f}{share / total:8.0%}")
    print(f"  {'whole set, one process':24}{total:9.3f}   processor seconds, {whole:.2f} s by the clock", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        start = time.perf_counter()
        draw(built, Path(folder))
        print(f"  {'whole set, two processes':24}{time.perf_counter() - start:9.3f}   s by the clock", flush=True)


def drawn(built: Built, folder: Path) -> dict[str, float]:
    """The whole set into a folder; seconds by stage."""
    taken: dict[str, float] = {}
    in_turn = {"side_by_side": lambda here, there: (here(), there())}
    with mock.patch.multiple(book_module, **_stages_timed(taken), **in_turn):
        sheets = book_module.book(built.piece, built.order, built.shapes)
    work: dict[str, Callable[[], object]] = {
        "DXF": lambda: [write_dxf(sheet, folder / f"{sheet.name}.dxf") for sheet in sheets],
        "SVG": lambda: [write_svg(sheet, folder / f"{sheet.name}.svg") for sheet in sheets],
        "PDF": lambda: write_pdf(sheets, folder / "set.pdf", built.order.title),
    }
    for stage, write in work.items():
        taken[f"{stage}, {len(sheets)} sheets"] = seconds(write)
    return taken


def _stages_timed(taken: dict[str, float]) -> dict[str, Any]:
    """Each of the functions that the book is bound from, keeping its own seconds under its name."""

    def timed(name: str, work: Callable[..., Any]) -> Callable[..., Any]:
        @functools.wraps(work)
        def run(*args: Any, **kwargs: Any) -> Any:
            start = time.process_time()
            result = work(*args, **kwargs)
            taken[name.replace("_", " ")] = taken.get(name.replace("_", " "), 0.0) + time.process_time() - start
            return result

        return run

    halves = (book_module._of_the_whole, book_module._of_the_making)
    called = {name: getattr(book_module, name, None) for half in halves for name in half.__code__.co_names}
    return {name: timed(name, work) for name, work in called.items() if callable(work)}


def seconds(work: Callable[[], object]) -> float:
    """Processor seconds of one run."""
    start = time.process_time()
    work()
    return time.process_time() - start


if __name__ == "__main__":
    main()
