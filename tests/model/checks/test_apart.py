"""Parts that must never touch."""

import pytest

from model.checks.apart import apart
from model.piece import Apart
from model.placement import place
from tests.model.checks.planted import BENCH, BOOKCASE, moved, shapes, sound
from tests.model.checks.whole_piece import carried, shuffled


def told(piece):
    return apart(piece, shapes(piece))


def test_the_hatch_keeps_clear_of_the_seat():
    answer = told(sound(BENCH))
    assert answer.findings == ()
    assert (answer.proofs[0].checked, answer.proofs[0].held) == (1, 1)


@pytest.mark.parametrize(
    ("step", "gap"),
    [
        ((1.0, 0.0, 0.0), 1.0),
        ((-0.5, 0.0, 0.0), 1.5),
        ((0.0, 1.0, 0.0), 1.0),
        ((0.0, 0.01, 0.0), 1.99),
        ((0.0, 2.0, 0.0), 0.0),
        ((3.0, 0.0, 0.0), 0.0),
    ],
)
def test_a_hatch_hung_askew_is_found(step, gap):
    (finding,) = told(moved(sound(BENCH), "hatch", *step)).findings
    assert finding.parts == ("hatch", "seat")
    assert finding.value == pytest.approx(gap, abs=1e-3)
    assert finding.limit == 2.0
    assert ("touches" in finding.message) == (gap == 0.0)


def test_a_hair_is_no_fault():
    assert told(moved(sound(BENCH), "hatch", 0.0, 0.0005)).findings == ()


def test_any_pair_can_be_kept_apart():
    piece = shuffled(sound(BOOKCASE), 0)
    piece.apart = [Apart("shelf 1", "shelf 2", 100.0), Apart("shelf 1", "left side", 1.0)]
    (finding,) = told(piece).findings
    assert finding.parts == ("left side", "shelf 1")
    assert finding.value == 0.0


def test_order_and_place_change_nothing():
    piece = moved(sound(BENCH), "hatch", 0.7)
    (expected,) = told(piece).findings
    away = carried(shuffled(piece, 5), place((10.0, 20.0, -30.0), "back", "left"))
    (found,) = told(away).findings
    assert (found.parts, found.message) == (expected.parts, expected.message)
    assert found.value == pytest.approx(expected.value, abs=1e-3)
