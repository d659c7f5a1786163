"""From where a step of assembly is seen best: standpoints of someone walking round the piece, and the one chosen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from drawings.views.curves import PICTORIAL, ViewSpec, looking
from drawings.views.foremost import Foremost, even_grid

_X, _Y, _Z = PICTORIAL.direction
#: The usual one first; names are told beside the picture.
STANDPOINTS: dict[str, ViewSpec] = {
    "": PICTORIAL,
    "from the left": looking("left pictorial", (-_X, _Y, _Z)),
    "from behind, on the right": looking("right back pictorial", (_X, -_Y, _Z)),
    "from behind, on the left": looking("left back pictorial", (-_X, -_Y, _Z)),
}
#: Places looked at along the longer side of a view; another standpoint than the usual must show so much more, and of
#: those that show all but as much as the best the first is taken, so that the eye moves no more than it must (ours).
_PLACES, _BETTER, _AS_GOOD = 110, 1.25, 0.95


def standpoints(looks: Mapping[str, Foremost], counts: Sequence[int]) -> list[str]:
    """At each stage of a piece that grows, the name of the standpoint from which most is seen of the new things, each
    of them counting by the root of its area so that none is lost behind a large one; the usual one unless another is
    clearly better.

    looks: from each standpoint, the usual one first, all things in the order they come; counts: how many are there at
    each stage.
    """
    worth = {name: _worth(look, counts) for name, look in looks.items()}
    chosen = []
    for each in zip(*worth.values(), strict=True):
        most = max(each)
        best = next(name for name, shown in zip(worth, each, strict=True) if shown >= _AS_GOOD * most)
        chosen.append(best if most > _BETTER * each[0] else "")
    return chosen


def _worth(look: Foremost, counts: Sequence[int]) -> list[float]:
    grid, step = even_grid(look.bounds, _PLACES)
    place, thing = look.lined_up(grid.reshape(-1, 2))
    found = []
    for before, count in pairwise((0, *counts)):
        there = thing < count
        foremost = np.diff(place[there], append=-1) != 0
        seen = np.bincount(thing[there][foremost], minlength=count)
        found.append(float(np.sqrt(seen[before:]).sum() * step))
    return found
