"""The way in: doorways by hand, the ladder round a corner, planted big pieces, nothing changed by turning the piece."""

import math

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.way_in import hull, least_width, longest_round, rounds, way_in
from model.parameters import Parameters
from model.piece import Piece
from model.placement import Placement
from tests.model.checks.planted import BENCH, BOOKCASE, carried, shapes, sound


def box(a, b):
    return np.array([(0.0, 0.0), (a, 0.0), (a, b), (0.0, b)])


def block(length, depth, height):
    piece = Piece("block", Parameters())
    piece.given("block", cq.Workplane().box(length, depth, height))
    return piece


@pytest.mark.parametrize(("height", "width"), [(2000.0, 300.0), (1000.0, 300.0), (299.0, None), (300.0, 1000.0)])
def test_a_rectangle_through_a_doorway_by_hand(height, width):
    found = [w for w, _ in least_width(box(300.0, 1000.0), height)]
    assert found == ([] if width is None else [pytest.approx(width, abs=1e-6)])


def test_a_doorway_a_little_too_low_is_passed_leaning():
    ((width, turn),) = least_width(box(300.0, 1000.0), 900.0)
    tall = 300.0 * abs(math.sin(turn)) + 1000.0 * abs(math.cos(turn))
    assert tall == pytest.approx(900.0, abs=1e-4)
    assert width == pytest.approx(300.0 * abs(math.cos(turn)) + 1000.0 * abs(math.sin(turn)), abs=1e-4)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 500), st.integers(0, 500)), min_size=3, max_size=20), st.integers(100, 700))
def test_no_turn_of_a_fine_sweep_is_narrower(points, height):
    polygon = hull(np.array(points, dtype=float))
    t = np.linspace(0.0, math.pi, 4001)
    wide, tall = (np.ptp(polygon @ np.array([np.cos(a), np.sin(a)]), axis=0) for a in (t, t + math.pi / 2.0))
    swept = wide[tall <= height].min(initial=np.inf)
    found = min((w for w, _ in least_width(polygon, height)), default=np.inf)
    assert found <= swept + 1e-5
    if math.isfinite(swept):
        assert found >= swept - 2.0


@pytest.mark.parametrize(("a", "b"), [(900.0, 900.0), (600.0, 1200.0)])
def test_a_thin_ladder_turns_by_the_classic_formula(a, b):
    assert longest_round(0.0, (a, b)) == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5, rel=1e-6)


def test_a_thick_ladder_in_equal_passages_by_hand():
    assert longest_round(200.0, (900.0, 900.0)) == pytest.approx(2.0 * (900.0 * math.sqrt(2.0) - 200.0))
    assert rounds(900.0, 850.0, (900.0, 900.0)), "sideways, not turned"
    assert not rounds(950.0, 850.0, (900.0, 900.0))
    assert not rounds(500.0, 950.0, (900.0, 900.0))


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_examples_pass_a_common_door(name):
    (found,) = way_in(sound(name), shapes(sound(name))).findings
    assert found.severity == "note"


@pytest.mark.parametrize(
    ("size", "door", "corner"),
    [
        ((900, 800, 1000), (760, 1980), (0, 0)),
        ((2200, 780, 770), (760, 1980), (0, 0)),
        ((700, 600, 650), (590, 1980), (0, 0)),
        ((400, 300, 2500), (290, 1980), (0, 0)),
        ((2600, 500, 1700), (760, 1980), (900, 900)),
        ((2300, 500, 1900), (760, 1980), (900, 900)),
    ],
)
def test_a_piece_too_big_is_a_caution(size, door, corner):
    piece = block(*size)
    answer = way_in(piece, shapes(piece), door=door, corner=corner)
    assert [(f.severity, f.parts) for f in answer.findings] == [("caution", ("block",))]
    assert sum(p.checked - p.held for p in answer.proofs) == 1


def test_what_stands_after_a_step_is_carried_in_where_the_whole_is_not():
    piece = block(700, 600, 500)
    first = piece["block"]
    second = piece.given("hood", cq.Workplane().box(700, 500, 600), Placement((0.0, 450.0, 400.0)))
    piece.step("the block", first)
    piece.step("the hood", second)
    (found,) = way_in(piece, shapes(piece), door=(650, 1000)).findings
    assert (found.severity, found.parts) == ("caution", ("hood",))
    assert "after step 1" in found.message


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_turning_and_moving_the_piece_changes_nothing(name):
    c, s = math.cos(0.7), math.sin(0.7)
    turned = carried(sound(name), Placement((300.0, -20.0, 7.0), (c, s, 0.0), (-s, c, 0.0)))
    (one,), (other,) = (way_in(p, shapes(p)).findings for p in (sound(name), turned))
    assert (one.severity, one.message, one.parts) == (other.severity, other.message, other.parts)
    assert one.value == pytest.approx(other.value, abs=0.02)
