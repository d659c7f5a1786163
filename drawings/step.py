"""STEP for other CAD systems: every part a named, coloured body, equal parts stored once."""

from __future__ import annotations

import re
from pathlib import Path

import cadquery as cq
from OCP.TopLoc import TopLoc_Location

from drawings.scene import colour, species_of
from model.piece import Piece
from model.solids import placed, solid

#: STEP files carry the moment of writing; this stands in its place, so that equal orders give equal files.
_NO_CLOCK = "2000-01-01T00:00:00"


def write_step(piece: Piece, path: Path) -> None:
    """Write the whole piece as STEP AP214, mm. The same piece gives the same bytes. Raises OSError if it can't be
    written."""
    assembly = cq.Assembly(name=piece.name)
    for part in piece:
        shape = solid(part.part)
        where = placed(shape, part.at).wrapped.Location()
        assembly.add(
            shape, name=part.name, loc=cq.Location(TopLoc_Location(where)), color=cq.Color(*colour(species_of(part)))
        )
    assembly.export(str(path), exportType="STEP")
    path.write_text(_without_clock(path.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


def _without_clock(text: str) -> str:
    """The header without the time and the system that wrote it."""
    head, ends, body = text.partition("ENDSEC;")
    head = re.sub(r"(FILE_NAME\('[^']*',)'[^']*'", rf"\1'{_NO_CLOCK}'", head)
    return head + ends + body
