"""What a solid offers to be measured when it is looked at from one side."""

from __future__ import annotations

import math

from drawings.paper.measured import Point, Shown, Vector
from drawings.proof.features import Features
from drawings.proof.measurable import Face, Measurable
from model.placement import added, cross, dot, scaled

_PARALLEL = 1e-6
#: A cylinder is looked into if its axis is this near to the line of sight (cosine; about half a degree).
_END_ON = 1.0 - 4e-5


def seen_features(solid: Measurable, shown: Shown) -> Features:
    """All that one solid offers in a view."""
    toward = cross(shown.right, shown.up)
    end_on = [c for c in solid.cylinders if abs(dot(c.direction, toward)) > _END_ON]
    aside = [c for c in solid.cylinders if abs(dot(c.direction, toward)) <= _END_ON]
    rims = [r for r in solid.rims if abs(dot(r.axis, toward)) > _END_ON]
    lines = [_edge_on(f, shown) for f in solid.planes if abs(dot(f.direction, toward)) < _PARALLEL]
    axes = [_axis(c, shown) for c in aside]
    # a hole may lean a little: both ends of its axis count as its middle
    circles = {(end, c.radius) for c in end_on for end in _axis(c, shown)}
    circles |= {(seen(r.centre, shown), r.radius) for r in rims}
    return Features(
        tuple(seen(p, shown) for p in (*solid.corners, *(p for r in solid.rims for p in r.crowns))),
        tuple(lines + axes),
        tuple(circles),
        (*(seen(p, shown) for p in solid.middles), *(end for axis in axes for end in axis)),
        tuple((seen(c.point, shown), c.radius, *_along(c, toward)) for c in end_on),
        tuple((seen(p, shown), seen(q, shown)) for p, q in solid.straight),
    )


def _along(cylinder: Face, toward: Vector) -> tuple[float, float]:
    """From where to where a cylinder reaches along the line of sight."""
    low = dot(cylinder.point, toward)
    high = low + cylinder.length * dot(cylinder.direction, toward)
    return min(low, high), max(low, high)


def _axis(cylinder: Face, shown: Shown) -> tuple[Point, Point]:
    """The two ends of a cylinder's axis."""
    far = added(cylinder.point, scaled(cylinder.direction, cylinder.length))
    return seen(cylinder.point, shown), seen(far, shown)


def _edge_on(face: Face, shown: Shown) -> tuple[Point, Point]:
    """The two ends of a face seen edge-on."""
    corners = [seen(corner, shown) for corner in face.corners]
    first = corners[0]
    far = max(corners, key=lambda p: math.dist(p, first))
    return max(corners, key=lambda p: math.dist(p, far)), far


def seen(p: Vector, shown: Shown) -> Point:
    """A point of the part in the view."""
    return dot(p, shown.right), dot(p, shown.up)
