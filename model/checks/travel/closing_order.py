"""In which way does each part go home, step by step, and which can't?

A step's parts, and what earlier steps joined, are taken apart again: what comes away goes home the same way. The way is
the legs that its step says, or else one straight line: along the direction its joint closes in, or, failing that, along
any direction that its own sides or its neighbours' point in. Where no line is clear, a way round is looked for: of two
legs, and, for what no glue holds, tipped in. Every way is proved along its whole length.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Iterable, Iterator, Sequence
from functools import cached_property

from model.checks.solids.pairs import sharing
from model.checks.travel.homecoming import DRAGS, Homecoming, Trapped
from model.checks.travel.taking_apart import Body, Taken, TakingApart, Way
from model.checks.travel.way_legs import in_the_way
from model.checks.travel.way_round import Search
from model.checks.travel.ways import InTheWay, Ways
from model.joints.joint import Joint
from model.piece import Piece
from model.placement import DIRECTIONS, Vector, added, cross, dot, scaled, unit
from model.way_home import Leg, Push, closing_direction

#: A way round is looked for so many times in a piece, and only for bodies of so few parts: each search takes seconds.
MOST_SEARCHES, MOST_TOGETHER = 12, 12

#: Hardware that lies in both parts while they close, so that they can come together one way only.
KEYS = ("biscuit", "dowel", "spline")


class Build:
    """A piece put together step by step."""

    def __init__(self, piece: Piece, ways: Ways) -> None:
        self.piece = piece
        self.overlapping = sharing(list(ways.solids.values()))
        self.paths = ways.setting_aside(self.overlapping)
        self.keyed: dict[str, list[Joint]] = defaultdict(list)
        self.joints: dict[str, list[Joint]] = defaultdict(list)
        for joint in piece.joints:
            for name in (joint.first, joint.second):
                self.joints[name].append(joint)
                if any(h.kind in KEYS for h in joint.hardware):
                    self.keyed[name].append(joint)
        self.searches = 0
        self.said = {n: step.way for step in reversed(piece.steps) for n in step.parts}

    @cached_property
    def played(self) -> tuple[list[Homecoming], list[Trapped]]:
        """Every step in turn: how its parts go home, and which can't."""
        moves: list[Homecoming] = []
        trapped: list[Trapped] = []
        standing: list[Body] = []
        for number in range(1, len(self.piece.steps) + 1):
            new = self.new_parts(number)
            meeting, apart = self._meeting(standing, new)
            bodies = [*meeting, *((name,) for name in new)]
            taken = TakingApart(self.ways, self.blocker, self.round_about).take(bodies)
            moves += [self._homecoming(number, t) for t in reversed(taken.moves)]
            trapped += [t for locked in taken.locked for t in self._locked(number, locked)]
            standing = [*apart, *self._joined([n for b in bodies for n in b])]
        return moves, trapped

    def new_parts(self, number: int) -> list[str]:
        """Parts that a step brings in, as it names them; a part named before is there already."""
        before = {n for s in self.piece.steps[: number - 1] for n in s.parts}
        named = dict.fromkeys(self.piece.steps[number - 1].parts)
        return [n for n in named if n in self.piece.parts and n not in before]

    def ways(self, body: Body, others: Sequence[Body]) -> Iterable[Way]:
        """The way its step says; or else along the joints first, then along the sides of its parts and their
        neighbours, the likeliest first."""
        said = self.said.get(body[0], ()) if len(body) == 1 else ()
        if said:
            return [Way(scaled(closing_direction(said), -1.0), True, said)]
        return self._straight(body, others)

    def _straight(self, body: Body, others: Sequence[Body]) -> list[Way]:
        among = {n for b in others for n in b}
        found: dict[Vector, Way] = {}
        glued = sorted(self._between(body, among), key=_likelier)
        for joint in glued:
            away = _away(joint, body)
            found.setdefault(_same(away), Way(away, True))
        if any(j in self.keyed[n] for n in body for j in glued):
            return list(found.values())
        for away in _between_two([_away(j, body) for j in glued if j.glue_area > 0.0]):
            found.setdefault(_same(away), Way(away, True))
        near = [*body[:1], *(j.second if j.first in body else j.first for j in glued)]
        sides = {_same(v): v for name in near for v in self._sides(name)}
        for v in DIRECTIONS.values():
            sides.setdefault(_same(v), v)
        likely = [w.along for w in found.values()]
        others_first = sorted(
            (k for k in sides if k not in found), key=lambda k: -max((dot(sides[k], a) for a in likely), default=0.0)
        )
        return [*found.values(), *(Way(sides[k], False) for k in others_first)]

    def blocker(self, body: Body, others: Sequence[Body], way: Way) -> Body | None:
        """The first of the other bodies that holds a body along a way: by a key between them, or by its wood."""
        of = {n: b for b in others for n in b}
        for joint in self._keys(body, of):
            if not isinstance(way.home[-1], Push) or dot(_away(joint, body), way.along) < 1.0 - 1e-6:
                return of[joint.second if joint.first in body else joint.first]
        met = in_the_way(self.paths, body, list(of), way.home)
        return None if met is None else of[met.other]

    def round_about(self, body: Body, others: Sequence[Body]) -> Way | None:
        """A way of several legs for one part or a few that no straight way frees; None where their steps say one, where
        keys hold them, or where none is found."""
        among = [n for b in others for n in b]
        if any(self.said.get(n) for n in body) or any(self._keys(body, among)) or len(body) > MOST_TOGETHER:
            return None
        self.searches += 1
        if self.searches > MOST_SEARCHES:
            return None
        return self._round(body, among, [w.along for w in self._straight(body, others)])

    def _round(self, body: Body, among: Sequence[str], directions: Sequence[Vector]) -> Way | None:
        search = Search(self.paths, body, among, directions)
        legs = search.two_legs()
        if legs is None and not any(j.glue_area > 0.0 for j in self._between(body, among)):
            legs = search.tipped_in()
        return None if legs is None else Way(scaled(closing_direction(legs), -1.0), False, legs)

    def _keys(self, body: Body, among: Container[str]) -> Iterator[Joint]:
        for name in body:
            for joint in self.keyed[name]:
                if (joint.second if joint.first == name else joint.first) in among:
                    yield joint

    def _between(self, body: Sequence[str], among: Iterable[str]) -> list[Joint]:
        others = set(among) - set(body)
        return [j for n in body for j in self.joints[n] if (j.second if j.first == n else j.first) in others]

    def _sides(self, name: str) -> Iterator[Vector]:
        at = self.piece[name].at
        for axis in (at.x, at.y, at.z):
            yield axis
            yield scaled(axis, -1.0)

    def _meeting(self, standing: Sequence[Body], new: Sequence[str]) -> tuple[list[Body], list[Body]]:
        """Bodies that stand already: those that the new parts join, and those that stay on the bench, apart. A part
        that joins nothing meets the largest."""
        joined = [b for b in standing if self._between(new, b)]
        if not standing:
            return [], []
        largest = max(standing, key=len)
        loose = any(not self._between([n], [o for b in standing for o in b] + list(new)) for n in new)
        if largest not in joined and (loose or not joined):
            joined.append(largest)
        joined.sort(key=len, reverse=True)
        return joined, [b for b in standing if b not in joined]

    def _joined(self, names: Sequence[str]) -> list[Body]:
        """What is one body once a step is done: all that its joints hold together. A part that nothing holds is taken
        to stay where it was put, with the largest."""
        left, bodies = set(names), []
        for name in names:
            if name not in left:
                continue
            left.discard(name)
            body = [name]
            for member in body:
                for joint in self.joints[member]:
                    other = joint.second if joint.first == member else joint.first
                    if other in left:
                        left.discard(other)
                        body.append(other)
            bodies.append(tuple(body))
        alone = [b for b in bodies if len(b) == 1 and not self.joints[b[0]]]
        rest = sorted((b for b in bodies if b not in alone), key=len, reverse=True)
        largest = rest[0] if rest else ()
        return [(*largest, *(n for b in alone for n in b)), *rest[1:]]

    def _homecoming(self, number: int, taken: Taken) -> Homecoming:
        parts = tuple(n for b in taken.bodies for n in b)
        others = [n for b in taken.others for n in b]
        joints = self._between(parts, others)
        legs, said = taken.way.home, self.said.get(parts[0]) == taken.way.legs
        judged = not any(frozenset((n, o)) in self.overlapping for n in parts for o in others)
        return Homecoming(number, parts, closing_direction(legs), tuple(joints), taken.way.joined, legs, said, judged)

    def _locked(self, number: int, locked: Sequence[Body]) -> Iterator[Trapped]:
        for body in locked:
            if len(body) > 1 or body[0] not in self.piece.steps[number - 1].parts:
                continue
            others = [b for b in locked if b != body]
            way = next(iter(self.ways(body, others)))
            met = in_the_way(self.paths, body, [n for b in others for n in b], way.home)
            held = self.blocker(body, others, way)
            if met is None and held is not None:
                met = InTheWay(body[0], held[0], 0.0, self.piece[body[0]].at.origin)
            if met is not None:
                yield Trapped(number, body[0], way.home, met, bool(way.legs))

    def step_of(self, name: str) -> int:
        """The step that brings a part in, 0 for none."""
        return next((n for n, s in enumerate(self.piece.steps, 1) if name in s.parts), 0)

    def earlier_step(self, trapped: Trapped) -> int | None:
        """The latest step after which the trapped part would still go home: along a joint, if there is such a step,
        or else some other way; None if there is none."""
        body = (trapped.part,)
        for joined in (True, False):
            for number in range(trapped.step - 1, 0, -1):
                there = [(n,) for s in self.piece.steps[:number] for n in s.parts if n in self.piece.parts]
                ways = (w for w in self.ways(body, there) if w.joined or not joined)
                if any(self.blocker(body, there, w) is None for w in ways):
                    return number
        return None

    def unsaid_way(self, trapped: Trapped) -> tuple[Leg, ...] | None:
        """Another way home in its step for a part whose step says one that is not clear; None if none is found."""
        body = (trapped.part,)
        named = dict.fromkeys(n for s in self.piece.steps[: trapped.step] for n in s.parts)
        there = [n for n in named if n in self.piece.parts and n not in body]
        others = [(n,) for n in there]
        straight = self._straight(body, others)
        clear = next((w for w in straight if self.blocker(body, others, w) is None), None)
        found = clear or self._round(body, there, [w.along for w in straight])
        return None if found is None else found.home

    def working_order(self) -> list[tuple[str, ...]] | None:
        """An order in which all the parts go home, one or a few at a time, steps left aside; None if none is found."""
        named = [n for s in self.piece.steps for n in s.parts if n in self.piece.parts]
        taken = TakingApart(self.ways, self.blocker).take([(n,) for n in dict.fromkeys(named)])
        if taken.locked:
            return None
        first = taken.moves[-1].others[0] if taken.moves else ()
        return [first, *(tuple(n for b in t.bodies for n in b) for t in reversed(taken.moves))]


def _likelier(joint: Joint) -> tuple[float, bool, str, str]:
    """The most glue first, then hardware; of equal ones always the same, in whatever order they were made."""
    return -joint.glue_area, not joint.hardware, joint.first, joint.second


def _away(joint: Joint, body: Sequence[str]) -> Vector:
    """The way a body leaves the other part of a joint."""
    return scaled(joint.closes, -1.0) if joint.first in body else joint.closes


def _between_two(aways: Sequence[Vector]) -> Iterator[Vector]:
    """Ways that leave two or more glued surfaces at once, as a block leaves its corner: straight between them, and
    slanting off from there to either side."""
    kinds = list({_same(a): a for a in aways}.values())
    if len(kinds) < 2 or any(dot(a, b) < -DRAGS for a in kinds for b in kinds):
        return
    middle = unit(added(kinds[0], *kinds[1:]))
    yield middle
    across = unit(cross(kinds[0], kinds[1]))
    for side in (across, scaled(across, -1.0)):
        yield unit(added(middle, side))


def _same(v: Vector) -> Vector:
    return (round(v[0], 6) + 0.0, round(v[1], 6) + 0.0, round(v[2], 6) + 0.0)
