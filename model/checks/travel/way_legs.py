"""Is a way home of several legs clear all along? Played backwards, from home, each leg proved whole, not by stills."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from model.checks.solids.skins import stood_skin
from model.checks.travel.turning import Stop, first_stop, pin_frame
from model.checks.travel.ways import HOME, InTheWay, Ways
from model.placement import Placement, scaled
from model.way_home import Leg, Tip


def in_the_way(ways: Ways, moving: Sequence[str], others: Sequence[str], way: Sequence[Leg]) -> InTheWay | None:
    """What the moving parts run into first as they leave home by the legs of their way, last leg first; None if they
    come clear of everything. The travel is mm along the leg, or degrees of it."""
    moved = HOME
    for leg in reversed(way):
        met = _on_leg(ways, moving, others, leg, moved)
        if met is not None:
            return met
        moved = leg.undone @ moved
    return None


def _on_leg(ways: Ways, moving: Sequence[str], others: Sequence[str], leg: Leg, moved: Placement) -> InTheWay | None:
    if isinstance(leg, Tip):
        return least_turn(ways, moving, others, replace(leg, along=scaled(leg.along, -1.0)), moved)
    away = scaled(leg.along, -1.0)
    if math.isinf(leg.travel):
        return next(ways.blockers(moving, others, away, moved), None)
    return ways.first_met(moving, others, away, leg.travel, moved)


def least_turn(
    ways: Ways, moving: Sequence[str], others: Sequence[str], turn: Tip, moved: Placement = HOME
) -> InTheWay | None:
    """What the moving parts run into first as they turn by up to the angle of `turn`, right-handed about its line."""
    frame = pin_frame(turn.pin, turn.along)
    fixed = {o: stood_skin(ways.solids[o], frame) for o in others}
    first: tuple[Stop, str, str] | None = None
    for solid in ways.stood(moving, moved):
        skin = stood_skin(solid, frame)
        for other in ways.asked(solid.name, others):
            reach = math.radians(turn.angle) if first is None else first[0].angle
            stop = first_stop(skin, fixed[other], reach)
            if stop is not None and (first is None or stop.angle < first[0].angle):
                first = stop, solid.name, other
    if first is None:
        return None
    stop, name, other = first
    return InTheWay(name, other, math.degrees(stop.angle), frame.point(stop.where))
