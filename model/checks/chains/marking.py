"""Which fits are better made from the work than from the rule, so that enough builds go together?

What fails most is made from the work first, kind by kind as a maker would, and the whole piece is built again, until
enough builds go together or nothing is left that helps.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from model.checks.chains.builds import Together, every, share, together
from model.checks.chains.chain import Chain

#: Builds in 100 that must go together (common practice).
ENOUGH = 95.0

#: Digits of a millimetre in which chains that are alike may differ.
_DIGITS = 4


@dataclass(frozen=True)
class Alike:
    """Chains that differ only in their parts: left to the rule, or made from the work, all of them."""

    chains: tuple[Chain, ...]

    @property
    def first(self) -> Chain:
        return self.chains[0]

    @property
    def order(self) -> tuple[object, ...]:
        """What fails most comes first."""
        return (round(self.first.share, _DIGITS), self.first.kind, self.first.parts, self.first.name)

    @property
    def lost(self) -> bool:
        """Whether too many builds fail even from the work."""
        return max(self.first.share, self.first.from_the_work.share) < ENOUGH

    @cached_property
    def by_rule(self) -> Together:
        """In which builds all of them go together as drawn and measured."""
        return every(map(together, self.chains))

    @cached_property
    def from_work(self) -> Together:
        """The same, each made from the work."""
        return every(together(chain.from_the_work) for chain in self.chains)


@dataclass(frozen=True)
class Survey:
    """All chains of a piece, what fails most first: those left to the rule, those to be made from the work, and those
    that fail even so."""

    ruled: tuple[Alike, ...]
    marked: tuple[Alike, ...]
    lost: tuple[Alike, ...]

    @property
    def all(self) -> tuple[Alike, ...]:
        return (*self.lost, *self.marked, *self.ruled)

    @cached_property
    def by_rule(self) -> float:
        """Builds in 100 that go together by the rule alone."""
        return share(every(alike.by_rule for alike in self.all))

    @cached_property
    def from_work(self) -> float:
        """Builds in 100 that go together with what is marked made from the work."""
        work = (alike.from_work for alike in (*self.lost, *self.marked))
        return share(every((*work, *(alike.by_rule for alike in self.ruled))))

    @property
    def worst(self) -> Chain | None:
        """The chain that fails most by the rule; None if there is none."""
        least = min(self.all, key=lambda alike: alike.order, default=None)
        return least.first if least else None


def survey(chains: Iterable[Chain]) -> Survey:
    """Which chains are left to the rule: as many as may be for ENOUGH builds, lost ones left out, to go together."""
    groups = sorted(_alike(chains), key=lambda alike: alike.order)
    lost, rest = ([a for a in groups if a.lost is is_lost] for is_lost in (True, False))
    # how those fare together from each one on
    kept = [every(())]
    for alike in reversed(rest):
        kept.append(kept[-1] & alike.by_rule)
    made, marked = every(()), 0
    while marked < len(rest) and share(made & kept[len(rest) - marked]) < ENOUGH:
        made = made & rest[marked].from_work
        marked += 1
    return Survey(tuple(rest[marked:]), tuple(rest[:marked]), tuple(lost))


def _alike(chains: Iterable[Chain]) -> Iterator[Alike]:
    groups: dict[tuple[object, ...], list[Chain]] = defaultdict(list)
    for c in chains:
        sizes = (c.room, c.window.least, c.window.most, c.spread)
        groups[c.kind, c.remedy, *(round(size, _DIGITS) for size in sizes)].append(c)
    return (Alike(tuple(sorted(some, key=lambda c: (c.parts, c.name)))) for some in groups.values())
