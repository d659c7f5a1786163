"""Words for the cuts by which parts join at their ends: tenons and mortises, laps, dovetails, splines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from drawings.cutting.finished import finished_blank, finished_bounds
from drawings.lists.joinery_sizes import (
    baseline_depth,
    end_of,
    lean,
    open_depth,
    sawn,
    shoulder_place,
    splays,
    tenon_length,
)
from drawings.lists.nearest_edge import nearest_edge
from drawings.lists.notch_walls import notch_bounds
from drawings.lists.stock_words import Words, wall
from drawings.lists.teller import Teller, angle, edge_in_words, lie, slope, toward
from model.cuts.cut import Cut
from model.cuts.dovetails import Fingers, Pins, Tails
from model.cuts.laps import Lap, Slot
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawnGroove
from model.cuts.slanted_dado import SlantedDado
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.tenons import Kerf, Tenon, TenonedEnd
from model.placement import scaled

#: Angles less than this from square go without saying, degrees.
_SQUARE = 0.05


def _mortise(cut: Mortise, say: Teller) -> str:
    size = say.sizes((cut.length, "long"), (cut.width, "wide"), (cut.depth, "deep"))
    slanting = f", leaning {angle(lean(cut))}" if lean(cut) > _SQUARE else ""
    eased = f", {say.length(cut.eased)} longer at each end on the far side for wedges" if cut.eased else ""
    return f"{cut.name} {size}, long {lie(cut.along)}{slanting}{eased}, {say.mouth(cut.at, scaled(cut.mouth, -1.0))}"


def _open_mortise(cut: OpenMortise, say: Teller) -> str:
    size = say.sizes((cut.width, "wide"), (open_depth(cut, finished_blank(say.part)), "deep"))
    place = f"in {edge_in_words(cut.end)}, {say.length(cut.rise)} from back side"
    return f"open mortise {size}{_off_square(cut.floor, 'floor')}, {place}"


def _tenoned_end(cut: TenonedEnd, say: Teller) -> str:
    tenons = sorted(cut.tenons, key=lambda t: (t.rise, t.inset))
    first, blank = tenons[0], say.part.blank
    size = say.sizes((first.thickness, "thick"), (first.width, "wide"), (tenon_length(cut, first, blank), "long"))
    count = f"{len(tenons)} of " if len(tenons) > 1 else ""
    haunch = f", haunch {say.length(tenon_length(cut, cut.haunch, blank))} long" if cut.haunch else ""
    place = f"on {edge_in_words(cut.end)}, {_levels(tenons, say)}"
    return f"{cut.name} {count}{size}{haunch}, {place}{_off_square(cut.shoulder, 'shoulder')}"


def _levels(tenons: Sequence[Tenon], say: Teller) -> str:
    """How far tenons lie from the back side and from the near edge."""
    rises, insets = map(_different, zip(*((t.rise, t.inset) for t in tenons), strict=True))
    return f"{_listed(rises, say)} from back side, {_listed([v - say.datum[1] for v in insets], say)} from near edge"


def _different(values: Iterable[float]) -> list[float]:
    return sorted({round(v, 3) for v in values})


def _listed(values: Sequence[float], say: Teller) -> str:
    *firsts, last = map(say.length, values)
    return f"{', '.join(firsts)} and {last}" if firsts else last


def _off_square(plane: Plane, what: str) -> str:
    """How a shoulder stands off square, if it does."""
    cut = sawn(plane)
    turned = [f"{what} mitered {angle(cut.miter)}"] if abs(cut.miter) > _SQUARE else []
    turned += [f"{what} beveled {angle(cut.bevel)}"] if abs(cut.bevel) > _SQUARE else []
    return "".join(f", {t}" for t in turned)


def _kerf(cut: Kerf, say: Teller) -> str:
    end = "right end" if cut.into[0] < 0.0 else "left end"
    place = f"{say.off(1, cut.at[1])} from near edge, {say.length(cut.at[2])} from back side"
    return f"wedge kerf {say.sizes((cut.width, 'wide'), (cut.depth, 'deep'))}, in the tenon on {end}, {place}"


def _tails(cut: Tails, say: Teller) -> str:
    drawn = splays(cut, say.part.blank)
    tips = ", ".join(f"{say.off(1, s.wide[0])} to {say.off(1, s.wide[1])}" for s in drawn)
    count = f"{len(drawn)} tails" if len(drawn) > 1 else "1 tail"
    long = f"{say.length(drawn[0].length)} long, {slope(drawn[0].slope)}"
    end = f"on {edge_in_words(end_of(cut.shoulder))}, marked on {cut.side} side"
    return f"{count} {long}, {end}, tips {tips} from near edge{_off_square(cut.shoulder, 'shoulder')}"


def _fingers(cut: Fingers, say: Teller) -> str:
    drawn = splays(cut, say.part.blank)
    size = say.sizes((max(s.width for s in drawn), "wide"), (drawn[0].length, "long"))
    places = ", ".join(say.off(1, s.wide[0]) for s in drawn)
    return f"{len(drawn)} box fingers {size}, on {edge_in_words(end_of(cut.shoulder))}, {places} from near edge"


def _pins(cut: Pins, say: Teller) -> str:
    drawn = splays(cut, say.part.blank)
    size = say.sizes((cut.depth, "deep"), (baseline_depth(cut, say.part.blank), "long"))
    what = f"sockets for {len(drawn)} tails" if len(drawn) > 1 else "socket for 1 tail"
    wide = ", ".join(f"{say.off(1, s.wide[0])} to {say.off(1, s.wide[1])}" for s in drawn)
    lap = cut.lap(say.part.blank)
    left = f", {say.length(lap)} of lap left" if lap > 1e-3 else ""
    sloped = f", {slope(drawn[0].slope)}" if drawn[0].slope > 1e-6 else ""
    end = edge_in_words(end_of(cut.baseline))
    return f"{what} {size}{left}{sloped}, in {end} from {cut.side} side, {wide} from near edge"


def _lap(cut: Lap, say: Teller) -> str:
    kind, wide = "cross lap" if cut.passes else "end lap", cut.width(finished_blank(say.part))
    size = f"{kind} {say.length(wide)} × {say.length(cut.depth)} deep, {cut.side} side"
    across = [s for s in cut.shoulders if s.angle >= 45.0] or list(cut.shoulders)
    spots = sorted(shoulder_place(s, say.part) for s in across)
    places = f"{_listed([at for at, _ in spots], say)} from {spots[0][1]}"
    skew = f" at {angle(across[0].angle)} to the grain" if _SQUARE < across[0].angle < 90.0 - _SQUARE else ""
    return f"{size}, {'shoulders' if len(across) > 1 else 'shoulder'}{skew} {places}"


def _slot(cut: Slot, say: Teller) -> str:
    x0, y0, x1, y1 = notch_bounds(cut, say.part)
    middle = ((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    bx0, by0, bx1, by1 = finished_bounds(say.part)
    mouths = [(middle[0], by0), (middle[0], by1), (bx0, middle[1]), (bx1, middle[1])]
    open_at = [p for p, out in zip(mouths, (y0 <= by0, y1 >= by1, x0 <= bx0, x1 >= bx1), strict=True) if out]
    edge, _ = nearest_edge(say.part.outline, (open_at or [middle])[0])
    size = say.sizes((cut.width, "wide"), (cut.length, "long"))
    across = x1 - x0 < y1 - y0
    place = f"{say.off(0, middle[0])} from left end" if across else f"{say.off(1, middle[1])} from near edge"
    return f"slot {size} right through, in from {edge_in_words(edge.name)}, its middle {place}"


def _dovetail_tongue(cut: DovetailTongue, say: Teller) -> str:
    ends = f"{say.length(cut.length)} long, {say.length(cut.neck(say.part.thickness))} thick at the neck"
    place = "right end" if cut.out[0] > 0.7 else "left end" if cut.out[0] < -0.7 else _edge_toward(cut.out[1])
    heel = f", stopped {say.length(cut.heel)} short" if cut.heel else ""
    return f"dovetail tongue {ends}, {slope(cut.slope)}{_tapered(cut.taper, say)}, on {place}{heel}"


def _edge_toward(y: float) -> str:
    return "far edge" if y > 0.0 else "near edge"


def _dovetail_socket(cut: DovetailSocket, say: Teller) -> str:
    size = say.sizes((cut.width, "wide at its mouth"), (cut.depth, "deep"))
    return f"dovetail socket {size}, {slope(cut.slope)}{_tapered(cut.taper, say)}, {wall(cut, say)}"


def _tapered(taper: float, say: Teller) -> str:
    return f", {say.length(taper)} narrower where it stops" if taper else ""


def _sawn_groove(cut: SawnGroove, say: Teller) -> str:
    size = say.sizes((cut.width, "wide"), (cut.depth, "deep"))
    x, y, z = cut.into
    end = edge_in_words("left" if x > 0.0 else "right") if abs(x) >= abs(y) else _edge_toward(-y)
    across, tilt = (math.degrees(math.asin(max(-1.0, min(1.0, v)))) for v in (y, z))
    turned = [f"{angle(across)} off the grain"] if abs(across) > _SQUARE and abs(x) >= abs(y) else []
    turned += [f"tilted {angle(tilt)}"] if abs(tilt) > _SQUARE else []
    place = f"{say.length(cut.at[2])} from back side, {say.off(1, cut.at[1])} from near edge"
    return f"{cut.called} {size}, in {', '.join([end, *turned])}, its middle {place}"


def _slanted_dado(cut: SlantedDado, say: Teller) -> str:
    size = say.sizes((cut.width, "wide"), (cut.wall_depth, "deep down its deeper wall"))
    place = f"{say.off(cut.axis, cut.mouth[0])} from {('left end', 'near edge')[cut.axis]}"
    return f"{cut.name} {size}, leaning {angle(cut.lean)} toward {toward(cut.into, cut.side)}, {cut.side} side, {place}"


JOINERY_WORDS: dict[type[Cut], Words] = {
    Mortise: _mortise,
    OpenMortise: _open_mortise,
    TenonedEnd: _tenoned_end,
    Kerf: _kerf,
    Tails: _tails,
    Fingers: _fingers,
    Pins: _pins,
    Lap: _lap,
    Slot: _slot,
    DovetailTongue: _dovetail_tongue,
    DovetailSocket: _dovetail_socket,
    SawnGroove: _sawn_groove,
    SlantedDado: _slanted_dado,
}
