"""The view's own axes: x right, y up, z toward the eye, mm. Points turned into them, and facets as planes over them.

No CAD kernel.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from drawings.views.curves import ViewSpec

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]


def frame(spec: ViewSpec) -> Array:
    """The rotation (3, 3) by which row vectors of the piece become view coordinates."""
    return np.column_stack([spec.right, spec.up, spec.direction])


def in_view(facets: Array, spec: ViewSpec) -> Array:
    """Facets (n, 3, 3) of the piece in view coordinates."""
    # One flat product of all corners would be handed to the threads of BLAS, which wait for each other far longer.
    return np.asarray(facets @ frame(spec))


def facing(facets: Array) -> Mask:
    """Which facets (n, 3, 3), anticlockwise as seen from outside, face the eye; those seen edge-on do not."""
    ux, uy, vx, vy = (facets[:, n, k] - facets[:, 0, k] for n in (1, 2) for k in (0, 1))
    area = ux * vy - uy * vx
    return np.asarray(area > 1e-6 * np.maximum(np.hypot(ux, uy) * np.hypot(vx, vy), 1e-12))


def height(facets: Array) -> Array:
    """Rows (n, 3): what a place's x, y and 1 are multiplied by to give z of the facets' planes there."""
    normal = np.cross(facets[:, 1] - facets[:, 0], facets[:, 2] - facets[:, 0])
    slope = -normal[:, :2] / normal[:, 2:]
    return np.column_stack([slope, facets[:, 0, 2] - np.einsum("ij,ij->i", slope, facets[:, 0, :2])])
