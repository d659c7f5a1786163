"""Where two placed parts touch, found from their outlines: face on face, rim on face, face on rim."""

from __future__ import annotations

import math
from collections.abc import Callable

from model.cuts.cut import Side
from model.cuts.edges import Tongue
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Profile
from model.errors import DesignError
from model.joints.joint import Contact, Stood
from model.joints.meetings.sawn_face import sawn_face
from model.joints.meetings.whereabouts import whereabouts
from model.layout.outline import Edge, Point
from model.placement import Placement, Vector, added, dot, scaled
from model.tolerance import CONTACT, SAME_POINT

#: How far inside a corner a contact is looked at, mm, so that it lies on wood and not on the arris.
INSIDE = 0.2
#: A tenon's shoulder is square to the grain if its normal lies along it to this (as the cosine).
SQUARE_SHOULDER = 1.0 - 1e-9


def touch(first: Stood, second: Stood, gap: float = 0.0) -> Contact:
    """The contact between two parts; raises DesignError if their surfaces are further apart than `gap`."""
    lean = abs(dot(first.at.z, second.at.z))
    if lean > 1.0 - 1e-9:
        return _face_on_face(first, second, gap)
    if lean < 1e-5:
        return _rim_on_face(first, second, gap)
    for flat, sawn, sign in ((first, second, 1.0), (second, first, -1.0)):
        face = sawn_face(flat, sawn)
        if face is not None:
            _within(first, second, face.off, gap)
            found = face.contact(gap)
            return Contact(found.points, scaled(found.toward, sign), gap)
    raise DesignError(f"{first.name} and {second.name} stand at an angle that no plain contact is found for")


def flat_against(part: Stood, other: Stood, gap: float = 0.0) -> Contact:
    """The contact of one flat side of `part` with whatever of `other` lies against it: its face, its rim, or a face
    sawn on it."""
    if abs(dot(part.at.z, other.at.z)) > 1.0 - 1e-9:
        return _face_on_face(part, other, gap)
    face = sawn_face(part, other)
    if face is not None and abs(face.off) < gap + CONTACT:
        return face.contact(gap)
    off, points, toward = _rim_against(other, part)
    _within(part, other, off, gap)
    return Contact(tuple(points), scaled(toward, -1.0), gap)


def _face_on_face(first: Stood, second: Stood, gap: float) -> Contact:
    up = second.at.z
    tops = {s: dot(up, second.at.point((0, 0, z))) for s, z in (("face", second.wood.thickness), ("back", 0.0))}
    levels = sorted(dot(up, first.at.point((0, 0, z))) for z in (0.0, first.wood.thickness))
    above = sum(levels) / 2.0 > sum(tops.values()) / 2.0
    off = levels[0] - max(tops.values()) if above else min(tops.values()) - levels[1]
    _within(first, second, off, gap)
    plane = max(tops.values()) if above else min(tops.values())
    toward = up if above else scaled(up, -1.0)
    points = _shared_points(first, second, plane, toward)
    return Contact(tuple(points), toward, gap)


def _shared_points(first: Stood, second: Stood, plane: float, toward: Vector) -> list[Vector]:
    """Points of the second part's plane where both have wood, a few, well spread."""
    on_first, on_second = _wood(first, scaled(toward, -1.0)), _wood(second, toward)
    x0, y0, x1, y1 = first.wood.outline.bounds
    found: list[Vector] = []
    # a little off the halves and quarters, where other parts' edges like to lie
    shares = [(n + 0.013) / 24.0 for n in range(1, 24)]
    for i in shares:
        for j in shares:
            p = first.at.point((x0 + (x1 - x0) * i, y0 + (y1 - y0) * j, 0.0))
            p = added(p, scaled(second.at.z, plane - dot(second.at.z, p)))
            if on_first(p) and on_second(p):
                found.append(p)
    if not found:
        raise DesignError(f"{first.name} and {second.name} lie in the same plane but beside each other")
    step = max(1, len(found) // 5)
    return found[step // 2 :: step][:5]


def _wood(part: Stood, out: Vector) -> Callable[[Vector], bool]:
    """Whether a point, seen along the part's thickness, lies on wood of the side that looks `out`: within its outline,
    in no hollow of that side, and on a tenoned end not beyond the shoulder."""
    wood = part.wood
    side: Side = "face" if dot(out, part.at.z) > 0.0 else "back"
    level = wood.thickness if side == "face" else 0.0
    cuts = [c for c in wood.cuts if not isinstance(c, Profile)]
    hollows = [f.outline for c in cuts for f in c.footprints(wood.blank) if f.through or f.side == side]
    shoulders = [c.shoulder for c in cuts if isinstance(c, TenonedEnd)]

    def on_wood(p: Vector) -> bool:
        x, y, _ = part.at.own_point(p)
        beyond = any(dot(s.normal, (x, y, level)) > s.offset for s in shoulders)
        return wood.outline.contains((x, y)) and not beyond and not any(h.contains((x, y)) for h in hollows)

    return on_wood


def _rim_on_face(first: Stood, second: Stood, gap: float) -> Contact:
    """One part's rim lies against the other's flat side; which one is found by trying both."""
    tries = []
    for rim, flat, sign in ((first, second, 1.0), (second, first, -1.0)):
        off, points, toward = _rim_against(rim, flat)
        tries.append((off, Contact(tuple(points), scaled(toward, sign), gap)))
    off, contact = min(tries, key=lambda t: abs(t[0]))
    _within(first, second, off, gap)
    return contact


def _rim_against(rim: Stood, flat: Stood) -> tuple[float, list[Vector], Vector]:
    """How far the rim stands off the flat part's side, where, and the way out of that side.

    Both sides are tried: where a curved rim's middle lies says nothing of the side its wood comes to.
    """
    return min((_rim_against_side(rim, flat, side) for side in ("face", "back")), key=lambda found: abs(found[0]))


def _rim_against_side(rim: Stood, flat: Stood, side: Side) -> tuple[float, list[Vector], Vector]:
    seen = rim.at.seen_from(flat.at)
    out, level = (1.0, flat.wood.thickness) if side == "face" else (-1.0, 0.0)
    toward = scaled(flat.at.z, out)
    own = rim.at.own_direction(scaled(toward, -1.0))
    down: Point = (own[0], own[1])
    strips = _strips(seen, flat)
    spots = rim.wood.outline.candidates(down, strips)
    if not spots:
        raise DesignError(f"{rim.name} does not lie over {flat.name} at all; {whereabouts(rim, flat)}")
    reach = max(down[0] * x + down[1] * y for x, y in spots)
    nearest = _spread_along(rim, down, [s for s in spots if reach - down[0] * s[0] - down[1] * s[1] < CONTACT])
    off = out * (seen.point((*nearest[0], rim.wood.thickness / 2.0))[2] - level)
    return off, [rim.at.point((*_drawn_in(rim, s, strips), rim.wood.thickness / 2.0)) for s in nearest], toward


def _spread_along(rim: Stood, down: Point, nearest: list[Point]) -> list[Point]:
    """Where a straight side of the rim lies against the other part, points along it, clear of corners that other cuts
    may take away; anything else touches just where it was found to."""
    ends = sorted(nearest, key=lambda p: down[0] * p[1] - down[1] * p[0])
    a, b = ends[0], ends[-1]
    if math.dist(a, b) < 4.0 * INSIDE or not any(_along(e, a, b) for e in rim.wood.outline.edges):
        return nearest
    return [(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in (0.15, 0.5, 0.85)]


def _along(e: Edge, a: Point, b: Point) -> bool:
    """Whether both points lie on a straight edge's line."""
    (dx, dy), (x, y) = e.direction(0.0), e.start
    return e.straight and all(abs(dx * (p[1] - y) - dy * (p[0] - x)) < SAME_POINT for p in (a, b))


def _strips(seen: Placement, flat: Stood) -> list[tuple[Point, float]]:
    """The flat part's own bounds, as half-planes in the rim part's plane (those that are square to it)."""
    x0, y0, x1, y1 = _flat_bounds(flat)
    found: list[tuple[Point, float]] = []
    for axis, lo, hi in (((1.0, 0.0, 0.0), x0, x1), ((0.0, 1.0, 0.0), y0, y1)):
        normal = seen.own_direction(axis)
        if abs(normal[2]) > 1e-6:
            continue
        start = dot(axis, seen.origin)
        n: Point = (normal[0], normal[1])
        found += [(n, hi - start), ((-n[0], -n[1]), start - lo)]
    return found


def _flat_bounds(flat: Stood) -> tuple[float, float, float, float]:
    """Bounds of a part's flat side: its outline less the tongues and tenons, which lie deeper."""
    x0, y0, x1, y1 = flat.wood.outline.bounds
    tongues = {c.edge: c.length for c in flat.wood.cuts if isinstance(c, Tongue)}
    ends = [(c.shoulder.normal[0], c.shoulder.offset) for c in flat.wood.cuts if isinstance(c, TenonedEnd)]
    left, right = ([abs(x) for n, x in ends if n * hand > SQUARE_SHOULDER] for hand in (-1.0, 1.0))
    return (max([x0, *left]), y0 + tongues.get("near", 0.0), min([x1, *right]), y1 - tongues.get("far", 0.0))


def _drawn_in(rim: Stood, spot: Point, strips: list[tuple[Point, float]]) -> Point:
    """A spot on the edge of the flat part, moved a little inside it."""
    x, y = spot
    for n, offset in strips:
        short = offset - n[0] * x - n[1] * y
        if short < INSIDE:
            x, y = x - (INSIDE - short) * n[0], y - (INSIDE - short) * n[1]
    return (x, y)


def _within(first: Stood, second: Stood, off: float, gap: float) -> None:
    if off > gap + CONTACT:
        raise DesignError(
            f"{first.name} stands {off:.2f} mm off {second.name}; they must touch"
            + (f" within {gap:.2f} mm" if gap else "")
        )
