"""What opens in the preview, and which way: lids, doors and leaves that turn, drawers that slide."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from drawings.preview.scene import hardware_shown
from model.checks.moving import slides, turns
from model.piece import Piece


def openings(piece: Piece) -> list[dict[str, Any]]:
    """Each with the names of all that goes along, as the scene has them, and how it moves: `opens` degrees about the
    line through `pin` along `along`, or, where there is no pin, `opens` mm along it; mm, Z up."""
    turning = (_opening(piece, t.parts, t.swing.along, t.swing.opens) | {"pin": t.swing.pin} for t in turns(piece))
    sliding = (_opening(piece, parts, slide.along, slide.opens) for slide, parts in slides(piece))
    return [*turning, *sliding]


def _opening(piece: Piece, parts: Sequence[str], along: Sequence[float], opens: float) -> dict[str, Any]:
    with_them = [name for name, item in hardware_shown(piece) if set(item.parts) <= set(parts)]
    return {"parts": [*parts, *with_them], "along": along, "opens": opens}
