"""Where a part is to be cut through so that its joinery can be measured: what the plan does not show of each cut."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch

from drawings.paper.dimensions import Side
from drawings.paper.sheet import Point
from drawings.parts.cross_section import Cutting
from drawings.parts.edge_section import is_arris
from drawings.sheets.tiers import Span
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.gains import HingeGain
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.tenons import Tenon, TenonedEnd
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled

_UP: Vector = (0.0, 0.0, 1.0)
_SQUARE = 1e-6
#: How far inside the end of a tongue its section is taken, mm: nothing to be seen, but the kernel finds it.
_INSIDE = 0.05


@dataclass(frozen=True)
class Corner:
    """A wanted angle of a section: at a point, between the directions `start` and `end`, degrees."""

    at: Point
    start: float
    end: float


@dataclass(frozen=True)
class Wanted:
    """A section: where, from which h to which the work reaches, and its sizes; `place` tells ends apart.

    slanting: sizes along a line that is neither level nor upright, by their two points.
    """

    what: str
    cutting: Cutting
    low: float
    high: float
    spans: tuple[Span, ...]
    corners: tuple[Corner, ...] = ()
    slanting: tuple[tuple[Point, Point], ...] = ()
    place: str = ""


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
    right = _rightward(into)
    cutting = Cutting(right, dot(at, cross(right, _UP)))
    mouth, floor = dot(at, right), dot(added(at, scaled(into, depth)), right)
    side: Side = "left" if floor > mouth else "right"
    low, high = heights
    spans = [Span((mouth, low), (floor, low), "below"), Span((mouth, low), (mouth, high), side)]
    if low > _SQUARE and high < thickness - _SQUARE:
        spans.append(Span((mouth, 0.0), (mouth, low), side))
    return Wanted(what, cutting, min(mouth, floor), max(mouth, floor), tuple(spans))


def _rightward(direction: Vector) -> Vector:
    """A level direction or its opposite: whichever runs with the part's own axes."""
    x, y = direction[0], direction[1]
    return (x, y, 0.0) if x + y > 0.0 else (-x + 0.0, -y + 0.0, 0.0)


def _eased(cut: Mortise) -> Wanted:
    """A mortise through a side, cut lengthways to show where it widens for the wedges."""
    right = _rightward(cut.along)
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


def _tenoned(cut: TenonedEnd, stack: list[Tenon], part: Part) -> Wanted:
    """Tenons over one another, cut lengthways through their middle."""
    y, right_hand = _solid_middle(stack[0], part), cut.end == "right"
    tips = [_x(t.tip, y, t.middle[1]) if t.tip else part.outline.bounds[2 if right_hand else 0] for t in stack]
    side: Side = "right" if right_hand else "left"
    lowest, level = stack[0], 0.0
    bare = lowest.rise < _SQUARE
    foot = lowest.rise + lowest.thickness if bare else lowest.rise
    shoulder = _x(cut.shoulder, y, foot)
    spans = [Span((shoulder, foot), (tips[0], foot), "above" if bare else "below")]
    for tenon, tip in zip(stack, tips, strict=True):
        for edge in (tenon.rise, tenon.rise + tenon.thickness):
            if edge - level > _SQUARE:
                spans.append(Span((tip if level else shoulder, level), (tip, edge), side))
            level = edge
    ends = (shoulder, *tips)
    return Wanted(
        cut.name, Cutting((1.0, 0.0, 0.0), -y), min(ends), max(ends), tuple(spans),
        _lean(cut.shoulder, shoulder, foot), place=f"{cut.end} end",
    )  # fmt: skip


def _solid_middle(tenon: Tenon, part: Part) -> float:
    """A line of a tenon that no kerf or peg runs along, mm from the near edge."""
    sunk = [f.outline.bounds for c in part.cuts if not isinstance(c, TenonedEnd) for f in c.footprints(part.blank)]
    shares = (0.5, 0.42, 0.58, 0.34, 0.66, 0.25, 0.75)
    tried = [tenon.inset + share * tenon.width for share in shares]
    return next((y for y in tried if not any(low < y < high for _, low, _, high in sunk)), tried[0])


def _lean(plane: Plane, x: float, z: float) -> tuple[Corner, ...]:
    """The angle that a shoulder or a saw cut leans off upright in a lengthwise section, if it does."""
    nx, ny, nz = plane.normal
    if abs(nz) < _SQUARE or abs(ny) > _SQUARE:
        return ()  # square, or leaning both ways, of which no lengthwise section shows the true angle
    up = math.degrees(math.atan2(abs(nx), -nz * math.copysign(1.0, nx)))
    return (Corner((x, z), *sorted((90.0, up))),)


def _x(plane: Plane, y: float, z: float) -> float:
    nx, ny, nz = plane.normal
    return (plane.offset - ny * y - nz * z) / nx


@cuttings.register
def _(cut: OpenMortise, part: Part) -> Iterator[Wanted]:
    _, y0, _, y1 = part.outline.bounds
    y = (y0 + y1) / 2.0
    right_hand = cut.end == "right"
    end, floor = part.outline.bounds[2 if right_hand else 0], _x(cut.floor, y, cut.rise)
    side: Side = "right" if right_hand else "left"
    spans = [Span((end, cut.rise), (floor, cut.rise), "below")]
    for low, high in ((0.0, cut.rise), (cut.rise, cut.rise + cut.width)):
        spans.append(Span((end, low), (end, high), side))
    place = f"{cut.end} end"
    yield Wanted(cut.name, Cutting((1.0, 0.0, 0.0), -y), min(end, floor), max(end, floor), tuple(spans), place=place)


@cuttings.register
def _(cut: SawCut, part: Part) -> Iterator[Wanted]:
    """A leaning cut, cut square to the end or edge it is made on; a compound one shows its lean only in words."""
    lengthways = abs(cut.out[1]) < _SQUARE
    if cut.upright or not (lengthways or abs(cut.out[0]) < _SQUARE):
        return
    right: Vector = (1.0, 0.0, 0.0) if lengthways else (0.0, 1.0, 0.0)
    thick, (x0, y0, x1, y1) = part.thickness, part.outline.bounds
    middle = (x0 + 0.5 * (x1 - x0), y0 + 0.7 * (y1 - y0), 0.0)
    cutting = Cutting(right, dot(middle, cross(right, _UP)))
    across = dot(cut.out, right)
    at = [(cut.kept.offset - cut.out[2] * z) / across for z in (0.0, thick)]
    short = thick if cut.out[2] > 0.0 else 0.0
    begins, ends = (at[1], at[0]) if short else (at[0], at[1])
    long = thick - short
    up = math.degrees(math.atan2(thick, at[1] - at[0]))
    turns = (up, 90.0) if short == 0.0 else (180.0 + up, 270.0)
    corner = Corner((begins, short), *sorted(turns))
    span = Span((begins, short), (ends, long), "above" if short else "below")
    yield Wanted(cut.name, cutting, min(at), max(at), (span,), (corner,), place=_place(cut))


def _place(cut: SawCut) -> str:
    return f"{cut.end} end" if cut.end in ("left", "right") else f"{cut.end} edge"


@cuttings.register
def _(cut: DovetailTongue, part: Part) -> Iterator[Wanted]:
    """Once, or at both of its ends where it narrows."""
    for share in tongue_shares(cut, part):
        yield _tongue(cut, share, part)


def tongue_shares(cut: DovetailTongue, part: Part) -> tuple[float, ...]:
    """How far along a dovetail tongue it is cut through, 0 to 1: at its ends, as near as arrises eased there allow."""
    if not cut.taper:
        return (0.25,)
    eased = [c for c in part.cuts if isinstance(c, EdgeCut) and is_arris(c)]
    inside = _INSIDE + max((getattr(c, "radius", 0.0) or getattr(c, "width", 0.0) for c in eased), default=0.0)
    return inside / cut.run, 1.0 - (cut.heel + inside) / cut.run


def _tongue(cut: DovetailTongue, share: float, part: Part) -> Wanted:
    out: Vector = (cut.out[0], cut.out[1], 0.0)
    right, thick, slope = _rightward(out), part.thickness, cut.slope
    run: Vector = (cut.end[0] - cut.start[0], cut.end[1] - cut.start[1], 0.0)
    at = added((*cut.start, 0.0), scaled(run, share))
    narrow = cut.taper / 2.0 * share
    shoulder = dot((*cut.start, 0.0), right)
    tip = shoulder + cut.length * dot(out, right)
    inset, neck = cut.inset + narrow, cut.inset + slope * cut.length + narrow
    side: Side = "left" if tip < shoulder else "right"
    spans = (
        Span((shoulder, neck), (tip, inset), "below"),
        Span((tip, inset), (tip, thick - inset), side),
        Span((shoulder, 0.0), (tip, inset), side),
    )
    angle = math.degrees(math.atan2(inset - neck, tip - shoulder))
    flat = 180.0 if tip < shoulder else 0.0
    corners = (Corner((shoulder, neck), *sorted((angle % 360.0, flat or 360.0))),)
    place = _ends_in_words(out)
    if cut.taper:
        place = f"{place} toward {_ends_in_words(scaled(run, share - 0.5))}"
    cutting = Cutting(right, dot(at, cross(right, _UP)))
    return Wanted(cut.name, cutting, min(shoulder, tip), max(shoulder, tip), spans, corners, place=place)


def _ends_in_words(out: Vector) -> str:
    if abs(out[0]) > abs(out[1]) - _SQUARE:
        return "right end" if out[0] > 0.0 else "left end"
    return "far edge" if out[1] > 0.0 else "near edge"


@cuttings.register
def _(cut: DovetailSocket, part: Part) -> Iterator[Wanted]:
    dx, dy = cut.direction
    right = _rightward((-dy, dx, 0.0))
    spot = (cut.start[0] + 0.25 * cut.length * dx, cut.start[1] + 0.25 * cut.length * dy, 0.0)
    cutting = Cutting(right, dot(spot, cross(right, _UP)))
    mouth, up = (part.thickness, -1.0) if cut.side == "face" else (0.0, 1.0)
    middle, half = dot(spot, right), (cut.width - cut.taper * 0.25) / 2.0
    wide, floor = half + cut.slope * cut.depth, mouth + up * cut.depth
    side: Side = "above" if cut.side == "face" else "below"
    spans = (
        Span((middle - half, mouth), (middle + half, mouth), side),
        Span((middle + half, mouth), (middle + wide, floor), "right"),
    )
    lean = math.degrees(math.atan2(up * cut.depth, wide - half))
    corner = Corner((middle + half, mouth), *sorted((lean % 360.0, 90.0 if up > 0.0 else 270.0)))
    yield Wanted(cut.name, cutting, middle - wide, middle + wide, spans, (corner,))


@cuttings.register
def _(cut: SawnGroove, part: Part) -> Iterator[Wanted]:
    run = cross(cut.into, cut.across)
    if abs(run[2]) > _SQUARE:
        return
    right = _rightward(cross(_UP, run))
    toward = cross(right, _UP)
    _, y0, _, y1 = part.outline.bounds
    middle = added(cut.at, scaled(run, ((y0 + y1) / 2.0 - cut.at[1]) / run[1] if abs(run[1]) > _SQUARE else 0.0))
    cutting = Cutting(right, dot(middle, toward))
    floor = added(cut.at, scaled(cut.into, cut.depth))
    halves = [scaled(cut.across, s * cut.width / 2.0) for s in (-1.0, 1.0)]
    a, b = (cutting.seen(added(floor, half)) for half in halves)
    mouth = cutting.seen(added(cut.at, halves[1]))
    reach = [p[0] for p in (a, b, mouth)]
    yield Wanted(
        cut.name, cutting, min(reach), max(reach), (), (), ((a, b), (b, mouth)), _ends_in_words(scaled(cut.into, -1.0))
    )
