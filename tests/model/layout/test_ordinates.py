"""Ordinates: every mark stands on the arc, and the right marks are made."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.errors import DesignError
from model.layout.arcs import rise_from_radius_chord
from model.layout.ordinates import height_at, ordinates, ordinates_by_spacing

chords = st.floats(100, 6000)
slack = st.floats(1.0, 50)


@given(chords, slack, st.integers(2, 40))
def test_marks_stand_on_the_arc(chord: float, times: float, stations: int) -> None:
    radius = chord / 2 * times
    centre_below = math.sqrt(radius**2 - chord**2 / 4)

    marks = ordinates(chord, radius, stations)

    assert len(marks) == stations
    assert marks[0] == (-chord / 2, 0)
    assert marks[-1] == (chord / 2, 0)
    for x, y in marks:
        assert math.hypot(x, y + centre_below) == pytest.approx(radius, rel=1e-12)


@given(chords, slack, st.integers(2, 40))
def test_marks_are_even_and_symmetrical(chord: float, times: float, stations: int) -> None:
    marks = ordinates(chord, chord / 2 * times, stations)

    assert marks == [(-x, y) for x, y in reversed(marks)]
    steps = [b[0] - a[0] for a, b in pairwise(marks)]
    assert steps == pytest.approx([chord / (stations - 1)] * len(steps))


@given(chords, slack, st.floats(5, 8000))
def test_spacing_runs_from_the_middle_to_both_ends(chord: float, times: float, spacing: float) -> None:
    radius = chord / 2 * times
    xs = [x for x, _ in ordinates_by_spacing(chord, radius, spacing)]

    assert xs == sorted(set(xs))
    assert xs == [-x for x in reversed(xs)]
    assert xs[-1] == chord / 2
    right = [x for x in xs if x >= 0]
    assert right[:-1] == pytest.approx([n * spacing for n in range(len(right) - 1)])
    assert 0 < right[-1] - right[-2] <= spacing * (1 + 1e-9)


def test_spacing_that_divides_the_chord_makes_no_double_mark() -> None:
    xs = [x for x, _ in ordinates_by_spacing(0.6 * 7, 10, 0.3)]

    assert len(xs) == 15


def test_the_middle_is_the_rise() -> None:
    assert height_at(1480, 2750, 0) == rise_from_radius_chord(2750, 1480)


@pytest.mark.parametrize(
    ("ask", "why"),
    [
        (lambda: height_at(1480, 2750, 741), "past the end"),
        (lambda: height_at(1480, 2750, math.nan), "past the end"),
        (lambda: ordinates(1480, 2750, 1), "2 ends"),
        (lambda: ordinates(1480, 700, 5), "least radius that would do is 740 mm"),
        (lambda: ordinates_by_spacing(1480, 2750, 0), "spacing must be more than 0"),
    ],
)
def test_refusals(ask, why: str) -> None:
    with pytest.raises(DesignError, match=why):
        ask()
