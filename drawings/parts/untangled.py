"""Dimensions whose texts stand outside their lines, moved to the other end where they would strike another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drawings.paper.sheet import LinearDimension
from drawings.sheets.clear_room import Drawn


def untangled(dimensions: Sequence[LinearDimension]) -> list[LinearDimension]:
    """The same, each turned if that is the better place among the others."""
    found = list(dimensions)
    for n, here in enumerate(dimensions):
        room = Drawn([*found[:n], *found[n + 1 :]])
        if room.strikes(here):
            turned = replace(here, beside="start" if here.beside == "end" else "end")
            found[n] = min((here, turned), key=room.strikes)
    return found
