"""Which long edges of two boards meet, and how far one runs past the other there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.errors import DesignError
from model.joints.joint import Stood, clean
from model.joints.meetings.whereabouts import whereabouts
from model.placement import Vector, scaled
from model.tolerance import CONTACT


@dataclass(frozen=True)
class EdgeMeeting:
    """`first` comes edgeways to `second`: with which edges (near or far), and how far, mm, its wood runs past the
    second board's edge; negative for how far it stops short."""

    first: Stood
    second: Stood
    first_edge: str
    second_edge: str
    length: float

    @property
    def angle(self) -> float:
        """Between the boards' faces, radians."""
        z = self.first.at.seen_from(self.second.at).z
        return math.acos(min(1.0, abs(z[2])))

    @property
    def closing(self) -> Vector:
        """The way the first board moves, edgeways, toward the second."""
        return scaled(self.second.at.y, -1.0 if self.second_edge == "far" else 1.0)

    def first_y(self, inset: float = 0.0) -> float:
        """The first board's own y, `inset` mm in from the edge that meets."""
        return inset if self.first_edge == "near" else self.first.wood.stock.width - inset

    def second_y(self, inset: float = 0.0) -> float:
        """The second board's own y, `inset` mm in from the edge that meets."""
        return inset if self.second_edge == "near" else self.second.wood.stock.width - inset

    def shared(self) -> tuple[float, float]:
        """Where along the second board's own x both lie. Raises DesignError if they don't lie beside each other."""
        seen = self.first.at.seen_from(self.second.at)
        ends = sorted(seen.point((x, self.first_y(), 0.0))[0] for x in (0.0, self.first.wood.stock.length))
        low, high = max(ends[0], 0.0), min(ends[1], self.second.wood.stock.length)
        if high - low < CONTACT:
            raise DesignError(
                f"{self.first.name} and {self.second.name} lie one beyond the other's end; boards joined edge to edge "
                "must lie beside each other"
            )
        return low, high


def edge_meeting(first: Stood, second: Stood) -> EdgeMeeting:
    """How two boards meet edge to edge, at whatever small angle they stand. Raises DesignError if they don't."""
    seen = first.at.seen_from(second.at)
    width, second_width = first.wood.stock.width, second.wood.stock.width
    toward_far = seen.point((0.0, width / 2.0, 0.0))[1] > second_width / 2.0
    first_edge = "near" if toward_far == (seen.y[1] > 0.0) else "far"
    y = 0.0 if first_edge == "near" else width
    tips = [seen.point((0.0, y, z))[1] for z in (0.0, first.wood.thickness)]
    length = clean(second_width - min(tips) if toward_far else max(tips))
    if length > min(width, second_width) / 2.0 or abs(seen.z[2]) < 0.5:
        raise DesignError(f"{first.name} and {second.name} do not meet edge to edge; {whereabouts(first, second)}")
    return EdgeMeeting(first, second, first_edge, "far" if toward_far else "near", length)
