"""Papers, border and title block."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.paper.audit import audit
from drawings.paper.lettering import text_box
from drawings.paper.page import (
    PAPERS,
    centring_marks,
    drawing_area,
    frame_and_title,
    paper,
    title_block_area,
)
from drawings.paper.scales import largest_scale, scale_text
from drawings.paper.sheet import Circle, Pen, Polyline, Sheet, Text
from drawings.paper.title_block import TitleBlock, projection_symbol, title_entities

FULL = TitleBlock(
    "Entry bench for the refuge",
    "Walkers' refuge association",
    "Part drawing",
    "REFUGE-BENCH-02",
    "A",
    "2025-06-01",
    "M. Aubert",
    "C. Perrin",
    "1:10",
    2,
    7,
    "Left side",
)


@pytest.mark.parametrize("name", sorted(PAPERS))
@pytest.mark.parametrize("projection", ["first", "third"])
def test_every_paper_has_a_legible_border(name, projection):
    page = paper(name)
    border = frame_and_title(page, replace(FULL, projection=projection))
    assert audit(Sheet("s", "S", page, border)) == ()


def test_drawing_area_and_title_block_do_not_meet():
    for page in PAPERS.values():
        assert drawing_area(page)[1] >= title_block_area(page)[3]


def test_title_block_says_everything_it_was_given():
    said = " ".join(e.text for e in title_entities(FULL, 410, 10, "A3") if isinstance(e, Text))
    expected = [FULL.title, FULL.owner, FULL.number, FULL.date, FULL.creator, FULL.approved_by, "2 of 7", "1:10"]
    assert [word for field in expected for word in field.split() if word not in said] == []


letters = st.text(st.characters(min_codepoint=32, max_codepoint=382), max_size=150)


@given(
    st.builds(
        TitleBlock, letters, letters, letters, letters, letters, letters, letters, letters, letters, supplement=letters
    )
)
def test_no_field_leaves_its_box(block):
    """No text of any title block overlaps another, crosses a line, or leaves the block."""
    page = PAPERS["A4"]
    marks = title_entities(block, 200, 10, "A4")

    assert audit(Sheet("s", "S", page, marks)) == ()
    x0, y0, x1, y1 = title_block_area(page)
    boxes = [text_box(mark) for mark in marks if isinstance(mark, Text)]
    assert all(x0 <= box[0] and y0 <= box[1] and box[2] <= x1 and box[3] <= y1 for box in boxes)


def test_projection_symbols_differ_as_the_methods_do():
    """First angle: circles right, large end of the cone towards them; third: circles left, small end towards them."""
    for projection, side in (("first", 1), ("third", -1)):
        marks = projection_symbol(projection, (0, 0))
        ring = next(mark for mark in marks if isinstance(mark, Circle))
        cone = next(mark for mark in marks if isinstance(mark, Polyline))
        nearest = min((abs(x - ring.centre[0]), abs(y)) for x, y in cone.points)
        assert ring.centre[0] * side > 0
        assert nearest[1] == (5 if projection == "first" else 2.5)


def test_centring_marks_stand_on_the_middle_of_the_page():
    page = PAPERS["A3"]
    upright, level = [m for m in centring_marks(page) if m.p[0] == m.q[0]], centring_marks(page)[2:]
    assert {mark.p[0] for mark in upright} == {210}
    assert {mark.p[1] for mark in level} == {148.5}
    assert {mark.pen for mark in level} == {Pen.FRAME}


def test_scales_as_written():
    assert [scale_text(s) for s in (10, 2, 1, 0.5, 0.2, 0.05)] == ["10:1", "2:1", "1:1", "1:2", "1:5", "1:20"]


def test_largest_scale_goes_into_the_room():
    assert largest_scale(1480, 1330, (370, 200)) == pytest.approx(1 / 10)
    assert largest_scale(20, 20, (370, 200)) == 1
    assert largest_scale(20, 20, (370, 200), most=5) == 5
    assert largest_scale(1e6, 20, (370, 200)) is None


def test_unknown_paper():
    with pytest.raises(KeyError):
        paper("A7")
