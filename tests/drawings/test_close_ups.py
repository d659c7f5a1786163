from __future__ import annotations

from dataclasses import replace
from typing import Any

from drawings.close_ups import MOST, close_ups
from model.checks.finding import Finding

FOUND = Finding(
    "overlap", "fault", ("seat", "left side"), "seat runs in", 1.0, 0.01, "mm", "test", (-700.0, 300.0, 430.0)
)


def test_each_place_gets_a_picture(bench_shapes: dict[str, Any]) -> None:
    pictures = close_ups([FOUND], bench_shapes)

    assert list(pictures) == [0]
    assert pictures[0].startswith("<svg")
    assert pictures[0].count("<path") == 3  # neighbours, hidden and visible lines of the two parts
    assert "<circle" in pictures[0]


def test_a_finding_without_a_place_gets_none(bench_shapes: dict[str, Any]) -> None:
    assert close_ups([replace(FOUND, where=None)], bench_shapes) == {}


def test_the_gravest_come_first_and_there_are_not_too_many(bookcase_shapes: dict[str, Any]) -> None:
    found = Finding("overlap", "fault", ("shelf 1",), "x", 1.0, 0.01, "mm", "test", (100.0, 100.0, 300.0))

    assert list(close_ups([found] * (MOST + 3), bookcase_shapes)) == list(range(MOST))
