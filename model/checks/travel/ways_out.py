"""Which ways may a part leave by, and what holds it? Joints say the likeliest; its sides, and a search, the rest."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Sequence

from model.checks.travel.homecoming import DRAGS, drags
from model.checks.travel.joined import Joined
from model.checks.travel.taking_apart import Body, Way
from model.checks.travel.way_legs import in_the_way
from model.checks.travel.way_round import OutOfPatienceError, Patience, Search
from model.checks.travel.ways import Ways
from model.joints.joint import Joint
from model.piece import Piece
from model.placement import DIRECTIONS, Vector, added, cross, dot, scaled, unit
from model.way_home import Leg, Push, closing_direction

#: A way round is looked for only for bodies of so few parts.
MOST_TOGETHER = 12


class WaysOut:
    """The ways of a piece's bodies away from each other."""

    def __init__(self, piece: Piece, joined: Joined, paths: Ways) -> None:
        self.piece, self.joined, self.paths = piece, joined, paths
        self.patience = Patience()
        self._said = {n: step.way for step in reversed(piece.steps) for n in step.parts}
        self._said_of_made = {n: step.way for step in piece.steps for n in step.parts if step.way}

    def said(self, body: Body) -> tuple[Leg, ...]:
        """The way home that its step says, of what was made before the one that any step says of all of it; empty for
        none."""
        if len(body) == 1:
            return self._said.get(body[0], ())
        told = {self._said_of_made.get(n, ()) for n in body}
        return told.pop() if len(told) == 1 else ()

    def ways(self, body: Body, others: Sequence[Body]) -> Iterable[Way]:
        """The way its step says; or else along the joints first, then along the sides of its parts and their
        neighbours, the likeliest first."""
        said = self.said(body)
        if said:
            return [Way(scaled(closing_direction(said), -1.0), True, said)]
        return self.straight(body, others)

    def straight(self, body: Body, others: Sequence[Body]) -> list[Way]:
        """Straight ways, whatever its step says."""
        joints = sorted(self.joined.between(body, (n for b in others for n in b)), key=_likelier)
        keyed = any(j in self.joined.keyed[n] for n in body for j in joints)
        aways = [_away(j, body) for j in joints]
        if not keyed:
            aways += _between_two([_away(j, body) for j in joints if j.glue_area > 0.0])
        likely: dict[Vector, Vector] = {}
        for away in aways:
            likely.setdefault(_same(away), away)
        sides = [] if keyed else self._sides(body, joints, list(likely.values()))
        return [
            *(Way(a, True, drags=drags(joints, a)) for a in likely.values()),
            *(Way(a, False, drags=drags(joints, a)) for a in sides),
        ]

    def blocker(self, body: Body, others: Sequence[Body], way: Way) -> Body | None:
        """The first of the other bodies that holds a body along a way: by a key between them, or by its wood."""
        of = {n: b for b in others for n in b}
        keyed = next(self._keyed(body, of, way), None)
        if keyed is not None:
            return of[keyed]
        met = in_the_way(self.paths, body, list(of), way.home)
        return None if met is None else of[met.other]

    def least_blocked(self, body: Body, others: Sequence[Body], since: Callable[[str], int]) -> Way:
        """The way on which the fewest parts are met, of equal ones one along a joint, or where what is met stands since
        the latest step: what stands there is what keeps a body from going home. since: the step that brought a part."""
        ways = list(self.ways(body, others))
        if len(ways) == 1:
            return ways[0]
        names = [n for b in others for n in b]

        def met(way: Way) -> tuple[int, bool, int]:
            found = {m.other for m in self.paths.blockers(body, names, way.along)} | set(self._keyed(body, names, way))
            return len(found), not way.joined, -min(map(since, found), default=0)

        return min((w for w in ways if self.blocker(body, others, w) is not None), key=met, default=ways[0])

    def _keyed(self, body: Body, among: Container[str], way: Way) -> Iterator[str]:
        """Parts that keys hold a body to along a way."""
        for joint in self.joined.keys(body, among):
            if not isinstance(way.home[-1], Push) or dot(_away(joint, body), way.along) < 1.0 - 1e-6:
                yield joint.second if joint.first in body else joint.first

    def round_about(self, body: Body, others: Sequence[Body]) -> Way | None:
        """A way of several legs for one part or a few that no straight way frees; None where their steps say one, where
        keys hold them, or where none is found."""
        among = [n for b in others for n in b]
        if any(self._said.get(n) for n in body) or any(self.joined.keys(body, among)) or len(body) > MOST_TOGETHER:
            return None
        return self.searched(body, others)

    def searched(self, body: Body, others: Sequence[Body]) -> Way | None:
        """A way of several legs, or None where none is found before the search's patience is at an end."""
        among = [n for b in others for n in b]
        search = Search(self.paths, body, among, [w.along for w in self.straight(body, others)], self.patience)
        glued = any(j.glue_area > 0.0 for j in self.joined.between(body, among))
        try:
            legs = search.two_legs() or (None if glued else search.tipped_in())
        except OutOfPatienceError:
            return None
        return None if legs is None else Way(scaled(closing_direction(legs), -1.0), False, legs)

    def _sides(self, body: Body, joints: Sequence[Joint], likely: Sequence[Vector]) -> list[Vector]:
        """Directions in which the sides of a body's first part and its neighbours point, and the piece's own, but for
        the likely ones; the nearest to one of those first."""
        sides: dict[Vector, Vector] = {}
        for name in (*body[:1], *(j.second if j.first in body else j.first for j in joints)):
            at = self.piece[name].at
            sides |= {_same(v): v for axis in (at.x, at.y, at.z) for v in (axis, scaled(axis, -1.0))}
        for v in DIRECTIONS.values():
            sides.setdefault(_same(v), v)
        known = {_same(a) for a in likely}

        def unlikely(v: Vector) -> float:
            return -max((round(dot(v, a), 6) for a in likely), default=0.0)

        return sorted((v for k, v in sides.items() if k not in known), key=unlikely)


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
