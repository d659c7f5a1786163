"""Parts go on the smallest papers: what is wider than the sheet is folded, wrapped or drawn smaller; all is legible."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.paper.audit import audit
from drawings.paper.lettering import text_width
from drawings.parts.compose import part_sheets
from drawings.parts.table import Cell, Table
from tests.drawings.made_pieces import example


def on_paper(name, paper, units):
    piece, order = example(name)
    return piece, replace(order, units=units, drawing=order.drawing.model_copy(update={"paper": paper}))


@pytest.mark.parametrize("name", ["refuge-bookcase", "refuge-stool"])
def test_every_part_goes_on_a4(name):
    sheets = part_sheets(*on_paper(name, "A4", "mm"))

    assert [(s.name, blemish) for s in sheets for blemish in audit(s)] == []


@pytest.mark.parametrize("name", ["refuge-bench"])
def test_every_part_goes_on_a_letter_sheet_at_the_heights_for_inches(name):
    sheets = part_sheets(*on_paper(name, "A", "in"))

    assert [(s.name, blemish) for s in sheets for blemish in audit(s)] == []


words = st.text("abcdefgh ", min_size=1, max_size=12)


@given(st.lists(st.tuples(words, words, words, words, words), min_size=1, max_size=4), st.floats(20.0, 200.0))
def test_a_folded_table_keeps_every_cell_and_its_rows(rows, width):
    table = Table("", ("No.", "b", "c", "d", "e"), tuple(tuple(map(Cell, row)) for row in rows))
    pieces = table.folded(width)

    assert [head for piece in pieces for head in piece.heads[1:]] == list(table.heads[1:])
    assert all([row[0] for row in piece.rows] == [row[0] for row in table.rows] for piece in pieces)
    again = [sum((piece.rows[n][1:] for piece in pieces), table.rows[n][:1]) for n in range(len(rows))]
    assert again == list(table.rows)
    assert all(sum(piece.widths) <= width or len(piece.heads) == 2 for piece in pieces)


def test_a_table_that_goes_on_is_not_folded():
    table = Table("", ("No.", "what"), ((Cell("1"), Cell("hole")),))

    assert table.folded(sum(table.widths)) == [table]
    assert table.folded(text_width("No.", 2.5) + 4.0) == [table]
