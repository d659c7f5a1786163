"""Ordinates: heights of an arc over its chord, to draw a long arc where no trammel reaches.

Strike the chord, mark the stations along it from the middle, raise each height square to the chord, and bend
a batten through the marks. Millimetres throughout; x runs from the chord's middle to the right.
"""

import math

from model.errors import DesignError
from model.layout.arcs import check_positive, check_spans
from model.tolerance import SAME_POINT

#: One ordinate: station from the chord's middle, and height over the chord there.
Ordinate = tuple[float, float]


def height_at(chord: float, radius: float, x: float) -> float:
    """Height [mm] of the lesser arc of a radius [mm] over its chord [mm], at x [mm] from the chord's middle.

    y = sqrt(r² - x²) - sqrt(r² - (c/2)²), from the equation of the circle. Worked as
    ((c/2)² - x²) / (sqrt(r² - x²) + sqrt(r² - (c/2)²)), which keeps its digits on flat arcs.

    >>> height_at(1480, 2750, 0), height_at(1480, 2750, 740)
    (101.4, 0.0)

    Raises:
        DesignError: a size is not a positive length, the radius is too small for the chord, or x is past
            the chord's ends.
    """
    check_spans(radius, chord)
    half = chord / 2
    if not abs(x) <= half:
        raise DesignError(f"a station {x:g} mm from the middle is past the end of a {chord:g} mm chord")
    rise_and_fall = (half - x) * (half + x)
    if rise_and_fall == 0:
        return 0.0
    return rise_and_fall / (math.sqrt(radius**2 - x**2) + math.sqrt(radius**2 - half**2))


def ordinates(chord: float, radius: float, stations: int) -> list[Ordinate]:
    """Heights at `stations` evenly spaced points along the chord [mm], from its left end to its right.

    Exactly symmetrical; an odd number of stations has one at the middle.

    >>> ordinates(1480, 2750, 3)
    [(-740.0, 0.0), (0.0, 101.4), (740.0, 0.0)]

    Raises:
        DesignError: fewer than 2 stations, or sizes as for `height_at`.
    """
    if stations < 2:
        raise DesignError(f"ordinates need at least the 2 ends of the chord as stations, not {stations}")
    check_spans(radius, chord)
    gaps = stations - 1
    return _at_stations(chord, radius, [(2 * n - gaps) / gaps * chord / 2 for n in range(stations)])


def ordinates_by_spacing(chord: float, radius: float, spacing: float) -> list[Ordinate]:
    """Heights every `spacing` [mm] from the chord's middle both ways, and at its ends, from left to right.

    >>> [x for x, _ in ordinates_by_spacing(1480, 2750, 300)]
    [-740.0, -600.0, -300.0, 0.0, 300.0, 600.0, 740.0]

    Raises:
        DesignError: a spacing that is not a positive length, or sizes as for `height_at`.
    """
    check_positive(spacing=spacing)
    check_spans(radius, chord)
    half = chord / 2
    inner = math.ceil((half - SAME_POINT) / spacing) - 1
    right = [float(n * spacing) for n in range(1, inner + 1)] + [half]
    return _at_stations(chord, radius, [-x for x in reversed(right)] + [0.0, *right])


def _at_stations(chord: float, radius: float, xs: list[float]) -> list[Ordinate]:
    return [(x, height_at(chord, radius, x)) for x in xs]
