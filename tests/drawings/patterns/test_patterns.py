"""Patterns of the shipped examples: which parts get one, what stands on each tile, and that every page is legible."""

import math
from functools import cache

import pytest

from drawings.cutting.files import cut_from_stock
from drawings.cutting.sawn_outline import sawn_outline
from drawings.paper.audit import audit, sheet_texts
from drawings.paper.page import paper
from drawings.paper.sheet import Line, Pen, Polyline
from drawings.patterns.full_size import is_shaped, patterns
from drawings.patterns.tiling import OVERLAP
from drawings.patterns.write import ROLL, check_square_side, on_paper, on_roll, pattern_sheets, write_patterns
from drawings.sheets.clear_room import within
from model.cuts.through import Opening
from model.layout.outline import circle, rectangle
from model.order import order_from_text
from model.orders import example_names
from model.part import Part
from model.stock import board
from tests.drawings.made_pieces import example, in_inches, made

EXAMPLES = example_names()


@cache
def tiled(name, paper_name="A3"):
    piece, order = example(name)
    return [on_paper(p, paper(paper_name), check_square_side(piece)) for p in patterns(piece, order)]


@cache
def strips(name):
    piece, order = example(name)
    return [on_roll(p, check_square_side(piece)) for p in patterns(piece, order)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_shaped_part_has_a_pattern_and_no_other(name):
    piece, order = example(name)
    shaped = {n for d, part in cut_from_stock(piece).values() if is_shaped(part) for n in d.names}
    told = {p.title.lower() for p in patterns(piece, order)}
    assert all(any(n.split(" ")[0] in title for title in told) for n in shaped)
    assert bool(shaped) == bool(told)


def test_files_are_named_as_the_cutting_files_are(tmp_path):
    piece, order = example("refuge-stool")
    names = [path.name for path in write_patterns(piece, order, tmp_path)]
    cutting = {file.removesuffix(".dxf") for file in cut_from_stock(piece)}
    assert names[:2] == ["01-first-frame.pdf", "01-first-frame-strip.pdf"]
    assert {n.removesuffix(".pdf").removesuffix("-strip") for n in names} <= cutting


def test_the_same_piece_gives_the_same_bytes(tmp_path):
    piece, order = example("refuge-stool")
    first, again = (write_patterns(piece, order, tmp_path / n) for n in ("a", "b"))
    assert [p.read_bytes() for p in first] == [p.read_bytes() for p in again]


def test_a_left_has_its_own_and_equal_outlines_share():
    piece, order = example("refuge-chest")
    assert [p.title for p in patterns(piece, order)] == [
        "Plinth front, plinth back",
        "Left plinth end",
        "Right plinth end",
    ]


def test_an_opening_makes_a_plain_board_shaped_and_a_tenon_or_a_hole_does_not():
    plain = Part(board(400.0, 200.0, 19.0))
    assert not is_shaped(plain)
    assert is_shaped(plain.cut(Opening(circle((200.0, 100.0), 60.0))))
    assert is_shaped(plain.cut(Opening(rectangle(50.0, 50.0, 100.0, 50.0))))


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("paper_name", ["A3", "A4"])
def test_every_tile_is_legible(name, paper_name):
    blemished = {s.name: audit(s) for t in tiled(name, paper_name) for s in t.sheets() if audit(s)}
    assert blemished == {}


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_strip_is_legible_and_one_page_of_the_roll(name):
    for strip in strips(name):
        sheets = strip.sheets()
        assert [audit(s) for s in sheets] == [()]
        assert sheets[0].paper.height <= ROLL


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_tile_says_what_it_is(name):
    for t in tiled(name):
        for tile, sheet in zip(t.tiles, t.sheets(), strict=True):
            said = " ".join(text.text for text in sheet_texts(sheet))
            for word in ("Check square 100 mm × 100 mm", "Print at 100 %", "Item", "grain", "face side"):
                assert word in said, f"{sheet.name} does not say {word}"
            assert len(t.tiles) == 1 or f"Tile {tile.name}, page" in said
            assert _squares(sheet, 100.0) == 1


def _squares(sheet, side):
    def sides(mark):
        (x0, y0), _, (x1, y1), *_ = mark.points
        return round(x1 - x0, 6), round(y1 - y0, 6)

    closed = [m for m in sheet.entities if isinstance(m, Polyline) and m.closed and len(m.points) == 4]
    return sum(sides(m) == (side, side) for m in closed)


def test_an_inch_order_has_a_square_of_4_in():
    sheets = pattern_sheets(*in_inches("settle"))
    assert all(_squares(s, 101.6) == 1 for s in sheets)
    assert "4 in × 4 in" in " ".join(t.text for t in sheet_texts(sheets[0]))
    assert all(audit(s) == () for s in sheets)


def test_inch_paper():
    order = order_from_text('piece = "table"\nname = "t"\nunits = "in"\n[drawing]\npaper = "B"\n')
    assert {audit(s) for s in pattern_sheets(*made(order))} == {()}


@pytest.mark.parametrize("name", EXAMPLES)
def test_tiles_show_the_whole_outline_once(name):
    for t in tiled(name):
        shown = sum(e.length for tile in t.tiles for line in t.pattern.polylines(tile.core) for e in _edges(line))
        whole = sum(e.length for line in t.pattern.lines for e in line.edges)
        assert shown == pytest.approx(whole, abs=0.2)


def _edges(line):
    from model.layout.outline import Edge

    return [Edge(p, q, b) for p, q, b in line.stretches()]


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_tile_is_empty_and_none_is_missing(name):
    for t in tiled(name):
        kept = {tile.name for tile in t.tiles}
        assert all(tile.name in kept or not list(t.pattern.polylines(tile.core)) for tile in t.tiling.tiles)
        assert all(t.pattern.shows_in(tile.core) for tile in t.tiles)


def test_a_corner_without_wood_is_left_out():
    bench = {t.pattern.title: t for t in tiled("refuge-bench")}
    side = bench["Left side"]
    assert "E1" not in {tile.name for tile in side.tiles}
    assert len(side.tiles) < len(side.tiling.tiles)


@pytest.mark.parametrize("name", EXAMPLES)
def test_join_marks_lie_on_both_neighbours(name):
    for t in tiled(name):
        by_name = {tile.name: tile for tile in t.tiles}
        numbers = [number for join in t.joins for number, _ in join.marks]
        assert numbers == list(range(1, len(numbers) + 1))
        for join in t.joins:
            for tile in (by_name[n] for n in join.tiles):
                for _, (x, y) in join.marks:
                    assert within((x - OVERLAP / 2, y, x + OVERLAP / 2, y), tile.window) or not join.upright
                    assert within((x, y - OVERLAP / 2, x, y + OVERLAP / 2), tile.window) or join.upright


@pytest.mark.parametrize("name", EXAMPLES)
def test_crop_marks_stand_at_the_ends_of_the_join_lines(name):
    """On the page, so that cutting along them cuts where the pattern is joined."""
    for t in tiled(name):
        for sheet in t.sheets():
            drawn = [m for m in sheet.entities if isinstance(m, Line)]
            marks = [m for m in drawn if m.pen is Pen.THIN and math.dist(m.p, m.q) < 5.0]
            for join in (m for m in drawn if m.pen is Pen.PHANTOM):
                axis = 0 if abs(join.p[0] - join.q[0]) < 1e-6 else 1
                at = [m for m in marks if m.p[axis] == m.q[axis] == pytest.approx(join.p[axis], abs=1e-6)]
                assert len(at) == 2


def test_the_outline_is_the_one_that_is_sawn():
    piece, _ = example("refuge-bench")
    side = next(t.pattern for t in tiled("refuge-bench") if t.pattern.title == "Left side")
    wide = [e for line in side.lines if line.pen is Pen.VISIBLE for e in line.edges]
    assert sum(e.length for e in wide) == pytest.approx(sawn_outline(piece["left side"].wood)[0].perimeter)


def test_depths_are_told_in_words():
    said = {text.text for t in strips("refuge-cupboard") for s in t.sheets() for text in sheet_texts(s)}
    assert {"dado 6.3 deep", "24 × hole Ø5, 12.7 deep", "rabbet 9.5 deep", "hinge gain 1.3 deep"} <= said
