"""How does an assembly come apart? The last to go home is the first that comes away, so an order found backwards works.

A body is one or more parts that are already one. A move takes some bodies together along one straight line to clear of
everything, or one body alone by several legs where no straight line does; taking any away never puts another in the
way, so whatever can come away may be taken at once, and what is left when nothing more comes away is locked for good
(R. Wilson, J.-C. Latombe, Geometric reasoning about mechanical assembly, Artificial Intelligence 71, 1994, section 3:
blocking graphs). No CAD kernel here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from model.placement import Vector, scaled
from model.way_home import Leg, come

#: Parts that move as one.
Body = tuple[str, ...]


@dataclass(frozen=True)
class Way:
    """A way out: the unit vector along which it leaves home. joined: whether a joint between the body and the others
    closes along it; legs: of the way home, where it is not one straight line back; drags: whether it slides along a
    glued surface."""

    along: Vector
    joined: bool
    legs: tuple[Leg, ...] = ()
    drags: bool = False

    @property
    def home(self) -> tuple[Leg, ...]:
        """The legs of the way home."""
        return self.legs or (come(scaled(self.along, -1.0)),)


@dataclass(frozen=True)
class Taken:
    """One move of taking apart: which bodies came away together, from which others, and the way they went."""

    bodies: tuple[Body, ...]
    others: tuple[Body, ...]
    way: Way


#: Whether a way drags along glue, and whether a joint closes along it: the likelier first.
LIKELIER = ((False, True), (False, False), (True, True), (True, False))

#: The ways to try for a body among others, the likeliest first.
Ways = Callable[[Body, Sequence[Body]], Iterable[Way]]

#: Which of the others stands in a body's way, or None.
Blocker = Callable[[Body, Sequence[Body], Way], Body | None]

#: A way of several legs for a body that no straight one frees from the others, or None.
Roundabout = Callable[[Body, Sequence[Body]], Way | None]


@dataclass
class TakingApart:
    """moves: in the order in which the bodies come away. locked: bodies that nothing takes from each other."""

    ways: Ways
    blocker: Blocker
    roundabout: Roundabout = lambda body, others: None
    moves: list[Taken] = field(default_factory=list)
    locked: list[tuple[Body, ...]] = field(default_factory=list)
    _held: dict[tuple[Body, Way], Body] = field(default_factory=dict)

    def take(self, bodies: Sequence[Body]) -> TakingApart:
        """Takes bodies apart until each is alone; the last named are tried first."""
        waiting = [tuple(bodies)]
        while waiting:
            together = waiting.pop()
            if len(together) < 2:
                continue
            taken = self._one(together) or self._several(together) or self._roundabout(together)
            if taken is None:
                self.locked.append(together)
                continue
            self.moves.append(taken)
            waiting += [taken.bodies, taken.others]
        return self

    def _one(self, together: Sequence[Body]) -> Taken | None:
        """One body alone: along one of its joints, if any can, and only then some other way; along glue only if nothing
        comes away without."""
        others = {body: tuple(b for b in together if b != body) for body in reversed(together[1:])}
        ways: dict[Body, list[Way]] = {}
        for rank in LIKELIER:
            for body, rest in others.items():
                if body not in ways:
                    ways[body] = list(self.ways(body, rest))
                for way in ways[body]:
                    if (way.drags, way.joined) == rank and self._free(body, rest, way):
                        return Taken((body,), rest, way)
        return None

    def _several(self, together: Sequence[Body]) -> Taken | None:
        """The fewest bodies that come away as one: those that hold each other along a way, and all that hold them."""
        found = (w for b in together for w in self.ways(b, [o for o in together if o != b]))
        ways = {w.along: w for w in found if not w.legs}
        best: Taken | None = None
        for way in ways.values():
            for start in together[1:]:
                moving = self._held_with(start, together, way)
                if len(moving) < len(best.bodies if best else together):
                    best = Taken(tuple(moving), tuple(b for b in together if b not in moving), way)
        return best

    def _roundabout(self, together: Sequence[Body]) -> Taken | None:
        """One body alone, by several legs."""
        for body in reversed(together[1:]):
            others = tuple(b for b in together if b != body)
            way = self.roundabout(body, others)
            if way is not None:
                return Taken((body,), others, way)
        return None

    def _held_with(self, start: Body, together: Sequence[Body], way: Way) -> list[Body]:
        moving = [start]
        for body in moving:
            others = [b for b in together if b not in moving]
            while others and (held := self.blocker(body, others, way)) is not None:
                moving.append(held)
                others.remove(held)
        return moving

    def _free(self, body: Body, others: Sequence[Body], way: Way) -> bool:
        """Whether nothing holds it; what held it before and is still there holds it now."""
        key = (body, way)
        if self._held.get(key) in others:
            return False
        held = self.blocker(body, others, way)
        if held is not None:
            self._held[key] = held
        return held is None
