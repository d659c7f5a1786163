"""Where the two halves of a sliding dovetail are cut through to be measured."""

from __future__ import annotations

import math
from collections.abc import Iterator

from drawings.paper.dimensions import Side
from drawings.parts.cross_section import Cutting
from drawings.parts.edge_section import is_arris
from drawings.parts.wanted_section import Corner, Wanted, ends_in_words, rightward
from drawings.sheets.tiers import Span
from model.cuts.edges import EdgeCut
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled

_UP: Vector = (0.0, 0.0, 1.0)
#: How far inside the end of a tongue its section is taken, mm: nothing to be seen, but the kernel finds it.
_INSIDE = 0.05


def tongue_sections(cut: DovetailTongue, part: Part) -> Iterator[Wanted]:
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
    right, thick, slope = rightward(out), part.thickness, cut.slope
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
    corners = (Corner((shoulder, neck), *sorted((angle % 360.0, flat or 360.0)), sloped=True),)
    place = ends_in_words(out)
    if cut.taper:
        place = f"{place} toward {ends_in_words(scaled(run, share - 0.5))}"
    cutting = Cutting(right, dot(at, cross(right, _UP)))
    return Wanted(cut.name, cutting, min(shoulder, tip), max(shoulder, tip), spans, corners, place=place)


def socket_sections(cut: DovetailSocket, part: Part) -> Iterator[Wanted]:
    """A quarter of the way along; its mouth at both ends stands in the plan."""
    dx, dy = cut.direction
    right = rightward((-dy, dx, 0.0))
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
    corner = Corner((middle + half, mouth), *sorted((lean % 360.0, 90.0 if up > 0.0 else 270.0)), sloped=True)
    yield Wanted(cut.name, cutting, middle - wide, middle + wide, spans, (corner,))
