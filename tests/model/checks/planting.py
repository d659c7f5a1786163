"""How to plant a fault in a piece that fits, and the small pieces that there are for it besides the examples."""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from model.cuts.cut import Cut
from model.cuts.edges import Tongue
from model.cuts.sawn import SawCut
from model.joints.hinged import butt_hinges
from model.order_sections import Place, Shop
from model.parameters import Parameters
from model.piece import Apart, Piece, Step
from model.placement import Vector, added, place
from model.stock import board
from tests.model.checks.planted import changed, later, longer, moved, sound
from tests.model.checks.test_moving import chest, drawer_case, with_block

BOOKCASE, STOOL, TABLE = (f"refuge-{name}" for name in ("bookcase", "stool", "table"))
DRAWER, LID, DOOR = "case with a drawer", "box with a lid", "door on a post"

#: Every part is named.
ALL = "all"

#: What the case with a drawer asks for: its sides are wide, and all of it is glued up in one step.
LARGE = Shop(planer_width=450.0, open_time=30.0, clamps=40.0)


@cache
def faultless(name: str) -> Piece:
    """A shipped example, or one of three small pieces; never changed by a test."""
    small = {DRAWER: drawer_case, LID: chest, DOOR: door_on_a_post}
    return with_step(small[name]()) if name in small else sound(name)


def door_on_a_post() -> Piece:
    """In one plane, the post to the left, its hinges' knuckles in front."""
    piece = Piece("door", Parameters())
    post = piece.add("post", board(400.0, 60.0), place((60.0, 19.0, 0.0), grain="up", face="front"))
    door = piece.add("door", board(380.0, 240.0), place((301.0, 19.0, 10.0), grain="up", face="front"))
    hinges = butt_hinges(door, post)
    piece.join(hinges)
    piece.swing(door, *hinges.swing)
    return piece


def with_step(piece: Piece) -> Piece:
    """All its parts brought in by one step."""
    piece.step("Put it together", *piece)
    return piece


@dataclass(frozen=True)
class Fault:
    """What is wrong with which example, the check that must find it, and all the parts that must be named for it,
    none but they; ALL for every part.

    also: other checks that rightly complain of the same thing, such as the joints of a part that stands wrong. shop,
    at: where not the usual ones.
    """

    check: str
    example: str
    what: str
    planted: Callable[[Piece], Piece]
    accused: str
    also: str = ""
    shop: Shop | None = None
    at: Place | None = None

    @property
    def piece(self) -> Piece:
        return self.planted(faultless(self.example))

    @property
    def named(self) -> set[str]:
        """The parts that must be named."""
        return set(self.piece.parts) if self.accused == ALL else set(self.accused.split(", "))

    @property
    def checks(self) -> set[str]:
        """All that complain."""
        return {self.check, *filter(None, self.also.split(", "))}


def as_drawn(piece: Piece) -> Piece:
    """Nothing wrong with the piece itself."""
    return piece


def move(part: str, *by: float) -> Callable[[Piece], Piece]:
    return lambda piece: moved(piece, part, *by)


def lengthen(part: str, by: float) -> Callable[[Piece], Piece]:
    return lambda piece: longer(piece, part, by)


def cut(part: str, *cuts: Cut) -> Callable[[Piece], Piece]:
    """Cut once more."""
    return lambda piece: changed(piece, part, part=piece[part].wood.cut(*cuts))


def recut(part: str, kind: type[Cut], **sizes: float) -> Callable[[Piece], Piece]:
    """The first cut of a kind made with other sizes; none at all where no size is given."""

    def planted(piece: Piece) -> Piece:
        wood = piece[part].wood
        wrong = next(c for c in wood.cuts if isinstance(c, kind))
        made = (replace(wrong, **sizes),) if sizes else ()
        cuts = (c for each in wood.cuts for c in (made if each is wrong else (each,)))
        return changed(piece, part, part=replace(wood, cuts=tuple(cuts)))

    return planted


def drive(kind: str, *parts: str, by: Vector = (0.0, 0.0, 0.0), **sizes: float) -> Callable[[Piece], Piece]:
    """The first item of a kind that holds just these parts, moved, or made with other sizes."""

    def planted(piece: Piece) -> Piece:
        number = next(n for n, h in enumerate(piece.hardware) if h.parts == parts and h.kind == kind)
        item = piece.hardware[number]
        other = copy.copy(piece)
        other.hardware = [*piece.hardware]
        other.hardware[number] = replace(item, at=added(item.at, by), **sizes)
        return other

    return planted


def unjoined(part: str, *others: str) -> Callable[[Piece], Piece]:
    """Its joints forgotten: those with some others, or all; its fasteners there with them."""

    def between(names: tuple[str, ...]) -> bool:
        return part in names and (not others or any(o in names for o in others))

    def planted(piece: Piece) -> Piece:
        other = copy.copy(piece)
        other.joints = [j for j in piece.joints if not between((j.first, j.second))]
        other.hardware = [h for h in piece.hardware if not between(h.parts)]
        return other

    return planted


def keep_apart(first: str, second: str, gap: float) -> Callable[[Piece], Piece]:
    def planted(piece: Piece) -> Piece:
        other = copy.copy(piece)
        other.apart = [*piece.apart, Apart(first, second, gap)]
        return other

    return planted


def hang(*by: float, **changes: Any) -> Callable[[Piece], Piece]:
    """The pin of all that swings moved, or the swing otherwise."""

    def planted(piece: Piece) -> Piece:
        other = copy.copy(piece)
        other.swings = [replace(s, pin=added(s.pin, by or (0.0, 0.0, 0.0)), **changes) for s in piece.swings]
        return other

    return planted


def off_the_edge(part: str, by: float) -> Callable[[Piece], Piece]:
    """So much sawn off the edge that has the tongue, along all of it."""

    def planted(piece: Piece) -> Piece:
        wood = piece[part].wood
        near = any(isinstance(c, Tongue) and c.edge == "near" for c in wood.cuts)
        sawn = SawCut((0.0, by if near else wood.stock.width - by, 0.0), (0.0, -1.0 if near else 1.0, 0.0))
        return changed(piece, part, part=replace(wood, cuts=(*wood.cuts, sawn)))

    return planted


def tighten(first: str, second: str, kind: type[Cut], **sizes: float) -> Callable[[Piece], Piece]:
    """What one joint cuts in its second part drawn with other sizes, by so much more."""

    def made(cut: Cut) -> Cut:
        if not isinstance(cut, kind):
            return cut
        return replace(cut, **{name: getattr(cut, name) + by for name, by in sizes.items()})

    def planted(piece: Piece) -> Piece:
        other = copy.copy(piece)
        other.joints = [
            replace(j, second_cuts=tuple(map(made, j.second_cuts))) if (j.first, j.second) == (first, second) else j
            for j in piece.joints
        ]
        return other

    return planted


def bring(part: str, after: int) -> Callable[[Piece], Piece]:
    """In a step of its own, after so many others."""
    return lambda piece: later(piece, part, after)


def put(at: Vector, size: Vector) -> Callable[[Piece], Piece]:
    """A block set where it is in the way."""

    def planted(piece: Piece) -> Piece:
        other = with_block(piece, at, size)
        other.steps = [*piece.steps, Step("Set the block there", ("block",))]
        return other

    return planted


def slide(opens: float) -> Callable[[Piece], Piece]:
    def planted(piece: Piece) -> Piece:
        other = copy.copy(piece)
        other.slides = [replace(s, opens=opens) for s in piece.slides]
        return other

    return planted


def twice(kind: str, *parts: str, by: Vector) -> Callable[[Piece], Piece]:
    """The first item of a kind that holds just these parts driven once more, so far beside."""

    def planted(piece: Piece) -> Piece:
        item = next(h for h in piece.hardware if h.parts == parts and h.kind == kind)
        other = copy.copy(piece)
        other.hardware = [*piece.hardware, replace(item, at=added(item.at, by))]
        return other

    return planted
