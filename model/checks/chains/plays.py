"""Does a drawer or a door keep its play in its opening, whatever the sizes round it come to?

The opening's two sides are tied to each other by the case, the moving part's by itself; what one is wider than the
other is play, and there must be some.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain as in_turn

from model.checks.chains.chain import Chain, Link, Window
from model.checks.chains.loops import Ties, summed
from model.checks.chains.made_sizes import Maker
from model.checks.chains.seats import surface
from model.part import Part
from model.piece import Piece, Placed
from model.placement import Vector, cross, dot

PLAYING = "play in the opening"

#: The least play of what moves, mm, on both sides together (common practice: a sheet of paper or two on each).
PLAY = 0.4
#: What stands further off does not guide it, mm.
_BESIDE = 4.0
#: Parts that share less than this across the line pass each other, mm.
_SHARED = 2.0

Range = tuple[float, float]


@dataclass(frozen=True)
class _Block:
    """A part as a block: from where to where along the line and along two lines square to it."""

    along: Range
    across: tuple[Range, Range]

    def faces(self, other: _Block) -> bool:
        return all(min(a[1], b[1]) - max(a[0], b[0]) > _SHARED for a, b in zip(self.across, other.across, strict=True))


@dataclass(frozen=True)
class _Facing:
    """A part that moves and what stands beside it, `gap` mm off."""

    gap: float
    moving: str
    standing: str


def play_chains(piece: Piece, tied: Iterable[Ties], maker: Maker) -> Iterator[Chain]:
    """The play of everything that slides or swings, along every line on which it has neighbours on both sides; it
    slides in its opening along the others."""
    groups = list(_moving(piece))
    for ties in tied if groups else ():
        for group in groups:
            lines = _lines(piece[min(group)], ties.line)
            blocks = {p.name: _block(p, lines) for p in piece if isinstance(p.part, Part) and p.part.bend is None}
            found = _play(piece, group, ties, blocks, maker)
            if found is not None:
                yield found


def _moving(piece: Piece) -> Iterator[frozenset[str]]:
    """Parts that move as one: joined to each other, and moved."""
    left = {slide.part for slide in piece.slides} | {swing.part for swing in piece.swings}
    while left:
        group, waiting = set[str](), [min(left)]
        while waiting:
            name = waiting.pop()
            group.add(name)
            near = {n for j in piece.joints for n in (j.first, j.second) if name in (j.first, j.second)}
            waiting += sorted((near & left) - group)
        left -= group
        yield frozenset(group)


def _play(piece: Piece, group: frozenset[str], ties: Ties, blocks: dict[str, _Block], maker: Maker) -> Chain | None:
    low, high = (_nearest(group, blocks, out) for out in (-1.0, 1.0))
    if low is None or high is None:
        return None
    firm = {seat for seat in ties.seats if seat.slack == (0.0, 0.0)}
    around = ties.path(low.standing, high.standing, over=firm)
    within = ties.path(low.moving, high.moving, over=firm)
    if around is None or within is None:
        return None
    opening = _between(piece, (low.standing, high.standing), ties.line, 1.0, maker)
    moved = _between(piece, (low.moving, high.moving), ties.line, -1.0, maker)
    links = summed(
        (
            *opening,
            *in_turn.from_iterable(g.links for g in around),
            *_less(moved),
            *_less(in_turn.from_iterable(g.links for g in within)),
        )
    )
    parts = tuple(sorted({low.moving, high.moving, *(g.to for g in within), low.standing, high.standing}))
    room = round(low.gap + high.gap, 6)
    cure = maker.fit("plane to its opening")
    return Chain(PLAYING, parts, room, links, Window(PLAY), cure, low.moving) if links else None


def _between(piece: Piece, ends: tuple[str, str], line: Vector, inward: float, maker: Maker) -> Iterator[Link]:
    """What the distance between two parts' surfaces gains by those, which look `inward` (1: at each other)."""
    yield from _less(surface(piece[ends[0]], line, inward, maker))
    yield from surface(piece[ends[1]], line, -inward, maker)


def _less(links: Iterable[Link]) -> Iterator[Link]:
    return (Link(link.size, -link.times) for link in links)


def _nearest(group: frozenset[str], blocks: dict[str, _Block], out: float) -> _Facing | None:
    """What stands nearest beside a group on one side of it."""
    found = []
    for name in sorted(group & blocks.keys()):
        for other, block in blocks.items():
            gap = _gap(blocks[name], block, out)
            if other not in group and -1e-6 <= gap <= _BESIDE and blocks[name].faces(block):
                found.append(_Facing(round(max(gap, 0.0), 6), name, other))
    return min(found, key=lambda f: (f.gap, f.moving, f.standing), default=None)


def _gap(moving: _Block, standing: _Block, out: float) -> float:
    return standing.along[0] - moving.along[1] if out > 0.0 else moving.along[0] - standing.along[1]


def _lines(moving: Placed, line: Vector) -> tuple[Vector, Vector, Vector]:
    """The line, and two square to it that run with the moving part's own sides."""
    own = next(axis for axis in (moving.at.x, moving.at.y, moving.at.z) if abs(dot(axis, line)) < 0.8)
    other = cross(line, own)
    return line, cross(other, line), other


def _block(placed: Placed, lines: tuple[Vector, Vector, Vector]) -> _Block:
    along, one, other = (_reach(placed, line) for line in lines)
    return _Block(along, (one, other))


def _reach(placed: Placed, line: Vector) -> Range:
    x0, y0, x1, y1 = placed.wood.outline.bounds
    corners = ((x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (0.0, placed.wood.thickness))
    along = [dot(line, placed.at.point(c)) for c in corners]
    return min(along), max(along)
