"""STEP for other CAD systems: every part a named, coloured body, equal parts stored once."""

from __future__ import annotations

import re
from itertools import count
from pathlib import Path

import cadquery as cq

from drawings.preview.scene import colour, species_of
from model.piece import Piece
from model.solids import location, solid

#: STEP files carry the moment of writing; this stands in its place, so that equal orders give equal files.
_NO_CLOCK = "2000-01-01T00:00:00"


def write_step(piece: Piece, path: Path) -> None:
    """Write the whole piece as STEP AP214, mm. The same piece gives the same bytes. Raises OSError if it can't be
    written."""
    assembly = cq.Assembly(name=piece.name)
    for part in piece:
        tint = cq.Color(*colour(species_of(part)))
        assembly.add(solid(part.part), name=part.name, loc=location(part.at), color=tint)
    assembly.export(str(path), exportType="STEP", write_pcurves=False)
    path.write_text(settled(path.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


def settled(text: str) -> str:
    """The same STEP text without what differs from run to run: the time, a running number, the order of the colours
    (which the kernel keeps by address)."""
    head, ends, body = text.partition("ENDSEC;")
    head = re.sub(r"(FILE_NAME\('[^']*',)'[^']*'", rf"\1'{_NO_CLOCK}'", head)
    numbers = count(1)
    body = re.sub(rf"{_USED}\('\d+'([^;]*);", lambda m: f"{_USED}('{next(numbers)}'{_one_line(m[1])};", body)
    return head + ends + _colours_in_order(body)


_USED = "NEXT_ASSEMBLY_USAGE_OCCURRENCE"
_COLOURS = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"


def _colours_in_order(body: str) -> str:
    """Everything from the first list of colours on, its lists sorted by what they colour and numbered anew."""
    start = body.find(_COLOURS)
    if start < 0:
        return body
    start = body.rfind("\n#", 0, start) + 1
    end = body.rfind("ENDSEC;")
    entities = dict(re.findall(r"#(\d+) = (.*?);\n", body[start:end], flags=re.DOTALL))
    order = _visited(entities)
    first = min((int(n) for n in entities), default=0)
    new = {n: str(first + k) for k, n in enumerate(order)}
    lines = [f"#{new[n]} = {_renumbered(_plain(entities[n], entities), new)};\n" for n in order]
    return body[:start] + "".join(lines) + body[end:]


def _visited(entities: dict[str, str]) -> list[str]:
    """The entities' numbers, each list of colours followed by what it leads to, sorted by the shapes coloured."""
    seen: dict[str, None] = {}

    def visit(n: str) -> None:
        if n in entities and n not in seen:
            seen[n] = None
            for inner in re.findall(r"#(\d+)", _plain(entities[n], entities)):
                visit(inner)

    for n in sorted(entities, key=lambda n: _shape_coloured(n, entities)):
        if entities[n].startswith(_COLOURS):
            visit(n)
    for n in entities:
        visit(n)
    return list(seen)


def _plain(entity: str, entities: dict[str, str]) -> str:
    """The entity on one line, a list of colours sorted by the shapes they colour."""
    line = _one_line(entity)
    if not line.startswith(_COLOURS):
        return line
    listed = re.search(r"\(((?:#\d+,?)+)\)", line)
    if listed is None:
        return line
    items = sorted(listed[1].split(","), key=lambda n: _shape_coloured(n[1:], entities))
    return line.replace(listed[1], ",".join(items))


def _one_line(entity: str) -> str:
    return re.sub(r"\s*\n\s*", "", entity)


def _shape_coloured(n: str, entities: dict[str, str]) -> int:
    """The greatest number outside this part of the file that an entity leads to: the shape's own."""
    outside = [0]
    todo, seen = [n], set()
    while todo:
        at = todo.pop()
        if at in seen:
            continue
        seen.add(at)
        if at in entities:
            todo += re.findall(r"#(\d+)", entities[at])
        else:
            outside.append(int(at))
    return min(outside[1:], default=0) if entities[n].startswith("STYLED_ITEM") else max(outside)


def _renumbered(line: str, new: dict[str, str]) -> str:
    return re.sub(r"#(\d+)", lambda m: f"#{new.get(m[1], m[1])}", line)
