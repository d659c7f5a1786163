"""A plain bookcase, from a small shelf unit to a wall of bays."""

from __future__ import annotations

from dataclasses import replace

from model.cuts.cut import Cut
from model.cuts.edges import Bead, Chamfer, Ease
from model.errors import DesignError
from model.hardware import nail_through
from model.joints.butt import biscuited, nailed, rests
from model.joints.edge import BOTTOM_ROOM, fullest_tongue, tongue_and_groove
from model.joints.housed import dado, rabbet
from model.joints.joint import Joint
from model.layout.boards import fill_straight_with_random
from model.parameters import BoardWidths, Length, Parameters, WidthRange, board_widths, choice, count, flag, size
from model.piece import Piece, Placed
from model.placement import place
from model.stock import board
from model.tolerance import SAME_POINT

#: The nails of a rabbet keep this far from the dadoes, mm (common practice).
NAIL_ROOM = 10.0


class Bookcase(Parameters):
    """Sides and uprights, dadoed shelves, a rabbeted and boarded back."""

    width: Length = size("900 mm", "280 mm", "12000 mm", "outside to outside")
    height: Length = size("1200 mm", "350 mm", "2700 mm", "floor to the top of the sides")
    depth: Length = size("250 mm", "140 mm", "450 mm", "front to back")
    bays: int = count(1, 1, 24, "side by side")
    shelves: int = count(3, 0, 20, "in each bay, between its bottom and its top")
    base: Length = size("70 mm", "64 mm", "150 mm", "floor to the underside of the bottom")
    crown: Length = size("30 mm", "12 mm", "100 mm", "of the sides above the top")
    housing: Length = size("6 mm", "3 mm", "12 mm", "depth of the dadoes")
    stopped: bool = flag(True, "dadoes end short of the front edge, so that it shows no joint")
    back_thickness: Length = size("12 mm", "9 mm", "19 mm", "of the back boards")
    back_widths: BoardWidths = board_widths(WidthRange(90, 140, 3), "50 mm", "200 mm", "of the back boards, as faces")
    front_edge: str = choice("bead", ("bead", "ease", "chamfer", "square"), "how the front edges are finished")

    @property
    def bay(self) -> float:
        """Clear width of one bay."""
        return (self.width - (self.bays + 1) * self.thickness) / self.bays

    @property
    def inner_depth(self) -> float:
        """In front of the back boards."""
        return self.depth - self.back_thickness

    @property
    def top(self) -> float:
        """Height of the top board's underside."""
        return self.height - self.crown - self.thickness

    @property
    def shelf_heights(self) -> list[float]:
        """Undersides of bottom, shelves and top, evenly spaced."""
        step = (self.top - self.base) / (self.shelves + 1)
        return [self.base + step * n for n in range(self.shelves + 2)]

    @property
    def back_nail(self) -> str:
        return nail_through(self.back_thickness)

    @property
    def rabbet(self) -> float:
        """How far the back is let into the sides: half their thickness, two thirds for a thick back, whose nails need
        more wood beside them (common practice)."""
        return self.thickness * (0.5 if self.back_thickness <= 0.7 * self.thickness else 2.0 / 3.0)

    @property
    def back_lap(self) -> float:
        """How far the back runs past bottom and top, so that no nail comes nearer to its ends than it is thick."""
        return max(0.0, self.back_thickness - self.thickness / 2.0)

    def check(self) -> None:
        if self.housing >= self.thickness:
            raise DesignError(
                f"[size] housing: a dado {self.show(self.housing)} deep would come through sides "
                f"{self.show(self.thickness)} thick; a third of that is common practice"
            )
        if self.bays > 1 and 2.0 * self.housing >= self.thickness:
            raise DesignError(
                f"[size] housing: two dadoes {self.show(self.housing)} deep meet inside an upright "
                f"{self.show(self.thickness)} thick; make them less than half of that"
            )
        if self.back_thickness > self.thickness:
            raise DesignError(
                f"[size] back_thickness: boards {self.show(self.back_thickness)} thick split the edges of sides "
                f"{self.show(self.thickness)} thick; use no thicker boards than that"
            )
        if self.bay < 150.0:
            raise DesignError(
                f"[size] bays: {self.bays} leave {self.show(max(self.bay, 0.0))} between the uprights; "
                f"{self.show(150.0)} is the least that takes books, so make fewer bays or a wider piece"
            )
        between = self.shelf_heights[1] - self.base - self.thickness
        if between < 80.0:
            raise DesignError(
                f"[size] shelves: {self.shelves} leave {self.show(max(between, 0.0))} between them; "
                f"{self.show(80.0)} is the least, so make fewer shelves or a taller piece"
            )


def make(p: Bookcase) -> Piece:
    """The bookcase; raises DesignError where the sizes can't be built."""
    piece = Piece("bookcase", p)
    principal_measures(piece, p)
    at = place((0.0, p.depth, 0.0), grain="up", face="right")
    left, right = piece.pair("side", board(p.height, p.depth), at, middle=p.width / 2.0)
    left.cut(*front_edge(p, "far"))
    right.cut(*front_edge(p, "near"))
    uprights = [left, *(upright(piece, p, n) for n in range(1, p.bays)), right]

    rows: list[list[Placed]] = []
    for n in range(p.bays):
        rows.append(bay(piece, p, n, uprights[n], uprights[n + 1]))
    backs = back_boards(piece, p, left, right)
    nail_backs(piece, p, backs, rows)

    piece.step("Lay the left side down, inside up; glue the first bay's shelves into its dadoes", left, *rows[0])
    for n, standing in enumerate(uprights[1:-1], 1):
        piece.step(
            f"Bring upright {n} down on all the shelf ends at once, then glue in the next bay", standing, *rows[n]
        )
    piece.step("Bring the right side down on all the shelf ends at once; clamp, and measure the diagonals", right)
    piece.step(
        "Nail the back boards into the rabbets from left to right; the last but one slides down between its neighbours",
        *backs,
    )
    return piece


def principal_measures(piece: Piece, p: Bookcase) -> None:
    """Shelf heights as a chain from the floor up, the bays, and the depth that takes books."""
    levels = [0.0, *p.shelf_heights, p.height]
    names = ["base", *(f"opening {n + 1}" for n in range(p.shelves + 1)), "top and crown"]
    for name, low, high in zip(names, levels, levels[1:], strict=False):
        piece.measure(name, (0.0, 0.0, low), (0.0, 0.0, high), "front")
    t = p.thickness
    piece.measure("bay", (t, 0.0, 0.0), (t + p.bay, 0.0, 0.0), "front", times=p.bays)
    piece.measure("shelf depth", (p.width, 0.0, p.height), (p.width, p.inner_depth, p.height), "side")


def upright(piece: Piece, p: Bookcase, n: int) -> Placed:
    at = place((n * (p.bay + p.thickness), p.inner_depth, 0.0), grain="up", face="right")
    return piece.add(f"upright {n}", board(p.height, p.inner_depth), at, *front_edge(p, "far"))


def bay(piece: Piece, p: Bookcase, n: int, left: Placed, right: Placed) -> list[Placed]:
    """Bottom, shelves and top of one bay, and the plinth under it."""
    start = n * (p.bay + p.thickness) + p.thickness
    tag = f" of bay {n + 1}" if p.bays > 1 else ""
    last = len(p.shelf_heights) - 1
    names = ["bottom", *(f"shelf {k}" for k in range(1, last)), "top"]
    shelves = []
    for name, z in zip(names, p.shelf_heights, strict=True):
        stock = board(p.bay + 2.0 * p.housing, p.inner_depth)
        shelf = piece.add(name + tag, stock, place((start - p.housing, 0.0, z)), *front_edge(p, "near"))
        stop = 12.0 if p.stopped else 0.0
        piece.join(dado(shelf, into=left, stopped=stop), dado(shelf, into=right, stopped=stop))
        shelves.append(shelf)
    at = place((start, 15.0 + p.thickness, 0.0), grain="right", face="front")
    plinth = piece.add("plinth" + tag, board(p.bay, p.base), at)
    # slots from both sides would meet inside an upright, so only the outer sides take biscuits
    for end, outer in ((left, n == 0), (right, n == p.bays - 1)):
        piece.join(biscuited(plinth, to=end) if outer else rests(plinth, on=end))
    piece.join(rests(shelves[0], on=plinth))
    return [*shelves, plinth]


def front_edge(p: Bookcase, edge: str) -> tuple[Cut, ...]:
    """The cut that finishes a front edge as the order asks; none for a square one."""
    if p.front_edge == "bead":
        return (Bead(edge=edge, radius=p.thickness / 6.0, quirk=1.5),)
    if p.front_edge == "ease":
        return (Ease(edge=edge, radius=2.0),)
    return (Chamfer(edge=edge, width=2.0),) if p.front_edge == "chamfer" else ()


def back_boards(piece: Piece, p: Bookcase, left: Placed, right: Placed) -> list[Placed]:
    """Upright boards, grooved and tongued by turns, from side to side behind the shelves."""
    x = p.thickness - p.rabbet
    total = p.width - 2.0 * x
    widths = back_widths(p, total)
    tongue = p.back_thickness / 2.0 - BOTTOM_ROOM
    last = len(widths) - 1
    boards: list[Placed] = []
    for n, width in enumerate(widths):
        odd = n % 2 == 1
        to_left, to_right = tongue * odd, tongue * (odd and n < last)
        length = p.top + p.thickness - p.base + 2.0 * p.back_lap
        stock = board(length, to_left + width + to_right, p.back_thickness)
        # grain up and face to the front puts the near edge on the right
        at = place((x + width + to_right, p.depth, p.base - p.back_lap), grain="up", face="front")
        boards.append(piece.add(f"back board {n + 1}", stock, at))
        x += width
    pairs = [(boards[n], boards[n + d]) for n in range(1, last + 1, 2) for d in (-1, 1) if n + d <= last]
    groove = p.back_thickness / 3.0
    thickness = min((fullest_tongue(a, b, groove) for a, b in pairs), default=None)
    for tongued, grooved in pairs:
        piece.join(tongue_and_groove(tongued, into=grooved, width=groove, tongue=thickness))
    for outer, side in ((boards[0], left), (boards[-1], right)):
        piece.join(between_shelves(rabbet(outer, into=side, nails=p.back_nail), p))
    return boards


def between_shelves(joint: Joint, p: Bookcase) -> Joint:
    """The rabbet's nails, those that would meet a shelf in its dado moved off it."""
    nails = joint.hardware
    for z in p.shelf_heights:
        low, high = z - NAIL_ROOM, z + p.thickness + NAIL_ROOM
        clear = low if z > p.base + SAME_POINT else high
        nails = tuple(replace(n, at=(*n.at[:2], clear)) if low < n.at[2] < high else n for n in nails)
    return replace(joint, hardware=nails)


def back_widths(p: Bookcase, total: float) -> list[float]:
    """The order's widths in turn, the last ripped to fit; or a random choice that fills the back."""
    if isinstance(p.back_widths, WidthRange):
        spec = p.back_widths
        return fill_straight_with_random(total, spec.low, spec.high, spec.seed, "in" if "in" in p.units else "mm")
    widths: list[float] = []
    for width in p.back_widths.widths:
        left = total - sum(widths)
        if left <= 0.0:
            break
        widths.append(min(width, left))
    short = total - sum(widths)
    if short > 1e-6:
        raise DesignError(
            f"[size] back_widths: the boards cover {p.show(sum(widths))} of a back {p.show(total)} wide; "
            f"add {p.show(short)} of board"
        )
    if widths[-1] < 40.0:
        raise DesignError(
            f"[size] back_widths: the last board would be ripped to {p.show(widths[-1])}; change the widths so that "
            f"{p.show(40.0)} or more is left for it"
        )
    return widths


def nail_backs(piece: Piece, p: Bookcase, backs: list[Placed], rows: list[list[Placed]]) -> None:
    """Each board to the bottom and the top behind which it stands, and to a shelf half way."""
    for back in backs:
        middle = back.at.point((0.0, back.wood.stock.width / 2.0, 0.0))[0]
        n = min(int(middle / (p.bay + p.thickness)), p.bays - 1)
        shelves = rows[n][:-1]
        for shelf in {s.name: s for s in (shelves[0], shelves[len(shelves) // 2], shelves[-1])}.values():
            inside = shelf.at.origin[0], shelf.at.origin[0] + shelf.wood.stock.length
            if inside[0] < middle < inside[1]:
                piece.join(nailed(back, to=shelf, penny=p.back_nail, count=1))
