"""Texts that know what each of their numbers says, so that the proof can ask for it on the written sheet.

A number says either what it measures on the solid (`Measured`), or something to be counted or looked up: `Says`, by a
topic of the list below and what it is said of. A text is composed with `say`, and keeps what it says where it is
wrapped, joined or begun with a capital. A number that was not composed so says nothing, which the proof finds.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Literal

from drawings.paper.measured import Measured

#: What a number that measures nothing may say, and what it is said of.
Topic = Literal[
    "name",  # a number in the names of parts: those parts
    "more",  # how many more parts than the first of these: all of them
    "item",  # the item number of a part, and how many are made of it: the part
    "off",
    "parts",  # how many parts the piece has, and of how many kinds: nothing
    "kinds",
    "boards",  # boards glued up for a part, their rough length and width, what to ask the yard for: the part
    "rough length",
    "rough width",
    "nominal",
    "joints",  # joints that close in a step: the step's number, the kind of joint
    "glued",  # glued joints of a step, their area, clamps and minutes, ends that go home: the step's number
    "glue area",
    "glue minutes",
    "clamps",
    "ends",
    "alike",  # joints of a kind: the kind
    "hardware",  # items of hardware in a step: its label, the step's number; or of a size: kind, size and, where they
    "bought",  # hold the same parts, those that come first and the others
    "bought for",
    "label",  # a number in what hardware or a cutter's size is called: its kind and size; the size of a biscuit
    "biscuit",
    "cuts",  # cuts that one setting makes in a part: the part, and each cut's place among the part's
    "row",  # holes in a row, tails, sockets or tenons of a cut: the part, if it is said of one
    "teeth",
    "nth",  # the place in a list on one sheet: the list
    "key",  # a number that stands for one thing: the list, the thing, and "set" if all over the set, not one sheet
    "step",  # the number of a step: its sentence
    "script",  # in a sentence of the piece's script: the sentence
    "way",  # a leg of a part's way home: the step's number
    "fit",  # how much room a joint leaves: its two parts
    "cut at",  # where a section is taken: the axis and its letter
    "thickness",  # of the stock that the order names
    "order",  # what the order says: the name of its entry
    "finest",  # the finest fraction printed: nothing
    "sheet",  # the number of the sheet, and of how many
    "sheets",
    "sheet scale",  # the scale of all that is drawn on the sheet
    "size",  # a size of a part, and how far along one of its edges something lies: the part, and of which of its cuts
    "along",  # it is said, by their places among them
    "bend",  # the radius that a part is bent to: the part
]


@dataclass(frozen=True, slots=True)
class Says:
    """What a number says that measures nothing by itself."""

    topic: Topic
    of: tuple[str, ...] = ()


#: What one number says: all that it measures, or something else; nothing at all is for the proof to find.
Meaning = tuple[Measured, ...] | Says | None

#: A printed number, whole: a scale or slope, feet and inches, a fraction, a decimal.
_NUMBER = re.compile(
    r"""(?:\d+[ ])?(?:\d+/)?\d+"[ ]=[ ]1'-0"      # a scale as the US trade writes it
    | \d+(?:\.\d+)?:\d+(?:\.\d+)?                 # a scale, a slope
    | \d+'[ -](?:\d+[ ])?(?:\d+/)?\d+"            # feet and inches
    | (?:\d+[ ])?\d+/\d+"?                        # a fraction
    | \d+(?:\.\d+)?["°']?""",
    re.VERBOSE,
)


def numbers_in(text: str) -> list[str]:
    """The numbers of a text, in their order.

    >>> numbers_in('3 of 53 3/8" × 141.7, nominal 1 1/2; R2750, 1:10')
    ['3', '53 3/8"', '141.7', '1 1/2', '2750', '1:10']
    """
    return _NUMBER.findall(text)


class Saying(str):
    """A text, and what each of its numbers says, in their order."""

    says: tuple[Meaning, ...]

    def __new__(cls, text: str, says: Sequence[Meaning] = ()) -> Saying:
        saying = super().__new__(cls, text)
        count = len(numbers_in(text))
        saying.says = tuple(says) if len(says) == count else (None,) * count
        return saying

    def __reduce__(self) -> tuple[type[Saying], tuple[str, tuple[Meaning, ...]]]:
        return Saying, (str(self), self.says)


def meanings_of(text: str) -> tuple[Meaning, ...]:
    """What the numbers of any text say."""
    return text.says if isinstance(text, Saying) else (None,) * len(numbers_in(text))


def number(text: str, meaning: Measured | tuple[Measured, ...] | Says | None) -> Saying:
    """A text all of whose numbers say the same; most often it is one number."""
    each: Meaning = (meaning,) if isinstance(meaning, Measured) else meaning
    return Saying(text, (each,) * len(numbers_in(text)))


def named(text: str, *names: str) -> Saying:
    """A text whose numbers are those in the names of parts."""
    return number(text, Says("name", names))


def counted(count: int, topic: Topic, *of: str) -> Saying:
    """A number that counts, or names by counting."""
    return number(str(count), Says(topic, of))


def say(template: str, *parts: str) -> Saying:
    """The template with each {} in turn replaced by a text, which keeps what it says.

    >>> say("{} of {}", counted(2, "sheet"), counted(19, "sheets")).says
    (Says(topic='sheet', of=()), Says(topic='sheets', of=()))
    """
    fixed = template.split("{}")
    texts = [text for pair in zip(fixed, (*parts, ""), strict=True) for text in pair]
    return Saying("".join(texts), tuple(m for text in texts for m in meanings_of(text)))


def joined(between: str, texts: Iterable[str]) -> Saying:
    """The texts with something between them, each keeping what it says; `between` has no number."""
    each = list(texts)
    return Saying(between.join(each), tuple(m for text in each for m in meanings_of(text)))


def spelled(text: str, change: Callable[[str], str]) -> Saying:
    """The text after a change of its letters that leaves its numbers as they are: a capital, a dot."""
    return Saying(change(str(text)), meanings_of(text))


def capital(text: str) -> Saying:
    """The text with its first letter large."""
    return spelled(text, lambda t: t[:1].upper() + t[1:])


def shared_out(text: str, lines: Sequence[str]) -> list[str]:
    """The lines a text was broken into, each with what its own numbers say."""
    said = meanings_of(text)
    if not said:
        return list(lines)
    bounds = list(accumulate((len(numbers_in(line)) for line in lines), initial=0))
    if bounds[-1] > len(said):
        return list(lines)
    return [Saying(line, said[a:b]) for line, (a, b) in zip(lines, pairwise(bounds), strict=True)]


def unbroken(text: str) -> Iterator[str]:
    """The words of a text between which a line may end: not within a number."""
    word = ""
    for more in text.split():
        if word and not _goes_on(word, more):
            yield word
            word = more
        else:
            word = f"{word} {more}" if word else more
    if word:
        yield word


def _goes_on(word: str, more: str) -> bool:
    """Does a number go on in the next word?"""
    if "/" in more and more[0].isdigit() and word[-1].isdigit():
        return True
    return more == "=" or word.endswith(" =") or (word.endswith("'") and more[0].isdigit())
