"""Rows of dovetails: what they fill, what they refuse."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from model.errors import DesignError
from model.layout.tails import (
    HARDWOOD_SLOPE,
    MACHINE_PITCH,
    MACHINE_SLOPE,
    NARROWEST,
    SOFTWOOD_SLOPE,
    WIDEST_TAIL,
    finger_width,
    hand_row,
    machine_row,
    slope_for,
)

lengths = st.floats(40, 600)
depths = st.floats(6, 20)
slopes = st.sampled_from([1 / 6, 1 / 8])


def made(*sizes, **options):
    """A row by hand, where one can be cut."""
    try:
        return hand_row(*sizes, **options)
    except DesignError as error:
        assume("would leave" not in str(error))
        raise


@given(lengths, depths, slopes, st.floats(1, 4))
def test_a_row_by_hand_fills_the_corner(length, depth, slope, ratio):
    row = made(length, depth, slope, ratio=ratio)

    pins = 2 * row.half_pin + sum(row.pin for _ in row.centres[1:])
    assert row.number * row.width + pins == pytest.approx(length)
    assert row.width / (2 * row.half_pin) == pytest.approx(ratio)
    assert row.wide <= WIDEST_TAIL + 1e-9 or row.number == 1
    assert row.wide - row.narrow == pytest.approx(2 * slope * depth)
    assert row.narrow >= NARROWEST - 1e-9


@given(lengths, depths, slopes, st.integers(1, 12))
def test_number_and_spacing_say_the_same(length, depth, slope, number):
    row = made(length, depth, slope, number=number)

    assert row.number == number
    assert row == hand_row(length, depth, slope, spacing=length / number)
    assert row.pitch == pytest.approx(length / number)
    assert row.shoulders[0][0] == pytest.approx(length - row.shoulders[-1][1])


@given(st.floats(25, 600), st.floats(6, 19))
def test_a_machine_row_keeps_its_pitch(length, depth):
    row = machine_row(length, depth, MACHINE_SLOPE)

    gaps = [b - a for a, b in zip(row.centres, row.centres[1:], strict=False)]
    assert gaps == pytest.approx([MACHINE_PITCH] * (row.number - 1))
    assert row.width == MACHINE_PITCH / 2
    assert row.width / 2 <= row.half_pin + 1e-9 < row.width / 2 + MACHINE_PITCH / 2 + 1e-6
    assert row.number == 1 or row.pin == pytest.approx(row.width)


def test_one_tail_in_a_narrow_rail():
    row = hand_row(40.0, 12.0, 1 / 6, number=1)

    assert (row.width, row.half_pin) == (30.0, 5.0)
    assert row.shoulders == ((6.0, 34.0),)


@given(st.floats(20, 600), st.floats(3.2, 40))
def test_fingers_come_out_odd(length, thickness):
    count = length / finger_width(length, thickness)

    assert count == pytest.approx(round(count))
    assert round(count) % 2 == 1
    assert round(count) >= 3
    nearest = min(range(3, 401, 2), key=lambda n: abs(length / n - thickness))
    assert abs(length / count - thickness) == pytest.approx(abs(length / nearest - thickness))


@pytest.mark.parametrize(
    ("species", "slope"),
    [("eastern white pine", SOFTWOOD_SLOPE), ("white oak", HARDWOOD_SLOPE), ("plywood", HARDWOOD_SLOPE)],
)
def test_slope_by_species(species, slope):
    assert slope_for(species) == slope


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (
            lambda: hand_row(100, 19, 1 / 6, number=9),
            "9 tails in 100.0 mm would leave a pin's narrow side -0.4 mm wide",
        ),
        (lambda: hand_row(100, 12, 1 / 6, number=12, ratio=1.0), r"would leave the neck of a tail 2.2 mm wide"),
        (lambda: hand_row(100, 12, 1 / 6, number=2, spacing=30), "give one or the other"),
        (lambda: hand_row(100, 12, 1 / 6, number=0), "0 tails make no joint"),
        (lambda: hand_row(100, 12, 1 / 6, spacing=-3), "-3 mm apart"),
        (lambda: hand_row(100, 12, 1 / 6, ratio=5), "from 1, the strongest, to 4"),
        (lambda: hand_row(100, 12, 0.0), "a dovetail's slope of 0 in 1"),
        (lambda: machine_row(100, 12, 0.25, number=5), "it takes 4"),
        (lambda: machine_row(15, 12, 0.25), "0 tails at a pitch of 22.225 mm"),
        (lambda: machine_row(100, 12, 0.25, spacing=0), "must be more than zero"),
        (lambda: machine_row(100, 40, 0.25), "would leave"),
    ],
)
def test_refusals(row, says):
    with pytest.raises(DesignError, match=says):
        row()
