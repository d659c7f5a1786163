"""Density of wood against printed figures.

Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), chapter 4: Table 4-6a, the white
ash example beside Eqs. 4-13 and 4-14, and the greatest moisture contents printed with Eq. 4-3.
"""

from dataclasses import replace

import pytest

from model.wood.species import density, greatest_moisture, species_named, specific_gravity

ASH = species_named("white ash")


def wood_of(green: float):
    return replace(ASH, specific_gravity_green=green)


def green_for(at_12: float) -> float:
    """Eq. 4-13 solved for the green specific gravity: G_b = G_x / (1 + 0.265 G_x (1 - x/30))."""
    return at_12 / (1 + 0.265 * at_12 * (1 - 12 / 30))


def test_table_4_6a_at_12_percent():
    # Printed to the whole kg/m3: G = 0.60 on the volume at 12 % gives 672.
    assert density(wood_of(green_for(0.60)), 12) == pytest.approx(672, abs=0.5)


def test_table_4_6a_above_fiber_saturation():
    # G = 0.40, and 100 % is past saturation, so the volume is the green one: 800 kg/m3.
    assert density(wood_of(0.40), 100) == pytest.approx(800, abs=0.5)


def test_white_ash_example():
    # The example takes G at 12 % as 0.605 and so prints 678, where the equations alone give 0.6027 and 675.
    assert ASH.specific_gravity_green == 0.55
    assert specific_gravity(ASH, 12) == pytest.approx(0.605, abs=0.003)
    assert density(ASH, 12) == pytest.approx(678, rel=0.005)
    assert density(wood_of(green_for(0.605)), 12) == pytest.approx(678, abs=0.5)


@pytest.mark.parametrize(("green", "most"), [(0.3, 267), (0.9, 44)])
def test_greatest_moisture_content(green, most):
    # The two printed figures are what a wood substance of 1.50 gives; the equation has 1.54: 268.4 and 46.2.
    assert greatest_moisture(wood_of(green)) == pytest.approx(most, abs=2.5)
