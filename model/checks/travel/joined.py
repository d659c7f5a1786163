"""Which parts are joined, and which hold together?"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence

from model.checks.travel.taking_apart import Body
from model.joints.hinged import Hinged
from model.joints.joint import Joint
from model.piece import Piece

#: What comes apart without a tool, or with a screwdriver: rests and hinges hold nothing together on the way.
LETS_GO = ("rest",)

#: Hardware that lies in both parts while they close, so that they can come together one way only.
KEYS = ("biscuit", "dowel", "spline")


class Joined:
    """The joints of a piece, by the parts that they join."""

    def __init__(self, piece: Piece) -> None:
        self.joints: dict[str, list[Joint]] = defaultdict(list)
        self.keyed: dict[str, list[Joint]] = defaultdict(list)
        for joint in piece.joints:
            for name in (joint.first, joint.second):
                self.joints[name].append(joint)
                if any(h.kind in KEYS for h in joint.hardware):
                    self.keyed[name].append(joint)

    def between(self, body: Sequence[str], among: Iterable[str]) -> list[Joint]:
        """The joints of some parts with others."""
        others = set(among) - set(body)
        return [j for n in body for j in self.joints[n] if partner(j, n) in others]

    def keys(self, body: Body, among: Container[str]) -> Iterator[Joint]:
        """The joints of some parts with others that hardware keys."""
        return (j for n in body for j in self.keyed[n] if partner(j, n) in among)

    def hubs_first(self, names: Iterable[str], there: Iterable[str]) -> list[str]:
        """Parts in an order of their own, however they were named: those that most of what is there is joined to come
        first, the others are brought to them."""
        among = list(there)
        return sorted(names, key=lambda n: (-len(self.between([n], among)), n))

    def groups(self, bodies: Sequence[Body]) -> list[list[Body]]:
        """Bodies that are put together as one, the largest of each first: those that joints hold together, and a part
        by itself with all that it rests on or hangs from, such as a cleat between two sides. A drawer or a lid, made
        by itself, is no part of what it goes into."""
        lone = {group[0][0] for group in self.made_one(bodies, holds) if len(group) == len(group[0]) == 1}
        return self.made_one(bodies, lambda j: holds(j) or j.first in lone or j.second in lone)

    def made_one(self, bodies: Sequence[Body], tied: Callable[[Joint], bool]) -> list[list[Body]]:
        """Bodies that some of the joints make one, the largest of each first."""
        of = {n: body for body in bodies for n in body}
        left, groups = dict.fromkeys(bodies), []
        for body in bodies:
            if body in left:
                together = self._tied_to(body, of, tied)
                groups.append(sorted((b for b in left if b in together), key=len, reverse=True))
                left = {b: None for b in left if b not in together}
        return groups

    def waits(self, body: Body, coming: Iterable[str]) -> bool:
        """Whether more is to be joined to a body before it goes home."""
        joints = self.between(body, coming)
        return any(map(holds, joints)) or (len(body) == 1 and bool(joints))

    def _tied_to(self, body: Body, of: Mapping[str, Body], tied: Callable[[Joint], bool]) -> set[Body]:
        """All that joints tie to one, and itself."""
        found, waiting = {body}, [body]
        for member in waiting:
            met = {of[p] for n in member for j in self.joints[n] if tied(j) and (p := partner(j, n)) in of} - found
            waiting += met
            found |= met
        return found


def holds(joint: Joint) -> bool:
    """Whether it makes one body of its two parts, to be carried as it is; a rest or a hinge does not."""
    return joint.kind not in LETS_GO and not isinstance(joint, Hinged)


def partner(joint: Joint, name: str) -> str:
    """The other part of a joint."""
    return joint.second if joint.first == name else joint.first
