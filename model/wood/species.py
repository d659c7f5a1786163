"""Which wood is it, and what does the Wood Handbook say of it?

Figures: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021): strength at 12 % moisture content
from Table 5-3b (woods of the United States) and 5-5b (imported), shrinkage from Tables 4-3 and 4-4.
species.csv keeps the inch-pound figures as printed, because the handbook's metric columns are rounded apart
from them; each row says which table it follows and whether that was read, is cited by a secondary source, or
is from memory.
"""

import csv
import difflib
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from model.errors import OrderError

MPA_PER_PSI = 0.006894757
MPA_PER_MILLION_PSI = 1e6 * MPA_PER_PSI
NEWTON_PER_POUND_FORCE = 4.448222

#: Density of water [kg/m3].
WATER = 1000.0

#: Specific gravity of the wood substance itself, with no hollows (Wood Handbook (2021) Eq. 4-3).
CELL_WALL = 1.54


@dataclass(frozen=True)
class Species:
    """One wood as the trade names it, with its handbook figures.

    A figure the handbook leaves blank is None. All figures are means of small clear specimens, not design
    values.

    Attributes:
        name: trade order, "eastern white pine".
        also: other names the trade uses for it.
        scientific: botanical name.
        softwood: True for conifers, which also decides how lumber of it is sized and sold.
        specific_gravity_green: ovendry weight on green volume, [-].
        specific_gravity_12: ovendry weight on volume at 12 % moisture content, [-].
        fiber_saturation: moisture content where shrinkage begins [%]: 30, or the 22 that the
            handbook's Table 13-5 implies for redwood, western redcedar and northern white cedar.
        radial_shrinkage, tangential_shrinkage, volumetric_shrinkage: green to ovendry, % of green size.
        bending_strength: modulus of rupture at 12 % [MPa].
        elastic_modulus: modulus of elasticity in bending at 12 % [MPa].
        compression_parallel: crushing strength along the grain at 12 % [MPa].
        compression_perpendicular: stress at the proportional limit across the grain at 12 % [MPa].
        shear: shear strength along the grain at 12 % [MPa].
        hardness: side hardness at 12 % [N].
        colour: "#rrggbb" of the planed wood, invented for display: a guide for the eye, from no table.
        strength_source, shrinkage_source: the handbook's table, and how surely it is known.
    """

    name: str
    scientific: str
    softwood: bool
    specific_gravity_green: float
    specific_gravity_12: float | None
    fiber_saturation: float
    radial_shrinkage: float
    tangential_shrinkage: float
    volumetric_shrinkage: float
    bending_strength: float
    elastic_modulus: float
    compression_parallel: float
    compression_perpendicular: float | None
    shear: float | None
    hardness: float | None
    colour: str
    strength_source: str
    shrinkage_source: str
    also: tuple[str, ...] = field(default=())

    @property
    def rgb(self) -> tuple[int, int, int]:
        """The display colour as red, green, blue, each 0 to 255."""
        red, green, blue = bytes.fromhex(self.colour.removeprefix("#"))
        return red, green, blue

    @property
    def evidence(self) -> str:
        """Where the figures come from, in one line for a report."""
        return f"Wood Handbook, FPL-GTR-282 (2021): strength {self.strength_source}; shrinkage {self.shrinkage_source}"


def species_names() -> list[str]:
    """Every known wood in trade order ("eastern white pine"), alphabetical."""
    return sorted((wood.name for wood in _species()), key=str.casefold)


def species_named(name: str) -> Species:
    """The wood of this name: in trade order, index order ("Pine, eastern white") or a short form ("cherry").

    Raises:
        OrderError: no such wood; the message names the nearest ones and how to list all.

    >>> species_named("Pine, eastern white").scientific
    'Pinus strobus'
    """
    by_name = _species_by_name()
    try:
        return by_name[_plain(name)]
    except KeyError:
        raise OrderError(_unknown(name)) from None


def specific_gravity(species: Species, moisture_pct: float) -> float:
    """Specific gravity on the volume at this moisture content [-], ovendry weight.

    Wood Handbook (2021) Eq. 4-13: G_x = G_b / (1 - 0.265 G_b (1 - x / MC_fs)), with G_b the green specific
    gravity. Valid from 0 % to fiber saturation; above it wood swells no more and G_x = G_b.

    Raises:
        OrderError: moisture content below 0 % or above what the wood can hold (see `greatest_moisture`).
    """
    _check_moisture(species, moisture_pct)
    green = species.specific_gravity_green
    still_dry = max(0.0, 1 - moisture_pct / species.fiber_saturation)
    return green / (1 - 0.265 * green * still_dry)


def density(species: Species, moisture_pct: float) -> float:
    """Density with the water in it at this moisture content [kg/m3].

    Wood Handbook (2021) Eq. 4-14: rho_x = rho_w G_x (1 + x/100), with rho_w = 1000 kg/m3 and G_x from Eq.
    4-13. It starts from the green specific gravity; the one printed at 12 % gives within 6 % of it, American
    basswood (9 % heavier) and black locust (7 % lighter) apart.

    Raises:
        OrderError: as `specific_gravity`.

    >>> round(density(species_named("eastern white pine"), 12))
    403
    """
    return WATER * specific_gravity(species, moisture_pct) * (1 + moisture_pct / 100)


def greatest_moisture(species: Species) -> float:
    """Moisture content when every hollow is full of water [%].

    Wood Handbook (2021) Eq. 4-3: MC_max = 100 (1.54 - G_b) / (1.54 G_b).
    """
    green = species.specific_gravity_green
    return 100 * (CELL_WALL - green) / (CELL_WALL * green)


def _check_moisture(species: Species, moisture_pct: float) -> None:
    most = greatest_moisture(species)
    if not (math.isfinite(moisture_pct) and 0 <= moisture_pct <= most):
        raise OrderError(
            f"moisture content of {species.name} is {moisture_pct:g} %; "
            f"it must be from 0 to {most:.0f} %, and furniture wood is 6 to 14 %"
        )


def _unknown(name: str) -> str:
    near = difflib.get_close_matches(_plain(name), _species_by_name(), n=3, cutoff=0.5)
    names = dict.fromkeys(_species_by_name()[key].name for key in near)
    guess = f"did you mean {' or '.join(names)}? " if names else ""
    return f'no wood is called "{name}"; {guess}To list them all: dryfit woods'


def _plain(name: str) -> str:
    """Trade order, small letters, single spaces, no hyphens: so that "Pine, Eastern White" finds its wood."""
    noun, comma, kind = name.partition(",")
    turned = f"{kind} {noun}" if comma else name
    return " ".join(turned.casefold().replace("-", " ").split())


@cache
def _species_by_name() -> Mapping[str, Species]:
    return MappingProxyType({_plain(name): wood for wood in _species() for name in (wood.name, *wood.also)})


@cache
def _species() -> tuple[Species, ...]:
    text = files("model.wood").joinpath("species.csv").read_text(encoding="utf-8")
    return tuple(_from_row(row) for row in csv.DictReader(text.splitlines()))


def _from_row(row: Mapping[str, str]) -> Species:
    return Species(
        name=row["name"],
        also=tuple(filter(None, row["also"].split("|"))),
        scientific=row["scientific"],
        softwood=row["kind"] == "softwood",
        specific_gravity_green=float(row["sg_green"]),
        specific_gravity_12=_figure(row["sg_12"]),
        fiber_saturation=float(row["fiber_saturation_pct"]),
        radial_shrinkage=float(row["radial_pct"]),
        tangential_shrinkage=float(row["tangential_pct"]),
        volumetric_shrinkage=float(row["volumetric_pct"]),
        bending_strength=float(row["bending_psi"]) * MPA_PER_PSI,
        elastic_modulus=float(row["modulus_Mpsi"]) * MPA_PER_MILLION_PSI,
        compression_parallel=float(row["compression_parallel_psi"]) * MPA_PER_PSI,
        compression_perpendicular=_figure(row["compression_perpendicular_psi"], MPA_PER_PSI),
        shear=_figure(row["shear_psi"], MPA_PER_PSI),
        hardness=_figure(row["side_hardness_lbf"], NEWTON_PER_POUND_FORCE),
        colour=row["colour"],
        strength_source=row["strength_source"],
        shrinkage_source=row["shrinkage_source"],
    )


def _figure(text: str, factor: float = 1.0) -> float | None:
    return float(text) * factor if text else None
