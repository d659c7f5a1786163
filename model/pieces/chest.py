"""A dovetailed chest on a plinth, with a frame-and-panel lid."""

from __future__ import annotations

from model.cuts.cut import Cut
from model.cuts.faces import Bore
from model.cuts.moulding import Moulding, ogee, round_over
from model.cuts.through import Notch
from model.errors import DesignError
from model.framed import Frame, Framed, frame_and_panel
from model.hardware import Hardware
from model.joints.butt import glued, rests
from model.joints.dovetail import dovetail, first_tail
from model.joints.hinged import LID_OPENS, butt_hinges, lid_stay
from model.joints.housed import dado
from model.joints.miter import miter
from model.layout.outline import Outline, rounded
from model.parameters import Length, Parameters, choice, count, flag, size
from model.piece import WIDEST_BOARD, Piece, Placed
from model.placement import place
from model.stock import Stock, board, panel

#: Play of the bottom in its grooves: across its thickness, and at its ends, mm (common practice).
BOTTOM_PLAY, END_PLAY = 0.2, 0.8
#: How much a bottom may swell across its grain, in all, to its width (common practice: 1/8 in to the foot).
SWELLING = 1.0 / 96.0
#: Wood of the lowest tail above and below the groove it hides, mm (common practice).
BESIDE_GROOVE = 3.0
#: A rope handle: diameter of its two bores, mm, and how far apart they are.
ROPE, ROPE_SPREAD = 16.0, 110.0


class Chest(Parameters):
    """A dovetailed boot chest on a plinth, its frame-and-panel lid hung on hinges."""

    width: Length = size("920 mm", "560 mm", "1400 mm", "of the carcass, end to end")
    depth: Length = size("440 mm", "330 mm", "600 mm", "of the carcass, front to back")
    height: Length = size("480 mm", "360 mm", "650 mm", "floor to the top of the lid")
    plinth_height: Length = size("100 mm", "70 mm", "140 mm", "floor to the top of the plinth")
    plinth_thickness: Length = size("16 mm", "13 mm", "22 mm", "of the plinth's boards")
    feet: bool = flag(True, "the plinth is cut out between its corners, so that it stands on feet")
    bottom_thickness: Length = size("13 mm", "9 mm", "16 mm", "of the bottom")
    overhang: Length = size("20 mm", "14 mm", "32 mm", "of the lid at the front and the ends, to lift it by")
    frame_width: Length = size("72 mm", "58 mm", "95 mm", "of the lid's frame")
    panels: int = count(2, 1, 4, "in the lid, side by side")
    panel: str = choice("raised", ("raised", "flat"), "how the lid's panels are worked")
    handles: bool = flag(True, "bores in the ends for rope handles, which also let damp boots breathe")

    @property
    def top(self) -> float:
        """Height of the carcass's upper edges."""
        return self.height - self.thickness

    @property
    def foot_height(self) -> float:
        """Height of the carcass's lower edges, half way up inside the plinth."""
        return self.plinth_height / 2.0

    @property
    def carcass_height(self) -> float:
        return self.top - self.foot_height

    @property
    def groove(self) -> float:
        """How far the bottom is let in: a third of the sides (common practice)."""
        return self.thickness / 3.0

    @property
    def room(self) -> float:
        """Left in front and behind for the bottom to swell."""
        return (self.depth - 2.0 * self.thickness) * SWELLING / 2.0

    @property
    def foot_length(self) -> float:
        """Of the plinth's feet, along the front."""
        return min(150.0, self.width / 6.0)

    def check(self) -> None:
        inside = self.top - self.plinth_height
        if inside < 160.0:
            raise DesignError(
                f"[size] height: between plinth and lid only {self.show(inside)} of the chest would show; "
                f"{self.show(160.0)} is the least that looks and holds like a chest, so make it higher or the plinth "
                "lower"
            )
        if self.overhang < self.plinth_thickness - 4.0:
            raise DesignError(
                f"[size] overhang: a lid {self.show(self.overhang)} over a plinth that stands out "
                f"{self.show(self.plinth_thickness)} looks pinched; make the overhang at least as much as the plinth"
            )


def make(p: Chest) -> Piece:
    """The chest; raises DesignError where the sizes can't be built."""
    piece = Piece("chest", p)
    principal_measures(piece, p)
    t, stock = p.thickness, wide(p.width, p.carcass_height)

    front = piece.add("front", stock, place((0.0, t, p.foot_height), grain="right", face="front"))
    back = piece.add("back", stock, place((p.width, p.depth - t, p.foot_height), grain="left", face="back"))
    at_left = place((t, p.depth, p.foot_height), grain="front", face="left")
    ends = piece.pair("end", wide(p.depth, p.carcass_height), at_left, *rope_bores(p), middle=p.width / 2.0)
    corners = [dovetail(board, into=end) for board in (front, back) for end in ends]
    piece.join(*corners)

    bottom = lay_bottom(piece, p, *first_tail(corners[0]))
    piece.join(*(dado(bottom, into=board, fit=BOTTOM_PLAY, room=p.room) for board in (front, back)))
    piece.join(*(dado(bottom, into=end, fit=BOTTOM_PLAY, room=END_PLAY, through=True) for end in ends))

    plinth = stand_on_plinth(piece, p, (front, back, *ends))
    blocks = foot_blocks(piece, p, ends)
    lid = hang_lid(piece, p, front, back, ends)
    inside = (t, 0.62 * p.depth, p.top - 60.0)
    piece.fit(lid_stay(lid.rails[0], ends[0], inside, direction="front", length=round(0.5 * p.depth)))
    piece.fit(*rope_handles(p, ends))

    piece.step("Drive the back's tails into both ends with glue, and slide the bottom in dry", back, *ends, bottom)
    piece.step("Bring the front's tails home in both ends at once; clamp, and measure the diagonals", front)
    piece.step("Glue a block under each corner of the carcass, flush with its faces", *blocks)
    for which, boards in (("front", plinth[:1]), ("ends", plinth[2:]), ("back", plinth[1:2])):
        piece.step(f"Glue on the plinth's {which}, closing the miters; all grain runs level", *boards)
    piece.step("Glue up the lid's frame round its panels, which stay dry in their grooves", *lid.parts)
    piece.step("Let the hinges into the back and the lid; screw on the stay, and knot in the ropes")
    return piece


def principal_measures(piece: Piece, p: Chest) -> None:
    """Plinth, carcass and lid from the floor up; the carcass; the lid's overhang."""
    corner, back = (0.0, 0.0, 0.0), p.depth
    piece.measure("plinth", corner, (0.0, 0.0, p.plinth_height), "front")
    piece.measure("carcass above the plinth", (0.0, 0.0, p.plinth_height), (0.0, 0.0, p.top), "front")
    piece.measure("carcass", corner, (p.width, 0.0, 0.0), "front")
    piece.measure("carcass depth", (0.0, 0.0, p.height), (0.0, back, p.height), "side")
    piece.measure("overhang", (0.0, -p.overhang, p.height), (0.0, 0.0, p.height), "side")


def wide(length: float, width: float, thickness: float | None = None) -> Stock:
    """A board, or as many as it takes, glued up."""
    return (panel if width > WIDEST_BOARD else board)(length, width, thickness)


def rope_bores(p: Chest) -> list[Cut]:
    """Two bores through an end, level, below the lid; grain to the front, so measured from the back."""
    along = [(p.depth - ROPE_SPREAD) / 2.0, (p.depth + ROPE_SPREAD) / 2.0] if p.handles else []
    return [Bore((x, rope_height(p), p.thickness), (0.0, 0.0, -1.0), ROPE, p.thickness) for x in along]


def rope_height(p: Chest) -> float:
    """Of the rope handles, above the carcass's lower edge."""
    return p.carcass_height - 85.0


def lay_bottom(piece: Piece, p: Chest, low: float, high: float) -> Placed:
    """The bottom, in the middle of the lowest tails, which hide its groove."""
    need = p.bottom_thickness + BOTTOM_PLAY + 2.0 * BESIDE_GROOVE
    if high - low < need:
        raise DesignError(
            f"[size] bottom_thickness: a groove for a bottom {p.show(p.bottom_thickness)} thick doesn't hide in a "
            f"tail {p.show(high - low)} wide; make the bottom thinner by {p.show(need - high + low)}"
        )
    inset = p.thickness - p.groove
    level = p.foot_height + (low + high - p.bottom_thickness) / 2.0
    stock = wide(p.width - 2.0 * inset, p.depth - 2.0 * inset, p.bottom_thickness)
    return piece.add("bottom", stock, place((inset, inset, level)))


def stand_on_plinth(piece: Piece, p: Chest, carcass: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Four boards mitered round the foot of the carcass, moulded along their top."""
    t, w, d = p.plinth_thickness, p.width, p.depth
    long, short = w + 2.0 * t, d + 2.0 * t
    moulded = Moulding(edge="far", section=ogee(0.55 * t, step=1.5), called="ogee")

    def stock(length: float) -> Stock:
        return board(length, p.plinth_height, t)

    def shaped(length: float) -> list[Cut]:
        return [moulded, Notch(between_feet(p, length))] if p.feet else [moulded]

    front = piece.add("plinth front", stock(long), place((-t, 0.0, 0.0), grain="right", face="front"), *shaped(long))
    back = piece.add("plinth back", stock(long), place((w + t, d, 0.0), grain="left", face="back"), *shaped(long))
    at_left = place((0.0, d + t, 0.0), grain="front", face="left")
    left, right = piece.pair("plinth end", stock(short), at_left, *shaped(short), middle=w / 2.0)
    piece.join(*(miter(board, to=end) for board in (front, back) for end in (left, right)))
    boards = (front, back, left, right)
    piece.join(*(glued(board, to=wall) for board, wall in zip(boards, carcass, strict=True)))
    return boards


def between_feet(p: Chest, length: float) -> Outline:
    """What is sawn out of a plinth board's lower edge, rounded at the top."""
    foot, rise = min(p.foot_length, length / 3.5), 0.8 * p.foot_height
    corners = [(foot, -1.0), (length - foot, -1.0), (length - foot, rise), (foot, rise)]
    return rounded(corners, (0.0, 0.0, 0.9 * rise, 0.9 * rise))


def foot_blocks(piece: Piece, p: Chest, ends: tuple[Placed, Placed]) -> list[Placed]:
    """A block in each corner of the plinth, which carries the carcass to the floor."""
    side = min(0.5 * p.foot_length, 50.0)
    blocks: list[Placed] = []
    for name, y in (("front", 0.0), ("back", p.depth - side)):
        pair = piece.pair(f"{name} block", board(side, side, p.foot_height), place((0.0, y, 0.0)), middle=p.width / 2.0)
        piece.join(*(glued(block, to=piece[f"plinth {name}"]) for block in pair))
        piece.join(*(glued(block, to=end) for block, end in zip(pair, ends, strict=True)))
        blocks += pair
    return blocks


def hang_lid(piece: Piece, p: Chest, front: Placed, back: Placed, ends: tuple[Placed, Placed]) -> Framed:
    """The lid, hung on the back and resting on the others, rounded along the edges that hands take hold of."""
    frame = Frame(
        p.width + 2.0 * p.overhang,
        p.depth + p.overhang,
        stile=p.frame_width,
        rail=p.frame_width,
        panels=p.panels,
        raised=p.panel == "raised",
        words=("rail", "end", "muntin"),
    )
    lid = frame_and_panel(piece, "lid", frame, place((-p.overhang, -p.overhang, p.top)))
    (front_rail, back_rail), left, right = lid.stiles, lid.rails[0], lid.rails[-1]
    for member, edges in (
        (front_rail, ("left", "near", "right")),
        (back_rail, ("left", "right")),
        (left, ("far",)),
        (right, ("near",)),
    ):
        thumb = round_over(0.4 * p.thickness, step=0.1 * p.thickness)
        member.cut(*(Moulding(edge=edge, section=thumb, called="thumb mould") for edge in edges))
    hinges = butt_hinges(back_rail, to=back, knuckle="back", margin=p.width / 7.0, opens=LID_OPENS)
    piece.join(hinges, rests(front_rail, on=front), rests(left, on=ends[0]), rests(right, on=ends[1]))
    for part in lid.parts:
        piece.swing(part, *hinges.swing)
    return lid


def rope_handles(p: Chest, ends: tuple[Placed, Placed]) -> list[Hardware]:
    """A rope through the two bores of each end, knotted inside."""
    if not p.handles:
        return []
    y, z = (p.depth - ROPE_SPREAD) / 2.0, p.foot_height + rope_height(p)
    size = f"{0.75 * ROPE:g} x {4.0 * ROPE_SPREAD:g} mm"
    return [
        Hardware("rope handle", size, (x, y, z), (0.0, 1.0, 0.0), (end.name,), ROPE_SPREAD, 0.75 * ROPE)
        for end, x in zip(ends, (0.0, p.width), strict=True)
    ]
