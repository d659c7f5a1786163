"""hardware.csv: what to buy to hold the piece together, how many, and where each goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drawings.lists.columns import Column, Speech, exact, lengths
from drawings.lists.distinct import in_short
from drawings.paper.saying import Saying, Says, counted, joined, named, number, say
from model.hardware import Hardware
from model.in_units import in_units
from model.piece import Piece

#: Common practice.
_NOTES = {
    "finish nail": "set the heads below the surface",
    "wood screw": "bore a pilot hole",
    "hinge screw": "pilot bored through the leaf, the hinge in its place",
    "plug": "same wood, its grain along the part's",
    "biscuit": "glued",
    "dowel": "glued; chamfer the ends",
    "peg": "straight-grained hardwood, driven and trimmed flush",
    "wedge": "hardwood, glued and driven, trimmed flush",
    "spline": "its grain across the joint",
    "key": "glued in after the corner, trimmed flush",
    "loose tongue": "its grain along its length, glued in both parts",
    "knob": "turned, screwed on from behind",
    "shelf pin": "pushed in by hand",
    "butt hinge": "let in flush",
    "lid stay": "with its screws",
    "continuous hinge": "cut to length",
}


@dataclass(frozen=True)
class HardwareLine:
    """All items of one kind and size."""

    items: tuple[Hardware, ...]

    @property
    def kind(self) -> str:
        return self.items[0].kind

    @property
    def size(self) -> str:
        return self.items[0].size

    @property
    def count(self) -> Saying:
        """How many of them, told as what it is a number of."""
        return counted(len(self.items), "bought", self.kind, self.size)

    def said_size(self, units: str) -> Saying:
        """The size in the order's units, whose numbers are told as those of what is bought."""
        return number(in_units(self.size, units), Says("label", (self.kind, self.size)))

    @property
    def where(self) -> Saying:
        """The parts it holds, with the number that goes there."""
        held: dict[tuple[str, ...], list[str]] = {}
        for item in self.items:
            held.setdefault(item.parts[1:], []).append(item.parts[0])
        return joined("; ", (self._there(firsts, rest) for rest, firsts in held.items()))

    def _there(self, firsts: Sequence[str], rest: Sequence[str]) -> Saying:
        once = dict.fromkeys(firsts)
        many = counted(len(firsts), "bought for", self.kind, self.size, *once, "|", *rest)
        return say("{}: {}", _together(firsts, rest), many)


def hardware_lines(piece: Piece) -> list[HardwareLine]:
    """A line for each kind and size, in alphabetical order, smaller sizes first."""
    alike: dict[tuple[str, float, str], list[Hardware]] = {}
    for item in piece.hardware:
        alike.setdefault((item.kind, round(item.length, 3), item.size), []).append(item)
    return [HardwareLine(tuple(items)) for _, items in sorted(alike.items())]


def hardware_columns(speech: Speech) -> list[Column]:
    """The columns of the hardware list; its lines are `HardwareLine`s."""
    return [
        Column("item", lambda line: line.kind),
        Column("size", lambda line: line.said_size(speech.units)),
        Column("quantity", lambda line: str(len(line.items))),
        lengths("length", _length, speech),
        Column("where used: how many", lambda line: line.where),
        Column("note", lambda line: _NOTES.get(line.kind, "")),
        exact("length", _length),
        exact("diameter or width", lambda line: line.items[0].diameter),
        exact("thickness", lambda line: line.items[0].thickness or None),
    ]


def _length(line: HardwareLine) -> float:
    return line.items[0].length


def _together(firsts: Sequence[str], rest: Sequence[str]) -> Saying:
    return joined(" with ", [in_short(firsts), *(named(name, name) for name in rest)])
