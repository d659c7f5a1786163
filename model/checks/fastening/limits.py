"""How deep a fastener must go and how far from edge and end it must keep: figures with their sources, mm."""

from __future__ import annotations

from dataclasses import dataclass

from model.errors import OrderError
from model.hardware import Hardware
from model.wood.material import material_named
from model.wood.species import species_named, specific_gravity

HANDBOOK = "Wood Handbook, FPL-GTR-282 (2021), chapter 8"
#: From memory, not seen stored.
LEAST_NAIL = "National Design Specification for Wood Construction (2015), 12.1.6.5: six diameters"
FULL_NAIL = f"{HANDBOOK}, p. 8-7: 10 diameters in dense wood (G over 0.61), 14 in light wood (G under 0.42)"
FULL_SCREW = f"{HANDBOOK}, p. 8-11: seven diameters"
SPACING = f"{HANDBOOK}, pp. 8-7 and 8-11: half the thickness of the piece from an edge, its thickness from an end"
#: The share is that of bored to unbored end distances, 10 to 15 diameters; from memory, not seen stored.
BORED_SPACING = f"{SPACING}; two thirds of that where bored (National Design Specification 2015, Table C12.1.6.6)"
LEAF = "common practice: a hinge's screws three diameters into the wood; those of a leaf share its load"
DOWELLED = "common practice: a dowel goes into each part by twice its diameter at least"
THIN = "common practice: two thirds into wood too thin for more"
PLUGGED = "common practice: a plug at least 6 mm (1/4 in) deep"

#: What a bored pilot makes of the distances from edge and end.
BORED = 2.0 / 3.0

#: Least depth of a plug, mm.
LEAST_PLUG = 6.0


@dataclass(frozen=True)
class Hold:
    """Depth in the part that holds its point, mm: `least`, under which it counts for nothing, and `full`."""

    least: float
    full: float
    least_source: str
    full_source: str


def hold(item: Hardware, species: str) -> Hold:
    """What an item needs in wood of a species; a set one, a dowel or peg, in each part."""
    d = item.diameter
    if item.kind == "finish nail":
        return Hold(6.0 * d, nail_diameters(gravity(species)) * d, LEAST_NAIL, FULL_NAIL)
    if item.kind == "wood screw":
        return Hold(4.0 * d, 7.0 * d, "common practice: four diameters at the very least", FULL_SCREW)
    if item.kind == "hinge screw":
        return Hold(2.0 * d, 3.0 * d, LEAF, LEAF)
    if item.kind == "dowel":
        return Hold(d, 2.0 * d, DOWELLED, DOWELLED)
    return Hold(0.0, 0.0, "common practice", "common practice")


def nail_diameters(g: float) -> float:
    """Depth of a nail in the member holding its point, in diameters, for its full sideways strength (Wood Handbook,
    p. 8-7; linear between the two figures it gives). g: specific gravity.

    >>> nail_diameters(0.35), round(nail_diameters(0.515), 6), nail_diameters(0.68)
    (14.0, 12.0, 10.0)
    """
    share = (min(max(g, 0.42), 0.61) - 0.42) / (0.61 - 0.42)
    return 14.0 - 4.0 * share


def gravity(species: str) -> float:
    """Specific gravity, ovendry weight on volume at 12 % moisture; of sheet goods the middle of Table 12-1."""
    try:
        return specific_gravity(species_named(species), 12.0)
    except OrderError:
        return material_named(species).density(0.0) / 1000.0


@dataclass(frozen=True)
class Pilot:
    """Holes for a driven item, mm: `pilot` in the part that holds its point, `clearance` in the other (0: none; a
    hinge's leaf has its own)."""

    label: str
    species: str
    pilot: float
    clearance: float
    source: str


def pilot(item: Hardware, species: str) -> Pilot:
    """What to bore for a nail or screw. A screw: 70 % of its root diameter in softwood, 90 % in hardwood, the root
    two thirds of the shank (Wood Handbook, p. 8-10); a nail: 90 % of its diameter (p. 8-4)."""
    if item.kind == "finish nail":
        return Pilot(item.label, species, round(0.9 * item.diameter, 2), 0.0, f"{HANDBOOK}, p. 8-4")
    share = 0.7 if material_named(species).softwood else 0.9
    bored = round(share * item.diameter * 2.0 / 3.0, 2)
    clearance = 0.0 if item.kind == "hinge screw" else round(item.diameter + 0.3, 2)
    return Pilot(item.label, species, bored, clearance, f"{HANDBOOK}, p. 8-10")
