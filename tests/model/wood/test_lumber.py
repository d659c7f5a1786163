import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.errors import DesignError, OrderError
from model.wood.lumber import (
    ROUNDED,
    Allowances,
    board_feet,
    bundle_board_feet,
    dressed,
    nominal_thickness_for,
    nominal_thicknesses,
    plywood,
    plywood_categories,
    rough_size,
    surface_measure,
    tally_length,
    tally_widths,
)

SIZES = st.floats(1, 5000)


@pytest.mark.parametrize("hardwood", [True, False])
def test_yard_thicknesses_rise_and_each_loses_wood_to_the_planer(hardwood):
    sizes = nominal_thicknesses(hardwood)

    assert len(sizes) == 13
    assert [n.inches for n in sizes] == sorted({n.inches for n in sizes})
    assert [n.dressed_mm for n in sizes] == sorted({n.dressed_mm for n in sizes})
    assert all(n.dressed_mm < n.inches * 25.4 for n in sizes)


@given(st.floats(1, 95), st.booleans())
def test_the_thinnest_stock_that_holds_the_finished_size_is_taken(finished, hardwood):
    taken = nominal_thickness_for(finished, hardwood)

    thinner = [n for n in nominal_thicknesses(hardwood) if n.inches < taken.inches]
    assert taken.dressed_mm >= finished - ROUNDED
    assert all(n.dressed_mm < finished - ROUNDED for n in thinner)


@pytest.mark.parametrize(
    ("finished", "hardwood", "text"),
    [
        (19, False, "1"),
        (19.1, False, "1"),
        (19.2, False, "1 1/4"),
        (38.1, False, "2"),
        (19, True, "4/4"),
        (20.7, True, "5/4"),
        (44.45, True, "8/4"),
    ],
)
def test_nominal_thickness_for(finished, hardwood, text):
    assert nominal_thickness_for(finished, hardwood).text == text


def test_no_board_is_thick_enough():
    with pytest.raises(DesignError, match=r"no hardwood board dresses to 100 mm; the thickest, 16/4"):
        nominal_thickness_for(100, hardwood=True)


def test_sizes_that_ps_20_has_not_are_refused_with_those_it_has():
    with pytest.raises(OrderError, match="nominal width of 13 in; PS 20 has 2, 3, 4"):
        dressed(1, 13)
    with pytest.raises(OrderError, match=r"dimension has a nominal thickness of 2\.25 in"):
        dressed(2.25, 4)


@pytest.mark.parametrize("bad", [0, -1, float("nan"), float("inf")])
def test_sizes_that_cannot_be_are_refused(bad):
    with pytest.raises(OrderError, match="more than 0"):
        nominal_thickness_for(bad, hardwood=True)
    with pytest.raises(OrderError, match=r"length is .* mm"):
        board_feet(bad, 100, 1)
    with pytest.raises(OrderError, match=r"width is .* mm"):
        board_feet(1000, bad, 1)
    with pytest.raises(OrderError, match=r"nominal thickness is .* in"):
        board_feet(1000, 100, bad)
    with pytest.raises(OrderError, match=r"nominal width is .* in"):
        dressed(6, bad)
    with pytest.raises(OrderError, match="finished length"):
        rough_size(bad, 100, 19, hardwood=True)


def test_one_foot_square_an_inch_thick_is_a_board_foot():
    assert board_feet(304.8, 304.8, 1) == pytest.approx(1)


@given(SIZES, SIZES, st.floats(0.1, 4))
def test_board_feet_follow_volume_but_never_under_an_inch_thick(length, width, thickness):
    volume_in3 = length * width * max(thickness, 1) * 25.4 / 25.4**3

    assert board_feet(length, width, thickness) == pytest.approx(volume_in3 / 144)


@given(st.floats(1, 24), st.floats(1, 16.9))
def test_surface_measure_is_whole_and_never_more_than_half_a_foot_from_the_tallied_face(width, length):
    face = width * tally_length(length) / 12

    assert isinstance(surface_measure(width, length), int)
    assert abs(surface_measure(width, length) - face) <= 0.5


def test_half_inch_widths_go_up_and_down_by_turns():
    assert tally_widths([5.5, 6.25, 6.5, 7.75, 7.5]) == [6, 6, 6, 8, 8]


def test_bundle_is_billed_on_the_sum():
    assert bundle_board_feet([4, 4, 3], 1.25) == 14
    assert bundle_board_feet([4, 4, 3], 0.5) == 11


def test_rough_size_adds_common_allowances():
    rough = rough_size(1000, 200, 19, hardwood=False)

    assert (rough.length, rough.width, rough.nominal.text) == (1025, 206, "1")
    assert rough.board_feet == pytest.approx(1025 * 206 / 25.4**2 / 144)


def test_rough_size_takes_the_shop_s_own_allowances():
    rough = rough_size(1000, 200, 19, hardwood=True, allowances=Allowances(length=50, width=10))

    assert (rough.length, rough.width, rough.nominal.text) == (1050, 210, "4/4")


def test_plywood_by_its_category():
    assert plywood("3/4 in") is not None
    assert plywood("23/32").thickness == pytest.approx(17.86, abs=0.01)
    with pytest.raises(OrderError, match=r'"18 mm"; PS 1 has 1/4, 11/32'):
        plywood("18 mm")


def test_plywood_label_lies_within_what_is_allowed():
    sheets = plywood_categories()

    assert len(sheets) == 15
    assert all(sheet.least < sheet.thickness < sheet.most for sheet in sheets)
