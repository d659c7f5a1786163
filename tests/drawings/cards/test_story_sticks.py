"""Story sticks: stations from placements, in order, each with a name; sheets legible; rods true at full size."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.cards.flow import spread
from drawings.cards.stations import rods
from drawings.cards.story_sticks import measured, rod_pattern, story_stick_sheets, write_story_sticks
from drawings.paper.audit import audit, sheet_texts
from drawings.paper.page import paper
from drawings.paper.sheet import OrdinateDimension
from drawings.patterns.write import on_paper, on_roll
from drawings.sheets.principal import Lengths
from model.orders import example_names
from tests.drawings.made_pieces import example, in_inches

EXAMPLES = example_names()


def by_name(name):
    return {rod.name: rod for rod in rods(example(name)[0])}


def marks(name, rod):
    return {round(m.station, 2): m.name for m in by_name(name)[rod].marks}


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_rod_each_for_heights_widths_and_depths(name):
    assert list(by_name(name)) == ["heights", "widths", "depths"]


def test_shelf_heights_of_the_bookcase_are_where_its_script_puts_them():
    piece, _ = example("refuge-bookcase")
    found = marks("refuge-bookcase", "heights")
    for n, height in enumerate(piece.parameters.shelf_heights[1:-1], 1):
        assert any(f"bottom of shelf {n}" in text for at, text in found.items() if abs(at - height) < 0.02), height


def test_widths_of_the_bookcase_end_at_its_width():
    found = by_name("refuge-bookcase")["widths"]
    assert found.length == pytest.approx(900.0)
    assert any("centre line" in m.name and m.station == pytest.approx(450.0) for m in found.marks)


def test_the_bench_names_its_seat_and_rail():
    found = marks("refuge-bench", "heights")
    assert "top of seat, hatch" in found[435.0]
    assert "bottom of top rail" in found[1241.0]
    assert found[0.0].startswith("floor; bottom of left side, right side")
    assert "end of seat height" in found[435.0]


def test_a_dado_without_a_part_in_it_keeps_its_own_mark_and_one_filled_goes_by_the_part():
    assert not any("dado in left side" in text for text in marks("refuge-bookcase", "heights").values())


@pytest.mark.parametrize("name", EXAMPLES)
def test_marks_are_in_order_apart_and_named(name):
    for rod in by_name(name).values():
        stations = [m.station for m in rod.marks]
        assert stations[0] == 0.0
        assert all(b - a > 0.019 for a, b in pairwise(stations))
        assert all(m.name for m in rod.marks)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_mark_s_point_lies_at_its_station(name):
    for rod in by_name(name).values():
        datum = rod.marks[0].at[rod.axis]
        for mark in rod.marks:
            assert mark.at[rod.axis] - datum == pytest.approx(mark.station, abs=0.02)
            told = measured(rod, mark)
            assert told.q[0] - told.p[0] == pytest.approx(mark.station, abs=0.02)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_sheet_is_legible_and_dimensions_every_mark(name):
    piece, order = example(name)
    sheets = story_stick_sheets(piece, order)
    assert [(s.name, b) for s in sheets for b in audit(s)] == []
    drawn = [d for s in sheets for d in s.entities if isinstance(d, OrdinateDimension)]
    assert len(drawn) == sum(len(rod.marks) - 1 for rod in rods(piece))
    assert all(d.drawn_mm == pytest.approx(d.value_mm, abs=1e-6) for d in drawn)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_name_is_in_the_table(name):
    piece, order = example(name)
    said = " ".join(t.text for s in story_stick_sheets(piece, order) for t in sheet_texts(s))
    words = {word for rod in rods(piece) for m in rod.marks for word in m.name.split()}
    assert words <= set(said.split())


def test_inches_are_legible():
    assert [b for s in story_stick_sheets(*in_inches("cupboard")) for b in audit(s)] == []


@pytest.mark.parametrize("name", EXAMPLES)
def test_full_size_rods_are_legible_and_keep_every_mark(name):
    piece, order = example(name)
    for rod in rods(piece):
        pattern = rod_pattern(rod, order, Lengths(order.units, order.drawing.denominator))
        ticks = {round(e.start[0], 6) for line in pattern.lines for e in line.edges if e.start[0] == e.end[0]}
        assert {round(m.station, 6) for m in rod.marks} <= ticks
        for tiled in (on_paper(pattern, paper("A3"), 100.0), on_roll(pattern, 100.0)):
            assert [(s.name, b) for s in tiled.sheets() for b in audit(s)] == []
            shown = {t.text for s in tiled.sheets() for t in sheet_texts(s)}
            assert {t.text for t in pattern.texts} <= shown


def test_written_as_tiles_and_strips(tmp_path):
    piece, order = example("refuge-stool")
    names = [p.name for p in write_story_sticks(piece, order, tmp_path)]
    assert names[:2] == ["story-stick-heights.pdf", "story-stick-heights-strip.pdf"]
    assert all((tmp_path / n).stat().st_size > 1000 for n in names)


@given(st.lists(st.floats(0.0, 300.0), min_size=1, max_size=40), st.floats(1.0, 6.0))
def test_spread_keeps_order_and_distance(wanted, gap):
    places = spread(sorted(wanted), gap, 0.0, 300.0)
    assert len(places) == len(wanted)
    assert all(b - a > gap - 1e-6 for a, b in pairwise(places))
    if gap * len(wanted) <= 300.0:
        assert places[0] >= -1e-6
        assert places[-1] <= 300.0 + 1e-6


def test_spread_leaves_what_is_clear_where_it_is():
    assert spread([10.0, 50.0, 52.0], 5.0, 0.0, 100.0) == [10.0, 48.5, 53.5]
