"""What the numbers in words about a part's cuts say: sizes of that part, and sizes that cutters have by name."""

from __future__ import annotations

import re
from collections.abc import Iterable

from drawings.paper.saying import Meaning, Saying, Says, Topic, numbers_in
from model.cuts.cut import Cut
from model.part import Part

#: What stands before a size that is a name, and before the number of a row of holes; what follows the number of a
#: cut's tails or tenons, and how far along an edge, or from there to there, something lies.
_CALLED = re.compile(r"No\. $")
_ROW, _TEETH = re.compile(r"row of $"), re.compile(r" (tails?\b|box fingers|of \d)")
_ALONG = re.compile(r"( to [^,;]*)? along it")


def in_part(words: str, name: str, part: Part, cuts: Iterable[Cut]) -> Saying:
    """Words about cuts of a part, by its name: every number in them is a size of it, or names a cutter."""
    says: list[Meaning] = []
    of = name, ",".join(str(part.cuts.index(cut)) for cut in cuts)
    reached = 0
    for number in numbers_in(words):
        at = words.index(number, reached)
        reached = at + len(number)
        says.append(Says(_topic(words[:at], words[reached:]), of))
    return Saying(words, says)


def _topic(before: str, after: str) -> Topic:
    """What a number between words says."""
    if _CALLED.search(before):
        return "biscuit"
    if _ROW.search(before):
        return "row"
    return "teeth" if _TEETH.match(after) else "along" if _ALONG.match(after) else "size"
