"""What each number printed in a text says, read back from the written sheet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast, get_args

from drawings.paper.saying import Meaning, Says, Topic, numbers_in
from drawings.players.dxf import APPLICATION, SAYS
from drawings.proof.readings import measured_in
from drawings.proof.written_dxf import Record, WrittenDxf

#: Entities that can show a text; ours are all TEXT.
_TEXTS = ("TEXT", "MTEXT", "ATTRIB")
_BRACE, _WORD = 1002, 1000
_TOPICS = frozenset(get_args(Topic))


@dataclass(frozen=True)
class Said:
    """A number of a text: its sheet's file, the whole text, the number, and what that says."""

    file: str
    text: str
    number: str
    meaning: Meaning


def said_in(written: WrittenDxf, file: str) -> Iterator[Said]:
    """Every number of the texts of a sheet that is not measured as a whole, in the order they were written."""
    for entity in written.entities(_TEXTS):
        text = entity.text(1)
        numbers = numbers_in(text)
        if numbers and not entity.extended(APPLICATION):
            for number, meaning in zip(numbers, _meanings(entity, len(numbers)), strict=True):
                yield Said(file, text, number, meaning)


def _meanings(entity: Record, count: int) -> list[Meaning]:
    """What each number says; nothing for any of them where they don't agree in number."""
    found: list[Meaning] = []
    tags: list[tuple[int, str]] = []
    for code, value in entity.extended(SAYS):
        if code == _BRACE and value == "{":
            tags = []
        elif code == _BRACE:
            found.append(_meaning(tags))
        else:
            tags.append((code, value))
    return found if len(found) == count else [None] * count


def _meaning(tags: list[tuple[int, str]]) -> Meaning:
    words = [value for code, value in tags if code == _WORD]
    if any(code != _WORD for code, _ in tags):
        return measured_in(tags)
    if words and words[0] in _TOPICS:
        return Says(cast(Topic, words[0]), tuple(words[1:]))
    return None
