"""Relieved corners are told by their corner and a radius: taken off and put back, nothing is lost."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.parts.relief_corners import relieved_again, without_reliefs
from model.cuts.reliefs import HAIR, relieved
from model.layout.outline import Outline, rectangle, rounded


@given(st.floats(3.0, 8.0), st.floats(30.0, 200.0), st.floats(30.0, 80.0), st.floats(-20.0, 0.0), st.floats(0.0, 90.0))
def test_a_relieved_opening_is_its_square_one_and_a_radius(
    cutter: float, length: float, width: float, lean: float, turn: float
) -> None:
    square = Outline(((lean, 0.0), (length, 0.0), (length, width), (0.0, width))).turned(turn)
    made = relieved(square, cutter, waste="inside")
    plain, reliefs = without_reliefs(made)
    again = relieved_again(plain, {n: (e.radius, e.bulge) for n, e in reliefs.items()})

    # a corner much sharper than square is relieved with straight walls, which are told as they are
    assert len(reliefs) >= 2
    assert all(e.radius == pytest.approx(cutter / 2.0 + HAIR) for e in reliefs.values())
    assert again.area == pytest.approx(made.area)
    assert (
        max(abs(a - b) for p, q in zip(again.corners, made.corners, strict=True) for a, b in zip(p, q, strict=True))
        < 1e-6
    )
    assert all(min(math.dist(plain.corners[n], p) for p in square.corners) < 1e-6 for n in reliefs)


def test_rounded_corners_are_no_reliefs() -> None:
    soft = rounded(rectangle(100.0, 60.0).corners, [8.0] * 4)
    assert without_reliefs(soft) == (soft, {})


def test_a_relief_into_one_side_only_is_told_as_it_is() -> None:
    made = relieved(rectangle(100.0, 60.0), 6.0, waste="inside", into="longer")
    assert without_reliefs(made)[1] == {}
