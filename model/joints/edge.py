"""Boards joined edge to edge: tongue and groove."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from model.cuts.edges import EdgeGroove, Tongue
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.edge_meeting import EdgeMeeting, edge_meeting
from model.placement import scaled

TONGUE_RULE = "NAVEDTRA 14119, chapter 3: tongue a third of the stock"

#: Room left at the bottom of the groove, mm (1/32 in, common practice).
BOTTOM_ROOM = 0.8
#: Least play of a tongue in its groove, mm (common practice for a dry, sliding fit).
PLAY = 0.15

#: Boards at a smaller angle than this lie in one plane, radians: 0.01 mm over 100 mm.
IN_LINE = 1e-4

#: Where on a shoulder contact is looked for, as a share of it from the tongue; and how far off the groove, mm.
CLOSE, NEAR = 0.15, 0.05


def tongue_and_groove(tongued: Stood, into: Stood, *, width: float | None = None, tongue: float | None = None) -> Joint:
    """A tongue along the edge of `tongued`, as long as it runs past the edge of `into`, in a groove there.

    width: of the groove, mm, a third of the stock if not said; tongue: thickness, mm, the fullest that goes in if not
    said (boards that stand at an angle, or a step apart, need a thinner one). Raises DesignError if the boards don't
    meet edge to edge or the tongue is too thick to go in.
    """
    m = _edges(tongued, into)
    groove_width = clean(width or into.wood.thickness / 3.0)
    fullest = fullest_tongue(tongued, into, groove_width)
    thickness = clean(tongue or fullest)
    if not 0.0 < thickness <= fullest + 1e-6:
        raise DesignError(
            f"a tongue {thickness:.2f} mm thick does not go into the groove between {tongued.name} and {into.name}: "
            f"at the angle they stand, {fullest:.2f} mm is the fullest; widen the groove or make the boards narrower"
        )
    rise_groove = clean((into.wood.thickness - groove_width) / 2.0)
    rise_tongue = clean((tongued.wood.thickness - thickness) / 2.0)
    depth = clean(m.length + BOTTOM_ROOM)
    return Joint(
        "tongue and groove",
        tongued.name,
        into.name,
        m.closing,
        (_engaged(m), *_shouldered(m, rise_tongue, rise_groove)),
        (Tongue(edge=m.first_edge, thickness=thickness, length=m.length, rise=rise_tongue),),
        (EdgeGroove(edge=m.second_edge, width=groove_width, depth=depth, rise=rise_groove),),
        clean(groove_width - thickness),
        0.0,
        (),
        TONGUE_RULE,
    )


def fullest_tongue(tongued: Stood, into: Stood, width: float) -> float:
    """The thickest tongue, mm, that goes into a groove of `width` between two placed boards."""
    m = _edges(tongued, into)
    thickness = (width - 2.0 * _lean(m) - PLAY) / math.cos(m.angle)
    if thickness <= 0.0:
        raise DesignError(
            f"{tongued.name} and {into.name} stand at such an angle that no tongue goes into a groove {width:g} mm "
            "wide; make the boards narrower or the radius larger"
        )
    return thickness


def _edges(tongued: Stood, into: Stood) -> EdgeMeeting:
    """How they meet, its length taken across the tongued board: leaning, its tip runs in less than its tongue is long,
    and a shoulder only that far back would bind."""
    m = edge_meeting(tongued, into)
    if m.length <= 0.0:
        raise DesignError(
            f"{tongued.name} stops {-m.length:.2f} mm short of {into.name}; a tongue must run past its edge"
        )
    return replace(m, length=clean(m.length / math.cos(m.angle)))


def _lean(m: EdgeMeeting) -> float:
    """How far the tongue's middle line strays from the groove's, over the tongue's length, mm."""
    seen, half = m.first.at.seen_from(m.second.at), m.first.wood.thickness / 2.0
    middle = m.second.wood.thickness / 2.0
    return max(abs(seen.point((0.0, m.first_y(inset), half))[2] - middle) for inset in (0.0, m.length))


def _shouldered(m: EdgeMeeting, rise_tongue: float, rise_groove: float) -> Iterator[Contact]:
    """The shoulders on both sides of the tongue against the edge beside its groove, all along, close to the tongue,
    clear of beads and eased corners; boards that stand at an angle meet there in a line, and are not looked at."""
    if m.angle > IN_LINE:
        return
    board, other = m.first.wood, m.second.wood
    y, close = m.first_y(m.length), 1.0 - CLOSE
    for level in (close * rise_tongue, board.thickness - close * rise_tongue):
        spots = [m.first.at.point((t * board.stock.length, y, level)) for t in (0.1, 0.5, 0.9)]
        seen = [m.second.at.own_point(p) for p in spots]
        facing = [
            p
            for p, (x, _, z) in zip(spots, seen, strict=True)
            if 0.0 < x < other.stock.length
            and (0.0 < z < rise_groove - NEAR or NEAR < z - other.thickness + rise_groove < rise_groove)
        ]
        if facing:
            yield Contact(tuple(facing), scaled(m.closing, -1.0))


def _engaged(m: EdgeMeeting) -> Contact:
    """The tongue's tip stands just off the bottom of its groove, all along."""
    board, half = m.first.wood, m.first.wood.thickness / 2.0
    y = m.first_y()
    length = board.stock.length
    points = tuple(m.first.at.point((t * length, y, half)) for t in (0.1, 0.5, 0.9))
    slack = m.length * math.sin(m.angle) + 2.0 * board.thickness * math.sin(m.angle)
    return Contact(points, scaled(m.closing, -1.0), BOTTOM_ROOM + slack)
