"""What a setting's figures measure where parts lie over each other or slide together: laps, slots, sliding dovetails,
splines, slanted dadoes. In step with `drawings/lists/joinery_settings`."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drawings.cards.stock_figures import Figures, Told, between, off_square, set_from, to_the_nearer
from drawings.cards.wood import Wood, X, Y, Z
from drawings.cutting.finished import finished_blank, finished_bounds
from drawings.lists.fences import Fence, shoulder_stop
from drawings.lists.joinery_sizes import from_arris, sawn_face, slot_end
from drawings.lists.notch_walls import notch_walls, sides
from drawings.paper.measured import Measured, Vector
from drawings.parts.slanted_trench import SlantedTrench
from model.cuts.cut import Cut
from model.cuts.laps import Lap, Shoulder, Slot
from model.cuts.sawn import SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.layout.outline import Point
from model.placement import added, scaled
from model.tolerance import SAME_POINT, SAME_SETTING

#: A corner of a lap lies on its shoulder within this, mm.
_ON = 1e-6


def _lap(cut: Lap, wood: Wood) -> Iterator[Figures]:
    """For each shoulder its turn and its place; the width from the first one, the depth alike for all."""
    wide, deep = _lap_width(cut, wood), _lap_depth(cut, wood)
    for shoulder in cut.shoulders:
        stop = shoulder_stop(shoulder, wood.part)
        across = stop.axis == 0
        (bx, by), middle = shoulder.beyond, _middle(_on(cut, shoulder, wood))
        off = off_square((bx, by, 0.0), middle, wood, across)
        yield Figures(wide, deep, off, _shoulder_fence(stop, wood))


def _on(cut: Lap, shoulder: Shoulder, wood: Wood) -> list[Vector]:
    """The corners of a lap that lie on one of its shoulders."""
    (bx, by), offset = shoulder.half
    return [(x, y, 0.0) for x, y in cut.region(finished_blank(wood.part)) if abs(bx * x + by * y - offset) < _ON]


def _middle(ends: list[Vector]) -> Vector:
    (ax, ay, _), (bx, by, _) = ends[0], ends[-1]
    return (ax + bx) / 2.0, (ay + by) / 2.0, 0.0


def _lap_width(cut: Lap, wood: Wood) -> Measured:
    first = cut.shoulders[0]
    bx, by = first.beyond
    x, y = min(cut.region(finished_blank(wood.part)), key=lambda p: bx * p[0] + by * p[1])
    return wood.span((x, y, 0.0), _middle(_on(cut, first, wood)), (bx, by, 0.0), (-by, bx, 0.0))


def _lap_depth(cut: Lap, wood: Wood) -> Measured:
    thick, (x, y, _) = wood.part.thickness, _middle(_on(cut, cut.shoulders[0], wood))
    bx, by = cut.shoulders[0].beyond
    level = (thick - cut.depth, thick) if cut.side == "face" else (0.0, cut.depth)
    return wood.thick(*level, (x, y, 0.0), (bx, by, 0.0))


def _shoulder_fence(stop: Fence, wood: Wood) -> Measured:
    """From the end (or, of one along the grain, the near edge) to where the shoulder meets the near edge (the end)."""
    x0, y0, _, _ = finished_bounds(wood.part)
    return set_from(stop, (x0, y0, 0.0), wood, (Y, X)[stop.axis])


def _slot(cut: Slot, wood: Wood) -> Iterator[Figures]:
    """Between its walls, and from its floor out to where it opens."""
    along, across = notch_walls(cut, wood.part)
    level = across is not None and abs(across[1][1] - across[0][1] - cut.width) < SAME_SETTING
    wide = between(across, Y, X, wood) if level else between(along, X, Y, wood)
    yield Figures(wide, _reach(cut, wood, 0 if level else 1))


def _reach(cut: Slot, wood: Wood, axis: int) -> Measured | None:
    """Of a slot along an axis: from the floor, its only side on the wood that is square to it."""
    along, up = ((X, Y), (Y, X))[axis]
    for floor in sides(cut, wood.part, axis):
        x0, y0, x1, y1 = cut.outline.bounds
        out = 1.0 if floor[axis] < ((x0 + x1) / 2.0, (y0 + y1) / 2.0)[axis] else -1.0
        p: Vector = (*floor, 0.0)
        q = added(p, scaled(along, out * cut.length), scaled(up, cut.width / 2.0))
        low, high = sorted((p, q), key=lambda end: end[axis])
        return wood.span(low, high, along, up)
    return None


def _dovetail_tongue(cut: DovetailTongue, wood: Wood) -> Iterator[Figures]:
    """Where it begins, and is fullest: between its flanks at the shoulder, out to the tip, in from the faces there."""
    thick, out = wood.part.thickness, (*cut.out, 0.0)
    neck = cut.inset + cut.slope * cut.length
    foot: Vector = (*cut.start, neck)
    tip = added((*cut.start, cut.inset), scaled(out, cut.length))
    level = 0.0
    flank = wood.turned(out, Z, foot, level - math.degrees(math.atan(cut.slope)), level)
    yield Figures(
        wood.thick(neck, thick - neck, foot, out),
        wood.span(foot, tip, out, Z),
        flank,
        wood.thick(0.0, cut.inset, tip, out),
    )


def _dovetail_socket(cut: DovetailSocket, wood: Wood) -> Iterator[Figures]:
    """At its mouth where it starts, for its walls splay and may close in."""
    (dx, dy), half, thick = cut.direction, cut.width / 2.0, wood.part.thickness
    along, across = (dx, dy, 0.0), (-dy, dx, 0.0)
    top, floor = (thick, thick - cut.depth) if cut.side == "face" else (0.0, cut.depth)
    mouth: Vector = (*cut.start, top)
    walls = added(mouth, scaled(across, -half)), added(mouth, scaled(across, half))
    lean = math.degrees(math.atan(cut.slope))
    turn = (270.0 - lean, 270.0) if cut.side == "face" else (90.0, 90.0 + lean)
    yield Figures(
        wood.span(*walls, across, Z),
        wood.thick(min(top, floor), max(top, floor), mouth, along),
        wood.turned(across, Z, walls[0], *turn),
        _mouth_fence(cut.start, half, top, (dx, dy), wood),
    )


def _mouth_fence(start: Point, half: float, top: float, way: Point, wood: Wood) -> Measured | None:
    """From the nearer end or edge to the nearer wall of a trench, at its mouth where it starts; None at a slant."""
    axis = 0 if abs(way[0]) < 1e-9 else 1 if abs(way[1]) < 1e-9 else None
    if axis is None:
        return None
    return to_the_nearer((*start, top), half, axis, wood)


def _sawn_groove(cut: SawnGroove, wood: Wood) -> Iterator[Figures]:
    """Between its walls half way down, and from its mouth to its floor along one of them."""
    half, down = scaled(cut.across, cut.width / 2.0), scaled(cut.into, cut.depth)
    within, wall = added(cut.at, scaled(down, 0.5)), added(cut.at, half)
    wide = wood.span(added(within, scaled(half, -1.0)), added(within, half), cut.across, cut.into)
    deep, sawn = wood.span(wall, added(wall, down), cut.into, cut.across), sawn_face(cut, wood.part)
    if sawn is None:
        askew = max(map(abs, cut.across)) < 1.0 - SAME_POINT
        yield Figures(wide, deep, _floor_angle(cut, wood), None if askew else _to_slot(cut, wood))
    elif abs(cut.across[2]) > 1.0 - _ON:
        yield Figures(wide, deep, None, wood.thick(0.0, cut.at[2], added(cut.at, down), cut.into))
    else:
        arris, near = from_arris(cut, sawn, wood.part)
        way = scaled(cut.across, math.copysign(1.0, near[2] - arris[2]) * math.copysign(1.0, cut.across[2]))
        yield Figures(wide, deep, None, wood.span(arris, near, way, cut.into), _groove_tilt(cut, wood))


def _groove_tilt(cut: SawnGroove, wood: Wood) -> Measured:
    """How far its floor leans from upright, seen square to the way down and level."""
    level = math.hypot(cut.into[0], cut.into[1])
    right: Vector = (cut.into[0] / level, cut.into[1] / level, 0.0)
    turn = math.degrees(math.atan2(level, -cut.into[2]))
    return wood.turned(right, Z, added(cut.at, scaled(cut.into, cut.depth)), *sorted((90.0, turn)))


def _floor_angle(cut: SawnGroove, wood: Wood) -> Measured:
    """Between the floor of a key's slot and the side of the part, where they meet."""
    x, y, z = cut.into
    level, end = math.hypot(x, y), slot_end(cut)
    right: Vector = (x / level, y / level, 0.0)
    turn = math.degrees(math.atan2(level * math.copysign(1.0, z), -abs(z)))
    return wood.turned(right, Z, end, *sorted((180.0, turn % 360.0)))


def _to_slot(cut: SawnGroove, wood: Wood) -> Measured:
    """From the near edge, or the left end, to the middle of a key's slot."""
    axis, (x, y, z) = (1 if abs(cut.into[0]) >= abs(cut.into[1]) else 0), slot_end(cut)
    return wood.span((x, 0.0, z), (x, y, z), Y, X) if axis else wood.span((0.0, y, z), (x, y, z), X, Y)


def _slanted_dado(cut: SlantedDado, wood: Wood) -> Iterator[Figures]:
    """Between its walls at the floor, down the deeper one, and from the nearer end or edge to its mouth."""
    box, (first, second) = SlantedTrench(cut, wood.part), cut.floor_edges
    across = cut.across if cut.across[cut.axis] > 0.0 else scaled(cut.across, -1.0)
    half = (cut.mouth[1] - cut.mouth[0]) / 2.0
    yield Figures(
        wood.span(first, second, across, cut.into),
        wood.span(*box.deep, cut.into, across),
        None,
        to_the_nearer(cut.at, half, cut.axis, wood),
        wood.turned(box.aside, box.inward, box.down, 90.0 - box.lean, 90.0),
    )


LAP_FIGURES: dict[type[Cut], Told] = {
    Lap: _lap,
    Slot: _slot,
    DovetailTongue: _dovetail_tongue,
    DovetailSocket: _dovetail_socket,
    SawnGroove: _sawn_groove,
    SlantedDado: _slanted_dado,
}
