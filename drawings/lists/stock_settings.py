"""What is set for the cuts made in any board: trenches and holes in its sides, work along its edges, saw cuts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from drawings.cutting.finished import finished_bounds
from drawings.lists.bore_rows import BoreRow
from drawings.lists.fences import nearer_fence, saw_stop, stop_point
from drawings.lists.hole_entry import Entry, bored_through, entry, sunk
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.notch_walls import Walls, notch_walls
from drawings.lists.setting import LAID_OUT, Setting, Settings
from drawings.lists.stock_words import STEEPEST_BLADE
from drawings.lists.teller import edge_in_words, toward
from model.cuts.cut import Cut
from model.cuts.drilling import leaning_from
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BISCUIT_THICKNESS, BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.gains import HingeGain
from model.cuts.legs import Taper, Turned
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.pockets import Pocket
from model.cuts.sawn import SawCut
from model.cuts.slots import SlottedHole
from model.cuts.through import Notch
from model.part import Part
from model.placement import Vector
from model.tolerance import SAME_POINT

#: A hole begun no further than this off an edge that is not quite square to it is as deep as there is wood, mm; one
#: begun further off, where an edge slants or is hollow, is as deep as from where it begins.
_JUST_OFF = 0.5


def channel(cut: Channel, part: Part, angle: float | None = None) -> Iterator[Setting]:
    """A trench, its fence at the nearer end or edge."""
    (dx, dy), half = cut.direction, cut.width / 2.0
    axis = 0 if abs(dx) < 1e-9 else 1 if abs(dy) < 1e-9 else None
    if axis is None:
        yield Setting(cut.name, cut.width, cut.depth, angle, place=f"{cut.side} side, {LAID_OUT}")
        return
    fence = nearer_fence(part, axis, cut.start[axis] - half, cut.start[axis] + half)
    place = f"{cut.side} side from {fence.named}"
    yield Setting(cut.name, cut.width, cut.depth, angle, fence.distance, fence.against, place)


def plunged(name: str, width: float, depth: float, at: Vector, into: Vector, part: Part) -> Setting:
    """Into a side at a place laid out, or into an edge at a height set from the back side, to the cut's middle."""
    found = entry(at, into, part)
    lean = found.lean if found.leaning else None
    if found.side is not None:
        place = f"{found.side} side{leaning_in_words(found)}, {LAID_OUT}"
        deep = min(depth, part.thickness / abs(into[2]))
        return Setting(name, width, deep, lean, place=place)
    deep = depth - found.off if found.leaning or abs(found.off) < _JUST_OFF else depth
    edge = edge_in_words(found.edge) + leaning_in_words(found)
    return Setting(name, width, deep, lean, found.at[2], "back side, to its middle", edge)


def leaning_in_words(found: Entry) -> str:
    """Which way to tilt the work, or the cutter; nothing for what goes in square."""
    return f", leaning toward {toward(found.way, found.side)}" if found.leaning else ""


def row_settings(row: BoreRow, part: Part) -> Iterator[Setting]:
    """A row of bores, its fence at the nearer edge, to the middle of the holes."""
    y, (diameter, depth) = row.first.at[1], (row.first.diameter, row.first.depth)
    fence, name = nearer_fence(part, 1, y, y), f"row of {len(row.bores)} holes"
    against, place = f"{fence.against}, to its middle", f"{row.side} side along {fence.named}"
    yield Setting(name, diameter, depth, None, fence.distance, against, place, spacing=round(row.spacing, 6))


def _bore(cut: Bore, part: Part) -> Iterator[Setting]:
    """One right through an edge, an end or a tenon has no depth to be set."""
    found = entry(cut.at, cut.into, part)
    made = plunged("hole", cut.diameter, cut.depth, cut.at, cut.into, part)
    if has_depth(found, cut, part):
        yield made
    else:
        side = f"{found.side} side" if found.side else edge_in_words(found.edge)
        yield replace(made, depth=None, place=f"{side}, right through, {LAID_OUT}")


def has_depth(found: Entry, cut: Bore, part: Part) -> bool:
    """Is it set how deep it goes? One through the stock itself is set to the stock."""
    stock = found.side is not None and not sunk(found, part)
    return stock or not bored_through(found, cut.depth, part)


def _counterbore(cut: Counterbore, part: Part) -> Iterator[Setting]:
    yield plunged("counterbore", cut.diameter, cut.depth, cut.at, cut.into, part)
    leaning = leaning_from(cut.at, cut.into, part.thickness)
    through = part.thickness / abs(cut.into[2]) if leaning else part.thickness
    yield plunged("clearance hole", cut.clearance, through, cut.at, cut.into, part)


def _biscuit_slot(cut: BiscuitSlot, part: Part) -> Iterator[Setting]:
    yield plunged(f"biscuit slot No. {cut.size}", BISCUIT_THICKNESS, cut.depth, cut.at, cut.into, part)


def _slotted_hole(cut: SlottedHole, part: Part) -> Iterator[Setting]:
    name = "hole" if cut.round else cut.name
    if runs_through(cut, part):
        yield Setting(name, cut.width, None, place=f"{entered(cut.into)} side, right through, {LAID_OUT}")
    else:
        yield plunged(name, cut.width, cut.depth, cut.at, cut.into, part)


def runs_through(cut: SlottedHole, part: Part) -> bool:
    """Does it begin off the wood and end off it, so that it has no depth to be set, as through a tongue?"""
    ends = cut.at[2], cut.at[2] + cut.into[2] * cut.depth
    return entered(cut.into) is not None and min(ends) < -SAME_POINT and max(ends) > part.thickness + SAME_POINT


def _pocket(cut: Pocket, part: Part) -> Iterator[Setting]:
    side = "face" if cut.into[2] < 0.0 else "back"
    slope = math.degrees(math.asin(abs(cut.into[2])))
    yield Setting(cut.name, cut.diameter, None, slope, cut.collar, "end, to the pocket's floor", f"{side} side")


def _hinge_gain(cut: HingeGain, part: Part) -> Iterator[Setting]:
    edge, _ = nearest_edge(part.outline, (cut.at[0], cut.at[1]))
    yield Setting(cut.name, cut.leaf, cut.depth, None, 0.0, "edge", f"{edge_in_words(edge.name)}, {LAID_OUT}")


def _rabbet(cut: Rabbet, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.depth, None, 0.0, "edge", _along(cut, cut.side))


def _tongue(cut: Tongue, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.thickness, cut.length, None, cut.rise, "back side", _along(cut))


def _edge_groove(cut: EdgeGroove, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.depth, None, cut.rise, "back side", _along(cut))


def _bead(cut: Bead, part: Part) -> Iterator[Setting]:
    wide = 2.0 * cut.radius + cut.quirk
    yield Setting(cut.name, wide, cut.radius, None, cut.inset, "edge", _along(cut, cut.side))


def _bevel(cut: Bevel, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, None, None, cut.angle, place=f"{edge_in_words(cut.edge)}, full on {cut.keep} side")


def _ease(cut: Ease, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.radius, cut.radius, place=_along(cut, cut.sides))


def _chamfer(cut: Chamfer, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.width, 45.0, place=_along(cut, cut.sides))


def _moulding(cut: Moulding, part: Part) -> Iterator[Setting]:
    yield Setting(cut.name, cut.width, cut.depth, None, 0.0, "edge", _along(cut, cut.side))


def _raised_edge(cut: RaisedEdge, part: Part) -> Iterator[Setting]:
    rise = cut.angle or None
    yield Setting(cut.name, cut.width, part.thickness - cut.tongue, rise, 0.0, "edge", _along(cut, cut.side))


def _notch(cut: Notch, part: Part) -> Iterator[Setting]:
    along, across = notch_walls(cut, part)
    yield Setting(cut.name, _apart(along, 0), _apart(across, 1), place="right through")


def _apart(walls: Walls, axis: int) -> float | None:
    return walls[1][axis] - walls[0][axis] if walls else None


def _saw_cut(cut: SawCut, part: Part) -> Iterator[Setting]:
    """A crosscut by its miter and its tilt, with a stop at the other end; a rip by its tilt, the fence at the other
    edge. Both are measured at the near edge or the left end, on the side that lies down."""
    down = "face" if stop_point(cut, part)[0][2] > 0.0 else "back"
    place, stop = f"{edge_in_words(cut.end)}, {down} side down", saw_stop(cut, part)
    if cut.end not in ("left", "right"):
        off = abs(90.0 - abs(cut.miter))
        yield Setting("rip", None, None, off, stop.distance, stop.against, place, abs(cut.bevel))
    elif abs(cut.bevel) > STEEPEST_BLADE:
        yield Setting("planed slope", None, None, 90.0 - abs(cut.bevel), stop.distance, stop.against, place)
    else:
        yield Setting("crosscut", None, None, abs(cut.miter), stop.distance, stop.against, place, abs(cut.bevel))


def _taper(cut: Taper, part: Part) -> Iterator[Setting]:
    """The taper's slope for a jig, and where it begins."""
    for side in cut.sides:
        slope = math.degrees(math.atan2(cut.taken(side, part.blank), cut.start))
        named = edge_in_words(side) if side in ("near", "far") else f"{side} side"
        yield Setting(cut.name, None, None, slope, cut.start, edge_in_words(cut.foot), named)


def _turned(cut: Turned, part: Part) -> Iterator[Setting]:
    place = "between centers, from a pattern of its profile"
    before = cut.start - finished_bounds(part)[0]
    yield Setting("turning", cut.greatest, None, None, before, "left end", place)


def _along(cut: EdgeCut, side: str = "") -> str:
    """The edge it runs along, and the side it is worked on."""
    edge = edge_in_words(cut.edge)
    if not side:
        return edge
    return f"both sides of {edge}" if side == "both" else f"{side} side of {edge}"


STOCK_SETTINGS: dict[type[Cut], Settings] = {
    Channel: channel,
    Bore: _bore,
    Counterbore: _counterbore,
    BiscuitSlot: _biscuit_slot,
    SlottedHole: _slotted_hole,
    Pocket: _pocket,
    HingeGain: _hinge_gain,
    Rabbet: _rabbet,
    Tongue: _tongue,
    EdgeGroove: _edge_groove,
    Bead: _bead,
    Bevel: _bevel,
    Ease: _ease,
    Chamfer: _chamfer,
    Moulding: _moulding,
    RaisedEdge: _raised_edge,
    Notch: _notch,
    SawCut: _saw_cut,
    Taper: _taper,
    Turned: _turned,
}
