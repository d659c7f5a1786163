"""Full-size patterns held against the solids: each wide line of a plotter's strip, as pypdf reads it from the finished
file, lies on the wood's own edges, and every edge that goes right through the wood is drawn.

A pattern must be true to 0.1 mm over its whole length (our own rule: half of the finest a rule is read to, twice).
Paths, line widths and matrices by ISO 32000-1, 8.4 and 8.5. What is worked along the edges is not on a pattern.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path, PurePath
from typing import Any

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream
from shapely.affinity import scale, translate
from shapely.geometry import LineString, MultiLineString

from drawings.cutting.files import cut_from_stock
from drawings.paper.sheet import Pen
from drawings.patterns.full_size import patterns
from drawings.patterns.write import LONGEST_PAGE, ROLL, check_square_side, on_roll
from drawings.players.pdf import write_pdf
from model.cuts.edges import EdgeCut
from model.part import Part
from model.solids import solid
from tests.drawings.made_pieces import example
from tests.outside.test_full_size_pdf import MM, paper_mm, times

TRUE = 0.1
#: Points to a curved edge: an arc of 90 degrees and 500 mm radius then strays from its chords by 0.004 mm.
STEPS = 200
EXAMPLES = ("bench", "bookcase", "chest", "table", "cupboard", "stool")


def wide_lines(page: Any) -> Iterator[list[Any]]:
    """Every path stroked with the widest pen, its curves as chords, mm on the paper."""
    matrix, stack, width, path = (1, 0, 0, 1, 0, 0), [], 0.0, []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"q":
            stack.append((matrix, width))
        elif operator == b"Q":
            matrix, width = stack.pop()
        elif operator == b"cm":
            matrix = times([float(n) for n in operands], matrix)
        elif operator == b"w":
            width = float(operands[0]) * abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]) ** 0.5 * MM
        elif operator in (b"m", b"l", b"c"):
            n = [float(v) for v in operands]
            points = [paper_mm(matrix, n[k], n[k + 1]) for k in range(0, len(n), 2)]
            if operator == b"m":
                path.append(points)
            else:
                path[-1] += points if operator == b"l" else bezier(path[-1][-1], *points)
        elif operator == b"h":
            path[-1].append(path[-1][0])
        elif operator in (b"S", b"s", b"f", b"f*", b"B", b"n"):
            if operator in (b"S", b"s") and abs(width - Pen.VISIBLE.width) < 0.01:
                yield from path
            path = []


def bezier(a: Any, b: Any, c: Any, d: Any) -> list[Any]:
    def at(t: float) -> Any:
        s = 1.0 - t
        shares = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
        return tuple(sum(w * p[k] for w, p in zip(shares, (a, b, c, d), strict=True)) for k in (0, 1))

    return [at(n / 50) for n in range(1, 51)]


def sawn_solid(part: Part) -> Any:
    """Flat, and nothing worked along its edges."""
    return solid(replace(part, bend=None, cuts=tuple(c for c in part.cuts if not isinstance(c, EdgeCut))))


def plan(edge: Any) -> LineString | None:
    """An edge of a solid as it is seen from above; None for an upright one."""
    steps = 1 if edge.geomType() == "LINE" else STEPS
    points = [(p.x, p.y) for p in edge.positions([n / steps for n in range(steps + 1)])]
    line = LineString(points)
    return line if line.length > 1e-6 else None


def through(shape: Any, thickness: float) -> Iterator[LineString]:
    """The lower edges of all faces that stand upright through the whole thickness, nowhere broken by a tenon."""
    for face in shape.Faces():
        if face.BoundingBox().zlen > thickness - 1e-3 and abs(face.normalAt().z) < 1e-6:
            lower = [line for e in face.Edges() if e.BoundingBox().zmax < 1e-3 and (line := plan(e))]
            if abs(face.Area() - thickness * sum(line.length for line in lower)) < 1e-4 * face.Area():
                yield from lower


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_wide_line_of_a_strip_is_an_edge_of_the_wood(name: str, tmp_path: Path) -> None:
    piece, order = example(f"refuge-{name}")
    drawn_in = strips(piece, order, tmp_path)
    assert drawn_in
    for path, part in drawn_in.items():
        (page,) = PdfReader(path).pages
        drawn, shape = MultiLineString(list(wide_lines(page))), sawn_solid(part)
        edges = MultiLineString([line for edge in shape.Edges() if (line := plan(edge))])
        bare = MultiLineString(list(through(shape, part.thickness)))
        laid = translate(drawn, *(a - b for a, b in zip(edges.bounds[:2], drawn.bounds[:2], strict=True)))
        assert furthest(laid, edges) < TRUE, path.name
        assert furthest(bare, laid) < TRUE, path.name
        assert laid.length > 0.99 * bare.length > 0.0


def test_a_line_a_fifth_of_a_millimetre_off_is_found(tmp_path: Path) -> None:
    """The wood 0.2 mm longer than the pattern: what is drawn and what is sawn no longer lie on each other."""
    path, part = next(iter(strips(*example("refuge-stool"), tmp_path).items()))
    (page,) = PdfReader(path).pages
    drawn = MultiLineString(list(wide_lines(page)))
    longer = 1.0 + 0.2 / (drawn.bounds[2] - drawn.bounds[0])
    edges = MultiLineString([line for edge in sawn_solid(part).Edges() if (line := plan(edge))])
    laid = translate(drawn, *(a - b for a, b in zip(edges.bounds[:2], drawn.bounds[:2], strict=True)))
    assert furthest(laid, edges) < TRUE < furthest(scale(laid, longer, 1.0, origin=(0.0, 0.0)), edges)


def strips(piece: Any, order: Any, folder: Path) -> dict[Path, Part]:
    """The patterns that go on one strip, written; and the part each is of."""
    square, written = check_square_side(piece), {}
    for pattern in patterns(piece, order):
        x0, y0, x1, y1 = pattern.bounds
        if x1 - x0 < LONGEST_PAGE - 300.0 and y1 - y0 < ROLL - 30.0:
            path = folder / f"{pattern.name}.pdf"
            write_pdf(on_roll(pattern, square).sheets(), path, pattern.title)
            written[path] = part_of(piece, pattern)
    return written


def furthest(lines: MultiLineString, others: MultiLineString) -> float:
    """How far off others a hundred spots of each line lie at the most, mm."""
    return max(others.distance(line.interpolate(n / 100, normalized=True)) for line in lines.geoms for n in range(101))


def part_of(piece: Any, pattern: Any) -> Part:
    """The first part it is the pattern of."""
    return next(part for file, (_, part) in cut_from_stock(piece).items() if PurePath(file).stem == pattern.name)
