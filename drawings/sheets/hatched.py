"""Cut faces on the paper: outlined wide, hatched so that parts that touch differ."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

from drawings.paper.sheet import Entity, Hatch, Point, Polyline, ViewPort
from drawings.sheets.clear_room import Box, boxes_meet, grown

#: Angle and spacing of hatches, tried in this order (ours: ISO 128-50 leaves them to the drawing).
STYLES = ((45.0, 1.6), (135.0, 1.6), (45.0, 2.6), (135.0, 2.6), (30.0, 2.0), (120.0, 2.0), (60.0, 1.2), (150.0, 1.2))

#: Parts whose faces lie nearer than this on the paper count as neighbours, mm.
_NEAR = 0.3

#: Corners and bulges of one outline; a face has its outer one first.
Ring = tuple[tuple[Point, ...], tuple[float, ...]]
Face = Sequence[Ring]


def hatched(faces: Mapping[str, Sequence[Face]], port: ViewPort) -> list[Entity]:
    """The faces of each part, by name, view mm."""
    drawn = {name: [tuple(_polyline(ring, port) for ring in face) for face in found] for name, found in faces.items()}
    styles = _styles({name: [_box(face[0]) for face in found] for name, found in drawn.items()})
    marks: list[Entity] = []
    for name, found in drawn.items():
        for face in found:
            marks += [Hatch(face, *STYLES[styles[name]]), *face]
    return marks


def _polyline(ring: Ring, port: ViewPort) -> Polyline:
    return Polyline(tuple(port.place(p) for p in ring[0]), ring[1], closed=True)


def _box(ring: Polyline) -> Box:
    xs, ys = zip(*ring.points, strict=True)
    return grown((min(xs), min(ys), max(xs), max(ys)), _NEAR)


def _styles(boxes: Mapping[str, Sequence[Box]]) -> dict[str, int]:
    """A style for each part, the first that none of its neighbours has."""
    beside: dict[str, set[str]] = {name: set() for name in boxes}
    for a, b in combinations(boxes, 2):
        if any(boxes_meet(p, q) for p in boxes[a] for q in boxes[b]):
            beside[a].add(b)
            beside[b].add(a)
    chosen: dict[str, int] = {}
    for name in boxes:
        taken = {chosen[other] for other in beside[name] if other in chosen}
        free = (n for n in range(len(STYLES)) if n not in taken)
        chosen[name] = next(free, len(chosen) % len(STYLES))
    return chosen
