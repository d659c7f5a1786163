"""What a solid offers to be measured where a plane cuts it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Section
from OCP.GeomAbs import GeomAbs_Line
from OCP.gp import gp_Dir, gp_Pln, gp_Pnt

from drawings.paper.measured import Point, Shown, Vector
from drawings.proof.features import Features, on_circle
from drawings.proof.measurable import vector
from drawings.proof.seen import seen
from model.placement import cross, scaled


def cut_features(shape: cq.Shape, shown: Shown) -> Features:
    """All that one solid offers in a section: the plane `shown.at` along the direction to the eye."""
    toward = cross(shown.right, shown.up)
    foot = scaled(toward, shown.at or 0.0)
    plane = gp_Pln(gp_Pnt(*foot), gp_Dir(*toward))
    cut = BRepAlgoAPI_Section(shape.wrapped, plane, False)
    cut.Build()
    points, lines, circles = [], [], []
    for edge in cq.Shape.cast(cut.Shape()).Edges():
        curve = BRepAdaptor_Curve(edge.wrapped)
        ends = [seen(vector(curve.Value(t)), shown) for t in (curve.FirstParameter(), curve.LastParameter())]
        points += ends
        if curve.GetType() == GeomAbs_Line:
            lines.append((ends[0], ends[1]))
        else:
            circles += _circle_through([seen(p, shown) for p in _spread(curve)])
    return Features(tuple(points), tuple(lines), tuple(circles), ())


def _spread(curve: BRepAdaptor_Curve) -> list[Vector]:
    """Five points along a curve, its ends among them."""
    low, high = curve.FirstParameter(), curve.LastParameter()
    return [vector(curve.Value(low + (high - low) * n / 4)) for n in range(5)]


def _circle_through(points: Sequence[Point]) -> list[tuple[Point, float]]:
    """The circle on which all the points lie; the kernel may give an arc of a section as a spline."""
    (ax, ay), (bx, by), (cx, cy) = points[0], points[2], points[-1]
    twice = 2.0 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(twice) < 1e-9:
        return []
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / twice
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / twice
    radius = math.dist((x, y), points[0])
    return [((x, y), radius)] if all(on_circle(p, (x, y), radius) for p in points) else []
