"""Words for the cuts made in any board: trenches and holes in its sides, work along its edges, what is sawn out."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from drawings.cutting.finished import finished_bounds
from drawings.lists.fences import saw_stop, stop_point
from drawings.lists.hole_entry import entry
from drawings.lists.notch_walls import notch_bounds
from drawings.lists.teller import Teller, angle, edge_in_words, lie, sides_in_words, slope
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, entered
from model.cuts.gains import HingeGain
from model.cuts.legs import Taper, Turned
from model.cuts.moulding import Moulding, RaisedEdge
from model.cuts.pockets import Pocket
from model.cuts.sawn import SawCut
from model.cuts.slots import SlottedHole
from model.cuts.through import Notch, Opening, Profile
from model.placement import unit

#: No saw tilts its blade further, degrees (common practice: 45, and a jig for the rest); it is then planed or jigged.
STEEPEST_BLADE = 60.0

#: How one kind of cut is said.
Words = Callable[[Any, Teller], str]


def reach(cut: Channel, say: Teller) -> str:
    """Where a trench stops, unless it runs right through."""
    if all(cut.open_ends(say.part.blank)):
        return ""
    axis, name = (0, "left end") if abs(cut.direction[0]) > abs(cut.direction[1]) else (1, "near edge")
    lo, hi = sorted((cut.start[axis], cut.end[axis]))
    return f", from {say.off(axis, lo)} to {say.off(axis, hi)} off the {name}"


def wall(cut: Channel, say: Teller) -> str:
    """The side a trench is in, and the place of its nearer wall."""
    (dx, dy), half = cut.direction, cut.width / 2.0
    if abs(dx) < 1e-9:
        place = f"{say.off(0, cut.start[0] - half)} from left end"
    elif abs(dy) < 1e-9:
        place = f"{say.off(1, cut.start[1] - half)} from near edge"
    else:
        return f"{cut.side} side, its middle from {say.spot(cut.start)} to {say.spot(cut.end)}"
    return f"{cut.side} side, {place}{reach(cut, say)}"


def _channel(cut: Channel, say: Teller) -> str:
    return f"{cut.name} {say.length(cut.width)} × {say.length(cut.depth)} deep, {wall(cut, say)}"


def _bore(cut: Bore, say: Teller) -> str:
    deep = cut.depth - entry(cut.at, cut.into, say.part).off
    return f"hole {say.length(cut.diameter)} diameter{say.depth(deep, cut.into)}, {say.mouth(cut.at, cut.into)}"


def _counterbore(cut: Counterbore, say: Teller) -> str:
    mouth = f"counterbore {say.sizes((cut.diameter, 'diameter'), (cut.depth, 'deep'))}"
    return f"{mouth}, {say.length(cut.clearance)} through, {say.mouth(cut.at, cut.into)}"


def _biscuit_slot(cut: BiscuitSlot, say: Teller) -> str:
    lying = "" if entered(cut.into) is None else f"lying {lie(cut.along)}, "
    return f"biscuit slot No. {cut.size}, {lying}{say.mouth(cut.at, cut.into)}"


def _slotted_hole(cut: SlottedHole, say: Teller) -> str:
    if cut.round:
        return f"hole {say.length(cut.width)} diameter{say.depth(cut.depth, cut.into)}, {say.mouth(cut.at, cut.into)}"
    size = f"{say.length(cut.width)} × {say.length(cut.length)} × {say.depth(cut.depth, cut.into)}"
    return f"slotted hole {size}, long {lie(cut.along)}, {say.mouth(cut.at, cut.into)}"


def _pocket(cut: Pocket, say: Teller) -> str:
    side = "face" if cut.into[2] < 0.0 else "back"
    lean = angle(math.degrees(math.asin(abs(cut.into[2]))))
    edge = say.mouth(cut.at, unit((-cut.into[0], -cut.into[1], 0.0)))
    bored = f"{say.length(cut.diameter)} diameter at {lean} from {side} side, {say.length(cut.clearance)} on through"
    return f"screw pocket {bored}, its floor {say.length(cut.collar)} from where the screw comes out {edge}"


def _hinge_gain(cut: HingeGain, say: Teller) -> str:
    size = f"hinge gain {say.length(cut.length)} × {say.length(cut.leaf)} × {say.length(cut.depth)} deep"
    side = entered(cut.into)
    if side is None:
        return f"{size}, its middle {say.mouth(cut.at, cut.into)}"
    middle = say.mouth(cut.at, cut.across).removeprefix("in ").rpartition(", ")[0]
    return f"{size}, {side} side, open along {middle} to its middle"


def _rabbet(cut: Rabbet, say: Teller) -> str:
    size = f"rabbet {say.length(cut.width)} × {say.length(cut.depth)} deep"
    return f"{size}, {say.run(cut)}, {cut.side} side{say.stops(cut)}"


def _tongue(cut: Tongue, say: Teller) -> str:
    size = f"tongue {say.sizes((cut.thickness, 'thick'), (cut.length, 'long'))}"
    return f"{size}, {say.run(cut)}, {say.length(cut.rise)} from back side{say.stops(cut)}"


def _edge_groove(cut: EdgeGroove, say: Teller) -> str:
    size = f"groove {say.length(cut.width)} × {say.length(cut.depth)} deep"
    return f"{size}, in {edge_in_words(cut.edge)}, {say.length(cut.rise)} from back side{say.stops(cut)}"


def _bead(cut: Bead, say: Teller) -> str:
    size = f"bead {say.length(cut.radius)} radius, {say.length(cut.quirk)} quirk"
    inset = f", {say.length(cut.inset)} in" if cut.inset else ""
    return f"{size}, {say.run(cut)}{inset}, {cut.side} side{say.stops(cut)}"


def _bevel(cut: Bevel, say: Teller) -> str:
    return f"bevel {cut.angle:g}°, {say.run(cut)}, full size kept on {cut.keep} side{say.stops(cut)}"


def _ease(cut: Ease, say: Teller) -> str:
    return f"ease {say.length(cut.radius)} radius, {say.run(cut)}, {sides_in_words(cut.sides)}{say.stops(cut)}"


def _chamfer(cut: Chamfer, say: Teller) -> str:
    return f"chamfer {say.length(cut.width)}, {say.run(cut)}, {sides_in_words(cut.sides)}{say.stops(cut)}"


def _moulding(cut: Moulding, say: Teller) -> str:
    size = f"{cut.called} {say.sizes((cut.width, 'wide'), (cut.depth, 'deep'))}"
    return f"{size}, {say.run(cut)}, {cut.side} side{say.stops(cut)}"


def _raised_edge(cut: RaisedEdge, say: Teller) -> str:
    rise = f"cove {say.length(cut.cove)} radius" if cut.cove else f"bevel {angle(cut.angle)}"
    flat = f", flat for {say.length(cut.flat)}" if cut.flat else ""
    step = cut.shoulder(say.part.thickness)
    field = f", field {say.length(step)} proud" if step > 0.01 else ""
    size = f"raised edge {say.length(cut.width)} wide, tongue {say.length(cut.tongue)} thick{flat}, {rise}{field}"
    return f"{size}, {say.run(cut)}, {cut.side} side{say.stops(cut)}"


def _profile(cut: Profile, say: Teller) -> str:
    radii = sorted({round(e.radius, 3) for e in cut.outline.edges if not e.straight})
    arcs = f", arcs of radius {', '.join(map(say.length, radii))}" if radii else ""
    return f"sawn to its outline{arcs}"


def _opening(cut: Opening, say: Teller) -> str:
    x0, y0, x1, y1 = cut.outline.bounds
    return f"opening {say.length(x1 - x0)} × {say.length(y1 - y0)} right through, {say.spot((x0, y0))}"


def _notch(cut: Notch, say: Teller) -> str:
    x0, y0, x1, y1 = notch_bounds(cut, say.part)
    bx0, by0, bx1, by1 = finished_bounds(say.part)
    at_end = "left end" if x0 <= bx0 else "right end" if x1 >= bx1 else f"{say.off(0, x0)} from left end"
    at_edge = "near edge" if y0 <= by0 else "far edge" if y1 >= by1 else f"{say.off(1, y0)} from near edge"
    return f"notch {say.length(x1 - x0)} × {say.length(y1 - y0)} right through, at {at_end} and {at_edge}"


def _saw_cut(cut: SawCut, say: Teller) -> str:
    """Where it meets the near edge, or a cut along the grain the left end, on the back side, from the other end or
    edge."""
    turned = [] if abs(cut.bevel) < 0.05 else [f"blade tilted {angle(cut.bevel)}"]
    if abs(cut.bevel) > STEEPEST_BLADE:
        turned = [f"planed to a {slope(math.tan(math.radians(90.0 - abs(cut.bevel))))}"]
    stop = saw_stop(cut, say.part)
    (_, _, height), edge = stop_point(cut, say.part)
    place = f"{say.length(stop.distance)} from {stop.named} at {edge}"
    side = "face side" if height > 0.0 else "back side"
    if cut.end in ("left", "right"):
        turned.insert(0, f"miter {angle(cut.miter)}" if abs(cut.miter) > 0.05 else "square across")
    else:
        off = abs(90.0 - abs(cut.miter))
        turned.insert(0, "along the grain" if off < 0.05 else f"{angle(off)} to the grain")
    return f"saw cut at {edge_in_words(cut.end)}, {', '.join(turned)}, {place}, {side}"


def _taper(cut: Taper, say: Teller) -> str:
    sides = " and ".join(edge_in_words(s) if s in ("near", "far") else f"{s} side" for s in cut.sides)
    foot = edge_in_words(cut.foot)
    return f"taper on {sides}, from {say.length(cut.start)} off the {foot} to {say.length(cut.size)} thick there"


def _turned(cut: Turned, say: Teller) -> str:
    least = min(s.diameter for s in cut.profile)
    size = f"{say.length(least)} to {say.length(cut.greatest)} diameter"
    return f"turned {size}, from {say.off(0, cut.start)} to {say.off(0, cut.stop)} off the left end"


STOCK_WORDS: dict[type[Cut], Words] = {
    Channel: _channel,
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
    Profile: _profile,
    Opening: _opening,
    Notch: _notch,
    SawCut: _saw_cut,
    Taper: _taper,
    Turned: _turned,
}
