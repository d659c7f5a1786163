"""The scarf: two boards made into a longer one by long slopes glued on each other."""

from __future__ import annotations

import math

from model.cuts.removal import Plane
from model.cuts.sawn import sawn_through
from model.errors import DesignError
from model.joints.joint import Joint, Stood
from model.joints.meetings.shared_face import shared_face
from model.placement import Vector, scaled
from model.tolerance import CONTACT

#: Steepest slopes by kind of stock: rise in the thickness over run along the grain.
STEEPEST = {"board": 1.0 / 12.0, "panel": 1.0 / 12.0, "sheet": 1.0 / 8.0}
SCARFING = "Wood Handbook, FPL-GTR-282 (2021), chapter 10: scarfs 1 in 12 or flatter, 1 in 8 in plywood"
#: Boards that lean less than this (as the sine) lie in line.
IN_LINE = 1e-5


def scarf_length(thickness: float, slope: float = STEEPEST["board"]) -> float:
    """How far two boards of `thickness` mm run past each other for a scarf of a slope, mm: thickness / slope.

    >>> scarf_length(25, 1 / 12)
    300.0
    """
    return thickness / slope


def scarf(a: Stood, to: Stood, *, slope: float | None = None) -> Joint:
    """`a` and `to`, in line and flush, made into one length by a slope through the thickness, `a` over `to` on the
    face side of `to`.

    They are placed running past each other by the length of the scarf, which gives its slope. slope: the steepest that
    will do, as a ratio (1 / 8); 1 in 12 in solid wood, 1 in 8 in sheets if not said. glue_area: the slope's, mm2.
    Raises DesignError if they are not in line and flush, stop short of each other, or slope too steeply.
    """
    run, sign = _overlap(a, to)
    thickness = to.wood.thickness
    limit = STEEPEST[to.wood.stock.kind] if slope is None else slope
    if not limit > 0.0:
        raise DesignError(f"a scarf can't have a slope of {limit:g}; give a ratio like 1 / 12")
    if thickness / run > limit * (1.0 + 1e-9):
        raise DesignError(
            f"{a.name} and {to.name} run {run:.1f} mm past each other, a scarf of 1 in {run / thickness:.1f} in stock "
            f"{thickness:g} mm thick; 1 in {1.0 / limit:g}, {scarf_length(thickness, limit):.0f} mm, is the steepest"
        )
    size = math.hypot(thickness, run)
    normal: Vector = (sign * thickness / size, 0.0, run / size)
    end = to.wood.outline.bounds[2] if sign > 0.0 else to.wood.outline.bounds[0]
    plane = Plane(normal, normal[0] * end).seen_outside(to.at)
    face = shared_face(a, to, plane)
    if face is None:
        raise DesignError(f"{a.name} and {to.name} lie beside each other; a scarf needs them in line")
    return Joint(
        "scarf",
        a.name,
        to.name,
        scaled(plane.normal, -1.0),
        (face.contact(),),
        (sawn_through(plane.flipped().seen_from(a.at)),),
        (sawn_through(plane.seen_from(to.at)),),
        0.0,
        face.area,
        source=SCARFING,
    )


def _overlap(a: Stood, b: Stood) -> tuple[float, float]:
    """How far two boards in line run past each other, mm, and whether a lies toward b's right end (1) or left (-1)."""
    seen = a.at.seen_from(b.at)
    if max(abs(seen.x[1]), abs(seen.x[2]), abs(seen.z[0]), abs(seen.z[1])) > IN_LINE:
        raise DesignError(f"{a.name} and {b.name} do not lie in line; a scarf needs their grain and faces to run on")
    levels = sorted(seen.point((0.0, 0.0, z))[2] for z in (0.0, a.wood.thickness))
    step = max(abs(levels[0]), abs(levels[1] - b.wood.thickness))
    if step > CONTACT:
        raise DesignError(
            f"the faces of {a.name} and {b.name} stand {step:.2f} mm apart; a scarf needs them flush, of one thickness"
        )
    x0, _, x1, _ = a.wood.outline.bounds
    low, high = sorted(seen.point((x, 0.0, 0.0))[0] for x in (x0, x1))
    b0, _, b1, _ = b.wood.outline.bounds
    sign = 1.0 if low + high > b0 + b1 else -1.0
    run = b1 - low if sign > 0.0 else high - b0
    if run < CONTACT:
        raise DesignError(
            f"{a.name} stops {max(-run, 0.0):.2f} mm short of {b.name}; for a scarf they run past each other by "
            f"{scarf_length(b.wood.thickness):.0f} mm (1 in 12)"
        )
    if run > min(high - low, b1 - b0) - CONTACT:
        raise DesignError(f"{a.name} and {b.name} lie over each other; a scarf joins two boards end to end")
    return run, sign
