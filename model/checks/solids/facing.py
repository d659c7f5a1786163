"""How far apart do two solids' surfaces stand, all along where a joint says they meet?

Seen along the way the contact looks, the faces of one that look at the other are laid over the other's: over each pair
of facets the clearance is a plane, so that least and greatest lie at corners of what they share. Exact for flat faces;
curved ones are looked at finely.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from model.checks.solids.cast import Cast, Facing, Indices, Numbers, Shared, across_and_along, both, cast, finer
from model.checks.solids.facets import Facets, facets
from model.checks.solids.stood_solid import StoodSolid
from model.joints.joint import Contact
from model.placement import Placement, Vector, scaled

Mask = NDArray[np.bool_]

#: Surfaces further than this from where they should meet, mm, are others, or don't meet at all.
REACH = 2.0

#: Flat faces that lean more than this from where they should face, degrees, are others (the boards of a curved back
#: lean some degrees to each other); curved ones are measured as far round as this.
LEAN, ROUND = 10.0, 60.0

#: A contact's point is one of two faces' if it lies this near to what they share, mm.
BESIDE = 1.0

#: What two facets share that is smaller than this is the noise of their edges, mm2.
LEAST_SHARED = 1e-3

#: Curved surfaces are made to fit each other if this share of what faces each other does, alike in their curves or
#: turned from each other by less than this (as the tangent): an edge planed hollow does, a flat on a round does not.
MOSTLY, TURNED = 0.9, 0.005


@dataclass(frozen=True, eq=False)
class Met:
    """Surfaces that meet, in the frame of the joint's first part. rows: u, v and the way to the second part. shared:
    what faces each other, the second's height over the first being the clearance, mm. fitting: whether they are made
    to lie on each other; a round one on a flat one touches in a line, and opens beside it by its nature."""

    rows: Numbers
    shared: Shared
    fitting: bool

    @cached_property
    def least(self) -> float:
        """mm; negative where they are pressed into each other."""
        return float(self.shared.least.min())

    @cached_property
    def greatest(self) -> float:
        """mm."""
        return float(self.shared.greatest.max())

    @cached_property
    def area(self) -> float:
        """Over which they face each other, mm2."""
        return float(self.shared.area.sum())

    @cached_property
    def widest(self) -> Vector:
        """Where they stand furthest apart, midway between them."""
        uv, n, heights = self.shared.corners
        k = int(heights.argmax())
        return self.midway(int(n[k]), float(uv[k, 0]), float(uv[k, 1]))

    def midway(self, n: int, u: float, v: float) -> Vector:
        """The point over (u, v), midway between the surfaces as polygon number n has them."""
        c, a, b = self.shared.floor[n] + self.shared.over[n] / 2.0
        x, y, z = np.array((u, v, c + a * u + b * v)) @ self.rows
        return (float(x), float(y), float(z))


def met(first: StoodSolid, second: StoodSolid, at: Placement, contact: Contact) -> Met | None:
    """The surfaces that a contact, told in the first solid's frame, says meet; the second stands `at` in that frame.

    None if nothing of the two faces each other there within REACH and the contact's gap.
    """
    along = scaled(contact.toward, -1.0)
    rows, reach = across_and_along(along), contact.gap + REACH
    seen = cast(facets(first.own), facets(second.own), at, along, 1, -1)
    points = np.array(contact.points) @ rows.T
    i, j = seen.overlapping(-REACH, reach)
    bent = ~seen.first.skin.flat[i] | ~seen.second.skin.flat[j]
    level = _level(seen.first, i, points, reach) & _level(seen.second, j, points, reach)
    flat = ~bent & level & _faces_along(seen, i, j, LEAN)
    plain = _ample(seen.shared(i[flat], j[flat], -REACH, reach))
    near = bent & _around(seen.first, i, points) & _around(seen.second, j, points)
    if not near.any():
        return Met(rows, plain, True) if len(plain) else None
    mine, its = seen.first.skin.only(np.unique(i[near])), seen.second.skin.only(np.unique(j[near]))
    fine = cast(_finer_if_bent(first, mine), _finer_if_bent(second, its), at, along, 1, -1)
    curved = _ample(_curved(fine, points, reach))
    fitting = _fit(fine, curved)
    if len(plain):
        return Met(rows, both(plain, _squared(fine, curved)) if fitting else plain, True)
    return Met(rows, _squared(fine, curved), fitting) if len(curved) else None


def _ample(shared: Shared) -> Shared:
    return shared.only(shared.area > LEAST_SHARED)


def _faces_along(seen: Facing, i: Indices, j: Indices, lean: float) -> Mask:
    square = math.cos(math.radians(lean))
    kept: Mask = (_cosine(seen.first)[i] > square) & (_cosine(seen.second)[j] > square)
    return kept


def _level(side: Cast, numbers: Indices, points: Numbers, reach: float) -> Mask:
    """Which facets lie within reach of the contact's plane, somewhere."""
    low, high = points[:, 2].min() - reach, points[:, 2].max() + reach
    kept: Mask = (side.height_most[numbers] > low) & (side.height_least[numbers] < high)
    return kept


def _around(side: Cast, numbers: Indices, points: Numbers) -> Mask:
    """Which facets belong to a face that one of the contact's points lies over, by the facets' bounds."""
    low, high = side.bounds()
    p = points[:, None, :2]
    over = np.any(np.all((low - BESIDE < p) & (p < high + BESIDE), axis=2), axis=0)
    kept: Mask = np.isin(side.skin.face, side.skin.face[over])[numbers]
    return kept


def _curved(seen: Facing, points: Numbers, reach: float) -> Shared:
    """What those pairs of faces share that meet at one of the contact's points, if either is curved."""
    import shapely

    i, j = seen.overlapping(-REACH, reach)
    bent = (~seen.first.skin.flat[i] | ~seen.second.skin.flat[j]) & _faces_along(seen, i, j, ROUND)
    found = seen.shared(i[bent], j[bent], -REACH, reach)
    faces = seen.first.skin.face[found.i] * 100_000 + seen.second.skin.face[found.j]
    held = shapely.distance(found.shapes, shapely.MultiPoint(points[:, :2])) < BESIDE
    return found.only(np.isin(faces, faces[held]))


def _fit(seen: Facing, found: Shared) -> bool:
    """Whether curved surfaces are made to fit: over one pair of facets that curve alike the clearance changes no more
    than they stray."""
    alike = found.greatest - found.least <= 4.0 * seen.stray(found.i, found.j)
    level = np.hypot(found.over[:, 1], found.over[:, 2]) < TURNED
    return float(found.area[alike | level].sum()) > MOSTLY * float(found.area.sum())


def _squared(seen: Facing, found: Shared) -> Shared:
    """The clearance measured square to the surface, not along the way it is looked at."""
    return replace(found, over=found.over * _cosine(seen.first)[found.i][:, None])


def _finer_if_bent(solid: StoodSolid, skin: Facets) -> Facets:
    """Fine facets of the curved faces; a flat face with a curved edge stays as it is, for its heights are exact."""
    return finer(solid, replace(skin, stray=np.where(skin.flat, 0.0, skin.stray)))


def _cosine(side: Cast) -> Numbers:
    """How squarely each facet faces along the way."""
    normal = np.cross(side.corners[:, 1] - side.corners[:, 0], side.corners[:, 2] - side.corners[:, 0])
    cosine: Numbers = np.abs(normal[:, 2]) / np.maximum(np.linalg.norm(normal, axis=1), 1e-12)
    return cosine
