"""Wood that a cut leaves standing by itself: tongues, tenons, tails, pins. How thin is it?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch
from itertools import pairwise

from model.cuts.cut import Cut
from model.cuts.dovetails import Pins, Tails
from model.cuts.edges import Tongue
from model.cuts.tenons import TenonedEnd
from model.layout.outline import Outline, Point
from model.part import Part


@dataclass(frozen=True)
class Remnant:
    """Wood left at one place: `left` mm (infinite where there is plenty, 0 or less where none is), `place` and
    `remedy` in words, `at` (x, y) in the part."""

    left: float
    place: str
    at: Point
    remedy: str


@singledispatch
def standing(cut: Cut, part: Part) -> Iterator[Remnant]:
    """What a cut leaves standing, at its thinnest."""
    yield from ()


@standing.register
def _(cut: Tongue, part: Part) -> Iterator[Remnant]:
    edges = part.outline.named(cut.edge)
    yield Remnant(cut.thickness, "in the tongue", edges[len(edges) // 2].point(0.5), "make the tongue thicker")


@standing.register
def _(cut: TenonedEnd, part: Part) -> Iterator[Remnant]:
    for tenon in cut.tenons:
        y, z = tenon.middle
        x = (cut.shoulder.offset - cut.shoulder.normal[1] * y - cut.shoulder.normal[2] * z) / cut.shoulder.normal[0]
        yield Remnant(min(tenon.thickness, tenon.width), "in the tenon", (x, y), "make the tenon thicker")


@standing.register
def _(cut: Tails, part: Part) -> Iterator[Remnant]:
    """The neck of each tail, as far as it lies on the board."""
    _, low, _, high = part.outline.bounds
    for tail in cut.tails:
        narrowest = min(_clipped_width(tail, pair, low, high) for pair in ((0, 1), (2, 3)))
        yield Remnant(narrowest, f"in the {cut.name}", tail.corners[0], "make fewer or wider ones")


@standing.register
def _(cut: Pins, part: Part) -> Iterator[Remnant]:
    """Between each two sockets where they come nearest."""
    spans = sorted((s.bounds[0], s.bounds[2]) for s in cut.sockets)
    x = cut.baseline.offset / cut.baseline.normal[0]
    for (_, a), (b, _) in pairwise(spans):
        yield Remnant(b - a, "in a pin", (x, (a + b) / 2.0), "make fewer or narrower tails")


def _clipped_width(tail: Outline, pair: tuple[int, int], low: float, high: float) -> float:
    a, b = (min(max(tail.corners[n][1], low), high) for n in pair)
    return abs(b - a)
