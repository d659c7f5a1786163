"""Anything a part may be made of, wood or sheet goods: what lists, colours and weights ask of it.

Sheet goods: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Table 12-1, which gives a range of
specific gravity; the middle of it is used.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass

from model.errors import OrderError
from model.wood.species import WATER, Species, density, species_named, species_names


@dataclass(frozen=True)
class Material:
    """A wood or a sheet good.

    softwood: whether lumber of it is sized and sold as softwood. sheet: whether it comes in sheets. rgb: for display,
    0 to 255. density: in kg/m3, of a moisture content in %. source: of the density.
    """

    name: str
    softwood: bool
    sheet: bool
    rgb: tuple[int, int, int]
    density: Callable[[float], float]
    source: str


#: Specific gravity, least and greatest, of Table 12-1; the colour is for display and from no table.
_SHEET_GOODS: dict[str, tuple[float, float, tuple[int, int, int]]] = {
    "plywood": (0.4, 0.6, (222, 190, 142)),
    "hardboard": (0.9, 1.0, (122, 84, 56)),
    "medium-density fiberboard": (0.7, 0.9, (184, 148, 106)),
    "particleboard": (0.6, 0.8, (201, 170, 126)),
    "oriented strandboard": (0.5, 0.8, (205, 168, 112)),
}


def material_names() -> list[str]:
    """Every wood and sheet good by name."""
    return [*species_names(), *_SHEET_GOODS]


def material_named(name: str) -> Material:
    """The wood or sheet good of this name. Raises OrderError, naming the nearest, for one that isn't known.

    >>> round(material_named("plywood").density(8))
    540
    """
    plain = " ".join(name.casefold().split())
    if plain in _SHEET_GOODS:
        return _sheet_good(plain)
    try:
        return _wood(species_named(name))
    except OrderError:
        near = difflib.get_close_matches(plain, _SHEET_GOODS, n=1)
        if near:
            raise OrderError(f'no wood or sheet good is called "{name}"; did you mean {near[0]}?') from None
        raise


def _wood(species: Species) -> Material:
    return Material(
        species.name,
        species.softwood,
        False,
        species.rgb,
        lambda moisture: density(species, moisture),
        species.evidence,
    )


def _sheet_good(name: str) -> Material:
    least, most, rgb = _SHEET_GOODS[name]
    gravity = (least + most) / 2.0
    source = f"Wood Handbook, FPL-GTR-282 (2021), Table 12-1: specific gravity {least:g} to {most:g}"
    return Material(name, False, True, rgb, lambda moisture: WATER * gravity * (1.0 + moisture / 100.0), source)
