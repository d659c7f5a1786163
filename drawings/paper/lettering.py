"""How much room lettering takes: widths from the bundled font, fitting and wrapping, boxes of texts.

The font is DejaVu Sans (drawings/paper/fonts, with its licence): upright, legible, free to embed, and it has the
fractions, primes and signs that drawings need.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from drawings.paper.saying import shared_out, unbroken
from drawings.paper.sheet import Point, Text

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

FONT_FAMILY = "DejaVu Sans"
FONT_FILES = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
FONT_FOLDER = Path(__file__).parent / "fonts"

#: Height of the capital H over the font's nominal size, from its outline (1493 of 2048 units).
CAP_HEIGHT = 1493 / 2048
#: How far tails reach below the line and accents above the capitals, over the height of the capitals.
DESCENT, ACCENT = 0.33, 0.33
_WITH_TAILS = frozenset("gjpqyQ()[]{}/\\|,;@$_çµ§ß")

#: Lettering heights h of ISO 3098-1, smallest first, mm.
HEIGHTS = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
#: From line to line, over h: ISO 3098 type B, without and with accented capitals.
LINE_PITCH, ACCENTED_PITCH = 1.5, 1.9

_SHARE_LEFT = {"left": 0.0, "centre": 0.5, "right": 1.0}
_DROP = {"baseline": 0.0, "middle": 0.5, "top": 1.0}


@lru_cache(maxsize=2)
def font(bold: bool = False) -> TTFont:
    """The bundled font as the PDF writer knows it."""
    from reportlab.pdfbase.ttfonts import TTFont

    return TTFont("DryfitSans-Bold" if bold else "DryfitSans", str(FONT_FOLDER / FONT_FILES[bold]))


def font_size(height: float) -> float:
    """The nominal font size, mm, whose capitals are `height` mm high."""
    return height / CAP_HEIGHT


@lru_cache(maxsize=8192)
def text_width(text: str, height: float, bold: bool = False) -> float:
    """The width of one line of text in mm, its capitals `height` mm high."""
    return float(font(bold).stringWidth(text, font_size(height)))


def anchor(text: Text) -> Point:
    """The point of the base line that the text is aligned to (its left end, middle or right end), paper mm."""
    return _turned(text, 0.0, -_DROP[text.level] * text.height)


def baseline(text: Text) -> Point:
    """Where the text's first letter begins on its base line, paper mm."""
    width = text_width(text.text, text.height, text.bold)
    return _turned(text, -_SHARE_LEFT[text.align] * width, -_DROP[text.level] * text.height)


def _turned(text: Text, along: float, up: float) -> Point:
    turn = math.radians(text.angle)
    cos, sin = math.cos(turn), math.sin(turn)
    return text.at[0] + along * cos - up * sin, text.at[1] + along * sin + up * cos


def text_corners(text: Text, margin: float = 0.0) -> tuple[Point, Point, Point, Point]:
    """The corners of the box round a text, turned with it, paper mm: counter-clockwise from its lower left."""
    x, y = baseline(text)
    upright = Text((x, y), text.text, text.height, angle=text.angle, bold=text.bold)
    width = text_width(text.text, text.height, text.bold)
    low, high = (edge * text.height for edge in reach(text.text))
    low, high = low - margin, high + margin
    return (
        _turned(upright, -margin, low),
        _turned(upright, width + margin, low),
        _turned(upright, width + margin, high),
        _turned(upright, -margin, high),
    )


def reach(text: str) -> tuple[float, float]:
    """How far below and above the base line the letters of a text go, over the height of the capitals."""
    accented = any(letter.isupper() and unicodedata.decomposition(letter) for letter in text)
    return -DESCENT * (not _WITH_TAILS.isdisjoint(text)), 1.0 + ACCENT * accented


def text_box(text: Text) -> tuple[float, float, float, float]:
    """The upright box that holds a text however it is turned: x0, y0, x1, y1, paper mm."""
    xs, ys = zip(*text_corners(text), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def wrapped(text: str, width: float, height: float, bold: bool = False) -> list[str]:
    """The text broken at spaces, but not within a number, into lines up to `width` mm wide; a word that is too long is
    broken itself. Each line keeps what its numbers say."""
    lines: list[str] = []
    for word in unbroken(text):
        candidate = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(candidate, height, bold) <= width:
            lines[-1] = candidate
        else:
            lines += _broken(word, width, height, bold)
    return shared_out(text, lines)


def _broken(word: str, width: float, height: float, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, height, bold) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def fitted(
    text: str, width: float, room: float, heights: Sequence[float] = HEIGHTS[2::-1], bold: bool = False
) -> tuple[float, list[str]]:
    """The lettering height and the lines that put a text, tails and accents and all, into `width` by `room` mm.

    The first of `heights` at which it fits in whole words is taken; at the last it is cut short with "…".
    """
    for height in heights:
        lines = wrapped(text, width, height, bold)
        if stack_height(text, len(lines), height) <= room and _whole_words(lines, text):
            return height, lines
    height = heights[-1]
    most = max((n for n in range(1, len(lines) + 1) if stack_height(text, n, height) <= room), default=1)
    return height, _cut_short(lines, most, width, height, bold)


def stack_height(text: str, lines: int, height: float) -> float:
    """The room that a text takes on so many lines, from its lowest tail to its highest accent, mm."""
    low, high = reach(text)
    return height * (high - low + line_pitch(text) * (lines - 1))


def line_pitch(text: str) -> float:
    """From line to line, over h: ISO 3098 type B has 1.9 with accented capitals and 1.5 without."""
    return ACCENTED_PITCH if reach(text)[1] > 1 else LINE_PITCH


def _whole_words(lines: list[str], text: str) -> bool:
    return " ".join(lines) == " ".join(text.split())


def _cut_short(lines: list[str], most: int, width: float, height: float, bold: bool) -> list[str]:
    if len(lines) <= most:
        return lines
    whole = last = lines[most - 1]
    while last and (text_width(last + "…", height, bold) > width or (last[-1:].isdigit() and whole != last)):
        last = last[:-1]
    return [*lines[: most - 1], *shared_out(lines[most - 1], [last + "…"])]


def paragraph(at: Point, text: str, width: float, height: float = 2.5, bold: bool = False) -> tuple[Text, ...]:
    """A wrapped text hanging from `at`, its upper left, one `Text` a line, paper mm."""
    first = at[1] - reach(text)[1] * height
    step = line_pitch(text) * height
    return tuple(
        Text((at[0], first - n * step), line, height, bold=bold)
        for n, line in enumerate(wrapped(text, width, height, bold))
    )
