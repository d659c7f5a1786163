"""Stock: sizes that are sizes, and what the order answers for it."""

import math

import pytest

from model.errors import DesignError
from model.stock import board, panel, sheet


@pytest.mark.parametrize("make", [board, panel, sheet])
def test_the_order_answers_only_what_is_open(make) -> None:  # type: ignore[no-untyped-def]
    assert make(900, 200).of(19, "red oak").thick == 19
    assert make(900, 200, 12, "cherry").of(19, "red oak") == make(900, 200, 12, "cherry")
    assert make(900, 200).kind == make.__name__


@pytest.mark.parametrize("wrong", [0.0, -5.0, math.nan, math.inf])
@pytest.mark.parametrize("what", ["length", "width", "thickness"])
def test_a_size_that_is_none_is_refused_by_name(what: str, wrong: float) -> None:
    sizes = {"length": 900.0, "width": 200.0, "thickness": 19.0, what: wrong}
    with pytest.raises(DesignError, match=f"the board's {what} comes out at .* it must be more than zero"):
        board(**sizes)


def test_thickness_not_yet_known_is_said() -> None:
    with pytest.raises(DesignError, match="has no thickness yet; give one, or add it to a piece first"):
        _ = board(900, 200).thick
