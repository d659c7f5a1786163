"""Boards joined edge to edge: tongue and groove."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model.cuts.edges import EdgeGroove, Tongue
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.placement import Vector, scaled

TONGUE_RULE = "NAVEDTRA 14119, chapter 3: tongue a third of the stock"

#: Room left at the bottom of the groove, mm (1/32 in, common practice).
BOTTOM_ROOM = 0.8
#: Least play of a tongue in its groove, mm (common practice for a dry, sliding fit).
PLAY = 0.15


@dataclass(frozen=True)
class _EdgeMeeting:
    """The tongued board's edge seen in the grooved board's frame."""

    tongued: Stood
    grooved: Stood
    tongue_edge: str
    groove_edge: str
    length: float

    def lean(self, width: float) -> float:
        """How far the tongue's middle line strays from the groove's, over the tongue's length, mm."""
        seen = self.tongued.at.seen_from(self.grooved.at)
        t_width, half = self.tongued.wood.stock.width, self.tongued.wood.thickness / 2.0
        middle = self.grooved.wood.thickness / 2.0
        ys = (0.0, self.length) if self.tongue_edge == "near" else (t_width - self.length, t_width)
        return max(abs(seen.point((0.0, y, half))[2] - middle) for y in ys)

    def angle(self) -> float:
        """Between the boards' faces, radians."""
        z = self.tongued.at.seen_from(self.grooved.at).z
        return math.acos(min(1.0, abs(z[2])))


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
        _closing(m),
        (_engaged(m),),
        (Tongue(edge=m.tongue_edge, thickness=thickness, length=m.length, rise=rise_tongue),),
        (EdgeGroove(edge=m.groove_edge, width=groove_width, depth=depth, rise=rise_groove),),
        clean(groove_width - thickness),
        0.0,
        (),
        TONGUE_RULE,
    )


def fullest_tongue(tongued: Stood, into: Stood, width: float) -> float:
    """The thickest tongue, mm, that goes into a groove of `width` between two placed boards."""
    m = _edges(tongued, into)
    thickness = (width - 2.0 * m.lean(width) - PLAY) / math.cos(m.angle())
    if thickness <= 0.0:
        raise DesignError(
            f"{tongued.name} and {into.name} stand at such an angle that no tongue goes into a groove {width:g} mm "
            "wide; make the boards narrower or the radius larger"
        )
    return thickness


def _edges(tongued: Stood, into: Stood) -> _EdgeMeeting:
    seen = tongued.at.seen_from(into.at)
    width, grooved_width = tongued.wood.stock.width, into.wood.stock.width
    toward_far = seen.point((0.0, width / 2.0, 0.0))[1] > grooved_width / 2.0
    same_way = seen.y[1] > 0.0
    tongue_edge = "near" if toward_far == same_way else "far"
    y = 0.0 if tongue_edge == "near" else width
    tips = [seen.point((0.0, y, z))[1] for z in (0.0, tongued.wood.thickness)]
    length = clean(grooved_width - min(tips) if toward_far else max(tips))
    if length <= 0.0:
        raise DesignError(
            f"{tongued.name} stops {-length:.2f} mm short of {into.name}; a tongue must run past its edge"
        )
    if length > min(width, grooved_width) / 2.0:
        raise DesignError(f"{tongued.name} and {into.name} do not meet edge to edge; check where they stand")
    return _EdgeMeeting(tongued, into, tongue_edge, "far" if toward_far else "near", length)


def _closing(m: _EdgeMeeting) -> Vector:
    """The tongued board moves edgeways into the groove."""
    return scaled(m.grooved.at.y, -1.0 if m.groove_edge == "far" else 1.0)


def _engaged(m: _EdgeMeeting) -> Contact:
    """The tongue's tip stands just off the bottom of its groove, all along."""
    board, half = m.tongued.wood, m.tongued.wood.thickness / 2.0
    y = 0.0 if m.tongue_edge == "near" else board.stock.width
    length = board.stock.length
    points = tuple(m.tongued.at.point((t * length, y, half)) for t in (0.1, 0.5, 0.9))
    slack = m.length * math.sin(m.angle()) + 2.0 * board.thickness * math.sin(m.angle())
    return Contact(points, scaled(_closing(m), -1.0), BOTTOM_ROOM + slack)
