"""Cutting files for a CNC shop: one DXF for each distinct part, and a README that says how to read them.

Millimetres, face side up, the blank's lower left corner at the origin, grain along x. Nothing but closed polylines with
true arcs and full circles, each on a layer that says how deep and from which side.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from drawings.cutting.layers import OUTLINE, THROUGH, Trace, edge_work, traces
from drawings.lists.cut_words import cuts_in_words
from drawings.lists.distinct import Distinct, distinct_parts
from drawings.players.dxf import fixed_metadata, new_document
from model.lengths import INCH_UNITS, format_length
from model.part import Part
from model.piece import Piece

#: The DXF release with LWPOLYLINE that the most programs read.
RELEASE = "R2000"
README = "README.txt"

_METRIC = 1
#: Decimals of mm kept, so that the last digits' noise never changes a file.
_DECIMALS = 6
#: Colours by AutoCAD Colour Index: black or white, red, then one for each depth from the face and from the back.
_BLACK, _RED, _FACE, _BACK = 7, 1, (3, 4, 2, 30), (6, 5, 200, 150)

_INTRODUCTION = """\
Cutting files of {piece}

Units     millimetres ($INSUNITS = 4), full size.
Position  each part lies face side up, the lower left corner of its blank at 0,0, its grain along x.
Layers    "{outline}": the part's edge, cut outside the line.
          "{through}": holes and openings, cut inside the line, right through.
          "face side ... mm deep": pockets cleared inside the line, cut from above.
          "back side ... mm deep": pockets cut from below, drawn as they lie under the part, seen through the wood
          from the face side. Turn the part over and mirror them to cut them.
Corners   inside corners are sharp in the drawing; a round cutter leaves its own radius there.
Biscuits  a slot in a face is drawn as a straight pocket of its full depth; leave it out if a joiner cuts it.
Edges     work on edges is not in the files; it is listed below and in lists/parts.csv.
Bent      a bent part is drawn as its flat blank; it is bent after it is cut.
"""


def cut_from_stock(piece: Piece) -> dict[str, tuple[Distinct, Part]]:
    """The distinct parts that get a cutting file, by the file's name; parts given as a solid get none."""
    distinct = distinct_parts(piece)
    digits = max(2, len(str(len(distinct))))
    return {_file_name(d, digits): (d, d.wood) for d in distinct if d.wood is not None}


def write_cutting(piece: Piece, folder: Path) -> list[Path]:
    """Write a DXF for each distinct part into `folder`, and the README; returns the files written.

    The same piece gives the same bytes. Parts given as a solid are skipped. Depths in the layers' names are in mm, in
    inches too where the order speaks inches.
    """
    folder.mkdir(parents=True, exist_ok=True)
    inches = speaks_inches(piece)
    parts = cut_from_stock(piece)
    paths = [_write(traces(part, inches), folder / file) for file, (_, part) in parts.items()]
    readme = folder / README
    readme.write_text("\n".join(_readme(piece, parts)) + "\n", encoding="utf-8", newline="\n")
    return [*paths, readme]


def speaks_inches(piece: Piece) -> bool:
    return piece.parameters.units in INCH_UNITS


def _file_name(d: Distinct, digits: int) -> str:
    slug = re.sub(r"[^a-z0-9]+", "-", d.names[0].lower()).strip("-") or "part"
    times = f"-x{d.quantity}" if d.quantity > 1 else ""
    return f"{d.item:0{digits}d}-{slug}{times}.dxf"


def _write(shapes: list[Trace], path: Path) -> Path:
    with fixed_metadata():
        doc = new_document(RELEASE)
        doc.header["$MEASUREMENT"] = _METRIC
        for name, colour in _colours(shapes):
            doc.layers.add(name, color=colour)
        for shape in shapes:
            _draw(shape, doc.modelspace())
        _show_all(doc, shapes[-1])
        doc.saveas(path)
    return path


def _colours(shapes: Iterable[Trace]) -> Iterator[tuple[str, int]]:
    seen = {s.layer: s.side for s in shapes}
    left = {"face": list(_FACE), "back": list(_BACK)}
    for name, side in seen.items():
        if name in (OUTLINE, THROUGH):
            yield name, _BLACK if name == OUTLINE else _RED
        else:
            yield name, left[side][0]
            left[side].append(left[side].pop(0))


def _draw(shape: Trace, space: Any) -> None:
    on = {"layer": shape.layer}
    if shape.circle:
        (x, y), radius = shape.circle
        space.add_circle((_tidy(x), _tidy(y)), _tidy(radius), on)
        return
    ring = [(_tidy(x), _tidy(y), b) for (x, y), b in zip(shape.outline.corners, shape.outline.bulges, strict=True)]
    space.add_lwpolyline(ring, format="xyb", close=True, dxfattribs=on)


def _show_all(doc: Any, outline: Trace) -> None:
    x0, y0, x1, y1 = (_tidy(c) for c in outline.outline.bounds)
    doc.set_modelspace_vport(max(y1 - y0, (x1 - x0) / 2.0) * 1.1, ((x0 + x1) / 2.0, (y0 + y1) / 2.0))
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = (x0, y0, 0), (x1, y1, 0)
    doc.modelspace().reset_extents((x0, y0, 0), (x1, y1, 0))


def _tidy(value: float) -> float:
    return round(value, _DECIMALS) + 0.0


def _readme(piece: Piece, parts: dict[str, tuple[Distinct, Part]]) -> Iterator[str]:
    yield _INTRODUCTION.format(piece=piece.name, outline=OUTLINE, through=THROUGH)
    for file, (d, part) in parts.items():
        sizes = " x ".join(format_length(s) for s in (part.stock.length, part.stock.width, part.thickness))
        yield f"{file}: {d.quantity} off, {part.stock.kind} {sizes} mm, {part.stock.species}"
        if part.bend:
            yield f"    bend after cutting, to a radius of {format_length(part.bend.radius)} mm on the hollow side"
        yield from (f"    not in the file: {told}" for told in cuts_in_words(edge_work(part), part))
    given = [p.name for p in piece if not isinstance(p.part, Part)]
    if given:
        yield f"\nGiven as solids, not cut from stock and not in these files: {', '.join(given)}"
