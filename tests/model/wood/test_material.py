from __future__ import annotations

import pytest

from model.errors import OrderError
from model.wood.material import material_named, material_names
from model.wood.species import density, species_named


def test_a_wood_is_its_species() -> None:
    pine = material_named("Pine, eastern white")

    assert pine.name == "eastern white pine"
    assert pine.softwood
    assert not pine.sheet
    assert pine.density(8) == density(species_named("eastern white pine"), 8)


def test_plywood_lies_within_the_printed_range() -> None:
    """Wood Handbook, FPL-GTR-282 (2021), Table 12-1: plywood 0.4 to 0.6."""
    plywood = material_named("plywood")

    assert plywood.sheet
    assert plywood.density(0) == pytest.approx(500.0)
    assert "Table 12-1" in plywood.source


def test_every_name_is_known() -> None:
    for name in material_names():
        assert 80 < material_named(name).density(8) < 1400


@pytest.mark.parametrize(("wrong", "near"), [("plywod", "plywood"), ("eastern wite pine", "eastern white pine")])
def test_an_unknown_name_is_told_the_nearest(wrong: str, near: str) -> None:
    with pytest.raises(OrderError, match=near):
        material_named(wrong)
