import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.errors import OrderError
from model.wood.species import (
    density,
    greatest_moisture,
    species_named,
    species_names,
    specific_gravity,
)

WOODS = [species_named(name) for name in species_names()]
IDS = species_names()


def test_fifty_six_woods_are_known_each_by_one_name():
    assert len(IDS) == len(set(IDS)) == 56
    assert sum(wood.softwood for wood in WOODS) == 25


def test_names_of_two_woods_never_collide():
    names = [name.casefold() for wood in WOODS for name in (wood.name, *wood.also)]

    assert len(names) == len(set(names))
    assert all(species_named(name) is wood for wood in WOODS for name in wood.also)


@pytest.mark.parametrize("wood", WOODS, ids=IDS)
def test_figures_lie_where_wood_can_be(wood):
    assert wood.name
    assert wood.scientific
    assert 0.25 < wood.specific_gravity_green < 0.75
    assert wood.specific_gravity_12 is None or wood.specific_gravity_green < wood.specific_gravity_12 < 0.8
    assert wood.fiber_saturation in (22, 30)
    assert 40 < wood.bending_strength < 145
    assert 5000 < wood.elastic_modulus < 15000
    assert 25 < wood.compression_parallel < 75
    assert wood.compression_perpendicular is None or 2 < wood.compression_perpendicular < 13
    assert wood.shear is None or 5 < wood.shear < 18
    assert wood.hardness is None or 1300 < wood.hardness < 8500


@pytest.mark.parametrize("wood", WOODS, ids=IDS)
def test_wood_shrinks_more_along_the_rings_than_across_them(wood):
    assert 2 <= wood.radial_shrinkage < wood.tangential_shrinkage < 12.5
    both = wood.radial_shrinkage + wood.tangential_shrinkage
    assert wood.volumetric_shrinkage == pytest.approx(both, rel=0.26)  # African mahogany is the loosest


@pytest.mark.parametrize("wood", WOODS, ids=IDS)
def test_every_figure_says_where_it_comes_from(wood):
    sure = ("read", "as cited by a secondary source", "from memory")

    for source in (wood.strength_source, wood.shrinkage_source):
        assert source.startswith("Table ")
        assert source.endswith(sure)
        assert source in wood.evidence


@pytest.mark.parametrize("wood", WOODS, ids=IDS)
def test_colour_is_light_enough_to_draw_on(wood):
    assert all(0 <= channel <= 255 for channel in wood.rgb)
    assert sum(wood.rgb) > 180
    assert "#{:02x}{:02x}{:02x}".format(*wood.rgb) == wood.colour


def test_printed_psi_become_mpa():
    pine = species_named("eastern white pine")  # printed: 8600 psi, 1.24e6 psi, 4800, 440, 900 psi, 380 lbf

    assert pine.bending_strength == pytest.approx(59.3, abs=0.05)
    assert pine.elastic_modulus == pytest.approx(8549, abs=1)
    assert pine.compression_parallel == pytest.approx(33.1, abs=0.05)
    assert pine.compression_perpendicular == pytest.approx(3.03, abs=0.005)
    assert pine.shear == pytest.approx(6.21, abs=0.005)
    assert pine.hardness == pytest.approx(1690, abs=1)


def test_figures_the_handbook_leaves_blank_are_none():
    assert species_named("slash pine").hardness is None
    assert species_named("eastern redcedar").shear is None
    assert species_named("teak").specific_gravity_12 is None
    assert species_named("teak").compression_perpendicular is None


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        ("Eastern White Pine", "eastern white pine"),
        ("Pine, eastern white", "eastern white pine"),
        ("  oak,  northern red ", "northern red oak"),
        ("Oak, red", "northern red oak"),
        ("douglas fir", "coast Douglas-fir"),
        ("Yellow poplar", "yellow-poplar"),
        ("cherry", "black cherry"),
        ("hard maple", "sugar maple"),
    ],
)
def test_a_wood_is_found_by_any_usual_name(asked, name):
    assert species_named(asked).name == name


@pytest.mark.parametrize("wood", WOODS, ids=IDS)
def test_name_round_trips(wood):
    kind, _, noun = wood.name.rpartition(" ")

    assert species_named(wood.name.upper()) is wood
    assert not kind or species_named(f"{noun}, {kind}") is wood


def test_unknown_wood_suggests_the_nearest_and_says_how_to_list():
    with pytest.raises(OrderError, match=r'"eastern wite pine".*eastern white pine.*dryfit woods'):
        species_named("eastern wite pine")
    with pytest.raises(OrderError, match=r'^no wood is called ""; To list'):
        species_named("")


def test_a_species_cannot_be_changed():
    with pytest.raises(dataclasses.FrozenInstanceError):
        species_named("teak").hardness = 1.0


@given(st.sampled_from(WOODS), st.floats(0, 90), st.floats(0, 90))
def test_wetter_wood_is_heavier_but_its_specific_gravity_is_no_greater(wood, one, other):
    dry, wet = sorted((one, other))

    assert density(wood, dry) <= density(wood, wet)
    assert specific_gravity(wood, dry) >= specific_gravity(wood, wet) >= wood.specific_gravity_green


@pytest.mark.parametrize("wood", [w for w in WOODS if w.specific_gravity_12], ids=lambda w: w.name)
def test_equation_stands_near_the_printed_specific_gravity_at_12(wood):
    apart = {"American basswood": 0.09, "black locust": 0.07}.get(wood.name, 0.06)

    assert specific_gravity(wood, 12) == pytest.approx(wood.specific_gravity_12, rel=apart)


@pytest.mark.parametrize("moisture", [-0.1, float("nan"), float("inf"), 300])
def test_moisture_content_that_cannot_be_is_refused(moisture):
    with pytest.raises(OrderError, match="moisture content of eastern white pine"):
        density(species_named("eastern white pine"), moisture)


def test_wood_full_of_water_outweighs_water():
    oak = species_named("white oak")

    assert density(oak, greatest_moisture(oak)) > 1000
