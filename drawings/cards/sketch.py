"""The section of a cut drawn on a card, table and fence with it, and lefts and rights laid back to back."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Literal

from drawings.cards.cut_section import Posed, Span
from drawings.paper.board import enlargement
from drawings.paper.measured import Measured, Shown
from drawings.paper.saying import number, say
from drawings.paper.scales import largest_scale, scale_text
from drawings.paper.sheet import Entity, Hatch, Line, LinearDimension, Pen, Point, Polyline, Text
from drawings.paper.strokes import strokes
from drawings.sheets.clear_room import Box
from model.part import Part

#: How thick the fence is drawn, and how far the figures' lines stand out, and under the table, paper mm.
_FENCE, _OUT, _UNDER = 3.0, 4.5, 7.0
_LETTER, _WORDS = 3.5, 2.5
_ZIGZAG = 1.2

#: Where along a pair the witness mark may stand, as shares of its length.
_WITNESS = tuple(n / 20.0 for n in range(5, 16))

#: From the section's mm onto the paper.
Onto = Callable[[Point], Point]


def section_marks(
    posed: Posed, room: Box, units: str = "mm", meant: Callable[[str], tuple[Measured, ...]] = lambda _: ()
) -> list[Entity]:
    """The section in the middle of its room, as large as a scale allows, the scale under it; meant: what the figure
    with a letter measures."""
    left, bottom, right, top = room
    inner = right - left - 2.0 * (_OUT + 7.0), top - bottom - _UNDER - _OUT - _LETTER - 6.5
    scale = largest_scale(posed.width, posed.height, inner, 2.0, units) or 0.1
    x = (left + right - scale * posed.width) / 2.0
    y = bottom + _UNDER + 5.5 + (inner[1] - scale * posed.height) / 2.0

    def at(p: Point) -> Point:
        return x + p[0] * scale, y + p[1] * scale

    rings = [Polyline(tuple(at(p) for p in ring), closed=True) for ring in posed.rings]
    marks: list[Entity] = [Hatch(tuple(rings), 45.0, 1.6), *rings, *_bench(posed, at)]
    if posed.broken is not None:
        marks += _break(at((posed.broken, 0.0)), at((posed.broken, posed.height)))
    for span in posed.spans:
        marks += _figure(span, posed, at)
    short = posed.broken is not None or posed.shortened
    drawn = number(scale_text(scale, units), _drawn(posed, scale * enlargement(units), meant))
    said = say("Section {}{}", drawn, ", shortened" if short else "")
    return [*marks, Text(((left + right) / 2.0, bottom), said, _WORDS, "centre")]


def _drawn(posed: Posed, scale: float, meant: Callable[[str], tuple[Measured, ...]]) -> tuple[Measured, ...]:
    """What the width of the cut measures, and how long it is drawn, which tells the scale."""
    width = next((span for span in posed.spans if span.letter == "W"), None)
    measured = meant("W") if width else ()
    if width is None or not measured:
        return (Shown().scale(),)
    return measured[0], measured[0].shown.drawn(math.dist(width.p, width.q) * scale)


def _bench(posed: Posed, at: Onto) -> list[Entity]:
    """Table and fence; the table is open where the cutter comes through."""
    x0, x1 = at((0.0, 0.0))[0] - _FENCE - 6.0, at((posed.width, 0.0))[0] + 6.0
    y = at((0.0, 0.0))[1] - 0.35
    gap = [at((x, 0.0))[0] for x in posed.cutter] if posed.cutter else []
    ends = [x0, *gap, x1]
    marks: list[Entity] = [Line((a, y), (b, y), Pen.GRID) for a, b in zip(ends[::2], ends[1::2], strict=True)]
    if posed.fence:
        edge, top = at((0.0, 0.0))[0] - 0.35, at((0.0, posed.height))[1] + 2.0
        corners = ((edge, y), (edge, top), (edge - _FENCE, top), (edge - _FENCE, y))
        ring = Polyline(corners, closed=True, pen=Pen.GRID)
        marks += [Hatch((ring,), 135.0, 0.9), ring]
    return marks


def _figure(span: Span, posed: Posed, at: Onto) -> list[Entity]:
    """A letter on a dimension line outside the wood: the figure itself stands beside the section, large."""
    p, q = at(span.p), at(span.q)
    level = span.side in ("above", "below")
    (x0, y0), (x1, y1) = at((0.0, 0.0)), at((posed.width, posed.height))
    out = {"above": y1 + _OUT, "below": y0 - _UNDER, "left": x0 - _OUT, "right": x1 + _OUT}[span.side]
    line = (p[0], out) if level else (out, p[1])
    size = abs(q[0] - p[0]) if level else abs(q[1] - p[1])
    shared = any(s.side == span.side and s is not span for s in posed.spans)
    first = span.side in ("below", "left") or span.letter == "F" or (span.side == "above" and not shared)
    beside: Literal["start", "end"] = "start" if first else "end"
    turn = 0.0 if level else 90.0
    return list(strokes(LinearDimension(p, q, line, turn, span.letter, size, height=_LETTER, beside=beside)))


def _break(p: Point, q: Point) -> list[Entity]:
    """Two zigzags where wood is left out."""
    middle = (p[1] + q[1]) / 2.0
    steps = ((0.0, p[1] - 1.5), (0.0, middle - _ZIGZAG), (_ZIGZAG, middle - 0.4), (-_ZIGZAG, middle + 0.4))
    whole = (*steps, (0.0, middle + _ZIGZAG), (0.0, q[1] + 1.5))
    return [Polyline(tuple((p[0] + dx + aside, y) for dx, y in whole), pen=Pen.THIN) for aside in (-0.7, 0.7)]


def back_to_back(left: Part, right: Part, cut: str, room: Box) -> list[Entity]:
    """A left and its right on the bench, mirrored edges together, with their cuts of a kind and a witness mark."""
    length, width = left.stock.length, left.stock.width
    scale = min((room[2] - room[0]) / length, (room[3] - room[1]) / (2.0 * width))
    x = (room[0] + room[2] - scale * length) / 2.0
    seam = (room[1] + room[3]) / 2.0
    marks: list[Entity] = []
    worked: list[float] = []
    for part, drop in ((left, 0.0), (right, width)):
        for kind, footprint in part.footprints():
            if kind.name in ("profile", cut):
                points = footprint.outline.points(0.5)
                ring = tuple((x + scale * u, seam + scale * (v - drop)) for u, v in points)
                marks.append(Polyline(ring, closed=True, pen=Pen.GRID if kind.name == "profile" else Pen.THIN))
                worked += [u / length for u, _ in points]
    clear = max(_WITNESS, key=lambda share: (round(min(abs(share - at) for at in worked), 2), -abs(share - 0.45)))
    return [*marks, *_witness((x + clear * scale * length, seam), 0.55 * scale * width)]


def _witness(at: Point, size: float) -> Sequence[Entity]:
    """A triangle across the seam: the two parts can only be laid together again one way."""
    x, y = at
    half = min(max(size, 3.0), 6.0) / 2.0
    return [Polyline(((x - half, y - half), (x + half, y - half), (x, y + half)), closed=True, pen=Pen.THIN)]
