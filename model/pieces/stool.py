"""A stool from one sheet: two legs that cross in slots, a round seat on their tabs, all cut on a 3-axis router."""

from __future__ import annotations

import math

from model.cuts.through import Opening, Profile
from model.errors import DesignError
from model.joints.slotted import slotted
from model.joints.tabbed import tabbed
from model.layout.outline import Outline, circle, rounded
from model.parameters import Length, Parameters, size
from model.piece import Piece
from model.placement import place
from model.stock import sheet
from model.wood.material import material_named

#: Sheet left between two openings, and between an opening and an edge, mm (1/2 in, common practice).
LEFT = 12.7
#: Least height of the arch: lower, the legs are a box, mm.
ARCH = 80.0
#: Least stance for the height, against tipping (common practice: the feet stand wider than the seat).
STEADY = 0.6


class Stool(Parameters):
    """Two legs slotted over each other, a round seat with a curved hand-hold; every part a plain outline."""

    height: Length = size("450 mm", "350 mm", "700 mm", "floor to the top of the seat")
    seat: Length = size("350 mm", "320 mm", "420 mm", "across the seat")
    stance: Length = size("400 mm", "330 mm", "520 mm", "across the feet of each pair of legs")
    shoulder: Length = size("290 mm", "250 mm", "350 mm", "across each pair of legs under the seat")
    foot: Length = size("50 mm", "40 mm", "80 mm", "width of each leg at the floor")
    web: Length = size("150 mm", "100 mm", "260 mm", "height of the wood where the legs cross")
    crown: Length = size("80 mm", "30 mm", "95 mm", "radius of the arch between the legs")
    tab: Length = size("40 mm", "25 mm", "60 mm", "width of the tabs through the seat")
    hand_hold: Length = size("120 mm", "110 mm", "150 mm", "length of the hand-hold, from end to end")
    hand_width: Length = size("34 mm", "28 mm", "45 mm", "width of the hand-hold")
    hand_curve: Length = size("140 mm", "90 mm", "400 mm", "radius of the hand-hold's middle line")
    scoop: Length = size("45 mm", "35 mm", "70 mm", "of room under the hand-hold for fingers")
    fit: Length = size("0.2 mm", "0 mm", "0.6 mm", "play in the slots and round the tabs")
    cutter: Length = size("6.35 mm", "3 mm", "8 mm", "diameter of the cutter, which inside corners are relieved for")

    species: str = "plywood"

    @property
    def scoop_width(self) -> float:
        """Across the scoop where it meets the seat: past the hand-hold by a finger at each end."""
        return self.hand_hold + 20.0

    @property
    def scoop_reach(self) -> float:
        """From the middle to where the scoop's arc, run on, comes out at the top of the seat."""
        half, deep = self.scoop_width / 2.0, self.scoop
        return math.sqrt((deep + self.thickness) * (half**2 / deep - self.thickness))

    @property
    def arch(self) -> float:
        """Height of the arch between the legs."""
        return self.height - self.thickness - self.scoop - self.web

    @property
    def tab_at(self) -> float:
        """From the middle of the seat to the middle of a tab: midway between the scoop and the leg's outside."""
        return (self.scoop_reach + self.shoulder / 2.0) / 2.0

    @property
    def crown_room(self) -> float:
        """From the middle of the arch, at its crown, to the leg beside it."""
        return self.stance / 2.0 - self.foot - self.lean * self.arch

    @property
    def lean(self) -> float:
        """Of the legs' outsides, mm outward for each mm down."""
        return (self.stance - self.shoulder) / 2.0 / (self.height - self.thickness)

    def check(self) -> None:
        if not material_named(self.species).sheet:
            raise DesignError(
                f"[wood] species: tabs and slots in {self.species} would break off along the grain; the stool is cut "
                "from sheet goods, so give plywood"
            )
        if self.arch < ARCH:
            raise DesignError(
                f"[size] web: a web of {self.show(self.web)} under the scoop leaves an arch "
                f"{self.show(max(self.arch, 0.0))} high; {self.show(ARCH)} is the least, so make the web or the scoop "
                "smaller or the stool taller"
            )
        if self.crown > min(self.crown_room, self.arch - 5.0):
            raise DesignError(
                f"[size] crown: arcs of {self.show(self.crown)} don't fit an arch {self.show(self.arch)} high and "
                f"{self.show(2.0 * self.crown_room)} wide; make them "
                f"{self.show(min(self.crown_room, self.arch - 5.0))} or less"
            )
        if self.stance < max(self.shoulder, STEADY * self.height):
            raise DesignError(
                f"[size] stance: {self.show(self.stance)} between the feet is too little to stand steady; make it "
                f"{self.show(max(self.shoulder, STEADY * self.height))} or more, {STEADY:g} of the height and as wide "
                "as the shoulders"
            )
        room = self.shoulder / 2.0 - self.scoop_reach - LEFT
        if self.tab > room:
            raise DesignError(
                f"[size] tab: between the scoop and the outside of a leg there is room for a tab "
                f"{self.show(max(room, 0.0))} wide and its shoulders; make the tabs or the hand-hold smaller, or the "
                "shoulders wider"
            )
        outer = self.tab_at + self.tab / 2.0
        corner = math.hypot(outer + self.fit, self.thickness / 2.0 + self.fit)
        if max(corner, self.shoulder / 2.0) > self.seat / 2.0 - LEFT:
            raise DesignError(
                f"[size] seat: a seat {self.show(self.seat)} across leaves too little beyond the legs and their tabs; "
                f"make it {self.show(2.0 * (max(corner, self.shoulder / 2.0) + LEFT))} or more"
            )


def make(p: Stool) -> Piece:
    """The stool, its middle over the origin; raises DesignError where the sizes can't be built."""
    piece = Piece("stool", p)
    principal_measures(piece, p)
    half, t = p.stance / 2.0, p.thickness

    stock, shape = sheet(p.height, p.stance), Profile(frame_outline(p).moved(0.0, half))
    first = piece.add("first frame", stock, place((t / 2.0, -half, 0.0), grain="up", face="left"), shape)
    second = piece.add("second frame", stock, place((half, t / 2.0, 0.0), grain="up", face="front"), shape)
    piece.join(slotted(second, over=first, fit=p.fit, cutter=p.cutter))

    at = place((-p.seat / 2.0, -p.seat / 2.0, p.height - t))
    seat = piece.add("seat", sheet(p.seat, p.seat), at, Profile(circle((p.seat / 2.0, p.seat / 2.0), p.seat)))
    seat.cut(Opening(bent_slot(p.hand_hold, p.hand_width, p.hand_curve).moved(p.seat / 2.0, p.seat / 2.0)))
    for leg in (first, second):
        piece.join(tabbed(leg, into=seat, at=(-p.tab_at, p.tab_at), width=p.tab, fit=p.fit, cutter=p.cutter))

    piece.step("Stand the first frame up; slide the second down over it, until the slots' feet meet", first, second)
    piece.step("Glue the tabs, press the seat down on all four, and plane them flush", seat)
    return piece


def principal_measures(piece: Piece, p: Stool) -> None:
    """What the stool is set out by, besides its height and its stance."""
    half, seat, under = p.shoulder / 2.0, p.seat / 2.0, p.height - p.thickness
    piece.measure("shoulder", (-half, 0.0, under), (half, 0.0, under), "front")
    piece.measure("arch", (-p.stance / 2.0, 0.0, 0.0), (-p.stance / 2.0, 0.0, p.arch), "front")
    piece.measure("seat", (-seat, 0.0, p.height), (seat, 0.0, p.height), "top")
    piece.measure("between the tabs", (-p.tab_at, 0.0, p.height), (p.tab_at, 0.0, p.height), "top")


def frame_outline(p: Stool) -> Outline:
    """A pair of legs in its own plane, x up from the floor, y across from the middle: straight outsides, an arch
    below, and between the shoulders a scoop for the fingers, one arc up to the top of the tabs."""
    foot, shoulder, deep = p.stance / 2.0, p.shoulder / 2.0, p.scoop + p.thickness
    inside, top = foot - p.foot, shoulder - p.lean * p.thickness
    legs = ((0.0, foot), (0.0, inside), (p.arch, p.crown_room), (p.arch, -p.crown_room), (0.0, -inside), (0.0, -foot))
    corners = (*legs, (p.height, -top), (p.height, -p.scoop_reach), (p.height, p.scoop_reach), (p.height, top))
    radii = (0.0, 3.0, p.crown, p.crown, 3.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    names = ("floor", "arch", "arch", "arch", "floor", "outside", "top", "scoop", "top", "outside")
    shape = rounded(corners, radii, names)
    bulges = tuple(-deep / p.scoop_reach if e.name == "scoop" else e.bulge for e in shape.edges)
    return Outline(shape.corners, bulges, shape.names)


def bent_slot(length: float, width: float, radius: float) -> Outline:
    """A round-ended slot about the origin, bent to an arc of `radius` along its middle line: four true arcs.

    length: end to end, straight across, mm.
    """
    half, r = math.asin((length - width) / 2.0 / radius), width / 2.0
    (s, c), turn = (math.sin(half), math.cos(half)), math.tan(half / 2.0)
    low, high = radius - r, radius + r
    corners = ((-low * s, low * c), (low * s, low * c), (high * s, high * c), (-high * s, high * c))
    return Outline(corners, (-turn, 1.0, turn, 1.0)).moved(0.0, -radius)
