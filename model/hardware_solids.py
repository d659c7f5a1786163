"""Hardware made solid: every nail, screw, plug, biscuit and hinge where it sits."""

from __future__ import annotations

import cadquery as cq

from model.cuts.faces import BISCUIT_THICKNESS
from model.hardware import Hardware
from model.placement import added, scaled

#: Drawn as a knuckle about their middle.
HINGES = ("continuous hinge", "butt hinge")

#: What of the hardware still shows when the piece is finished.
SHOWN = ("plug", *HINGES)


def hardware_solid(item: Hardware) -> cq.Shape:
    """The item as a plain solid in the piece, mm: a rod for what is driven, a disc for a plug, a lens for a biscuit.

    A rod is drawn at its shank, without head or thread.
    """
    radius = item.diameter / 2.0
    if item.kind in HINGES:
        start = added(item.at, scaled(item.direction, -item.length / 2.0))
        return _rod(radius, item.length, start, item.direction)
    if item.kind == "plug":
        outside = added(item.at, scaled(item.direction, -item.length))
        return _rod(radius, item.length, outside, item.direction)
    if item.kind == "biscuit":
        return _biscuit(item)
    return _rod(radius, item.length, item.at, item.direction)


def _rod(
    radius: float, length: float, start: tuple[float, float, float], along: tuple[float, float, float]
) -> cq.Shape:
    return cq.Solid.makeCylinder(radius, length, cq.Vector(*start), cq.Vector(*along))


def _biscuit(item: Hardware) -> cq.Shape:
    """Drawn as a plain oval of its length and width; `along` is level with the joint."""
    length, width = item.diameter, item.length
    level = cq.Vector(*item.direction).cross(cq.Vector(0.0, 0.0, 1.0))
    along = level if level.Length > 0.1 else cq.Vector(1.0, 0.0, 0.0)
    normal = along.cross(cq.Vector(*item.direction))
    plane = cq.Plane(cq.Vector(*item.at), along, normal)
    oval = cq.Workplane(plane).ellipse(length / 2.0, width / 2.0).extrude(BISCUIT_THICKNESS / 2.0, both=True)
    return oval.val()
