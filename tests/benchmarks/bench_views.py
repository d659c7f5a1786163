"""Processor seconds for the views of a run of bookcases, beside the kernel's bare hidden-line pass in the same process.

    python tests/benchmarks/bench_views.py [BOARDS ...]

Bare means: one compound through the exact algorithm, results taken as the kernel's own compounds, nothing read from
them. Ours gives merged curves, visible and hidden; the pictorial is also checked for buried edges by rays. Each
figure is the best of three.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import cadquery as cq
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from drawings.views.curves import FRONT, PICTORIAL, RIGHT, TOP, ViewSpec
from drawings.views.project import buried_length, project_views

SHELVES = 14


def bookcases(boards: int) -> list[cq.Shape]:
    """About so many boards: bays of two dadoed sides and fourteen shelves with round-ended stopped tongues."""
    thick, deep, inside, pitch = 18.0, 300.0, 564.0, 320.0
    heights = [40 + pitch * n for n in range(SHELVES)]

    def tongue(z: float, x: float, length: float) -> cq.Workplane:
        start = cq.Workplane("YZ", origin=(x, 0, z + thick / 2)).center(30 + (deep + thick) / 2, 0)
        return start.slot2D(deep + thick, thick).extrude(length)

    def board(x: float, z: float) -> cq.Workplane:
        return cq.Workplane().box(x, deep, z, centered=False)

    dadoes = [tongue(z, thick / 2, thick / 2).val() for z in heights]
    left = board(thick, pitch * (SHELVES + 1)).val().cut(*dadoes)
    right = left.mirror("YZ").translate((2 * thick + inside, 0, 0))
    through = tongue(0, -thick / 2, inside + thick).intersect(
        board(inside + thick, thick).translate((-thick / 2, 0, 0))
    )
    shelf = board(inside, thick).union(through).val()
    bay = [left, right, *(shelf.moved(cq.Location((thick, 0, z))) for z in heights)]
    bays = max(1, round(boards / len(bay)))
    return [part.moved(cq.Location((n * (inside + 2 * thick), 0, 0))) for n in range(bays) for part in bay]


def bare(compound: cq.Compound, spec: ViewSpec) -> None:
    """The kernel's pass and nothing else."""
    pass_ = HLRBRep_Algo()
    pass_.Add(compound.wrapped)
    pass_.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(), gp_Dir(*spec.direction), gp_Dir(*spec.right))))
    pass_.Update()
    pass_.Hide()
    found = HLRBRep_HLRToShape(pass_)
    for compound_of in (found.VCompound, found.OutLineVCompound, found.HCompound, found.OutLineHCompound):
        compound_of()


def best_of_three(*works: Callable[[], object]) -> list[float]:
    """Processor seconds of the quickest of three runs of each, taken in turn so that a busy machine is fair."""
    taken = [[_seconds(work) for work in works] for _ in range(3)]
    return [min(runs) for runs in zip(*taken, strict=True)]


def _seconds(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def compare(boards: int) -> None:
    """Prints one line for each view."""
    shapes = bookcases(boards)
    compound = cq.Compound.makeCompound(shapes)
    for spec in (FRONT, TOP, RIGHT, PICTORIAL):
        hidden = set() if spec.oblique else {spec.name}
        plain, ours = best_of_three(
            lambda spec=spec: bare(compound, spec),
            lambda spec=spec, hidden=hidden: project_views(shapes, [spec], hidden),
        )
        view = project_views(shapes, [spec], hidden)[spec.name]
        print(
            f"{len(shapes):5} boards  {spec.name:10} bare {plain:7.3f} s  ours {ours:7.3f} s  ratio {ours / plain:5.2f}"
            f"  {len(view.visible):5} visible {len(view.hidden):5} hidden curves"
        )
    buried, drawn = buried_length(shapes, PICTORIAL)
    print(f"{len(shapes):5} boards  kernel's pictorial: {buried:.0f} of {drawn:.0f} mm drawn are buried; ours: none")


if __name__ == "__main__":
    for count in map(int, sys.argv[1:] or ["50", "200"]):
        compare(count)
