"""Where a part is cut through to show work that leans in its true angles: shoulders, saw cuts, mortises, pockets, slots
for splines and keys."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from drawings.cutting.finished import sawn_lines
from drawings.lists.joinery_sizes import from_arris, sawn_face, slot_end
from drawings.paper.sheet import Point
from drawings.parts.cross_section import Cutting
from drawings.parts.mortise_box import MortiseBox
from drawings.parts.slanted_trench import SlantedTrench
from drawings.parts.trenches import trenches
from drawings.parts.wanted_section import Corner, Wanted, ends_in_words, rightward
from model.cuts.mortises import Mortise
from model.cuts.pockets import Pocket
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.tenons import TenonedEnd
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled, unit

_UP: Vector = (0.0, 0.0, 1.0)
_SQUARE = 1e-6
#: Where along its line a part is cut through to show how its end or its edge is sawn: clear of its middle.
_ASIDE = (0.3, 0.7, 0.15, 0.85, 0.45)
#: A face that runs so much further than it rises is planed to a slope, not sawn at an angle (tangent of 60 degrees).
_STEEP = math.sqrt(3.0) + 1e-6


def saw_section(cut: SawCut, part: Part) -> Iterator[Wanted]:
    """A leaning cut, cut through square to its line on the side: there the blade's tilt is seen true."""
    if cut.upright:
        return
    (nx, ny, nz), thick = cut.out, part.thickness
    lines = sawn_lines(cut, part, thick if nz > 0.0 else 0.0)
    if not lines:
        return
    longest = max(lines, key=lambda e: e.length)
    x, y = _clear_of_trenches([longest.point(t) for t in _ASIDE], part)
    cutting = Cutting.through((x, y, 0.0), rightward(unit((nx, ny, 0.0))))
    corner, long = _tilt(cut.kept, cutting, (0.0, thick))
    low, high = sorted((corner.at[0], long[0]))
    place = f"{cut.end} end" if cut.end in ("left", "right") else f"{cut.end} edge"
    yield Wanted(cut.name, cutting, low, high, (), (corner,), place=place)


def _clear_of_trenches(spots: Sequence[Point], part: Part) -> Point:
    """The nearest to the near edge of the first two spots, or the first of all that no trench runs out at."""
    sunk = [t.outline for c in part.cuts for t in trenches(c, part)]
    usual = sorted(spots[:2], key=lambda p: p[1])
    return next((p for p in (*usual, *spots) if not any(t.contains(p) for t in sunk)), usual[0])


def shoulder_corner(cut: TenonedEnd, cutting: Cutting, part: Part) -> Corner:
    """The angle that a shoulder leans off upright, on the side where it leaves the part shorter."""
    stack = sorted(cut.tenons, key=lambda t: t.rise)
    first, last = stack[0], stack[-1]
    low = 0.0 if first.rise > _SQUARE else first.rise + first.thickness
    high = part.thickness if last.rise + last.thickness < part.thickness - _SQUARE else last.rise
    return _tilt(cut.shoulder, cutting, (low, high))[0]


def shoulder_section(cut: TenonedEnd, part: Part) -> Iterator[Wanted]:
    """A shoulder that leans both ways, cut through square to its line on the side."""
    nx, ny, nz = cut.shoulder.normal
    if min(abs(ny), abs(nz)) < _SQUARE:
        return
    tenon = min(cut.tenons, key=lambda t: t.rise)
    y, z = tenon.middle
    x = (cut.shoulder.offset - ny * y - nz * z) / nx
    cutting = Cutting.through((x, y, 0.0), rightward(unit((nx, ny, 0.0))))
    corner, h = shoulder_corner(cut, cutting, part), cutting.seen((x, y, z))[0]
    yield Wanted("shoulder", cutting, h, h, (), (corner,), place=f"{cut.end} end, square to it")


def _tilt(plane: Plane, cutting: Cutting, heights: tuple[float, float]) -> tuple[Corner, Point]:
    """How far a plane leans off upright, or a gentle one off level, between two heights, in a section square to it: at
    the shorter side, with the point of the plane on the other."""
    along = dot(plane.normal, cutting.right)
    low, high = (((plane.offset - plane.normal[2] * z) / along, z) for z in heights)
    short, long = (high, low) if plane.normal[2] > 0.0 else (low, high)
    rise, run = long[1] - short[1], long[0] - short[0]
    turn = math.degrees(math.atan2(rise, run)) % 360.0
    if abs(run) > _STEEP * abs(rise):
        level = (0.0 if turn < 180.0 else 360.0) if run > 0.0 else 180.0
        return Corner(short, *sorted((turn, level)), sloped=True), long
    return Corner(short, *sorted((turn, 90.0 if rise > 0.0 else 270.0))), long


def mortise_section(cut: Mortise, part: Part) -> Iterator[Wanted]:
    """A leaning mortise, in the plane that its middle line and square to its mouth lie in."""
    inward, aside = MortiseBox(cut).inward, MortiseBox(cut).aside
    upright = abs(inward[2]) > 1.0 - _SQUARE
    right = rightward(aside if upright else inward)
    up = _UP if upright else _upward(aside)
    cutting = Cutting.through(cut.at, right, up)
    half = min(size / 2.0 / max(abs(dot(aside, way)), _SQUARE) for way, size in _sizes(cut))
    wall, floor = added(cut.at, scaled(aside, half)), added(cut.at, scaled(cut.into, cut.depth))
    corner = replace(_between(cutting, wall, inward, cut.into), outside=True)
    reach = [
        cutting.seen(p) for p in (wall, added(cut.at, scaled(aside, -half)), floor, added(floor, scaled(aside, half)))
    ]
    hs, vs = zip(*reach, strict=True)
    axes = () if cut.through else ((cutting.seen(cut.at), cutting.seen(floor)),)
    heights = None if upright else (min(vs), max(vs))
    yield Wanted(cut.name, cutting, min(hs), max(hs), (), (corner,), axes=axes, heights=heights)


def _sizes(cut: Mortise) -> tuple[tuple[Vector, float], tuple[Vector, float]]:
    return (cut.along, cut.length), (cut.across, cut.width)


def _upward(way: Vector) -> Vector:
    """A direction or its opposite: whichever goes up, or where both are level runs with the part's own axes."""
    level = abs(way[2]) < _SQUARE
    return way if way[2] > _SQUARE or (level and way[0] + way[1] > 0.0) else scaled(way, -1.0)


def _between(cutting: Cutting, at: Vector, first: Vector, second: Vector) -> Corner:
    """The lesser angle at a point between two directions of a section."""
    a, b = (math.degrees(math.atan2(*reversed(cutting.way(v)))) % 360.0 for v in (first, second))
    start, end = (a, b) if (b - a) % 360.0 < 180.0 else (b, a)
    return Corner(cutting.seen(at), start, start + (end - start) % 360.0)


def pocket_section(cut: Pocket, part: Part) -> Iterator[Wanted]:
    """Along the screw: its angle to the side, and from the seat of its head to where it comes out."""
    level = rightward(unit((cut.into[0], cut.into[1], 0.0)))
    cutting, side = Cutting.through(cut.at, level), part.thickness if cut.into[2] < 0.0 else 0.0
    seat = added(cut.at, scaled(cut.into, -cut.collar))
    deep = cross(cutting.toward, cut.into)
    deep = deep if deep[2] * cut.into[2] > 0.0 else scaled(deep, -1.0)
    wall = added(seat, scaled(deep, cut.diameter / 2.0))
    mouth = added(wall, scaled(cut.into, (side - wall[2]) / cut.into[2]))
    corner = replace(_between(cutting, mouth, (cut.into[0], cut.into[1], 0.0), cut.into), outside=True)
    axis = cutting.seen(seat), cutting.seen(cut.at)
    hs = [axis[0][0], axis[1][0], corner.at[0]]
    place = ends_in_words(cut.into)
    yield Wanted(cut.name, cutting, min(hs), max(hs), (), (corner,), axes=(axis,), place=place)


def groove_section(cut: SawnGroove, part: Part) -> Iterator[Wanted]:
    """A groove sawn at a slant into a sawn face, cut through across its run; a slot for a key, along it."""
    sawn = sawn_face(cut, part)
    yield from _key_section(cut) if sawn is None else _spline_section(cut, sawn, part)


def _spline_section(cut: SawnGroove, sawn: SawCut, part: Part) -> Iterator[Wanted]:
    run = cross(cut.into, cut.across)
    right = rightward(unit(cross(_UP, run)))
    up = _upward(cross(run, right))
    at = added(cut.at, scaled(run, _to_the_middle(cut, run, part)))
    cutting, half = Cutting.through(at, right, up), scaled(cut.across, cut.width / 2.0)
    arris, near = from_arris(replace(cut, at=at), sawn, part)
    far = added(near, scaled(half, 2.0 if dot(added(arris, scaled(near, -1.0)), half) < 0.0 else -2.0))
    floor = added(at, scaled(cut.into, cut.depth))
    out = cutting.way(scaled(cut.into, -1.0))
    lines = [_beside(cutting.seen(p), cutting.seen(q), out) for p, q in ((arris, near), (near, far))]
    axis = cutting.seen(at), cutting.seen(floor)
    hs = [p[0] for line in (*lines, axis) for p in line]
    place = ends_in_words(scaled(cut.into, -1.0))
    yield Wanted(cut.name, cutting, min(hs), max(hs), (), (), tuple(lines), place, (axis,))


def _to_the_middle(cut: SawnGroove, run: Vector, part: Part) -> float:
    """How far along its run a groove comes to the middle of the part's width, mm."""
    _, y0, _, y1 = part.outline.bounds
    return ((y0 + y1) / 2.0 - cut.at[1]) / run[1] if abs(run[1]) > _SQUARE else 0.0


def _beside(p: Point, q: Point, out: Point) -> tuple[Point, Point]:
    """Two points in the order in which a dimension along them stands on the outer side."""
    left = p[1] - q[1], q[0] - p[0]
    return (p, q) if left[0] * out[0] + left[1] * out[1] > 0.0 else (q, p)


def _key_section(cut: SawnGroove) -> Iterator[Wanted]:
    right = rightward(unit(cross(_UP, cut.across))) if abs(cut.across[2]) < 1.0 - _SQUARE else _UP
    cutting = Cutting.through(cut.at, right, _upward(cross(cut.across, right)))
    floor = added(cut.at, scaled(cut.into, cut.depth))
    outer = slot_end(cut)
    flat = added(outer, scaled(cut.at, -1.0))
    corner = _between(cutting, outer, scaled(flat, -1.0), added(floor, scaled(outer, -1.0)))
    axis = cutting.seen(cut.at), cutting.seen(floor)
    hs = [axis[0][0], axis[1][0], corner.at[0]]
    place = ends_in_words(scaled(cut.into, -1.0))
    yield Wanted(cut.name, cutting, min(hs), max(hs), (), (corner,), place=place, axes=(axis,))


def slanted_section(cut: SlantedDado, part: Part) -> Iterator[Wanted]:
    """A slanted dado, cut through across its run: its width, how deep its deeper wall is, and its lean."""
    box = SlantedTrench(cut, part)
    cutting = Cutting.through(cut.at, rightward(box.aside))
    ends = [(place, box.level) for place in cut.mouth]
    feet = [cutting.seen(p) for p in cut.floor_edges]
    mouth, foot, shallow = ends[cut.deep_wall], feet[cut.deep_wall], feet[1 - cut.deep_wall]
    corner = replace(_between(cutting, cutting.point(*mouth), box.inward, cut.into), outside=True)
    wide, out = (foot[0] - shallow[0], foot[1] - shallow[1]), cutting.way(scaled(cut.into, -1.0))
    lines = _beside(shallow, foot, out), _beside(mouth, foot, wide)
    hs = [p[0] for p in (*ends, *feet)]
    yield Wanted(cut.name, cutting, min(hs), max(hs), (), (corner,), lines)
