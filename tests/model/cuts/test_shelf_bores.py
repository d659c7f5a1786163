"""Rows of shelf bores: where they lie, and that lefts and rights mirror."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.cuts.shelf_bores import shelf_bores
from model.errors import CutError
from model.part import Part
from model.stock import board


@given(
    st.floats(500, 1800), st.floats(150, 400), st.floats(20, 50), st.floats(20, 80), st.sampled_from(["face", "back"])
)
def test_a_right_mirrors_its_left(length, width, inset, back, side) -> None:  # type: ignore[no-untyped-def]
    part = Part(board(length, width, 19.0))
    left = shelf_bores(part, 100.0, length - 100.0, inset=inset, back_inset=back, side=side)
    right = shelf_bores(part, 100.0, length - 100.0, front="far", inset=inset, back_inset=back, side=side)
    images = [b.mirrored(part.blank) for b in left]

    assert len(left) == len(right)
    for one, other in zip(right, images, strict=True):
        assert one.at == pytest.approx(other.at)
        assert (one.into, one.diameter, one.depth) == (other.into, other.diameter, other.depth)


def test_system_rows() -> None:
    bores = shelf_bores(Part(board(800.0, 300.0, 19.0)), 100.0, 700.0)
    heights = sorted({b.at[0] for b in bores})

    assert {b.at[1] for b in bores} == {37.0, 263.0}
    assert {b - a for a, b in pairwise(heights)} == {32.0}
    assert (heights[0], heights[-1]) == (100.0, 676.0)
    assert all(b.at[2] == 19.0 and b.into == (0.0, 0.0, -1.0) for b in bores)


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ({"last": 900.0}, "don't go into a part 800 mm long"),
        ({"inset": 160.0}, "don't go into a part 300 mm wide"),
        ({"depth": 17.0}, "would come through stock 19 mm thick"),
        ({"spacing": 4.0}, "bores of 5 mm, 4 mm apart"),
    ],
)
def test_rows_that_cannot_be(sizes, said) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(CutError, match=said):
        shelf_bores(Part(board(800.0, 300.0, 19.0)), **{"first": 100.0, "last": 700.0, **sizes})
