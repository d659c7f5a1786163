"""Boards that slot over each other on edge: the egg-crate joint of shelves, dividers and sheet furniture."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from model.cuts.laps import Slot
from model.cuts.reliefs import relieved
from model.cuts.removal import RUN_OUT
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.layout.clipping import HalfPlane
from model.layout.outline import Outline, Point
from model.placement import DIRECTIONS, Vector, added, cross, dot, scaled, tidy, unit
from model.tolerance import CONTACT, SAME_POINT

SLOTTING = "common practice: each slot half the height and as wide as the other stock, with 0.2 mm to slide"

#: How much wider than the other's stock a slot is, mm, so that sheets slide over each other by hand.
SLOT_FIT = 0.2
#: Parts that slot over each other stand at least this far from parallel (as the sine; 30 degrees).
STEEPEST_SLOT = 0.5


def slotted(
    a: Stood,
    over: Stood,
    *,
    fit: float = SLOT_FIT,
    share: float = 0.5,
    closes: str | Vector = "down",
    cutter: float | None = None,
) -> Joint:
    """Two boards that cross on edge, each slotted so that `a` slides down over `over`: an egg-crate joint, dry.

    The slots are sawn square to the faces, right through, so a router can cut them; boards that do not stand square
    to each other get wider ones. fit: how much wider than the stock they are, mm. share: of the height they have in
    common, what is slotted out of `a`. closes: the way `a` travels home, a direction's name or a vector; needed only
    where that is not down. cutter: diameter of the router's cutter, mm, for which the slots' inside corners are
    relieved; square without one. Raises DesignError if they don't cross on edge, lie too near the same plane, or the
    slots are too narrow for the cutter.
    """
    home = _way_home(a, over, closes)
    if not 0.0 < share < 1.0:
        raise DesignError(f"a share of {share:g} leaves one part without a slot; a half, 0.5, is common practice")
    up = scaled(home, -1.0)
    in_a, in_b = _crossing(a, over, up, fit), _crossing(over, a, up, fit)
    bottom, top = max(in_a.low, in_b.low), min(in_a.high, in_b.high)
    if top - bottom < CONTACT:
        raise DesignError(
            f"{a.name} and {over.name} have only {max(top - bottom, 0.0):.2f} mm of height in common; slotted parts "
            "must stand into each other, so lower or lengthen one"
        )
    split = bottom + share * (top - bottom)
    return Joint(
        "slotted",
        a.name,
        over.name,
        home,
        (Contact(_seat(a, over, in_a.point(split), cutter or 0.0), up),),
        (_slot(in_a, split, in_a.low, cutter),),
        (_slot(in_b, split, in_b.high, cutter),),
        fit,
        source=SLOTTING,
    )


@dataclass(frozen=True)
class _Crossing:
    """Where another part, standing on edge across it, fills a part: a point of the line it is filled along, the way
    up that line, how wide, mm, and between which heights the part has wood there."""

    part: Stood
    middle: Vector
    up: Vector
    width: float
    low: float
    high: float

    def point(self, height: float) -> Vector:
        return added(self.middle, scaled(self.up, height - dot(self.up, self.middle)))


def _slot(c: _Crossing, foot: float, mouth: float, cutter: float | None) -> Slot:
    """From the height of its foot out past the edge at its mouth."""
    x, y, _ = c.part.at.own_point(c.point(foot))
    dx, dy, _ = c.part.at.own_direction(scaled(c.up, math.copysign(1.0, mouth - foot)))
    length, half = abs(mouth - foot), c.width / 2.0
    corners = ((0.0, -half), (length + RUN_OUT, -half), (length + RUN_OUT, half), (0.0, half))
    outline = Outline(tuple((clean(x + u * dx - v * dy), clean(y + u * dy + v * dx)) for u, v in corners))
    slot = Slot(outline, clean(c.width), clean(length))
    if cutter is None:
        return slot
    return replace(slot, outline=relieved(outline, cutter, waste="inside", within=c.part.wood.outline))


def _way_home(a: Stood, b: Stood, closes: str | Vector) -> Vector:
    """Along the line in which the two parts' planes cross, the way that was asked for."""
    line = cross(a.at.z, b.at.z)
    sine = math.sqrt(dot(line, line))
    if sine < STEEPEST_SLOT - 1e-9:
        angle = math.degrees(math.asin(min(1.0, sine)))
        raise DesignError(
            f"{a.name} and {b.name} stand at {angle:.1f} degrees to each other; slotted parts need 30 or more, best 90"
        )
    line = tidy(scaled(line, 1.0 / sine))
    wanted = DIRECTIONS.get(closes) if isinstance(closes, str) else unit(closes)
    if wanted is None:
        raise DesignError(f'no direction is called "{closes}"; use {", ".join(DIRECTIONS)}')
    along = dot(line, wanted)
    if abs(along) < 0.1:
        raise DesignError(
            f"{a.name} can't slide {closes} over {b.name}: their planes cross along {line}; say which way it closes"
        )
    return line if along > 0.0 else scaled(line, -1.0)


def _crossing(part: Stood, other: Stood, up: Vector, fit: float) -> _Crossing:
    """Where `other` crosses `part`. Raises DesignError unless it does so right through."""
    cosine = abs(dot(part.at.z, other.at.z))
    width = (other.wood.thickness + part.wood.thickness * cosine) / math.sqrt(1.0 - cosine**2) + fit
    through = _where_planes_cross(part, other)
    x, y, _ = part.at.own_point(through)
    dx, dy, _ = part.at.own_direction(up)
    side: Point = (-dy, dx)
    here = side[0] * x + side[1] * y
    band: list[HalfPlane] = [(side, here + width / 2.0), ((dy, -dx), width / 2.0 - here)]
    outline = part.wood.outline
    if not outline.candidates(side, band):
        raise DesignError(f"{part.name} does not reach {other.name}; slotted parts must cross")
    near, far = outline.extent(side, band)
    if far - near < width - SAME_POINT:
        raise DesignError(
            f"{part.name} ends inside {other.name}; slotted parts must run on past each other, so make it longer"
        )
    low, high = outline.extent((dx, dy), band)
    foot = dot(up, part.at.origin)
    return _Crossing(part, through, up, width, low + foot, high + foot)


def _where_planes_cross(a: Stood, b: Stood) -> Vector:
    """A point of the line in which the middle planes of two parts cross."""
    levels = [dot(p.at.z, p.at.point((0.0, 0.0, p.wood.thickness / 2.0))) for p in (a, b)]
    c = dot(a.at.z, b.at.z)
    u, v = ((levels[n] - c * levels[1 - n]) / (1.0 - c * c) for n in (0, 1))
    return added(scaled(a.at.z, u), scaled(b.at.z, v))


def _seat(a: Stood, b: Stood, foot: Vector, cutter: float) -> tuple[Vector, ...]:
    """Where the slots' feet meet: at the middle of the crossing and out toward both faces of each part, as far as
    reliefs for the cutter leave of them."""
    thin = min(a.wood.thickness, b.wood.thickness)
    out = min(0.2 * thin, 0.4 * (thin / 2.0 - cutter / math.sqrt(2.0)))
    return (foot, *(added(foot, scaled(part.at.z, s * out)) for part in (a, b) for s in (1.0, -1.0)))
