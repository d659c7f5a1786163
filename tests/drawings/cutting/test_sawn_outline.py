"""Notches sawn into an outline, compared with the kernel-free areas that shapely gives for fine facets."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from drawings.cutting.layers import edge_work, traces
from drawings.cutting.sawn_outline import sawn_outline, without
from model.checks.solids.cavities import cavities
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Notch
from model.layout.outline import circle, rectangle, ring_sector
from model.part import Part
from model.stock import board

#: Sagitta of the facets, mm: the area between facets and arc stays under 2/3 of this times the arc's length.
SAGITTA = 1e-4


@given(
    x=st.floats(-700, 700), y=st.floats(2300, 2760), length=st.floats(3, 200), width=st.floats(3, 200),
    turn=st.floats(-40, 40),
)  # fmt: skip
def test_a_notch_takes_out_what_it_covers_of_a_curved_board(x, y, length, width, turn):
    seat = ring_sector(2355, 2750, 15.6)
    notch = rectangle(length, width).turned(turn).moved(x, y)
    left = without(seat, notch)
    expected = Polygon(seat.points(SAGITTA)).difference(Polygon(notch.points(SAGITTA)))

    if left is not None:
        assert left.area == pytest.approx(expected.area, abs=0.2)
        assert len(getattr(expected, "interiors", [])) == 0
    else:
        in_one_ring = expected.geom_type == "Polygon" and not expected.interiors
        touched = seat.area - expected.area > 1.0
        assert not (in_one_ring and touched)


def test_true_arcs_stay_true_where_a_notch_breaks_them():
    seat = ring_sector(2355, 2750, 15.6)
    left = without(seat, rectangle(60, 40, -30, 2730))

    assert left is not None
    back = [e for e in left.edges if e.name == "back"]
    assert [e.radius for e in back] == pytest.approx([2750, 2750])
    assert sum(e.name == "notch" for e in left.edges) == 3


def test_a_notch_flush_with_the_edges_leaves_no_sliver():
    left = without(rectangle(400, 200), rectangle(30, 12))

    assert left is not None
    assert len(left.corners) == 6
    assert left.area == pytest.approx(400 * 200 - 30 * 12)


@pytest.mark.parametrize(
    "outline", [circle((60.0, 100.0), 40), rectangle(20, 20, 100, 100), rectangle(20, 400, 100, -100)]
)
def test_what_is_no_plain_ring_is_left_over(outline):
    cut = Notch(outline)
    part = Part(board(400, 200, 19, "red oak"), (cut,))

    assert sawn_outline(part) == (part.outline, (cut,))


def test_a_half_round_let_into_an_end_is_part_of_the_outline():
    outline, left_over = sawn_outline(Part(board(400, 200, 19, "red oak"), (Notch(circle((0.0, 100.0), 40)),)))

    assert left_over == ()
    assert outline.area == pytest.approx(400 * 200 - math.pi * 20**2 / 2)


@given(st.floats(25, 155), st.floats(130, 270))
def test_an_upright_saw_cut_is_part_of_the_outline(degrees, reach):
    """A miter: the outline ends on it, nothing is traced twice, and no wood is thought to be hollowed out."""
    lean = math.radians(degrees)
    out = (math.sin(lean), math.cos(lean), 0.0)
    cut = SawCut((reach, 0.0, 0.0), out)
    part = Part(board(400, 50, 19, "red oak")).cut(cut)
    outline, left_over = sawn_outline(part)
    (whole,) = traces(part)

    assert left_over == ()
    assert outline.area == pytest.approx(50 * (reach - 25 / math.tan(lean)), rel=1e-6)
    assert whole.outline == outline
    assert cavities(part) == []


def test_a_leaning_saw_cut_is_left_to_the_saw():
    part = Part(board(400, 50, 19, "red oak")).cut(SawCut((380.0, 0.0, 0.0), (math.cos(0.5), 0.0, math.sin(0.5))))

    assert sawn_outline(part) == (part.outline, ())
    assert edge_work(part) == list(part.cuts)


@pytest.mark.parametrize(
    ("inset", "width", "short_inset", "short_width"),
    [(20.0, 30.0, 20.0, 60.0), (50.0, 30.0, 0.0, 80.0), (30.0, 20.0, 10.0, 60.0)],
)
def test_a_haunch_beside_its_tenon_leaves_the_tenon_whole(inset, width, short_inset, short_width):
    """A haunch spans the width that its tenon stands on: what is cut past its tip is not cut off the tenon."""
    short = Tenon(short_inset, short_width, 8.0, 8.0, tip=Plane((-1.0, 0.0, 0.0), -30.0))
    end = TenonedEnd(Plane((-1.0, 0.0, 0.0), -40.0), (Tenon(inset, width, 8.0, 8.0),), short)
    outline, left_over = sawn_outline(Part(board(400, 80, 24, "white oak")).cut(end))

    assert left_over == ()
    assert outline.area == pytest.approx(360 * 80 + 40 * width + 10 * (short_width - width))


def test_a_tenon_cut_off_at_the_end_itself_has_nothing_past_it():
    tenon = Tenon(20.0, 40.0, 8.0, 8.0, tip=Plane((-1.0, 0.0, 0.0), 0.0))
    outline, left_over = sawn_outline(
        Part(board(400, 80, 24, "white oak")).cut(TenonedEnd(Plane((-1.0, 0.0, 0.0), -40.0), (tenon,)))
    )

    assert left_over == ()
    assert outline.area == pytest.approx(360 * 80 + 40 * 40)
