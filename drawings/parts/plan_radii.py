"""The radii of a plan's arcs, each set down where its lettering is clear of everything else."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from drawings.paper.dimensions import radius
from drawings.paper.sheet import Entity, RadiusDimension, Text, ViewPort
from drawings.paper.strokes import strokes
from drawings.parts.plan_labels import least
from drawings.sheets.clear_room import Drawn
from drawings.sheets.principal import Lengths
from model.layout.outline import Edge

#: How long a leader may be, paper mm, and where along its arc it may stand (ours).
_REACHES = tuple(s * r for r in (8.0, 11.0, 15.0, 20.0, 26.0, 34.0, 44.0) for s in (1.0, -1.0))
_ALONG = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2)
#: Tried where all of those run into lettering.
_FAR, _LAST = (-56.0, 56.0, -70.0, 70.0), (0.9, 0.1)
#: So many lines crossed are as bad as a text struck.
_STRUCK = 10


def plan_radii(arcs: Sequence[Edge], port: ViewPort, form: Lengths, drawn: Sequence[Entity]) -> list[RadiusDimension]:
    """The radii, each set down clear of those before it, and then once more clear of them all."""
    found: list[RadiusDimension] = []
    for arc in arcs:
        found.append(_radius(arc, port, form, [*drawn, *found]))
    for n, arc in enumerate(arcs):
        found[n] = _radius(arc, port, form, [*drawn, *found[:n], *found[n + 1 :]])
    return found


def _radius(arc: Edge, port: ViewPort, form: Lengths, drawn: Sequence[Entity]) -> RadiusDimension:
    room = Drawn(drawn)
    lettering = Drawn(mark for entity in drawn for mark in strokes(entity) if isinstance(mark, Text))

    def faults(r: RadiusDimension) -> int:
        return _STRUCK * (room.strikes(r) + lettering.crossings(r)) + room.crossings(r)

    found = least(_tried(arc, port, form, _REACHES, _ALONG), faults)
    if faults(found) < _STRUCK:
        return found
    further = (*_tried(arc, port, form, _FAR, _ALONG), *_tried(arc, port, form, (*_REACHES, *_FAR), _LAST))
    return least((found, *further), faults)


def _tried(
    arc: Edge, port: ViewPort, form: Lengths, reaches: Sequence[float], shares: Sequence[float]
) -> Iterator[RadiusDimension]:
    for reach in reaches:
        for along in shares:
            (x, y), (cx, cy) = arc.point(along), arc.centre
            angle = math.degrees(math.atan2(y - cy, x - cx))
            yield radius(arc.centre, arc.radius, angle, port, reach, text=form(arc.radius, "R"))
