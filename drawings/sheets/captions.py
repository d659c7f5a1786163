"""What a section or a detail is called: its letter, as large as where it is marked, and words on the same line."""

from __future__ import annotations

from drawings.paper.lettering import text_width
from drawings.paper.sheet import Point, Text

#: A letter of a section or a detail (twice the dimensions' lettering, as ASME Y14.2 has it, from memory), its words,
#: and those where the larger don't go in, mm.
LETTER, _WORDS, _SMALLER = 5.0, 3.5, 2.5
_BETWEEN = 2.5


def caption(letter: str, words: str, at: Point, width: float) -> list[Text]:
    """The caption from the left end of its base line; the words smaller if they would take more than so many mm."""
    x = at[0] + text_width(letter, LETTER, bold=True) + _BETWEEN
    size = _size(letter, words, width)
    return [Text(at, letter, LETTER, bold=True), Text((x, at[1]), words, size, bold=True)]


def caption_width(letter: str, words: str, width: float) -> float:
    """How wide the caption comes out, mm."""
    return _all(letter, words, _size(letter, words, width))


def _size(letter: str, words: str, width: float) -> float:
    return _WORDS if _all(letter, words, _WORDS) <= width else _SMALLER


def _all(letter: str, words: str, size: float) -> float:
    return text_width(letter, LETTER, bold=True) + _BETWEEN + text_width(words, size, bold=True)
