"""A frame with panels floating in it: a door, a lid, a side.

The stiles run through; the rails are tenoned between them, haunched at the ends, where they fill the panels' groove
(Noyes, Handwork in Wood, 1910, No. 42).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from model.cuts.moulding import fielded
from model.errors import DesignError
from model.joints.edge import PLAY
from model.joints.joint import clean
from model.joints.mortise import mortise_and_tenon
from model.joints.panel import ROOM_ACROSS, ROOM_ALONG, floats, panel_tongue
from model.piece import WIDEST_BOARD, Piece, Placed
from model.placement import Placement, Vector, place
from model.stock import Stock, board, panel

#: How far a tenon goes into a stile, as a share of that stile's width (Noyes, No. 42: two thirds at the most).
TENON = 0.6
#: The least depth of the groove, mm, so that a shrunken panel still holds (common practice: 1/4 in).
LEAST_GROOVE = 6.0
#: A raised panel's bevel: this share of the narrower way across the opening, and the widest, mm (common practice).
BEVEL, WIDEST_BEVEL = 0.16, 45.0
#: The least way across a panel, mm, that is worth a frame (common practice).
LEAST_OPENING = 60.0

#: What the lower and the higher of two members are called, by the direction in which they lie apart.
_SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))


@dataclass(frozen=True)
class Framed:
    """A frame and its panels, placed and joined; `stiles` and `rails` from the frame's own corner on."""

    stiles: tuple[Placed, Placed]
    rails: tuple[Placed, ...]
    panels: tuple[Placed, ...]

    @property
    def parts(self) -> tuple[Placed, ...]:
        return (*self.stiles, *self.rails, *self.panels)


@dataclass(frozen=True)
class Frame:
    """What a frame is to be, mm: `length` along its stiles, which run through, `width` across; how wide the stiles and
    the rails between them are, the first of which may be wider (`foot`); how many panels, raised or flat.

    words: what stiles, rails and the rails between two panels are called.
    """

    length: float
    width: float
    stile: float
    rail: float
    foot: float | None = None
    panels: int = 1
    raised: bool = True
    words: tuple[str, str, str] = ("stile", "rail", "middle rail")

    @property
    def bays(self) -> list[tuple[float, float]]:
        """Where each opening begins and ends along the frame."""
        start = self.rail if self.foot is None else self.foot
        step = (self.length - start - self.panels * self.rail) / self.panels
        return [(start + n * (step + self.rail), start + n * (step + self.rail) + step) for n in range(self.panels)]

    def check(self, name: str) -> None:
        """Raises DesignError if its members leave too little for panels; name: of the whole, for the message."""
        across, along = self.width - 2.0 * self.stile, self.bays[0][1] - self.bays[0][0]
        if min(across, along) < LEAST_OPENING:
            raise DesignError(
                f"{name}: the frame leaves panels {max(across, 0.0):.0f} by {max(along, 0.0):.0f} mm; "
                f"{LEAST_OPENING:g} mm is the least, so make the frame narrower, or fewer panels"
            )


def frame_and_panel(piece: Piece, name: str, frame: Frame, at: Placement) -> Framed:
    """Adds a frame with floating panels to `piece` and joins its parts; `at`: of its near left corner's back, own x
    along the stiles. All stock is the order's thickness, and a raised panel's field flush with the frame.

    Raises DesignError for a frame too wide for its size, or a panel that can't be held.
    """
    frame.check(name)
    stiles = _stiles(piece, name, frame, at)
    rails = _rails(piece, name, frame, at)
    groove = groove_depth(piece.parameters.thickness)
    ends, between = (rails[0], rails[-1]), rails[1:-1]
    piece.join(*(mortise_and_tenon(rail, into=stile, haunch=groove) for rail in ends for stile in stiles))
    piece.join(*(mortise_and_tenon(rail, into=stile, shoulders=groove) for rail in between for stile in stiles))
    panels = tuple(_panel(piece, name, frame, at, n) for n in range(frame.panels))
    for n, (low, high) in enumerate(pairwise(rails)):
        piece.join(*(floats(panels[n], into=member, through=True) for member in (low, high)))
    for stile in stiles:
        first, *others = (floats(floating, into=stile, through=True) for floating in panels)
        piece.join(first, *(replace(other, second_cuts=()) for other in others))  # one groove serves them all
    return Framed(stiles, rails, panels)


def groove_depth(thickness: float) -> float:
    """Of the groove in frame stock that thick, mm: a third of it, but never less than holds a panel."""
    return max(thickness / 3.0, LEAST_GROOVE)


def _stiles(piece: Piece, name: str, frame: Frame, at: Placement) -> tuple[Placed, Placed]:
    stock = board(frame.length, frame.stile)
    near, far = (Placement(at.point((0.0, y, 0.0)), at.x, at.y, at.z) for y in (0.0, frame.width - frame.stile))
    return _two(piece, f"{name} {frame.words[0]}", stock, near, far, at.y)


def _rails(piece: Piece, name: str, frame: Frame, at: Placement) -> tuple[Placed, ...]:
    """The first and the last one, and those between; grain across the frame, near edge toward its far end."""
    tenon = clean(TENON * frame.stile)
    start, length = frame.stile - tenon, frame.width - 2.0 * (frame.stile - tenon)

    def stands(end: float) -> Placement:
        return place(at.point((end, start, 0.0)), grain=at.y, face=at.z)

    first, last = frame.bays[0][0], frame.length
    word, between = (f"{name} {w}" for w in frame.words[1:])
    middle = [
        piece.add(f"{between} {n}" if frame.panels > 2 else between, board(length, frame.rail), stands(bay[0]))
        for n, bay in enumerate(frame.bays[1:], 1)
    ]
    if frame.foot in (None, frame.rail):
        ends = _two(piece, word, board(length, frame.rail), stands(first), stands(last), at.x)
        return (ends[0], *middle, ends[1])
    low, high = _words(at.x)
    foot = piece.add(f"{low} {word}", board(length, first), stands(first))
    return (foot, *middle, piece.add(f"{high} {word}", board(length, frame.rail), stands(last)))


def _two(piece: Piece, name: str, stock: Stock, a: Placement, b: Placement, apart: Vector) -> tuple[Placed, Placed]:
    """Two members of one size, `apart` that way; a left and a right are made as a pair."""
    if abs(apart[0]) < 0.5:
        low, high = _words(apart)
        return piece.add(f"{low} {name}", stock, a), piece.add(f"{high} {name}", stock, b)
    left, right = (a, b) if apart[0] > 0.0 else (b, a)
    corner = right.point((stock.length, stock.width, 0.0))
    pair = piece.pair(name, stock, left, middle=(left.origin[0] + corner[0]) / 2.0)
    return pair if apart[0] > 0.0 else (pair[1], pair[0])


def _words(apart: Vector) -> tuple[str, str]:
    axis = max(range(3), key=lambda i: abs(apart[i]))
    low, high = _SIDES[axis]
    return (low, high) if apart[axis] > 0.0 else (high, low)


def _panel(piece: Piece, name: str, frame: Frame, at: Placement, n: int) -> Placed:
    """Its grain along the frame; in its groove as deep as leaves the room to move."""
    thickness = piece.parameters.thickness
    groove, tongue = groove_depth(thickness), panel_tongue(thickness)
    across, along = groove - ROOM_ACROSS, groove - ROOM_ALONG
    low, high = frame.bays[n]
    rise = thickness / 3.0 + PLAY / 2.0
    length, width = clean(high - low + 2.0 * along), clean(frame.width - 2.0 * frame.stile + 2.0 * across)
    thick = clean(thickness - rise if frame.raised else tongue)
    origin = at.point((low - along, frame.stile - across, rise))
    make = panel if width > WIDEST_BOARD else board
    word = f"{name} panel {n + 1}" if frame.panels > 1 else f"{name} panel"
    made = piece.add(word, make(length, width, thick), Placement(origin, at.x, at.y, at.z))
    if frame.raised:
        bevel = clean(min(WIDEST_BEVEL, BEVEL * min(length, width)) + groove)
        made.cut(*fielded(thick, tongue, bevel, flat=groove))
    return made
