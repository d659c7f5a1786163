"""Proof of the cutting files: every one is read back and compared with the parts it was written from."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drawings.cutting.files import cut_from_stock, speaks_inches
from drawings.cutting.layers import OUTLINE, Trace, traces
from model.checks.finding import Proof
from model.layout.outline import Outline
from model.piece import Piece

#: How far a read-back area may be off, as a share: coordinates are kept to 1e-6 mm.
AREA = 1e-6


@dataclass(frozen=True)
class Shape:
    """One entity as read: its layer, whether it closes, the area it encloses in mm2 and its bounds in mm."""

    layer: str
    closed: bool
    area: float
    bounds: tuple[float, float, float, float]


def cutting_proof(piece: Piece, folder: Path) -> Proof:
    """How many cutting files there are, or should be, and how many hold exactly what their part explains."""
    complaints = cutting_complaints(piece, folder)
    held = sum(not found for found in complaints.values())
    what = "cutting files read back: closed shapes, outline areas, layers and counts as the parts' cuts explain"
    return Proof(what, len(complaints), held)


def cutting_complaints(piece: Piece, folder: Path) -> dict[str, list[str]]:
    """What is wrong with each cutting file, by file name; an empty list for one that is in order."""
    inches = speaks_inches(piece)
    complaints = {path.name: ["no part explains this file"] for path in sorted(folder.glob("*.dxf"))}
    for file, (_, part) in cut_from_stock(piece).items():
        path = folder / file
        complaints[file] = _compared(path, traces(part, inches)) if path.is_file() else ["the file is missing"]
    return dict(sorted(complaints.items()))


def _compared(path: Path, wanted: list[Trace]) -> list[str]:
    import ezdxf

    try:
        doc = ezdxf.readfile(path)
    except (ezdxf.DXFError, OSError) as error:
        return [f"can't be read: {error}"]
    return [*_about_the_file(doc), *_about_the_shapes([_shape(e) for e in doc.modelspace()], wanted)]


def _about_the_file(doc: Any) -> Iterator[str]:
    if doc.header.get("$INSUNITS") != 4:
        yield "its units are not millimetres"
    if errors := len(doc.audit().errors):
        yield f"{errors} errors of structure"


def _about_the_shapes(found: list[Shape], wanted: list[Trace]) -> Iterator[str]:
    yield from (f"a shape on {s.layer} is open" for s in found if not s.closed)
    counts, wanted_counts = Counter(s.layer for s in found), Counter(t.layer for t in wanted)
    for layer in sorted(counts.keys() | wanted_counts.keys()):
        if counts[layer] != wanted_counts[layer]:
            yield f"{counts[layer]} shapes on {layer}, where the cuts explain {wanted_counts[layer]}"
    if counts[OUTLINE] != 1:
        yield f"{counts[OUTLINE]} outlines"
    for trace in wanted:
        if not any(_same(s, trace) for s in found):
            yield f"no shape on {trace.layer} is the one at {_spot(trace.outline)}"


def _same(shape: Shape, trace: Trace) -> bool:
    alike = math.isclose(shape.area, trace.outline.area, rel_tol=AREA)
    near = all(abs(a - b) < 1e-5 for a, b in zip(shape.bounds, trace.outline.bounds, strict=True))
    return shape.layer == trace.layer and alike and near


def _spot(outline: Outline) -> str:
    return f"({outline.bounds[0]:.1f}, {outline.bounds[1]:.1f})"


def _shape(entity: Any) -> Shape:
    layer = str(entity.dxf.layer)
    if entity.dxftype() == "CIRCLE":
        (x, y), r = entity.dxf.center.vec2, entity.dxf.radius
        return Shape(layer, True, math.pi * r * r, (x - r, y - r, x + r, y + r))
    if entity.dxftype() == "LWPOLYLINE":
        corners = [(x, y) for x, y, _ in entity.get_points("xyb")]
        ring = Outline(tuple(corners), tuple(b for _, _, b in entity.get_points("xyb")))
        return Shape(layer, bool(entity.closed), ring.area, ring.bounds)
    return Shape(layer, False, 0.0, (0.0, 0.0, 0.0, 0.0))
