"""What has a station along the piece: where parts, dadoes and named measures begin and end, read off the placements.

Only what lies square to the axis counts: a plane side, or a straight edge across it. Millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from drawings.cutting.finished import finished_outline, turned_all_along
from drawings.lists.distinct import in_short
from drawings.paper.saying import Saying, joined, say
from drawings.sheets.principal import middle_of
from model.cuts.cut import Footprint
from model.cuts.edges import Rabbet
from model.cuts.faces import BiscuitSlot
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Opening, Profile
from model.layout.outline import Outline
from model.part import Part
from model.piece import Piece, Placed
from model.placement import Placement, Vector

#: Stations nearer than this are one mark, mm: finer than any rule. A dado's wall this near to a part's own face (its
#: fit) goes without a mark of its own.
SAME, FIT = 0.02, 0.6
#: An own axis this near to one of the piece's lies along it.
_SQUARE = 1e-9
#: A straight edge shorter than this carries no station, mm.
_LEAST_EDGE = 1.0

#: For each axis of the piece: the rod's name, its datum, and what lies at the lower and at the upper end of a part.
AXES = (
    ("widths", "from the left", "left of", "right of"),
    ("depths", "from the front", "front of", "back of"),
    ("heights", "from the floor", "bottom of", "top of"),
)
_STARTS, _ENDS = "start of", "end of"
#: Cuts whose footprints are not laid out along the piece: made at an edge or an end, or set from the joint itself.
_NOT_LAID_OUT = (Profile, BiscuitSlot, Rabbet, TenonedEnd)


@dataclass(frozen=True)
class Station:
    """A place along an axis of the piece: `at` is a point of what is there; `end` and `of` name it."""

    axis: int
    at: Vector
    end: str
    of: str

    @property
    def along(self) -> float:
        return self.at[self.axis]


@dataclass(frozen=True)
class Mark:
    """One mark on a rod: how far from its datum end, mm, what is there, and a point of it in the piece."""

    station: float
    name: Saying
    at: Vector


@dataclass(frozen=True)
class Rod:
    """A story stick: its name, where it is measured from, and its marks in order, the datum first at 0."""

    axis: int
    marks: tuple[Mark, ...]

    @property
    def name(self) -> str:
        return AXES[self.axis][0]

    @property
    def measured(self) -> str:
        """Where from, in words."""
        return AXES[self.axis][1]

    @property
    def length(self) -> float:
        return self.marks[-1].station


def rods(piece: Piece) -> list[Rod]:
    """The rods of heights, widths and depths; one with nothing to mark but its datum is left out."""
    found = list(_stations(piece))
    made = (_rod(axis, [s for s in found if s.axis == axis]) for axis in (2, 0, 1))
    return [rod for rod in made if len(rod.marks) > 1]


def _rod(axis: int, stations: Iterable[Station]) -> Rod:
    ordered = sorted(stations, key=lambda s: s.along)
    if axis == 2:
        ordered.insert(0, Station(2, (0.0, 0.0, 0.0), "", "floor"))
        ordered.sort(key=lambda s: s.along)
    groups: list[list[Station]] = []
    for s in ordered:
        if groups and s.along - groups[-1][0].along < SAME:
            groups[-1].append(s)
        else:
            groups.append([s])
    datum = groups[0][0].along if groups else 0.0
    return Rod(axis, tuple(Mark(g[0].along - datum, _named(g), _point(g)) for g in groups))


def _point(group: list[Station]) -> Vector:
    return next((s.at for s in group if s.end not in ("", _STARTS, _ENDS)), group[0].at)


def _named(group: Iterable[Station]) -> Saying:
    """Everything at one place: "floor; bottom of left side, right side"."""
    by_end: dict[str, list[str]] = {}
    for s in group:
        by_end.setdefault(s.end, []).append(s.of)
    order = ("", *AXES[0][2:], *AXES[1][2:], *AXES[2][2:], _STARTS, _ENDS)
    each = ((end, in_short(by_end[end])) for end in sorted(by_end, key=order.index))
    return joined("; ", (say("{} {}", end, names) if end else names for end, names in each))


def _stations(piece: Piece) -> Iterator[Station]:
    faces = [s for p in piece if isinstance(p.part, Part) for s in _of_part(p, p.part)]
    yield from faces
    for p in piece:
        if isinstance(p.part, Part) and p.part.bend is None:
            for s in _of_cuts(p, p.part):
                if not any(f.axis == s.axis and abs(f.along - s.along) < FIT for f in faces):
                    yield s
    for m in piece.measures:
        run = [abs(q - p) for p, q in zip(m.start, m.end, strict=True)]
        axis = run.index(max(run))
        yield Station(axis, m.start, _STARTS, m.what)
        yield Station(axis, m.end, _ENDS, m.what)
    middle = middle_of(piece)
    if middle is not None:
        yield Station(0, (middle, 0.0, 0.0), "", "centre line")


def _of_part(placed: Placed, part: Part) -> Iterator[Station]:
    """Where a part begins and ends; of a bent one only across the grain, which the bend leaves square."""
    outline = finished_outline(part)[0]
    ends = [(axis, p) for axis, p in _ends(outline, part.thickness) if axis == 0 or not turned_all_along(part)]
    if part.bend is None and not turned_all_along(part):
        x, y = outline.corners[0]
        ends += [(2, (x, y, 0.0)), (2, (x, y, part.thickness))]
    for own, group in ((n, [p for axis, p in ends if axis == n]) for n in range(3)):
        if part.bend is None or own == 1:
            yield from _pair(placed, own, group, placed.name)


def _of_cuts(placed: Placed, part: Part) -> Iterator[Station]:
    """The walls of trenches, mortises and openings that run across the rod."""
    x0, y0, x1, y1 = part.outline.bounds
    for cut, footprint in part.footprints():
        if isinstance(cut, _NOT_LAID_OUT) or (footprint.through and not isinstance(cut, Opening)):
            continue
        for own, size in ((0, x1 - x0), (1, y1 - y0)):
            ends = [p for axis, p in _ends(footprint.outline, _floor(footprint, part)) if axis == own]
            if len(ends) == 2 and abs(ends[1][own] - ends[0][own]) < size / 2.0:
                yield from _pair(placed, own, ends, f"{cut.name} in {placed.name}")


def _floor(footprint: Footprint, part: Part) -> float:
    return part.thickness if footprint.side == "face" else 0.0


def _ends(outline: Outline, z: float) -> Iterator[tuple[int, Vector]]:
    """The ends of an outline along x (0) and y (1) that are straight edges across it, each by its middle."""
    bounds = outline.bounds
    for axis in (0, 1):
        for limit in (bounds[axis], bounds[axis + 2]):
            for e in outline.edges:
                across = e.straight and abs(e.start[axis] - limit) < 1e-6 and abs(e.end[axis] - limit) < 1e-6
                if across and e.length > _LEAST_EDGE:
                    yield axis, (*e.point(0.5), z)
                    break


def _pair(placed: Placed, own: int, points: Sequence[Vector], of: str) -> Iterator[Station]:
    """Own points at the ends of something, as stations of the piece, named by which end they are."""
    axis = _axis_along(placed.at, own)
    if axis is None:
        return
    inside = placed.at.point(_middle(placed.part))
    for p in points:
        at = placed.at.point(p)
        yield Station(axis, at, AXES[axis][2] if _lower(points, p, placed.at, axis, inside) else AXES[axis][3], of)


def _lower(points: Sequence[Vector], p: Vector, at: Placement, axis: int, inside: Vector) -> bool:
    """Whether a point is the lower of two, or of a part's own, below its middle."""
    others = [at.point(q)[axis] for q in points if q is not p]
    here = at.point(p)[axis]
    return here < others[0] if others else here < inside[axis]


def _middle(part: object) -> Vector:
    assert isinstance(part, Part)
    x0, y0, x1, y1 = part.outline.bounds
    return ((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)


def _axis_along(at: Placement, own: int) -> int | None:
    """The axis of the piece that an own axis lies along, if it does."""
    direction = (at.x, at.y, at.z)[own]
    return next((n for n in range(3) if abs(abs(direction[n]) - 1.0) < _SQUARE), None)
