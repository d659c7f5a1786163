"""The rim of a round hole as a view shows it: a circle, or the ellipse where it leans into the side it is bored in."""

from __future__ import annotations

import math

from drawings.lists.hole_entry import Entry
from drawings.paper.measured import Shown, Vector
from drawings.paper.sheet import Circle, Pen, Point, Polyline, ViewPort
from model.placement import added, cross, dot, scaled

#: Arcs that an ellipse is drawn with: far nearer to it than a line is wide.
_ARCS = 32
_ROUND = 1e-9


def rim(found: Entry, diameter: float, port: ViewPort, pen: Pen) -> Circle | Polyline:
    """The mouth of a hole of a diameter, mm; port: of a view that says what it shows."""
    assert port.shown is not None
    a, b = (_seen(half, port.shown) for half in _half_axes(found, diameter / 2.0))
    middle = _seen(found.at, port.shown)
    if abs(math.hypot(*a) - math.hypot(*b)) < _ROUND and abs(a[0] * b[0] + a[1] * b[1]) < _ROUND:
        return Circle(port.place(middle), diameter / 2.0 * port.scale, pen)
    turns = [math.pi * n / _ARCS for n in range(2 * _ARCS + 1)]
    ring = [port.place(_on(middle, a, b, turn)) for turn in turns]
    bulges = [_bulge(*ring[n : n + 3]) for n in range(0, 2 * _ARCS, 2)]
    return Polyline(tuple(ring[:-1:2]), tuple(bulges), closed=True, pen=pen)


def _half_axes(found: Entry, radius: float) -> tuple[Vector, Vector]:
    """Two half-diameters of the curve in which a round hole meets the surface that it enters, mm."""
    aside = (1.0, 0.0, 0.0) if abs(found.into[0]) < 0.9 else (0.0, 1.0, 0.0)
    u = cross(found.into, aside)
    u = scaled(u, radius / math.sqrt(dot(u, u)))
    rate = dot(found.inward, found.into)
    halves = [added(w, scaled(found.into, -dot(found.inward, w) / rate)) for w in (u, cross(found.into, u))]
    return halves[0], halves[1]


def _seen(p: Vector, shown: Shown) -> Point:
    return dot(p, shown.right), dot(p, shown.up)


def _on(middle: Point, a: Point, b: Point, turn: float) -> Point:
    c, s = math.cos(turn), math.sin(turn)
    return middle[0] + c * a[0] + s * b[0], middle[1] + c * a[1] + s * b[1]


def _bulge(p: Point, through: Point, q: Point) -> float:
    """Of the arc from p to q through a point between them."""
    (ax, ay), (bx, by) = (through[0] - p[0], through[1] - p[1]), (q[0] - through[0], q[1] - through[1])
    return math.tan(math.atan2(ax * by - ay * bx, ax * bx + ay * by) / 2.0)
