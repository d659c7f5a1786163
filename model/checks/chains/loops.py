"""Which parts close a loop, and by how much may it fail to close?

Along every line that joints lie on, parts are knots and seats are what ties them. A tie that closes a loop is one joint
more than the parts need to find their places: its error is the sum of all sizes round the loop.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from model.checks.chains.chain import CLOSED, HIDDEN, Chain, Link, Size, Window
from model.checks.chains.made_sizes import Maker
from model.checks.chains.seats import ALONG, Seat, seats
from model.piece import Piece
from model.placement import Vector, dot

LOOP, ROW = "closed loop", "boards side by side"

#: A size counts in a loop from so much of it on.
_SOME = 1e-9


@dataclass(frozen=True)
class Going:
    """A seat gone over from one part to the other: `sense` is 1 from its first to its second, -1 back."""

    seat: Seat
    sense: float

    @property
    def to(self) -> str:
        return self.seat.parts[1] if self.sense > 0.0 else self.seat.parts[0]

    @property
    def back(self) -> Going:
        return Going(self.seat, -self.sense)

    @property
    def links(self) -> Iterator[Link]:
        """How much further along the line the next part's origin lies: its plane is where the last part's is."""
        for links, sign in ((self.seat.first, 1.0), (self.seat.second, -1.0)):
            yield from (Link(link.size, link.times * sign * self.sense) for link in links)

    @property
    def slack(self) -> tuple[float, float]:
        low, high = self.seat.slack
        return (low, high) if self.sense > 0.0 else (-high, -low)


@dataclass(frozen=True)
class Ties:
    """All seats of a piece along one line."""

    line: Vector
    seats: tuple[Seat, ...]

    @cached_property
    def from_part(self) -> Mapping[str, list[Going]]:
        """The seats a part has, in the order of their other parts' names, whatever order they were found in."""
        found: dict[str, list[Going]] = defaultdict(list)
        for seat in self.seats:
            found[seat.parts[0]].append(Going(seat, 1.0))
            found[seat.parts[1]].append(Going(seat, -1.0))
        return {part: sorted(ways, key=lambda g: (g.to, _told(g.seat))) for part, ways in found.items()}

    def path(self, start: str, end: str, over: Container[Seat] | None = None) -> list[Going] | None:
        """The shortest way from one part to another over any seats, or over those only; None if there is none."""
        came: dict[str, Going | None] = {start: None}
        waiting = deque([start])
        while waiting and end not in came:
            for going in self.from_part.get(waiting.popleft(), ()):
                if going.to not in came and (over is None or going.seat in over):
                    came[going.to] = going
                    waiting.append(going.to)
        return _back_to_start(came, end) if end in came else None

    def loops(self) -> Iterator[list[Going]]:
        """Parts put on one after another: for every seat that finds both its parts in place already, the shortest loop
        that it closes with the seats before it."""
        tree, spare = self._put_on()
        made = set(tree)
        for going in spare:
            around = self.path(going.to, going.back.to, over=made)
            if around is not None:
                yield [going, *around]
            made.add(going.seat)

    def _put_on(self) -> tuple[list[Seat], list[Going]]:
        """The seats that put a part in its place, and those left over, in the order that they are come to."""
        standing: set[str] = set()
        tree: list[Seat] = []
        spare: dict[Seat, Going] = {}
        for root in sorted(self.from_part):
            waiting = deque([root] if root not in standing else [])
            standing.add(root)
            while waiting:
                for going in self.from_part[waiting.popleft()]:
                    if going.to not in standing:
                        standing.add(going.to)
                        waiting.append(going.to)
                        tree.append(going.seat)
                    else:
                        spare.setdefault(going.seat, going)
        placing = set(tree)
        return tree, [going for seat, going in spare.items() if seat not in placing]


def ties(piece: Piece, maker: Maker) -> list[Ties]:
    """The seats of all joints, along every line that contacts lie on or parts are held across."""
    found = []
    for line in _lines(piece):
        held = tuple(s for joint in piece.joints for s in seats(joint, line, maker))
        if held:
            found.append(Ties(line, held))
    return found


def loop_chains(tied: Iterable[Ties], maker: Maker) -> Iterator[Chain]:
    """Every loop whose sizes don't cancel of themselves, once: two that the same sizes close are one."""
    told: set[str] = set()
    for along in tied:
        for loop in along.loops():
            links = summed(link for going in loop for link in going.links)
            if links and (chain := _chain(loop, links, maker)).name not in told:
                told.add(chain.name)
                yield chain


def summed(links: Iterable[Link]) -> tuple[Link, ...]:
    """Links with those of one size made one, and without what cancels; sorted, so that no order matters."""
    times: dict[Size, float] = defaultdict(float)
    for link in links:
        times[link.size] += link.times
    kept = sorted(((size, t) for size, t in times.items() if abs(t) > _SOME), key=lambda item: item[0].name)
    return tuple(Link(size, t) for size, t in kept)


def _chain(loop: Sequence[Going], links: tuple[Link, ...], maker: Maker) -> Chain:
    """Within what seats hide and their slack takes up, a loop closes."""
    low, high = (sum(g.slack[n] for g in loop) for n in (0, 1))
    allowed = HIDDEN if any(g.seat.hidden for g in loop) else CLOSED
    window = Window(allowed.least - high, allowed.most - low)
    parts = tuple(sorted({g.to for g in loop}))
    last = _last(links, maker)
    if any(g.seat.row for g in loop):
        return Chain(ROW, parts, 0.0, links, window, maker.scribe("rip to the room left"), last)
    return Chain(LOOP, parts, 0.0, links, window, maker.scribe("mark from the room left for it"), last)


def _last(links: tuple[Link, ...], maker: Maker) -> str:
    """The part that the steps bring last, of those whose own length, width or thickness is in the loop; of those with
    a cut in it where there are none."""
    sizes = {link.size for link in links}
    owners = {size.part for size in sizes} - {""}
    whole = {p for p in owners if sizes & {maker.length(p), maker.width(p), maker.thickness(p)}}
    return max(whole or owners, key=lambda part: (brought(maker.piece, part), part))


def brought(piece: Piece, name: str) -> int:
    """When the steps bring a part, counted in parts; before all others if no step does."""
    order = [part for step in piece.steps for part in step.parts]
    return order.index(name) if name in order else -1


def _back_to_start(came: Mapping[str, Going | None], end: str) -> list[Going]:
    way: list[Going] = []
    while (going := came[end]) is not None:
        way.append(going)
        end = going.back.to
    return way[::-1]


def _lines(piece: Piece) -> list[Vector]:
    """Each once, whichever way it was found."""
    found: list[Vector] = []
    for joint in piece.joints:
        around = [c.toward for c in joint.contacts]
        placed = piece[joint.second].at
        for line in (*around, placed.x, placed.y, placed.z):
            if not any(abs(dot(line, known)) > ALONG for known in found):
                found.append(line)
    return found


def _told(seat: Seat) -> tuple[object, ...]:
    return (seat.parts, [link.size.name for link in (*seat.first, *seat.second)])
