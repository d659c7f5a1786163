"""Each cut in a maker's words: what, how large, on which side or edge, and how far from where to measure.

Distances are to the nearer wall of a trench and to the middle of a hole, from the left end or the near edge of the
finished part; along an edge that is not square, from its corner with the edge before it. A length that had to be
rounded by more than 0.05 mm has ≈ before it.
"""

from __future__ import annotations

from collections.abc import Iterable

from drawings.lists.bore_rows import BoreRow, in_rows
from drawings.lists.joinery_words import JOINERY_WORDS
from drawings.lists.stock_words import STOCK_WORDS, Words
from drawings.lists.teller import Teller, kind_of
from model.cuts.cut import Cut
from model.part import Part

#: How each kind of cut is said.
WORDS: dict[type[Cut], Words] = STOCK_WORDS | JOINERY_WORDS

#: What two phrases may differ in and still be told as one.
_PAIRS = (
    (", face side", ", back side", ", both sides"),
    ("along near edge", "along far edge", "along near and far edges"),
    ("in near edge", "in far edge", "in near and far edges"),
    ("along left end", "along right end", "along both ends"),
    ("on left end", "on right end", "on both ends"),
    ("in left end", "in right end", "in both ends"),
)


def cut_in_words(cut: Cut, part: Part, units: str = "mm", denominator: int = 16) -> str:
    """One cut of a part as a phrase, its lengths in `units` (a key of lengths.UNITS).

    A cut of a kind not known here is told by its name alone. Raises LengthError for units that aren't there.

    >>> from model.cuts.faces import dado
    >>> from model.stock import board
    >>> shelf_dado = dado(416, 19, 9.5, 0, 250)
    >>> cut_in_words(shelf_dado, Part(board(1200, 250, 19), (shelf_dado,)))
    'dado 19 × 9.5 deep, face side, 416 from left end'
    """
    return _told(cut, Teller(part, units, denominator))


def cuts_in_words(cuts: Iterable[Cut], part: Part, units: str = "mm", denominator: int = 16) -> list[str]:
    """Cuts as phrases: bores of a row told once, and cuts that differ only in the edge or the side they are made on
    drawn together."""
    say = Teller(part, units, denominator)
    phrases = [
        _row(c, say) if isinstance(c, BoreRow) else cut_in_words(c, part, units, denominator) for c in in_rows(cuts)
    ]
    for pair in _PAIRS:
        phrases = _drawn_together(phrases, *pair)
    return phrases


def _told(cut: Cut, say: Teller) -> str:
    kind = kind_of(cut, WORDS)
    return WORDS[kind](cut, say) if kind else cut.name


def _row(row: BoreRow, say: Teller) -> str:
    size = say.sizes((row.first.diameter, "diameter"), (row.first.depth, "deep"))
    ends = f"from {say.off(0, row.first.at[0])} to {say.off(0, row.bores[-1].at[0])} off the left end"
    place = f"{row.side} side, {say.off(1, row.first.at[1])} from near edge, {ends}"
    return f"row of {len(row.bores)} holes {size}, {say.length(row.spacing)} apart, {place}"


def _drawn_together(phrases: list[str], one: str, other: str, both: str) -> list[str]:
    kept: list[str] = []
    for phrase in phrases:
        partner = phrase.replace(one, other) if one in phrase else phrase.replace(other, one)
        if partner != phrase and partner in kept:
            kept[kept.index(partner)] = partner.replace(one, both).replace(other, both)
        else:
            kept.append(phrase)
    return kept
