"""The ship-lap: boards edge to edge whose half-thick lips lie over each other, free to move, flat or round an arc."""

from __future__ import annotations

from dataclasses import dataclass

from model.cuts.cut import Side
from model.cuts.edges import Rabbet
from model.errors import DesignError
from model.joints.joint import Contact, Joint, Stood, clean
from model.joints.meetings.edge_meeting import EdgeMeeting, edge_meeting
from model.placement import Placement, scaled

SHIP_LAPPING = "common practice: lips half the stock thick, lapped 3/8 in (10 mm), 1/16 in (1.6 mm) left to move"
#: Room left for the boards to swell, mm, and the usual lap, mm.
GAP, USUAL_LAP = 1.6, 10.0


def ship_lap(a: Stood, over: Stood, *, gap: float = GAP, share: float = 0.5) -> Joint:
    """`a` lapped over the edge of `over`, on the face side of `over`: a rabbet along each, dry.

    The lap is as wide as `a` runs past the edge of the other. Boards may stand at a small angle, as round an arc: the
    lower rabbet is then as much deeper as the upper lip needs, and both wide enough to clear. gap: left open before
    each shoulder, mm, for movement. share: of the thickness of `a`, how thick its lip is. Raises DesignError if the
    boards don't lap, or stand so that a lip would have no wood; CutError if a rabbet can't be made.
    """
    m = edge_meeting(a, over)
    if m.length <= 0.0:
        raise DesignError(
            f"{a.name} stops {-m.length:.2f} mm short of {over.name}; boards ship-lapped run over each other by the "
            f"lap, commonly {USUAL_LAP:g} mm"
        )
    if gap < 0.0 or not 0.0 < share < 1.0:
        raise DesignError(
            f"a ship-lap can't have a gap of {gap:g} mm and a share of {share:g}; 1.6 mm and a half will do"
        )
    lips = _lips(m, share)
    thickness = over.wood.thickness
    if not 0.0 < lips.floor < thickness:
        raise DesignError(
            f"{a.name} stands so that {over.name} would keep a lip of {lips.floor:.2f} mm in {thickness:g} mm stock; "
            "half is the rule, so set the faces level, or make the boards narrower round the arc"
        )
    first = Rabbet(edge=m.first_edge, width=clean(lips.first_reach + gap), depth=lips.rabbet, side=lips.under)
    second = Rabbet(
        edge=m.second_edge, width=clean(lips.second_reach + gap), depth=clean(thickness - lips.floor), side="face"
    )
    low, high = m.shared()
    y = m.second_y(lips.second_reach / 2.0)
    points = tuple(over.at.point((low + t * (high - low), y, lips.floor)) for t in (0.1, 0.5, 0.9))
    return Joint(
        "ship-lap",
        a.name,
        over.name,
        scaled(over.at.z, -1.0),
        (Contact(points, over.at.z, lips.lean),),
        (first,),
        (second,),
        gap,
        source=SHIP_LAPPING,
    )


@dataclass(frozen=True)
class _Lips:
    """How the two lips lie: the first's rabbet and the side it is in, the second's lip's top (`floor`, own z); how far
    each board's shoulder must lie in to clear the other's lip; how far from parallel the lips lie, mm."""

    rabbet: float
    under: Side
    floor: float
    first_reach: float
    second_reach: float
    lean: float


def _lips(m: EdgeMeeting, share: float) -> _Lips:
    a = m.first.wood
    seen = m.first.at.seen_from(m.second.at)
    same_way = seen.z[2] > 0.0
    rabbet = clean((1.0 - share) * a.thickness)
    underside, top = (rabbet, a.thickness) if same_way else (a.thickness - rabbet, 0.0)
    (_, y0, tip), (_, y1, z1) = (seen.point((0.0, m.first_y(inset), underside)) for inset in (0.0, m.length))
    over_edge = tip + (z1 - tip) * (m.second_y() - y0) / (y1 - y0)
    floor = clean(min(tip, over_edge))
    return _Lips(
        rabbet,
        "back" if same_way else "face",
        floor,
        _reach_into_first(m, (0.0, floor)),
        _reach_into_second(m, seen, (underside, top)),
        abs(tip - over_edge),
    )


def _reach_into_first(m: EdgeMeeting, heights: tuple[float, float]) -> float:
    """How far the second board's edge lies inside the first's, mm, at most, between two heights of the second."""
    seen = m.second.at.seen_from(m.first.at)
    ys = [seen.point((0.0, m.second_y(), z))[1] for z in heights]
    return max(ys) if m.first_edge == "near" else m.first.wood.stock.width - min(ys)


def _reach_into_second(m: EdgeMeeting, seen: Placement, heights: tuple[float, float]) -> float:
    """How far the first board's edge lies inside the second's, mm, at most, between two heights of the first."""
    ys = [seen.point((0.0, m.first_y(), z))[1] for z in heights]
    return max(ys) if m.second_edge == "near" else m.second.wood.stock.width - min(ys)
