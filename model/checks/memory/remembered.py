"""What was asked before? Answers kept between runs, each under a digest of all that it follows from.

They are kept in a file in the user's cache folder, or in the folder that the environment's DRYFIT_CACHE names; set
empty, it turns this off. Nothing can be stale: other parts, another question, another version or another line of the
checks' code make another key (`model.checks.memory.digest`). What can't be read is taken for not known, and what
can't be written is let go; then an answer is worked out again, and only time is lost.
"""

from __future__ import annotations

import atexit
import hashlib
import json
import os
import sqlite3
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, suppress
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")

FILE = "answers.sqlite"

#: Told in the file's head, so that another program's file is left alone: "dryf".
OURS = 0x64727966

#: Answers kept before the oldest tenth is dropped: some 50 MB.
MOST_KEPT = 200_000

#: How long another process that is writing is waited for, seconds.
PATIENCE = 5.0

#: Single answers gathered before they are written.
MOST_WAITING = 200

#: Keys asked for in one go.
AT_ONCE = 500


def remembered(
    keys: Sequence[str | None],
    ask: Callable[[list[int]], list[T]],
    written: Callable[[T], Any],
    read: Callable[[Any], T],
) -> list[T]:
    """The answers to questions by their keys, None for one that must not be remembered.

    ask: answers the ones not known, by their numbers in `keys`. written, read: an answer as plain JSON values, and
    back; `read` raises ValueError, TypeError or KeyError for what is no answer.
    """
    known = _recalled([k for k in keys if k is not None])
    answers: dict[int, T] = {}
    for n, key in enumerate(keys):
        if key in known:
            with suppress(ValueError, TypeError, KeyError):
                answers[n] = read(known[key])
    unknown = [n for n in range(len(keys)) if n not in answers]
    fresh = dict(zip(unknown, ask(unknown), strict=True)) if unknown else {}
    _keep({key: written(answer) for n, answer in fresh.items() if (key := keys[n]) is not None})
    return [fresh[n] if n in fresh else answers[n] for n in range(len(keys))]


def remembered_one(key: str | None, ask: Callable[[], T], written: Callable[[T], Any], read: Callable[[Any], T]) -> T:
    """The answer to a single question. New ones are gathered, and written when there are MOST_WAITING, when `keep_all`
    is called, and when the program ends; `written` raises TypeError for one that can't be kept."""
    if key is None or folder() is None:
        return ask()
    known = {key: _waiting[key]} if key in _waiting else _recalled([key])
    if key in known:
        with suppress(ValueError, TypeError, KeyError):
            return read(known[key])
    answer = ask()
    with suppress(TypeError):
        _waiting[key] = written(answer)
    if len(_waiting) >= MOST_WAITING:
        keep_all()
    return answer


def keep_all() -> None:
    """Writes the single answers gathered so far."""
    answers = dict(_waiting)
    _waiting.clear()
    _keep(answers)


#: Single answers not written yet, by their keys.
_waiting: dict[str, Any] = {}
atexit.register(keep_all)


def folder() -> Path | None:
    """Where answers are kept; None if they are not."""
    named = os.environ.get("DRYFIT_CACHE")
    if named is not None:
        return Path(named).expanduser() if named else None
    usual = os.environ.get("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME")
    try:
        return (Path(usual) if usual else Path.home() / ".cache") / "dryfit"
    except RuntimeError:
        return None  # no home


def _recalled(keys: Sequence[str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    at = folder()
    if not keys or at is None or not (at / FILE).exists():
        return found
    try:
        with closing(_opened(at / FILE)) as file:
            for start in range(0, len(keys), AT_ONCE):
                some = keys[start : start + AT_ONCE]
                marks = ", ".join("?" * len(some))
                for row in file.execute(f"SELECT key, answer, seal FROM answers WHERE key IN ({marks})", some):
                    found.update(_sound(*row))
    except (sqlite3.Error, OSError):
        pass
    return found


def _keep(answers: Mapping[str, Any]) -> None:
    at = folder()
    if not answers or at is None:
        return
    told = {key: json.dumps(answer) for key, answer in answers.items()}
    rows = [(key, text, _seal(key, text)) for key, text in told.items()]
    try:
        at.mkdir(parents=True, exist_ok=True)
        with closing(_opened(at / FILE)) as file, file:
            file.executemany("INSERT OR REPLACE INTO answers (key, answer, seal) VALUES (?, ?, ?)", rows)
            _drop_oldest(file)
    except (sqlite3.Error, OSError):
        pass


def _drop_oldest(file: sqlite3.Connection) -> None:
    (count,) = file.execute("SELECT count(*) FROM answers").fetchone()
    if count > MOST_KEPT:
        over = count - MOST_KEPT + MOST_KEPT // 10
        file.execute("DELETE FROM answers WHERE rowid IN (SELECT rowid FROM answers ORDER BY rowid LIMIT ?)", (over,))


def _opened(path: Path) -> sqlite3.Connection:
    """The file, made if there is none. Raises sqlite3.DatabaseError for one that is not ours."""
    file = sqlite3.connect(path, timeout=PATIENCE)
    try:
        (head,) = file.execute("PRAGMA application_id").fetchone()
        if head != OURS:
            _made_ours(file)
    except BaseException:
        file.close()
        raise
    return file


def _made_ours(file: sqlite3.Connection) -> None:
    file.execute("BEGIN IMMEDIATE")  # two processes may find it new at once
    with file:
        (head,) = file.execute("PRAGMA application_id").fetchone()
        (tables,) = file.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if head != OURS and (head or tables):
            raise sqlite3.DatabaseError("another program's file")
        file.execute("CREATE TABLE IF NOT EXISTS answers (key TEXT PRIMARY KEY, answer TEXT, seal TEXT)")
        file.execute(f"PRAGMA application_id = {OURS}")


def _sound(key: Any, text: Any, seal: Any) -> Iterator[tuple[str, Any]]:
    """The answer in a row, unless something has changed it."""
    if isinstance(key, str) and isinstance(text, str) and seal == _seal(key, text):
        yield key, json.loads(text)


def _seal(key: str, text: str) -> str:
    return hashlib.sha256(f"{key} {text}".encode()).hexdigest()[:16]
