"""Boards joined edge to edge with a loose spline in grooves along both edges."""

from __future__ import annotations

from dataclasses import dataclass

from model.cuts.edges import EdgeGroove
from model.cuts.removal import Plane
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.edge import BOTTOM_ROOM
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.edge_meeting import EdgeMeeting, edge_meeting
from model.joints.meetings.shared_face import SharedFace, shared_face
from model.joints.meetings.whereabouts import whereabouts
from model.placement import Vector, dot, scaled
from model.tolerance import CONTACT, SAME_POINT

SPLINE_RULE = (
    "NAVEDTRA 14119, chapter 3: spline a third of the stock thick and twice the stock wide, its grain across the joint"
)
#: How much wider than the spline its grooves are, mm, for glue (common practice).
SPLINE_FIT = 0.1


@dataclass(frozen=True)
class _Level:
    """The thickness two flush or stepped boards have in common, in the second's own z, and the first seen from it."""

    low: float
    high: float
    first_back: float
    same_way: bool

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2.0

    @property
    def stock(self) -> float:
        return self.high - self.low

    @property
    def in_first(self) -> float:
        """The middle, in the first board's own z."""
        return self.middle - self.first_back if self.same_way else self.first_back - self.middle


def splined(
    a: Stood,
    to: Stood,
    *,
    thickness: float | None = None,
    width: float | None = None,
    fit: float = SPLINE_FIT,
    stopped: float = 0.0,
) -> Joint:
    """`a` glued edge to edge to `to`, a loose spline in grooves along both edges; their faces lie parallel.

    thickness, width: of the spline, mm; a third of the stock and twice the stock if not said. fit: how much wider its
    grooves are, mm. stopped: how far from the ends of the joint the grooves stop, mm, 0 for right through. glue_area,
    mm2: the edges that meet, less the grooves, and both sides of the spline in one board. Raises DesignError if the
    boards don't touch edge to edge, lean (a splined miter joins those), or if the spline is too thick.
    """
    m = edge_meeting(a, to)
    level = _level(m)
    _require_touch(m)
    thick = clean(level.stock / 3.0 if thickness is None else thickness)
    wide = clean(2.0 * level.stock if width is None else width)
    if not 0.0 < thick <= level.stock / 2.0:
        raise DesignError(
            f"a spline {thick:.2f} mm thick leaves cheeks of {(level.stock - thick) / 2.0:.2f} mm in {a.name} and "
            f"{to.name}; a third of the stock, {level.stock / 3.0:.1f} mm, is the rule (NAVEDTRA 14119, chapter 3)"
        )
    face = _face(m)
    low, high = m.shared()
    if high - low <= 2.0 * stopped:
        raise DesignError(f"grooves {high - low:.1f} mm long can't stop {stopped:g} mm short at both ends")
    length = high - low - 2.0 * stopped
    groove = clean(thick + fit)
    cuts = tuple(
        EdgeGroove(
            edge=edge,
            width=groove,
            depth=clean(wide / 2.0 + BOTTOM_ROOM),
            rise=clean(middle - groove / 2.0),
            start=start,
            stop=stop,
        )
        for edge, middle, (start, stop) in (
            (m.first_edge, level.in_first, _ends(a, m.first_edge, to, (low, high), stopped)),
            (m.second_edge, level.middle, _ends(to, m.second_edge, to, (low, high), stopped)),
        )
    )
    return Joint(
        "spline",
        a.name,
        to.name,
        m.closing,
        (face.contact(lambda p: abs(to.at.own_point(p)[2] - level.middle) > groove),),
        cuts[:1],
        cuts[1:],
        fit,
        face.area + (wide - groove) * length,
        (_piece(m, level, thick, wide, low + stopped, length),),
        SPLINE_RULE,
    )


def _level(m: EdgeMeeting) -> _Level:
    seen, second = m.first.at.seen_from(m.second.at), m.second.wood.thickness
    if max(abs(seen.z[0]), abs(seen.z[1]), abs(seen.x[1])) > 1e-5:
        raise DesignError(
            f"{m.first.name} leans against {m.second.name}; a spline along square edges needs their faces and edges "
            "parallel (boards at an angle take a splined miter)"
        )
    ends = sorted(seen.point((0.0, 0.0, z))[2] for z in (0.0, m.first.wood.thickness))
    low, high = max(ends[0], 0.0), min(ends[1], second)
    if high - low < CONTACT:
        raise DesignError(f"the edges of {m.first.name} and {m.second.name} pass each other; place them level")
    return _Level(clean(low), clean(high), seen.origin[2], seen.z[2] > 0.0)


def _require_touch(m: EdgeMeeting) -> None:
    if abs(m.length) > CONTACT:
        way = "stops short of" if m.length < 0.0 else "runs into"
        raise DesignError(
            f"{m.first.name} {way} {m.second.name} by {abs(m.length):.2f} mm; boards with a loose spline touch edge to "
            "edge"
        )


def _face(m: EdgeMeeting) -> SharedFace:
    """Where the two edges lie on each other."""
    toward = scaled(m.closing, -1.0)
    edge = m.second.at.point((0.0, m.second_y(), 0.0))
    face = shared_face(m.first, m.second, Plane(toward, dot(toward, edge)))
    if face is None:
        stand = whereabouts(m.first, m.second)
        raise DesignError(f"{m.first.name} and {m.second.name} do not lie beside each other; {stand}")
    return face


def _ends(
    part: Stood, edge: str, second: Stood, shared: tuple[float, float], stopped: float
) -> tuple[float | None, float | None]:
    """Start and stop along one board's edge, given as places along the second's own x; None for right through."""
    if stopped <= SAME_POINT:
        return None, None
    edges = part.wood.outline.named(edge)
    start, (dx, _) = edges[0].start, edges[0].direction(0.0)
    own = [part.at.own_point(second.at.point((x, 0.0, 0.0)))[0] for x in shared]
    places = sorted(dx * (x - start[0]) for x in own)
    return clean(places[0] + stopped), clean(places[1] - stopped)


def _piece(m: EdgeMeeting, level: _Level, thick: float, wide: float, start: float, length: float) -> Hardware:
    at: Vector = m.second.at.point((start, m.second_y(), level.middle))
    size = f"{thick:g} x {wide:g} x {length:.1f} mm, grain across"
    names = (m.first.name, m.second.name)
    return Hardware("spline", size, at, m.second.at.x, names, length, wide, thick, m.closing)
