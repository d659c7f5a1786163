"""In which way does each part go home, step by step, and which can't?

What joints make one of a step's parts and of what stands already is taken apart again: what comes away goes home the
same way. So is then what nothing more is to be joined to, such as a drawer, from what it goes into. The way is the legs
that its step says, or else one straight line: along the direction its joint closes in, or, failing that, along any
direction that its own sides or its neighbours' point in. Where no line is clear, a way round is looked for: of two
legs, and, for what no glue holds, tipped in. Every way is proved along its whole length. In which order a step names
its parts makes no difference.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from model.checks.solids.pairs import sharing
from model.checks.travel.homecoming import Homecoming, Trapped
from model.checks.travel.joined import Joined
from model.checks.travel.taking_apart import Body, Taken, TakingApart
from model.checks.travel.way_legs import in_the_way
from model.checks.travel.ways import InTheWay, Ways
from model.checks.travel.ways_out import WaysOut
from model.piece import Piece
from model.way_home import closing_direction


@dataclass
class Played:
    """moves: how parts go home; trapped: which can't; standing: the bodies there are before each step, and at last."""

    moves: list[Homecoming] = field(default_factory=list)
    trapped: list[Trapped] = field(default_factory=list)
    standing: list[list[Body]] = field(default_factory=lambda: [[]])


class Build:
    """A piece put together step by step."""

    def __init__(self, piece: Piece, ways: Ways) -> None:
        self.piece = piece
        self.overlapping = sharing(list(ways.solids.values()))
        self.paths = ways.setting_aside(self.overlapping)
        self.joined = Joined(piece)
        self.out = WaysOut(piece, self.joined, self.paths)

    @cached_property
    def played(self) -> Played:
        """Every step in turn."""
        played = Played()
        for number in range(1, len(self.piece.steps) + 1):
            played.standing.append(self._play(number, played))
        return played

    def _play(self, number: int, played: Played) -> list[Body]:
        """One step; the bodies that stand after it, the largest first."""
        made = []
        for group in self.groups(number, played.standing[-1]):
            self._put_together(number, group, played)
            made.append(tuple(n for body in group for n in body))
        made.sort(key=len, reverse=True)
        coming = [n for s in self.piece.steps[number:] for n in s.parts]
        done = [body for body in made[1:] if not self.joined.waits(body, coming)]
        if done:
            self._put_together(number, [made[0], *done], played)
            whole = tuple(n for body in (made[0], *done) for n in body)
            made = [whole, *(b for b in made[1:] if b not in done)]
        return made

    def groups(self, number: int, standing: Sequence[Body], *also: Body) -> list[list[Body]]:
        """What joints make one of the bodies that stand before a step, its new parts, and others brought with them."""
        new = [n for n in self.new_parts(number) if (n,) not in also]
        return self.joined.groups([*standing, *((n,) for n in new), *also])

    def new_parts(self, number: int) -> list[str]:
        """Parts that a step brings in, hubs first; a part named before is there already."""
        before = {n for s in self.piece.steps[: number - 1] for n in s.parts}
        new = {n for n in self.piece.steps[number - 1].parts if n in self.piece.parts and n not in before}
        return self.joined.hubs_first(new, new | before)

    def taken_apart(self, bodies: Sequence[Body]) -> TakingApart:
        """Without searching for ways round."""
        return TakingApart(self.out.ways, self.out.blocker).take(bodies)

    def step_of(self, name: str) -> int:
        """The step that brings a part in, 0 for none."""
        return next((n for n, s in enumerate(self.piece.steps, 1) if name in s.parts), 0)

    def _put_together(self, number: int, bodies: Sequence[Body], played: Played) -> None:
        taken = TakingApart(self.out.ways, self.out.blocker, self.out.round_about).take(bodies)
        played.moves += [self._homecoming(number, t) for t in reversed(taken.moves)]
        played.trapped += [t for locked in taken.locked for t in self._trapped(number, locked)]

    def _homecoming(self, number: int, taken: Taken) -> Homecoming:
        parts = tuple(n for b in taken.bodies for n in b)
        others = [n for b in taken.others for n in b]
        joints = self.joined.between(parts, others)
        legs, said = taken.way.home, self.out.said(parts) == taken.way.legs
        judged = not any(frozenset((n, o)) in self.overlapping for n in parts for o in others)
        return Homecoming(number, parts, closing_direction(legs), tuple(joints), taken.way.joined, legs, said, judged)

    def _trapped(self, number: int, locked: Sequence[Body]) -> Iterator[Trapped]:
        """Each part that the step brings into bodies that nothing takes from each other; or, where they all were made
        before, each but the largest."""
        new = [b for b in locked if len(b) == 1 and b[0] in self.piece.steps[number - 1].parts]
        for body in new or locked[1:]:
            others = [b for b in locked if b != body]
            way = self.out.least_blocked(body, others, self.step_of)
            met = in_the_way(self.paths, body, [n for b in others for n in b], way.home)
            held = self.out.blocker(body, others, way)
            if met is None and held is not None:
                met = InTheWay(body[0], held[0], 0.0, self.piece[body[0]].at.origin)
            if met is not None:
                yield Trapped(number, body, way.home, met, bool(way.legs), self.out.patience.ended)
