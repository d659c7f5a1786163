"""Can hammer or driver reach each fastener when its step comes?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from model.checks.fastening.lines import FastenerLine, Passage
from model.checks.fastening.seat import Wrong
from model.checks.solids.wood_along import StoodWood
from model.piece import Piece
from model.placement import added, scaled

REACHED = "common practice: room for a driver or a nail set in line; [shop] driver_room of the order"

#: Half the width of what must get at the head, mm (common practice: a nail set or a driver's chuck).
TOOL = 6.0

#: Nearer to the head than this nothing is in its way, mm.
_CLEAR_OF_HEAD = 0.5


def reached(piece: Piece, found: Sequence[Passage], woods: Sequence[StoodWood], room: float) -> Iterator[Wrong]:
    """Faults for heads with less than `room` mm clear in line with them when their last part has come on.

    woods: of every part, with its holes. Parts stand in the order their steps name them; those named later don't
    count, nor does the floor: a piece can be turned over.
    """
    struck = [p.line for p in found if p.struck]
    if not struck:
        return
    stands = _turns(piece)
    when = np.array([max(stands[name] for name in f.item.parts) for f in struck])
    starts, back = np.array([f.start for f in struck]), np.array([scaled(f.along, -1.0) for f in struck])
    low, high = np.full(len(struck), _CLEAR_OF_HEAD), np.full(len(struck), room)
    nearest: dict[int, tuple[float, str]] = {}
    for stood in woods:
        near = stood.near(starts, back, low, high, TOOL) & (when >= stands[stood.name])
        for n in np.flatnonzero(near).tolist():
            met = _met(struck[n], stood, room)
            if met < nearest.get(n, (room, ""))[0]:
                nearest[n] = (met, stood.name)
    for n, (met, name) in sorted(nearest.items()):
        says = (
            f"can't be reached: {name} stands in line with it, {met:.0f} mm from its head; drive it before that is on"
        )
        yield Wrong(struck[n].item, "fault", says, met, room, REACHED, struck[n].start, (name,))


def _met(f: FastenerLine, stood: StoodWood, room: float) -> float:
    """How far back from the head the tool meets a part, mm. Through a part it holds, only the middle line must be
    clear: a bit is narrow, and so is the way down to a sunk head."""
    starts = [f.start]
    if stood.name not in f.item.parts:
        starts += [added(f.start, scaled(out, TOOL)) for out in f.round_about]
    back = scaled(f.along, -1.0)
    return min((s[0] for p in starts for s in stood.stretches(p, back, _CLEAR_OF_HEAD, room)), default=math.inf)


def _turns(piece: Piece) -> dict[str, int]:
    """When each part comes on: its turn among all, in the order of the steps; unnamed ones come last."""
    named = [name for step in piece.steps for name in step.parts]
    turns: dict[str, int] = {}
    for n, name in enumerate(named):
        turns.setdefault(name, n)
    return {p.name: turns.get(p.name, len(named)) for p in piece}
