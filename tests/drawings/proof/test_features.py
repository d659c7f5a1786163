"""What the witness takes for a side of an angle and for a corner that other work took away."""

from __future__ import annotations

import math

import pytest

from drawings.proof.features import Features

FLAT = ((0.0, 0.0), (80.0, 0.0))
#: A line so little off upright that both count as the side meant.
STEEP = ((100.0, 0.0), (100.2, 30.0))


def features(*lines: tuple[tuple[float, float], tuple[float, float]]) -> Features:
    return Features(tuple(p for line in lines for p in line), lines, (), ())


def test_of_two_lines_the_one_nearest_to_the_turn_is_a_side() -> None:
    turn = math.degrees(math.atan2(30.0, 0.2))
    found = features(STEEP, ((100.0, 0.0), (100.0, 30.0))).angle((100.0, 0.0), turn, 90.0)

    assert found == pytest.approx(90.0 - turn, abs=1e-9)


def test_one_line_is_never_both_sides() -> None:
    turn = math.degrees(math.atan2(30.0, 0.2))

    assert features(STEEP).angle((100.0, 0.0), turn, 90.0) == pytest.approx(90.0 - turn, abs=1e-9)


def test_a_corner_taken_away_is_where_its_sides_meet_produced() -> None:
    """A chamfer between them took it; a line that runs by elsewhere makes none."""
    sides = features(FLAT, ((120.0, 30.0), (150.0, 75.0)))

    assert sides.station((100.0, 0.0), (1.0, 0.0), strict=True) == pytest.approx(100.0)
    assert sides.station((100.3, 0.0), (1.0, 0.0), strict=True) is None
    assert features(FLAT, ((220.0, 180.0), (240.0, 210.0))).station((100.0, 0.0), (1.0, 0.0), strict=True) is None
