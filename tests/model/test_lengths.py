"""Lengths: what is read, what is refused, and that print and read agree."""

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from model.errors import LengthError
from model.lengths import DENOMINATORS, LONGEST, format_length, parse_length, printed

lengths = st.floats(-20_000, 20_000, allow_nan=False)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("10' 8\"", 3251.2),
        ("10'8\"", 3251.2),
        ("10′ 8″", 3251.2),
        ("10’ 8”", 3251.2),
        ("10' 8''", 3251.2),
        ("10 ft 8 in", 3251.2),
        ("10 ft. 8 in.", 3251.2),
        ("10'-8 1/2\"", 3263.9),
        ("10' - 8-1/2\"", 3263.9),
        ("1' 0\"", 304.8),
        ("5 ft", 1524.0),
        ("1 foot", 304.8),
        ("2 1/2 feet", 762.0),
        ("14 7/8in", 377.825),
        ("14⅞″", 377.825),
        ("14 ⅞ in", 377.825),
        ('⅞"', 22.225),
        ('3/4"', 19.05),
        ("3⁄4 inch", 19.05),
        ("2-1/2 inches", 63.5),
        ('-3/4"', -19.05),
        ("−10' 8\"", -3251.2),
        ("2.5 in", 63.5),
        (".5in", 12.7),
        ("47 cm", 470.0),
        ("1.2 m", 1200.0),
        ("1480", 1480.0),
        ("1480mm", 1480.0),
        ("1480 MM", 1480.0),
        (" 1480.5\u00a0mm ", 1480.5),
        ("0", 0.0),
        (1480, 1480.0),
        (9.5, 9.5),
    ],
)
def test_reads(text: str | float, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("text", "mm"), [("2 1/2", 63.5), ("⅞", 22.225), ("14⅞", 377.825), ("3", 76.2), (2.5, 63.5), ("30 mm", 30)]
)
def test_bare_numbers_are_inches_in_an_inch_order(text: str | float, mm: float) -> None:
    assert parse_length(text, unit="in") == mm


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("10 8", ""),
        ("", "empty"),
        ("   ", "empty"),
        ("nan", ""),
        ("inf", ""),
        ("1e3", ""),
        ("a plank", ""),
        ("12 cubits", ""),
        ("12 furlong.", "not a unit"),
        ("--3", ""),
        ("3 mm mm", ""),
        ("1,480", "comma"),
        ("3/0 in", "over 0"),
        ("2 0/0 in", "over 0"),
        ("2 9/8 in", "less than 1"),
        ("3/4", "needs its unit"),
        ("2.5 1/2 in", ""),
        ("8\" 10'", "feet come before inches"),
        ("8 in 10 ft", "feet come before inches"),
        ("10' 14\"", "fewer than 12"),
        ("10' 8", "need their mark"),
        ("10.5' 8\"", ""),
        ("²", ""),
        ("٣", ""),
        ("9" * 40, "more than 1000 m"),
        ("9" * 5000, ""),
        ("1100 m", "more than 1000 m"),
        (math.nan, "finite"),
        (math.inf, "finite"),
        (True, "not a number"),
        (None, "not a number"),
        ([1480], "not a number"),
    ],
)
def test_refuses_saying_why_and_what_would_be_right(text: object, why: str) -> None:
    with pytest.raises(LengthError) as refusal:
        parse_length(text)  # type: ignore[arg-type]

    message = str(refusal.value)
    assert message.startswith("can't read \"")
    assert message.endswith("write 1480, 47 cm, 14 7/8 in or 10' 8\"")
    assert why in message
    assert len(message) < 200


def test_the_whole_message() -> None:
    with pytest.raises(LengthError) as refusal:
        parse_length("10 8")

    assert str(refusal.value) == 'can\'t read "10 8" as a length; write 1480, 47 cm, 14 7/8 in or 10\' 8"'


@given(st.text(alphabet="0123456789 .-/'\"⅞½′″mcinft,", max_size=20) | st.text(max_size=20))
def test_any_text_is_a_finite_length_or_refused(text: str) -> None:
    try:
        mm = parse_length(text)
    except LengthError:
        return

    assert abs(mm) <= LONGEST


@pytest.mark.parametrize(
    ("mm", "settings", "text"),
    [
        (1480, {}, "1480"),
        (9.5, {}, "9.5"),
        (19.05, {"decimals": 2}, "19.05"),
        (1480.04, {}, "1480"),
        (-0.01, {}, "0"),
        (-9.5, {}, "-9.5"),
        (0.5, {}, "0.5"),
        (470, {"unit": "cm"}, "47 cm"),
        (1234.5, {"unit": "m"}, "1.2345 m"),
        (63.5, {"unit": "in.dec"}, '2.5"'),
        (377.825, {"unit": "in"}, '14 7/8"'),
        (19.05, {"unit": "in"}, '3/4"'),
        (19, {"unit": "in", "denominator": 64}, '3/4"'),
        (0, {"unit": "in"}, '0"'),
        (3251.2, {"unit": "in"}, '128"'),
        (3251.2, {"unit": "ft-in"}, "10' 8\""),
        (3251.2, {"unit": "in", "feet_above": 72}, "10' 8\""),
        (914.4, {"unit": "in", "feet_above": 72}, '36"'),
        (-3263.9, {"unit": "ft-in"}, "-10' 8 1/2\""),
        (317.5, {"unit": "ft-in"}, "1' 0 1/2\""),
        (25.4 * (11 + 15.99 / 16), {"unit": "ft-in"}, "1' 0\""),
        (25.4 * 15.99 / 16, {"unit": "in"}, '1"'),
        (25.4 * (23 + 15.4 / 16), {"unit": "ft-in"}, "1' 11 15/16\""),
    ],
)
def test_prints(mm: float, settings: dict, text: str) -> None:
    assert format_length(mm, **settings) == text


@pytest.mark.parametrize(
    "settings", [{"unit": "yd"}, {"unit": "in", "denominator": 10}, {"unit": "in", "denominator": 0}, {"decimals": 12}]
)
def test_refuses_to_print(settings: dict) -> None:
    with pytest.raises(LengthError, match=r"units are|denominators are|take 0 to 9"):
        format_length(1480, **settings)


@pytest.mark.parametrize("mm", [math.nan, math.inf, None, True])
def test_prints_only_numbers(mm: object) -> None:
    with pytest.raises(LengthError, match="number"):
        format_length(mm)  # type: ignore[arg-type]


def test_rounding_shows_when_asked_and_is_always_known() -> None:
    rounded, whole = printed(19, "in"), printed(19.05, "in")

    assert (rounded.text, rounded.error_mm, rounded.exact, rounded.marked) == ('3/4"', 0.05, False, '≈3/4"')
    assert (whole.text, whole.exact, whole.marked) == ('3/4"', True, '3/4"')
    assert format_length(1480.04, mark_rounding=True) == "≈1480"
    assert format_length(1480, mark_rounding=True) == "1480"


@given(lengths, st.sampled_from(DENOMINATORS), st.sampled_from(["in", "ft-in"]))
@example(304.8 - 1e-9, 16, "ft-in")
def test_fractions_read_back_within_half_the_denominator(mm: float, denominator: int, unit: str) -> None:
    result = printed(mm, unit, denominator)
    read = parse_length(result.text)

    half = 25.4 / denominator / 2
    assert abs(result.error_mm) <= half
    assert read - mm == pytest.approx(result.error_mm, abs=1e-9)
    assert " 12" not in result.text or unit == "in"


@given(st.integers(-39_000, 39_000), st.sampled_from(DENOMINATORS), st.sampled_from(["in", "ft-in"]))
def test_a_mark_on_the_rule_prints_and_reads_back_as_itself(marks: int, denominator: int, unit: str) -> None:
    mm = parse_length(f"{marks}/{denominator} in")
    result = printed(mm, unit, denominator)

    assert result.exact
    assert parse_length(result.text) == mm


@given(st.integers(-10_000_000, 10_000_000), st.sampled_from(["mm", "cm", "m"]))
def test_tenths_of_a_millimetre_survive_every_metric_unit(tenths: int, unit: str) -> None:
    mm = tenths / 10

    assert parse_length(format_length(mm, unit)) == mm


@given(lengths, st.sampled_from(["mm", "cm", "m"]), st.integers(0, 5))
def test_decimals_are_the_nearest(mm: float, unit: str, decimals: int) -> None:
    result = printed(mm, unit, decimals=decimals)

    assert abs(result.error_mm) <= {"mm": 1, "cm": 10, "m": 1000}[unit] * 10.0**-decimals / 2 * (1 + 1e-12)
    assert parse_length(result.text) - mm == pytest.approx(result.error_mm, abs=1e-9)
