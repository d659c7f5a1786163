"""What a made piece is held to: valid solids, a clean dry fit, lefts and rights that mirror each other."""

from __future__ import annotations

from typing import Any

from model.checks.dry_fit import dry_fit
from model.checks.finding import Finding
from model.piece import Piece
from model.solids import standing
from tests.model.joints.witness import assert_mirror_images

#: How many clamps and minutes a glue-up takes, what the machines can do, and how wide the door is, is not the design's.
NOT_THE_DESIGNS = ("glue-up", "shop", "way in", "accuracy")


def assert_sound(piece: Piece) -> None:
    """It fits without a caution, and every right is the mirror image of its left, where both have as many cuts: only
    one side has the hinges of a door."""
    assert [f.message for f in _found(piece) if f.severity == "caution"] == [], piece.parameters
    for placed in piece:
        if placed.mirror_of and len(piece[placed.mirror_of].wood.cuts) == len(placed.wood.cuts):
            assert_mirror_images(piece[placed.mirror_of], placed)


def assert_fits(piece: Piece) -> None:
    """One valid solid a part, and no fault; sizes at the end of a range may well deserve a caution."""
    _found(piece)


def _found(piece: Piece) -> list[Finding]:
    shapes = standing(piece)
    for name, shape in shapes.items():
        assert shape.isValid(), name
        assert len(shape.Solids()) == 1, name
    found = [f for f in dry_fit(piece, shapes).findings if f.check not in NOT_THE_DESIGNS]
    assert [f.message for f in found if f.severity == "fault"] == [], piece.parameters
    return found


def extent(shapes: dict[str, Any]) -> tuple[float, float, float]:
    """Width, depth and height over all."""
    boxes = [shape.BoundingBox() for shape in shapes.values()]
    return tuple(max(getattr(b, f"{a}max") for b in boxes) - min(getattr(b, f"{a}min") for b in boxes) for a in "xyz")  # type: ignore[return-value]
