"""Sizes and board feet against the published rules.

Sources, each as cited by secondary sources: - American Softwood Lumber Standard PS 20-20, Table 3, and its
rule by the AWC NDS Supplement (2018), Table 1A; - NHLA Rules for the Measurement and Inspection of Hardwood
and Cypress, with examples by the American
  Hardwood Export Council (AHEC), Phuong Dong, Powers Hardwoods and Construction Jargon;
- W. Noyes, Handwork in Wood (1910), for the board foot alone: its dressed sizes are no longer current;
- PS 1-22 Structural Plywood, thickness tolerances.
"""

import pytest

from model.wood.lumber import (
    board_feet,
    bundle_board_feet,
    dressed,
    nominal_thicknesses,
    plywood_categories,
    surface_measure,
    tally_length,
    tally_widths,
)

INCH, FOOT = 25.4, 304.8


@pytest.mark.parametrize(
    ("thickness", "width", "dry_mm"),
    [
        (1, 4, (19, 89)),
        (1, 6, (19, 140)),
        (1, 12, (19, 286)),
        (2, 4, (38, 89)),
        (2, 8, (38, 184)),
        (4, 10, (89, 235)),
        (2, 16, (38, 387)),
    ],
)
def test_ps_20_metric_sizes(thickness, width, dry_mm):
    # PS 20 prints its millimetres whole.
    size = dressed(thickness, width)

    assert (size.thickness, size.width) == pytest.approx(dry_mm, abs=0.5)


@pytest.mark.parametrize("thickness", [2, 2.5, 3, 3.5, 4, 4.5])
@pytest.mark.parametrize("width", [2, 3, 4, 5, 6, 8, 10, 12, 14, 16])
def test_dimension_lumber_follows_the_nds_rule(thickness, width):
    # NDS: dry thickness is nominal - 1/2 in; dry width nominal - 1/2 to 6 in, nominal - 3/4 above.
    size = dressed(thickness, width)

    assert size.thickness / INCH == pytest.approx(thickness - 0.5)
    assert size.width / INCH == pytest.approx(width - (0.5 if width <= 6 else 0.75))


@pytest.mark.parametrize(("nominal", "less"), [(5, 0.5), (6, 0.5), (7, 0.75), (15, 0.75), (16, 1), (18, 1)])
def test_timbers(nominal, less):
    assert dressed(nominal, 6).thickness / INCH == pytest.approx(nominal - less)


@pytest.mark.parametrize(
    ("quarters", "surfaced"),
    [
        ("4/4", 13 / 16),
        ("5/4", 1 + 1 / 16),
        ("6/4", 1 + 5 / 16),
        ("8/4", 1.75),
        ("12/4", 2.75),
        ("16/4", 3.75),
    ],
)
def test_nhla_surfaced_two_sides(quarters, surfaced):
    sizes = {n.text: n.dressed_mm / INCH for n in nominal_thicknesses(hardwood=True)}

    assert sizes[quarters] == pytest.approx(surfaced)


def test_ahec_board_two_inches_thick():
    # 2 in x 6 1/4 in x 8 ft: 6.25 x 8 / 12 = 4 1/6, surface measure 4, 8 board feet.
    assert surface_measure(6.25, 8) == 4
    assert bundle_board_feet([surface_measure(6.25, 8)], 2) == 8


@pytest.mark.parametrize(("width", "length", "measure"), [(6.5, 8, 4), (8, 12, 8), (10, 13, 11)])
def test_phuong_dong_surface_measures(width, length, measure):
    assert surface_measure(width, length) == measure


def test_ahec_bundle_tally():
    # 5 1/4 in x 8 1/2 ft is tallied 5 in and 8 ft.
    assert tally_widths([5.25]) == [5]
    assert tally_length(8.5) == 8


@pytest.mark.parametrize(
    ("thickness", "width", "length", "feet"),
    [
        (1, 6, 12 * FOOT, 6),  # Noyes, Handwork in Wood
        (1, 6, 96 * INCH, 4),  # Powers Hardwoods
        (2, 6, 12 * FOOT, 12),  # Construction Jargon
        (1, 12, FOOT, 1),  # AHEC: the definition, 144 cubic inches
        (0.5, 12, FOOT, 1),  # NHLA: under an inch counts as an inch
    ],
)
def test_published_board_feet(thickness, width, length, feet):
    assert board_feet(length, width * INCH, thickness) == pytest.approx(feet)


@pytest.mark.parametrize("sheet", plywood_categories(), ids=lambda sheet: sheet.category)
def test_plywood_limits_follow_the_tolerance(sheet):
    # PS 1: +-1/32 in to 13/16, +-5 % above. The limits are printed to 0.001 in, 7/8 among them.
    whole, _, part = sheet.category.rpartition(" ")
    top, _, bottom = part.partition("/")
    nominal = float(whole or 0) + float(top) / float(bottom or 1)
    either_way = 1 / 32 if nominal <= 13 / 16 else 0.05 * nominal

    assert sheet.least / INCH == pytest.approx(nominal - either_way, abs=0.001)
    assert sheet.most / INCH == pytest.approx(nominal + either_way, abs=0.001)
