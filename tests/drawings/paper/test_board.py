"""Sheets in inches: composed on a smaller board, and enlarged so that nothing but line widths stays as it was."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.paper.board import board, enlargement
from drawings.paper.lettering import text_box
from drawings.paper.moved import enlarged
from drawings.paper.page import PAPERS, title_block_area
from drawings.paper.sheet import (
    AngularDimension,
    Arc,
    Circle,
    Leader,
    LinearDimension,
    OrdinateDimension,
    RadiusDimension,
    Text,
)
from drawings.paper.strokes import strokes
from drawings.sheets.clear_room import box_of

places = st.tuples(st.floats(0, 300), st.floats(0, 200))
lengths = st.floats(2.0, 120.0)
marks = st.one_of(
    st.builds(lambda p, r: Arc(p, r, 10.0, 130.0), places, lengths),
    st.builds(Circle, places, lengths),
    st.builds(lambda p: Text(p, "Rail, 19"), places),
    st.builds(lambda p, x: LinearDimension(p, (p[0] + x, p[1]), (0.0, p[1] + 12.0), 0.0, '3 1/2"', x), places, lengths),
    st.builds(
        lambda p, r, reach: RadiusDimension(p, r, 50.0, "R80", r, reach=reach), places, lengths, st.floats(-9, 9)
    ),
    st.builds(lambda p, r: AngularDimension(p, r, 0.0, 40.0, "40°", 40.0), places, lengths),
    st.builds(
        lambda p, x: OrdinateDimension(p, (0.0, 0.0), "x", (p[0] + x / 9, p[1] + 20.0), "12", 12.0), places, lengths
    ),
    st.builds(lambda p, x: Leader((p, (p[0] + x, p[1] + 9.0)), "Ease"), places, lengths),
)


@given(marks)
def test_an_enlarged_mark_is_the_same_figure(mark):
    """Arrowheads, gaps and lettering grow with it, so that what was clear on the board is clear on the sheet."""
    small, large = strokes(mark), strokes(enlarged(mark, 1.22))
    assert [type(one) for one in small] == [type(one) for one in large]
    assert box_of([enlarged(mark, 1.22)]) == pytest.approx([1.22 * at for at in box_of([mark])], abs=0.25)
    for one, other in zip(small, large, strict=True):
        if isinstance(one, Text):
            assert text_box(other) == pytest.approx([1.22 * at for at in text_box(one)], abs=0.25)


@given(st.builds(lambda p, x: LinearDimension(p, (p[0] + x, p[1]), p, 0.0, "1", 5.0 * x, 0.2), places, lengths))
def test_a_dimension_measures_the_same(dimension):
    assert enlarged(dimension, 1.22).drawn_mm == pytest.approx(dimension.drawn_mm)


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_a_board_is_its_sheet_made_smaller(name):
    sheet, small = PAPERS[name], board(name, "ft-in")
    by = enlargement("ft-in")
    assert [by * at for at in small.frame] == pytest.approx(sheet.frame)
    assert [by * at for at in title_block_area(small)] == pytest.approx(title_block_area(sheet))
    assert board(name, "mm") == sheet


def test_figures_on_a_sheet_in_inches_are_an_eighth_of_an_inch_high_nearly():
    assert 2.5 * enlargement("in") >= 0.12 * 25.4
    assert 5.0 * enlargement("in") >= 0.24 * 25.4
