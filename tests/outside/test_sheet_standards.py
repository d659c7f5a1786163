"""Papers, frames, scales, lines and lettering against the published standards.

- ISO 216 (trimmed A series), ISO 5457:1999 (frame and drawing space, grid reference, centring marks; the number
  of fields of A2 to A0 from memory), ISO 7200:2004 (title block), ISO 5455:1979 clause 5.1 (scales), ISO 128-2:2020
  (line widths and types), ISO 3098 type B (lettering), ASME Y14.1 (sheet sizes), ASME Y14.2 (lettering, from memory),
  ASME Y14.5 1.7.1 and the US Navy's NAVEDTRA 14069 (dimension lines).
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from drawings.paper.audit import sheet_texts
from drawings.paper.board import enlargement
from drawings.paper.dimensions import FIRST_LINE, NEXT_LINE
from drawings.paper.lettering import ACCENTED_PITCH, HEIGHTS, LINE_PITCH
from drawings.paper.page import PAPERS, field_bounds, frame_and_title, title_block_area
from drawings.paper.scales import ARCHITECTS, ISO_5455, scale_text
from drawings.paper.sheet import LinearDimension, Pen, Polyline, Text
from drawings.paper.strokes import ARROW_LENGTH, ARROW_WIDTH, DOT
from drawings.paper.title_block import TitleBlock
from drawings.set_out import build
from drawings.sheets.book import book
from model.order import read_order


@pytest.mark.parametrize(
    ("name", "trimmed", "space"),
    [
        ("A0", (1189, 841), (1159, 821)),
        ("A1", (841, 594), (811, 574)),
        ("A2", (594, 420), (564, 400)),
        ("A3", (420, 297), (390, 277)),
        ("A4", (210, 297), (180, 277)),
    ],
)
def test_iso_papers_and_drawing_spaces(name, trimmed, space):
    page = PAPERS[name]
    x0, y0, x1, y1 = page.frame
    assert (page.width, page.height) == trimmed
    assert (x1 - x0, y1 - y0) == space
    assert (x0, y0) == (20, 10)


@pytest.mark.parametrize(
    ("name", "inches"),
    [("A", (8.5, 11)), ("B", (17, 11)), ("C", (22, 17)), ("D", (34, 22)), ("E", (44, 34))],
)
def test_asme_papers(name, inches):
    page = PAPERS[name]
    assert (page.width / 25.4, page.height / 25.4) == pytest.approx(inches)


@pytest.mark.parametrize(
    ("name", "fields"), [("A0", (24, 16)), ("A1", (16, 12)), ("A2", (12, 8)), ("A3", (8, 6)), ("A4", (4, 6))]
)
def test_grid_fields(name, fields):
    page = PAPERS[name]
    x0, y0, x1, y1 = page.frame
    across, up = field_bounds(x0, x1, page.width / 2), field_bounds(y0, y1, page.height / 2)
    assert (len(across) - 1, len(up) - 1) == fields
    assert {round(b - a, 6) for a, b in pairwise(across[1:-1])} <= {50}


def test_scales_are_the_recommended_ones():
    published = ["50:1", "20:1", "10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100"]
    assert [scale_text(scale) for scale in ISO_5455] == published


def test_us_scales_are_those_of_the_architects_rule():
    """Drafting courses list the three-sided rule: inches to the foot, and what size each comes to."""
    published = {
        "Full size": 1, '3" = 1\'-0"': 4, '1 1/2" = 1\'-0"': 8, '1" = 1\'-0"': 12, '3/4" = 1\'-0"': 16,
        '1/2" = 1\'-0"': 24, '3/8" = 1\'-0"': 32, '1/4" = 1\'-0"': 48, '3/16" = 1\'-0"': 64, '1/8" = 1\'-0"': 96,
    }  # fmt: skip
    printed = {scale_text(scale / enlargement("in"), "in"): round(1 / scale) for scale in ARCHITECTS if scale <= 1}
    assert published.items() <= printed.items()
    assert printed.keys() - published.keys() == {"Half size"}


def test_title_block_is_180_wide_in_the_lower_right_corner():
    for page in PAPERS.values():
        x0, y0, x1, _ = title_block_area(page)
        assert x1 - x0 == pytest.approx(180)
        assert (x1, y0) == (page.frame[2], page.frame[1])


def test_title_block_has_the_mandatory_fields():
    captions = {e.text for e in frame_and_title(PAPERS["A4"], TitleBlock("Bench")) if isinstance(e, Text)}
    assert captions >= {
        "Legal owner",
        "Identification number",
        "Date of issue",
        "Sheet",
        "Title",
        "Approved by",
        "Drawn by",
        "Document type",
    }


def test_line_widths_are_of_the_published_series_two_to_one():
    series = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0}
    assert {pen.width for pen in Pen} <= series
    assert Pen.VISIBLE.width == 2 * Pen.HIDDEN.width == 2 * Pen.DIMENSION.width
    assert (Pen.FRAME.width, Pen.GRID.width) == (0.7, 0.35)


def test_dash_lengths():
    """A published template draws the narrow long-dashed dotted line as 6, 0.75, 0.125, 0.75 (width 0.25)."""
    assert Pen.CENTRE.dashes == (6, 0.75, 0.125, 0.75)
    assert Pen.HIDDEN.dashes == (3, 0.75)
    assert Pen.CUTTING.dashes == tuple(2 * length for length in Pen.CENTRE.dashes)


def test_lettering_heights_and_pitch():
    """Type B prints line pitches of 9.5 (accented capitals), 7.5 and 6.5 for h = 5."""
    assert HEIGHTS == (1.8, 2.5, 3.5, 5, 7, 10, 14, 20)
    assert (ACCENTED_PITCH * 5, LINE_PITCH * 5) == (9.5, 7.5)


def test_every_text_of_a_border_has_a_published_height():
    for page in PAPERS.values():
        texts = [e for e in frame_and_title(page, TitleBlock("Bench", "Refuge")) if isinstance(e, Text)]
        assert {text.height for text in texts} <= set(HEIGHTS)


def test_dimension_lines_and_arrows():
    """ASME Y14.5 1.7.1: not less than 10 mm, then 6. NAVEDTRA 14069: arrows 3:1, 1/8 to 1/4 in. Y14.2: dot 1.5."""
    assert FIRST_LINE >= 10
    assert NEXT_LINE >= 6
    assert ARROW_LENGTH == 3 * ARROW_WIDTH
    assert pytest.approx(25.4 / 8, abs=0.2) == ARROW_LENGTH
    assert DOT == 1.5


#: ASME Y14.2 Table 1, least heights in mm: dimensions and notes, headings of the title block, letters of sections and
#: views. From memory, and as format checkers in public repositories cite it (0.12, 0.10 and 0.24 in).
Y14_2 = {"notes": 3.0, "headings": 2.5, "section letters": 6.0}


@pytest.fixture(scope="module")
def in_feet():
    built = build(read_order("refuge-stool"))
    order = replace(built.order, units="ft-in", drawing=built.order.drawing.model_copy(update={"paper": "B"}))
    return book(built.piece, order, built.shapes)


def test_sheets_in_inches_have_the_lettering_of_asme(in_feet):
    captions = {e.text for e in frame_and_title(PAPERS["B"], TitleBlock("")) if isinstance(e, Text)} - {"1 of 1", "B"}
    for sheet in in_feet:
        small = {text.text for text in sheet_texts(sheet) if text.height < Y14_2["notes"]}
        assert small <= captions
        assert min(text.height for text in sheet_texts(sheet)) >= Y14_2["headings"]
    letters = {text.height for text in sheet_texts(in_feet[0]) if text.text in ("A", "B", "C") and text.bold}
    assert min(letters) >= Y14_2["section letters"]


def test_sheets_in_inches_are_drawn_at_the_scale_they_print(in_feet):
    """Where the title block says 1 1/2" = 1'-0", a dimension line is an eighth of what it measures."""
    dimensions = [e for e in in_feet[0].entities if isinstance(e, LinearDimension)]
    (said,) = {e.text for e in in_feet[0].entities if isinstance(e, Text) and e.text.endswith("= 1'-0\"")}
    assert said == scale_text(dimensions[0].scale / enlargement("in"), "in")
    for dimension in dimensions:
        assert dimension.drawn_mm == pytest.approx(dimension.value_mm, abs=1e-6)


def test_sheets_in_inches_lie_on_an_asme_sheet_in_third_angle(in_feet):
    """ASME Y14.1: B is 17 by 11 in; the title block in the lower right corner. Third angle is the US custom."""
    for sheet in in_feet:
        assert (sheet.paper.width / 25.4, sheet.paper.height / 25.4) == pytest.approx((17, 11))
        corner = max(p[0] for e in sheet.entities if isinstance(e, Polyline) and e.pen is Pen.FRAME for p in e.points)
        assert corner == pytest.approx(sheet.paper.frame[2])
        assert any(e.text == "Third angle" for e in sheet_texts(sheet))
