"""What is a tolerance chain: which sizes add up to the room of a fit, and how much room must it have?

Every error is normal, and an accuracy stated is two standard deviations of it (common practice: 19 cuts in 20 come out
within it). A size's error is its setting's, which all sizes cut in that setting share, and its own scatter.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

#: Standard deviations in an accuracy as a shop states it.
STATED = 2.0

#: Wood that is pressed closed, mm, at a surface (common practice: a joint that needs a mallet).
EASE = 0.05
#: A gap that glue still fills or nobody sees, mm (common practice: the thickness of two sheets of paper).
OPEN = 0.2
#: A step that is planed off flush, or a gap that lies hidden, mm (common practice: less than 1/32 in).
FLUSH = 0.5
#: The most that is taken off to make a part go, mm; more is another drawing (common practice: a few shavings).
EASED = 0.2

#: A bound so many standard deviations away is never met: once in 500 million builds.
_NEVER = 6.0


@dataclass(frozen=True)
class Size:
    """A size of a part as it is made. name: tells it from every other, so that chains share it; setting: what was set
    for it, shared likewise; off: the accuracy it is made to, mm; again: of that, what differs between two cuts in one
    setting, mm; drawn: what it should be, mm, where that is known; part: whose it is, if one part's."""

    name: str
    setting: str
    off: float
    again: float
    drawn: float = 0.0
    part: str = ""

    @property
    def scatter(self) -> float:
        """The standard deviation of its own error, mm."""
        return min(self.again, self.off) / STATED

    @property
    def set_off(self) -> float:
        """The standard deviation of its setting's error, mm: both together make the accuracy stated."""
        return math.sqrt(max(0.0, self.off**2 - min(self.again, self.off) ** 2)) / STATED


@dataclass(frozen=True)
class Link:
    """A size in a chain; times: how much of its error the room gains."""

    size: Size
    times: float = 1.0


def gains(*sizes: Size) -> tuple[Link, ...]:
    """Sizes whose growth makes room."""
    return tuple(Link(size) for size in sizes)


def loses(*sizes: Size) -> tuple[Link, ...]:
    """Sizes whose growth takes room."""
    return tuple(Link(size, -1.0) for size in sizes)


@dataclass(frozen=True)
class Window:
    """Between which rooms, mm, a fit goes together and holds."""

    least: float = -math.inf
    most: float = math.inf

    def moved(self, by: float) -> Window:
        return Window(self.least + by, self.most + by)


#: What must go in, and may be loose; what must slide; what lies hidden, or is planed flush; what must not stand open.
GOES_IN, SLIDES = Window(-EASE), Window(0.0)
HIDDEN, CLOSED = Window(-FLUSH, FLUSH), Window(-OPEN, OPEN)


def held(glued: bool, room: float) -> Window:
    """Of a fit that may be glued: it goes in, and glue fills what is left; drawn looser, it may be as loose as that."""
    return Window(-EASE, max(room, 0.0) + OPEN) if glued else SLIDES


@dataclass(frozen=True)
class Remedy:
    """How a fit is made from the work: in words, and how exactly, mm."""

    says: str
    off: float


@dataclass(frozen=True)
class Chain:
    """A fit, or a loop of parts: `kind` and `parts`; room: what it is drawn with, mm; window: what it needs; marked:
    the part that is made from the work, if any is."""

    kind: str
    parts: tuple[str, ...]
    room: float
    links: tuple[Link, ...]
    window: Window
    remedy: Remedy
    marked: str

    @property
    def name(self) -> str:
        """Tells it from every other."""
        return f"{self.kind}: {', '.join(link.size.name for link in self.links)}"

    @cached_property
    def shared(self) -> dict[str, float]:
        """Standard deviation that each setting brings into the room, mm, signed: its sizes' errors rise together."""
        return _summed((link.size.setting, link.times * link.size.set_off) for link in self.links)

    @cached_property
    def own(self) -> dict[str, float]:
        """Standard deviation that each size brings in by itself, mm, signed."""
        return _summed((link.size.name, link.times * link.size.scatter) for link in self.links)

    @cached_property
    def spread(self) -> float:
        """The standard deviation of the room, mm: the root of the sum of variances, of what is shared summed first."""
        return math.sqrt(sum(s * s for s in (*self.shared.values(), *self.own.values())))

    @property
    def share(self) -> float:
        """Builds in 100 that it goes together in, taken by itself: its room is normal, being a sum of normal errors."""
        if self.spread == 0.0:
            return 100.0 if self.window.least <= self.room <= self.window.most else 0.0
        low, high = ((end - self.room) / self.spread for end in (self.window.least, self.window.most))
        return 100.0 * (_below(high) - _below(low))

    @property
    def certain(self) -> bool:
        """Whether no build would ever show it to fail."""
        reach = _NEVER * self.spread
        return self.window.least <= self.room - reach and self.room + reach <= self.window.most

    @property
    def from_the_work(self) -> Chain:
        """The same fit made by its remedy: only that leaves an error, and the maker aims well inside the window, taking
        off or leaving on no more than EASED for it."""
        off = self.remedy.off
        size = Size(f"{self.name}, from the work", f"{self.name}, from the work", off, off)
        return replace(self, room=_aim(self.room, self.window, 2.0 * off), links=(Link(size),))


def _below(deviations: float) -> float:
    """How often a normal error is less than so many standard deviations."""
    return 0.5 * math.erfc(-deviations / math.sqrt(2.0))


def _aim(room: float, window: Window, clear: float) -> float:
    """The room aimed at: the one drawn, or the nearest that lies `clear` of both ends, as far as EASED allows."""
    low, high = window.least + clear, window.most - clear
    wanted = (window.least + window.most) / 2.0 if low > high else min(max(room, low), high)
    return min(max(wanted, room - EASED), room + EASED)


def _summed(shares: Iterable[tuple[str, float]]) -> dict[str, float]:
    """The shares of each name, added up."""
    found: dict[str, float] = defaultdict(float)
    for name, share in shares:
        found[name] += share
    return found
