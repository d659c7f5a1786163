"""Pieces with a fault planted in them: the same joints, one part moved or made otherwise."""

from __future__ import annotations

import copy
import random
from dataclasses import replace
from functools import cache
from typing import Any

import cadquery as cq

from model.order import read_order
from model.piece import Piece, Placed, Step
from model.pieces import design
from model.placement import Placement
from model.solids import placed, solid
from model.way_home import Leg, Push, Tip

BENCH, BOOKCASE = "refuge-bench", "refuge-bookcase"
EXAMPLES = (BENCH, BOOKCASE, "refuge-chest", "refuge-cupboard", "refuge-stool", "refuge-table")


@cache
def sound(name: str) -> Piece:
    """The shipped example; never changed by a test."""
    order = read_order(name)
    drawn = design(order.piece)
    return drawn.make(order.parameters(drawn.parameters))


def shapes(piece: Piece) -> dict[str, cq.Shape]:
    return {p.name: placed(solid(p.part), p.at) for p in piece}


def changed(piece: Piece, name: str, **changes: Any) -> Piece:
    """The piece with one part's placement or cuts changed after its joints were made."""
    other = copy.copy(piece)
    other.parts = {**piece.parts, name: replace(piece[name], **changes)}
    return other


def moved(piece: Piece, name: str, dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Piece:
    return changed(piece, name, at=piece[name].at.moved(dx, dy, dz))


def longer(piece: Piece, name: str, by: float) -> Piece:
    """A part made longer at its right end, its cuts left alone."""
    part = piece[name].wood
    return changed(piece, name, part=replace(part, stock=replace(part.stock, length=part.stock.length + by)))


def shuffled(piece: Piece, seed: int) -> Piece:
    other = copy.copy(piece)
    names = list(piece.parts)
    random.Random(seed).shuffle(names)
    other.parts = {n: piece[n] for n in names}
    other.joints = random.Random(seed).sample(piece.joints, len(piece.joints))
    return other


def carried(piece: Piece, motion: Placement) -> Piece:
    """The whole piece, joints and all, carried rigidly elsewhere."""
    other = copy.copy(piece)
    other.parts = {p.name: Placed(p.name, p.part, motion @ p.at, p.mirror_of) for p in piece}
    other.joints = [
        replace(
            j,
            closes=motion.direction(j.closes),
            contacts=tuple(
                replace(c, points=tuple(map(motion.point, c.points)), toward=motion.direction(c.toward))
                for c in j.contacts
            ),
        )
        for j in piece.joints
    ]
    other.steps = [replace(s, way=tuple(_leg_carried(leg, motion) for leg in s.way)) for s in piece.steps]
    other.swings = [replace(s, pin=motion.point(s.pin), along=motion.direction(s.along)) for s in piece.swings]
    other.slides = [replace(s, along=motion.direction(s.along)) for s in piece.slides]
    return other


def _leg_carried(leg: Leg, motion: Placement) -> Leg:
    along = motion.direction(leg.along)
    return replace(leg, along=along) if isinstance(leg, Push) else Tip(leg.angle, motion.point(leg.pin), along)


def in_steps(piece: Piece, *steps: tuple[str, ...]) -> Piece:
    """The piece put together in other steps; what none of them names comes in the first."""
    other = copy.copy(piece)
    named = {n for step in steps for n in step}
    first = tuple(n for s in piece.steps for n in s.parts if n not in named)
    other.steps = [Step(f"step {n}", parts) for n, parts in enumerate((first, *steps), 1) if parts]
    return other


def later(piece: Piece, name: str, after: int) -> Piece:
    """The piece with one part brought in by a step of its own, after step number `after`, 0 for the very first."""
    other = copy.copy(piece)
    steps = [replace(s, parts=tuple(n for n in s.parts if n != name)) for s in piece.steps]
    other.steps = [*steps[:after], Step(f"Bring in {name}", (name,)), *steps[after:]]
    return other


def accused(answer: Any) -> set[str]:
    """Parts named by any finding."""
    return {name for f in answer.findings for name in f.parts}


def mirrored(piece: Piece) -> Piece:
    """The whole piece, joints and all, mirrored left for right; every part keeps its name."""

    def flipped(v: Any) -> Any:
        return (-v[0], v[1], v[2])

    def cuts(name: str, some: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(c.mirrored(piece[name].wood.blank) for c in some)

    other = copy.copy(piece)
    other.parts = {p.name: Placed(p.name, p.wood.mirrored(), p.at.mirrored(p.wood.stock.width)) for p in piece}
    other.joints = [
        replace(
            j,
            closes=flipped(j.closes),
            contacts=tuple(
                replace(c, points=tuple(map(flipped, c.points)), toward=flipped(c.toward)) for c in j.contacts
            ),
            first_cuts=cuts(j.first, j.first_cuts),
            second_cuts=cuts(j.second, j.second_cuts),
            hardware=tuple(replace(h, at=flipped(h.at), direction=flipped(h.direction)) for h in j.hardware),
        )
        for j in piece.joints
    ]
    other.swings = [replace(s, pin=flipped(s.pin), along=flipped(s.along), opens=-s.opens) for s in piece.swings]
    other.slides = [replace(s, along=flipped(s.along)) for s in piece.slides]
    return other
