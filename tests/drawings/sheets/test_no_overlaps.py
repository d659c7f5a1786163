"""Every sheet of every set: no text on another text, none under a line, nothing outside the frame."""

from dataclasses import replace
from functools import cache

import pytest

from drawings.paper.audit import audit
from drawings.set_out import build
from drawings.sheets.book import book
from model.order import read_order
from model.orders import example_names


@cache
def built(name):
    return build(read_order(name))


def illegible(made, order):
    return [(sheet.name, blemish) for sheet in book(made.piece, order, made.shapes) for blemish in audit(sheet)]


@pytest.mark.parametrize("name", example_names())
def test_sets_in_millimetres(name):
    assert illegible(built(name), built(name).order) == []


@pytest.mark.parametrize("name", ["refuge-bench", "refuge-bookcase", "refuge-cupboard", "refuge-chest", "refuge-stool"])
def test_sets_in_inches_on_us_sheets(name):
    order = built(name).order
    inches = replace(order, units="in", drawing=order.drawing.model_copy(update={"paper": "B"}))
    assert illegible(built(name), inches) == []
