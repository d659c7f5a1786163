"""Set-ups: what shares a setting, and what does not."""

from collections.abc import Iterable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.cards.setups import cards
from drawings.lists.columns import Speech
from drawings.lists.setting import SAME_SETTING
from drawings.lists.setup_rows import setup_columns
from drawings.lists.setups import Setup, _drawn_together, setups
from model.cuts.cut import Cut
from model.cuts.edges import Bevel, EdgeGroove
from model.cuts.faces import Bore, dado, groove
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board
from tests.drawings.made_pieces import example
from tests.drawings.proof.sheets_written import ordered


def of(*boards: Iterable[Cut]) -> list[Setup]:
    piece = Piece("boards", Parameters())
    for n, cuts in enumerate(boards, 1):
        piece.add(f"board {n}", board(1200, 250), place(), *cuts)
    return setups(piece)


def test_equal_cuts_in_many_parts_are_one_setting():
    found = of([dado(416, 19, 9.5, 0, 250)], [dado(416, 19, 9.5, 20, 250, "back")])

    assert len(found) == 1
    assert found[0].served == (
        ("face side from left end", ("board 1",)),
        ("back side from left end", ("board 2",)),
    )


def test_moving_the_fence_is_a_new_line_and_changing_the_cutter_a_new_number():
    found = of([dado(100, 19, 9.5, 0, 250), dado(200, 19, 9.5, 0, 250), dado(100, 19, 6, 0, 250)])

    assert [(s.number, s.setting.depth, s.setting.fence) for s in found] == [(1, 6, 100), (2, 9.5, 100), (2, 9.5, 200)]


def test_the_fence_stands_at_the_nearer_edge():
    found = of([groove(20, 6, 8, 0, 1200), groove(250 - 26, 6, 8, 0, 1200)])

    assert [(s.setting.fence, s.setting.against, s.cuts) for s in found] == [(20, "edge", 2)]


@pytest.mark.parametrize(("units", "said"), [("mm", "32 mm"), ("in", '≈1 1/4"'), ("in.dec", '1.26"')])
def test_a_row_of_holes_tells_its_spacing_in_the_orders_units(units: str, said: str) -> None:
    piece, order = Piece("boards", Parameters()), replace(ordered("refuge-bench"), units=units)
    wide, tight = ([Bore((100 + n * s, 40, 19), (0, 0, -1), 5, 10) for n in range(5)] for s in (32, 25.4))
    piece.add("board", board(1200, 250), place(), *wide)
    piece.add("other", board(1200, 250), place(), *tight)
    cut = setup_columns(Speech(units, 16))[1]

    assert [cut.cell(row) for row in setups(piece)][1] == f"row of 5 holes, {said} apart"
    assert [row.number for row in setups(piece)] == [1, 2]
    assert cards(piece, order)[1].heading == f"Set-up 2: row of 5 holes, {said} apart"


def test_settings_that_no_shop_can_tell_apart_are_one_and_others_are_not():
    def grooves(*depths: float) -> list[Setup]:
        return of([EdgeGroove(edge="near", width=6, depth=d, rise=6) for d in depths])

    assert [s.setting.depth for s in grooves(7.913, 7.917)] == [7.915]
    assert len(grooves(7.9, 7.9 + 1.1 * SAME_SETTING)) == 2


@given(st.lists(st.floats(0, 50), min_size=1, max_size=30))
def test_no_setting_is_further_from_its_cut_than_half_the_span(values):
    for value, setting in _drawn_together(sorted(values)).items():
        assert abs(value - setting) <= SAME_SETTING / 2 + 0.0005001


def test_a_bevel_is_set_by_its_angle():
    setting = of([Bevel(edge="far", angle=5)])[0].setting

    assert (setting.angle, setting.width, setting.depth) == (5, None, None)


@pytest.mark.parametrize("name", ["refuge-bench", "refuge-bookcase"])
def test_equal_cutter_settings_stand_together(name):
    numbers = [s.number for s in setups(example(name)[0])]

    assert numbers == sorted(numbers)
    assert set(numbers) == set(range(1, max(numbers) + 1))
