"""Pieces with a fault planted in them: the same joints, one part moved or made otherwise."""

from __future__ import annotations

import copy
from dataclasses import replace
from functools import cache
from typing import Any

import cadquery as cq

from model.order import read_order
from model.piece import Piece, Step
from model.pieces import design
from model.solids import placed, solid

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
