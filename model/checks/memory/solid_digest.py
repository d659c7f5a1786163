"""Under which key is a question about solids remembered? This module imports the CAD kernel."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from io import BytesIO
from typing import Any

from OCP.BinTools import BinTools
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape

from model.checks.memory.digest import digest
from model.checks.solids.stood_solid import StoodSolid
from model.solids import part_of

#: Digests of the solids met so far, by their geometry, and how many are kept before they are forgotten.
_known: dict[Any, str] = {}
MOST_KNOWN = 10_000


def key_of(question: str, solids: Sequence[StoodSolid], *given: Any) -> str | None:
    """The key of a question about some solids, each in its own frame, and all else that is given, plain values; None if
    something has no digest.

    A solid made from a part is told by the part's own stock and cuts, any other by its exact shape.
    """
    try:
        return digest(question, *map(_digest_of, solids), *given)
    except TypeError:
        return None


def _digest_of(solid: StoodSolid) -> str:
    if solid.geometry not in _known:
        if len(_known) >= MOST_KNOWN:
            _known.clear()
        part = part_of(solid.geometry)
        _known[solid.geometry] = _of_shape(solid.own) if part is None else digest(part)
    return _known[solid.geometry]


def _of_shape(shape: TopoDS_Shape) -> str:
    written = BytesIO()
    BinTools.Write_s(shape.Located(TopLoc_Location()), written)
    return sha256(written.getvalue()).hexdigest()
