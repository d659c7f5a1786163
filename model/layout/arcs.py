"""Long arcs: chord, rise, radius, angle and area, each from the others.

The chord is the straight line between the arc's ends; the rise is the arc's height over the chord's middle.
Lengths are in millimetres (any one unit will do), angles in degrees, areas in square millimetres.
Formulas: Machinery's Handbook, 31st ed., p. 79 "Dimensions of Plane Figures" and p. 83 "Segments of Circles",
cited below as MH with the page and, where it has one, the number of the formula.
"""

import math

from model.errors import DesignError
from model.lengths import format_length
from model.tolerance import SAME_DIRECTION

Point = tuple[float, float]


def radius_from_chord_rise(chord: float, rise: float) -> float:
    """Radius [mm] of the arc over a chord [mm] with a rise [mm]: r = (c² + 4 h²) / (8 h).

    MH p. 79; p. 83 (23). Holds for every arc short of the full circle.

    >>> radius_from_chord_rise(16, 6)
    8.3333

    Raises:
        DesignError: chord or rise is not a positive length.
    """
    check_positive(chord=chord, rise=rise)
    return (chord**2 + 4 * rise**2) / (8 * rise)


def rise_from_radius_chord(radius: float, chord: float) -> float:
    """Rise [mm] of the lesser arc of a radius [mm] over a chord [mm]: h = r - sqrt(4 r² - c²) / 2.

    MH p. 79; p. 83 (14). Worked as (c/2)² / (r + sqrt(r² - (c/2)²)), the same value, which keeps its digits
    on long flat arcs.

    >>> rise_from_radius_chord(2750, 1480)
    101.4

    Raises:
        DesignError: a size is not a positive length, or the radius is less than half the chord.
    """
    check_spans(radius, chord)
    half = chord / 2
    return half**2 / (radius + math.sqrt((radius - half) * (radius + half)))


def chord_from_radius_rise(radius: float, rise: float) -> float:
    """Chord [mm] of an arc of a radius [mm] with a rise [mm]: c = 2 sqrt(h (2 r - h)). MH p. 79.

    >>> chord_from_radius_rise(12, 2)
    13.266

    Raises:
        DesignError: a size is not a positive length, or the rise is not less than the diameter.
    """
    check_positive(radius=radius, rise=rise)
    if rise >= 2 * radius:
        raise DesignError(
            f"a rise of {_mm(rise)} is not less than the diameter of a {_mm(radius)} radius; "
            f"take a rise below {_mm(2 * radius)}"
        )
    return 2 * math.sqrt(rise * (2 * radius - rise))


def chord_from_radius_angle(radius: float, angle: float) -> float:
    """Chord [mm] of an arc of a radius [mm] and an angle [deg, up to 360] at the centre: c = 2 r sin(a / 2).

    From the definition of the sine: half the chord stands across from half the angle.

    Raises:
        DesignError: the radius is not a positive length, or the angle is not within 0 to 360.
    """
    check_positive(radius=radius)
    check_angle(angle)
    return 2 * radius * math.sin(math.radians(angle) / 2)


def half_angle_from_chord(radius: float, chord: float) -> float:
    """Half the angle [deg] at the centre of an arc of a radius [mm] over a chord [mm]: asin(c / (2 r)).

    From the definition of the sine, for the lesser arc: at most 90.

    >>> half_angle_from_chord(2750, 1480)
    15.61

    Raises:
        DesignError: a size is not a positive length, or the radius is less than half the chord.
    """
    check_spans(radius, chord)
    return math.degrees(math.asin(chord / (2 * radius)))


def angle_from_chord_rise(chord: float, rise: float) -> float:
    """Angle [deg] at the centre of the arc over a chord [mm] with a rise [mm]: a = 4 atan(2 h / c).

    MH p. 83 (22).

    Raises:
        DesignError: chord or rise is not a positive length.
    """
    check_positive(chord=chord, rise=rise)
    return math.degrees(4 * math.atan2(2 * rise, chord))


def arc_length(radius: float, angle: float) -> float:
    """Length [mm] along an arc of a radius [mm] and an angle [deg] at the centre: l = pi r a / 180.

    MH p. 83 (3).

    >>> arc_length(2750, 31.2196)
    1498.4

    Raises:
        DesignError: the radius is not a positive length, or the angle is not within 0 to 360.
    """
    check_positive(radius=radius)
    check_angle(angle)
    return math.pi * radius * angle / 180


def segment_area(radius: float, angle: float) -> float:
    """Area [mm²] between an arc of a radius [mm] and an angle [deg] and its chord: A = (r l - c (r - h)) / 2.

    MH p. 79. Worked as r² (a - sin a) / 2, a in radians: the same with l = r a, c = 2 r sin(a/2)
    and r - h = r cos(a/2). At 360 it is the whole circle.

    Raises:
        DesignError: the radius is not a positive length, or the angle is not within 0 to 360.
    """
    check_positive(radius=radius)
    check_angle(angle)
    turn = math.radians(angle)
    return radius**2 * (turn - math.sin(turn)) / 2


def bulge_from_angle(angle: float) -> float:
    """Bulge [-] of a polyline arc that turns through an angle [deg]: tan(a / 4), positive counter-clockwise.

    Source: AutoCAD DXF Reference, LWPOLYLINE, group code 42.

    >>> bulge_from_angle(-180)
    -1.0

    Raises:
        DesignError: the angle is not between -360 and 360.
    """
    if not abs(angle) < 360:
        raise DesignError(f"an arc of {angle:g} degrees has no bulge; take less than a full turn")
    return math.tan(math.radians(angle) / 4)


def bulge_from_chord_rise(chord: float, rise: float) -> float:
    """Bulge [-] of the arc over a chord [mm] with a rise [mm]: 2 h / c. A negative rise bulges clockwise.

    From the DXF definition tan(a / 4) and a = 4 atan(2 h / c), MH p. 83 (22).

    Raises:
        DesignError: the chord is not a positive length, or the rise is not finite.
    """
    check_positive(chord=chord)
    if not math.isfinite(rise):
        raise DesignError(f"the rise must be a length, not {rise}")
    return 2 * rise / chord


def circle_through(p: Point, q: Point, r: Point) -> tuple[Point, float]:
    """Centre and radius [mm] of the circle through three points [mm]: where the perpendicular bisectors meet.

    >>> circle_through((-8, 0), (0, 6), (8, 0))
    ((0.0, -2.3333), 8.3333)

    Raises:
        DesignError: the points stand in one line, or two of them are the same.
    """
    (qx, qy), (rx, ry) = (q[0] - p[0], q[1] - p[1]), (r[0] - p[0], r[1] - p[1])
    cross = qx * ry - qy * rx
    longest = max(math.hypot(qx, qy), math.hypot(rx, ry), math.hypot(rx - qx, ry - qy))
    if not abs(cross) > SAME_DIRECTION * longest**2:
        raise DesignError(
            f"no circle goes through {_at(p)}, {_at(q)} and {_at(r)}, which stand in one line; move one of them off it"
        )
    qq, rr = qx**2 + qy**2, rx**2 + ry**2
    x, y = (ry * qq - qy * rr) / (2 * cross), (qx * rr - rx * qq) / (2 * cross)
    return (p[0] + x, p[1] + y), math.hypot(x, y)


def concentric(radius: float, offset: float) -> float:
    """Radius [mm] of the arc with the same centre, an offset [mm] further out (or, negative, further in).

    >>> concentric(3251.2, -377.825)
    2873.375

    Raises:
        DesignError: the radius is not a positive length, or the offset reaches the centre.
    """
    check_positive(radius=radius)
    if not radius + offset > 0:
        raise DesignError(
            f"an arc {_mm(-offset)} inside a radius of {_mm(radius)} would be past its centre; "
            f"take an offset below {_mm(radius)}"
        )
    return radius + offset


def check_positive(**sizes: float) -> None:
    """Refuse the first of the named sizes [mm] that is not a positive, finite length.

    Raises:
        DesignError: naming the size and its value.
    """
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0):
            raise DesignError(f"the {name} must be more than 0 mm, not {size:g}")


def check_angle(angle: float) -> None:
    """Refuse an angle [deg] that is not more than 0 and at most a full turn.

    Raises:
        DesignError: naming the angle.
    """
    if not 0 < angle <= 360:
        raise DesignError(f"the angle of an arc must be more than 0 and at most 360 degrees, not {angle:g}")


def check_spans(radius: float, chord: float) -> None:
    """Refuse a radius [mm] too small to span a chord [mm].

    Raises:
        DesignError: naming both, and the least radius that would do.
    """
    check_positive(radius=radius, chord=chord)
    if 2 * radius < chord:
        least = math.ceil(chord * 5) / 10
        raise DesignError(
            f"a radius of {_mm(radius)} is too small for a chord of {_mm(chord)}; "
            f"the least radius that would do is {_mm(least)}"
        )


def _mm(length: float) -> str:
    return f"{format_length(length, decimals=3)} mm"


def _at(point: Point) -> str:
    return f"({point[0]:g}, {point[1]:g})"
