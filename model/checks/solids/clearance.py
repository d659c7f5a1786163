"""How far apart do the surfaces of every joint stand, all along where they are meant to meet?

Equal parts in the same place relative to each other, with the same contacts, are measured once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from model.checks.solids.facing import Met, met
from model.checks.solids.stood_solid import StoodSolid, alike, distance, stood_solids
from model.joints.joint import Contact, Joint
from model.piece import Piece
from model.placement import Placement, Vector

if TYPE_CHECKING:
    import cadquery as cq

#: Contacts remembered before the oldest half is forgotten.
MOST_REMEMBERED = 20_000


@dataclass(frozen=True)
class Surfaces:
    """Surfaces of a joint that are meant to meet: up to `gap` mm apart; met: as they are, in the frame `at`."""

    gap: float
    met: Met
    at: Placement


@dataclass(frozen=True)
class Clearance:
    """How far apart a joint's surfaces stand where they are meant to meet, mm, and where furthest; gap: how far apart
    the joint is made to leave them; least is negative where they are pressed together. fitting: whether they are made
    to lie on each other, not to touch in a line."""

    joint: Joint
    gap: float
    least: float
    greatest: float
    widest: Vector
    fitting: bool = True


def surfaces(joint: Joint, solids: Mapping[str, StoodSolid]) -> tuple[Surfaces, ...]:
    """What of a joint's two parts faces each other at each of its contacts; a contact where nothing does is left out.

    solids: the parts where they stand, by name.
    """
    first, second = solids[joint.first], solids[joint.second]
    found = []
    for contact in joint.contacts:
        measured = _measured(first, second, contact) if contact.points else None
        if measured is not None:
            found.append(Surfaces(contact.gap, measured, first.at))
    return tuple(found)


def clearances(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Clearance]:
    """The clearance of every joint, one for each gap its surfaces are made to leave; a joint that names none, or whose
    surfaces nowhere face each other, is told by the least distance of its parts.

    shapes: every part's solid where it stands, by name.
    Raises DesignError if a distance can't be measured.
    """
    solids = {s.name: s for s in stood_solids(shapes)}
    return [c for joint in piece.joints for c in _of_joint(joint, solids)]


def told(found: Iterable[Clearance]) -> list[dict[str, Any]]:
    """Clearances as a table for a report, a row for joints that came out alike: how many they are, the first one's
    parts, and the gap they are made to leave, the least and the greatest clearance, mm to a hundredth."""
    rows: dict[tuple[Any, ...], list[Joint]] = {}
    for c in found:
        sizes = tuple(round(size, 2) + 0.0 for size in (c.gap, c.least, c.greatest))
        rows.setdefault((c.joint.kind, *sizes, c.fitting), []).append(c.joint)
    names = ("kind", "made_with_mm", "least_mm", "greatest_mm", "fitting")
    return [
        {**dict(zip(names, row, strict=True)), "joints": len(alike_made), "parts": [*_parts(alike_made[0])]}
        for row, alike_made in rows.items()
    ]


def _parts(joint: Joint) -> tuple[str, str]:
    return joint.first, joint.second


def forget_clearances() -> None:
    """Forgets what was measured before, so that the next check starts afresh."""
    _known.clear()


#: What was measured before, by geometries, relative place and contact.
_known: dict[Any, Met | None] = {}


def _measured(first: StoodSolid, second: StoodSolid, contact: Contact) -> Met | None:
    relative = second.at.seen_from(first.at)
    own = _own(first.at, contact)
    key = (first.geometry, second.geometry, alike(relative), own)
    if key not in _known:
        if len(_known) > MOST_REMEMBERED:
            for old in list(_known)[: MOST_REMEMBERED // 2]:
                del _known[old]
        _known[key] = met(first, second, relative, own)
    return _known[key]


def _own(at: Placement, contact: Contact) -> Contact:
    """A contact in a part's own frame, rounded so that equal ones are the same."""
    points = tuple(_rounded(at.own_point(p), 6) for p in contact.points)
    return replace(contact, points=points, toward=_rounded(at.own_direction(contact.toward), 12))


def _rounded(v: Vector, places: int) -> Vector:
    return (round(v[0], places) + 0.0, round(v[1], places) + 0.0, round(v[2], places) + 0.0)


def _of_joint(joint: Joint, solids: Mapping[str, StoodSolid]) -> Iterable[Clearance]:
    by_gap: dict[float, list[Surfaces]] = {}
    for s in surfaces(joint, solids):
        by_gap.setdefault(s.gap, []).append(s)
    if not by_gap:
        gap, where = distance(solids[joint.first], solids[joint.second])
        return [Clearance(joint, joint.fit, gap, gap, where)]
    return [_together(joint, gap, alike_made) for gap, alike_made in sorted(by_gap.items())]


def _together(joint: Joint, gap: float, found: list[Surfaces]) -> Clearance:
    widest = max(found, key=lambda s: s.met.greatest)
    least = min(s.met.least for s in found)
    where = widest.at.point(widest.met.widest)
    return Clearance(joint, gap, least, widest.met.greatest, where, all(s.met.fitting for s in found))
