"""Hardware made solid: every nail, screw, plug, biscuit and hinge where it sits."""

from __future__ import annotations

import cadquery as cq

from model.cuts.faces import BISCUIT_THICKNESS
from model.hardware import Hardware
from model.placement import Vector, added, scaled

#: Drawn as a knuckle about their middle.
HINGES = ("continuous hinge", "butt hinge")

#: What of the hardware still shows when the piece is finished.
SHOWN = ("plug", "peg", "wedge", "key", "knob", "lid stay", *HINGES)


def hardware_solid(item: Hardware) -> cq.Shape:
    """The item as a plain solid in the piece, mm: a rod for what is driven, a disc for a plug, a lens for a biscuit, a
    strip for a spline or a loose tongue, a wedge, a three-cornered key.

    A rod is drawn at its shank, without head or thread.
    """
    if item.kind == "biscuit":
        return _biscuit(item)
    if item.across is not None:
        return _flat(item, item.across)
    radius = item.diameter / 2.0
    if item.kind in HINGES:
        start = added(item.at, scaled(item.direction, -item.length / 2.0))
        return _rod(radius, item.length, start, item.direction)
    if item.kind == "plug":
        outside = added(item.at, scaled(item.direction, -item.length))
        return _rod(radius, item.length, outside, item.direction)
    if item.kind == "knob":
        return _knob(item)
    return _rod(radius, item.length, item.at, item.direction)


def _flat(item: Hardware, across: Vector) -> cq.Shape:
    """Drawn in the plane of its length and its width, or, for a wedge, of its length and its thickness."""
    along, flat = cq.Vector(*item.direction), cq.Vector(*item.direction).cross(cq.Vector(*across))
    long, half, thin = item.length, item.diameter / 2.0, item.thickness / 2.0
    if item.kind == "wedge":
        plane = cq.Plane(cq.Vector(*item.at), along, cq.Vector(*across))
        return _prism(plane, ((0.0, thin), (long, 0.0), (0.0, -thin)), half)
    plane = cq.Plane(cq.Vector(*item.at), along, flat)
    if item.kind == "key":
        return _prism(plane, ((0.0, 0.0), (long, 0.0), (long / 2.0, item.diameter)), thin)
    start = -long / 2.0 if item.kind == "loose tongue" else 0.0
    return _prism(plane, ((start, -half), (start + long, -half), (start + long, half), (start, half)), thin)


def _prism(plane: cq.Plane, corners: tuple[tuple[float, float], ...], half: float) -> cq.Shape:
    """Corners in a plane, made solid by `half` to both sides of it."""
    return cq.Workplane(plane).polyline(corners).close().extrude(half, both=True).val()


def _rod(
    radius: float, length: float, start: tuple[float, float, float], along: tuple[float, float, float]
) -> cq.Shape:
    return cq.Solid.makeCylinder(radius, length, cq.Vector(*start), cq.Vector(*along))


def _knob(item: Hardware) -> cq.Shape:
    """A waisted neck under a head rounded both ways."""
    r, long = item.diameter / 2.0, item.length
    neck = ((0.42 * r, 0.2 * long), (0.5 * r, 0.4 * long))
    head = ((r, 0.66 * long), (0.6 * r, 0.93 * long))
    crown = ((0.3 * r, 0.98 * long), (0.0, long))
    half = cq.Workplane("XZ").lineTo(0.6 * r, 0.0)
    turned = half.threePointArc(*neck).threePointArc(*head).threePointArc(*crown).close()
    solid = turned.revolve(360.0, (0.0, 0.0, 0.0), (0.0, 1.0, 0.0)).val()
    aside = cq.Vector(0.0, 0.0, 1.0) if abs(item.direction[2]) < 0.9 else cq.Vector(1.0, 0.0, 0.0)
    return solid.moved(cq.Location(cq.Plane(cq.Vector(*item.at), aside, cq.Vector(*item.direction))))


def _biscuit(item: Hardware) -> cq.Shape:
    """Drawn as a plain oval of its length and width, long along the joint: `across` the way it goes in."""
    length, width = item.diameter, item.length
    assert item.across is not None
    along = cq.Vector(*item.across)
    normal = along.cross(cq.Vector(*item.direction))
    plane = cq.Plane(cq.Vector(*item.at), along, normal)
    oval = cq.Workplane(plane).ellipse(length / 2.0, width / 2.0).extrude(BISCUIT_THICKNESS / 2.0, both=True)
    return oval.val()
