"""What a setting's figures measure, for the cuts made in any board: in step with `drawings/lists/stock_settings`."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from drawings.cards.wood import Wood, X, Y, Z
from drawings.lists.bore_rows import BoreRow
from drawings.lists.fences import Fence, nearer_fence, saw_stop, sawn_middle, stop_point
from drawings.lists.hole_entry import Entry, entry
from drawings.lists.notch_walls import Walls, notch_walls
from drawings.lists.stock_settings import has_depth, runs_through
from drawings.lists.stock_words import STEEPEST_BLADE
from drawings.paper.measured import Measured, Vector
from drawings.parts.edge_sizes import sizes
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.gains import HingeGain
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.pockets import Pocket
from model.cuts.sawn import SawCut
from model.cuts.slots import SlottedHole
from model.cuts.through import Notch
from model.part import Part
from model.placement import added, cross, dot, scaled
from model.tolerance import SAME_POINT


@dataclass(frozen=True)
class Figures:
    """What a setting's figures measure on one part; None for what it does not set, or can't be asked of the wood."""

    width: Measured | None = None
    depth: Measured | None = None
    angle: Measured | None = None
    fence: Measured | None = None
    tilt: Measured | None = None


#: The figures of every setting that one kind of cut asks for, in the order of its settings.
Told = Callable[[Any, Wood], Iterator[Figures]]


def channel(cut: Channel, wood: Wood, angle: Measured | None = None) -> Iterator[Figures]:
    """What a trench's figures measure: its width, its depth, and its nearer wall from the end or edge on the fence."""
    (dx, dy), half, thick = cut.direction, cut.width / 2.0, wood.part.thickness
    along, across = (dx, dy, 0.0), (-dy, dx, 0.0)
    top, floor = (thick, thick - cut.depth) if cut.side == "face" else (0.0, cut.depth)
    middle = ((cut.start[0] + cut.end[0]) / 2.0, (cut.start[1] + cut.end[1]) / 2.0, (top + floor) / 2.0)
    walls = added(middle, scaled(across, -half)), added(middle, scaled(across, half))
    wide, deep = wood.span(*walls, across, Z), wood.thick(min(top, floor), max(top, floor), middle, along)
    axis = 0 if abs(dx) < 1e-9 else 1 if abs(dy) < 1e-9 else None
    fence = None if axis is None else to_the_nearer(middle, half, axis, wood)
    yield Figures(wide, deep, angle, fence)


def to_the_nearer(at: Vector, half: float, axis: int, wood: Wood) -> Measured:
    """From the nearer end (axis 0) or edge (1) to the nearer wall of a trench or row about a point."""
    fence = nearer_fence(wood.part, axis, at[axis] - half, at[axis] + half)
    return set_from(fence, at, wood, X if axis == 1 and half == 0.0 else Z)


def set_from(fence: Fence, at: Vector, wood: Wood, up: Vector = Z) -> Measured:
    """From where a fence or a stop touches to what is set from it, along a line through a point."""
    low, high = sorted((fence.end, fence.wall))
    return wood.span(_with(at, fence.axis, low), _with(at, fence.axis, high), (X, Y)[fence.axis], up)


def _with(p: Vector, axis: int, value: float) -> Vector:
    return (value, p[1], p[2]) if axis == 0 else (p[0], value, p[2])


def plunged_height(at: Vector, into: Vector, wood: Wood) -> Measured | None:
    """From the back side to the middle of the mouth of what goes into an edge; None into a side."""
    found = _entry(at, into, wood)
    return None if found.side else wood.thick(0.0, found.at[2], found.at, found.inward)


def lean(at: Vector, into: Vector, wood: Wood) -> Measured | None:
    """How far a hole leans off square to the side or the edge that it goes into; None for a square one."""
    found = _entry(at, into, wood)
    if not found.leaning:
        return None
    return wood.turned(found.aside, found.inward, found.at, 90.0 - found.lean, 90.0)


def _entry(at: Vector, into: Vector, wood: Wood) -> Entry:
    return entry(at, into, wood.part)


def row_figures(row: BoreRow, wood: Wood) -> Iterator[Figures]:
    """Of a row of bores set together."""
    bore = row.first
    fence = to_the_nearer(bore.at, 0.0, 1, wood)
    yield Figures(wood.diameter(bore.at, bore.into), wood.depth(bore.at, bore.into, bore.diameter), None, fence)


def _bore(cut: Bore, wood: Wood) -> Iterator[Figures]:
    has = has_depth(_entry(cut.at, cut.into, wood), cut, wood.part)
    deep = wood.depth(cut.at, cut.into, cut.diameter) if has else None
    height, leaning = plunged_height(cut.at, cut.into, wood), lean(cut.at, cut.into, wood)
    yield Figures(wood.diameter(cut.at, cut.into), deep, leaning, height)


def _counterbore(cut: Counterbore, wood: Wood) -> Iterator[Figures]:
    wide, height = wood.diameter(cut.at, cut.into), plunged_height(cut.at, cut.into, wood)
    leaning = lean(cut.at, cut.into, wood)
    yield Figures(wide, wood.depth(cut.at, cut.into, cut.diameter), leaning, height)
    from_side = leaning is not None and height is None
    yield Figures(wide, _right_through(cut, wood, from_side), leaning, height)


def _right_through(cut: Counterbore, wood: Wood, leaning: bool) -> Measured:
    """The thickness of the wood; along a leaning hole from one side to the other."""
    if not leaning:
        return wood.shown(X, Z).extent((0.0, 1.0))
    far = added(cut.at, scaled(cut.into, wood.part.thickness / abs(cut.into[2])))
    x, y, z = cut.into
    level = math.hypot(x, y)
    return wood.span(cut.at, far, cut.into, (-x * z / level, -y * z / level, level))


def _biscuit_slot(cut: BiscuitSlot, wood: Wood) -> Iterator[Figures]:
    yield _let_in(cut.at, cut.at, cut.into, cut.along, BISCUIT_THICKNESS, cut.depth, wood)


def _let_in(
    between: Vector, at: Vector, into: Vector, along: Vector, width: float, depth: float, wood: Wood
) -> Figures:
    """A slot so wide, at a point between its walls, and so deep, seen along its length and across it."""
    across = cross(into, along)
    walls = added(between, scaled(across, -width / 2.0)), added(between, scaled(across, width / 2.0))
    deep = wood.span(at, added(at, scaled(into, depth)), into, along)
    return Figures(wood.span(*walls, across, into), deep, None, plunged_height(at, into, wood))


def _slotted_hole(cut: SlottedHole, wood: Wood) -> Iterator[Figures]:
    depth = min(cut.depth, wood.part.thickness) if entered(cut.into) is not None else cut.depth
    inside = added(cut.at, scaled(cut.into, (_widened(cut, wood.part) + cut.depth) / 2.0))
    if runs_through(cut, wood.part):
        wide = _let_in(inside, cut.at, cut.into, cut.along, cut.width, cut.depth, wood).width
        yield Figures(wood.diameter(cut.at, cut.into) if cut.round else wide)
    elif cut.round:
        deep = wood.depth(cut.at, cut.into, cut.width)
        yield Figures(wood.diameter(cut.at, cut.into), deep, None, plunged_height(cut.at, cut.into, wood))
    else:
        yield _let_in(inside, cut.at, cut.into, cut.along, cut.width, depth, wood)


def _widened(cut: SlottedHole, part: Part) -> float:
    """How deep other slots about the same line, such as a screw head's, have taken its walls away, mm."""
    about = (c for c in part.cuts if isinstance(c, SlottedHole) and c.width > cut.width and c.into == cut.into)
    deep = (dot(c.into, added(c.at, scaled(cut.at, -1.0))) + c.depth for c in about if _on_axis(cut, c.at))
    return max(deep, default=0.0)


def _on_axis(cut: SlottedHole, at: Vector) -> bool:
    return math.hypot(*cross(cut.into, added(at, scaled(cut.at, -1.0)))) < SAME_POINT


def _pocket(cut: Pocket, wood: Wood) -> Iterator[Figures]:
    """Along the screw: how wide it is at the seat of its head, how far it leans, how far the seat is from the end."""
    seat = added(cut.at, scaled(cut.into, -cut.collar))
    level = math.hypot(cut.into[0], cut.into[1])
    right: Vector = (cut.into[0] / level, cut.into[1] / level, 0.0)
    back = math.degrees(math.atan2(-cut.into[2], -level)) % 360.0
    lean = wood.turned(right, Z, seat, *sorted((180.0, back)))
    along = wood.span(seat, cut.at, cut.into, cross(right, Z))
    yield Figures(wood.diameter(seat, cut.into), None, lean, along)


def _hinge_gain(cut: HingeGain, wood: Wood) -> Iterator[Figures]:
    far, deep = added(cut.at, scaled(cut.across, cut.leaf)), added(cut.at, scaled(cut.into, cut.depth))
    edge = wood.span(cut.at, cut.at, cut.across, cut.into)
    yield Figures(
        wood.span(cut.at, far, cut.across, cut.into), wood.span(cut.at, deep, cut.into, cut.across), None, edge
    )


def _rabbet(cut: Rabbet, wood: Wood) -> Iterator[Figures]:
    profile, (size, _) = wood.profile(cut), sizes(cut, wood.part)
    low, high = sorted((size.p, size.q), key=lambda p: p[1])
    edge = profile.inward((0.0, size.p[1]), (0.0, size.p[1]))
    yield Figures(profile.inward(size.p, size.q), profile.upward(low, high), None, edge)


def _tongue(cut: Tongue, wood: Wood) -> Iterator[Figures]:
    profile, top = wood.profile(cut), cut.rise + cut.thickness
    thick, long = profile.upward((0.0, cut.rise), (0.0, top)), profile.inward((0.0, top), (cut.length, top))
    yield Figures(thick, long, None, profile.upward((cut.length, 0.0), (0.0, cut.rise)))


def _edge_groove(cut: EdgeGroove, wood: Wood) -> Iterator[Figures]:
    profile, top = wood.profile(cut), cut.rise + cut.width
    wide, deep = profile.upward((0.0, cut.rise), (0.0, top)), profile.inward((0.0, top), (cut.depth, top))
    yield Figures(wide, deep, None, profile.upward((0.0, 0.0), (0.0, cut.rise)))


def _bead(cut: Bead, wood: Wood) -> Iterator[Figures]:
    level = wood.part.thickness if cut.side == "face" else 0.0
    deep = level - cut.radius if cut.side == "face" else level + cut.radius
    profile, beyond = wood.profile(cut), cut.inset + 2.0 * cut.radius + cut.quirk
    low, high = sorted(((beyond, deep), (beyond, level)), key=lambda p: p[1])
    start = (cut.inset, deep)
    inset = profile.inward((0.0, deep), start)
    yield Figures(profile.inward(start, (beyond, level)), profile.upward(low, high), None, inset)


def _bevel(cut: Bevel, wood: Wood) -> Iterator[Figures]:
    kept, down = (wood.part.thickness, -90.0) if cut.keep == "face" else (0.0, 90.0)
    start, end = sorted((down, down + cut.angle if cut.keep == "face" else down - cut.angle))
    yield Figures(angle=wood.profile(cut).angle((0.0, kept), start, end))


def _ease(cut: Ease, wood: Wood) -> Iterator[Figures]:
    height = cut.radius if cut.sides == "back" else wood.part.thickness - cut.radius
    rounded = wood.profile(cut).radius((cut.radius, height))
    yield Figures(rounded, rounded)


def _chamfer(cut: Chamfer, wood: Wood) -> Iterator[Figures]:
    level, low = (0.0, cut.width) if cut.sides == "back" else (wood.part.thickness, wood.part.thickness - cut.width)
    profile = wood.profile(cut)
    a, b = sorted(((0.0, low), (cut.width, level)), key=lambda p: p[1])
    turn = (0.0, 45.0) if level else (315.0, 360.0)
    leaning = profile.angle((0.0, low), *turn)
    yield Figures(profile.inward((0.0, low), (cut.width, level)), profile.upward(a, b), leaning)


def _raised_edge(cut: RaisedEdge, wood: Wood) -> Iterator[Figures]:
    """From the edge to the field, down from the field's side to the tongue, and the slope over the tongue."""
    profile, thick, face = wood.profile(cut), wood.part.thickness, cut.side == "face"
    level, tongue = (thick, cut.tongue) if face else (0.0, thick - cut.tongue)
    wide = profile.inward((0.0, tongue), (cut.width, level))
    deep = profile.upward((0.0, min(level, tongue)), (0.0, max(level, tongue)))
    turn = (0.0, cut.angle) if face else (-cut.angle, 0.0)
    rise = profile.angle((cut.flat, tongue), *turn) if cut.angle else None
    yield Figures(wide, deep, rise, profile.inward((0.0, tongue), (0.0, tongue)))


def _moulded(cut: Moulding, wood: Wood) -> Iterator[Figures]:
    """The whole reach of its line, in from the edge and down from the side."""
    found, profile = [p for size in sizes(cut, wood.part) for p in (size.p, size.q)], wood.profile(cut)
    level = wood.part.thickness if cut.side == "face" else 0.0
    deepest = max(found, key=lambda p: abs(p[1] - level))
    furthest = max(found, key=lambda p: p[0])
    low, high = sorted(((furthest[0], level), deepest), key=lambda p: p[1])
    wide, deep = profile.inward((0.0, deepest[1]), furthest), profile.upward(low, high)
    edge = profile.inward((0.0, deepest[1]), (0.0, deepest[1]))
    yield Figures(wide, deep, None, edge)


def _notch(cut: Notch, wood: Wood) -> Iterator[Figures]:
    along, across = notch_walls(cut, wood.part)
    yield Figures(between(along, X, Y, wood), between(across, Y, X, wood))


def between(walls: Walls, along: Vector, up: Vector, wood: Wood) -> Measured | None:
    """From wall to wall of what goes right through."""
    return wood.span((*walls[0], 0.0), (*walls[1], 0.0), along, up) if walls else None


def _saw_cut(cut: SawCut, wood: Wood) -> Iterator[Figures]:
    """At the near edge or the left end, on the side that lies down."""
    stop, (at, _) = saw_stop(cut, wood.part), stop_point(cut, wood.part)
    line, face = sawn_middle(cut, wood.part, at[2]), sawn_middle(cut, wood.part)
    cross_grain = stop.axis == 0
    fence, tilt = set_from(stop, at, wood), tilted(cut.out, face, wood)
    if cross_grain and abs(cut.bevel) > STEEPEST_BLADE:
        yield Figures(angle=_planed(cut.out, face, wood), fence=fence)
    else:
        yield Figures(None, None, off_square(cut.out, line, wood, cross_grain), fence, tilt)


def _planed(out: Vector, at: Vector, wood: Wood) -> Measured:
    """How far a planed slope rises from the back side."""
    tilt = tilted(out, at, wood)
    low, high = tilt.along
    turn = low if abs(high - 90.0) < 1e-9 else high
    return wood.turned(tilt.shown.right, Z, at, *((0.0, turn) if turn < 90.0 else (turn, 180.0)))


def off_square(out: Vector, at: Vector, wood: Wood, cross_grain: bool = True) -> Measured:
    """How far the line of a sawn face on a side is from square across, or from the grain, at a point of it."""
    square = 90.0 if cross_grain else 0.0
    turn = math.degrees(math.atan2(out[0], -out[1]))
    return wood.turned(X, Y, at, *sorted((square, _upright(turn, square))))


def tilted(out: Vector, at: Vector, wood: Wood) -> Measured:
    """How far a sawn face leans from upright, seen along it at a point of it."""
    level = math.hypot(out[0], out[1])
    right: Vector = (out[0] / level, out[1] / level, 0.0)
    if right[0] + right[1] < 0.0:
        right = scaled(right, -1.0)
    turn = math.degrees(math.atan2(right[0] * out[0] + right[1] * out[1], -out[2]))
    return wood.turned(right, Z, at, *sorted((90.0, _upright(turn, 90.0))))


def _upright(turn: float, square: float) -> float:
    """A line's direction, of its two the one within a right angle of `square`, degrees."""
    return square + (turn - square + 90.0) % 180.0 - 90.0


STOCK_FIGURES: dict[type[Cut], Told] = {
    Channel: channel,
    Bore: _bore,
    Counterbore: _counterbore,
    BiscuitSlot: _biscuit_slot,
    SlottedHole: _slotted_hole,
    Pocket: _pocket,
    HingeGain: _hinge_gain,
    Rabbet: _rabbet,
    Tongue: _tongue,
    EdgeGroove: _edge_groove,
    Bead: _bead,
    Bevel: _bevel,
    Ease: _ease,
    Chamfer: _chamfer,
    Moulding: _moulded,
    RaisedEdge: _raised_edge,
    Notch: _notch,
    SawCut: _saw_cut,
}
