"""Where a part is to be cut through so that its joinery can be measured: what the plan does not show of each cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import singledispatch

from drawings.cutting.finished import finished_bounds
from drawings.paper.dimensions import Side
from drawings.parts.cross_section import Cutting
from drawings.parts.leaning_sections import (
    groove_section,
    mortise_section,
    pocket_section,
    saw_section,
    shoulder_corner,
    shoulder_section,
    slanted_section,
)
from drawings.parts.sliding_dovetail_sections import socket_sections, tongue_sections
from drawings.parts.wanted_section import Wanted, ends_in_words, rightward
from drawings.sheets.tiers import Span
from model.cuts.cut import Cut
from model.cuts.gains import HingeGain
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.pockets import Pocket
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.tenons import Tenon, TenonedEnd
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled

_UP: Vector = (0.0, 0.0, 1.0)
_SQUARE = 1e-6


@singledispatch
def cuttings(cut: Cut, part: Part) -> Iterator[Wanted]:
    """The sections that one cut asks for; none where plan and tables say all of it."""
    yield from ()


@cuttings.register
def _(cut: Mortise, part: Part) -> Iterator[Wanted]:
    heights = {abs(d[2]): size for d, size in ((cut.along, cut.length), (cut.across, cut.width))}
    if abs(cut.into[2]) < _SQUARE and cut.square and 1.0 in {round(h, 6) for h in heights}:
        yield _let_in(cut.name, cut.at, cut.into, cut.depth, _upright(cut.at[2], heights[max(heights)]), part.thickness)
    elif cut.eased > 0.0 and cut.square:
        yield _eased(cut)
    elif not cut.square:
        yield from mortise_section(cut, part)


@cuttings.register
def _(cut: HingeGain, part: Part) -> Iterator[Wanted]:
    if abs(cut.into[2]) < _SQUARE and abs(cut.across[2]) > 1.0 - _SQUARE:
        reach = sorted((cut.at[2], cut.at[2] + cut.across[2] * cut.leaf))
        yield _let_in(cut.name, cut.at, cut.into, cut.depth, (reach[0], reach[1]), part.thickness)


def _upright(middle: float, size: float) -> tuple[float, float]:
    return middle - size / 2.0, middle + size / 2.0


def _let_in(
    what: str, at: Vector, into: Vector, depth: float, heights: tuple[float, float], thickness: float
) -> Wanted:
    """A box let into an edge, cut through its middle square to the edge; one that opens on the face side is as high as
    it is."""
    right = rightward(into)
    cutting = Cutting(right, dot(at, cross(right, _UP)))
    mouth, floor = dot(at, right), dot(added(at, scaled(into, depth)), right)
    side: Side = "left" if floor > mouth else "right"
    low, high = heights
    spans = [Span((mouth, low), (floor, low), "below"), Span((mouth, low), (mouth, high), side)]
    if low > _SQUARE and high < thickness - _SQUARE:
        spans.append(Span((mouth, 0.0), (mouth, low), side))
    return Wanted(what, cutting, min(mouth, floor), max(mouth, floor), tuple(spans))


def _eased(cut: Mortise) -> Wanted:
    """A mortise through a side, cut lengthways to show where it widens for the wedges."""
    right = rightward(cut.along)
    cutting = Cutting(right, dot(cut.at, cross(right, _UP)))
    middle, half, up = dot(cut.at, right), cut.length / 2.0, cut.into[2]
    far = cut.at[2] + up * cut.depth
    begins, wide = far - up * cut.ease_depth, half + cut.eased
    side: Side = "above" if up > 0.0 else "below"
    spans = (
        Span((middle - wide, far), (middle + wide, far), side),
        Span((middle + half, begins), (middle + wide, far), "right"),
    )
    return Wanted(cut.name, cutting, middle - wide, middle + wide, spans)


@cuttings.register
def _(cut: TenonedEnd, part: Part) -> Iterator[Wanted]:
    standing = cut.tenons if cut.haunch is None else (*cut.tenons, cut.haunch)
    levels: dict[tuple[float, ...], list[Tenon]] = {}
    for tenon in standing:
        levels.setdefault((round(tenon.inset, 4), round(tenon.width, 4)), []).append(tenon)
    shown = set()
    for side_by_side in levels.values():
        stack = sorted(side_by_side, key=lambda t: t.rise)
        profile = tuple((round(t.rise, 4), round(t.thickness, 4)) for t in stack)
        if profile not in shown:
            shown.add(profile)
            yield _tenoned(cut, stack, part)
    yield from shoulder_section(cut, part)


def _tenoned(cut: TenonedEnd, stack: list[Tenon], part: Part) -> Wanted:
    """Tenons over one another, cut lengthways through their middle."""
    y, right_hand = _solid_middle(stack[0], part), cut.end == "right"
    end = part.outline.bounds[2 if right_hand else 0]
    side: Side = "right" if right_hand else "left"
    lowest = stack[0]
    bare = lowest.rise < _SQUARE
    foot = lowest.rise + lowest.thickness if bare else lowest.rise
    shoulder = _x(cut.shoulder, y, foot)
    spans, below = list[Span](), (shoulder, 0.0)
    for tenon in stack:
        for z in (tenon.rise, tenon.rise + tenon.thickness):
            here = _x(tenon.tip, y, z) if tenon.tip else end, z
            if z - below[1] > _SQUARE:
                spans.append(Span(below, here, side))
            if abs(z - foot) < _SQUARE:
                spans.append(Span((shoulder, foot), here, "above" if bare else "below"))
            below = here
    ends, cutting = [p[0] for s in spans for p in (s.p, s.q)], Cutting((1.0, 0.0, 0.0), -y)
    _, ny, nz = cut.shoulder.normal
    leans = abs(nz) > _SQUARE and abs(ny) < _SQUARE  # leaning both ways it has a section of its own
    corners = (shoulder_corner(cut, cutting, part),) if leans else ()
    return Wanted(cut.name, cutting, min(ends), max(ends), tuple(spans), corners, place=f"{cut.end} end")


def _solid_middle(tenon: Tenon, part: Part) -> float:
    """A line of a tenon that no kerf or peg runs along, mm from the near edge."""
    sunk = [f.outline.bounds for c in part.cuts if not isinstance(c, TenonedEnd) for f in c.footprints(part.blank)]
    shares = (0.5, 0.42, 0.58, 0.34, 0.66, 0.25, 0.75)
    tried = [tenon.inset + share * tenon.width for share in shares]
    return next((y for y in tried if not any(low < y < high for _, low, _, high in sunk)), tried[0])


def _x(plane: Plane, y: float, z: float) -> float:
    nx, ny, nz = plane.normal
    return (plane.offset - ny * y - nz * z) / nx


@cuttings.register
def _(cut: OpenMortise, part: Part) -> Iterator[Wanted]:
    x0, y0, x1, y1 = finished_bounds(part)
    y = (y0 + y1) / 2.0
    right_hand = cut.end == "right"
    end, floor = (x1 if right_hand else x0), _x(cut.floor, y, cut.rise)
    side: Side = "right" if right_hand else "left"
    spans = [Span((end, cut.rise), (floor, cut.rise), "below")]
    for low, high in ((0.0, cut.rise), (cut.rise, cut.rise + cut.width)):
        spans.append(Span((end, low), (end, high), side))
    place = f"{cut.end} end"
    yield Wanted(cut.name, Cutting((1.0, 0.0, 0.0), -y), min(end, floor), max(end, floor), tuple(spans), place=place)


@cuttings.register
def _(cut: SawnGroove, part: Part) -> Iterator[Wanted]:
    if abs(cut.across[2]) < 1.0 - _SQUARE:
        yield from groove_section(cut, part)
        return
    run = cross(cut.into, cut.across)
    _, y0, _, y1 = part.outline.bounds
    middle = added(cut.at, scaled(run, ((y0 + y1) / 2.0 - cut.at[1]) / run[1] if abs(run[1]) > _SQUARE else 0.0))
    heights = _upright(cut.at[2], cut.width)
    wanted = _let_in(cut.name, middle, cut.into, cut.depth, heights, part.thickness)
    yield replace(wanted, place=ends_in_words(scaled(cut.into, -1.0)))


cuttings.register(SawCut, saw_section)
cuttings.register(Pocket, pocket_section)
cuttings.register(SlantedDado, slanted_section)
cuttings.register(DovetailTongue, tongue_sections)
cuttings.register(DovetailSocket, socket_sections)
