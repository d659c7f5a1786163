"""Overlap by meshes, as other programs do it: a collision library's contacts, a mesh library's booleans.

python-fcl 0.7 (BSD-3-Clause) and manifold3d 3.5 (Apache-2.0), both from the `bench` extra. Solids are given to them as
the same facets our own questions use, 0.05 mm from curved skin at most, and only pairs whose boxes meet.
"""

from __future__ import annotations

from collections.abc import Sequence

import fcl
import manifold3d
import numpy as np

from model.checks.solids.facets import facets
from model.checks.solids.pairs import Pair
from model.checks.solids.stood_solid import StoodSolid
from model.placement import Placement
from model.tolerance import INTERFERENCE

#: Contacts asked of the collision library for each pair, so that it can tell a depth.
CONTACTS = 200


def by_contacts(pairs: Sequence[Pair]) -> set[tuple[str, str]]:
    """Pairs that the collision library says meet at all."""
    models = _models(pairs)
    return {
        _names(p) for p in pairs if fcl.collide(*_objects(models, p), fcl.CollisionRequest(), fcl.CollisionResult())
    }


def by_contact_depth(pairs: Sequence[Pair]) -> set[tuple[str, str]]:
    """Pairs in which the collision library tells a contact deeper than INTERFERENCE."""
    models = _models(pairs)
    found = set()
    for pair in pairs:
        told = fcl.CollisionResult()
        fcl.collide(*_objects(models, pair), fcl.CollisionRequest(CONTACTS, enable_contact=True), told)
        if any(abs(c.penetration_depth) > INTERFERENCE for c in told.contacts):
            found.add(_names(pair))
    return found


def by_mesh_boolean(pairs: Sequence[Pair]) -> set[tuple[str, str]]:
    """Pairs whose shared mesh is thicker than INTERFERENCE: twice its volume over its skin, as thick as a slab is."""
    solids = {s.name: _manifold(s) for p in pairs for s in (p.first, p.second)}
    found = set()
    for pair in pairs:
        common = solids[pair.first.name] ^ solids[pair.second.name]
        skin = common.surface_area()
        if skin > 0.0 and 2.0 * common.volume() / skin > INTERFERENCE / 2.0:
            found.add(_names(pair))
    return found


def _names(pair: Pair) -> tuple[str, str]:
    first, second = sorted((pair.first.name, pair.second.name))
    return first, second


def _mesh(solid: StoodSolid) -> tuple[np.ndarray, np.ndarray]:
    """Points (n, 3) in the solid's own frame and triangles (m, 3)."""
    corners = facets(solid.own).corners.reshape(-1, 3)
    points, numbers = np.unique(corners.round(6), axis=0, return_inverse=True)
    return points, numbers.reshape(-1, 3)


def _models(pairs: Sequence[Pair]) -> dict[object, fcl.BVHModel]:
    """A model for each different solid."""
    models: dict[object, fcl.BVHModel] = {}
    for solid in (s for p in pairs for s in (p.first, p.second)):
        if solid.geometry not in models:
            points, triangles = _mesh(solid)
            model = models[solid.geometry] = fcl.BVHModel()
            model.beginModel(len(triangles), len(points))
            model.addSubModel(points, triangles)
            model.endModel()
    return models


def _objects(models: dict[object, fcl.BVHModel], pair: Pair) -> list[fcl.CollisionObject]:
    return [
        fcl.CollisionObject(models[s.geometry], fcl.Transform(_turn(s.at), s.at.origin))
        for s in (pair.first, pair.second)
    ]


def _turn(at: Placement) -> np.ndarray:
    return np.array([at.x, at.y, at.z]).T


def _manifold(solid: StoodSolid) -> manifold3d.Manifold:
    points, triangles = _mesh(solid)
    mesh = manifold3d.Mesh64(points, triangles.astype(np.uint64))
    turn, shift = _turn(solid.at), np.array(solid.at.origin)[:, None]
    return manifold3d.Manifold(mesh).transform(np.hstack([turn, shift]))
