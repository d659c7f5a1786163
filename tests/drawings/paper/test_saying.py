"""Texts that know what their numbers say: composed, joined, wrapped, cut short and written."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drawings.lists.distinct import in_brief, in_short
from drawings.paper.lettering import fitted, wrapped
from drawings.paper.measured import Shown
from drawings.paper.saying import Saying, Says, capital, counted, joined, meanings_of, named, number, numbers_in, say

LENGTHS = ["12", "141.7", '53 3/8"', "10' 8 1/2\"", "5/8", "45°"]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("R2750, chord 1498.3, rise 104", ["2750", "1498.3", "104"]),
        ('3 of 53 3/8" × 5 9/16", nominal 1 1/2', ["3", '53 3/8"', '5 9/16"', "1 1/2"]),
        ('Seat, 1 1/2" = 1\'-0"', ['1 1/2" = 1\'-0"']),
        ("10' 8 1/2\" left of the centre line", ["10' 8 1/2\""]),
        ("C: Dado, 1:2", ["1:2"]),
        ("nominal 10/4, leaning 5.5°", ["10/4", "5.5°"]),
        ("the seat", []),
    ],
)
def test_a_number_is_found_whole(text: str, found: list[str]) -> None:
    assert numbers_in(text) == found


def test_what_numbers_say_goes_with_them_into_a_sentence() -> None:
    radius = Shown().radius((0.0, 0.0))
    told = capital(
        say("the {} has {} cuts to {}", named("shelf 3", "shelf 3"), counted(2, "parts"), number("R9", radius))
    )

    assert told == "The shelf 3 has 2 cuts to R9"
    assert told.says == (Says("name", ("shelf 3",)), Says("parts"), (radius,))


def test_a_number_that_was_not_composed_says_nothing() -> None:
    assert say("{} and 7", counted(2, "parts")).says == (Says("parts"), None)
    assert meanings_of("7 of 9") == (None, None)


def test_numbers_that_run_into_one_another_say_nothing() -> None:
    assert say("{}{}", counted(1, "parts"), counted(2, "kinds")).says == (None,)


@given(st.lists(st.sampled_from(["of", "the", "long", *LENGTHS]), min_size=1, max_size=30), st.floats(30.0, 80.0))
def test_each_line_keeps_what_its_own_numbers_say(words: list[str], width: float) -> None:
    told = joined("; ", (number(w, Says("order", (str(n),))) if w in LENGTHS else w for n, w in enumerate(words)))
    lines = wrapped(told, width, 2.5)

    assert [m for line in lines for m in meanings_of(line)] == list(told.says)
    assert [n for line in lines for n in numbers_in(line)] == numbers_in(told)


def test_a_text_is_not_cut_short_within_a_number() -> None:
    _, lines = fitted("shelf 1 to 12345", 22.0, 3.6, (2.5,))

    assert lines[-1].endswith("…")
    assert not any(character.isdigit() for character in lines[-1].partition("to")[2])


def test_it_is_the_same_after_it_has_been_sent_to_another_process() -> None:
    told = say("{} parts", counted(3, "parts"))
    sent = pickle.loads(pickle.dumps(told))

    assert (sent, sent.says) == (told, told.says)
    assert isinstance(sent, Saying)


def test_names_drawn_together_say_which_they_are() -> None:
    boards = [f"back board {n}" for n in (1, 2, 3, 5)]

    assert in_short(boards) == "back board 1 to 3, 5"
    assert in_short(boards).says == (
        Says("name", ("back board 1",)),
        Says("name", ("back board 1", "back board 3")),
        Says("name", ("back board 5",)),
    )
    assert in_brief(boards, 10).says[-1] == Says("more", tuple(boards))
