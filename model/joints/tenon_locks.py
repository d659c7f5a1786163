"""What locks a tenon in its mortise: wedges that spread it, and draw-bored pegs that pull the shoulder tight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model.cuts.faces import Bore
from model.cuts.removal import RUN_OUT
from model.cuts.tenons import Kerf, Tenon
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import clean
from model.joints.meetings.entering import Entry, exact_point
from model.placement import Vector, added, cross, dot, scaled, tidy

#: Wedge at its butt, and the saw kerf it is driven in, mm (1/8 and 1/32 in, common practice).
WEDGE, KERF = 3.175, 0.8
#: How far through the mortised part the kerfs run, and the mortise is eased (common practice: two thirds).
SPLIT = 2.0 / 3.0
#: Tenons narrower than this take one wedge in their middle, mm (common practice).
ONE_WEDGE = 24.0

#: Pegs stand this many diameters from the shoulder and from the edges of the tenon (common practice).
PEG_AWAY = 2.0
#: Tenons wider than this take two pegs, mm (common practice).
ONE_PEG = 75.0


@dataclass(frozen=True)
class Wedging:
    """Kerfs in the tenons, wedges, and the mortise eased at each end by `eased` mm over `depth` mm.

    upright: whether the wedges spread the tenon in the rail's thickness and not in its width.
    """

    kerfs: tuple[Kerf, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    eased: float = 0.0
    depth: float = 0.0
    upright: bool = False


@dataclass(frozen=True)
class DrawBore:
    """Holes in the tenon and in the mortised part, and the pegs."""

    first: tuple[Bore, ...] = ()
    second: tuple[Bore, ...] = ()
    hardware: tuple[Hardware, ...] = ()


def wedging(e: Entry, standing: Sequence[Tenon], depth: float, proud: float | None) -> Wedging:
    """Wedges that spread through tenons along the grain of the mortised part, never across it, which would split it.

    Two kerfs a quarter of the tenon in from each side, one in the middle of a narrow tenon; the mortise is eased by
    what a wedge is thicker than its kerf. Source: common practice.
    """
    grain = e.second.at.x
    upright = abs(dot(e.first.at.z, grain)) > abs(dot(e.first.at.y, grain))
    size = standing[0].thickness if upright else standing[0].width
    shares = (0.5,) if size < ONE_WEDGE else (0.25, 0.75)
    deep = clean(SPLIT * depth)
    kerfs, items = [], []
    for t in standing:
        for share in shares:
            y = t.middle[0] if upright else t.inset + share * t.width
            z = t.rise + share * t.thickness if upright else t.middle[1]
            beyond = _past_far(e, y, z, proud)
            kerf = _kerf(e, t, (y, z), beyond, deep, upright)
            kerfs.append(kerf)
            butt = e.point(y, z, e.crossing(y, z) + beyond)
            items.append(_wedge(e, butt, kerf))
    eased = (WEDGE - KERF) / (2.0 if len(shares) == 1 else 1.0)
    return Wedging(tuple(kerfs), tuple(items), clean(eased), deep, upright)


def draw_bored(e: Entry, standing: Sequence[Tenon], offset: float, diameter: float) -> DrawBore:
    """Peg holes square to the cheeks' side of the mortised part, those in the tenon `offset` mm nearer the shoulder.

    Raises DesignError for an offset a peg could not follow, or a tenon too short for its pegs. Source: common
    practice.
    """
    if not 0.0 <= offset <= diameter / 2.0:
        raise DesignError(
            f"a draw bore offset by {offset:g} mm would shear a {diameter:.3g} mm peg; "
            f"a quarter of the peg, {diameter / 4.0:.1f} mm, is common practice"
        )
    y, z = standing[0].middle
    least = min(e.run_in(y, z), e.crossing(y, z))
    if least < (PEG_AWAY + 1.5) * diameter:
        raise DesignError(
            f"the tenon of {e.first.name}, {least:.1f} mm long, is too short for a {diameter:.3g} mm peg; "
            f"{(PEG_AWAY + 1.5) * diameter:.1f} mm is the least (common practice)"
        )
    way = _peg_way(e)
    pairs = [_peg(e, standing, spot, way, offset, diameter) for spot in _peg_stations(standing[0], diameter)]
    return DrawBore(*(tuple(column) for column in zip(*pairs, strict=True)))


def _past_far(e: Entry, y: float, z: float, proud: float | None) -> float:
    """How far the tenon stands out past the far side on a line, along the grain."""
    if proud is None:
        return e.run_in(y, z) - e.crossing(y, z)
    return proud / dot(e.axis, e.second.at.direction(e.far.plane.normal))


def _kerf(e: Entry, t: Tenon, spot: tuple[float, float], beyond: float, deep: float, upright: bool) -> Kerf:
    mouth = e.first.at.own_point(e.point(*spot, e.crossing(*spot) + beyond))
    across = (0.0, 0.0, 1.0) if upright else (0.0, 1.0, 0.0)
    length = t.width if upright else t.thickness
    return Kerf(exact_point(mouth), (-e.sense, 0.0, 0.0), across, KERF, clean(deep + beyond), length)


def _wedge(e: Entry, butt: Vector, kerf: Kerf) -> Hardware:
    size = f"{WEDGE:.3g} x {kerf.length:.3g} x {kerf.depth:.3g} mm"
    names = (e.first.name, e.second.name)
    level = e.first.at.direction(cross(kerf.into, kerf.across))
    return Hardware("wedge", size, butt, scaled(e.axis, -1.0), names, kerf.depth, kerf.length, WEDGE, level)


def _peg_way(e: Entry) -> Vector:
    """Through the mortised part, square to the side of it that lies most nearly along the tenon's cheeks."""
    own = [axis for axis in (e.second.at.y, e.second.at.z, e.second.at.x) if abs(dot(axis, e.normal)) < 0.9]
    nearest = max(own, key=lambda axis: abs(dot(axis, e.first.at.z)))
    return scaled(nearest, -1.0 if dot(nearest, e.first.at.z) > 0.0 else 1.0)


def _peg_stations(t: Tenon, diameter: float) -> tuple[float, ...]:
    """Across the tenon's width: one in the middle, or two."""
    if t.width <= ONE_PEG:
        return (t.middle[0],)
    inset = max(PEG_AWAY * diameter, t.width / 4.0)
    return (t.inset + inset, t.inset + t.width - inset)


def _peg(
    e: Entry, standing: Sequence[Tenon], y: float, way: Vector, offset: float, diameter: float
) -> tuple[Bore, Bore, Hardware]:
    """One hole in the tenon, one right through the mortised part, one peg."""
    z = standing[0].middle[1]
    centre = e.point(y, z, PEG_AWAY * diameter / -dot(e.axis, e.normal))
    start, through = _chord(e, centre, way)
    peg_hole = Bore(e.in_second(start), tidy(e.second.at.own_direction(way)), diameter, clean(through + RUN_OUT))
    drawn = added(centre, scaled(e.axis, -offset))
    high = max(t.rise + t.thickness for t in standing)
    low = min(t.rise for t in standing)
    slope = -dot(way, e.first.at.z)
    top = exact_point(e.first.at.own_point(added(drawn, scaled(way, (z - high) / slope))))
    deep = clean((high - low) / slope + RUN_OUT)
    tenon_hole = Bore(top, tidy(e.first.at.own_direction(way)), diameter, deep)
    names = (e.second.name, e.first.name)
    return tenon_hole, peg_hole, Hardware("peg", f"{diameter:.3g} mm", start, way, names, through, diameter)


def _chord(e: Entry, p: Vector, way: Vector) -> tuple[Vector, float]:
    """Where a line along one of the mortised part's own axes enters it, and how far it is through, mm."""
    wood, own, v = e.second.wood, e.second.at.own_point(p), e.second.at.own_direction(way)
    x0, y0, x1, y1 = wood.outline.bounds
    lows, highs = (x0, y0, 0.0), (x1, y1, wood.thickness)
    axis = max(range(3), key=lambda i: abs(v[i]))
    ahead = (own[axis] - lows[axis]) if v[axis] > 0.0 else (highs[axis] - own[axis])
    return added(p, scaled(way, -ahead)), highs[axis] - lows[axis]
