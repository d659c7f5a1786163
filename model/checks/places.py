"""Where on a part something lies, in a maker's words."""

from __future__ import annotations

from model.part import GivenPart
from model.piece import Placed
from model.placement import Vector


def spot(part: Placed, where: Vector) -> str:
    """A point of the piece, mm, told by the end and the edge of the part it lies nearest to."""
    if isinstance(part.part, GivenPart):
        return "({:.0f}, {:.0f}, {:.0f}) in the piece".format(*where)
    x, y, _ = part.at.own_point(where)
    return f"the {_along(x, part.wood.stock.length)} of {part.name}, {_across(y, part.wood.stock.width)}"


def measured_spot(x: float, y: float) -> str:
    """A point on a part as it is marked out, mm."""
    return f"{x:.0f} mm from its left end and {y:.0f} mm from its near edge"


def _along(x: float, length: float) -> str:
    share = x / length
    return "left end" if share < 0.25 else "right end" if share > 0.75 else "middle"


def _across(y: float, width: float) -> str:
    share = y / width
    return "at the near edge" if share < 0.25 else "at the far edge" if share > 0.75 else "midway across"
