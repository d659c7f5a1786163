"""The same piece told otherwise: carried elsewhere, mirrored, or its parts, joints and steps named in another order.

Joints, hardware, hinges, slides and ways home go along, so no check may find anything else in it.
"""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from model.cuts.cut import Cut
from model.hardware import Hardware
from model.joints.hinged import Hinged
from model.joints.joint import Joint
from model.part import GivenPart
from model.piece import Piece, Placed
from model.placement import Placement, Vector, scaled
from model.way_home import Leg, Push

#: What becomes of a point, of a direction, and of the line that something turns about, right-handed.
Seen = Callable[[Vector], Vector]


def shuffled(piece: Piece, seed: int) -> Piece:
    """Its parts, joints, hardware and pairs kept apart in another order. Steps stay as they are."""
    by_chance = random.Random(seed)

    def mixed(some: Any) -> list[Any]:
        return by_chance.sample(list(some), len(some))

    other = copy.copy(piece)
    other.parts = {name: piece[name] for name in mixed(piece.parts)}
    other.joints = mixed(piece.joints)
    other.hardware = mixed(piece.hardware)
    other.apart = mixed(piece.apart)
    return other


def renamed_in_steps(piece: Piece, seed: int) -> Piece:
    """Each step names its parts in another order: of boards in a row another one is then the last to be fitted."""
    by_chance = random.Random(seed)
    other = copy.copy(piece)
    other.steps = [replace(s, parts=tuple(by_chance.sample(s.parts, len(s.parts)))) for s in piece.steps]
    return other


def carried(piece: Piece, motion: Placement) -> Piece:
    """The whole piece carried rigidly elsewhere."""
    other = _seen(piece, motion.point, motion.direction, motion.direction)
    other.parts = {p.name: replace(p, at=motion @ p.at) for p in piece}
    return other


def mirrored(piece: Piece) -> Piece:
    """The whole piece mirrored left for right in the plane x = 0; every part keeps its name."""
    other = _seen(piece, flipped, flipped, lambda along: scaled(flipped(along), -1.0))
    other.parts = {p.name: _mirrored_part(p) for p in piece}
    other.joints = [_with_mirrored_cuts(piece, j) for j in other.joints]
    return other


def flipped(v: Vector) -> Vector:
    """A point or a direction, left for right."""
    return (-v[0], v[1], v[2])


def _seen(piece: Piece, point: Seen, direction: Seen, turning: Seen) -> Piece:
    """All but the parts."""
    other = copy.copy(piece)
    other.joints = [_joint(j, point, direction, turning) for j in piece.joints]
    other.hardware = [_hardware(h, point, direction) for h in piece.hardware]
    other.steps = [replace(s, way=tuple(_leg(leg, point, direction, turning) for leg in s.way)) for s in piece.steps]
    other.swings = [replace(s, pin=point(s.pin), along=turning(s.along)) for s in piece.swings]
    other.slides = [replace(s, along=direction(s.along)) for s in piece.slides]
    return other


def _joint(j: Joint, point: Seen, direction: Seen, turning: Seen) -> Joint:
    contacts = tuple(replace(c, points=tuple(map(point, c.points)), toward=direction(c.toward)) for c in j.contacts)
    hardware = tuple(_hardware(h, point, direction) for h in j.hardware)
    seen = replace(j, closes=direction(j.closes), contacts=contacts, hardware=hardware)
    return replace(seen, pin=point(seen.pin), along=turning(seen.along)) if isinstance(seen, Hinged) else seen


def _hardware(h: Hardware, point: Seen, direction: Seen) -> Hardware:
    across = None if h.across is None else direction(h.across)
    return replace(h, at=point(h.at), direction=direction(h.direction), across=across)


def _leg(leg: Leg, point: Seen, direction: Seen, turning: Seen) -> Leg:
    if isinstance(leg, Push):
        return replace(leg, along=direction(leg.along))
    return replace(leg, pin=point(leg.pin), along=turning(leg.along))


def _mirrored_part(p: Placed) -> Placed:
    if isinstance(p.part, GivenPart):
        return replace(p, part=replace(p.part, solid=p.part.shape().mirror("XZ")), at=p.at.mirrored(0.0))
    return replace(p, part=p.part.mirrored(), at=p.at.mirrored(p.part.stock.width))


def _with_mirrored_cuts(piece: Piece, j: Joint) -> Joint:
    def cuts(name: str, some: tuple[Cut, ...]) -> tuple[Cut, ...]:
        return tuple(c.mirrored(piece[name].wood.blank) for c in some)

    return replace(j, first_cuts=cuts(j.first, j.first_cuts), second_cuts=cuts(j.second, j.second_cuts))
