"""Boards round an arc: they fill it, they meet, and none overlaps its neighbour."""

import math
import re
from itertools import islice, pairwise, repeat

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon

from model.errors import DesignError
from model.layout.boards import (
    GRID,
    Standing,
    chord_boards,
    fill_straight_with_random,
    fill_with_random,
    gap_behind,
    half_span,
    joint_gap,
    random_widths,
    step,
    tangent_boards,
)

BACK = {"radius": 2750.0, "total_angle": 31.2196}
OVERLAP = 1e-6
TOUCH = 0.05

radii = st.floats(600, 12_000)
turns = st.floats(10, 120)
thicknesses = st.floats(12, 40)
seeds = st.integers(0, 10_000)


def plans(boards: list[Standing], thickness: float) -> list[Polygon]:
    return [Polygon(board.footprint(thickness)) for board in boards]


def spans(boards: list[Standing]) -> list[float]:
    return [2 * board.half_span for board in boards]


def assert_covers(boards: list[Standing], total_angle: float) -> None:
    """Spans follow one another without gap or overlap, from one end of the arc to the other."""
    edges = [board.angle - board.half_span for board in boards] + [total_angle / 2]
    assert edges[0] == pytest.approx(-total_angle / 2, abs=1e-7)
    for board, (left, right) in zip(boards, pairwise(edges), strict=True):
        assert right - left == pytest.approx(2 * board.half_span, abs=1e-7)
    assert [board.index for board in boards] == list(range(len(boards)))


@given(radii, turns, thicknesses, seeds)
def test_tangent_boards_fill_the_arc_and_keep_apart(radius: float, total: float, thickness: float, seed: int) -> None:
    boards = tangent_boards(radius, random_widths(80, 150, seed), total, least=0)
    shapes = plans(boards, thickness)

    assert_covers(boards, total)
    for near, far in pairwise(range(len(boards))):
        widths = boards[near].width, boards[far].width
        assert shapes[near].intersection(shapes[far]).area < OVERLAP
        assert shapes[near].distance(shapes[far]) == pytest.approx(joint_gap(radius, *widths), abs=1e-6)


@given(st.floats(2000, 12_000), turns, thicknesses, seeds)
def test_neighbours_on_a_long_arc_touch(radius: float, total: float, thickness: float, seed: int) -> None:
    """From a 2 m radius up, boards of 80 to 150 mm stand within 0.05 mm of one another."""
    shapes = plans(tangent_boards(radius, random_widths(80, 150, seed), total, least=0), thickness)

    assert all(a.distance(b) < TOUCH for a, b in pairwise(shapes))


@given(radii, turns, seeds)
def test_tangent_boards_rest_on_the_arc_at_their_middles(radius: float, total: float, seed: int) -> None:
    """The nearest point of each near face is its middle, on the arc; its edges stand off by `gap_behind`."""
    for board in tangent_boards(radius, random_widths(80, 150, seed), total, least=0):
        near_left, near_right, *_ = board.footprint(19)

        assert Polygon(board.footprint(19)).distance(Spot(0, 0)) == pytest.approx(radius)
        assert math.hypot(*board.point(0)) == pytest.approx(radius)
        for corner in (near_left, near_right):
            assert math.hypot(*corner) - radius == pytest.approx(gap_behind(radius, board.width), abs=1e-6)


@given(radii, st.floats(30, 300), st.floats(30, 300))
def test_step_is_the_difference_of_the_corners(radius: float, first: float, second: float) -> None:
    out = [radius / math.cos(math.radians(half_span(radius, width))) for width in (first, second)]

    assert step(radius, first, second) == pytest.approx(out[0] - out[1], abs=1e-8)
    assert step(radius, first, second) == -step(radius, second, first)
    assert joint_gap(radius, first, first) == 0


def test_left_is_negative_and_right_is_to_the_right() -> None:
    boards = tangent_boards(widths=repeat(150), **BACK)

    assert boards[0].angle < 0 < boards[-1].angle
    assert boards[0].point(0)[0] < 0 < boards[-1].point(0)[0]
    assert boards[0].point(-75)[0] < boards[0].point(75)[0]


def test_the_last_board_is_ripped_and_the_rest_are_left_over() -> None:
    boards = tangent_boards(widths=[150] * 30, **BACK)

    assert [board.width for board in boards[:-1]] == [150] * 9
    assert boards[-1].width == pytest.approx(2 * 2750 * math.tan(math.radians(31.2196) / 2 - 9 * math.atan(75 / 2750)))
    assert math.fsum(spans(boards)) == pytest.approx(BACK["total_angle"], abs=1e-9)


def test_widths_that_fill_exactly_are_not_ripped() -> None:
    total = 7 * 2 * half_span(2750, 150)

    assert [board.width for board in tangent_boards(2750, [150] * 7, total)] == [150] * 7


def test_too_few_widths_say_how_much_is_bare() -> None:
    bare = 2750 * math.radians(31.2196) - 3 * 2750 * 2 * math.atan(75 / 2750)
    with pytest.raises(DesignError, match=rf"the 3 board widths given leave {bare:.2f} mm of the arc bare"):
        tangent_boards(widths=[150] * 3, **BACK)


def test_a_sliver_is_refused_with_what_to_change() -> None:
    total = 3 * 2 * half_span(2750, 150) + 2 * half_span(2750, 10)
    with pytest.raises(DesignError) as refusal:
        tangent_boards(2750, repeat(150), total)

    assert str(refusal.value) == (
        "board 4, the last, would be ripped to 10 mm, narrower than 25 mm; "
        "make the boards before it 16 mm narrower in all, or 11 mm wider"
    )
    assert tangent_boards(2750, [150, 150, 134, 150], total)[-1].width == pytest.approx(26, abs=0.02)
    assert len(tangent_boards(2750, [150, 150, 161, 150], total)) == 3


@given(st.floats(600, 12_000), st.lists(st.integers(60, 200), min_size=2, max_size=8), st.floats(1, 24))
def test_the_advice_about_a_sliver_works(radius: float, widths: list[int], sliver: float) -> None:
    total = 2 * sum(half_span(radius, width) for width in widths) + 2 * half_span(radius, sliver)
    with pytest.raises(DesignError) as refusal:
        tangent_boards(radius, [*widths, 200], total)

    narrower, wider = map(int, re.findall(r"(\d+) mm (?:narrower in all|wider$)", str(refusal.value)))
    first, *rest = widths
    assert tangent_boards(radius, [first - narrower, *rest, 200], total)[-1].width >= 25
    assert len(tangent_boards(radius, [first + wider, *rest, 200], total)) == len(widths)


def test_an_arc_shorter_than_the_least_board() -> None:
    with pytest.raises(DesignError, match="the arc to fill is only 20 mm wide"):
        tangent_boards(2750, [150], 2 * half_span(2750, 20))


@given(st.floats(300, 12_000), st.integers(2, 40), thicknesses, st.floats(5, 170))
@example(300, 2, 40, 170)
def test_chord_boards_touch_in_front_and_stand_on_the_arc(
    radius: float, count: int, thickness: float, total: float
) -> None:
    boards = chord_boards(radius, count, thickness, total)
    shapes = plans(boards, thickness)

    assert_covers(boards, total)
    for board in boards:
        _, _, far_right, far_left = board.footprint(thickness)
        assert math.hypot(*far_right) == pytest.approx(radius)
        assert math.hypot(*far_left) == pytest.approx(radius)
    for left, right in pairwise(boards):
        meets = left.point(left.width / 2)
        assert meets == pytest.approx(right.point(-right.width / 2), abs=1e-6)
    for a, b in pairwise(shapes):
        assert a.intersection(b).area < OVERLAP
        assert a.distance(b) < TOUCH


def test_chord_boards_by_the_equations() -> None:
    board, *_ = chord_boards(1000, 6, 20, 60)
    half, back = board.width / 2, board.distance + 20

    assert back == pytest.approx(math.sqrt(1000**2 - half**2))
    assert math.degrees(math.atan(half / (back - 20))) == pytest.approx(60 / (2 * 6))


@pytest.mark.parametrize(
    ("sizes", "why"),
    [
        ((1000, 0, 20, 60), "take 1 or more"),
        ((1000, 2, 20, 360), "take 3 or more"),
        ((1000, 6, 1000, 60), "can't stand inside a radius of 1000 mm"),
        ((1000, 6, 0, 60), "thickness must be more than 0"),
        ((1000, 6, 20, 0), "angle of an arc"),
    ],
)
def test_chord_boards_that_cannot_stand(sizes: tuple, why: str) -> None:
    with pytest.raises(DesignError, match=why):
        chord_boards(*sizes)


def test_seeded_widths_never_change() -> None:
    """Pinned: an order's boards must come out the same on every machine and Python."""
    assert list(islice(random_widths(90, 140, 7), 6)) == [106, 97, 123, 93, 117, 108]


@pytest.mark.parametrize("unit", GRID)
@given(seed=seeds)
def test_random_widths_are_marks_on_the_rule_within_the_range(unit: str, seed: int) -> None:
    for width in islice(random_widths(76.2, 139.7, seed, unit), 50):
        assert 76.2 <= width <= 139.7
        assert width == float(round(width / float(GRID[unit])) * GRID[unit])


def test_both_ends_of_the_range_are_drawn() -> None:
    assert set(islice(random_widths(90, 92, 1), 100)) == {90, 91, 92}


@pytest.mark.parametrize(("low", "high"), [(140, 90), (90.2, 90.8), (0, 90)])
def test_ranges_without_a_width(low: float, high: float) -> None:
    with pytest.raises(DesignError, match=r"widen the range|must be more than 0"):
        random_widths(low, high, 1)


@given(radii, turns, seeds, st.floats(60, 150), st.floats(1.05, 2.5))
def test_random_fill_is_exact_and_within_the_range_if_any_number_of_boards_can_be(
    radius: float, total: float, seed: int, low: float, times: float
) -> None:
    high = low * times + 1
    widths = fill_with_random(radius, low, high, seed, total)
    boards = tangent_boards(radius, widths, total)

    assert [board.width for board in boards] == pytest.approx(widths, abs=1e-4)
    assert_covers(boards, total)
    least, most = 2 * half_span(radius, low), 2 * half_span(radius, high)
    possible = any(n * least <= total <= n * most for n in range(1, 400))
    if possible:
        assert all(low - 1e-4 <= width <= high + 1e-4 for width in widths)
    else:
        assert max(widths) - min(widths) < 1e-6
        assert high / 2 - 1 < widths[0] < low or len(widths) == 1


@given(st.floats(200, 3000), seeds)
def test_random_fill_of_a_straight_run(length: float, seed: int) -> None:
    widths = fill_straight_with_random(length, 90, 140, seed)

    assert math.fsum(widths) == pytest.approx(length, abs=1e-5)
    assert len(widths) > 1
    if length > 300:
        assert all(90 - 1e-5 <= width <= 140 + 1e-5 for width in widths)


@pytest.mark.parametrize("unit", GRID)
def test_only_the_evened_boards_leave_the_rule(unit: str) -> None:
    drawn = random_widths(90, 140, 7, unit)
    widths = fill_with_random(2750, 90, 140, 7, BACK["total_angle"], unit)

    assert widths[:-2] == list(islice(drawn, len(widths) - 2))


def test_a_sliver_is_evened_out_over_the_last_boards() -> None:
    """Boards of 100 only, 410 to fill: 100, 100, 100, 100 and a sliver of 10 can't be; all five are equal."""
    assert fill_straight_with_random(410, 100, 100, 1) == [82] * 5
    assert fill_straight_with_random(410, 100, 103, 1) == [102.5] * 4
