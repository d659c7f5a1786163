"""Steps on their sheets: none forgotten, fields apart and clear of the title block, words where they go in."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.paper.page import paper, title_block_area
from drawings.sheets.clear_room import boxes_meet, within
from drawings.sheets.step_fields import Asked, set_out

LETTERS = st.floats(20.0, 900.0)


def words(letters):
    """Words that fill so many letters in lines of the width over half the lettering's height."""
    return lambda width, size: math.ceil(letters * size / 2.0 / width) * 1.5 * size + 10.0


steps = st.lists(
    st.builds(lambda w, h, n: Asked((0.0, 0.0, w, h), words(n)), st.floats(100, 3000), st.floats(100, 3000), LETTERS),
    max_size=11,
)


@pytest.mark.parametrize("name", ["A4", "A3", "A2", "A", "B"])
@given(some=steps)
def test_every_step_has_a_field_of_its_own(name, some):
    page = paper(name)
    sheets = set_out(some, page)

    assert sum(len(fields) for fields in sheets) == len(some)
    for fields in sheets:
        for n, field in enumerate(fields):
            assert within(field.frame, page.frame)
            assert not boxes_meet(field.frame, title_block_area(page))
            assert within(field.picture, field.frame)
            assert within(field.words, field.frame)
            assert not boxes_meet(field.picture, field.words)
            assert not any(boxes_meet(field.frame, other.frame) for other in fields[:n])


@given(some=steps)
def test_words_go_into_their_box_in_the_wanted_lettering(some):
    """A field of an A3 sheet holds twice as many letters as a step has here."""
    placed = [field for fields in set_out(some, paper("A3")) for field in fields]
    for step, field in zip(some, placed, strict=True):
        x0, y0, x1, y1 = field.words
        assert field.lettering == 2.5
        assert step.tall(x1 - x0, field.lettering) <= y1 - y0 + 1e-6


def test_few_steps_fill_their_sheet():
    """Two tall pictures stand side by side, as high as the sheet; two wide ones one over the other."""
    tall, wide = Asked((0.0, 0.0, 400.0, 900.0), words(100.0)), Asked((0.0, 0.0, 900.0, 100.0), words(100.0))
    (side_by_side,) = set_out([tall, tall], paper("A3"))
    (stacked,) = set_out([wide, wide], paper("A3"))
    assert side_by_side[0].frame[1] == side_by_side[1].frame[1]
    assert stacked[0].frame[0] == stacked[1].frame[0]


def test_steps_are_spread_evenly():
    step = Asked((0.0, 0.0, 400.0, 400.0), words(100.0))
    assert [len(fields) for fields in set_out([step] * 5, paper("A3"))] == [3, 2]
    assert [len(fields) for fields in set_out([step] * 9, paper("A3"))] == [3, 3, 3]


def test_words_of_a_sheet_begin_level():
    short, long = (Asked((0.0, 0.0, 900.0, 800.0), words(letters)) for letters in (50.0, 500.0))
    (fields,) = set_out([short, long, short], paper("A3"))
    assert len({field.words[3] for field in fields}) == 1
