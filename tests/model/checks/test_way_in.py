"""The way in: doorways by hand, the ladder round a corner, planted big pieces, nothing changed by turning the piece."""

import math

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.passage.brought_in import bodies
from model.checks.passage.flat_hull import hull, least_width, tallest
from model.checks.passage.obstacles import Flight
from model.checks.passage.turns_round import longest_round, rounds
from model.checks.way_in import way_in
from model.parameters import Parameters
from model.piece import Piece
from model.placement import Placement
from tests.model.checks.planted import BENCH, BOOKCASE, shapes, sound
from tests.model.checks.whole_piece import carried


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


def told(piece, **way):
    answer = way_in(piece, shapes(piece), **way)
    return answer.findings[0], answer.proofs


@pytest.mark.parametrize(("wide", "tall"), [(600.0, 2000.0), (350.0, 1900.0)])
def test_a_case_is_stood_up_under_its_diagonal(wide, tall):
    quarter = tallest(box(wide, tall), 0.0, math.pi / 2.0)
    assert quarter == pytest.approx(math.hypot(wide, tall), abs=1e-9)
    piece = block(wide, wide + 50.0, tall)
    low, _ = told(piece, door=(wide + 60.0, tall - 20.0), ceiling=math.hypot(wide, tall) - 1.0)
    high, _ = told(piece, door=(wide + 60.0, tall - 20.0), ceiling=math.hypot(wide, tall) + 1.0)
    assert (low.severity, high.severity) == ("caution", "note")


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 500), st.integers(0, 500)), min_size=4, max_size=20, unique=True),
    st.floats(-1.6, 1.6),
    st.floats(0.01, 1.6),
)
def test_no_station_of_a_turn_is_taller_than_the_tallest(points, start, turn):
    polygon = hull(np.array(points, dtype=float))
    if len(polygon) < 3:
        return
    t = np.linspace(start, start + turn, 2001)
    swept = np.ptp(polygon @ np.array([np.sin(t), np.cos(t)]), axis=0).max()
    assert swept - 1e-6 <= tallest(polygon, start, start + turn) <= swept + 0.1


def test_headroom_is_taken_square_to_the_pitch():
    assert Flight(900.0, 2000.0, 300.0, 400.0).clear == pytest.approx(1600.0), "a 3-4-5 stair"
    fits = block(500, 1600, 2500)
    for tall, severity in ((1599.0, "note"), (1601.0, "caution")):
        found, _ = told(block(500, tall, 2500), door=(1000, 2600), stair=(499.9 + 0.2, 2000, 300, 400))
        assert found.severity == severity
    assert told(fits, door=(1000, 2600), stair=(400, 2000, 300, 400))[0].severity == "caution"


@pytest.mark.parametrize(
    ("size", "way", "proof", "says"),
    [
        ((1700, 800, 900), {"stair": (750, 2000, 180, 260)}, "flights", "750 mm"),
        ((2200, 700, 2100), {"stair": (690, 2000, 200, 200)}, "flights", "45°"),
        ((2100, 600, 1500), {"stair": (800, 2000, 180, 260), "landing": 800}, "landings", "landing 800 mm deep"),
        (
            (1700, 400, 1650),
            {"stair": (800, 2100, 180, 260), "landing": 1000, "half_turn": True},
            "landings",
            "1600 mm",
        ),
        ((900, 600, 2250), {"ceiling": 2300, "door": (760, 1980)}, "rooms", "stood up"),
        ((900, 600, 2250), {"ceiling": 2200, "door": (760, 1980)}, "rooms", "2250 mm tall"),
    ],
)
def test_a_piece_too_big_for_the_stair_or_the_room_is_a_caution(size, way, proof, says):
    found, proofs = told(block(*size), **{"door": (1500, 2600), **way})
    assert found.severity == "caution"
    assert says in found.message
    (missed,) = (p for p in proofs if p.held < p.checked)
    assert missed.what.startswith(proof)


@pytest.mark.parametrize(
    ("size", "way"),
    [
        ((1700, 740, 900), {"stair": (750, 2000, 180, 260)}),
        ((1050, 600, 1800), {"stair": (800, 2000, 180, 260), "landing": 800}),
        ((1700, 400, 1650), {"stair": (800, 2100, 180, 260), "landing": 1000}),
        ((1300, 400, 900), {"stair": (800, 2100, 180, 260), "landing": 900, "half_turn": True}),
        ((900, 600, 2100), {"ceiling": 2300}),
    ],
)
def test_one_a_little_smaller_is_not(size, way):
    found, proofs = told(block(*size), **{"door": (1500, 2600), **way})
    assert found.severity == "note"
    assert all(p.held == p.checked for p in proofs)


def test_a_door_too_narrow_is_told_the_lowest_that_would_do():
    found, _ = told(block(900, 800, 1000), door=(760, 1980))
    assert "needs a doorway 800 mm wide" in found.message
    assert "(or one 760 mm wide" not in found.message, "nothing 760 wide takes it"
    lying, _ = told(block(700, 800, 900), door=(690, 790))
    assert "higher" in lying.message or "doorway" in lying.message


def test_what_must_be_done_in_the_room_is_told_by_its_step():
    piece = sound(BENCH)
    found, _ = told(piece, door=(480, 1980))
    assert found.severity == "caution"
    assert "as it stands after step 2" in found.message
    assert f'do step 3 ("{piece.steps[2].text}") and those after it in the room' in found.message


def test_what_hangs_or_rests_is_a_body_of_its_own():
    piece = sound(BENCH)
    found = bodies(piece, list(piece.parts))
    assert ("hatch",) in found
    assert sum(len(b) for b in found) == len(piece.parts)


@pytest.mark.parametrize("across", [650.0, 700.0])
def test_what_is_too_thick_for_a_corner_is_told_how_thick(across):
    (found,) = way_in(
        block(900.0, across, 1000.0), shapes(block(900.0, across, 1000.0)), corner=(600.0, 600.0)
    ).findings
    assert f"it is {across:.0f} mm across, and only 600 mm goes round" in found.message
    assert (found.value, found.limit) == (across, 600.0)
