"""Round holes at any angle, run out before their mouth so far that the drill leaves nothing standing over it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model.cuts.cut import Blank, Side
from model.cuts.removal import RUN_OUT, Prism
from model.layout.outline import Edge, circle
from model.placement import Placement, Vector, added, cross, scaled
from model.tolerance import SAME_POINT

#: A hole that leans less than this (as the tangent) counts as square to where it goes in: 0.01 mm over 1 m.
_SQUARE = 1e-5


def drilled(at: Vector, into: Vector, diameter: float, depth: float, lean: float = 0.0) -> Prism:
    """A round hole from its mouth `at`, run out before it, boring `into` the wood for `depth` mm.

    lean: tangent of the angle between the hole and square to the wood it goes into, where its one wall begins that
    much higher than its middle.
    """
    aside = (1.0, 0.0, 0.0) if abs(into[0]) < 0.9 else (0.0, 1.0, 0.0)
    y = cross(into, aside)
    size = math.sqrt(sum(c * c for c in y))
    y = scaled(y, 1.0 / size)
    out = RUN_OUT + lean * diameter / 2.0
    mouth = added(at, scaled(into, -out))
    return Prism(Placement(mouth, cross(y, into), y, into), circle((0.0, 0.0), diameter), depth + out)


def leaning(at: Vector, into: Vector, blank: Blank) -> float:
    """How far a hole leans off square to the side, or to the straight edge, that its mouth lies on, as a tangent; where
    it lies on neither, as on the floor of a dado or the cheek of a tenon, off the nearest of the part's own axes."""
    square = next(_mouths(at, into, blank), max(map(abs, into)))
    lean = math.sqrt(max(0.0, 1.0 - square * square)) / square
    return lean if lean > _SQUARE else 0.0


def _mouths(at: Vector, into: Vector, blank: Blank) -> Iterator[float]:
    """The cosine of the hole's angle to square, for each outer side that its mouth lies on and that it goes into."""
    level = blank.thickness if into[2] < 0.0 else 0.0
    if abs(at[2] - level) < SAME_POINT and abs(into[2]) > _SQUARE:
        yield abs(into[2])
    for edge in (e for e in blank.outline.edges if e.straight and _on(e, at)):
        dx, dy = edge.direction(0.0)
        inward = into[1] * dx - into[0] * dy
        if inward > _SQUARE:
            yield inward


def _on(edge: Edge, at: Vector) -> bool:
    """Does a point seen from above lie on a straight edge?"""
    (sx, sy), (dx, dy) = edge.start, edge.direction(0.0)
    x, y = at[0] - sx, at[1] - sy
    return abs(x * dy - y * dx) < SAME_POINT and -SAME_POINT < x * dx + y * dy < edge.length + SAME_POINT


def side_entered(at: Vector, into: Vector, thickness: float) -> Side | None:
    """The side that a hole goes into: straight down, or leaning from a mouth that lies on that side; None for one in an
    edge."""
    return entered(into) or leaning_from(at, into, thickness)


def leaning_from(at: Vector, into: Vector, thickness: float) -> Side | None:
    """The side that a hole goes into aslant, its mouth lying on it; None for a square one, and for one in an edge."""
    if entered(into) is not None or abs(into[2]) < _SQUARE:
        return None
    side: Side = "face" if into[2] < 0.0 else "back"
    return side if abs(at[2] - (thickness if side == "face" else 0.0)) < SAME_POINT else None


def entered(into: Vector) -> Side | None:
    """The side a cutter going `into` the wood enters by, if it goes straight down into a face."""
    if into[2] < -1.0 + 1e-9:
        return "face"
    return "back" if into[2] > 1.0 - 1e-9 else None
