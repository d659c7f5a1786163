"""Where a straight line runs through a part's wood: exact, on the solid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.IntCurveSurface import IntCurveSurface_TransitionOnCurve as Transition
from OCP.TopoDS import TopoDS_Shape

from model.checks.solids.stood_solid import bounds_of
from model.cuts.faces import BiscuitSlot, Bore, Counterbore
from model.cuts.pockets import Pocket
from model.cuts.slots import SlottedHole
from model.part import GivenPart, Part
from model.piece import Piece
from model.placement import Placement, Vector
from model.solids import solid

#: From where on the line to where wood is, mm.
Stretch: TypeAlias = tuple[float, float]

Numbers: TypeAlias = NDArray[np.float64]

#: What is bored, slotted or plunged for the very things that are looked at.
HOLES = (Bore, Counterbore, SlottedHole, Pocket, BiscuitSlot)

#: Hits nearer to each other than this are one, mm.
_SAME = 1e-6


class Wood:
    """One solid in its own frame, ready to be asked many times."""

    def __init__(self, own: TopoDS_Shape) -> None:
        self.low, self.high = bounds_of(own)
        self._faces = IntCurvesFace_ShapeIntersector()
        self._faces.Load(own, _SAME)
        self._asked: dict[tuple[float, ...], tuple[Stretch, ...]] = {}

    def stretches(self, p: Vector, along: Vector, low: float, high: float) -> tuple[Stretch, ...]:
        """Where wood is on the line from `p` along the unit vector `along`, between `low` and `high` mm from `p`."""
        key = (*(round(c, 6) for c in p), *(round(c, 9) for c in along), low, high)
        if key not in self._asked:
            self._asked[key] = tuple(self._found(p, along, low, high))
        return self._asked[key]

    def _found(self, p: Vector, along: Vector, low: float, high: float) -> list[Stretch]:
        self._faces.Perform(gp_Lin(gp_Pnt(*p), gp_Dir(*along)), low, high)
        self._faces.SortResult()
        hits = [(self._faces.WParameter(n), self._faces.Transition(n)) for n in range(1, self._faces.NbPnt() + 1)]
        found: list[Stretch] = []
        entered = low if hits and _first(hits) == Transition.IntCurveSurface_Out else None
        for w, way in hits:
            if way == Transition.IntCurveSurface_In and entered is None:
                entered = w
            elif way == Transition.IntCurveSurface_Out and entered is not None:
                found.append((entered, w))
                entered = None
        if entered is not None:
            found.append((entered, high))
        return [(a, b) for a, b in found if b - a > _SAME]


def _first(hits: Sequence[tuple[float, Transition]]) -> Transition | None:
    return next((way for _, way in hits if way != Transition.IntCurveSurface_Tangent), None)


@dataclass(frozen=True)
class StoodWood:
    """A part's wood where it stands."""

    name: str
    wood: Wood
    at: Placement

    def stretches(self, p: Vector, along: Vector, low: float, high: float) -> tuple[Stretch, ...]:
        """As `Wood.stretches`, for a line of the piece."""
        return self.wood.stretches(self.at.own_point(p), self.at.own_direction(along), low, high)

    def near(self, starts: Numbers, along: Numbers, low: Numbers, high: Numbers, margin: float) -> NDArray[np.bool_]:
        """Which lines, (n, 3) floats of the piece, come within `margin` mm of the box that holds it, between `low` and
        `high` (n,) mm from their starts."""
        axes = np.array((self.at.x, self.at.y, self.at.z))
        p, d = (starts - np.array(self.at.origin)) @ axes.T, along @ axes.T
        with np.errstate(divide="ignore", invalid="ignore"):
            a = (np.array(self.wood.low) - margin - p) / d
            b = (np.array(self.wood.high) + margin - p) / d
        level = np.abs(d) < 1e-12
        inside = (p >= np.array(self.wood.low) - margin) & (p <= np.array(self.wood.high) + margin)
        enter = np.where(level, np.where(inside, -np.inf, np.inf), np.minimum(a, b)).max(axis=1)
        leave = np.where(level, np.where(inside, np.inf, -np.inf), np.maximum(a, b)).min(axis=1)
        kept: NDArray[np.bool_] = np.maximum(enter, low) <= np.minimum(leave, high)
        return kept


def stood_woods(piece: Piece, *, filled: bool) -> list[StoodWood]:
    """Every part's wood; `filled`: as if no hole had been bored in it. Raises DesignError if the cuts of a part leave
    no single valid solid."""
    made: dict[Any, Wood] = {}
    found = []
    for placed in piece:
        own = solid(unbored(placed.part) if filled else placed.part).wrapped
        geometry = own.TShape()
        if geometry not in made:
            made[geometry] = Wood(own)
        found.append(StoodWood(placed.name, made[geometry], placed.at))
    return found


def unbored(part: Part | GivenPart) -> Part | GivenPart:
    """The part without the holes and slots for what holds it."""
    if isinstance(part, GivenPart) or not any(isinstance(c, HOLES) for c in part.cuts):
        return part
    return replace(part, cuts=tuple(c for c in part.cuts if not isinstance(c, HOLES)))
