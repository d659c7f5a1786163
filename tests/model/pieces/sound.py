"""What a design is held to over its whole range: most orders made, the rest refused plainly, built ones sound."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from model.checks.dry_fit import dry_fit
from model.errors import DesignError, DryfitError
from model.piece import Piece
from model.solids import standing
from tests.model.joints.witness import assert_mirror_images
from tests.model.pieces.test_random_orders import REMEDIES, order

#: Random orders of a design, and which of those that can be made are built solid.
ORDERS, EVERY = 60, 12
#: How many clamps and minutes a glue-up takes, what the machines can do, and how wide the door is, is not the design's.
NOT_THE_DESIGNS = ("glue-up", "shop", "way in", "accuracy")


@cache
def orders(name: str) -> tuple[Any, ...]:
    """The pieces of random orders over a design's whole range, or the errors they are refused with."""
    return tuple(order(name, seed) for seed in range(1000, 1000 + ORDERS))


def made(name: str) -> list[Piece]:
    return [o for o in orders(name) if not isinstance(o, DryfitError)]


def assert_most_are_made_and_the_rest_refused_plainly(name: str) -> None:
    assert len(made(name)) >= ORDERS / 2
    for refusal in (o for o in orders(name) if isinstance(o, DryfitError)):
        assert isinstance(refusal, DesignError)
        assert re.search(rf"\b({REMEDIES})\b", str(refusal)), refusal


def assert_some_are_sound(name: str) -> None:
    for piece in made(name)[::EVERY]:
        assert_sound(piece)


def assert_sound(piece: Piece) -> None:
    """Valid solids, a dry fit without fault or caution, and every right the mirror image of its left, where both have
    as many cuts: only one side has the hinges of a door."""
    shapes = standing(piece)
    assert all(shape.isValid() and shape.Volume() > 0.0 for shape in shapes.values())
    answer = dry_fit(piece, shapes, least_wood=3.0)
    grave = [f for f in answer.findings if f.severity != "note" and f.check not in NOT_THE_DESIGNS]
    assert grave == [], piece.parameters
    for placed in piece:
        if placed.mirror_of and len(piece[placed.mirror_of].wood.cuts) == len(placed.wood.cuts):
            assert_mirror_images(piece[placed.mirror_of], placed)


def extent(shapes: dict[str, Any]) -> tuple[float, float, float]:
    """Width, depth and height over all."""
    boxes = [shape.BoundingBox() for shape in shapes.values()]
    return tuple(max(getattr(b, f"{a}max") for b in boxes) - min(getattr(b, f"{a}min") for b in boxes) for a in "xyz")  # type: ignore[return-value]
