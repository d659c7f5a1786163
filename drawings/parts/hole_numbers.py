"""The number of a hole or slot, which stands for it in the plan, in views and in the table alike."""

from __future__ import annotations

from drawings.paper.saying import Saying, counted
from drawings.parts.family import Family
from drawings.parts.located import Hole


def hole_number(number: int, found: Hole, family: Family) -> Saying:
    """It says which hole of which part it is, by the hole's place."""
    at = " ".join(f"{c:.3f}" for c in (*found.at, *found.into))
    sizes = f"{found.diameters} {found.depth} {found.length}"
    return counted(number, "key", f"holes of the {family.names[0]}", f"{found.what} at {at}, {sizes}")
