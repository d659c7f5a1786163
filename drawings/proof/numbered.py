"""Numbers that belong together: places in a list follow one another, and what a number stands for it stands for all
over its sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from drawings.paper.saying import Says
from drawings.proof.said import Said

#: What stands for things all over the set, not on one sheet alone.
_SET = "set"


@dataclass(frozen=True)
class Run:
    """What one sheet has of a list that runs through the set: each number with what it stands for; of how many, if it
    says."""

    name: str
    file: str
    places: tuple[tuple[int, str], ...]
    of: int | None = None


def out_of_order(said: Iterable[Said]) -> dict[int, str]:
    """The numbers of a sheet, by identity, that don't follow the last of their list, and why."""
    last: dict[str, int] = {}
    wrong: dict[int, str] = {}
    for one in said:
        if isinstance(one.meaning, Says) and one.meaning.topic == "nth":
            name = one.meaning.of[0]
            last[name] = last.get(name, 0) + 1
            if int(one.number) != last[name]:
                wrong[id(one)] = f"does not follow {last[name] - 1} in the list of {name}"
    return wrong


def strangers(said: Iterable[Said]) -> dict[int, str]:
    """Numbers that stand for another thing than the same number before, or another number for the same thing."""
    things: dict[tuple[str, str], str] = {}
    numbers: dict[tuple[str, str], str] = {}
    wrong: dict[int, str] = {}
    for one in said:
        if isinstance(one.meaning, Says) and one.meaning.topic == "key":
            name, thing = one.meaning.of[:2]
            if things.setdefault((name, one.number), thing) != thing:
                wrong[id(one)] = f"stands for another of the {name} before"
            elif numbers.setdefault((name, thing), one.number) != one.number:
                wrong[id(one)] = f"stands for what is {numbers[name, thing]} of the {name}"
    return wrong


def runs(said: Sequence[Said]) -> Iterator[Run]:
    """What a sheet has of each list that runs through the set, and its own number."""
    each = [(s.meaning, int(s.number)) for s in said if isinstance(s.meaning, Says) and s.number.isdigit()]
    found: dict[str, dict[tuple[int, str], None]] = {}
    for says, number in each:
        if says.topic == "key" and _SET in says.of[2:]:
            found.setdefault(says.of[0], {})[number, says.of[1]] = None
    file = said[0].file if said else ""
    yield from (Run(name, file, tuple(places)) for name, places in found.items())
    own, of = (next((n for says, n in each if says.topic == topic), None) for topic in ("sheet", "sheets"))
    if own is not None:
        yield Run("sheets", file, ((own, file),), of)


def broken_runs(found: Iterable[Run]) -> Iterator[str]:
    """What is wrong with lists whose numbers are not 1, 2, 3 ... over all sheets, one for each thing."""
    by_name: dict[str, list[Run]] = {}
    for run in found:
        by_name.setdefault(run.name, []).append(run)
    for name, some in by_name.items():
        things = {thing: n for run in some for n, thing in run.places}
        missing = set(range(1, len(things) + 1)) - set(things.values())
        yield from (f"{some[0].file}: no {n} among the {len(things)} {name}" for n in sorted(missing))
        wrong = (r for r in some if r.of is not None and r.of != len(things))
        yield from (f'{r.file}: "of {r.of}" but there are {len(things)} {name}' for r in wrong)
