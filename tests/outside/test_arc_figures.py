"""Arcs against published worked examples.

MH: Machinery's Handbook, 31st ed. (Industrial Press).
MatheAss: MatheAss help, "Circular Sections".
Lobben: P. Lobben, Machinists' and Draftsmen's Handbook.

Lengths are in the unit of the source, since every formula is the same in any one unit. Each tolerance is half
the last printed digit unless the source itself rounded on the way, which is then said.
"""

import math

import pytest

from model.layout import arcs
from model.lengths import parse_length


def test_mh_p79_radius_of_a_segment() -> None:
    """Chord 16 in, height 6 in: radius 8 1/3 in, which is exact."""
    assert arcs.radius_from_chord_rise(16, 6) == pytest.approx(25 / 3, rel=1e-15)


def test_lobben_p200_radius_in_words() -> None:
    """Height squared and half the chord squared, added, over twice the height; on the figures of MH."""
    assert arcs.radius_from_chord_rise(16, 6) == (6**2 + 8**2) / (2 * 6)


def test_mh_p79_chord_of_a_segment() -> None:
    """Radius 60 in, height 8 in: chord 59.86; printed as 2 x 29.93, the root rounded first, so 0.01."""
    assert arcs.chord_from_radius_rise(60, 8) == pytest.approx(59.86, abs=0.01)


def test_mh_p50_chord_angle_arc_and_area() -> None:
    """Radius 12 cm, depth 2 cm: chord 13.27, half angle 33.56, angle 67.13, arc 14.06, area 18.01.

    The angle was worked from the rounded chord, and doubled after: 0.02. The rest hold to their last digit.
    """
    chord = arcs.chord_from_radius_rise(12, 2)
    angle = 2 * arcs.half_angle_from_chord(12, chord)

    assert chord == pytest.approx(13.27, abs=0.005)
    assert angle / 2 == pytest.approx(33.56, abs=0.005)
    assert angle == pytest.approx(67.13, abs=0.02)
    assert arcs.arc_length(12, angle) == pytest.approx(14.06, abs=0.005)
    assert arcs.segment_area(12, angle) == pytest.approx(18.01, abs=0.005)


def test_mh_p50_area_of_a_sector() -> None:
    """Radius 7 cm, 30 degrees: 12.83 cm². A sector is half its radius times its arc."""
    assert 7 * arcs.arc_length(7, 30) / 2 == pytest.approx(12.83, abs=0.005)


def test_mh_p79_area_of_a_ring() -> None:
    """Diameters 12 and 8 cm: 62.83 cm². The inner edge is concentric, 2 cm in."""
    ring = arcs.segment_area(6, 360) - arcs.segment_area(arcs.concentric(6, -2), 360)

    assert ring == pytest.approx(62.83, abs=0.005)


def test_matheass_plate() -> None:
    """Chord 21 cm, rise 6 cm: radius, angle, arc, distance of the chord, areas of segment and sector."""
    radius, angle = arcs.radius_from_chord_rise(21, 6), arcs.angle_from_chord_rise(21, 6)
    length = arcs.arc_length(radius, angle)

    assert radius == 12.1875
    assert angle == pytest.approx(118.97953, abs=5e-6)
    assert length == pytest.approx(25.308373, abs=5e-7)
    assert radius - 6 == 6.1875
    assert arcs.segment_area(radius, angle) == pytest.approx(89.254148, abs=5e-7)
    assert radius * length / 2 == pytest.approx(154.2229, abs=5e-5)


def test_matheass_arc() -> None:
    """Arc 1, angle 45 degrees: radius 1.2732395, chord 0.97449536, rise 0.096919589, segment 0.063460604.

    Worked from the printed radius, right to 5e-8, so a relative 1e-7 is all that can be asked.
    """
    radius = 1.2732395
    chord = arcs.chord_from_radius_angle(radius, 45)
    rise = arcs.rise_from_radius_chord(radius, chord)

    assert arcs.arc_length(radius, 45) == pytest.approx(1, rel=1e-7)
    assert chord == pytest.approx(0.97449536, rel=1e-7)
    assert rise == pytest.approx(0.096919589, rel=1e-7)
    assert arcs.segment_area(radius, 45) == pytest.approx(0.063460604, rel=1e-7)
    assert radius - rise == pytest.approx(1.17632, abs=5e-6)


def test_lobben_p200_segment_of_60_degrees() -> None:
    """Radius 9 in: 7.3386 in². Worked there with 0.433 for sqrt(3)/4 = 0.4330127 and 3.1416 for pi.

    Those two put it too high by 81 x 0.0000127 = 0.00103 and 81 x 0.0000073 / 6 = 0.0001; the rest is
    rounding.
    """
    theirs_too_high = 81 * (math.sqrt(3) / 4 - 0.433) + 81 * (3.1416 - math.pi) / 6

    assert arcs.segment_area(9, 60) == pytest.approx(7.3386 - theirs_too_high, abs=0.0001)


@pytest.mark.parametrize("rise", [1, 6, 8, 12])
def test_bulge_is_twice_the_rise_over_the_chord(rise: float) -> None:
    """DXF: bulge = tan(angle / 4); with MH p. 83 (22), angle = 4 atan(2 h / c), it is 2 h / c. Exact."""
    angle = arcs.angle_from_chord_rise(16, rise)

    assert arcs.bulge_from_angle(angle) == pytest.approx(2 * rise / 16, rel=1e-14)
    assert arcs.bulge_from_chord_rise(16, rise) == 2 * rise / 16


def test_an_inch() -> None:
    """1 inch = 25.4 mm, exactly: American Hardwood Export Council, measurement page."""
    assert parse_length("1 in") == 25.4
