"""Full-size patterns as a reader that did not write them sees them: pypdf on the finished PDF.

Page sizes and fonts as the file states them (ISO 32000-1, 7.7.3.3 and 9.9), the text it gives out, and lengths
measured from the path operators of the content streams (8.5.2), each through the matrix in force. A pattern must be
true to 0.1 mm over 300 mm; the writer keeps six significant digits, so a hundredth of that is asked.
"""

import math
import re
from functools import cache

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from drawings.cards.story_sticks import write_story_sticks
from drawings.patterns.full_size import patterns
from drawings.patterns.write import write_patterns
from tests.drawings.made_pieces import example

MM = 25.4 / 72
TRUE = 0.001


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("patterns")
    piece, order = example("refuge-bench")
    write_patterns(piece, order, folder)
    write_story_sticks(piece, order, folder)
    return folder


def times(a, b):
    """PDF's product of two matrices [a b c d e f], the first applied first."""
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )  # fmt: skip


def stretches(page):
    """Every line and curve of a page as its points, in mm on the paper, from the content stream's own operators."""
    matrix, stack, at = (1, 0, 0, 1, 0, 0), [], None
    begun = None
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        numbers = [float(n) for n in operands] if operator in (b"cm", b"m", b"l", b"c") else []
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            matrix = times(numbers, matrix)
        elif operator in (b"m", b"l", b"c"):
            points = [paper_mm(matrix, numbers[n], numbers[n + 1]) for n in range(0, len(numbers), 2)]
            if operator == b"m":
                begun = points[0]
            else:
                yield (at, *points)
            at = points[-1]
        elif operator == b"h":
            yield (at, begun)
            at = begun


def paper_mm(matrix, x, y):
    return (
        (matrix[0] * x + matrix[2] * y + matrix[4]) * MM,
        (matrix[1] * x + matrix[3] * y + matrix[5]) * MM,
    )


@cache
def read(path):
    return PdfReader(path)


def lines(page):
    return [s for s in stretches(page) if len(s) == 2]


def curves(page):
    return [s for s in stretches(page) if len(s) == 4]


def level(page):
    return [line for line in lines(page) if abs(line[0][1] - line[1][1]) < TRUE]


def upright(page):
    return [line for line in lines(page) if abs(line[0][0] - line[1][0]) < TRUE]


def is_square(line):
    """Whether a line is as long as a side of the check square."""
    return abs(math.dist(*line) - 100.0) < TRUE


def lowest(page):
    """The lowest level line left of the panel, crop marks left out."""
    found = [line for line in level(page) if min(line[0][0], line[1][0]) < 300.0 and math.dist(*line) > 10.0]
    return min(found, key=lambda line: line[0][1])


def longest(page):
    return max(math.dist(*line) for line in lines(page))


def test_tiles_are_a3_pages(folder):
    for page in read(folder / "01-left-side.pdf").pages:
        size = sorted(float(side) * MM for side in (page.mediabox.width, page.mediabox.height))
        assert size == pytest.approx([297, 420], abs=0.01)


def test_a_strip_is_one_page_no_wider_than_the_roll(folder):
    (page,) = read(folder / "01-left-side-strip.pdf").pages
    assert float(page.mediabox.height) * MM <= 914.0
    assert float(page.mediabox.width) * MM > 1330.0


def test_a_long_edge_is_true_over_the_whole_strip(folder):
    """The side's back edge is 1330 mm; to 0.1 mm over 300 mm would be 0.44."""
    (page,) = read(folder / "01-left-side-strip.pdf").pages
    assert longest(page) == pytest.approx(1330.0, abs=TRUE)


def test_the_check_square_measures_100_mm_on_every_page(folder):
    for path in sorted(folder.glob("*.pdf")):
        for page in read(path).pages:
            assert sum(map(is_square, upright(page))) >= 2, path.name
            assert sum(map(is_square, level(page))) >= 2, path.name


def test_a_chord_over_300_mm_is_true_on_the_strip(folder):
    """The seat's back edge: both ends of the arc as drawn, against the outline's own chord."""
    piece, _ = example("refuge-bench")
    arc = max((e for e in piece["seat"].wood.outline.edges if not e.straight), key=lambda e: e.chord)
    (page,) = read(folder / "03-seat-strip.pdf").pages
    ends = [p for curve in curves(page) for p in (curve[0], curve[-1])]
    reach = max(math.dist(p, q) for p in ends for q in ends)
    assert arc.chord > 300
    assert reach == pytest.approx(arc.chord, abs=TRUE)


@pytest.mark.parametrize(("file", "radius"), [("03-seat", 2750.0), ("03-seat-strip", 2355.0)])
def test_curves_lie_on_their_circle(file, radius, folder):
    """Every Bézier piece of a long arc is true at both ends and in its middle: the three give the radius back.

    Pieces shorter than 100 mm tell too little of so long a radius.
    """
    from model.layout.arcs import circle_through

    found = []
    for page in read(folder / f"{file}.pdf").pages:
        for a, b, c, d in curves(page):
            if math.dist(a, d) > 100.0:
                middle = tuple((p + 3 * q + 3 * r + s) / 8 for p, q, r, s in zip(a, b, c, d, strict=True))
                found.append(circle_through(a, middle, d)[1])
    near = [r for r in found if abs(r - radius) < 20]
    assert near
    assert all(abs(_rise(r) - _rise(radius)) < 0.1 for r in near)


def _rise(radius, chord=300.0):
    return radius - math.sqrt(radius**2 - chord**2 / 4)


def test_neighbouring_tiles_share_10_mm_of_an_edge(folder):
    """The side's 1330 mm back edge runs through the five tiles of row 2: together they print it and four overlaps."""
    tiles = read(folder / "01-left-side.pdf").pages
    pages = [page for page in tiles if re.search(r"Tile [A-Z]2,", page.extract_text())]
    printed = [math.dist(*lowest(page)) for page in pages]
    assert len(pages) == 5
    assert sum(printed) == pytest.approx(1330.0 + 4 * 10.0, abs=5 * TRUE)


def test_text_can_be_searched_and_says_how_to_print(folder):
    for path in sorted(folder.glob("*.pdf")):
        for page in read(path).pages:
            said = " ".join(page.extract_text().split())
            assert "Check square 100 mm × 100 mm" in said
            assert "Print at 100 %" in said


def test_fonts_are_embedded(folder):
    for path in sorted(folder.glob("*.pdf")):
        for page in read(path).pages:
            fonts = [f.get_object() for f in page["/Resources"]["/Font"].get_object().values()]
            used = [f for f in fonts if "DejaVu" in f["/BaseFont"]]
            assert used
            assert all("/FontFile2" in f["/FontDescriptor"].get_object() for f in used)


def test_every_tile_has_its_bookmark(folder):
    reader = read(folder / "01-left-side.pdf")
    assert len(reader.outline) == len(reader.pages)
    assert reader.outline[0].title == "Left side, tile A1"


def test_story_stick_marks_are_true(folder):
    """Ticks right across the rod of heights, 30 mm long, stand where the seat, the arms and the rail are."""
    (page,) = read(folder / "story-stick-heights-strip.pdf").pages
    ticks = [line for line in upright(page) if abs(math.dist(*line) - 30.0) < TRUE]
    first = min(line[0][0] for line in ticks)
    stations = {round(line[0][0] - first, 2) for line in ticks}
    assert {0.0, 416.0, 435.0, 640.0, 1241.0, 1260.0, 1330.0} <= stations


def test_every_shaped_part_was_read(folder):
    piece, order = example("refuge-bench")
    assert {f"{p.name}.pdf" for p in patterns(piece, order)} <= {p.name for p in folder.iterdir()}
