"""A drawer as a maker builds it, put into an opening of a piece, and the runners it goes on.

Sides half-blind dovetailed to the front; bottom in grooves, its grain parallel to the front and fastened only there;
the back dadoed or dovetailed in, resting on the bottom (Noyes, Handwork in Wood, 1910, on drawers).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from model.errors import DesignError
from model.joints.butt import rests
from model.joints.dovetail import LAP, dovetail, first_tail
from model.joints.housed import dado
from model.joints.joint import Joint, clean
from model.piece import Piece, Placed
from model.placement import Vector, place
from model.stock import board, panel

DRAWER = "Noyes, Handwork in Wood: bottom in grooves, its grain parallel to the front, fastened only there"

#: Room on each side of a drawer, mm: 1/32 in (common practice).
SIDE_PLAY = 0.8
#: Room over a drawer, mm: 1/16 in, more for a deep one, whose sides swell in height (common practice).
TOP_PLAY = 1.6
#: Room behind a drawer, mm: 1/4 in, for the stops and a bottom that swells to the back (common practice).
BACK_ROOM = 6.0
#: The least between drawer and case in a damp summer, mm: 1/64 in (common practice).
LEAST_PLAY = 0.4
#: Sides 1/2 in, bottom 1/4 in thick; the bottom's groove 3/8 in up, mm (common practice).
SIDE_THICKNESS, BOTTOM_THICKNESS, GROOVE_RISE = 12.7, 6.4, 9.5
#: The bottom's play in its grooves: across its thickness, and at each end of its length, mm (common practice).
GROOVE_PLAY, END_ROOM = 0.2, 0.5
#: Wood behind the dado of a housed back, mm: 1/2 in, so that it does not split out (common practice).
BEHIND_BACK = 12.7
#: Wood of the tail above and below the groove that it hides, mm (common practice: 1/8 in).
BESIDE_GROOVE = 3.0
#: How far a drawer is meant to open: two thirds of its length (common practice).
OPENS = 2.0 / 3.0
#: Runners and kickers: section, mm, and how much of their length is glued at the front, for the case's sides move
#: across their grain (common practice).
RUNNER, RUNNER_GLUED = 20.0, 50.0

FORWARD: Vector = (0.0, -1.0, 0.0)


@dataclass(frozen=True)
class DrawerOpening:
    """The room for a drawer in a piece, mm: from its least corner (left, front, bottom) to its greatest."""

    low: Vector
    high: Vector

    @property
    def width(self) -> float:
        return self.high[0] - self.low[0]

    @property
    def depth(self) -> float:
        return self.high[1] - self.low[1]

    @property
    def height(self) -> float:
        return self.high[2] - self.low[2]

    @property
    def middle(self) -> float:
        """Left to right."""
        return (self.low[0] + self.high[0]) / 2.0


@dataclass(frozen=True)
class Drawer:
    """A drawer's parts, placed and joined."""

    name: str
    opening: DrawerOpening
    front: Placed
    left: Placed
    right: Placed
    back: Placed
    bottom: Placed

    @property
    def parts(self) -> tuple[Placed, ...]:
        return (self.front, self.left, self.right, self.back, self.bottom)


def drawer(
    piece: Piece,
    name: str,
    opening: DrawerOpening,
    *,
    front_thickness: float | None = None,
    side_thickness: float = SIDE_THICKNESS,
    bottom_thickness: float = BOTTOM_THICKNESS,
    back: Literal["dado", "dovetail"] = "dado",
    tails: int | None = None,
    side_play: float = SIDE_PLAY,
    top_play: float = TOP_PLAY,
) -> Drawer:
    """Adds a drawer to `piece`, its front flush with the opening's, and joins its parts; it slides out to the front.

    Thicknesses in mm, the order's for the front if not said. back: how it meets the sides. tails: on each side's front
    end, by rule if not said. side_play, top_play: room on each side and above, mm. Raises DesignError where the
    opening is too small, or no tail is wide enough to hide the bottom's groove.
    """
    front_thick = front_thickness or piece.parameters.thickness
    width, height = opening.width - 2.0 * side_play, opening.height - top_play
    _roomy(name, opening, width - 2.0 * side_thickness, height)
    left_x, front_y, floor = opening.low[0] + side_play, opening.low[1], opening.low[2]
    rear = opening.high[1] - BACK_ROOM
    lap = LAP * front_thick
    face = piece.add(
        f"{name} front",
        board(width, height, front_thick),
        place((left_x, front_y + front_thick, floor), grain="right", face="front"),
    )
    # grain to the front and face to the left puts the near edge down
    left, right = piece.pair(
        f"{name} side",
        board(rear - front_y - lap, height, side_thickness),
        place((left_x + side_thickness, rear, floor), grain="front", face="left"),
        middle=opening.middle,
    )
    corners = [dovetail(side, into=face, number=tails) for side in (left, right)]
    rise = _groove_rise(name, corners[0], bottom_thickness + GROOVE_PLAY)
    piece.join(*corners)
    level = floor + rise + GROOVE_PLAY / 2.0
    behind = _back(piece, name, (left, right), level + bottom_thickness, back)
    bottom = _bottom(piece, name, (left, right, face), level, bottom_thickness, behind)
    piece.join(rests(behind, on=bottom))
    made = Drawer(name, opening, face, left, right, behind, bottom)
    for part in made.parts:
        piece.slide(part, FORWARD, OPENS * (rear - front_y))
    return made


def runners(
    piece: Piece,
    of: Drawer,
    left: Placed,
    right: Placed,
    *,
    housed: float,
    start: float = 0.0,
    kickers: bool = True,
) -> tuple[Placed, ...]:
    """Strips let `housed` mm into the case's sides `left` and `right`: runners under the drawer, kickers over it.

    start: mm behind the opening's front where they begin, for a rail there. Glued at the front only, since the case
    moves across its grain and they don't. Raises DesignError where the case's sides are not the opening's.
    """
    opening = of.opening
    added: list[Placed] = []
    length = opening.depth - start
    levels = [("runner", opening.low[2] - RUNNER)] + [("kicker", opening.high[2])] * kickers
    for what, z in levels:
        # grain to the back and face up puts the far edge to the left
        at = place((opening.low[0] + RUNNER, opening.low[1] + start, z), grain="back", face="up")
        strips = piece.pair(f"{of.name} {what}", board(length, RUNNER + housed, RUNNER), at, middle=opening.middle)
        for strip, case, side in zip(strips, (left, right), (of.left, of.right), strict=True):
            piece.join(replace(dado(strip, into=case), glue_area=RUNNER * RUNNER_GLUED))
            if what == "runner":
                piece.join(rests(side, on=strip))
            else:
                piece.keep_apart(side, strip, LEAST_PLAY)
        added += strips
    for side, case in ((of.left, left), (of.right, right)):
        piece.keep_apart(side, case, LEAST_PLAY)
    return tuple(added)


def _roomy(name: str, opening: DrawerOpening, inside: float, height: float) -> None:
    if inside < 40.0 or height < 40.0 or opening.depth < 100.0:
        raise DesignError(
            f"{name}: an opening {opening.width:.0f} mm wide, {opening.height:.0f} mm high and {opening.depth:.0f} mm "
            f"deep is too small for a drawer; 40 mm inside, 40 mm high and 100 mm deep is the least"
        )


def _groove_rise(name: str, corner: Joint, width: float) -> float:
    """How far up the bottom's groove lies, so that the lowest tail hides it where it comes to the front, mm."""
    low, high = first_tail(corner)
    rise = clean(max(GROOVE_RISE, low + BESIDE_GROOVE))
    if rise + width > high - BESIDE_GROOVE:
        raise DesignError(
            f"{name}: the bottom's groove, {width:.1f} mm wide and {rise:.1f} mm up, does not lie within the lowest "
            f"tail, from {low:.1f} to {high:.1f} mm; make fewer tails, or a thinner bottom"
        )
    return rise


def _back(
    piece: Piece, name: str, sides: tuple[Placed, Placed], low: float, way: Literal["dado", "dovetail"]
) -> Placed:
    """The back, from the bottom's upper side to the sides' upper edges."""
    left, right = sides
    thick, height = left.wood.thickness, left.wood.stock.width + left.at.origin[2] - low
    inset = thick if way == "dovetail" else thick * 2.0 / 3.0
    x0, x1 = left.at.origin[0], right.at.origin[0]
    out = thick if way == "dovetail" else thick - inset
    rear = left.at.origin[1] - (0.0 if way == "dovetail" else BEHIND_BACK)
    at = place((x0 - out, rear, low), grain="right", face="front")
    back = piece.add(f"{name} back", board(x1 - x0 + 2.0 * out, height, thick), at)
    if way == "dovetail":
        piece.join(*(dovetail(side, into=back) for side in sides))
    else:
        piece.join(*(dado(back, into=side) for side in sides))
    return back


def _bottom(
    piece: Piece, name: str, around: tuple[Placed, Placed, Placed], level: float, thick: float, back: Placed
) -> Placed:
    """The bottom, slid in from behind under the back: glued in the front's groove, free in the sides'."""
    left, right, front = around
    side_deep, front_deep = left.wood.thickness / 2.0, min(thick, front.wood.thickness / 2.0)
    x0, x1 = left.at.origin[0] - side_deep + END_ROOM, right.at.origin[0] + side_deep - END_ROOM
    y0, y1 = front.at.origin[1] - front_deep, back.at.origin[1]
    bottom = piece.add(f"{name} bottom", panel(x1 - x0, y1 - y0, thick), place((x0, y0, level)))
    piece.join(*(_grooved(bottom, side, END_ROOM, FORWARD) for side in (left, right)))
    piece.join(_grooved(bottom, front, 0.0, FORWARD))
    return bottom


def _grooved(bottom: Placed, into: Placed, room: float, closes: Vector) -> Joint:
    """The bottom in a groove right through `into`, with `room` at the groove's floor, and then no glue."""
    joint = dado(bottom, into=into, fit=GROOVE_PLAY, room=room, through=True)
    return replace(joint, closes=closes, source=DRAWER)
