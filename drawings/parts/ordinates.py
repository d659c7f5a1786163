"""Ordinate dimensions round a plan: every station once, from one datum, labels held apart."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from drawings.paper.dimensions import ordinate
from drawings.paper.sheet import OrdinateDimension, Point, ViewPort
from drawings.sheets.principal import Lengths
from model.layout.outline import Outline

#: From the outline to the ends of the leaders, and from label to label, paper mm.
REACH, PITCH = 11.0, 3.8
_SAME = 3

Axis = Literal["x", "y"]


def ordinates(
    axis: Axis, points: Sequence[Point], outline: Outline, port: ViewPort, form: Lengths
) -> list[OrdinateDimension]:
    """Each distinct x below or above the plan, or each distinct y on its left or right, from its lower left corner.

    Each stands on the side, and is shown by the point, from which its leader runs over the least wood.
    """
    k = 0 if axis == "x" else 1
    datum = outline.bounds[:2]
    stations = _stations(points, k, datum)
    wanted = [_best(found, k, outline) for value, found in stations.items() if value != 0.0]
    marks: list[OrdinateDimension] = []
    for up in (False, True):
        side = [point for point, high in wanted if high is up]
        zero = [p for p in stations.get(0.0, ()) if _over_wood(p, k, up, outline) < 1e-3]
        if side and zero:
            side.append(max(zero, key=lambda p: p[1 - k] if up else -p[1 - k]))
        marks += one_side(axis, side, up, outline, port, form, datum)
    return marks


def one_side(
    axis: Axis, points: Sequence[Point], up: bool, outline: Outline, port: ViewPort, form: Lengths, datum: Point
) -> list[OrdinateDimension]:
    """Each distinct station on one side: above or to the right if `up`, else below or to the left."""
    k = 0 if axis == "x" else 1
    shown = [found[0] for _, found in sorted(_stations(points, k, datum).items())]
    low, high = outline.bounds[1 - k], outline.bounds[3 - k]
    edge = port.place((high, high) if up else (low, low))[1 - k] + (REACH if up else -REACH)
    places = spread([port.place(p)[k] for p in shown], PITCH)
    return [
        ordinate(
            p, datum, axis, (at, edge) if k == 0 else (edge, at), port, units=form.units, denominator=form.denominator
        )
        for p, at in zip(shown, places, strict=True)
    ]


def _stations(points: Sequence[Point], k: int, datum: Point) -> dict[float, list[Point]]:
    """The points by how far they lie from the datum."""
    stations: dict[float, list[Point]] = {}
    for p in points:
        stations.setdefault(round(p[k] - datum[k], _SAME) + 0.0, []).append(p)
    return stations


def _best(points: Sequence[Point], k: int, outline: Outline) -> tuple[Point, bool]:
    """The point that shows a station, and whether on the high side."""
    low, high = outline.bounds[1 - k], outline.bounds[3 - k]

    def cost(way: tuple[bool, Point]) -> tuple[float, float, bool]:
        up, p = way
        return round(_over_wood(p, k, up, outline), 3), round(high - p[1 - k] if up else p[1 - k] - low, 3), up

    up, point = min(((up, p) for up in (False, True) for p in points), key=cost)
    return point, up


def _over_wood(p: Point, k: int, up: bool, outline: Outline) -> float:
    """How much wood a line from p to the outside runs over, mm: below (left) or, if `up`, above (right)."""
    normal: Point = (1.0, 0.0) if k == 0 else (0.0, 1.0)
    meets = sorted({round(q[1 - k], 6) for e in outline.edges for q in e.crossings(normal, p[k])})
    sign = 1.0 if up else -1.0
    marks = sorted({0.0, *(sign * (m - p[1 - k]) for m in meets if sign * (m - p[1 - k]) > 1e-6)})
    over = 0.0
    for a, b in pairwise(marks):
        middle = p[1 - k] + sign * (a + b) / 2
        if outline.contains((p[0], middle) if k == 0 else (middle, p[1])):
            over += b - a
    return over


def spread(wanted: Sequence[float], pitch: float) -> list[float]:
    """Places in the order given, no two nearer than `pitch`, moved as little as may be.

    >>> spread([0.0, 1.0, 10.0], 4.0)
    [-1.5, 2.5, 10.0]
    """
    groups: list[tuple[float, int]] = []
    for at in wanted:
        groups.append((at, 1))
        while len(groups) > 1 and _too_near(groups[-2], groups[-1], pitch):
            (a, m), (b, n) = groups[-2], groups[-1]
            # the two groups' members, each pulled to its wish: their mean offset decides
            first = (m * a + n * (b - (m - 0.0) * pitch)) / (m + n)
            groups[-2:] = [(first, m + n)]
    return [first + k * pitch for first, count in groups for k in range(count)]


def _too_near(a: tuple[float, int], b: tuple[float, int], pitch: float) -> bool:
    return b[0] - (a[0] + (a[1] - 1) * pitch) < pitch - 1e-9
