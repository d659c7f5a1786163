"""What dovetail and box joint share: tails or fingers drawn on a board's end, as a cut, and where they touch."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model.cuts.dovetails import Tails, middle
from model.errors import DesignError
from model.joints.joint import Contact
from model.joints.meetings.box_corner import BoxCorner, seen
from model.layout.outline import Outline
from model.placement import Vector, cross, dot, scaled, tidy, unit
from model.tolerance import CONTACT


@dataclass(frozen=True)
class Flank:
    """One side of a tail or finger: its middle in the piece, its area, mm2, and the way into the tail's wood."""

    middle: Vector
    area: float
    inward: Vector


def end_cut(c: BoxCorner, drawn: Sequence[Outline], depth: float, kind: type[Tails] = Tails) -> Tails:
    """The cut that leaves these tails, or fingers, on the first board's end, `depth` mm into the second."""
    at = c.first.at
    through = tidy(at.own_direction(c.out_of_second))
    return kind(tuple(drawn), seen(c.face_of_second, at), seen(c.tip(depth), at), c.outer_side, through, c.limits())


def flanks(c: BoxCorner, drawn: Sequence[Outline]) -> list[Flank]:
    """The two of each tail, in turn."""
    found = []
    for e in (outline.edges[n] for outline in drawn for n in (1, 3)):
        dx, dy = e.direction(0.0)
        normal = cross(c.first.at.direction((dx, dy, 0.0)), c.out_of_second)
        # wood lies to the left of an outline's edge
        left = c.first.at.direction((-dy, dx, 0.0))
        inward = unit(scaled(normal, math.copysign(1.0, dot(normal, left))))
        area = e.length * c.through * math.sqrt(dot(normal, normal))
        found.append(Flank(c.carried(e.point(0.5), 0.5), area, inward))
    return found


def seats(c: BoxCorner, drawn: Sequence[Outline], pins: Sequence[float]) -> tuple[Contact, Contact]:
    """Tails on the bottoms of their sockets; the shoulder, at stations `pins` along it, on the second's inner face."""
    bottoms = tuple(c.carried(middle(outline), 1.0) for outline in drawn)
    shoulder = tuple(c.spot(s, 0.0, 0.5) for s in pins)
    return (Contact(bottoms, scaled(c.face_of_first.normal, -1.0)), Contact(shoulder, c.face_of_second.normal))


def covers(c: BoxCorner) -> None:
    """Raises DesignError unless the first board's end comes right through the second, and not far past it."""
    least, _ = c.reach()
    thick, first, second = c.second.wood.thickness, c.first.name, c.second.name
    if least < thick - CONTACT:
        raise DesignError(
            f"{first} stops {thick - least:.2f} mm short of the outside of {second}; at this corner it must come out "
            "flush there, so let it run that much further"
        )
    not_far_past(c)


def not_far_past(c: BoxCorner) -> None:
    """Raises DesignError where the first board runs so far past the second that it is no corner."""
    past = c.reach()[0] - c.second.wood.thickness
    if past > c.first.wood.thickness + c.second.wood.thickness:
        raise DesignError(
            f"{c.first.name} runs {past:.1f} mm past {c.second.name}, which makes no corner; shorten it, or let the "
            "other in with a dado or a sliding dovetail"
        )
