"""What points from the general sheet to other ones: the planes of its sections, and rings round what is shown larger.

ISO 128-3: the ends of a cutting plane's line wide, an arrow at each in the direction of sight, its letter beside it; a
detail's place in a narrow ring, with its letter. In inches the arrows stand as ASME Y14.3 has them: from the line's end
on, where ISO's point at it. Paper mm; places in piece mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal

from drawings.paper.arcs import polar
from drawings.paper.sheet import Circle, Entity, Fill, Line, Pen, Point, Polyline, Text, ViewPort
from drawings.paper.strokes import strokes
from drawings.sheets.captions import LETTER
from drawings.sheets.clear_room import Drawn, box_of, within
from drawings.views.curves import View
from model.placement import Vector, dot

#: Wide ends this long, so far off the outline at first; an arrow's shaft and
#: head, mm (arrows as long as ISO's for the line width; from memory).
_END, _OFF, _SHAFT, _HEAD, _HALF = 4.5, 0.8, 7.0, 3.5, 0.9
#: Further places tried for an end, mm from the outline; then for a detail's letter, directions and mm from its ring.
_FURTHER = (0.8, 3.0, 6.0, 14.0, 17.0, 22.0, 26.0, 32.0)
_TURNS, _AWAY = tuple(range(45, 405, 15)), (1.0, 4.0, 8.0, 13.0, 18.0, 24.0, 32.0, 40.0)
#: A ring is no smaller and no larger than this, mm.
_RING = (3.0, 7.0)


@dataclass(frozen=True)
class CutPlane:
    """A section by its letter: the axis its plane is square to, and where, mm."""

    letter: str
    axis: Literal["x", "y", "z"]
    at: float


@dataclass(frozen=True)
class Ringed:
    """A detail by its letter: its place, the direction to the eye, and how far it reaches about its place, mm."""

    letter: str
    place: Vector
    eye: Vector
    reach: float


@dataclass(frozen=True)
class Pointers:
    """All that a general sheet points to."""

    planes: tuple[CutPlane, ...] = ()
    rings: tuple[Ringed, ...] = ()
    inward: bool = True

    def marks(self, view: View, port: ViewPort, drawn: Sequence[Entity]) -> list[Entity]:
        """Those of them that belong on a view, clear of what is drawn on it."""
        marks: list[Entity] = []
        letters = [mark for entity in drawn for mark in strokes(entity) if isinstance(mark, Text)]
        for plane in self.planes:
            if _shows(plane, view):
                for end in (0, 1):
                    marks += _clear(_ends(plane, view, port, end, self.inward), Drawn([*drawn, *marks]), letters)
        shown = [r for r in self.rings if abs(dot(r.eye, view.direction)) == max(abs(c) for c in r.eye)]
        circles = [Circle(port.place(view.project(r.place)), _radius(r, port), Pen.THIN) for r in shown]
        marks += circles
        room = box_of([*drawn, *circles]) if circles else None
        for ring, circle in zip(shown, circles, strict=True):
            tries = list(_letters(ring, circle))
            inside = [some for some in tries if room and within(box_of(some), room)]
            marks += _clear(
                iter([*inside, *tries]), Drawn([*drawn, *marks]), [*letters, *(m for m in marks if isinstance(m, Text))]
            )
        return marks


def _shows(plane: CutPlane, view: View) -> bool:
    """Upright ones across and level ones are marked on the front view, those along it on the top view."""
    return view.name == ("top" if plane.axis == "y" else "front")


def _ends(plane: CutPlane, view: View, port: ViewPort, end: int, inward: bool) -> Iterator[list[Entity]]:
    """One end of a plane's line, nearer to the outline first."""
    left, low, right, high = view.bounds
    upright = plane.axis == "x"
    sight = {"x": (-1.0, 0.0), "y": (0.0, 1.0), "z": (0.0, -1.0)}[plane.axis]
    edge = port.place((plane.at, (low, high)[end]) if upright else ((left, right)[end], plane.at))
    out = (1.0 if end else -1.0) * (0.0 if upright else 1.0), (1.0 if end else -1.0) * (1.0 if upright else 0.0)
    for off in _FURTHER:
        start, stop = _on(edge, out, off), _on(edge, out, off + _END)
        foot = _on(edge, out, off + _END - 1.0)
        tail, tip = (_on(foot, sight, -_SHAFT), foot) if inward else (foot, _on(foot, sight, _SHAFT))
        letter = _on(tail if inward else tip, sight, (-1.0 if inward else 1.0) * (LETTER / 2.0 + 1.2))
        yield [
            Line(start, stop, Pen.CUTTING),
            Line(tail, _on(tip, sight, -_HEAD), Pen.THIN),
            _arrow(tip, sight),
            Text(letter, plane.letter, LETTER, "centre", "middle", bold=True),
        ]


def _radius(ring: Ringed, port: ViewPort) -> float:
    return min(max(ring.reach * port.scale, _RING[0]), _RING[1])


def _letters(ring: Ringed, circle: Circle) -> Iterator[list[Entity]]:
    """A ring's letter at every place tried for it, tied to the ring where it is not right beside it."""
    middle, radius = circle.centre, circle.radius
    for away, turn in product(_AWAY, _TURNS):
        at = polar(middle, radius + away + LETTER * 0.85, turn)
        lead = [Line(polar(middle, radius, turn), polar(middle, radius + away, turn), Pen.THIN)] if away > 2.0 else []
        yield [*lead, Text(at, ring.letter, LETTER, "centre", "middle", bold=True)]


def _clear(tries: Iterator[list[Entity]], drawn: Drawn, letters: Sequence[Text] = ()) -> list[Entity]:
    """The first of the tries whose letter is clear of everything drawn and that runs into no other letter, or the one
    that does so least."""
    best: list[Entity] = []
    least = math.inf
    others = Drawn(letters)
    for marks in tries:
        struck = sum(drawn.strikes(mark) + others.crossings(mark) for mark in marks)
        if struck < least:
            best, least = marks, struck
        if not struck:
            break
    return best


def _arrow(tip: Point, along: Point) -> Entity:
    heel, across = _on(tip, along, -_HEAD), (-along[1], along[0])
    return Fill((Polyline((tip, _on(heel, across, _HALF), _on(heel, across, -_HALF)), closed=True),))


def _on(p: Point, along: Point, by: float) -> Point:
    return p[0] + along[0] * by, p[1] + along[1] * by
