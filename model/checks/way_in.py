"""Does the finished piece pass the door, and the corner of the passage or stair, on its way to where it will stand?

It is carried straight through the door along an axis of one of its parts, rolled as far as helps; round the corner it
goes level, whatever stands upright. The axes are the parts' own, so that turning the whole piece changes nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import cadquery as cq
import numpy as np
from numpy.typing import NDArray

from model.checks.facets import facets
from model.checks.finding import Answer, Finding, Proof
from model.checks.stood_solid import stood_solids
from model.piece import Piece
from model.placement import Vector, cross, unit

Numbers = NDArray[np.float64]

CHECK = "way in"
SOURCE = "[place] door and corner of the order; a door of 760 x 1980 mm is common practice"

#: Width and height of the doorway where nothing is said, mm; no corner.
DOOR, CORNER = (760.0, 1980.0), (0.0, 0.0)

#: Rounding that no passage is judged by, mm.
SLACK = 1e-6

#: Directions closer than this are one, as a sine.
SAME = 1e-3


@dataclass(frozen=True)
class Passage:
    """The narrowest doorway of a given height that something passes: width, mm; along, the unit vector of the piece
    that leads; roll, degrees, how far its upright leans in the doorway, 0 to 90."""

    width: float
    along: Vector
    roll: float

    @property
    def manner(self) -> str:
        """How it is carried, in a carrier's words."""
        if abs(self.along[2]) > 0.7:
            return "laid down, its top or its foot first" + ("" if _square(self.roll) else f", rolled {self.roll:.0f}°")
        if self.roll < 1.0:
            return "upright"
        return "on its side" if self.roll > 89.0 else f"leaning {self.roll:.0f}°"


@dataclass(frozen=True, eq=False)
class Load:
    """What is carried: points (n, 3) of its skin, mm, and the axes it may be carried along."""

    points: Numbers
    axes: tuple[Vector, ...]

    @cached_property
    def shadows(self) -> list[Numbers]:
        """What each axis's eye sees of it: a convex polygon (m, 2), mm; as nearly as may be, its second axis is up."""
        return [hull(self.points @ np.array(_across(axis)).T) for axis in self.axes]

    def passage(self, height: float) -> Passage | None:
        """The narrowest doorway of a given height, mm, that it passes; None where it's too tall every way."""
        found = [
            Passage(width, axis, _leaning(angle))
            for axis, seen in zip(self.axes, self.shadows, strict=True)
            for width, angle in least_width(seen, height)
        ]
        return min(found, key=lambda p: (round(p.width, 3), p.roll), default=None)

    def turns(self, corner: tuple[float, float], height: float) -> bool:
        """Whether it goes round a square corner with any of its axes upright, no taller than `height`, mm."""
        for axis, seen in zip(self.axes, self.shadows, strict=True):
            tall = self.points @ np.array(axis)
            if float(np.ptp(tall)) <= height + SLACK and any(rounds(*r, corner) for r in rectangles(seen)):
                return True
        return False


def way_in(
    piece: Piece,
    shapes: Mapping[str, cq.Shape],
    *,
    door: Sequence[float] = DOOR,
    corner: Sequence[float] = CORNER,
) -> Answer:
    """A note of how it passes, or a caution with what passes instead. door: width and height, mm; corner: widths of
    the passage before and after a square corner, mm, zeros for none. Shapes by name, where they stand."""
    points = _points(shapes)
    names = [p.name for p in piece if p.name in points]
    if not names:
        return Answer()
    load = _load(piece, points, names)
    passage = load.passage(door[1])
    through = passage is not None and passage.width <= door[0] + SLACK
    bends = max(corner) > 0.0
    round_it = not bends or load.turns((corner[0], corner[1]), door[1])
    findings = [_finding(piece, points, names, passage, through, round_it, door, corner)]
    proofs = [Proof("doorways that it passes whole", 1, int(through))]
    if bends:
        proofs.append(Proof("corners that it goes round whole", 1, int(round_it)))
    return Answer(tuple(findings), tuple(proofs))


def hull(points: Numbers) -> Numbers:
    """The convex polygon (m, 2) round points (n, 2), anticlockwise (Andrew's monotone chain)."""
    ordered = np.unique(np.round(_outermost(_outermost(points, 8), 32), 6), axis=0).tolist()
    if len(ordered) < 3:
        return np.array(ordered)
    return np.array([*_chain(ordered)[:-1], *_chain(ordered[::-1])[:-1]])


def least_width(polygon: Numbers, height: float) -> list[tuple[float, float]]:
    """The least width of a polygon turned so that it is no taller than `height`, mm, and the turn in radians: a list of
    one, or empty where it is taller every way.

    Between turns that lay an edge along an axis each extent is r cos(turn - t), which has no lowest point inside; so
    the least lies at such a turn, or where the height is just met. Exact.
    """
    turns = _turns(polygon)
    turns = np.concatenate([turns, _just_as_tall(polygon, turns, height)])
    wide, tall = _extent(polygon, turns), _extent(polygon, turns + math.pi / 2.0)
    passing = tall <= height + SLACK
    if not passing.any():
        return []
    least = float(wide[passing].min())
    upright = min(turns[passing & (wide <= least + SLACK)], key=_leaning)
    return [(least, float(upright))]


def rectangles(polygon: Numbers) -> Iterator[tuple[float, float]]:
    """Length and thickness, mm, of every rectangle round a polygon with a side along one of its edges."""
    turns = _turns(polygon)
    for a, b in zip(_extent(polygon, turns), _extent(polygon, turns + math.pi / 2.0), strict=True):
        yield max(float(a), float(b)), min(float(a), float(b))


def rounds(length: float, thickness: float, corner: tuple[float, float]) -> bool:
    """Whether a rectangle goes round a square corner between passages of two widths, mm: turned, or sideways."""
    narrow, wide = min(corner), max(corner)
    sideways = thickness <= narrow + SLACK and length <= wide + SLACK
    return sideways or length <= longest_round(thickness, corner) + SLACK


def longest_round(thickness: float, corner: tuple[float, float]) -> float:
    """The longest rectangle of a thickness that turns a square corner of passages a and b wide, mm, 0 where it is too
    thick: the least over the turn t of (a cos t + b sin t - thickness) / (sin t cos t), the ladder round a corner, its
    far side sliding along both outer walls; for no thickness (a^(2/3) + b^(2/3))^(3/2)."""
    a, b = corner
    if thickness >= min(a, b):
        return 0.0
    low, high = 1e-4, math.pi / 2.0 - 1e-4
    for _ in range(4):
        t = np.linspace(low, high, 2001)
        reach = (a * np.cos(t) + b * np.sin(t) - thickness) / (np.sin(t) * np.cos(t))
        at, step = t[int(reach.argmin())], t[1] - t[0]
        low, high = max(at - step, 1e-6), min(at + step, math.pi / 2.0 - 1e-6)
    return max(float(reach.min()), 0.0)


def _finding(
    piece: Piece,
    points: Mapping[str, Numbers],
    names: Sequence[str],
    passage: Passage | None,
    through: bool,
    round_it: bool,
    door: Sequence[float],
    corner: Sequence[float],
) -> Finding:
    needs = f"a doorway {passage.width:.0f} mm wide, {passage.manner}" if passage else "a taller doorway"
    needed = passage.width if passage else 0.0
    if through and round_it:
        bend = f", and round a corner of {corner[0]:g} and {corner[1]:g} mm" if max(corner) > 0.0 else ""
        return _said("note", (), f"the finished piece passes {needs}{bend}", needed, door[0])
    trouble = f"the finished piece needs {needs}; the door is {door[0]:g} x {door[1]:g} mm"
    if through:
        trouble = f"the finished piece can't be turned round the corner of {corner[0]:g} and {corner[1]:g} mm"
    rest, remedy = _in_pieces(piece, points, names, door, corner)
    return _said("caution", rest, f"{trouble}; {remedy}", needed, door[0])


def _in_pieces(
    piece: Piece, points: Mapping[str, Numbers], names: Sequence[str], door: Sequence[float], corner: Sequence[float]
) -> tuple[tuple[str, ...], str]:
    """The parts that must wait outside or don't pass even alone, and what to do."""

    def passes(some: Sequence[str]) -> bool:
        load = _load(piece, points, some)
        found = load.passage(door[1])
        fits = found is not None and found.width <= door[0] + SLACK
        return fits and (max(corner) == 0.0 or load.turns((corner[0], corner[1]), door[1]))

    stuck = tuple(n for n in names if not passes([n]))
    if stuck:
        return stuck, f"{', '.join(stuck)} can't pass even alone: take a window, or join it on the spot"
    for number in range(len(piece.steps) - 1, 0, -1):
        stood = {n for s in piece.steps[:number] for n in s.parts}
        some = [n for n in names if n in stood]
        if some and len(some) < len(names) and passes(some):
            rest = tuple(n for n in names if n not in stood)
            return rest, f"carry it in as it stands after step {number} and put on the rest inside"
    return tuple(names), "carry it in as loose parts and put it together inside"


def _said(severity: str, parts: tuple[str, ...], message: str, value: float, limit: float) -> Finding:
    kind = "note" if severity == "note" else "caution"
    return Finding(CHECK, kind, parts, message, round(value, 2), limit, "mm", SOURCE)  # type: ignore[arg-type]


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


def _across(along: Vector) -> tuple[Vector, Vector]:
    """Two unit vectors square to a direction and to each other, the second as nearly up as may be."""
    level = cross((0.0, 0.0, 1.0) if abs(along[2]) < 1.0 - 1e-9 else (0.0, 1.0, 0.0), along)
    across = unit(level)
    return across, cross(along, across)


def _square(degrees: float) -> bool:
    return min(degrees, 90.0 - degrees) < 1.0


def _leaning(turn: float) -> float:
    """How far from upright a turn leaves it, degrees, 0 to 90."""
    half = math.degrees(turn) % 180.0
    return float(min(half, 180.0 - half))


def _turns(polygon: Numbers) -> Numbers:
    """The turns that lay an edge of the polygon along either axis, radians, all of a half turn, in order."""
    edges = np.roll(polygon, -1, axis=0) - polygon
    along = np.arctan2(edges[:, 1], edges[:, 0]) % (math.pi / 2.0)
    turns: Numbers = np.unique(np.round(np.concatenate([[0.0], along, along + math.pi / 2.0]), 12))
    return turns


def _extent(polygon: Numbers, turns: Numbers) -> Numbers:
    """How far the polygon reaches along the direction at each turn, mm."""
    extent: Numbers = np.ptp(polygon @ np.array([np.cos(turns), np.sin(turns)]), axis=0)
    return extent


def _just_as_tall(polygon: Numbers, turns: Numbers, height: float) -> Numbers:
    """The turns at which the polygon is just `height` tall, mm."""
    ends = np.append(turns, math.pi)
    middle = (ends[:-1] + ends[1:]) / 2.0 + math.pi / 2.0
    reach = polygon @ np.array([np.cos(middle), np.sin(middle)])
    span = polygon[reach.argmax(axis=0)] - polygon[reach.argmin(axis=0)]
    r, t = np.hypot(*span.T), np.arctan2(span[:, 1], span[:, 0])
    swing = np.arccos(np.clip(height / np.maximum(r, 1e-12), -1.0, 1.0))

    found = np.concatenate([t + swing, t - swing]) - math.pi / 2.0
    met = np.abs(_extent(polygon, found + math.pi / 2.0) - height) < SLACK
    just: Numbers = found[met] % math.pi
    return just


def _outermost(points: Numbers, ways: int) -> Numbers:
    """The points but for those that lie inside the polygon of those farthest so many ways (Akl, Toussaint 1978)."""
    t = np.arange(ways) * 2.0 * math.pi / ways
    far = points[(points @ np.array([np.cos(t), np.sin(t)])).argmax(axis=0)]
    edge = np.roll(far, -1, axis=0) - far
    off = points[:, None, :] - far[None]
    inside = (edge[:, 0] * off[..., 1] - edge[:, 1] * off[..., 0] > -SLACK) | (np.hypot(*edge.T) < SLACK)
    kept: Numbers = np.concatenate([far, points[~inside.all(axis=1)]])
    return kept


def _chain(ordered: list[list[float]]) -> list[list[float]]:
    chain: list[list[float]] = []
    for p in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0.0:
            chain.pop()
        chain.append(p)
    return chain


def _turn(a: list[float], b: list[float], c: list[float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
