"""From where a step of assembly is seen best: standpoints of someone walking round the piece, and the one chosen."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from drawings.views.curves import PICTORIAL, ViewSpec, looking
from drawings.views.foremost import NOTHING, Foremost, seen

_X, _Y, _Z = PICTORIAL.direction
#: The usual one first; names are told beside the picture.
STANDPOINTS: dict[str, ViewSpec] = {
    "": PICTORIAL,
    "from the left": looking("left pictorial", (-_X, _Y, _Z)),
    "from behind, on the right": looking("right back pictorial", (_X, -_Y, _Z)),
    "from behind, on the left": looking("left back pictorial", (-_X, -_Y, _Z)),
}
#: Places looked at along the longer side of a view; another standpoint than the usual must show so much more (ours).
_PLACES, _BETTER = 70, 1.25


def standpoint(facets: Sequence[NDArray[np.float64]], new: int) -> str:
    """The name of the standpoint from which most is seen of the new things, each of them counting by the root of its
    area so that none is lost behind a large one; the usual one unless another is clearly better.

    facets: of all things there, (n, 3, 3) each, piece mm; new: how many of them are, the last ones.
    """
    worth = {name: _worth(facets, new, spec) for name, spec in STANDPOINTS.items()}
    best = max(worth, key=lambda name: worth[name])
    return best if worth[best] > _BETTER * worth[""] else ""


def _worth(facets: Sequence[NDArray[np.float64]], new: int, spec: ViewSpec) -> float:
    corners = np.concatenate(facets).reshape(-1, 3)
    x, y = corners @ np.array(spec.right), corners @ np.array(spec.up)
    bounds = float(x.min()), float(y.min()), float(x.max()), float(y.max())
    found = seen(Foremost(facets, spec), bounds, _PLACES)
    counts = np.bincount(found.things[found.things != NOTHING], minlength=len(facets))
    return float(np.sqrt(counts[-new:]).sum() * found.step)
