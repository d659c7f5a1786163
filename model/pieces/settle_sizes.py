"""The settle's sizes: what an order may ask, and what follows from it."""

from __future__ import annotations

import math

from model.errors import DesignError
from model.hardware import FINISH_NAILS, nail_through
from model.joints.edge import BOTTOM_ROOM
from model.layout.arcs import half_angle_from_chord
from model.layout.outline import Point
from model.parameters import BoardWidths, Length, Parameters, WidthRange, angle, board_widths, size

#: Least depth of a hatch to reach through, mm (common practice: a hand and what it holds).
HATCH_DEPTH = 100.0


class Settle(Parameters):
    """A high-backed bench, its back and seat curved to a long arc, with a box under the seat."""

    chord: Length = size("1480 mm", "900 mm", "2400 mm", "between the sides, along the back line's chord")
    back_radius: Length = size("2750 mm", "1100 mm", "9000 mm", "of the back line, where the boards stand")
    height: Length = size("1330 mm", "900 mm", "1700 mm", "floor to the top of the sides")
    seat_height: Length = size("435 mm", "380 mm", "500 mm", "floor to the top of the seat")
    seat_depth: Length = size("395 mm", "330 mm", "480 mm", "back line to front edge, on the centre line")
    arm_height: Length = size("640 mm", "560 mm", "740 mm", "floor to the flat of the arms")
    arm_length: Length = size("170 mm", "110 mm", "220 mm", "of the flat on the arms, corner included")
    top_depth: Length = size("175 mm", "120 mm", "230 mm", "of the sides at the top")
    top_curve: Length = size("90 mm", "20 mm", "110 mm", "radius of the curve at the top of the sides")
    corner: Length = size("45 mm", "10 mm", "60 mm", "radius of the arms' front corner")
    housing: Length = size("9.5 mm", "4 mm", "20 mm", "depth of the dadoes in the sides")
    rail_width: Length = size("66 mm", "64 mm", "110 mm", "of the rails behind the boards, front to back")
    rail_drop: Length = size("70 mm", "40 mm", "150 mm", "from the top of the sides to the top rail")
    floor_height: Length = size("75 mm", "40 mm", "110 mm", "floor of the room to the underside of the box's floor")
    band_width: Length = size("140 mm", "115 mm", "180 mm", "of the board bent round the foot of the back")
    band_height: Length = size("20 mm", "0.5 mm", "30 mm", "of that board's lower edge off the floor")
    band_thickness: Length = size("12 mm", "9 mm", "19 mm", "of that board")
    band_bevel: float = angle(5, 1, 15, "that its upper edge is planed out of square")
    board_widths: BoardWidths = board_widths(
        WidthRange(90, 140, 7), "60 mm", "190 mm", "widths of the back boards, as faces"
    )
    front_width: Length = size("125 mm", "80 mm", "160 mm", "greatest width of the boards closing the front")
    nosing: Length = size("14 mm", "5 mm", "20 mm", "of the seat over the front boards")
    front_margin: Length = size("75 mm", "60 mm", "95 mm", "of seat in front of the hatch")
    back_margin: Length = size("85 mm", "70 mm", "110 mm", "least of seat behind the hatch")
    side_margin: Length = size("130 mm", "100 mm", "200 mm", "least of seat beside the hatch")
    clearance: Length = size("2 mm", "1 mm", "4 mm", "round the hatch, and at its hinge")
    bead: Length = size("3 mm", "2 mm", "4 mm", "radius of the beads on the back boards")

    @property
    def half_angle(self) -> float:
        """From the middle to the inside of a side, at the arc's centre, degrees."""
        return half_angle_from_chord(self.back_radius, self.chord)

    @property
    def front_radius(self) -> float:
        return self.back_radius - self.seat_depth

    @property
    def centre(self) -> Point:
        """Of the arc, in plan; the seat's front edge crosses y = 0 on the centre line."""
        return (0.0, -self.front_radius)

    @property
    def cleat_radius(self) -> float:
        """Of the cleats' front edges, where the front boards stand."""
        return self.front_radius + self.nosing + self.thickness

    @property
    def cleat_reach(self) -> float:
        """Radius of the seat cleat's back edge: the hatch rests 25 mm on it, and a biscuit goes into its ends."""
        return max(self.front_radius + self.front_margin + 25.0, self.cleat_radius + 64.0)

    @property
    def seat_bottom(self) -> float:
        return self.seat_height - self.thickness

    @property
    def rail_bottom(self) -> float:
        """Height of the top rail's underside."""
        return self.height - self.rail_drop - self.thickness

    @property
    def band_top(self) -> float:
        return self.band_height + self.band_width

    @property
    def tongue_length(self) -> float:
        """The groove is 5/12 of the stock deep, 5/16 in in 3/4 in stock (common practice)."""
        return self.thickness * 5.0 / 12.0 - BOTTOM_ROOM

    @property
    def outer_angle(self) -> float:
        """From the middle to the outside of a side, at the back line, degrees."""
        return self.half_angle + math.degrees(math.asin(self.thickness / self.back_radius))

    @property
    def side_gap(self) -> float:
        """How far the middle of a side's back edge, square to its faces, lies inside the back line it touches."""
        return math.sqrt(self.back_radius**2 - self.thickness**2 / 4.0) - math.sqrt(
            self.back_radius**2 - self.thickness**2
        )

    @property
    def nail(self) -> str:
        """For boards nailed on through their thickness."""
        return nail_through(self.thickness)

    @property
    def side_nail(self) -> str:
        """Through the wood that the dadoes leave of a side, into the ends of seat and top rail."""
        return max("6d", nail_through(self.thickness - self.housing), key=list(FINISH_NAILS).index)

    @property
    def floor_cleat_width(self) -> float:
        """The front's nails end in it."""
        return max(45.0, FINISH_NAILS[self.nail].length - self.thickness + 6.0)

    @property
    def seat_cleat_thickness(self) -> float:
        """The front's nails go into it midway, far enough from the boards' upper ends not to split them."""
        return 1.5 * self.thickness

    @property
    def hatch_half_width(self) -> float:
        """As wide as the side margins allow, or as a deep curve leaves the hatch `HATCH_DEPTH` on the centre line."""
        radius = self.front_radius + self.front_margin
        by_margin = radius * math.sin(math.radians(self.half_angle)) - self.side_margin
        deep = radius + HATCH_DEPTH + 2.0 * self.clearance + self.back_margin
        by_curve = math.sqrt(self.back_radius**2 - deep**2) if deep < self.back_radius else 0.0
        return min(by_margin, by_curve)

    @property
    def hinge_line(self) -> float:
        """y of the hatch opening's straight back edge; its margin is least at the ends."""
        return self.centre[1] + math.sqrt(self.back_radius**2 - self.hatch_half_width**2) - self.back_margin

    def check(self) -> None:
        if 2.0 * self.back_radius <= 1.05 * self.chord:
            raise DesignError(
                f"[size] back_radius: an arc of radius {self.show(self.back_radius)} can't span a chord of "
                f"{self.show(self.chord)}; it needs more than {self.show(0.525 * self.chord)}"
            )
        if self.housing >= self.thickness:
            raise DesignError(
                f"[size] housing: a dado {self.show(self.housing)} deep would come through sides "
                f"{self.show(self.thickness)} thick; half of that is common practice"
            )
        depth = self.hinge_line - 2.0 * self.clearance - self.front_margin
        if self.hatch_half_width < 150.0:
            raise DesignError(
                f"[size] the margins leave a hatch {self.show(2 * max(self.hatch_half_width, 0))} by "
                f"{self.show(max(depth, 0))}, too small to reach through; make side_margin, front_margin or "
                "back_margin smaller, or the seat deeper"
            )
        if self.rail_width + 20.0 > self.top_depth:
            raise DesignError(
                f"[size] rail_width: a rail {self.show(self.rail_width)} wide leaves too little of sides "
                f"{self.show(self.top_depth)} deep at the top; keep 20 mm of wood in front of it"
            )
        if self.band_thickness > self.thickness:
            raise DesignError(
                f"[size] band_thickness: a band {self.show(self.band_thickness)} thick stands out past boards "
                f"{self.show(self.thickness)} thick, so that they don't close on its face; make it as thin as they are"
            )
