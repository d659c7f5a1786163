"""Scales, as paper over model: which there are by the trade's custom, how they are printed, which goes into a room.

Metric: ISO 5455:1979 clause 5.1. Inches: the architect's scale of the US trade, so many inches to the foot, with full
and half size (the ten of the three-sided rule but 3/32 in, as drafting courses list them), and 2:1 and up as ASME
drawings give enlargements.
"""

from __future__ import annotations

from fractions import Fraction

from drawings.paper.board import enlargement
from drawings.paper.measured import Shown
from drawings.paper.saying import Saying, Says, number
from model.lengths import INCH_UNITS

#: ISO 5455: recommended scales of enlargement, full size and reduction, largest first, and for a wall on a small page.
ISO_5455: tuple[float, ...] = (50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
_ISO_SMALLER = (1 / 200, 1 / 500, 1 / 1000)
#: Inches to the foot.
_TO_THE_FOOT = tuple(Fraction(n) for n in ("3", "3/2", "1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8"))
ARCHITECTS: tuple[float, ...] = (8, 4, 2, 1, 1 / 2, *(float(inches / 12) for inches in _TO_THE_FOOT))
_ARCHITECTS_SMALLER = (1 / 240, 1 / 480, 1 / 960)
_NAMED = {1.0: "Full size", 0.5: "Half size"}


def scales(units: str = "mm") -> tuple[float, ...]:
    """The scales a drawing in these units may have, as it is drawn on its board, largest first."""
    return tuple(s / enlargement(units) for s in (ARCHITECTS if units in INCH_UNITS else ISO_5455))


def small_scales(units: str = "mm") -> tuple[float, ...]:
    """Smaller ones still, by the same custom."""
    return tuple(s / enlargement(units) for s in (_ARCHITECTS_SMALLER if units in INCH_UNITS else _ISO_SMALLER))


def scale_text(scale: float, units: str = "mm") -> str:
    """The scale of a drawing on its board as it is printed: as ISO 5455 writes it, or as the US trade does.

    >>> scale_text(0.2), scale_text(1), scale_text(5)
    ('1:5', '1:1', '5:1')
    >>> scale_text(scales("in")[6], "in"), scale_text(scales("in")[3], "in")
    ('1 1/2" = 1\\'-0"', 'Full size')
    """
    scale *= enlargement(units)
    if scale > 1.0 + 1e-9:
        return f"{scale:g}:1"
    if units not in INCH_UNITS:
        return f"1:{round(1 / scale, 6):g}"
    return _NAMED.get(round(scale, 9)) or f'{_mixed(Fraction(12 * scale).limit_denominator(100))}" = 1\'-0"'


def view_scale(scale: float, units: str, shown: Shown) -> Saying:
    """The scale of a view as it is printed, said of what the view shows."""
    return number(scale_text(scale, units), shown.scale())


def sheet_scale(scale: float, units: str) -> Saying:
    """The scale of what a sheet is about, for its title block."""
    return number(scale_text(scale, units), Says("sheet scale"))


def _mixed(inches: Fraction) -> str:
    whole, part = divmod(inches, 1)
    return " ".join(str(n) for n in (whole, part) if n)


def largest_scale(
    width: float, height: float, room: tuple[float, float], most: float = 1.0, units: str = "mm"
) -> float | None:
    """The largest of the scales up to `most` at which width by height, model mm, goes into `room`, paper mm."""
    fits = (s for s in scales(units) if s <= most and width * s <= room[0] and height * s <= room[1])
    return next(fits, None)
