"""The piece as coloured meshes where they stand, for the GLB and the preview."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np

from drawings.preview.meshes import PlacedMesh, tessellate
from model.hardware import Hardware
from model.hardware_solids import SHOWN, hardware_solid
from model.part import GivenPart
from model.piece import Piece, Placed
from model.placement import Placement
from model.solids import solid
from model.wood.material import material_named

Colour = tuple[float, float, float]

_METAL: Colour = (0.70, 0.66, 0.58)


def scene(piece: Piece) -> list[PlacedMesh]:
    """Every part, and the hardware that shows, as meshes in mm, Z up."""
    return [*(_part_mesh(part) for part in piece), *_hardware(piece)]


def group(name: str) -> str:
    """What a part belongs to, by its name without numbers and hands: "back board 3" is a back board."""
    plain = re.sub(r" of bay \d+$", "", name)
    plain = re.sub(r"^(left|right) ", "", plain)
    return re.sub(r" \d+$", "", plain)


def species_of(part: Placed) -> str:
    """The wood a part is made of, in trade words; empty if it isn't said."""
    return (part.part.species if isinstance(part.part, GivenPart) else part.part.stock.species) or ""


def colour(species: str) -> Colour:
    """sRGB, 0 to 1, of the planed wood; a plain tan for a species without a colour."""
    if not species:
        return (0.80, 0.68, 0.50)
    r, g, b = material_named(species).rgb
    return (r / 255.0, g / 255.0, b / 255.0)


def _part_mesh(part: Placed) -> PlacedMesh:
    wood = species_of(part)
    mesh = tessellate(solid(part.part))
    return PlacedMesh(part.name, mesh, _matrix(part.at), colour(wood), wood, group(part.name))


def hardware_shown(piece: Piece) -> Iterator[tuple[str, Hardware]]:
    """The hardware that shows, each item with its name in the scene."""
    for n, item in enumerate((i for i in piece.hardware if i.kind in SHOWN), 1):
        yield f"{item.kind} {n}", item


def _hardware(piece: Piece) -> Iterator[PlacedMesh]:
    for name, item in hardware_shown(piece):
        wood = species_of(piece[item.parts[0]]) if item.wooden else ""
        look = colour(wood) if item.wooden else _METAL
        mesh = tessellate(hardware_solid(item))
        yield PlacedMesh(name, mesh, _matrix(Placement()), look, wood, item.kind, "hardware")


def _matrix(at: Placement) -> np.ndarray:
    return np.array([*at.matrix(), (0.0, 0.0, 0.0, 1.0)])
