"""Dimensions as a drafter thinks of them: two points of a view, the side they are shown on, how far out.

Values are taken from the view's own model millimetres, never from the drawn line, and every dimension's text is
made by `dimension_text`.
"""

from __future__ import annotations

import math
from typing import Literal

from drawings.paper.sheet import (
    AngularDimension,
    LinearDimension,
    OrdinateDimension,
    Point,
    RadiusDimension,
    ViewPort,
)

Side = Literal["above", "below", "left", "right"]

#: First dimension line from the outline, and from line to line, mm: not less than 10 and 6 by ASME Y14.5
#: 1.7.1 (NAVEDTRA 14069 ch. 10); 8 between lines leaves room for 2.5 mm lettering above each.
FIRST_LINE = 10.0
NEXT_LINE = 8.0

_OUT: dict[Side, Point] = {"above": (0, 1), "below": (0, -1), "left": (-1, 0), "right": (1, 0)}


def dimension_text(value_mm: float, units: str = "mm", denominator: int = 16, prefix: str = "") -> str:
    """The printed text of a length: the only place where one is made.

    `units` and `denominator` as `model.lengths.format_length` takes them; `prefix` is "R", "Ø" or "".
    """
    from model.lengths import format_length

    return prefix + format_length(value_mm, units, denominator)


def angle_text(value_deg: float) -> str:
    """The printed text of an angle, to a tenth of a degree.

    >>> angle_text(12.04), angle_text(90.0)
    ('12°', '90°')
    """
    return f"{value_deg:.1f}".removesuffix(".0") + "°"


def tier_distance(tier: int) -> float:
    """How far from the outline the dimension line of a tier stands, paper mm; tier 0 is the nearest."""
    return FIRST_LINE + tier * NEXT_LINE


def linear(
    p: Point,
    q: Point,
    view: ViewPort,
    side: Side,
    tier: int = 0,
    edge: float | None = None,
    *,
    units: str = "mm",
    denominator: int = 16,
    text: str | None = None,
    beside: Literal["start", "end"] = "end",
) -> LinearDimension:
    """A level dimension (above, below) or an upright one (left, right) between points of a view, model mm.

    `edge` is the view's outermost y (above, below) or x (left, right) on that side, model mm, from which the
    tiers are counted; without it the outer of the two points. `text` replaces the formatted value.
    """
    out = _OUT[side]
    level = side in ("above", "below")
    axis = 1 if level else 0
    outermost = (max if out[axis] > 0 else min)(p[axis], q[axis]) if edge is None else edge
    foot = view.place((p[0], outermost) if level else (outermost, p[1]))
    distance = tier_distance(tier)
    value = abs(q[0] - p[0]) if level else abs(q[1] - p[1])
    return LinearDimension(
        view.place(p),
        view.place(q),
        (foot[0] + out[0] * distance, foot[1] + out[1] * distance),
        0.0 if level else 90.0,
        dimension_text(value, units, denominator) if text is None else text,
        value,
        view.scale,
        beside=beside,
        measured=view.shown.length(p, q, (1.0, 0.0) if level else (0.0, 1.0)) if view.shown else None,
    )


def aligned(
    p: Point,
    q: Point,
    view: ViewPort,
    distance: float = FIRST_LINE,
    *,
    units: str = "mm",
    denominator: int = 16,
    text: str | None = None,
) -> LinearDimension:
    """A dimension along p to q, model mm, `distance` paper mm to the left of it (negative: to the right).

    Raises ValueError when p and q are the same point.
    """
    value = math.dist(p, q)
    if value == 0:
        raise ValueError(f"no dimension runs from {p} to itself")
    normal = (p[1] - q[1]) / value, (q[0] - p[0]) / value
    along = normal[1], -normal[0]
    x, y = view.place(p)
    return LinearDimension(
        (x, y),
        view.place(q),
        (x + normal[0] * distance, y + normal[1] * distance),
        math.degrees(math.atan2(q[1] - p[1], q[0] - p[0])),
        dimension_text(value, units, denominator) if text is None else text,
        value,
        view.scale,
        measured=view.shown.length(p, q, along) if view.shown else None,
    )


def ordinate(
    p: Point,
    origin: Point,
    axis: Literal["x", "y"],
    end: Point,
    view: ViewPort,
    *,
    units: str = "mm",
    denominator: int = 16,
) -> OrdinateDimension:
    """How far p lies from the datum `origin` along an axis of the view, model mm; its text beyond `end`, paper mm."""
    value = abs(p[0] - origin[0]) if axis == "x" else abs(p[1] - origin[1])
    return OrdinateDimension(
        view.place(p),
        view.place(origin),
        axis,
        end,
        dimension_text(value, units, denominator),
        value,
        view.scale,
        measured=view.shown.length(origin, p, (1.0, 0.0) if axis == "x" else (0.0, 1.0)) if view.shown else None,
    )


def radius(
    centre: Point,
    radius_mm: float,
    angle: float,
    view: ViewPort,
    reach: float = -8.0,
    *,
    units: str = "mm",
    denominator: int = 16,
    text: str | None = None,
) -> RadiusDimension:
    """A radius of an arc, model mm, its arrow on the arc at `angle` degrees; `reach` as in `RadiusDimension`."""
    shown = dimension_text(radius_mm, units, denominator, "R") if text is None else text
    measured = view.shown.radius(centre) if view.shown else None
    place = view.place(centre)
    return RadiusDimension(place, radius_mm * view.scale, angle, shown, radius_mm, view.scale, reach, measured=measured)


def diameter(
    centre: Point,
    diameter_mm: float,
    angle: float,
    view: ViewPort,
    reach: float = -8.0,
    *,
    units: str = "mm",
    denominator: int = 16,
    text: str | None = None,
) -> RadiusDimension:
    """A diameter of a hole or disc, model mm, its arrow on the circle at `angle` degrees."""
    shown = dimension_text(diameter_mm, units, denominator, "Ø") if text is None else text
    drawn, measured = diameter_mm / 2 * view.scale, view.shown.diameter(centre) if view.shown else None
    place = view.place(centre)
    return RadiusDimension(place, drawn, angle, shown, diameter_mm, view.scale, reach, diameter=True, measured=measured)


def angular(
    centre: Point, start: float, end: float, view: ViewPort, distance: float = 25.0, inner: float = 0.0
) -> AngularDimension:
    """The angle at a point of the view, model mm, counter-clockwise from `start` to `end` degrees.

    The arc stands `distance` paper mm from the point; extension lines begin `inner` model mm from it.
    """
    value = (end - start) % 360
    measured = view.shown.angle(centre, start, end) if view.shown else None
    place = view.place(centre)
    return AngularDimension(
        place, distance, start, end, angle_text(value), value, inner * view.scale, measured=measured
    )
