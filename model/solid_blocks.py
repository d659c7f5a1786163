"""Convex blocks between planes, made solid: corners found by meeting planes three by three."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_Sewing,
)
from OCP.gp import gp_Pnt
from OCP.TopoDS import TopoDS, TopoDS_Shape

from model.cuts.removal import Block, Plane
from model.errors import CutError

Floats = NDArray[np.float64]

_SAME = 1e-7


def block(taken: Block) -> TopoDS_Shape:
    """The block as a solid. Raises CutError if its planes leave nothing, or don't close it off."""
    normals = np.array([p.normal for p in taken.planes])
    offsets = np.array([p.offset for p in taken.planes])
    corners = _corners(normals, offsets)
    if len(corners) < 4:
        raise CutError("a cut between planes leaves nothing to take away; check where the two parts stand")
    sewn = BRepBuilderAPI_Sewing(1e-6)
    for n, plane in enumerate(taken.planes):
        on = corners[np.abs(corners @ normals[n] - offsets[n]) < 10.0 * _SAME]
        if len(on) >= 3:
            sewn.Add(_face(_round(on, plane)))
    sewn.Perform()
    shell = sewn.SewedShape()
    if shell.IsNull() or sewn.NbFreeEdges() > 0:
        raise CutError("a cut between planes is not closed off on every side; check where the two parts stand")
    return BRepBuilderAPI_MakeSolid(TopoDS.Shell_s(shell)).Solid()


def _corners(normals: Floats, offsets: Floats) -> Floats:
    """Where three planes meet inside all the others, each once; (n, 3) float, mm."""
    triples = np.array(list(combinations(range(len(offsets)), 3)))
    systems = normals[triples]
    sound = np.abs(np.linalg.det(systems)) > 1e-9
    points = np.linalg.solve(systems[sound], offsets[triples[sound]][..., None])[..., 0]
    inside = np.all(points @ normals.T <= offsets + _SAME, axis=1)
    kept: list[Floats] = []
    for point in points[inside]:
        if all(np.abs(point - other).max() > 10.0 * _SAME for other in kept):
            kept.append(point)
    return np.array(kept).reshape(-1, 3)


def _round(points: Floats, plane: Plane) -> Floats:
    """A face's corners in their order round it, seen from outside."""
    middle = points.mean(axis=0)
    normal = np.array(plane.normal)
    across = np.cross(normal, (1.0, 0.0, 0.0) if abs(normal[0]) < 0.9 else (0.0, 1.0, 0.0))
    across /= math.sqrt(float(across @ across))
    up = np.cross(normal, across)
    arms = points - middle
    return points[np.argsort(np.arctan2(arms @ up, arms @ across))]


def _face(points: Floats) -> TopoDS_Shape:
    polygon = BRepBuilderAPI_MakePolygon()
    for p in points:
        polygon.Add(gp_Pnt(*(float(c) for c in p)))
    polygon.Close()
    return BRepBuilderAPI_MakeFace(polygon.Wire(), True).Face()
