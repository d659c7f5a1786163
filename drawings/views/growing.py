"""A piece as it grows, batch by batch, seen from one side at every stage. This module imports the CAD kernel.

One hidden-line pass serves all stages: a batch that is added hides some of what stands already and is hidden by some
of it, and nothing that is hidden comes to sight again. So the kernel reckons the outlines once and each pair of
batches once, where a pass for each stage would do all of it over and over (measured: a quarter of the time for the
eight steps of the refuge bench).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import cadquery as cq
import numpy as np
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopoDS import TopoDS_Shape

from drawings.views.arcs import Arcs
from drawings.views.axes import Array, in_view
from drawings.views.buried import Occluders
from drawings.views.curves import View, ViewSpec
from drawings.views.edges import EdgesInView
from drawings.views.facets import triangles
from drawings.views.merge import Linework, merge
from drawings.views.project import looking_from, visible_edges


@dataclass(frozen=True)
class Grown:
    """What is seen at one stage: of the batches that stood there already, and of the one that is new."""

    there: View
    new: View


def project_growing(
    batches: Sequence[Sequence[cq.Shape]], spec: ViewSpec, stages: Collection[int] | None = None
) -> dict[int, Grown]:
    """What is seen at each stage, or at the `stages` picked, by number from 0; stage n shows batches 0 to n.

    batches: placed shapes, one or more in each. Oblique views are rid of edges buried in closed joints.
    """
    held = [cq.Compound.makeCompound(batch).wrapped for batch in batches]
    exact = looking_from(held, spec)
    found = HLRBRep_HLRToShape(exact)
    facets = [triangles(batch) for batch in batches]
    grown = {}
    for n in range(len(held)):
        _add(exact, n + 1)
        if stages is None or n in stages:
            grown[n] = _grown(found, held[: n + 1], spec, np.concatenate(facets[: n + 1]))
    return grown


def _add(exact: HLRBRep_Algo, number: int) -> None:
    """Let a batch, numbered from 1, hide itself and hide and be hidden by all before it."""
    exact.Hide(number)
    for earlier in range(1, number):
        exact.Hide(number, earlier)
        exact.Hide(earlier, number)
    exact.Select()


def _grown(found: HLRBRep_HLRToShape, held: Sequence[TopoDS_Shape], spec: ViewSpec, facets: Array) -> Grown:
    edges = [visible_edges(found, spec, batch) for batch in held]
    groups = [_together(edges[:-1]), edges[-1]]
    if spec.oblique:
        occluders = Occluders(in_view(facets, spec))
        groups = [group.unburied(occluders) for group in groups]
    there, new = (merge(group.linework(), Linework())[0] for group in groups)
    name = spec.name, spec.direction, spec.right
    return Grown(View(*name, there), View(*name, new))


def _together(some: Sequence[EdgesInView]) -> EdgesInView:
    return EdgesInView(
        np.concatenate([np.empty((0, 2, 3)), *(edges.lines for edges in some)]),
        Arcs.together([edges.arcs for edges in some]),
        [points for edges in some for points in edges.free],
    )
