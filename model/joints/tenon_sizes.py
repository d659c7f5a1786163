"""How large a tenon is and where it stands in its rail: the rules, and what they refuse. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from model.cuts.tenons import LEAST_SHOULDER, Tenon
from model.errors import DesignError
from model.joints.joint import clean
from model.joints.meetings.entering import Entry, from_rim
from model.placement import added, dot, scaled
from model.tolerance import SAME_POINT

TENON_RULE = (
    "Noyes, Handwork in Wood (1910): tenon a third of the rail, haunched tenon half the rail less the groove "
    "(no. 42), mortise slightly deeper"
)

#: Shoulder above and below a tenon, mm (1/4 in; common practice: 1/8 to 1/4 in), at most a sixth of the rail.
SHOULDER = 6.35
#: Wood wanted between a mortise and the end of its part, mm (1/2 in, common practice; Noyes: "not too near the end").
END_WOOD = 12.7


@dataclass(frozen=True)
class Wanted:
    """What the author asks for, mm; None for the rule."""

    thickness: float | None = None
    rise: float | None = None
    width: float | None = None
    shoulders: tuple[float, float] | None = None
    count: int = 1
    rows: int = 1
    haunch: float | None = None


def tenons(e: Entry, wanted: Wanted) -> tuple[Tenon, ...]:
    """The tenons, side by side in the thickness first, then row by row across the width.

    Raises DesignError for sizes that leave no tenon.
    """
    low, high = across(e, wanted)
    part = (high - low) / (2.0 * wanted.rows - 1.0)
    return tuple(
        Tenon(clean(low + 2.0 * row * part), clean(part), clean(rise), clean(thick))
        for row in range(wanted.rows)
        for rise, thick in _levels(e, wanted)
    )


def haunch(e: Entry, wanted: Wanted, tenon: Tenon) -> Tenon | None:
    """The tongue that fills the groove from the tenon to the outer edge of the rail, as long as the groove is deep."""
    if wanted.haunch is None:
        return None
    low, high = e.section
    start, stop = (low, tenon.inset + tenon.width) if _outer_end(e) < 0 else (tenon.inset, high)
    return Tenon(clean(start), clean(stop - start), tenon.rise, tenon.thickness, e.shoulder.moved_by(wanted.haunch))


def across(e: Entry, wanted: Wanted) -> tuple[float, float]:
    """From where to where, in the rail's width, the tenons stand."""
    low, high = e.section
    near, far = _shoulders(e, wanted, high - low)
    if high - far - low - near <= SAME_POINT or min(near, far) < 0.0:
        raise DesignError(
            f"shoulders of {near:.1f} and {far:.1f} mm leave no tenon on {e.first.name}, {high - low:.1f} mm wide; "
            f"{min(SHOULDER, (high - low) / 6.0):.1f} mm each is common practice"
        )
    return (low + near, high - far)


def check_room(e: Entry, standing: tuple[Tenon, ...], depth: float) -> None:
    """Raises DesignError if a mortise this deep along its middle line comes too near another side of its part."""
    room = min(_rooms(e, standing, depth))
    limit = min(LEAST_SHOULDER, e.second.wood.thickness / 6.0)
    if room < limit - SAME_POINT:
        thick = standing[0].thickness
        left = f"leave {room:.1f} mm of wood" if room > 0.0 else f"break {-room:.1f} mm out of the wood"
        raise DesignError(
            f"the mortise for {e.first.name} would {left} beside it in {e.second.name}; {limit:.1f} mm is the least, "
            f"as much as the tenon is thick, {thick:.1f} mm, is common practice: move it in or make the tenon smaller"
        )


def _levels(e: Entry, wanted: Wanted) -> Iterator[tuple[float, float]]:
    stock, count = e.first.wood.thickness, wanted.count
    thick = wanted.thickness or stock / (2.0 * count + 1.0)
    gap = (stock - count * thick) / (count + 1.0)
    start = gap if wanted.rise is None else wanted.rise
    for n in range(count):
        yield start + n * (thick + gap), thick


def _shoulders(e: Entry, wanted: Wanted, rail: float) -> tuple[float, float]:
    if wanted.width is not None and wanted.shoulders is not None:
        raise DesignError(f"give the width of the tenon on {e.first.name} or its shoulders, not both")
    if wanted.shoulders is not None:
        return wanted.shoulders
    if wanted.haunch is not None:
        width = wanted.width or rail / 2.0 - wanted.haunch
        return _toward(e, wanted.haunch, rail - wanted.haunch - width)
    usual = min(SHOULDER, rail / 6.0)
    outer = min(max(usual, END_WOOD - _to_end(e)), rail / 3.0)
    if wanted.width is not None:
        spare = rail - wanted.width
        return _toward(e, spare / 2.0, spare / 2.0) if spare >= 2.0 * outer else _toward(e, spare - outer, outer)
    return _toward(e, usual, outer)


def _toward(e: Entry, inner: float, outer: float) -> tuple[float, float]:
    """(near, far) shoulders from the one away from the end of the mortised part and the one toward it."""
    return (outer, inner) if _outer_end(e) < 0 else (inner, outer)


def _outer_end(e: Entry) -> int:
    """Which edge of the rail lies nearer to an end of the mortised part: -1 its near edge, 1 its far edge."""
    low, high = e.section
    return -1 if _end_room(e, low) <= _end_room(e, high) else 1


def _to_end(e: Entry) -> float:
    """From the rail's outer edge to the end of the mortised part, along its grain, mm; large if the rail's width lies
    across that grain."""
    if abs(dot(e.first.at.y, e.second.at.x)) < 0.5:
        return END_WOOD
    low, high = e.section
    return max(0.0, min(_end_room(e, low), _end_room(e, high)))


def _end_room(e: Entry, y: float) -> float:
    x = e.in_second(e.point(y, e.first.wood.thickness / 2.0))[0]
    x0, _, x1, _ = e.second.wood.outline.bounds
    return min(x - x0, x1 - x)


def _rooms(e: Entry, standing: tuple[Tenon, ...], depth: float) -> Iterator[float]:
    """Wood left beside the corners of each mortise, just past its mouth and at its floor (or just before it comes
    out)."""
    entered = (e.near.name, e.far.name)
    open_edges = (e.near.edge, e.far.edge)
    for t in standing:
        shift = e.run_in(*t.middle)
        for y, z in t.corners:
            # a blind mortise is square-bottomed: every corner ends as far along the grain as its middle does
            last = depth - shift + e.run_in(y, z) if depth < e.crossing(*t.middle) else e.crossing(y, z)
            for into in (0.01, last - 0.01):
                p = e.in_second(added(e.point(y, z), scaled(e.axis, into)))
                yield from_rim(e.second.wood, p[:2], open_edges)
                yield from (
                    room
                    for name, room in (("back", p[2]), ("face", e.second.wood.thickness - p[2]))
                    if name not in entered
                )
                if depth < e.crossing(*t.middle):
                    yield e.far.plane.offset - dot(e.far.plane.normal, p)
