"""Does the finished piece pass all that lies on the way to where it will stand: door, corner, stair, the room's height?

It is carried straight along an axis of one of its parts, rolled as far as helps; round a corner and on a landing it
turns level, whatever stands upright.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import cadquery as cq
import numpy as np

from model.checks.finding import Answer, Finding, Proof
from model.checks.passage.brought_in import brought_in
from model.checks.passage.flat_hull import Numbers
from model.checks.passage.load import Load
from model.checks.passage.obstacles import Obstacle, Verdict, obstacles
from model.checks.solids.facets import facets
from model.checks.solids.stood_solid import stood_solids
from model.piece import Piece
from model.placement import Vector, cross

CHECK = "way in"

#: Width and height of the doorway where nothing is said, mm; no corner; no stair.
DOOR, CORNER, STAIR = (760.0, 1980.0), (0.0, 0.0), (0.0, 0.0, 0.0, 0.0)

#: Directions closer than this are one, as a sine.
SAME = 1e-3


def way_in(
    piece: Piece,
    shapes: Mapping[str, cq.Shape],
    *,
    door: Sequence[float] = DOOR,
    corner: Sequence[float] = CORNER,
    stair: Sequence[float] = STAIR,
    landing: float = 0.0,
    half_turn: bool = False,
    ceiling: float = 0.0,
) -> Answer:
    """A note of how it passes, or a caution with what passes instead. door: width and height; corner: widths of the
    passage before and after; stair: width, headroom, rise and going; landing: depth of the one it turns on, half_turn
    where it turns back; ceiling: of the room; all mm, zeros for none. Shapes by name, where they stand."""
    points = _points(shapes)
    names = [p.name for p in piece if p.name in points]
    if not names:
        return Answer()
    route = list(obstacles(door, corner, stair, landing, half_turn, ceiling))
    load = _load(piece, points, names)
    verdicts = [o.judge(load) for o in route]
    proofs = tuple(Proof(o.proof, 1, int(v.passes)) for o, v in zip(route, verdicts, strict=True))
    failed = [(o, v) for o, v in zip(route, verdicts, strict=True) if not v.passes]
    if not failed:
        return Answer((_passing(route[0], verdicts),), proofs)

    def passes(some: Sequence[str]) -> bool:
        part = _load(piece, points, some)
        return all(o.judge(part).passes for o in route)

    return Answer((_stopped(failed, *brought_in(piece, names, passes)),), proofs)


def _passing(door: Obstacle, verdicts: Sequence[Verdict]) -> Finding:
    first = verdicts[0]
    message = f"the finished piece passes {', and '.join(v.says for v in verdicts)}"
    return Finding(CHECK, "note", (), message, round(first.value, 2), first.limit, "mm", door.source)


def _stopped(failed: Sequence[tuple[Obstacle, Verdict]], parts: tuple[str, ...], remedy: str) -> Finding:
    obstacle, first = failed[0]
    message = f"the finished piece {', and '.join(v.says for _, v in failed)}; {remedy}"
    return Finding(
        CHECK, "caution", parts, message, round(first.value, 2), round(first.limit, 2), "mm", obstacle.source
    )


def _points(shapes: Mapping[str, cq.Shape]) -> dict[str, Numbers]:
    """The corners of every part's facets, where they stand (n, 3), mm."""
    found = {}
    for s in stood_solids(shapes):
        motion = np.array(s.at.matrix())
        found[s.name] = facets(s.own).points @ motion[:, :3].T + motion[:, 3]
    return found


def _load(piece: Piece, points: Mapping[str, Numbers], names: Sequence[str]) -> Load:
    axes: list[Vector] = []
    for name in names:
        at = piece[name].at
        for axis in (at.z, at.y, at.x):
            if all(math.hypot(*cross(axis, known)) > SAME for known in axes):
                axes.append(axis)
    return Load(np.concatenate([points[n] for n in names]), tuple(axes))
