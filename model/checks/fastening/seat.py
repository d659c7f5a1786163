"""Does each fastener sit in wood: deep enough, covered at its point and along its side, in no part but its own?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from model.checks.fastening.limits import LEAST_PLUG, PLUGGED, THIN, hold
from model.checks.fastening.lines import FastenerLine, Passage
from model.checks.finding import Severity
from model.checks.solids.wood_along import StoodWood
from model.hardware import Hardware
from model.joints.hinge_screws import LENGTHS as HINGE_SCREWS
from model.part import GivenPart
from model.piece import Piece
from model.placement import Vector, added, scaled
from model.tolerance import CONTACT

#: The point must stay in the wood.
COVER = "common practice; [shop] least_wood of the order"
HIDDEN = "what is driven must not come out of the wood (common practice)"
PINNED = "a part that moves must stay free (common practice)"

#: So little short of its full depth, a fastener is as good, mm (common practice: they are sold in steps of 3 to 5).
NEARLY_FULL = 0.5

#: What there is to do where no longer one goes in.
MORE = "take more of them, or thicker wood"

#: A gap wider than this beyond what its joint allows is no longer drawn up by a nail, mm (common practice).
DRAWN_UP = 1.0

#: Near where it enters and leaves, the side of a slanting or countersunk item may lie open this far, in radii.
MOUTH = 3.0


@dataclass(frozen=True)
class Wrong:
    """Something wrong with one item, in words that follow its name: `value` against `limit` in mm, `where` in the
    piece; others: parts concerned beyond its own."""

    item: Hardware
    severity: Severity
    says: str
    value: float
    limit: float
    source: str
    where: Vector
    others: tuple[str, ...] = ()


def seated(piece: Piece, found: list[Passage], woods: Mapping[str, StoodWood], least_wood: float) -> Iterator[Wrong]:
    """Whatever is wrong with how the items sit in wood; woods: of every part, as if unbored."""
    species = _species(piece)
    moving = {s.part for s in piece.swings} | {s.part for s in piece.slides}
    gaps = _gaps(piece)
    for passage in found:
        missed = list(_missed(passage))
        yield from missed
        if missed:
            continue
        yield from _holding(passage, species, least_wood)
        yield from _points(passage, least_wood)
        yield from _sides(passage, woods)
        yield from _strangers(passage, moving)
        yield from _gap_crossed(passage, gaps, moving)
    yield from _plugs(piece)


def _species(piece: Piece) -> Callable[[str], str]:
    def of(name: str) -> str:
        part = piece[name].part
        own = part.species if isinstance(part, GivenPart) else part.stock.species
        return own or piece.parameters.species

    return of


def _missed(p: Passage) -> Iterator[Wrong]:
    """Parts it is said to hold and does not reach."""
    for name in p.line.item.parts:
        if p.in_part(name) <= CONTACT:
            says = f"does not reach {name}; move it, or use a longer one"
            yield Wrong(p.line.item, "fault", says, 0.0, CONTACT, HIDDEN, p.line.tip)


def _holding(p: Passage, species: Callable[[str], str], least_wood: float) -> Iterator[Wrong]:
    item = p.line.item
    holders = item.parts if p.line.ends == "both" and item.kind == "dowel" else (p.entered_last,)
    for name in holders:
        need, deep = hold(item, species(name)), p.in_part(name)
        thin = 2.0 / 3.0 * p.wood_round(name)
        full, source = (thin, THIN) if thin < need.full else (need.full, need.full_source)
        short = f"goes {deep:.1f} mm into {name}"
        if deep < min(need.least, thin) - CONTACT:
            says = f"{short} and holds nothing there; {full:.1f} mm is right, so use a longer one"
            yield Wrong(item, "fault", says, deep, need.least, need.least_source, p.line.tip)
        elif deep < full - NEARLY_FULL:
            says = f"{short}; {full:.1f} mm gives its full hold, {_longer(p, name, full, least_wood)}"
            yield Wrong(item, "caution", says, deep, full, source, p.line.tip)


def _longer(p: Passage, name: str, full: float, least_wood: float) -> str:
    """What to do for more hold: a longer one, if the next one sold leaves enough wood over its point."""
    item, deep = p.line.item, p.in_part(name)
    stocked = (n for n in HINGE_SCREWS if n > item.length) if item.kind == "hinge screw" else ()
    longer = next(iter(stocked), item.length + full - deep)
    left = p.wood_round(name) - (deep + longer - item.length)
    if left >= least_wood - CONTACT:
        return "so use a longer one"
    return f"but one of {longer:.1f} mm would leave {max(left, 0.0):.1f} mm of wood over its point: {MORE}"


def _points(p: Passage, least_wood: float) -> Iterator[Wrong]:
    """Ends that come out of the wood, or nearly."""
    line, last = p.line, p.entered_last
    if line.item.kind == "peg":
        yield from _proud(p)
    if line.ends in ("point", "both"):
        yield from _one_point(p, line.length, 1.0, last, least_wood)
    if line.ends == "both":
        yield from _one_point(p, 0.0, -1.0, next(p.within())[0], least_wood)


def _one_point(p: Passage, at: float, way: float, name: str, least_wood: float) -> Iterator[Wrong]:
    line = p.line
    round_it = p.at(at)
    if round_it is None:
        reached = [b if way > 0.0 else a for _, a, b in p.within()]
        out = abs(at - (max(reached) if way > 0.0 else min(reached)))
        says = f"comes {out:.1f} mm out of {name}; use a shorter one, or move it"
        yield Wrong(line.item, "fault", says, out, 0.0, HIDDEN, line.point(at))
        return
    left = round_it[1] - at if way > 0.0 else at - round_it[0]
    if left < least_wood - CONTACT:
        says = f"leaves {left:.1f} mm of wood over its point in {name}; use a shorter one, or move it"
        yield Wrong(line.item, "caution", says, left, least_wood, COVER, line.point(at))


def _proud(p: Passage) -> Iterator[Wrong]:
    """A peg may go right through and be cut flush, but not stand out."""
    out = p.line.length - max(b for _, _, b in p.within())
    if out > 1.0:
        says = f"stands {out:.1f} mm out of {p.entered_last}; cut it to {p.line.length - out:.1f} mm"
        yield Wrong(p.line.item, "caution", says, out, 1.0, "common practice: pegs are cut flush", p.line.tip)


def _sides(p: Passage, woods: Mapping[str, StoodWood]) -> Iterator[Wrong]:
    """Where its side lies open although its middle runs in wood."""
    line = p.line
    if line.item.kind == "biscuit":
        return
    for name, a, b in p.within():
        low, high = a + MOUTH * line.radius, b - MOUTH * line.radius
        if high <= low or name not in line.item.parts:
            continue
        bare = max(_bare(line, woods[name], out, low, high) for out in line.round_about)
        if bare > 1.0:
            says = f"lies open over {bare:.1f} mm along its side in {name}; move it further into the wood"
            yield Wrong(line.item, "fault", says, bare, 1.0, HIDDEN, line.point((low + high) / 2.0))


def _bare(line: FastenerLine, wood: StoodWood, out: Vector, low: float, high: float) -> float:
    start = added(line.start, scaled(out, line.radius))
    covered = wood.stretches(start, line.along, low, high)
    return high - low - sum(b - a for a, b in covered) if covered else _all_or_nothing(wood, start, line, low, high)


def _all_or_nothing(wood: StoodWood, start: Vector, line: FastenerLine, low: float, high: float) -> float:
    """With no surface met in between, the line is all in wood or all out of it: looked at from well outside."""
    far = wood.stretches(start, line.along, low - 1e4, high + 1e4)
    return high - low - sum(max(0.0, min(b, high) - max(a, low)) for a, b in far)


def _strangers(p: Passage, moving: set[str]) -> Iterator[Wrong]:
    """Parts that it enters and is not said to hold."""
    item = p.line.item
    for name, a, b in p.within():
        if name in item.parts or b - a <= CONTACT:
            continue
        if name in moving or moving.intersection(item.parts):
            says = f"goes {b - a:.1f} mm into {name} and pins what must move; use a shorter one, or move it"
            yield Wrong(item, "fault", says, b - a, 0.0, PINNED, p.line.point(b), (name,))
        else:
            says = f"also goes {b - a:.1f} mm into {name}; use a shorter one, move it, or say that it holds it too"
            yield Wrong(item, "caution", says, b - a, 0.0, HIDDEN, p.line.point(b), (name,))


def _gap_crossed(p: Passage, gaps: Mapping[frozenset[str], float], moving: set[str]) -> Iterator[Wrong]:
    """Open air between the parts it holds, more than its joint draws up."""
    item, runs = p.line.item, list(p.within())
    for (first, _, left), (second, entered, _) in pairwise(runs):
        allowed = gaps.get(frozenset((first, second)), 0.0) + DRAWN_UP
        if entered - left > allowed:
            hollow = f"a hollow in {first}" if first == second else f"the gap between {first} and {second}"
            moves = moving.intersection((first, second))
            says = f"crosses {entered - left:.1f} mm of {hollow}; move it to where there is wood"
            severity: Severity = "fault" if moves or first == second else "caution"
            yield Wrong(item, severity, says, entered - left, allowed, HIDDEN, p.line.point(left))


def _gaps(piece: Piece) -> dict[frozenset[str], float]:
    """How far apart the joints let each pair of parts stand, mm."""
    gaps: dict[frozenset[str], float] = {}
    for j in piece.joints:
        pair = frozenset((j.first, j.second))
        gaps[pair] = max([gaps.get(pair, 0.0), j.fit, *(c.gap for c in j.contacts)])
    return gaps


def _plugs(piece: Piece) -> Iterator[Wrong]:
    for item in piece.hardware:
        if item.kind == "plug" and item.length < LEAST_PLUG - CONTACT:
            says = f"is only {item.length:.1f} mm deep and may fall out; sink the screw {LEAST_PLUG:g} mm"
            yield Wrong(item, "caution", says, item.length, LEAST_PLUG, PLUGGED, item.at)
