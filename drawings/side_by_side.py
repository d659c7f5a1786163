"""Two pieces of work at once, each on its own core."""

from __future__ import annotations

import multiprocessing as mp
import os
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any, TypeVar

A = TypeVar("A")
B = TypeVar("B")


def side_by_side(here: Callable[[], A], there: Callable[[], B]) -> tuple[A, B]:
    """The results of both; `there` runs in a copy of this process, so what it returns must pickle.

    One after the other where a process can't be copied, there is one core only, or this process is such a copy itself
    and both cores are busy. Raises what either raises; an error over there comes back as it was.
    """
    if "fork" not in mp.get_all_start_methods() or (os.cpu_count() or 1) < 2 or mp.parent_process() is not None:
        return here(), there()
    context = mp.get_context("fork")
    ours, theirs = context.Pipe(duplex=False)
    other = context.Process(target=_work, args=(there, theirs))
    other.start()
    theirs.close()
    try:
        mine = here()
    except BaseException:
        other.terminate()
        other.join()
        raise
    ok, result = _answer(ours)
    other.join()
    if not ok:
        raise result
    return mine, result


def _work(task: Callable[[], B], answer: Connection) -> None:
    try:
        answer.send((True, task()))
    except Exception as error:
        error.__cause__ = None
        error.add_note(traceback.format_exc())
        answer.send((False, error))
    finally:
        answer.close()


def _answer(ours: Connection) -> tuple[bool, Any]:
    try:
        ok, result = ours.recv()
        return ok, result
    except EOFError:
        return False, RuntimeError("the second process ended without an answer; it may have run out of memory")
