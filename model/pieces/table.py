"""A long table on two trestles, drawn together by a wedged stretcher; its solid top is free to move."""

from __future__ import annotations

import math

from model.cuts.edges import Ease
from model.cuts.through import Profile
from model.errors import DesignError
from model.joints.breadboard import breadboard
from model.joints.mortise import mortise_and_tenon
from model.joints.slot_screwed import HEAD, slot_screwed
from model.layout.outline import Outline
from model.parameters import Length, Parameters, ratio, size
from model.piece import Piece
from model.placement import place
from model.stock import board, panel
from model.wood.material import material_named
from model.wood.species import species_named

#: Least leg room between the trestles, mm (common practice: 24 in for a sitter).
LEG_ROOM = 600.0
#: Of the post between the stretcher and the foot or the head, mm (common practice).
BESIDE = 30.0
#: Least that the feet reach past the posts at each side, mm (common practice: the feet hold the table upright).
TOES = 100.0


class Table(Parameters):
    """Two trestles, a stretcher wedged through them, a glued-up top between breadboard ends."""

    length: Length = size("2200 mm", "1300 mm", "3200 mm", "of the top, breadboard ends included")
    width: Length = size("880 mm", "650 mm", "1200 mm", "of the top")
    height: Length = size("750 mm", "680 mm", "790 mm", "floor to the top")
    end_overhang: Length = size("370 mm", "200 mm", "500 mm", "of the top past the trestles, at each end")
    side_overhang: Length = size("75 mm", "30 mm", "150 mm", "of the top past the trestles, at each side")
    timber: Length = size("48 mm", "35 mm", "70 mm", "thickness of the trestles and the stretcher")
    beam: Length = size("90 mm", "70 mm", "120 mm", "height of the feet and the heads")
    arch: Length = size("14 mm", "6 mm", "20 mm", "rise of the hollow under the feet")
    post_width: Length = size("230 mm", "150 mm", "280 mm", "of the posts at foot and head")
    waist: Length = size("30 mm", "0 mm", "40 mm", "that the posts are drawn in at each side, halfway up")
    stretcher_width: Length = size("125 mm", "90 mm", "160 mm", "of the stretcher, which stands on edge")
    stretcher_height: Length = size("330 mm", "130 mm", "450 mm", "floor to the underside of the stretcher")
    proud: Length = size("8 mm", "0 mm", "15 mm", "that the wedged tenons stand out of the posts")
    breadboard: Length = size("120 mm", "90 mm", "150 mm", "width of the breadboard ends")
    drift: float = ratio(3, 1, 6, "most that the wood's moisture content will drift from today's, in percent")

    @property
    def beam_length(self) -> float:
        """Of feet and heads."""
        return self.width - 2.0 * self.side_overhang

    @property
    def trestle(self) -> float:
        """Height of a trestle: the underside of the top."""
        return self.height - self.thickness

    @property
    def half(self) -> float:
        """From the middle to the outside of a trestle."""
        return self.length / 2.0 - self.end_overhang

    @property
    def tenon(self) -> float:
        """Length of the posts' tenons: half the foot, so that the peg in the head has wood under it."""
        return self.beam / 2.0

    @property
    def tenons(self) -> int:
        """Of the top in each breadboard end: an odd number, about 300 mm apart or less (common practice)."""
        return 3 if self.width <= 950.0 else 5

    @property
    def movement(self) -> float:
        """Of the top, from now to either season: width x tangential shrinkage x drift / fiber saturation.

        Wood Handbook, FPL-GTR-282 (2021), chapter 4: shrinkage is taken as even from fiber saturation to ovendry.
        """
        wood = species_named(self.species)
        return self.width * wood.tangential_shrinkage / 100.0 * self.drift / wood.fiber_saturation

    @property
    def screws(self) -> tuple[float, float]:
        """How far from the top's middle the screws stand: beside the post, and near the ends of the heads."""
        return (self.post_width / 2.0 + 2.0 * HEAD, self.beam_length / 2.0 - 2.5 * HEAD)

    def check(self) -> None:
        if material_named(self.species).sheet:
            raise DesignError(
                f"[wood] species: {self.species} comes in sheets; the table is of solid wood, so give the name of one"
            )
        if 2.0 * (self.half - self.timber) < LEG_ROOM:
            apart = self.show(2.0 * (self.half - self.timber))
            raise DesignError(
                f"[size] end_overhang: the trestles stand {apart} apart; {self.show(LEG_ROOM)} is the "
                "least to sit between them, so make the overhang smaller or the table longer"
            )
        top = self.stretcher_height + self.stretcher_width
        if self.stretcher_height < self.beam + BESIDE or top > self.trestle - self.beam - BESIDE:
            raise DesignError(
                f"[size] stretcher_height: from {self.show(self.stretcher_height)} to {self.show(top)} the stretcher "
                f"comes too near the foot or the head; keep it {self.show(BESIDE)} clear of both, so between "
                f"{self.show(self.beam + BESIDE)} and {self.show(self.trestle - self.beam - BESIDE)}"
            )
        if self.post_width + 2.0 * TOES > self.beam_length:
            raise DesignError(
                f"[size] post_width: feet {self.show(self.beam_length)} long on posts {self.show(self.post_width)} "
                f"wide let the table rock; make them {self.show(self.post_width + 2.0 * TOES)} or more by a smaller "
                "side_overhang, or the posts narrower"
            )


def make(p: Table) -> Piece:
    """The table, its middle over the origin; raises DesignError where the sizes can't be built."""
    piece = Piece("table", p)
    principal_measures(piece, p)
    long, out = p.beam_length, -p.half

    at = place((out + p.timber, long / 2.0, 0.0), grain="front", face="left")
    feet = piece.pair("foot", board(long, p.beam, p.timber), at, Profile(beam_outline(p, p.arch)))
    at = place((out + p.timber, -long / 2.0, p.trestle), grain="back", face="left")
    heads = piece.pair("head", board(long, p.beam, p.timber), at, Profile(beam_outline(p, 0.0)))
    at = place((out + p.timber, -p.post_width / 2.0, p.beam - p.tenon), grain="up", face="left")
    stock = board(p.trestle - 2.0 * (p.beam - p.tenon), p.post_width, p.timber)
    posts = piece.pair("post", stock, at, Profile(post_outline(p)))
    reach = p.half + p.proud
    at = place((-reach, p.timber / 2.0, p.stretcher_height), grain="right", face="front")
    stretcher = piece.add("stretcher", board(2.0 * reach, p.stretcher_width, p.timber), at)

    for foot, post, head in zip(feet, posts, heads, strict=True):
        piece.join(mortise_and_tenon(post, into=foot, rows=2, shoulders=20.0))
        piece.join(mortise_and_tenon(post, into=head, rows=2, shoulders=20.0))
        piece.join(mortise_and_tenon(stretcher, into=post, kind="through", wedged=True, proud=p.proud, shoulders=15.0))
        foot.cut(*eased("left toe", "right toe"))
        head.cut(*eased("left toe", "right toe"))
        post.cut(*eased("near", "far"))
    stretcher.cut(*eased("near", "far"))

    # the top runs half way into its breadboard ends (common practice)
    reach = p.length / 2.0 - p.breadboard / 2.0
    at = place((-reach, -p.width / 2.0, p.trestle))
    top = piece.add("top", panel(2.0 * reach, p.width), at, *eased("near", "far"))
    at = place((-p.length / 2.0, p.width / 2.0, p.trestle), grain="front", face="up")
    ends = piece.pair("breadboard end", board(p.width, p.breadboard), at, *eased("left", "near", "right"))
    for end in ends:
        piece.join(breadboard(end, over=top, movement=p.movement, tenons=p.tenons))
    for head in heads:
        piece.join(slot_screwed(head, to=top, at=p.screws, movement=p.movement))

    for side, foot, post, head in zip(("left", "right"), feet, posts, heads, strict=True):
        piece.step(f"Glue the {side} post into its foot and head; clamp, and sight them for wind", foot, post, head)
    piece.step("Drive the stretcher's tenons through both posts; glue the wedges and drive them home", stretcher)
    piece.step("Slide the breadboard ends over the top's tenons; glue the middle one only, and peg all", top, *ends)
    piece.step("Set the top on the pegs of the heads; drive the screws in the middle of their slots")
    return piece


def principal_measures(piece: Piece, p: Table) -> None:
    """The room it takes, what one sits under, and where the trestles stand."""
    half, front = p.length / 2.0, -p.width / 2.0
    piece.measure("end overhang", (-half, front, 0.0), (-p.half, front, 0.0), "front")
    piece.measure("between the trestles", (p.timber - p.half, front, 0.0), (p.half - p.timber, front, 0.0), "front")
    piece.measure("stretcher height", (-half, 0.0, 0.0), (-half, 0.0, p.stretcher_height), "front")
    piece.measure("under the top", (half, 0.0, 0.0), (half, 0.0, p.trestle), "front")
    piece.measure("foot", (half, -p.beam_length / 2.0, 0.0), (half, p.beam_length / 2.0, 0.0), "side")
    piece.measure("breadboard end", (-half, front, p.height), (p.breadboard - half, front, p.height), "top", times=2)


def beam_outline(p: Table, arch: float) -> Outline:
    """A foot: flat where the post stands, its toes hollowed, and raised by `arch` between its pads; a head is the same
    turned over, straight along the top."""
    long, flat, pad = p.beam_length, p.post_width / 2.0 + 15.0, p.beam_length / 6.0
    left, right, toe = long / 2.0 - flat, long / 2.0 + flat, p.beam / 2.0
    upper = ((long, 0.0), (long, toe), (right, p.beam), (left, p.beam), (0.0, toe))
    names, hollow = ("end", "right toe", "seat", "left toe", "end"), levelling(p.beam - toe, long - right)
    if not arch:
        return Outline(((0.0, 0.0), *upper), (0.0, 0.0, hollow, 0.0, hollow, 0.0), ("bearing", *names))
    begin, end = pad + 3.0 * arch, long - pad - 3.0 * arch
    under = ((0.0, 0.0), (pad, 0.0), (begin, arch), (end, arch), (long - pad, 0.0))
    cove = levelling(arch, 3.0 * arch)
    bulges = (0.0, cove, 0.0, cove, 0.0, 0.0, hollow, 0.0, hollow, 0.0)
    return Outline((*under, *upper), bulges, ("pad", "cove", "arch", "cove", "pad", *names))


def levelling(rise: float, run: float) -> float:
    """Bulge of the hollow arc that rises so much over such a run, and is level at one end."""
    return -math.tan(math.atan(rise / run) / 2.0)


def post_outline(p: Table) -> Outline:
    """Straight in its mortises, its sides drawn in to the waist in one arc between foot and head."""
    long, low = p.trestle - 2.0 * (p.beam - p.tenon), p.tenon
    high = long - p.tenon
    drawn = -2.0 * p.waist / (high - low)
    stations = (0.0, low, high, long)
    corners = (*((x, 0.0) for x in stations), *((x, p.post_width) for x in reversed(stations)))
    names = ("foot", "near", "head", "end", "head", "far", "foot", "end")
    return Outline(corners, (0.0, drawn, 0.0, 0.0, 0.0, drawn, 0.0, 0.0), names)


def eased(*edges: str) -> tuple[Ease, ...]:
    """Edges that hands and sleeves go over, their arrises taken off."""
    return tuple(Ease(edge=edge, radius=3.0) for edge in edges)
