"""What printed numbers are held against that measure nothing by themselves: the piece, its order, its solids, and the
sheet that they stand on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.paper.measured import Measured
from drawings.proof.readings import Reading
from drawings.proof.witness import Witness
from model.hardware import Hardware
from model.joints.joint import Joint
from model.order import Order
from model.part import Part
from model.piece import Piece


@dataclass(frozen=True)
class Ground:
    """A piece with its order and its solids as witness."""

    piece: Piece
    order: Order
    witness: Witness

    @cached_property
    def brought(self) -> Mapping[str, int]:
        """The number of the step that is the first to name a part; none for parts that no step names."""
        found: dict[str, int] = {}
        for number, step in enumerate(self.piece.steps, 1):
            for name in step.parts:
                found.setdefault(name, number)
        return found

    @cached_property
    def made(self) -> Mapping[int, Sequence[Joint]]:
        """The joints by the step in which the later of their two parts comes in."""
        found: dict[int, list[Joint]] = {}
        for joint in self.piece.joints:
            if {joint.first, joint.second} <= self.brought.keys():
                found.setdefault(max(self.brought[joint.first], self.brought[joint.second]), []).append(joint)
        return found

    @cached_property
    def driven(self) -> Mapping[int, Sequence[Hardware]]:
        """The hardware by its step: a joint's when that closes, any other's when the last of its parts comes in."""
        of_joints = {id(h) for joint in self.piece.joints for h in joint.hardware}
        found = {number: [h for joint in joints for h in joint.hardware] for number, joints in self.made.items()}
        for item in self.piece.hardware:
            if id(item) not in of_joints and set(item.parts) <= self.brought.keys():
                last = max((self.brought[name] for name in item.parts), default=0)
                found.setdefault(last, []).append(item)
        return found

    @cached_property
    def names(self) -> frozenset[str]:
        """What has a name in the piece: parts, arcs and measures."""
        return frozenset((*self.piece.parts, *self.piece.arcs, *(m.what for m in self.piece.measures)))

    def wood(self, name: str) -> Part | None:
        """A part as stock and cuts; None for one given as a solid, or for no part's name."""
        placed = self.piece.parts.get(name)
        return placed.part if placed is not None and isinstance(placed.part, Part) else None

    def alike(self, name: str) -> list[str]:
        """The parts that are made as this one is, by name."""
        if name not in self.piece.parts:
            return []
        return [p.name for p in self.piece if p.part == self.piece[name].part]


@dataclass(frozen=True)
class OnSheet:
    """The ground, and the numbers measured as a whole on one sheet."""

    ground: Ground
    readings: Sequence[Reading]

    @cached_property
    def scaled(self) -> list[tuple[Measured, float]]:
        """What the sheet's dimensions measure, angles but for, each with model over paper where it is drawn."""
        return [(m, r.factor) for r in self.readings if r.factor for m in r.meanings if m.kind != "angle"]
