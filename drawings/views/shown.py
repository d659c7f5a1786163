"""The solids as drawn together: true but for what the hidden-line pass can't do in reasonable time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import cadquery as cq

from model.cuts.faces import Bore, Counterbore
from model.part import Part
from model.piece import Piece
from model.solids import placed, solid


def shown_solids(piece: Piece, shapes: Mapping[str, cq.Shape]) -> dict[str, cq.Shape]:
    """The placed solids, bent parts without their bores.

    A bore's mouth in a bent face is a free curve; seen edge on, four of them take the kernel 3.7 s where the whole
    bench takes 0.2 s. They are plugged flush, or covered, in the finished piece; the part's own sheet, on the flat,
    shows them.
    """
    shown = dict(shapes)
    for part in piece:
        if isinstance(part.part, Part) and part.part.bend is not None:
            cuts = tuple(c for c in part.part.cuts if not isinstance(c, Bore | Counterbore))
            shown[part.name] = placed(solid(replace(part.part, cuts=cuts)), part.at)
    return shown
