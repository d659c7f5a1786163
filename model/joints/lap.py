"""Half laps: one part let into the face of another that it crosses or meets, worked out from how they overlap."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from model.cuts.cut import Side
from model.cuts.laps import Lap, Shoulder
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.layout.clipping import area, clipped, middle
from model.layout.outline import Edge, Outline, Point
from model.placement import Placement, dot, scaled, tidy
from model.tolerance import CONTACT

HALVING = "Noyes, Handwork in Wood (1910): half the thickness taken from each, so that the faces are flush"

#: Faces that lean less than this (as the sine) are parallel; 0.01 mm over 1 m.
PARALLEL = 1e-5
#: How far to each side of an edge wood is looked for, mm.
_BESIDE = 1e-3


def half_lap(a: Stood, over: Stood, *, share: float = 0.5, fit: float = 0.0) -> Joint:
    """`a` let into `over` where they cross, at any angle in the plane; it ends up over it, on `over`'s face side.

    Corner, tee or cross follows from where the parts run on. Their faces must be parallel, but need not be flush.
    share: of the thickness they have in common, what stays of `a`. fit: play between the shoulders, mm. glue_area is
    the lapped faces alone, mm2. Raises DesignError if the parts don't run into each other, or for straight-sided
    laps between parts that are curved there; CutError if a lap would come through.
    """
    low, high, seen = _common(a, over)
    if not 0.0 < share < 1.0:
        raise DesignError(f"a share of {share:g} leaves nothing of one part; a half, 0.5, is the rule (Noyes, 1910)")
    split = high - share * (high - low)
    bottom = min(seen.origin[2], seen.point((0.0, 0.0, a.wood.thickness))[2])
    under: Side = "back" if seen.z[2] > 0.0 else "face"
    walls_a, walls_b = _walls(over, a), _walls(a, over)
    lap_a = Lap(_eased(walls_a, fit), clean(split - bottom), under)
    lap_b = Lap(_eased(walls_b, fit), clean(over.wood.thickness - split), "face")
    face = clipped(over.wood.outline.points(0.05), [s.half for s in walls_b])
    if not face:
        raise DesignError(f"{a.name} and {over.name} lie beside each other; a half lap needs them to cross")
    return Joint(
        f"{_how(a, over, lap_a, lap_b)} half lap",
        a.name,
        over.name,
        scaled(over.at.z, -1.0),
        (_lapped(a, over, face, split), *_shouldered(a, over, (low, split, high), fit)),
        (lap_a,),
        (lap_b,),
        fit,
        area(face),
        source=HALVING,
    )


def _common(a: Stood, b: Stood) -> tuple[float, float, Placement]:
    """What of their thickness two parts with parallel faces have in common, in b's own z, and where a stands."""
    seen = a.at.seen_from(b.at)
    if math.hypot(seen.z[0], seen.z[1]) > PARALLEL:
        raise DesignError(
            f"{a.name} and {b.name} do not lie face to face; a half lap needs their faces parallel (boards that cross "
            "on edge are slotted)"
        )
    ends = sorted(seen.point((0.0, 0.0, z))[2] for z in (0.0, a.wood.thickness))
    low, high = max(ends[0], 0.0), min(ends[1], b.wood.thickness)
    if high - low < CONTACT:
        raise DesignError(
            f"{a.name} passes {b.name} without running into it; for a half lap place both in the same thickness, "
            f"their faces flush or up to {min(a.wood.thickness, b.wood.thickness):g} mm apart"
        )
    return low, high, seen


def _walls(of: Stood, part: Stood) -> tuple[Shoulder, ...]:
    """The sides of one part that run through the wood of another, as shoulders in the other's own plane."""
    seen = of.at.seen_from(part.at)
    found: list[Shoulder] = []
    for e in of.wood.outline.edges:
        ends = [seen.point((*p, 0.0)) for p in (e.start, e.end)]
        (dx, dy) = e.direction(0.0)
        out = tidy(seen.direction((dy, -dx, 0.0)))
        side = Edge((ends[0][0], ends[0][1]), (ends[1][0], ends[1][1]), e.bulge if seen.z[2] > 0.0 else -e.bulge)
        if not _runs_through(side, part.wood.outline):
            continue
        if not e.straight:
            raise DesignError(
                f"{of.name} is curved where it crosses {part.name}; a half lap needs straight shoulders there"
            )
        found.append(_shoulder(side, (out[0], out[1])))
    _require_convex(found, of, part)
    return tuple(found)


def _runs_through(side: Edge, outline: Outline) -> bool:
    """Whether an edge has wood of an outline on both its sides anywhere along it."""
    return _amid(side, outline) is not None


def _stations(side: Edge, outline: Outline) -> Iterator[float]:
    """Fractions along an edge, one between any two places where it meets an outline."""
    if not side.straight:
        yield from (n / 32.0 for n in range(33))
        return
    dx, dy = side.direction(0.0)
    normal: Point = (-dy, dx)
    offset = normal[0] * side.start[0] + normal[1] * side.start[1]
    met = [p for e in outline.edges for p in e.crossings(normal, offset)]
    along = [((p[0] - side.start[0]) * dx + (p[1] - side.start[1]) * dy) / side.chord for p in met]
    marks = [0.0, *sorted(t for t in along if 0.0 < t < 1.0), 1.0]
    yield from ((s + t) / 2.0 for s, t in pairwise(marks))


def _shoulder(side: Edge, out: Point) -> Shoulder:
    """A shoulder through an edge, told by where it crosses the near edge (or, along the grain, the left end)."""
    offset = out[0] * side.start[0] + out[1] * side.start[1]
    at = (clean(offset / out[0]), 0.0) if abs(out[0]) >= 0.1 else (0.0, clean(offset / out[1]))
    return Shoulder(at, out)


def _require_convex(found: list[Shoulder], of: Stood, part: Stood) -> None:
    if not found:
        raise DesignError(
            f"{part.name} does not run on past {of.name}; a half lap leaves a shoulder in both, so make it longer"
        )
    corners = [s.beyond for s in found]
    if any(abs(a[0] * b[1] - a[1] * b[0]) < 1e-9 and a[0] * b[0] + a[1] * b[1] > 0 for a, b in _pairs(corners)):
        raise DesignError(f"{of.name} is stepped where it crosses {part.name}; a half lap needs plain sides there")


def _pairs(items: list[Point]) -> Iterator[tuple[Point, Point]]:
    return ((a, b) for n, a in enumerate(items) for b in items[n + 1 :])


def _eased(walls: tuple[Shoulder, ...], fit: float) -> tuple[Shoulder, ...]:
    """Shoulders set back by half the fit each."""
    if not fit:
        return walls
    return tuple(
        Shoulder((clean(s.at[0] + fit / 2.0 * s.beyond[0]), clean(s.at[1] + fit / 2.0 * s.beyond[1])), s.beyond)
        for s in walls
    )


def _how(a: Stood, b: Stood, lap_a: Lap, lap_b: Lap) -> str:
    if lap_a.passes and lap_b.passes:
        return "cross"
    if lap_a.passes or lap_b.passes:
        return "tee"
    return "end" if abs(dot(a.at.x, b.at.x)) > 1.0 - PARALLEL else "corner"


def _shouldered(a: Stood, over: Stood, levels: tuple[float, float, float], fit: float) -> Iterator[Contact]:
    """The sides of each part against the shoulders cut for them in the other, midway along and down each, with half the
    fit between. levels: low, split and high of what they have in common, in `over`'s own z."""
    low, split, high = levels
    for of, part, level, way in ((over, a, (low + split) / 2.0, 1.0), (a, over, (split + high) / 2.0, -1.0)):
        seen = of.at.seen_from(part.at)
        for e in of.wood.outline.edges:
            ends = [seen.point((*p, 0.0)) for p in (e.start, e.end)]
            side = Edge((ends[0][0], ends[0][1]), (ends[1][0], ends[1][1]))
            (dx, dy) = e.direction(0.0)
            spot = _amid(side, part.wood.outline) if e.straight else None
            if spot is not None:
                x, y, _ = over.at.own_point(part.at.point((*spot, 0.0)))
                out = of.at.direction((dy, -dx, 0.0))
                yield Contact((over.at.point((x, y, level)),), scaled(out, way), fit / 2.0)


def _amid(side: Edge, outline: Outline) -> Point | None:
    """A point of an edge with wood of an outline on both its sides: of a straight one, midway along such a stretch."""
    for t in _stations(side, outline):
        (x, y), (dx, dy) = side.point(t), side.direction(t)
        if all(outline.contains((x + s * _BESIDE * dy, y - s * _BESIDE * dx)) for s in (1.0, -1.0)):
            return (x, y)
    return None


def _lapped(a: Stood, b: Stood, face: list[Point], split: float) -> Contact:
    """The lapped faces, seen at their middle and near their corners."""
    x, y = middle(face)
    spots = [(x, y), *((x + 0.7 * (p[0] - x), y + 0.7 * (p[1] - y)) for p in face[:: max(1, len(face) // 4)])]
    points = [b.at.point((*p, split)) for p in spots]
    on = [p for p in points if all(part.wood.outline.contains(part.at.own_point(p)[:2]) for part in (a, b))]
    return Contact(tuple(on), b.at.z)
