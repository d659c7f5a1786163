"""What the checks found, read in the order's units: the same sizes, whatever they are told in."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.finding import Answer, Finding
from model.in_units import in_units, size_in_units
from model.lengths import parse_length


def finding(message: str) -> Finding:
    return Finding("overlap", "fault", ("rail",), message, 0.31, 0.01, "mm", "0.01 mm is the finest (common practice)")


def test_metric_orders_are_told_as_measured():
    answer = Answer((finding("rail runs 0.31 mm into post"),))
    for units in ("mm", "cm", "m"):
        assert answer.in_units(units) == answer
        assert size_in_units(0.31, "mm", units) == "0.31 mm"
        assert [size_in_units(n, "ends", units) for n in (6.0, 1.0)] == ["6 ends", "1 end"]


def test_inch_orders_are_told_in_inches_while_the_figures_stay():
    (told,) = Answer((finding("rail runs 0.31 mm into post"),)).in_units("ft-in").findings
    assert told.message == "rail runs 0.012 in into post"
    assert told.source == "0.001 in is the finest (common practice)"
    assert (told.value, told.limit, told.unit) == (0.31, 0.01, "mm")


@pytest.mark.parametrize(
    ("metric", "inches"),
    [
        ("it is 457.2 mm wide, and 330 mm is the most", "it is 18 in wide, and 13 in is the most"),
        ("needs a doorway 812.8 mm wide; it is 762 x 1980 mm", "needs a doorway 32 in wide; it is 30 in x 77 15/16 in"),
        ("over 10 mm³, near the end", "over 0.00061 in³, near the end"),
        ("108 cm² of glue", "17 in² of glue"),
        ("1,524 mm to the left", "60 in to the left"),
        ("step 3 and slat 19 stay; M6 too", "step 3 and slat 19 stay; M6 too"),
        ("the wood screw, No. 10 x 40 mm, is short", "the wood screw, No. 10 x 1 9/16 in, is short"),
        ("0.00 mm apart", "0 in apart"),
    ],
)
def test_sentences(metric, inches):
    assert in_units(metric, "in") == inches


def test_two_lengths_that_round_to_one_fraction_are_told_apart():
    assert in_units("it is 330.6 mm wide, and 330 mm is the most", "in") == (
        "it is 13.016 in wide, and 12.992 in is the most"
    )


@given(st.floats(0.03, 5000.0), st.sampled_from(["in", "ft-in", "in.dec"]))
def test_a_length_told_in_inches_is_the_length(mm, units):
    told = in_units(f"it is {mm:.2f} mm long", units)
    length = re.fullmatch(r"it is (.*) long", told)
    assert length
    within = 25.4 / 32.0 if mm >= 3.175 else 0.02
    assert parse_length(length[1], "in") == pytest.approx(mm, abs=within)
