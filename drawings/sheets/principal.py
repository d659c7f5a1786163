"""Which dimensions a general view carries: the overall sizes, the measures the piece names, its arcs, its middle.

Every value comes from the model: overall sizes from the exact curves of the views, measures from the piece's own
points, radii from its named arcs. None is taken off the paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from drawings.paper.dimensions import Side, dimension_text, radius
from drawings.paper.lettering import text_width
from drawings.paper.sheet import Entity, Line, LinearDimension, Pen, Point, RadiusDimension, ViewPort
from drawings.sheets.arrangement import Role
from drawings.sheets.clear_room import Box, Drawn, box_of
from drawings.sheets.tiers import Span, tiered
from drawings.views.curves import CircularArc, View
from model.piece import Piece

#: A dimension whose extension lines would run over more than this share of the view stands inside it (ours).
_TOO_DEEP = 0.25
#: Where an inside dimension's line is tried, paper mm from its points; the nearest clear place is taken.
_ASIDE = (8.0, -8.0, 12.0, -12.0, 16.0, -16.0, 22.0, -22.0, 30.0, -30.0)
#: Lengths of a radius's leader, paper mm, and how far along the arc from its start it is tried.
_REACHES = (8.0, -8.0, 10.0, -10.0, 14.0, -14.0, 19.0, -19.0, 25.0, -25.0)
_ALONG = (0.6, 0.65, 0.7, 0.75, 0.8, 0.4, 0.35, 0.3, 0.25, 0.2)
#: A centre line runs past the outline by this, paper mm (ISO 128: a little; common practice 3).
_CENTRE_OVERRUN = 3.0


@dataclass(frozen=True)
class Lengths:
    """How lengths are printed: the order's units, and the denominator of inch fractions."""

    units: str = "mm"
    denominator: int = 16

    def __call__(self, mm: float, prefix: str = "") -> str:
        """The printed text of a length in mm."""
        return dimension_text(mm, self.units, self.denominator, prefix)


def principal_dimensions(
    piece: Piece, role: Role, view: View, port: ViewPort, form: Lengths, drawn: list[Entity]
) -> list[Entity]:
    """A view's dimensions on the paper, standing clear of one another and of what is `drawn` already."""
    outside, marks = [*overall_spans(role, view)], list[Entity]()
    for span in measured_spans(piece, role, view):
        inside = _inside(span, port, form, Drawn([*drawn, *marks])) if _deep(span, view) else None
        if inside:
            marks.append(inside)
        else:
            outside.append(span)
    marks += tiered(outside, view.bounds, port, form)
    if role == "top":
        for size, centre in piece.arcs.values():
            marks.append(_radius(size, view.project((*centre, 0.0)), view, port, form, Drawn([*drawn, *marks])))
    return marks


def overall_spans(role: Role, view: View) -> Iterator[Span]:
    """Width and height in the front view, depth in the side view, from outline to outline."""
    left, bottom, right, top = view.bounds
    if role == "front":
        yield Span((left, bottom), (right, bottom), "below")
        yield Span((left, bottom), (left, top), "left")
    if role == "side":
        yield Span((left, top), (right, top), "above")


def measured_spans(piece: Piece, role: Role, view: View) -> Iterator[Span]:
    """The measures that the piece names for this view, each along the axis it mostly runs in."""
    for measure in piece.measures:
        if measure.view == role:
            p, q = view.project(measure.start), view.project(measure.end)
            yield Span(p, q, _side(role, p, q, view), measure.times)


def _side(role: Role, p: Point, q: Point, view: View) -> Side:
    """The nearer side; but above the side view, where there is always room."""
    left, bottom, right, top = view.bounds
    if abs(q[0] - p[0]) < abs(q[1] - p[1]):
        return "left" if p[0] - left <= right - p[0] else "right"
    return "above" if role == "side" or top - p[1] < p[1] - bottom else "below"


def _deep(span: Span, view: View) -> bool:
    left, bottom, right, top = view.bounds
    edge = {"left": left, "right": right, "below": bottom, "above": top}[span.side]
    axis, breadth = (1, top - bottom) if span.level else (0, right - left)
    return not span.level and min(abs(span.p[axis] - edge), abs(span.q[axis] - edge)) > _TOO_DEEP * breadth


def _inside(span: Span, port: ViewPort, form: Lengths, drawn: Drawn) -> LinearDimension | None:
    """A dimension inside the view, at the nearest place where its text is clear; None where it nowhere is."""
    (x, y), q, text = port.place(span.p), port.place(span.q), span.text(form)
    measured = port.shown.length(span.p, span.q, (0.0, 1.0)) if port.shown else None
    tries = (
        LinearDimension((x, y), q, (x + aside, y), 90.0, text, span.length, port.scale, measured=measured)
        for aside in _ASIDE
    )
    fits = text_width(text, 2.5) + 1.0 <= span.length * port.scale
    return next((d for d in tries if fits and not drawn.strikes(d)), None)


def _radius(size: float, centre: Point, view: View, port: ViewPort, form: Lengths, drawn: Drawn) -> RadiusDimension:
    """A radius whose leader lies on a line through the centre: text clear, few lines crossed, inside the view's box."""
    start, end = _stretch(size, centre, view)
    corners = (*port.place(view.bounds[:2]), *port.place(view.bounds[2:]))
    tries = [
        radius(centre, size, start + share * (end - start), port, reach, text=form(size, "R"))
        for reach in _REACHES
        for share in _ALONG
    ]

    def trouble(tried: RadiusDimension) -> float:
        beyond = _beyond(box_of([tried]), corners)
        return 20 * drawn.strikes(tried) + 3 * drawn.crossings(tried) + abs(tried.reach) / 4 + beyond / 2

    return min(tries, key=trouble)


def _beyond(box: Box, corners: Box) -> float:
    """How far a box reaches out of another, mm."""
    return max(0.0, corners[0] - box[0], corners[1] - box[1], box[2] - corners[2], box[3] - corners[3])


def _stretch(size: float, centre: Point, view: View) -> tuple[float, float]:
    """Over which degrees the view shows the arc; where it shows none of it, toward the middle of the view."""
    shown = [
        c
        for c in (*view.visible, *view.hidden)
        if isinstance(c, CircularArc) and abs(c.radius - size) < 0.01 and abs(c.centre[0] - centre[0]) < 0.1
        and abs(c.centre[1] - centre[1]) < 0.1
    ]  # fmt: skip
    if shown:
        return min(c.start_deg for c in shown), max(c.end_deg for c in shown)
    return 88.0, 92.0


def middle_of(piece: Piece) -> float | None:
    """x of the plane in which all the piece's left and right parts mirror each other, mm; None without pairs."""
    middles = set()
    for right in piece:
        if right.mirror_of is not None:
            left = piece[right.mirror_of]
            far = left.at.point((0.0, left.wood.stock.width, 0.0))
            middles.add(round((right.at.origin[0] + far[0]) / 2.0, 3) + 0.0)
    return middles.pop() if len(middles) == 1 else None


def centre_line(piece: Piece, role: Role, view: View, port: ViewPort) -> tuple[Line, ...]:
    """The line of symmetry in the front and top views of a piece that is the same left and right."""
    middle = middle_of(piece)
    if role == "side" or middle is None:
        return ()
    x, low = port.place((middle, view.bounds[1]))
    high = port.place((middle, view.bounds[3]))[1]
    return (Line((x, low - _CENTRE_OVERRUN), (x, high + _CENTRE_OVERRUN), Pen.CENTRE),)
