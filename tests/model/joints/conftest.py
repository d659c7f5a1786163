"""Two sides and what stands between them, at any toe-in: the bench on which joints are tried."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest

from model.layout.outline import ring_sector
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import place, scaled
from model.solids import standing
from model.stock import board, panel


@dataclass
class Bench:
    """A piece with a left and a right side on radial lines, toed in by an angle each."""

    piece: Piece
    left: Placed
    right: Placed
    inner: float
    outer: float
    toe: float

    def member(self, name: str, height: float, run_in: float = 0.0) -> Placed:
        """A concentric board between the sides, running `run_in` mm into each."""
        shape = ring_sector(self.inner, self.outer, self.toe, run_in, (0.0, -self.inner))
        return self.piece.lay(name, shape, height)


@pytest.fixture
def toed() -> Callable[..., Bench]:
    """Makes a bench of two sides, `toe` degrees from square each, `depth` deep, on an arc of `radius`."""

    def make(toe: float, radius: float = 2000.0, depth: float = 250.0, thickness: float = 19.0) -> Bench:
        piece = Piece("bench", Parameters(thickness=thickness))
        start = place((-thickness, radius - (radius - depth) + 10.0, 0.0), grain="up", face="right")
        at = start.swung(toe, about=(0.0, -(radius - depth)))
        left, right = piece.pair("side", panel(500.0, depth + 20.0), at)
        return Bench(piece, left, right, radius - depth, radius, toe)

    return make


@pytest.fixture
def sound(
    overlaps: Callable[[Any], list[tuple[str, str, float]]], loose_contacts: Callable[[Any, Any], list[str]]
) -> Callable[[Piece], dict[str, Any]]:
    """Builds a piece and finds its joints sound: no overlap, and every contact on both parts. Returns the solids."""

    def check(piece: Piece) -> dict[str, Any]:
        shapes = standing(piece)
        assert all(shape.isValid() for shape in shapes.values())
        assert overlaps(shapes) == []
        assert loose_contacts(piece, shapes) == []
        return shapes

    return check


@pytest.fixture
def comes_apart(
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
) -> Callable[[Piece, dict[str, Any], int], None]:
    """Draws a joint's first part back the way it came and finds it free at every station."""

    def check(piece: Piece, shapes: dict[str, Any], joint: int = 0) -> None:
        j = piece.joints[joint]
        for travel in (0.5, 2.0, 5.0, 20.0):
            back = scaled(j.closes, -travel)
            drawn = {j.first: shapes[j.first].translate(back), j.second: shapes[j.second]}
            assert overlaps(drawn) == [], f"{j.kind} binds {travel} mm out"
        # and it binds if driven on, unless the two only lie beside each other
        driven = {j.first: shapes[j.first].translate(scaled(j.closes, 2.0)), j.second: shapes[j.second]}
        assert overlaps(driven) != [], f"{j.kind} stops nothing"

    return check


@pytest.fixture
def mirror_images() -> Callable[[Any, Any, float], None]:
    """Finds two solids to be mirror images in the plane x = middle: volume, centroid and moments of inertia."""

    def check(left: Any, right: Any, middle: float = 0.0) -> None:
        (x, y, z), there = left.Center().toTuple(), right.Center().toTuple()
        assert right.Volume() == pytest.approx(left.Volume(), rel=1e-6)
        assert there == pytest.approx((2 * middle - x, y, z), abs=1e-4)
        one, other = left.matrixOfInertia(left), right.matrixOfInertia(right)
        size = math.sqrt(sum(c * c for row in one for c in row))
        for i in range(3):
            for k in range(3):
                sign = -1.0 if (i == 0) != (k == 0) else 1.0
                assert other[i][k] == pytest.approx(sign * one[i][k], abs=1e-5 * size)

    return check


@pytest.fixture
def shelf_on_side() -> Callable[..., tuple[Piece, Placed, Placed]]:
    """A piece with an upright side and a level shelf that runs `into` it, square."""

    def make(into: float, width: float = 200.0, thickness: float = 19.0) -> tuple[Piece, Placed, Placed]:
        piece = Piece("shelf", Parameters(thickness=thickness))
        side = piece.add("side", board(600.0, 220.0), place((-thickness, 220.0, 0.0), grain="up", face="right"))
        shelf = piece.add("shelf", board(400.0, width), place((-into, 10.0, 300.0)))
        return piece, side, shelf

    return make
