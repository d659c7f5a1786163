"""The skin of a solid where it stands, seen from a pin's frame."""

from __future__ import annotations

from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import StoodSolid
from model.checks.travel.turning import Skin
from model.placement import Placement


def stood_skin(solid: StoodSolid, frame: Placement) -> Skin:
    """The facets of a solid, in the frame, mm."""
    own, at = facets(solid.own), solid.at.seen_from(frame)
    return Skin(own.corners @ [at.x, at.y, at.z] + at.origin, own.stray)
