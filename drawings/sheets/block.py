"""A piece of a sheet that can be set down anywhere: a view with its dimensions, a table, a heading, notes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.moved import moved
from drawings.paper.sheet import Entity, Point
from drawings.sheets.clear_room import Box, box_of


@dataclass(frozen=True)
class Block:
    """`draw` gives the marks with the block's own origin at a point of the paper, mm."""

    draw: Callable[[Point], Sequence[Entity]]

    @cached_property
    def marks(self) -> Sequence[Entity]:
        """The marks with the block's own origin at the paper's."""
        return self.draw((0.0, 0.0))

    @cached_property
    def box(self) -> Box:
        """What it takes when its origin lies at the paper's: left, bottom, right, top, mm."""
        return box_of(self.marks)

    @property
    def width(self) -> float:
        return self.box[2] - self.box[0]

    @property
    def height(self) -> float:
        return self.box[3] - self.box[1]

    def hung(self, left: float, top: float) -> list[Entity]:
        """The marks with the upper left corner of their box at a point of the paper, mm."""
        dx, dy = left - self.box[0], top - self.box[3]
        return [moved(mark, dx, dy) for mark in self.marks]
