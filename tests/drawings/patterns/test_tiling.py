"""Tiles: cores cover everything exactly once, windows overlap by what is stated, and no tile is too many."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.patterns.tiling import OVERLAP, Tiling, column_letters

SIZES = st.floats(5.0, 4000.0)
WINDOWS = st.floats(40.0, 900.0)
#: Rounding in sums of sizes up to 4 m, mm.
SLACK = 1e-6


def tilings():
    return st.builds(
        lambda x, y, w, h, a, b: Tiling((x, y, x + w, y + h), (a, b)),
        st.floats(-500.0, 500.0), st.floats(-500.0, 500.0), SIZES, SIZES, WINDOWS, WINDOWS,
    )  # fmt: skip


@given(tilings(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_every_point_is_in_one_core(tiling, s, t):
    x0, y0, x1, y1 = tiling.bounds
    x, y = x0 + s * (x1 - x0), y0 + t * (y1 - y0)
    assert any(_depth(tile.core, x, y) > -SLACK for tile in tiling.tiles)
    assert sum(_depth(tile.core, x, y) > SLACK for tile in tiling.tiles) <= 1


def _depth(box, x, y):
    """How far a point lies inside a box, negative outside."""
    return min(x - box[0], box[2] - x, y - box[1], box[3] - y)


@given(tilings())
def test_cores_tile_the_whole_without_gap_or_overlap(tiling):
    whole = sum((t.core[2] - t.core[0]) * (t.core[3] - t.core[1]) for t in tiling.tiles)
    left, low = min(t.core[0] for t in tiling.tiles), min(t.core[1] for t in tiling.tiles)
    right, high = max(t.core[2] for t in tiling.tiles), max(t.core[3] for t in tiling.tiles)
    assert whole == pytest.approx((right - left) * (high - low))
    assert left <= tiling.bounds[0] + 1e-6
    assert high >= tiling.bounds[3] - 1e-6


@given(tilings())
def test_neighbours_share_the_overlap_and_join_in_its_middle(tiling):
    places = {(t.column, t.row): t for t in tiling.tiles}
    for (column, row), tile in places.items():
        right, below = places.get((column + 1, row)), places.get((column, row + 1))
        if right:
            assert tile.window[2] - right.window[0] == pytest.approx(OVERLAP)
            assert tile.core[2] == pytest.approx((tile.window[2] + right.window[0]) / 2)
            assert tile.core[2] == pytest.approx(right.core[0])
        if below:
            assert below.window[3] - tile.window[1] == pytest.approx(OVERLAP)
            assert tile.core[1] == pytest.approx(below.core[3])


@given(tilings())
def test_one_column_less_would_not_do(tiling):
    step = tiling.window[0] - OVERLAP
    assert tiling.columns == 1 or (tiling.columns - 1) * step + OVERLAP < tiling.bounds[2] - tiling.bounds[0] + 1e-6


@given(tilings())
def test_every_tile_has_its_own_name(tiling):
    assert max(Counter(t.name for t in tiling.tiles).values()) == 1


def test_names_run_from_the_top_left():
    tiles = Tiling((0, 0, 250, 150), (100, 100)).tiles
    assert [t.name for t in tiles] == ["A1", "B1", "C1", "A2", "B2", "C2"]
    assert tiles[0].window[1] > tiles[3].window[1]
    assert column_letters(27) == "AB"
