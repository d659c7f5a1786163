"""Is each joint really in contact? Wood of both parts is looked for at every point where the joint says they meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import cadquery as cq
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.TopAbs import TopAbs_IN

from model.checks.finding import Answer, Finding, Proof
from model.checks.places import spot
from model.checks.solids.stood_solid import StoodSolid, distance, stood_solids
from model.joints.joint import Contact, Joint
from model.piece import Piece
from model.placement import Vector, added, scaled
from model.tolerance import CONTACT

CHECK = "contact"
SOURCE = "the joint's own fit, and 0.02 mm for surfaces that touch (common practice)"

#: How far past its surface wood is looked for, mm, so that the surface itself is not in doubt.
PAST = 0.005

#: Where wood is looked for, as fractions of the reach: a thin part may end before the whole of it.
LOOKS = (1.0, 0.0, 0.5, 0.25, 0.75)

#: No gap is looked for further than this, mm.
FURTHEST = 1000.0


def contact(piece: Piece, shapes: Mapping[str, cq.Shape]) -> Answer:
    """Faults for joints whose parts stand apart by more than the joint's gap and CONTACT, mm.

    At each contact point the first part's wood must begin that soon `toward`, and the second's the other way. A joint
    with no contact points is held to the exact distance between its parts. shapes: every part's solid where it
    stands, by name. Raises DesignError if a distance can't be measured.
    """
    solids = {s.name: s for s in stood_solids(shapes)}
    wood = _Wood()
    misses = [(joint, _missed(joint, solids, wood)) for joint in piece.joints]
    findings = [_finding(piece, joint, miss) for joint, miss in misses if miss is not None]
    count = len(piece.joints)
    ordered = sorted(findings, key=lambda f: (f.parts, f.message))
    return Answer(tuple(ordered), (Proof("joints in contact", count, count - len(findings)),))


@dataclass(frozen=True)
class _Miss:
    """Where a joint is open, mm: how far, how far it may be, and whose wood is wanting."""

    gap: float
    limit: float
    where: Vector


class _Wood:
    """Answers where wood is, one classifier for all equal parts, each question asked once."""

    def __init__(self) -> None:
        self._classifiers: dict[Any, BRepClass3d_SolidClassifier] = {}
        self._known: dict[tuple[Any, Vector], bool] = {}

    def at(self, solid: StoodSolid, p: Vector) -> bool:
        """Whether a point of the piece lies inside a solid."""
        x, y, z = solid.at.own_point(p)
        own = (round(x, 6), round(y, 6), round(z, 6))
        key = (solid.geometry, own)
        if key not in self._known:
            self._known[key] = self._classified(solid, own)
        return self._known[key]

    def _classified(self, solid: StoodSolid, own: Vector) -> bool:
        classifier = self._classifiers.get(solid.geometry)
        if classifier is None:
            classifier = self._classifiers[solid.geometry] = BRepClass3d_SolidClassifier(solid.own)
        classifier.Perform(gp_Pnt(*own), 1e-6)
        return bool(classifier.State() == TopAbs_IN)


def _missed(joint: Joint, solids: Mapping[str, StoodSolid], wood: _Wood) -> _Miss | None:
    """Where the joint is furthest open, or None."""
    first, second = solids[joint.first], solids[joint.second]
    if not any(c.points for c in joint.contacts):
        limit = joint.fit + CONTACT
        gap, where = distance(first, second)
        return _Miss(gap, limit, where) if gap > limit else None
    misses = _open_points(joint, first, second, wood)
    # of equal ones the first, so that the last digits don't choose the place
    return max(misses, key=lambda m: round(m.gap - m.limit, 6), default=None)


def _open_points(joint: Joint, first: StoodSolid, second: StoodSolid, wood: _Wood) -> Iterator[_Miss]:
    for met in joint.contacts:
        for p in met.points:
            back = scaled(met.toward, -1.0)
            here = _begins(wood, first, p, met.toward, met.gap) and _begins(wood, second, p, back, met.gap)
            if not here:
                yield _Miss(_gap(first, second, p, met), met.gap + CONTACT, p)


def _begins(wood: _Wood, solid: StoodSolid, p: Vector, direction: Vector, gap: float) -> bool:
    """Whether the solid's wood begins within `gap` and CONTACT of a point in a direction."""
    reach = gap + CONTACT
    return any(wood.at(solid, added(p, scaled(direction, PAST + share * reach))) for share in LOOKS)


def _gap(first: StoodSolid, second: StoodSolid, p: Vector, met: Contact) -> float:
    """From one part's wood to the other's along the line on which they meet, mm; where that line misses one of them,
    their least distance."""
    ahead = _first_wood(first, p, met.toward)
    behind = _first_wood(second, p, scaled(met.toward, -1.0))
    return distance(first, second)[0] if ahead is None or behind is None else ahead + behind


def _first_wood(solid: StoodSolid, p: Vector, direction: Vector) -> float | None:
    line = gp_Lin(gp_Pnt(*solid.at.own_point(p)), gp_Dir(*solid.at.own_direction(direction)))
    crossing = IntCurvesFace_ShapeIntersector()
    crossing.Load(solid.own, 1e-7)
    crossing.Perform(line, -CONTACT, FURTHEST)
    found = [crossing.WParameter(n) for n in range(1, crossing.NbPnt() + 1)]
    return max(min(found), 0.0) if found else None


def _finding(piece: Piece, joint: Joint, miss: _Miss) -> Finding:
    first, second = joint.first, joint.second
    near = spot(piece[first], miss.where)
    if miss.gap > miss.limit:
        message = (
            f"the {joint.kind} joint of {first} and {second} is open {miss.gap:.2f} mm, near {near}; "
            f"{miss.limit:.2f} mm is the most it may be, so move or lengthen {first}"
        )
    else:
        message = (
            f"the {joint.kind} joint of {first} and {second} does not meet where it should, near {near}: one of them "
            "has no wood there; move it back or check its cuts"
        )
    return Finding(CHECK, "fault", (first, second), message, round(miss.gap, 4), miss.limit, "mm", SOURCE, miss.where)
