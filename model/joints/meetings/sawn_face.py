"""Where a face sawn at a slant lies against a flat side of another part: a side that splays, sawn level at its top."""

from __future__ import annotations

from dataclasses import dataclass

from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.joints.joint import Contact, Stood
from model.joints.meetings.shared_face import SharedFace, shared_face
from model.placement import dot

#: Two planes lie alike if their normals are opposite to this (as the cosine).
_OPPOSITE = 1.0 - 1e-9


@dataclass(frozen=True)
class SawnFace:
    """A face sawn on one part, how far off a flat side of the other it lies, mm, and what both have in common there;
    its frame's z points to the flat part."""

    off: float
    face: SharedFace

    def contact(self, gap: float = 0.0) -> Contact:
        """At the face's middle and about it, the middle one the third of five."""
        a, b, c, d, e = self.face.contact(gap=gap).points
        return Contact((b, c, a, d, e), self.face.frame.z, gap)


def sawn_face(flat: Stood, sawn: Stood) -> SawnFace | None:
    """The face sawn on one part that lies nearest to a flat side of the other; None if no cut runs along it, or they
    lie beside each other."""
    found = [f for cut in sawn.wood.cuts if isinstance(cut, SawCut) and (f := _against(flat, sawn, cut))]
    return min(found, key=lambda f: abs(f.off), default=None)


def _against(flat: Stood, sawn: Stood, cut: SawCut) -> SawnFace | None:
    plane = cut.kept.seen_outside(sawn.at)
    if abs(dot(plane.normal, flat.at.z)) < _OPPOSITE:
        return None
    level = 0.0 if dot(plane.normal, flat.at.z) > 0.0 else flat.wood.thickness
    side = dot(plane.normal, flat.at.point((0.0, 0.0, level)))
    face = shared_face(flat, sawn, Plane(plane.normal, side))
    return SawnFace(side - plane.offset, face) if face else None
