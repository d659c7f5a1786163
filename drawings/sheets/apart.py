"""How far each part is drawn out of its place, so that an exploded view shows it on its way home.

Every joint opens by some way against the direction in which it closes; what is put in later moves rather than what
stands already. What turns or slides comes away as a whole, and comes apart in itself. Millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise

from drawings.lists.distinct import in_short
from model.joints.joint import Joint
from model.piece import Piece, Slide, Swing
from model.placement import Vector, added, dot, scaled, unit

#: Shares of the piece's largest size by which joints open: between things that differ, between things that lie on each
#: other loose, and between things alike that stand in a row, such as back boards (ours, by eye).
_WIDE, _LOOSE, _ROW = 0.15, 0.10, 0.022
#: A part is so much harder to move than one of the step after it.
_STEADIER = 3.0
_ROUNDS, _DONE = 400, 0.2

#: Alike parts that stand nearer to each other than this touch, mm.
_TOUCH = 2.0

Offsets = dict[str, Vector]
#: The least and the greatest x, y and z of a part, mm.
Reach = tuple[Vector, Vector]


@dataclass
class _Opening:
    """Two bodies that must stand `least` mm apart along `way`, the first one in its direction."""

    first: int
    second: int
    way: Vector
    least: float
    push: float = 0.0


def apart(piece: Piece, boxes: Mapping[str, Reach]) -> Offsets:
    """How far each part is drawn out, by name. boxes: how far each part reaches where it stands, by name, mm."""
    size = _largest(boxes)
    of = _bodies(piece)
    alone = {name: n for n, name in enumerate(piece.parts)}
    steps = _steps(piece)
    outer = [j for j in piece.joints if of[j.first] != of[j.second]]
    inner = [j for j in piece.joints if of[j.first] == of[j.second]]
    openings = [*_openings(piece, outer, of, size, steps), *_rows(piece, boxes, of, size, steps)]
    whole = _drawn_out(openings, _steadiness(of, steps))
    within = _drawn_out(_openings(piece, inner, alone, size, steps), _steadiness(alone, steps))
    return {n: added(added(whole[of[n]], within[alone[n]]), _slid(piece, of, n, size)) for n in piece.parts}


def _bodies(piece: Piece) -> dict[str, int]:
    """Which body each part belongs to: what turns or slides is one, each other part is its own."""
    of = {name: n for n, name in enumerate(piece.parts)}
    movers: list[Swing | Slide] = [*piece.swings, *piece.slides]
    for mover in movers:
        body = _held_to(mover.part, piece)
        if 2 * len(body) <= len(piece.parts):
            of |= dict.fromkeys(body, of[mover.part])
    return of


def _held_to(part: str, piece: Piece) -> list[str]:
    """The part and all that is fixed to it: neither by a hinge nor lying loose."""
    fixed = [j for j in piece.joints if not _loose(j) and not _hinged(j)]
    body = [part]
    for name in body:
        for j in fixed:
            other = j.second if j.first == name else j.first if j.second == name else name
            if other not in body:
                body.append(other)
    return body


def _loose(joint: Joint) -> bool:
    return not (joint.first_cuts or joint.second_cuts or joint.hardware or joint.glue_area)


def _hinged(joint: Joint) -> bool:
    return any("hinge" in h.kind for h in joint.hardware)


def _steps(piece: Piece) -> dict[str, int]:
    """The step that brings each part in; the last one for a part that none names."""
    found = {name: len(piece.steps) for name in piece.parts}
    for number, step in reversed(list(enumerate(piece.steps))):
        found |= {name: number for name in step.parts if name in found}
    return found


def _openings(
    piece: Piece, joints: Iterable[Joint], of: Mapping[str, int], size: float, steps: Mapping[str, int]
) -> list[_Opening]:
    found: dict[tuple[int, int, Vector], _Opening] = {}
    for j in joints:
        alike = _stem(j.first) == _stem(j.second) and steps[j.first] == steps[j.second]
        share = _ROW if alike else _LOOSE if _loose(j) else _WIDE
        way = scaled(j.closes, -1.0)
        key = of[j.first], of[j.second], (round(way[0], 3), round(way[1], 3), round(way[2], 3))
        known = found.setdefault(key, _Opening(*key[:2], way, 0.0))
        known.least = max(known.least, share * size)
    return list(found.values())


def _rows(
    piece: Piece, boxes: Mapping[str, Reach], of: Mapping[str, int], size: float, steps: Mapping[str, int]
) -> list[_Opening]:
    """Openings between parts alike that touch and have no joint with each other, such as boards nailed side by side."""
    joined = {frozenset((j.first, j.second)) for j in piece.joints}
    names = list(piece.parts)
    return [
        _Opening(of[b], of[a], unit(added(middle_of(boxes[b]), scaled(middle_of(boxes[a]), -1.0))), _ROW * size)
        for a, b in pairwise(names)
        if _stem(a) == _stem(b)
        and steps[a] == steps[b]
        and of[a] != of[b]
        and frozenset((a, b)) not in joined
        and _touch(boxes[a], boxes[b])
    ]


def _touch(a: Reach, b: Reach) -> bool:
    """Do two parts lie against each other, and not about one middle?"""
    if math.dist(middle_of(a), middle_of(b)) < _TOUCH:
        return False
    return all(a[0][n] - _TOUCH < b[1][n] and b[0][n] - _TOUCH < a[1][n] for n in range(3))


def middle_of(box: Reach) -> Vector:
    """The middle of what a part reaches over, mm."""
    (a, b, c), (d, e, f) = box
    return (a + d) / 2.0, (b + e) / 2.0, (c + f) / 2.0


def _largest(boxes: Mapping[str, Reach]) -> float:
    return max(max(b[1][n] for b in boxes.values()) - min(b[0][n] for b in boxes.values()) for n in range(3))


def _stem(name: str) -> str:
    return in_short([name]).rstrip("0123456789 ")


def _steadiness(of: Mapping[str, int], steps: Mapping[str, int]) -> dict[int, float]:
    """How hard each body is to move: what stands first stays, what has no joint does too."""
    last = max(steps.values(), default=0)
    found: dict[int, float] = {}
    for name, body in of.items():
        found[body] = max(found.get(body, 0.0), _STEADIER ** min(last - steps[name], 8))
    return found


def _drawn_out(openings: list[_Opening], steady: Mapping[int, float]) -> dict[int, Vector]:
    """The least movement of all, weighted by how steady each is, that leaves every opening its way.

    Hildreth's procedure: each opening in turn pushes its two bodies apart as far as it still lacks, or lets go of what
    it has pushed too far.
    """
    at: dict[int, Vector] = dict.fromkeys(steady, (0.0, 0.0, 0.0))
    for _ in range(_ROUNDS):
        most = 0.0
        for o in openings:
            lacking = o.least - dot(added(at[o.first], scaled(at[o.second], -1.0)), o.way)
            push = max(lacking / (1.0 / steady[o.first] + 1.0 / steady[o.second]), -o.push)
            o.push += push
            at[o.first] = added(at[o.first], scaled(o.way, push / steady[o.first]))
            at[o.second] = added(at[o.second], scaled(o.way, -push / steady[o.second]))
            most = max(most, abs(push) / min(steady[o.first], steady[o.second]))
        if most < _DONE:
            break
    return at


def _slid(piece: Piece, of: Mapping[str, int], name: str, size: float) -> Vector:
    """What slides is drawn out of its opening, and a little further."""
    slide = next((s for s in piece.slides if of[s.part] == of[name]), None)
    return scaled(slide.along, slide.opens + _LOOSE * size) if slide else (0.0, 0.0, 0.0)
