"""Can each step be glued in time, and with the clamps at hand?

Pressure: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), chapter 10, p. 10-15: from 0.7 MPa for
light wood to 1.7 MPa for the densest. The handbook gives no open time for white and yellow glue; that is the maker's,
on the bottle: [shop] open_time of the order. Minutes and clamps' forces are common practice.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.checks.finding import Answer, Finding, Proof
from model.checks.travel.closing_order import Build
from model.checks.travel.homecoming import Homecoming
from model.joints.joint import Joint
from model.piece import Piece
from model.placement import Vector, scaled
from model.wood.material import material_named

CHECK = "glue-up"
PRESSURE = "Wood Handbook, FPL-GTR-282 (2021), p. 10-15: 0.7 to 1.7 MPa by density; [shop] clamps of the order"
TIMES = "[shop] open_time of the order: the glue's own; minutes to spread and close are common practice"

#: Pressure on the glue, MPa, in woods of low and of the highest density, and what densities that means, kg/m3: the
#: handbook names no figures, these are about those of white pine and of hickory (common practice).
LIGHT, DENSE = (0.7, 380.0), (1.7, 800.0)

#: What one bar clamp is drawn up to, N (common practice: 1000 lbf).
CLAMP_FORCE = 4500.0

#: How much of the glue in a joint that enters the other part lies square to the clamp; cheeks are pressed by their own
#: fit (common practice).
PRESSED = 0.5

#: Furthest that clamps stand from each other along a joint, mm (common practice: 10 in).
CLAMP_SPACING = 250.0

#: Minutes to brush 100 cm2, to start one more end, to set one biscuit or dowel, and to bring on and drive home whatever
#: closes at once (common practice).
SPREAD, START, KEY, DRIVE = 0.6, 0.25, 0.2, 2.0

#: Hardware glued into both parts.
GLUED_IN = ("biscuit", "dowel", "spline")

#: Hardware that draws a joint up as a clamp would.
DRAWS = ("nail", "screw")

#: What to mind where all of a step's glued joints can't be closed at once.
AT_ONCE_LATE = (
    "All its joints together outlast the glue's open time: close them in goes, or with a helper, or take a slower glue."
)
AT_ONCE_SHORT = "All its joints together take more clamps than the shop has: glue them in goes, or borrow some."

#: Open time, minutes, and clamps, where nothing is said.
OPEN_TIME, CLAMPS = 10.0, 12.0


@dataclass(frozen=True)
class GlueUp:
    """A step's glued joints: area in mm2, clamps needed, minutes from the first glue spread to the last joint home for
    each thing that goes home on its own."""

    step: int
    joints: tuple[Joint, ...]
    area: float
    clamps: int
    minutes: tuple[float, ...]

    @property
    def longest(self) -> float:
        return max(self.minutes)


def glue_up(build: Build, *, open_time: float = OPEN_TIME, clamps: float = CLAMPS) -> Answer:
    """Cautions for glue that would skin over before its joints are home, and for more clamps than there are; a note of
    each step's glue-up. open_time: of the adhesive, minutes; clamps: how many the shop has."""
    all_steps = list(glue_ups(build))
    findings = [f for g in all_steps for f in _findings(g, open_time, clamps)]
    held = sum(g.longest <= open_time for g in all_steps)
    return Answer(tuple(findings), (Proof("steps glued within the open time", len(all_steps), held),))


def glue_ups(build: Build) -> Iterator[GlueUp]:
    """Every step that needs glue."""
    moves = build.played.moves
    pressure = pressure_for(material_named(build.piece.parameters.species).density(12.0))
    for number in range(1, len(build.piece.steps) + 1):
        glued = [(m, js) for m in moves if m.step == number and (js := _glued(m))]
        if glued:
            joints = tuple(j for _, js in glued for j in js)
            area = sum(j.glue_area for j in joints)
            clamps = clamps_for(joints, pressure)
            yield GlueUp(number, joints, area, clamps, tuple(minutes_for(js) for _, js in glued))


def in_goes(piece: Piece, *, open_time: float = OPEN_TIME, clamps: float = CLAMPS) -> dict[int, list[str]]:
    """What to mind in the steps, by their numbers, whose glued joints can't all be closed at once: in that time,
    minutes, or with so many clamps. Told by the joints alone, without playing the steps."""
    brought = {n: number for number, step in reversed([*enumerate(piece.steps, 1)]) for n in step.parts}
    glued: dict[int, list[Joint]] = defaultdict(list)
    for joint in piece.joints:
        if joint.glue_area > 0.0 and {joint.first, joint.second} <= brought.keys():
            glued[max(brought[joint.first], brought[joint.second])].append(joint)
    pressure = pressure_for(material_named(piece.parameters.species).density(12.0))
    said = {}
    for number, joints in sorted(glued.items()):
        late, short = minutes_for(joints) > open_time, clamps_for(joints, pressure) > clamps
        said[number] = [AT_ONCE_LATE] * late + [AT_ONCE_SHORT] * short
    return {number: words for number, words in said.items() if words}


def pressure_for(density: float) -> float:
    """Pressure on the glue, MPa, for wood of a density in kg/m3: the handbook's two figures, a line between them."""
    (low, light), (high, dense) = LIGHT, DENSE
    share = min(max((density - light) / (dense - light), 0.0), 1.0)
    return low + share * (high - low)


def clamps_for(joints: Sequence[Joint], pressure: float) -> int:
    """Clamps for joints glued at once, at a pressure in MPa: one that reaches across a part presses the joints at both
    its ends."""
    needed: dict[tuple[str, Vector], int] = defaultdict(int)
    for joint in joints:
        needed[joint.first, _rounded(joint.closes)] += _clamps(joint, pressure)
    opposite = {key: needed.get((key[0], _rounded(scaled(key[1], -1.0))), 0) for key in needed}
    # a pair is met twice, once from each end, so it counts half each time
    return round(sum(max(n, opposite[k]) / 2.0 if opposite[k] else n for k, n in needed.items()))


def _clamps(joint: Joint, pressure: float) -> int:
    """What its glue area asks for, and no further apart than CLAMP_SPACING over the length of its contact, mm; none
    where nails or screws draw it up."""
    if any(word in h.kind for h in joint.hardware for word in DRAWS):
        return 0
    keyed = any(h.kind in GLUED_IN for h in joint.hardware)
    share = PRESSED if joint.second_cuts and not keyed else 1.0
    force = pressure * share * joint.glue_area
    return max(math.ceil(force / CLAMP_FORCE - 1e-9), math.ceil(_length(joint) / CLAMP_SPACING))


def _rounded(v: Vector) -> Vector:
    return (round(v[0], 6) + 0.0, round(v[1], 6) + 0.0, round(v[2], 6) + 0.0)


def _length(joint: Joint) -> float:
    """From one end of the contact to the other, mm; at least a little, so that one clamp is needed."""
    points = [p for c in joint.contacts for p in c.points]
    return max((math.dist(p, q) for p in points for q in points), default=0.0) or 1.0


def _glued(move: Homecoming) -> list[Joint]:
    return [j for j in move.joints if j.glue_area > 0.0]


def minutes_for(joints: Sequence[Joint]) -> float:
    """Minutes from the first glue spread to the last joint home, of joints that go home at once (common practice)."""
    keys = sum(h.kind in GLUED_IN for j in joints for h in j.hardware)
    area = sum(j.glue_area for j in joints)
    return SPREAD * area / 1e4 + START * len(joints) + KEY * keys + DRIVE


def _findings(g: GlueUp, open_time: float, clamps: float) -> Iterator[Finding]:
    parts = tuple(sorted({n for j in g.joints for n in (j.first, j.second)}))
    count = f"{len(g.joints)} glued joints" if len(g.joints) > 1 else "one glued joint"
    needed = {0: "no clamps, as nails or screws draw it up", 1: "one clamp"}.get(g.clamps, f"{g.clamps} clamps")
    goes = f" in {len(g.minutes)} goes" if len(g.minutes) > 1 else " in one go" if len(g.joints) > 1 else ""
    longest = f"up to {g.longest:.0f} minutes a go" if len(g.minutes) > 1 else f"{g.longest:.0f} minutes"
    text = f"step {g.step}: {count}{goes}, {g.area / 100.0:.0f} cm² of glue, {needed}, {longest}"
    late, short = g.longest > open_time, g.clamps > clamps
    if late:
        message = (
            f"{text}; the glue stays open {open_time:g} minutes, so glue it in two goes, take a helper, or take a "
            "slower glue"
        )
        yield Finding(CHECK, "caution", parts, message, round(g.longest, 2), open_time, "min", TIMES)
    if short:
        there = "one clamp" if clamps == 1 else f"{clamps:g} clamps"
        message = f"{text}; the shop has {there}, so glue it in two goes or borrow {g.clamps - clamps:g}"
        yield Finding(CHECK, "caution", parts, message, float(g.clamps), clamps, "clamps", PRESSURE)
    if not late and not short:
        yield Finding(CHECK, "note", parts, text, round(g.longest, 2), open_time, "min", TIMES)
