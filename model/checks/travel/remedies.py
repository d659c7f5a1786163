"""When, or how, would a trapped part go home?"""

from __future__ import annotations

from collections.abc import Sequence

from model.checks.travel.closing_order import Build
from model.checks.travel.homecoming import Trapped
from model.checks.travel.taking_apart import Body
from model.way_home import Leg


def step_before(build: Build, trapped: Trapped) -> int | None:
    """The latest step right after which the trapped parts would still go home: along a joint, if there is such a step,
    or else some other way; None if there is none."""
    for joined in (True, False):
        for number in range(trapped.step - 1, 0, -1):
            if _free(build, trapped.parts, _there(build, number, trapped.parts), joined):
                return number
    return None


def step_with(build: Build, trapped: Trapped) -> int | None:
    """The latest step before its own in which the trapped parts would go home together with those that it brings in;
    None if there is none."""
    for number in range(trapped.step - 1, 0, -1):
        groups = build.groups(number, build.played.standing[number - 1], trapped.parts)
        group = next(g for g in groups if trapped.parts in g)
        if len(group) > 1 and not build.taken_apart(group).locked:
            return number
    return None


def unsaid_way(build: Build, trapped: Trapped) -> tuple[Leg, ...] | None:
    """Another way home in their step for parts whose step says one that is not clear; None if none is found."""
    others = _there(build, trapped.step, trapped.parts)
    straight = build.out.straight(trapped.parts, others)
    clear = next((w for w in straight if build.out.blocker(trapped.parts, others, w) is None), None)
    found = clear or build.out.searched(trapped.parts, others)
    return None if found is None else found.home


def working_order(build: Build) -> list[tuple[str, ...]] | None:
    """An order in which all the parts go home, one or a few at a time, steps left aside; None if none is found."""
    steps = range(1, len(build.piece.steps) + 1)
    taken = build.taken_apart([(n,) for number in steps for n in build.new_parts(number)])
    if taken.locked:
        return None
    first = taken.moves[-1].others[0] if taken.moves else ()
    return [first, *(tuple(n for b in t.bodies for n in b) for t in reversed(taken.moves))]


def _there(build: Build, number: int, but: Body) -> list[Body]:
    """What steps up to one have brought in, each part by itself."""
    return [(n,) for k in range(1, number + 1) for n in build.new_parts(k) if n not in but]


def _free(build: Build, body: Body, others: Sequence[Body], joined: bool) -> bool:
    ways = (w for w in build.out.ways(body, others) if w.joined or not joined)
    return any(build.out.blocker(body, others, w) is None for w in ways)
