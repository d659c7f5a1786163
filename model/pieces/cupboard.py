"""A wall cupboard: a frame-and-panel door over a drawer, shelves on pins, a rail to hang it by."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from model.cuts.edges import Ease
from model.cuts.faces import Bore, Channel, Counterbore
from model.cuts.shelf_bores import DEPTH, DIAMETER, SPACING, shelf_bores
from model.cuts.through import Profile
from model.drawers import LEAST_PLAY, RUNNER, Drawer, DrawerOpening, drawer, runners
from model.errors import DesignError
from model.framed import Frame, Framed, frame_and_panel
from model.hardware import FINISH_NAILS, Hardware, knob, nail_through, screw_shank
from model.joints.butt import nailed, rests
from model.joints.dovetail import LAP, dovetail
from model.joints.hinged import butt_hinges
from model.joints.housed import dado, rabbet
from model.joints.mortise import mortise_and_tenon
from model.joints.shelf_pins import on_pins
from model.joints.shiplap import USUAL_LAP, ship_lap
from model.layout.outline import rounded
from model.parameters import Length, Parameters, choice, count, flag, size
from model.piece import Piece, Placed
from model.placement import place
from model.stock import board

#: Depth of the drawer's rail, and height of the hanging rail, mm.
RAIL, HANGING_RAIL = 45.0, 70.0
#: Off the sides at each end of a shelf; of a shelf behind the door, mm (common practice).
SHELF_PLAY, BEHIND_DOOR = 1.0, 5.0
#: The least from one shelf to the next, and from the lowest or highest to the carcass, mm.
LEAST_BETWEEN = 70.0
#: Wall screws: 3 in No. 10, into studs or plugs (common practice), their heads in counterbores of 12 by 4 mm.
WALL_SCREW, WALL_GAUGE, WALL_LENGTH = "No. 10 x 76 mm", "10", 76.0
#: The widest of the boards in the back, mm.
BACK_BOARD = 130.0


class Cupboard(Parameters):
    """A first-aid wall cupboard: panelled door, shelves on pins, and a dovetailed drawer below."""

    width: Length = size("420 mm", "320 mm", "620 mm", "outside to outside")
    height: Length = size("740 mm", "600 mm", "1000 mm", "from the lower ends of the sides to the top")
    depth: Length = size("210 mm", "170 mm", "320 mm", "from the wall to the front")
    tail: Length = size("56 mm", "45 mm", "90 mm", "of the sides below the drawer's rail, rounded at the front")
    drawer_height: Length = size("92 mm", "70 mm", "130 mm", "of the drawer's opening")
    shelves: int = count(2, 0, 5, "on pins behind the door")
    corners: str = choice("dovetailed", ("dovetailed", "dadoed"), "how the top meets the sides")
    hand: str = choice("left", ("left", "right"), "side on which the door is hung")
    gap: Length = size("1.5 mm", "1 mm", "2.5 mm", "round the door")
    frame_width: Length = size("52 mm", "42 mm", "70 mm", "of the door's stiles and top rail")
    panel: str = choice("raised", ("raised", "flat"), "how the door's panel is worked")
    cross: bool = flag(True, "a cross sunk into the door's panel")
    back_thickness: Length = size("10 mm", "9 mm", "13 mm", "of the boards in the back")

    @property
    def crown(self) -> float:
        """Of the sides above a top that is dadoed in."""
        return 20.0 if self.corners == "dadoed" else 0.0

    @property
    def housing(self) -> float:
        """Depth of the dadoes: a third of the sides (common practice)."""
        return self.thickness / 3.0

    @property
    def drawer_low(self) -> float:
        """Height on which the drawer runs."""
        return self.tail + self.thickness

    @property
    def floor(self) -> float:
        """Height of the underside of the floor between drawer and door."""
        return self.drawer_low + self.drawer_height

    @property
    def door_low(self) -> float:
        return self.floor + self.thickness

    @property
    def door_high(self) -> float:
        """Height of the top's underside."""
        return self.height - self.crown - self.thickness

    @property
    def inner_depth(self) -> float:
        """In front of the back."""
        return self.depth - self.back_thickness

    @property
    def nail(self) -> str:
        """For the boards of the back."""
        return nail_through(self.back_thickness)

    @property
    def bores(self) -> tuple[float, float]:
        """Heights of the lowest bore for shelf pins and of the highest there may be."""
        return self.door_low + LEAST_BETWEEN, self.door_high - HANGING_RAIL - self.thickness - DIAMETER

    @property
    def shelf_heights(self) -> list[float]:
        """Undersides of the shelves, each on the bores nearest to an even spacing."""
        first, last = self.bores
        step = (self.door_high - self.door_low) / (self.shelves + 1)
        wanted = (self.door_low + step * n for n in range(1, self.shelves + 1))
        most = math.floor((last - first) / SPACING)
        return [first + SPACING * max(0, min(most, round((z - first) / SPACING))) + DIAMETER / 2.0 for z in wanted]

    def check(self) -> None:
        first, last = self.bores
        if last - first < 2.0 * SPACING:
            raise DesignError(
                f"[size] height: the door is only {self.show(max(0.0, self.door_high - self.door_low))} high, too "
                "little for shelves; make the cupboard higher, or the drawer and the tail lower"
            )
        heights = self.shelf_heights
        between = min((b - a for a, b in pairwise(heights)), default=math.inf) - self.thickness
        if between < LEAST_BETWEEN:
            raise DesignError(
                f"[size] shelves: {self.shelves} leave {self.show(max(between, 0.0))} between them; "
                f"{self.show(LEAST_BETWEEN)} is the least, so make fewer shelves or a higher cupboard"
            )


def make(p: Cupboard) -> Piece:
    """The cupboard; raises DesignError where the sizes can't be built."""
    piece = Piece("cupboard", p)
    principal_measures(piece, p)
    t, inside = p.thickness, p.width - 2.0 * p.thickness
    sides = left, right = carcass_sides(piece, p)
    top = lay_top(piece, p, sides)

    floor = piece.add("floor", board(inside + 2.0 * p.housing, p.inner_depth), place((t - p.housing, 0.0, p.floor)))
    piece.join(*(dado(floor, into=side, stopped=p.housing) for side in sides))

    tenon = 0.6 * t
    rail = piece.add("drawer rail", board(inside + 2.0 * tenon, RAIL), place((t - tenon, 0.0, p.tail)))
    at = place((t - tenon, p.inner_depth, p.door_high - HANGING_RAIL), grain="right", face="front")
    hanging = piece.add("hanging rail", board(inside + 2.0 * tenon, HANGING_RAIL), at)
    piece.join(*(mortise_and_tenon(member, into=side) for member in (rail, hanging) for side in sides))
    piece.join(rests(hanging, on=top))

    backs = back_boards(piece, p, left, right)
    hang_on_wall(piece, hanging, backs)
    for each in backs:
        piece.join(nailed(each, to=floor, penny=p.nail, count=1), rests(each, on=hanging))

    bore_for_pins(p, sides)
    shelves = lay_shelves(piece, p, sides)
    door = hang_door(piece, p, sides)
    box = slide_drawer(piece, p, sides, rail, floor)
    strips = runners(piece, box, left, right, housed=p.housing, start=RAIL, kickers=False)

    piece.step("Glue a runner into each side over its front 50 mm, the rest dry", left, right, *strips)
    piece.step("Lay the left side down; glue floor, rails and top to it, then bring the right side down on all their "
               "ends at once; clamp, and measure the diagonals", floor, rail, hanging, top)  # fmt: skip
    piece.step("Nail the back's boards into the rabbets from left to right, lapped and dry", *backs)
    piece.step("Set the shelves in on their pins", *shelves)
    piece.step("Glue up the door's frame round its panel, which stays dry; hang it", *door.parts)
    piece.step("Glue up the drawer; slide the bottom in from behind, glued only at the front", *box.parts)
    piece.step("Screw the cupboard to the wall through its hanging rail")
    return piece


def principal_measures(piece: Piece, p: Cupboard) -> None:
    """From the lower ends up: tail, drawer, door; the opening's width; the depth that the shelves have."""
    levels = {"tail": 0.0, "rail": p.tail, "drawer": p.drawer_low, "floor": p.floor, "door": p.door_low}
    for (name, low), high in zip(levels.items(), [*list(levels.values())[1:], p.door_high], strict=True):
        if name not in ("rail", "floor"):
            piece.measure(name, (0.0, 0.0, low), (0.0, 0.0, high), "front")
    piece.measure("opening", (p.thickness, 0.0, 0.0), (p.width - p.thickness, 0.0, 0.0), "front")
    piece.measure("inner depth", (p.width, 0.0, p.height), (p.width, p.inner_depth, p.height), "side")


def carcass_sides(piece: Piece, p: Cupboard) -> tuple[Placed, Placed]:
    """Grain up, their lower ends rounded toward the wall; under a dovetailed top they stop at its lap."""
    tall = p.height - (LAP * p.thickness if p.corners == "dovetailed" else 0.0)
    corners = [(0.0, 0.0), (tall, 0.0), (tall, p.depth), (0.0, p.depth)]
    shape = Profile(rounded(corners, (0.0, 0.0, 0.0, 0.85 * p.tail), ("near", "right", "far", "left")))
    at = place((0.0, p.depth, 0.0), grain="up", face="right")
    return piece.pair("side", board(tall, p.depth), at, shape, middle=p.width / 2.0)


def lay_top(piece: Piece, p: Cupboard, sides: tuple[Placed, Placed]) -> Placed:
    """On the sides' tails, hidden from above by its lap; or dadoed between them, and stopped at the front."""
    if p.corners == "dovetailed":
        top = piece.add("top", board(p.width, p.depth), place((0.0, 0.0, p.door_high)))
        piece.join(*(dovetail(side, into=top) for side in sides))
        return top
    inset = p.thickness - p.housing
    top = piece.add("top", board(p.width - 2.0 * inset, p.depth), place((inset, 0.0, p.door_high)))
    piece.join(*(dado(top, into=side, stopped=p.housing) for side in sides))
    return top


def back_boards(piece: Piece, p: Cupboard, left: Placed, right: Placed) -> list[Placed]:
    """Upright boards of one width, ship-lapped, nailed dry in rabbets half way into the sides."""
    x, total = p.thickness / 2.0, p.width - p.thickness
    number = math.ceil(total / BACK_BOARD)
    step = total / number
    boards = []
    for n in range(number):
        width = step + (USUAL_LAP if n < number - 1 else 0.0)
        # grain up and face to the front puts the near edge on the right
        at = place((x + n * step + width, p.depth, 0.0), grain="up", face="front")
        boards.append(piece.add(f"back board {n + 1}", board(p.door_high, width, p.back_thickness), at))
    piece.join(*(ship_lap(a, over=b) for a, b in pairwise(boards)))
    for edge, side in ((boards[0], left), (boards[-1], right)):
        joint = rabbet(edge, into=side, nails=p.nail)
        kept = tuple(nail for nail in joint.hardware if clear_of_housings(p, nail.at[2]))
        piece.join(replace(joint, hardware=kept, glue_area=0.0))
    return boards


def clear_of_housings(p: Cupboard, height: float) -> bool:
    """Whether a nail into a side at that height misses the ends of runner, floor and hanging rail."""
    let_in = ((p.drawer_low - RUNNER, p.drawer_low), (p.floor, p.door_low), (p.door_high - HANGING_RAIL, p.door_high))
    return not any(low - 6.0 < height < high + 6.0 for low, high in let_in)


def hang_on_wall(piece: Piece, hanging: Placed, backs: list[Placed]) -> None:
    """A screw through the hanging rail and the middle of the outermost boards, into the wall."""
    thick, hole = hanging.wood.thickness, screw_shank(WALL_GAUGE) + 0.5
    for back in (backs[0], backs[-1]):
        x = back.at.point((0.0, back.wood.stock.width / 2.0, 0.0))[0]
        head = (x, hanging.at.origin[1] - thick, hanging.at.origin[2] + HANGING_RAIL / 2.0)
        hanging.cut(Counterbore(hanging.at.own_point(head), (0.0, 0.0, -1.0), 12.0, 4.0, hole))
        mouth = back.at.own_point((x, head[1] + thick, head[2]))
        back.cut(Bore(mouth, (0.0, 0.0, -1.0), hole, back.wood.thickness))
        sunk = (x, head[1] + 4.0, head[2])
        held = ("hanging rail", back.name)
        piece.fit(Hardware("wall screw", WALL_SCREW, sunk, (0.0, 1.0, 0.0), held, WALL_LENGTH, screw_shank(WALL_GAUGE)))


def bore_for_pins(p: Cupboard, sides: tuple[Placed, Placed]) -> None:
    """Two rows in each side: one behind the door, one before the points of the back's nails."""
    front, back, deep = p.thickness + 18.0, FINISH_NAILS[p.nail].length + 7.0, min(DEPTH, p.thickness - 6.0)
    left, right = sides
    left.cut(*shelf_bores(left.wood, *p.bores, front="far", inset=front, back_inset=back, depth=deep))
    right.cut(*shelf_bores(right.wood, *p.bores, front="near", inset=front, back_inset=back, depth=deep))


def lay_shelves(piece: Piece, p: Cupboard, sides: tuple[Placed, Placed]) -> list[Placed]:
    """On four pins each, clear of the door and the back."""
    front, x = p.thickness + BEHIND_DOOR, p.thickness + SHELF_PLAY
    stock = board(p.width - 2.0 * x, p.inner_depth - front - SHELF_PLAY)
    shelves = []
    for n, height in enumerate(p.shelf_heights, 1):
        shelves.append(piece.add(f"shelf {n}", stock, place((x, front, height)), Ease(edge="near", radius=3.0)))
        piece.join(*(on_pins(shelves[-1], side) for side in sides))
    return shelves


def hang_door(piece: Piece, p: Cupboard, sides: tuple[Placed, Placed]) -> Framed:
    """The door between the sides, flush with them, on butt hinges; its lower rail a little wider."""
    t = p.thickness
    length, width = p.door_high - p.door_low - 2.0 * p.gap, p.width - 2.0 * t - 2.0 * p.gap
    frame = Frame(length, width, p.frame_width, p.frame_width, 1.2 * p.frame_width, raised=p.panel == "raised")
    at = place((p.width - t - p.gap, t, p.door_low + p.gap), grain="up", face="front")
    door = frame_and_panel(piece, "door", frame, at)
    right, left = door.stiles
    hung, free, side = (left, right, sides[0]) if p.hand == "left" else (right, left, sides[1])
    hinges = butt_hinges(hung, to=side, knuckle="front", margin=length / 8.0)
    piece.join(hinges)
    for part in door.parts:
        piece.swing(part, *hinges.swing)
    if p.cross:
        sink_cross(door.panels[0])
    middle = (length / 2.0, p.frame_width / 2.0, t)
    piece.fit(knob(free.at.point(middle), (0.0, -1.0, 0.0), free.name))
    piece.fit(Hardware("magnetic catch", "6 kg", free.at.point((30.0, p.frame_width / 2.0, 0.0)), (0.0, 1.0, 0.0),
                       (free.name, "floor"), 15.0, 15.0))  # fmt: skip
    return door


def sink_cross(panel: Placed) -> None:
    """A shallow cross of even arms, a little above the middle of the panel."""
    length, width = panel.wood.stock.length, panel.wood.stock.width
    x, y, arm, deep = 0.54 * length, width / 2.0, 0.17 * min(length, width), min(2.0, panel.wood.thickness / 3.0)
    panel.cut(Channel((x - arm, y), (x + arm, y), 0.67 * arm, deep))
    panel.cut(Channel((x, y - arm), (x, y + arm), 0.67 * arm, deep))


def slide_drawer(piece: Piece, p: Cupboard, sides: tuple[Placed, Placed], rail: Placed, floor: Placed) -> Drawer:
    """The drawer under the floor, its front flush with the door's, resting on its rail."""
    t = p.thickness
    box = drawer(piece, "drawer", DrawerOpening((t, 0.0, p.drawer_low), (p.width - t, p.inner_depth, p.floor)))
    piece.join(rests(box.front, on=rail))
    piece.keep_apart(box.front, floor, LEAST_PLAY)
    middle = (p.width / 2.0, 0.0, p.drawer_low + p.drawer_height / 2.0)
    piece.fit(knob(middle, (0.0, -1.0, 0.0), box.front.name))
    return box
