"""Does any cut leave too little wood: under it, beside it, between it and another?

Worked out from what the cuts mean, without the CAD kernel, part by part in its own frame.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from model.checks.finding import Answer, Finding, Proof, Severity
from model.checks.places import measured_spot
from model.checks.solids.cavities import Cavity, cavities, polygon
from model.checks.solids.standing_wood import Remnant, standing
from model.cuts.edges import EdgeCut, EdgeGroove, Tongue
from model.cuts.faces import Bore
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.tenons import TenonedEnd
from model.layout.outline import Outline
from model.part import Part
from model.piece import Piece, Placed
from model.tolerance import SAME_POINT

if TYPE_CHECKING:
    from shapely import LineString, Polygon

CHECK = "wood left"
SOURCE = "common practice; [shop] least_wood of the order"

#: Footprints that share less than this only touch, mm2.
TOUCHING = 0.01


def wood_left(piece: Piece, least: float) -> Answer:
    """Faults where a cut comes through, cautions where it leaves less than `least` mm; equal parts share a finding."""
    alike: dict[Part, list[Placed]] = {}
    for placed in piece:
        if isinstance(placed.part, Part):
            alike.setdefault(placed.part, []).append(placed)
    findings: list[Finding] = []
    checked = 0
    for part, stood in alike.items():
        found = list(dict.fromkeys(remnants(part, least)))
        checked += len(found) * len(stood)
        findings += [_finding(stood, r, least) for r in found if r.left < least - SAME_POINT]
    short = sum(len(f.parts) for f in findings)
    ordered = sorted(findings, key=lambda f: (f.parts, f.message))
    return Answer(tuple(ordered), (Proof("places where cuts leave enough wood", checked, checked - short),))


def remnants(part: Part, least: float) -> list[Remnant]:
    """Every place where the part's cuts could leave too little wood, mm; no further than `least` is looked."""
    found_hollow = (c for c in cavities(part) if not _far(c.outline, part.outline, 0.0))
    hollow = [c for c in found_hollow if not isinstance(c.cut, TenonedEnd)]  # beside a tenon no wood is wanted
    found = [r for c in part.cuts for r in standing(c, part)]
    rim = polygon(part.outline)
    for cavity in hollow:
        if not (cavity.on_arris or isinstance(cavity.cut, Tongue)):
            found += _above_and_below(part, cavity)
            found.append(_beside(part, rim, cavity, least))
    for a, b in combinations(hollow, 2):
        if not _far(a.outline, b.outline, least) and a.cut is not b.cut:
            found += _between(rim, a, b)
    return found


def _far(a: Outline, b: Outline, reach: float) -> bool:
    """Whether two outlines' bounds lie `reach` or more apart."""
    ax0, ay0, ax1, ay1 = a.bounds
    bx0, by0, bx1, by1 = b.bounds
    return max(ax0 - bx1, bx0 - ax1, ay0 - by1, by0 - ay1) >= reach


def _above_and_below(part: Part, c: Cavity) -> Iterator[Remnant]:
    above = part.thickness - c.high
    if c.opens == "edge":
        yield Remnant(c.low, f"between the {c.name} and the back side", c.middle, "move it or make it narrower")
        yield Remnant(above, f"between the {c.name} and the face side", c.middle, "move it or make it narrower")
    elif c.opens != "through":
        yield Remnant(c.low if c.opens == "face" else above, f"under the {c.name}", c.middle, "make it shallower")


def _beside(part: Part, rim: Polygon, c: Cavity, least: float) -> Remnant:
    """Wood between the walls of a hollow and the part's own edge, looked for `least` mm out from each wall."""
    nearest = math.inf
    for wall, behind in _walls(part, rim, c, least):
        reached = rim.exterior.intersection(behind)
        if not reached.is_empty:
            nearest = min(nearest, wall.distance(reached))
    return Remnant(nearest, f"between the {c.name} and the edge", c.middle, "move it further in or make it smaller")


def _walls(part: Part, rim: Polygon, c: Cavity, least: float) -> Iterator[tuple[LineString, Polygon]]:
    """Each wall that stands in wood, drawn in at its ends, and the strip of wood behind it. Ends that run out of the
    part have no wall."""
    import shapely
    from shapely.geometry.polygon import orient

    # a hole that holds something must not come out beside its mouth, so it is looked at whole
    plan = c.plan if c.hidden else c.plan.intersection(rim)
    within = [orient(p) for p in shapely.get_parts(plan) if isinstance(p, shapely.Polygon)]
    for a, b in (side for p in within for side in pairwise(p.exterior.coords)):
        length = math.dist(a, b)
        dx, dy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        if not part.outline.contains(((a[0] + b[0]) / 2.0 + 0.1 * dy, (a[1] + b[1]) / 2.0 - 0.1 * dx)):
            continue
        inset = min(least, length / 4.0)
        p, q = (a[0] + inset * dx, a[1] + inset * dy), (b[0] - inset * dx, b[1] - inset * dy)
        behind = [(x + least * dy, y - least * dx) for x, y in (q, p)]
        yield shapely.LineString([p, q]), shapely.Polygon([p, q, *behind])


def _between(rim: Polygon, a: Cavity, b: Cavity) -> Iterator[Remnant]:
    """Wood between two hollows: through the thickness where one lies over the other, else the wall between them."""
    upright = max(a.low, b.low) - min(a.high, b.high)
    middle = ((a.middle[0] + b.middle[0]) / 2.0, (a.middle[1] + b.middle[1]) / 2.0)
    if a.plan.intersection(b.plan).intersection(rim).area > TOUCHING:
        if _wood_belongs_between(a, b, upright):
            place = f"between the {a.name} and the {b.name} over it"
            yield Remnant(upright, place, middle, "make one shallower or move it")
        return
    apart = a.plan.distance(b.plan)
    if apart > SAME_POINT and not (a.on_arris or b.on_arris):
        left = math.hypot(apart, max(upright, 0.0))
        yield Remnant(left, f"between the {a.name} and the {b.name} beside it", middle, "move one or make it smaller")


def _wood_belongs_between(a: Cavity, b: Cavity, upright: float) -> bool:
    """Whether two hollows that lie over each other should have wood between them. Cuts in one side may cross; a dado
    may run out through the groove or rabbet along an edge; a hole that holds something must not be opened."""
    opens = {a.opens, b.opens}
    if _pegged(a, b) or _pegged(b, a):
        return False
    if "through" in opens or opens in ({"face"}, {"back"}):
        return False
    if opens == {"face", "back"}:
        return True
    if isinstance(a.cut, EdgeCut) and isinstance(b.cut, EdgeCut) and opens == {"edge"}:
        return a.cut.edge != b.cut.edge
    return a.hidden or b.hidden or upright > 0.0


def _pegged(hole: Cavity, hollow: Cavity) -> bool:
    """Whether a peg's hole goes right across a mortise or a groove, as it is meant to."""
    if not isinstance(hole.cut, Bore):
        return False
    across = hole.low < hollow.low + SAME_POINT and hole.high > hollow.high - SAME_POINT
    return across and isinstance(hollow.cut, EdgeGroove | Mortise | OpenMortise)


def _finding(stood: list[Placed], r: Remnant, least: float) -> Finding:
    first, more = stood[0], len(stood) - 1
    names = first.name + (f" and {more} more cut like it" if more else "")
    left = f"{r.left:.2f} mm of wood is left" if r.left > SAME_POINT else "no wood is left"
    message = f"{names}: {left} {r.place}, {measured_spot(*r.at)}; {least:.2f} mm is the least, so {r.remedy}"
    where = first.at.point(first.wood.station((*r.at, first.wood.thickness / 2.0)))
    severity: Severity = "caution" if r.left > SAME_POINT else "fault"
    parts = tuple(p.name for p in stood)
    return Finding(CHECK, severity, parts, message, round(r.left, 4), least, "mm", SOURCE, where)
