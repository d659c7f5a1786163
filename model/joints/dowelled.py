"""Dowelled joints: boards edge to edge, and the end of a rail against the side of another part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from model.cuts.faces import Bore
from model.cuts.tenons import LEAST_SHOULDER
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Contact, Joint, Stood, clean, spread
from model.joints.meetings.entering import Entry, FlatSide, entry, exact_point, flat_sides, middle
from model.joints.meetings.shoulders import butting, width_contacts
from model.placement import Vector, added, dot, scaled, tidy
from model.tolerance import CONTACT

DOWELLING = (
    "NAVEDTRA 14119, chapter 3: dowel a third of the stock; Noyes no. 75: holes 1 in deep; EN0533, 2-22: dowel 1/8 in "
    "shorter than the two holes"
)

#: Dowel rod, mm: 3/16 to 1 in (Noyes, Handwork in Wood, 1910), and the metric rods (common practice).
RODS = (4.7625, 6.0, 6.35, 7.9375, 8.0, 9.525, 10.0, 12.0, 12.7, 15.875, 16.0, 19.05, 20.0, 25.4)
#: Hole depth in each part, mm (1 in: Noyes, Handwork in Wood, no. 75).
HOLE = 25.4
#: Wood left under a hole, mm (1/4 in, common practice).
UNDER = 6.35
#: How much shorter a dowel is than its two holes, mm (1/8 in: US Army Subcourse EN0533, para 2-22).
SHORTER = 3.175
#: Along edges: first dowel from an end, and between two, mm (common practice).
EDGE_MARGIN, EDGE_SPACING = 50.0, 200.0
#: Across an end: between two dowels, mm; never fewer than two, which a rail can't turn on (common practice).
END_SPACING = 75.0


def dowelled_edges(
    a: Stood,
    to: Stood,
    *,
    diameter: float | None = None,
    depth: float | None = None,
    spacing: float = EDGE_SPACING,
    margin: float = EDGE_MARGIN,
) -> Joint:
    """An edge of `a` laid against a side of `to`, mostly its edge, with dowels along it. Millimetres.

    diameter: the rod nearest to a third of the stock; depth: of the hole in each part, 1 in or what the thinner
    allows; spacing, margin: between dowels, and from the ends of what meets. Raises DesignError if no edge of `a` lies
    against `to`, or the dowels don't go in. Sources: NAVEDTRA 14119, Noyes, EN0533.
    """
    edge, side, lo, hi = _meeting_edges(a, to)
    rod = _rod(a, diameter)
    out = tidy(a.at.direction(edge.plane.normal))
    rooms = (_depth_of(a, edge), _depth_of(to, side))
    deep = _depth(a, to, depth, min(rooms))
    places = [_on_edge(a, edge, lo + s) for s in spread(hi - lo, margin, spacing)]
    _check_beside(to, side, places, rod)
    between = _on_edge(a, edge, lo + 0.5), _on_edge(a, edge, hi - 0.5)
    return _joint("dowelled edge", a, to, out, places, rod, deep, (Contact(between, scaled(out, -1.0)),), (hi - lo))


def dowelled(
    end: Stood,
    to: Stood,
    *,
    diameter: float | None = None,
    depth: float | None = None,
    count: int | None = None,
    spacing: float = END_SPACING,
) -> Joint:
    """The end of `end` butted against a side of `to`, with dowels square to that side. Millimetres.

    An end that comes in at a slant is sawn to the side: let it run in. diameter: the rod nearest to a third of the
    stock; depth: of the hole in each part, 1 in or what the other part allows; count: two or more, as `spacing` asks
    if not said. Raises DesignError if the end does not lie against the side, or is too narrow or `to` too thin.
    Sources: NAVEDTRA 14119, Noyes, EN0533.
    """
    e = entry(end, to)
    sawn = butting(e)
    rod = _rod(end, diameter)
    deep = _depth(end, to, depth, e.crossing(*middle(e)) * -dot(e.axis, e.normal))
    _check_slant(e, rod, deep)
    places = [e.point(y, middle(e)[1]) for y in _across(e, rod, count, spacing)]
    _check_beside(to, e.near, places, rod)
    low, high = e.section
    area = (high - low) / -dot(e.axis, e.normal)
    way = tidy(scaled(e.normal, -1.0))
    joint = _joint("dowelled", end, to, way, places, rod, deep, (width_contacts(e),), area)
    return replace(joint, first_cuts=(*sawn, *joint.first_cuts))


def rod_for(stock: float) -> float:
    """The dowel rod, mm, nearest to a third of the stock (NAVEDTRA 14119, chapter 3).

    >>> rod_for(19.05)
    6.35
    """
    return min(RODS, key=lambda rod: (abs(rod - stock / 3.0), rod))


def dowel_length(first: float, second: float) -> float:
    """Of a dowel for two holes, all mm: 1/8 in less than both (US Army Subcourse EN0533, para 2-22).

    >>> dowel_length(25.4, 25.4)
    47.625
    """
    return first + second - SHORTER


def _joint(
    kind: str,
    a: Stood,
    b: Stood,
    way: Vector,
    places: Sequence[Vector],
    rod: float,
    deep: float,
    contacts: tuple[Contact, ...],
    run: float,
) -> Joint:
    """`way`: out of a, into b. run: length of what meets, mm."""
    length = dowel_length(deep, deep)
    names = (a.name, b.name)
    return Joint(
        kind,
        a.name,
        b.name,
        way,
        contacts,
        tuple(_bore(a, p, scaled(way, -1.0), rod, deep) for p in places),
        tuple(_bore(b, p, way, rod, deep) for p in places),
        glue_area=min(a.wood.thickness, b.wood.thickness) * run,
        hardware=tuple(
            Hardware("dowel", f"{rod:.4g} x {length:.1f} mm", _back(p, way, length), way, names, length, rod)
            for p in places
        ),
        source=DOWELLING,
    )


def _bore(part: Stood, p: Vector, way: Vector, rod: float, deep: float) -> Bore:
    return Bore(exact_point(part.at.own_point(p)), tidy(part.at.own_direction(way)), rod, deep)


def _back(p: Vector, way: Vector, length: float) -> Vector:
    return added(p, scaled(way, -length / 2.0))


def _rod(part: Stood, diameter: float | None) -> float:
    rod, stock = diameter or rod_for(part.wood.thickness), part.wood.thickness
    if not 0.0 < rod <= stock - 2.0 * min(LEAST_SHOULDER, stock / 6.0):
        raise DesignError(
            f"a {rod:.3g} mm dowel leaves too little of {part.name}, {stock:.1f} mm thick; a third of that, "
            f"{stock / 3.0:.1f} mm, is the rule (NAVEDTRA 14119, chapter 3)"
        )
    return rod


def _depth(a: Stood, b: Stood, depth: float | None, room: float) -> float:
    deep = clean(min(HOLE, room - UNDER) if depth is None else depth)
    if deep > room - min(LEAST_SHOULDER, room / 6.0) or deep <= SHORTER:
        raise DesignError(
            f"dowel holes {deep:.1f} mm deep between {a.name} and {b.name} don't go in where the wood is {room:.1f} mm "
            f"deep; {max(room - UNDER, room / 2.0):.1f} mm is right there"
        )
    return deep


def _across(e: Entry, rod: float, count: int | None, spacing: float) -> Sequence[float]:
    """Stations across the end."""
    low, high = e.section
    width = high - low
    inset = min(2.0 * rod, width / 4.0)
    clear = width - 2.0 * inset
    many = count or max(2, 1 + round(clear / spacing))
    if many > 1 and clear / (many - 1) < 2.0 * rod:
        raise DesignError(
            f"{e.first.name}, {width:.1f} mm wide, is too narrow for {many} dowels of {rod:.3g} mm, two diameters "
            "apart (common practice); use fewer or thinner ones, or a tenon"
        )
    if many == 1:
        return (clean((low + high) / 2.0),)
    return tuple(clean(low + inset + clear * n / (many - 1)) for n in range(many))


def _check_slant(e: Entry, rod: float, deep: float) -> None:
    """Raises DesignError where a hole square to the side would come out at the cheek of a slanting end."""
    stock = e.first.wood.thickness
    left = stock / 2.0 - rod / 2.0 - deep * abs(e.shoulder.normal[2])
    if left < min(LEAST_SHOULDER, stock / 6.0):
        raise DesignError(
            f"a dowel hole {deep:.1f} mm deep in the slanting end of {e.first.name} would leave {left:.1f} mm of "
            "cheek; make it shallower or thinner"
        )


def _check_beside(part: Stood, side: FlatSide, places: Sequence[Vector], rod: float) -> None:
    inside = rod / 2.0 + min(LEAST_SHOULDER, part.wood.thickness / 6.0)
    for p in places:
        if not side.holds(part.wood, part.at.own_point(p), inside):
            raise DesignError(
                f"a {rod:.3g} mm dowel would lie less than {inside - rod / 2.0:.1f} mm from the rim of {part.name}; "
                "move the parts or choose another spacing"
            )


def _meeting_edges(a: Stood, b: Stood) -> tuple[FlatSide, FlatSide, float, float]:
    """The edge of `a` and the side of `b` that lie against each other, and from where to where along that edge."""
    best: tuple[FlatSide, FlatSide, float, float] | None = None
    for edge in flat_sides(a.wood):
        if edge.edge is None:
            continue
        for side in flat_sides(b.wood):
            span = _shared_run(a, edge, b, side)
            if span and (best is None or span[1] - span[0] > best[3] - best[2]):
                best = (edge, side, *span)
    if best is None:
        raise DesignError(f"no edge of {a.name} lies flat against {b.name}; place them so that they touch")
    return best


def _shared_run(a: Stood, edge: FlatSide, b: Stood, side: FlatSide) -> tuple[float, float] | None:
    assert edge.edge is not None
    out = b.at.own_direction(a.at.direction(edge.plane.normal))
    start = b.at.own_point(_on_edge(a, edge, 0.0))
    if dot(out, side.plane.normal) > -1.0 + 1e-9 or abs(dot(side.plane.normal, start) - side.plane.offset) > CONTACT:
        return None
    d = edge.edge.direction(0.0)
    along = b.at.own_direction(a.at.direction((d[0], d[1], 0.0)))
    reach = [dot(along, c) for c in _rim(b, side)]
    here = dot(along, start)
    lo, hi = max(0.0, min(reach) - here), min(edge.edge.length, max(reach) - here)
    spot = added(start, scaled(along, (lo + hi) / 2.0))
    return (clean(lo), clean(hi)) if hi - lo > 1.0 and side.holds(b.wood, spot) else None


def _rim(part: Stood, side: FlatSide) -> list[Vector]:
    """Corners of a side."""
    thick = part.wood.thickness
    if side.edge is not None:
        return [(*p, z) for p in (side.edge.start, side.edge.end) for z in (0.0, thick)]
    return [(*p, thick if side.name == "face" else 0.0) for p in part.wood.outline.points(1.0)]


def _on_edge(part: Stood, edge: FlatSide, s: float) -> Vector:
    """In the piece: `s` along an edge, in the middle of its thickness."""
    assert edge.edge is not None
    d, (x, y) = edge.edge.direction(0.0), edge.edge.start
    return part.at.point((x + s * d[0], y + s * d[1], part.wood.thickness / 2.0))


def _depth_of(part: Stood, side: FlatSide) -> float:
    """How deep the wood is behind a side, mm."""
    if side.edge is None:
        return part.wood.thickness
    n = side.plane.normal
    low, high = part.wood.outline.extent((n[0], n[1]))
    return high - low
