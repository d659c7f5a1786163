"""Where an end meets the side it runs into: its shoulders, the cheeks of its tenons, an end sawn to butt."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from model.cuts.cut import Cut
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.tenons import Tenon
from model.errors import DesignError
from model.joints.joint import Contact, clean
from model.joints.meetings.entering import Entry, exact_point, middle
from model.layout.outline import Point
from model.placement import added, scaled
from model.tolerance import CONTACT

#: Strips of shoulder narrower than this are no place to look for contact, mm.
NARROW = 0.8


def butting(e: Entry) -> tuple[Cut, ...]:
    """What makes the end lie flat against the side: nothing where it does so as it is, a slanting end cut where it
    runs in. Raises DesignError if it stops short."""
    low, high = e.section
    runs = [e.run_in(y, z) for y in (low, high) for z in (0.0, e.first.wood.thickness)]
    if min(runs) < -CONTACT:
        raise DesignError(
            f"{e.first.name} stops {-min(runs):.2f} mm short of {e.second.name}; its whole end must lie against it"
        )
    return () if max(runs) <= CONTACT else (sawn_along(e, e.shoulder),)


def sawn_along(e: Entry, kept: Plane) -> SawCut:
    """The end sawn off at a plane of its own frame."""
    y, z = middle(e)
    n = kept.normal
    return SawCut(exact_point(((kept.offset - n[1] * y - n[2] * z) / n[0], y, z)), n)


def shoulder_contacts(e: Entry, standing: Sequence[Tenon], haunch: Tenon | None = None) -> tuple[Contact, ...]:
    """The shoulder against the side, at the middle of each of its strips that lies on it; nothing if none does."""
    taken = (*standing, haunch) if haunch else tuple(standing)
    points = tuple(p for y, z in _strips(e, taken) if e.on_side(p := e.point(y, z)))
    return (Contact(points, e.normal),) if points else ()


def cheeks(e: Entry, standing: Iterable[Tenon], fit: float) -> tuple[Contact, ...]:
    """Both cheeks of each tenon against its mortise, a quarter of the way in, short of where wedges spread it."""
    found = []
    for t in standing:
        y, z = t.middle
        into = min(e.run_in(y, z), e.crossing(y, z)) / 4.0
        for level, sign in ((t.rise, 1.0), (t.rise + t.thickness, -1.0)):
            up = scaled(e.first.at.z, sign)
            # clear of pegs and wedges
            p = added(e.point(y + 0.375 * t.width, z, into), scaled(e.first.at.z, level - z))
            found.append(Contact((p,), up, fit))
    return tuple(found)


def width_contacts(e: Entry) -> Contact:
    """A butted end against the side, near its edges, where no screw or dowel is."""
    low, high = e.section
    z = middle(e)[1]
    points = tuple(e.point(low + t * (high - low), z) for t in (0.03, 0.97))
    return Contact(tuple(p for p in points if e.on_side(p)), e.normal)


def _strips(e: Entry, standing: Sequence[Tenon]) -> Iterator[Point]:
    """Places on the strips of shoulder: before and past the tenons across the width, below and above them. The first
    lie below the tenons, clear of a groove that a panel has there."""
    low, high = e.section
    stock = e.first.wood.thickness
    y0, y1 = min(t.inset for t in standing), max(t.inset + t.width for t in standing)
    z0, z1 = min(t.rise for t in standing), max(t.rise + t.thickness for t in standing)
    for a, b in ((low, y0), (y1, high)):
        if b - a > NARROW:
            yield (clean((a + b) / 2.0), clean(z0 / 2.0) if z0 > NARROW else stock / 2.0)
    for a, b in ((0.0, z0), (z1, stock)):
        if b - a > NARROW:
            yield ((y0 + y1) / 2.0, clean((a + b) / 2.0))
