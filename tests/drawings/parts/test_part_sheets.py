"""The part sheets of the shipped pieces: every part drawn, legible, measured from one datum."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.lists.distinct import distinct_parts
from drawings.paper.audit import audit
from drawings.paper.page import frame_and_title, paper
from drawings.paper.sheet import OrdinateDimension, Sheet, Text, ViewPort
from drawings.parts import part_sheets
from drawings.parts.edge_section import edge_sections
from drawings.parts.family import families
from drawings.parts.ordinates import spread
from drawings.parts.plan import Plan
from drawings.sheets.principal import Lengths
from model.cuts.edges import Bead, Tongue
from model.cuts.faces import dado
from model.layout.outline import Outline
from model.order import read_order
from model.part import Part
from model.stock import board
from tests.conftest import made

EXAMPLES = ["refuge-bench", "refuge-bookcase"]


@cache
def sheets(example: str, units: str = "mm", page: str = "A3") -> list[Sheet]:
    order = read_order(example)
    drawing = order.drawing.model_copy(update={"paper": page})
    return part_sheets(made(example), replace(order, units=units, drawing=drawing))


def blemishes(found: list[Sheet]) -> list[Any]:
    return [(s.name, b) for s in found for b in audit(s)]


@pytest.mark.parametrize(("example", "units"), [("table", "in"), ("chest", "in.dec"), ("stool", "in.dec")])
def test_sheets_in_inches_are_legible(example: str, units: str) -> None:
    """Whole sets in millimetres, and the other pieces in fractions, are held to it by test_no_overlaps."""
    assert blemishes(sheets(f"refuge-{example}", units)) == []


def test_other_papers_are_legible_too() -> None:
    found = sheets("refuge-bench", page="A2")

    assert {s.paper.name for s in found} == {"A2"}
    assert blemishes(found) == []


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_kind_of_part_has_its_row_once(example: str) -> None:
    piece = made(example)
    lengths = [m for s in sheets(example) for m in extents(s) if m.along == (1.0, 0.0)]

    assert sorted(m.shown.subjects[0] for m in lengths) == sorted(d.names[0] for d in distinct_parts(piece))


def extents(sheet: Sheet) -> list[Any]:
    return [e.measured for e in sheet.entities if isinstance(e, Text) and e.measured and e.measured.kind == "extent"]


def test_sheets_are_numbered_and_filled() -> None:
    found = sheets("refuge-bench")

    assert [s.number for s in found] == list(range(1, 1 + len(found)))
    assert len({s.name for s in found}) == len(found)
    assert len(found) <= 12, "26 kinds of part, of which the 15 back boards share a few drawings"


def test_nothing_stands_on_the_title_block_or_leaves_the_frame() -> None:
    for sheet in sheets("refuge-bench"):
        x0, y0, x1, y1 = paper("A3").frame
        placed = sheet.entities[len(frame_and_title(sheet.paper, _block(sheet))) :]
        for text in (e for e in placed if isinstance(e, Text)):
            assert x0 < text.at[0] < x1
            assert y0 < text.at[1] < y1
            assert text.at[0] < x1 - 180.0 or text.at[1] > y0 + 51.0


def _block(sheet: Sheet) -> Any:
    from drawings.sheets.leaves import Leaf, title_block

    return title_block(read_order("refuge-bench"), Leaf("parts", "Part drawing", (), "1:5"), sheet.number, sheet.of)


def test_boards_that_differ_in_width_alone_share_a_drawing(bench: Any) -> None:
    found = families(bench, Lengths())
    tongued = next(f for f in found if "back board 2" in f.names)

    assert tongued.names == tuple(f"back board {n}" for n in range(2, 15, 2))
    assert all(len(f.members) == 1 for f in found if "side" in f.names[0])


def test_left_and_right_are_drawn_as_such(bench: Any) -> None:
    plans = {f.names[0]: Plan(f, Lengths()) for f in families(bench, Lengths())}
    left, right = plans["left side"], plans["right side"]
    width = bench["left side"].part.stock.width

    assert {(round(x, 6), round(width - y, 6)) for x, y in left.outline.corners} == {
        (round(x, 6), round(y, 6)) for x, y in right.outline.corners
    }


def test_one_datum_serves_all_of_a_plan() -> None:
    for sheet in sheets("refuge-bench"):
        origins: dict[Any, set[Any]] = {}
        for mark in sheet.entities:
            if isinstance(mark, OrdinateDimension) and mark.measured:
                origins.setdefault(mark.measured.shown, set()).add(mark.measured.p)
        assert all(len(found) == 1 for found in origins.values())


def test_a_dado_is_located_by_both_its_walls() -> None:
    part = Part(board(600.0, 200.0, 19.0, "white oak"), (dado(100.0, 19.0, 6.0, 0.0, 200.0),))
    plan = Plan(_family(part), Lengths())
    marks = plan.marks(0.2, (0.0, 0.0))

    across = sorted(m.value_mm for m in marks if isinstance(m, OrdinateDimension) and m.axis == "x")
    assert across == [0.0, 100.0, 119.0, 600.0]


def _family(part: Part) -> Any:
    from drawings.lists.distinct import Distinct
    from drawings.parts.family import Family

    return Family((Distinct(1, ("shelf",), part, None),))


def test_a_bead_leaves_the_wood_that_geometry_says() -> None:
    thick, r, quirk = 19.0, 3.0, 1.5
    part = Part(board(600.0, 200.0, thick, "white oak"), (Bead(edge="near", radius=r, quirk=quirk),))
    (section,) = edge_sections(part)
    ((corners, bulges),) = section.left()

    spandrel = r * r * (1.0 - math.pi / 4.0)
    area = section.reach * thick - 2.0 * spandrel - quirk * r
    assert Outline(tuple(corners), tuple(bulges)).area == pytest.approx(area, abs=1e-3)
    assert sum(b != 0.0 for b in bulges) == 1, "the half round, as one true arc"


def test_a_tongue_leaves_the_wood_that_geometry_says() -> None:
    tongue = Tongue(edge="far", thickness=6.0, length=7.0, rise=6.5)
    part = Part(board(600.0, 200.0, 19.0, "white oak"), (tongue,))
    (section,) = edge_sections(part)
    ((corners, bulges),) = section.left()

    assert Outline(tuple(corners), tuple(bulges)).area == pytest.approx(section.reach * 19.0 - 7.0 * 13.0)


@given(st.lists(st.floats(0.0, 300.0), min_size=1, max_size=20), st.floats(1.0, 8.0))
def test_labels_held_apart_keep_their_order_and_their_distance(wanted: list[float], pitch: float) -> None:
    wanted.sort()
    found = spread(wanted, pitch)

    assert all(b - a >= pitch - 1e-6 for a, b in pairwise(found))
    assert sum(found) == pytest.approx(sum(wanted), abs=1e-6 * len(wanted) * 300), "moved aside both ways alike"


def test_a_view_port_hands_on_what_it_shows() -> None:
    plan = Plan(_family(Part(board(600.0, 200.0, 19.0, "white oak"))), Lengths())
    port = ViewPort(0.2, (10.0, 10.0), plan.family.shown())

    assert port.shown == plan.family.shown()
    assert port.shown.subjects == ("shelf",)
