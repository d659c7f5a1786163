"""What holds a piece together besides wood and glue, each item with its place. Millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from model.errors import DesignError
from model.placement import Vector


@dataclass(frozen=True)
class NailSize:
    """Length and diameter of a nail, mm."""

    length: float
    diameter: float


#: Finishing nails by pennyweight. Source: FF-N-105 / ASTM F1667, from memory.
FINISH_NAILS: dict[str, NailSize] = {
    "2d": NailSize(25.4, 1.47),
    "3d": NailSize(31.8, 1.70),
    "4d": NailSize(38.1, 1.83),
    "6d": NailSize(50.8, 2.34),
    "8d": NailSize(63.5, 2.51),
    "10d": NailSize(76.2, 2.87),
}

#: Shank diameter of wood screws by gauge number. Source: Wood Handbook, FPL-GTR-282 (2021), Table 8-9.
SCREW_SHANKS: dict[str, float] = {"6": 3.51, "7": 3.84, "8": 4.17, "9": 4.50, "10": 4.83, "12": 5.49}


#: What is made of the piece's own wood.
WOODEN = ("dowel", "peg", "plug", "wedge", "key", "spline", "loose tongue", "knob")


@dataclass(frozen=True)
class Hardware:
    """One item: what it is, its size in words, where it sits and which way it goes in.

    at: its head, mouth or middle, in the piece; direction: unit vector the way it is driven, or along its length;
    parts: the parts it holds; length and diameter in mm. A flat one, a spline, key or wedge, has its width for a
    diameter, lying `across` (unit vector), and a thickness, mm; so has a biscuit, whose diameter is its own length
    along the joint. What is round has neither.
    """

    kind: str
    size: str
    at: Vector
    direction: Vector
    parts: tuple[str, ...]
    length: float
    diameter: float
    thickness: float = 0.0
    across: Vector | None = None

    @property
    def wooden(self) -> bool:
        """Whether it is of wood, like the parts it holds."""
        return self.kind in WOODEN

    @property
    def label(self) -> str:
        return f"{self.kind}, {self.size}"


def finish_nail(penny: str, at: Vector, direction: Vector, parts: tuple[str, ...]) -> Hardware:
    """A finish nail, its head at `at`; raises DesignError for a size that isn't made."""
    if penny not in FINISH_NAILS:
        raise DesignError(f'no finish nail has size "{penny}"; there are {", ".join(FINISH_NAILS)}')
    size = FINISH_NAILS[penny]
    return Hardware("finish nail", f"{penny} x {size.length:g} mm", at, direction, parts, size.length, size.diameter)


def nail_through(thickness: float) -> str:
    """The smallest finish nail that goes through `thickness` mm and then 14 of its diameters deep, which gives its full
    hold in the lightest wood (Wood Handbook, FPL-GTR-282 (2021), p. 8-7); the longest where none does.

    >>> nail_through(12.0), nail_through(19.0)
    ('4d', '8d')
    """
    enough = (p for p, n in FINISH_NAILS.items() if n.length - thickness >= 14.0 * n.diameter)
    return next(enough, list(FINISH_NAILS)[-1])


#: Lengths wood screws are commonly stocked in, mm (common practice: 3/4 to 3 in).
SCREW_LENGTHS = (19.0, 25.0, 32.0, 38.0, 45.0, 51.0, 57.0, 64.0, 76.0)


def screw_through(gauge: str, wood: float) -> float:
    """The shortest screw, mm, that goes through `wood` mm under its head and then seven of its diameters deep, which
    gives its full hold (Wood Handbook, FPL-GTR-282 (2021), p. 8-11); the longest where none does.

    >>> screw_through("8", 6.0)
    38.0
    """
    return next((n for n in SCREW_LENGTHS if n - wood >= 7.0 * screw_shank(gauge)), SCREW_LENGTHS[-1])


def wood_screw(gauge: str, length: float, at: Vector, direction: Vector, parts: tuple[str, ...]) -> Hardware:
    """A wood screw, its head at `at`; raises DesignError for a gauge that isn't made."""
    return Hardware("wood screw", f"No. {gauge} x {length:g} mm", at, direction, parts, length, screw_shank(gauge))


def screw_shank(gauge: str) -> float:
    """Diameter of a wood screw's shank, mm; raises DesignError for a gauge that isn't made."""
    if gauge not in SCREW_SHANKS:
        raise DesignError(f'no wood screw has gauge "{gauge}"; there are {", ".join(SCREW_SHANKS)}')
    return SCREW_SHANKS[gauge]


def screw_pilot(gauge: str) -> float:
    """Pilot for softwood, mm: 70 % of the root diameter, itself about two thirds of the shank (Wood Handbook,
    chapter 8, from memory)."""
    return round(0.7 * screw_shank(gauge) * 2.0 / 3.0 + 0.5, 1)


def knob(at: Vector, direction: Vector, part: str, diameter: float = 28.0) -> Hardware:
    """A turned knob, its foot at `at` on the outside of `part`, standing out in a direction; as long as it is wide, mm.

    It is screwed on from behind.
    """
    return Hardware("knob", f"{diameter:g} mm, turned", at, direction, (part,), diameter, diameter)
