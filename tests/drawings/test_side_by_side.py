from __future__ import annotations

import os
import time

import pytest

from drawings.side_by_side import side_by_side
from model.errors import DesignError


def refuse() -> None:
    raise DesignError("the boards are too short")


def test_both_results_come_back() -> None:
    here, there = side_by_side(os.getpid, lambda: [n * n for n in range(200_000)])

    assert here == os.getpid()
    assert there[-1] == 199_999**2


def test_an_error_over_there_comes_back_as_it_was() -> None:
    with pytest.raises(DesignError, match="too short"):
        side_by_side(lambda: 1, refuse)


def test_an_error_here_ends_the_other() -> None:
    started = time.monotonic()
    with pytest.raises(DesignError, match="too short"):
        side_by_side(refuse, lambda: time.sleep(600))

    assert time.monotonic() - started < 300


def test_a_process_that_dies_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(RuntimeError, match="without an answer"):
        side_by_side(lambda: 1, lambda: os._exit(3))
