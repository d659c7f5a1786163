"""Dimensions in tiers: small ones next to the view, larger ones farther out, none over another.

A span is a wanted dimension: two points of a view and the side it is shown on. Spans that meet end to end stand in
one tier as a chain; equal neighbours too short for their own texts are shown as one, "21 × 52".
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from drawings.paper.dimensions import Side, linear
from drawings.paper.lettering import text_width
from drawings.paper.sheet import LinearDimension, Point, ViewPort
from drawings.views.curves import Bounds

#: Two measures are equal, and two ends meet, within this, mm: finer than any printed length.
_SAME = 0.01
#: Beyond its arrow a text outside needs so much, paper mm (strokes: two arrow lengths), and any text this gap.
_TAIL, _GAP = 6.0, 1.0
_HEIGHT = 2.5

_OPPOSITE: dict[Side, Side] = {"below": "above", "left": "right", "above": "below", "right": "left"}

Beside = Literal["start", "end"]
Format = Callable[[float], str]


@dataclass(frozen=True)
class Span:
    """A wanted dimension between points p and q of a view, mm; `times` equal ones are shown by the first."""

    p: Point
    q: Point
    side: Side
    times: int = 1
    joined: int = 1

    @property
    def level(self) -> bool:
        return self.side in ("above", "below")

    @property
    def stretch(self) -> tuple[float, float]:
        """Low and high end along its own direction, mm."""
        axis = 0 if self.level else 1
        low, high = sorted((self.p[axis], self.q[axis]))
        return low, high

    @property
    def length(self) -> float:
        low, high = self.stretch
        return high - low

    def text(self, form: Format) -> str:
        """What is printed: a length, "12 × 580" for equal ones, "21 × 52 (1092)" for a run drawn as one."""
        if self.joined > 1:
            return f"{self.joined} × {form(self.length / self.joined)} ({form(self.length)})"
        return f"{self.times} × {form(self.length)}" if self.times > 1 else form(self.length)


@dataclass(frozen=True)
class _Standing:
    span: Span
    tier: int
    beside: Beside
    taken: tuple[float, float]


def tiered(spans: Sequence[Span], bounds: Bounds, port: ViewPort, form: Format) -> list[LinearDimension]:
    """The spans as dimensions round a view's bounds (left, bottom, right, top, mm)."""
    edges = dict(zip(("left", "below", "right", "above"), bounds, strict=True))
    wanted = [s for side in _OPPOSITE for s in joined([s for s in spans if s.side == side], port.scale, form)]
    wanted = [_turned(s, bounds) if _struck_anyway(s, wanted, port.scale, form) else s for s in wanted]
    return [
        linear(
            s.span.p, s.span.q, port, s.span.side, s.tier, edges[s.span.side], text=s.span.text(form), beside=s.beside
        )
        for side in _OPPOSITE
        for s in _stacked([span for span in wanted if span.side == side], port.scale, form)
    ]


def _turned(span: Span, bounds: Bounds) -> Span:
    """The span shown on the opposite side, from the outline there."""
    left, bottom, right, top = bounds
    side = _OPPOSITE[span.side]
    if span.level:
        y = top if side == "above" else bottom
        return replace(span, p=(span.p[0], y), q=(span.q[0], y), side=side)
    x = right if side == "right" else left
    return replace(span, p=(x, span.p[1]), q=(x, span.q[1]), side=side)


def joined(spans: Sequence[Span], scale: float, form: Format) -> list[Span]:
    """Runs of equal spans that meet, and have no room for their texts, as one span each."""
    ordered = sorted(spans, key=lambda s: s.stretch)
    chains: list[list[Span]] = []
    for span in ordered:
        if chains and _continues(chains[-1][-1], span) and not fits(span, scale, form):
            chains[-1].append(span)
        else:
            chains.append([span])
    return [replace(c[0], q=_far(c[-1]), p=_near(c[0]), joined=len(c)) if len(c) > 1 else c[0] for c in chains]


def _continues(before: Span, after: Span) -> bool:
    meet = abs(before.stretch[1] - after.stretch[0]) < _SAME
    return meet and abs(before.length - after.length) < _SAME and before.times == after.times == 1


def _near(span: Span) -> Point:
    axis = 0 if span.level else 1
    return min(span.p, span.q, key=lambda at: at[axis])


def _far(span: Span) -> Point:
    axis = 0 if span.level else 1
    return max(span.p, span.q, key=lambda at: at[axis])


def fits(span: Span, scale: float, form: Format) -> bool:
    """Has a span room for its text between its arrows at a scale?"""
    return text_width(span.text(form), _HEIGHT) + _GAP <= span.length * scale


def _stacked(spans: Sequence[Span], scale: float, form: Format) -> list[_Standing]:
    """Each span one tier above the highest that it overlaps, shorter ones first."""
    standing: list[_Standing] = []
    for span in sorted(spans, key=lambda s: (round(s.length, 3), s.stretch)):
        beside = _beside(span, spans, scale, form)
        taken = _taken(span, beside, scale, form)
        below = [s.tier for s in standing if s.taken[0] < taken[1] - _SAME and taken[0] < s.taken[1] - _SAME]
        standing.append(_Standing(span, max(below, default=-1) + 1, beside, taken))
    return standing


def _beside(span: Span, spans: Sequence[Span], scale: float, form: Format) -> Beside:
    """Where a text outside stands: at the free end of a chain, or where no longer dimension's line strikes it."""
    low, high = span.stretch
    others = [s.stretch for s in spans if s is not span]
    first = any(abs(s[0] - high) < _SAME for s in others) and not any(abs(s[1] - low) < _SAME for s in others)
    ways: tuple[Beside, Beside] = ("start", "end") if first else ("end", "start")
    return next((way for way in ways if not _struck(span, way, spans, scale, form)), ways[0])


def _struck_anyway(span: Span, spans: Sequence[Span], scale: float, form: Format) -> bool:
    same = [s for s in spans if s.side == span.side]
    return _struck(span, "start", same, scale, form) and _struck(span, "end", same, scale, form)


def _struck(span: Span, beside: Beside, spans: Sequence[Span], scale: float, form: Format) -> bool:
    """Would a longer dimension, which stands farther out, run its extension lines through the span's text?"""
    low, high = _text_stretch(span, beside, scale, form)
    longer = (s for s in spans if s.length > span.length + _SAME)
    return any(low < end < high for other in longer for end in other.stretch)


def _text_stretch(span: Span, beside: Beside, scale: float, form: Format) -> tuple[float, float]:
    """What the text itself takes along the view, mm, with a little room."""
    low, high = span.stretch
    width, room = text_width(span.text(form), _HEIGHT) / scale, _GAP / scale
    if fits(span, scale, form):
        middle = (low + high) / 2
        return max(low, middle - width / 2 - room), min(high, middle + width / 2 + room)
    reach = width + _TAIL / scale + room
    return (low - reach, low) if beside == "start" else (high, high + reach)


def _taken(span: Span, beside: str, scale: float, form: Format) -> tuple[float, float]:
    """What it takes of its tier along the view, mm, its text included."""
    low, high = span.stretch
    if fits(span, scale, form):
        return low, high
    beyond = (text_width(span.text(form), _HEIGHT) + _TAIL + _GAP) / scale
    return (low - beyond, high) if beside == "start" else (low, high + beyond)
