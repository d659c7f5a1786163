"""Work that leans made again: planes through the places where they cross the part's arrises, mortises by their corners,
pockets, splines and keys by their angles."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from drawings.cutting.finished import sawn_lines
from drawings.lists.joinery_sizes import from_arris, sawn_corner, sawn_face, slot_angle, slot_end
from drawings.parts.lean_cells import looking_at
from drawings.parts.located import holes
from drawings.parts.mortise_box import MortiseBox
from drawings.proof.holes_made_again import direction, mouth
from drawings.proof.maker import Maker, axis_of
from drawings.proof.printed_numbers import IncompleteError
from model.cuts.mortises import Mortise
from model.cuts.pockets import Pocket
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.placement import Vector, added, dot, scaled, square_to, unit

_SQUARE = 1e-6
#: An angle that prints as none, degrees.
_NO_ANGLE = 0.05
_WALLS = 3


def sloping(plane: Plane, across: Iterable[float], heights: Iterable[float], maker: Maker) -> Plane:
    """A plane across the grain, or along it, through all the printed places where it crosses lines lengthways (or
    crossways) at some of these distances across the part (or along it) and heights. Raises IncompleteError where they
    are too few."""
    import numpy as np

    axis = 0 if abs(plane.normal[0]) >= abs(plane.normal[1]) else 1
    rows, found = [], []
    for other in dict.fromkeys(across):
        for z in dict.fromkeys(heights):
            met = (plane.offset - plane.normal[1 - axis] * other - plane.normal[2] * z) / plane.normal[axis]
            try:
                rows.append((1.0, maker.numbers.place(1 - axis, other), maker.z(z)))
                found.append(maker.numbers.place(axis, met))
            except IncompleteError:
                rows = rows[: len(found)]
    if len(found) < _WALLS or np.linalg.matrix_rank(np.array(rows)) < _WALLS:
        raise IncompleteError(f"{maker.numbers.part}: a leaning face is located in too few places")
    points = [_point(axis, met, *row[1:]) for met, row in zip(found, rows, strict=True)]
    return _through(points, plane)


def _point(axis: int, met: float, other: float, z: float) -> Vector:
    return (met, other, z) if axis == 0 else (other, met, z)


def saw_cut(cut: SawCut, maker: Maker) -> SawCut:
    """Through where it leaves the back side and the face side; one that leaves only one of them through that, leaning
    as its section tells."""
    lines = [(z, sawn_lines(cut, maker.part, z)) for z in (0.0, maker.part.thickness)]
    ends = [(*p, z) for z, found in lines for e in found for p in (e.start, e.end)]
    if all(found for _, found in lines):
        made = _through([(*maker.point((x, y)), maker.z(z)) for x, y, z in ends], cut.kept)
        return _moved_onto(made, cut)
    height, found = next((z, found) for z, found in lines if found)
    longest = max(found, key=lambda e: e.length)
    (ax, ay), (bx, by) = maker.point(longest.start), maker.point(longest.end)
    lean = math.asin(abs(cut.out[2]))
    lean = math.radians(maker.numbers.size(math.degrees(lean), "angle")) if lean else 0.0
    level = unit((by - ay, ax - bx, 0.0))
    level = level if dot(level, cut.out) > 0.0 else scaled(level, -1.0)
    up = math.copysign(math.sin(lean), cut.out[2])
    out = added(scaled(level, math.cos(lean)), (0.0, 0.0, up))
    return _moved_onto(Plane(out, dot(out, (ax, ay, maker.z(height)))), cut)


def _moved_onto(plane: Plane, cut: SawCut) -> SawCut:
    off = plane.offset - dot(plane.normal, cut.at)
    return replace(cut, at=added(cut.at, scaled(plane.normal, off)), out=plane.normal)


def _through(points: Sequence[Vector], like: Plane) -> Plane:
    """The plane nearest to four points or more that faces about as another does."""
    import numpy as np

    axis = 0 if abs(like.normal[0]) >= abs(like.normal[1]) else 1
    rows = np.array([(1.0, p[1 - axis], p[2]) for p in points])
    (at, turn, lean), *_ = np.linalg.lstsq(rows, np.array([p[axis] for p in points]), rcond=None)
    normal = [0.0, 0.0, -float(lean)]
    normal[axis], normal[1 - axis] = 1.0, -float(turn)
    size = math.copysign(math.hypot(*normal), like.normal[axis])
    out = (normal[0] / size, normal[1] / size, normal[2] / size)
    return Plane(out, float(at) / size)


def pocket(cut: Pocket, maker: Maker) -> Pocket:
    """From the side it is bored from down to the seat, and on from there to where the screw comes out."""
    (told,) = holes(cut, maker.part)
    (_, (_, depth)), into = told.diameters, direction(told.entry, maker)
    assert depth is not None
    numbers = maker.numbers
    collar = numbers.size(cut.collar, "length")
    at = added(mouth(told.entry, maker), scaled(into, numbers.size(depth, "depth") + collar))
    wide, narrow = (numbers.size(d, "diameter") for d in (cut.diameter, cut.clearance))
    return Pocket(at, into, wide, collar, narrow)


def groove(cut: SawnGroove, maker: Maker) -> SawnGroove:
    """A spline's groove square to the sawn face it is in; a key's slot by the angle of its floor."""
    sawn = sawn_face(cut, maker.part)
    if sawn is None:
        return _key_slot(cut, maker)
    made = saw_cut(sawn, maker)
    if abs(cut.across[2]) > 1.0 - _SQUARE:
        z, width = maker.stretch(cut.at, cut.across, cut.width)
        at, across = (made.at[0], made.at[1], z), cut.across
    else:
        width = maker.numbers.size(cut.width, "length")
        across = unit(square_to(cut.across, made.out))
        at = _from_arris(cut, sawn, made, across, width, maker)
    depth = maker.numbers.size(cut.depth, "length")
    return replace(cut, at=at, into=scaled(made.out, -1.0), across=across, width=width, depth=depth)


def _from_arris(cut: SawnGroove, sawn: SawCut, made: SawCut, across: Vector, width: float, maker: Maker) -> Vector:
    """The middle of a groove's mouth, so far down the sawn face from its sharp arris."""
    true, near = from_arris(cut, sawn, maker.part)
    far = maker.numbers.size(math.dist(true, near), "length") + width / 2.0
    foot = added(cut.at, scaled(made.out, made.kept.offset - dot(made.out, cut.at)))
    arris = added(foot, scaled(across, (maker.z(true[2]) - foot[2]) / across[2]))
    back = dot(added(cut.at, scaled(true, -1.0)), across)
    return added(arris, scaled(across, math.copysign(far, back)))


def _key_slot(cut: SawnGroove, maker: Maker) -> SawnGroove:
    """Across the arris of the corner that it is let into, by where its floor ends on the side, and at what angle."""
    sawn = sawn_corner(cut, maker.part)
    if sawn is None or abs(cut.across[2]) > _SQUARE:
        raise IncompleteError(f"{maker.numbers.part}: a key's slot off the sawn corner can't be made again yet")
    made, end = saw_cut(sawn, maker), slot_end(cut)
    across = unit((-made.out[1], made.out[0], 0.0))
    across = across if dot(across, cut.across) > 0.0 else scaled(across, -1.0)
    a, b = (
        maker.point((end[0] + s * cut.across[0], end[1] + s * cut.across[1]))
        for s in (-cut.width / 2.0, cut.width / 2.0)
    )
    level = 0.0 if cut.at[2] < _SQUARE else maker.z(cut.at[2])
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, level)
    width, run = dot((b[0] - a[0], b[1] - a[1], 0.0), across), (across[1], -across[0], 0.0)
    run = run if dot(run, cut.into) > 0.0 else scaled(run, -1.0)
    turn = math.radians(maker.numbers.size(slot_angle(cut), "angle"))
    into = added(scaled(run, math.sin(turn)), (0.0, 0.0, math.copysign(math.cos(turn), cut.into[2])))
    back = (made.kept.offset - dot(made.out, middle)) / dot(made.out, run)
    depth = maker.numbers.size(cut.depth, "length")
    return replace(cut, at=added(middle, scaled(run, back)), into=into, across=across, width=width, depth=depth)


def leaning_mortise(cut: Mortise, maker: Maker) -> Mortise:
    """By the four corners of its mouth, the way it leans and its depth down its middle line."""
    box = MortiseBox(cut)
    if cut.square:
        return _into_sawn_end(cut, maker)
    axis_of(cut.mouth)
    into = _into(box, maker)
    a, b, c, d = (_corner(p, maker) for p in box.mouth)
    middle = scaled(added(a, b, c, d), 0.25)
    long, wide = (square_to(_between(*ends), into) for ends in ((a, d, b, c), (a, b, c, d)))
    depth = cut.depth if cut.through else maker.numbers.size(cut.depth, "length")
    floor = cut.floor
    if floor is not None and cut.through:
        floor = maker.level(floor)
    elif floor is not None:
        if dot(floor.normal, box.inward) < 1.0 - _SQUARE:
            raise IncompleteError(f"{maker.numbers.part}: a mortise's floor that slants on its own can't be made again")
        floor = Plane(floor.normal, dot(floor.normal, added(middle, scaled(into, depth))))
    length, width = math.sqrt(dot(long, long)), math.sqrt(dot(wide, wide))
    return replace(cut, at=middle, into=into, along=unit(long), length=length, width=width, depth=depth, floor=floor)


def _into_sawn_end(cut: Mortise, maker: Maker) -> Mortise:
    """Square into an end or edge that is sawn at an angle: by the two ends of its mouth, and its heights."""
    sawn = next((c for c in maker.part.cuts if isinstance(c, SawCut) and dot(c.out, cut.mouth) > 1.0 - _SQUARE), None)
    if sawn is None or not sawn.upright:
        raise IncompleteError(f"{maker.numbers.part}: a mortise in a slanting side can't be made again yet")
    out = saw_cut(sawn, maker).out
    long, high = ((cut.along, cut.length), (cut.across, cut.width))
    if abs(cut.along[2]) > 1.0 - _SQUARE:
        long, high = high, long
    ends = [added(cut.at, scaled(long[0], s * long[1] / 2.0)) for s in (-1.0, 1.0)]
    (ax, ay), (bx, by) = (maker.point((p[0], p[1])) for p in ends)
    z, tall = maker.stretch(cut.at, high[0], high[1])
    wide, depth = math.dist((ax, ay), (bx, by)), maker.numbers.size(cut.depth, "length")
    way = unit((bx - ax, by - ay, 0.0))
    length, width, along = (tall, wide, cut.along) if long[0] != cut.along else (wide, tall, way)
    at, into = ((ax + bx) / 2.0, (ay + by) / 2.0, z), scaled(out, -1.0)
    return replace(cut, at=at, mouth=out, into=into, along=along, length=length, width=width, depth=depth)


def _into(box: MortiseBox, maker: Maker) -> Vector:
    """By its angle off square to its side, and that of its way to the long arris."""
    right, up = looking_at(box)
    lean = math.radians(maker.numbers.size(box.lean, "angle"))
    along, aside = dot(box.aside, right), dot(box.aside, up)
    true = math.degrees(math.atan2(abs(aside), abs(along)))
    way = math.radians(maker.numbers.size(true, "angle")) if true > _NO_ANGLE else 0.0
    toward = added(scaled(right, math.copysign(math.cos(way), along)), scaled(up, math.copysign(math.sin(way), aside)))
    return added(scaled(box.inward, math.cos(lean)), scaled(toward, math.sin(lean)))


def _corner(p: Vector, maker: Maker) -> Vector:
    x, y, z = (maker.numbers.place(k, p[k]) for k in range(3))
    return x, y, z


def _between(p: Vector, q: Vector, r: Vector, s: Vector) -> Vector:
    """From the middle of two points to that of two others."""
    return scaled(added(r, s, scaled(added(p, q), -1.0)), 0.5)
