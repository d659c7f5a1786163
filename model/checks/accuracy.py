"""Do parts made as exactly as this shop makes them go together, and which are better marked from the work?

Every fit is a chain: the room it is drawn with, and the errors of the cuts that make that room. An error is normal, and
the shop's stated accuracy is two standard deviations of it (common practice: 19 cuts in 20 come out within it). The
chains are built many times over with the same errors wherever they share a cut.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from model.checks.finding import Answer, Finding, Proof, Severity
from model.cuts.edges import EdgeGroove, Tongue
from model.cuts.faces import Channel
from model.cuts.mortises import Mortise
from model.joints.joint import Joint
from model.order_sections import Accuracy
from model.part import GivenPart
from model.piece import Piece
from model.placement import dot

Numbers = NDArray[np.float64]

CHECK = "accuracy"
SOURCE = "[shop] accuracy of the order, taken as two standard deviations; 95 builds in 100 are common practice"

BUILDS, SEED = 20_000, 4

#: Builds in 100 that must go together, or the fit is not left to the rule.
ENOUGH = 95.0

#: Wood that is pressed closed, mm, at a surface (common practice: a joint that needs a mallet).
EASE = 0.05

#: A fit drawn with no more room than this, mm, is made by trial on the work, not by the rule (common practice).
FITTED = 0.25

#: How far ends that meet the same two parts may differ before a joint stands open, mm (common practice: the thickness
#: of two sheets of paper, which glue still fills).
OPEN = 0.2

#: Room along a biscuit in its slots, mm (common practice).
BISCUIT_ROOM = 3.0


@dataclass(frozen=True)
class Link:
    """A size whose error is part of a chain: named, so that chains share it; off: the accuracy it's made to, mm; times:
    how much of its error the room gains."""

    size: str
    off: float
    times: float = 1.0


@dataclass(frozen=True)
class Chain:
    """A fit: kind and parts; room: what it is drawn with, mm; ends: whether it must not stand open either, by OPEN mm.
    remedy: how to make it from the work."""

    kind: str
    parts: tuple[str, ...]
    room: float
    links: tuple[Link, ...]
    remedy: str
    ends: bool = False

    @property
    def spread(self) -> float:
        """The standard deviation of its room, mm: of a linear chain, the root of the sum of the variances."""
        return math.sqrt(sum((link.times * link.off / 2.0) ** 2 for link in self.links))

    @property
    def fitted(self) -> bool:
        """Whether it is drawn so close that it's made by trial anyway."""
        return self.ends or -EASE <= self.room <= FITTED

    @property
    def rooms(self) -> Numbers:
        """Its room in every build, mm (BUILDS,)."""
        total = np.full(BUILDS, self.room)
        for link in self.links:
            total += link.times * link.off / 2.0 * _errors(link.size)
        return total

    @property
    def together(self) -> NDArray[np.bool_]:
        """In which builds it goes together by the rule alone."""
        return np.abs(self.rooms - self.room) <= OPEN if self.ends else self.rooms >= -EASE


def accuracy(piece: Piece, stated: Accuracy | None = None) -> Answer:
    """Notes of the parts to mark from the work, cautions for a fit with room of its own that the shop can't hold in
    ENOUGH builds of 100. stated: how exact the shop's cuts are, mm. The same piece gives the same answer, whatever the
    order of its parts."""
    chains = sorted(all_chains(piece, stated or Accuracy()), key=lambda c: (c.kind, c.parts))
    by_kind: dict[tuple[Severity, str, str], list[tuple[float, Chain]]] = defaultdict(list)
    by_rule = np.ones(BUILDS, dtype=bool)
    marked = np.ones(BUILDS, dtype=bool)
    held = 0
    for chain in chains:
        together = chain.together
        share = round(100.0 * float(together.mean()), 2)
        by_rule &= together
        if not chain.fitted:
            marked &= together
        held += chain.fitted or share >= ENOUGH
        if share < ENOUGH:
            severity: Severity = "note" if chain.fitted else "caution"
            by_kind[severity, chain.kind, chain.remedy].append((share, chain))
    findings = [_finding(*key, found) for key, found in by_kind.items()]
    if chains:
        findings.append(_summary(float(by_rule.mean()), float(marked.mean()), len(chains)))
    return Answer(tuple(findings), (Proof("fits made within 95 builds in 100, or by trial", len(chains), held),))


def all_chains(piece: Piece, stated: Accuracy) -> Iterator[Chain]:
    """Every fit of a piece that sizes decide; parts given as solids have no sizes to ask."""
    for joint in piece.joints:
        given = (isinstance(piece[n].part, GivenPart) for n in (joint.first, joint.second))
        if not any(given):
            yield from _of_joint(piece, joint, stated)
    yield from _loops(piece, stated)
    yield from _rows(piece, stated)


def _of_joint(piece: Piece, joint: Joint, stated: Accuracy) -> Iterator[Chain]:
    for number, cut in enumerate(joint.second_cuts):
        where = f"{joint.second}, {joint.first}, {number}"
        if isinstance(cut, (Channel, EdgeGroove)):
            yield from _entering(piece, joint, cut, where, stated)
        elif isinstance(cut, Mortise):
            yield _tenon(joint, cut, where, stated)
    yield from _pins(joint, stated)


def _entering(piece: Piece, joint: Joint, cut: Channel | EdgeGroove, where: str, stated: Accuracy) -> Iterator[Chain]:
    """What enters a groove, against its width; a tongue against its depth too. What is made much thinner or thicker
    than the groove enters it some other way, and is left out."""
    pair = (joint.first, joint.second)
    wide = Link(f"width of the groove in {where}", stated.routed)
    tongue = next((c for c in joint.first_cuts if isinstance(c, Tongue)), None)
    if tongue is None:
        thick = piece[joint.first].wood.thickness
        if abs(cut.width - thick) < thick / 4.0:
            link = Link(f"thickness of {joint.first}", stated.planed, -1.0)
            remedy = "plane the part to its groove, or cut the groove to the part as planed"
            yield Chain(joint.kind, pair, cut.width - thick, (wide, link), remedy)
        return
    name = f"tongue of {where}"
    sides = [Link(f"{side} shoulder, {name}", stated.routed, -1.0) for side in ("face", "back")]
    yield Chain(
        joint.kind, pair, cut.width - tongue.thickness, (wide, *sides), "cut the tongue to the groove, on a scrap first"
    )
    deep = (Link(f"depth of the groove in {where}", stated.routed), Link(f"length, {name}", stated.routed, -1.0))
    yield Chain(f"{joint.kind}, depth", pair, cut.depth - tongue.length, deep, "cut the groove deeper")


def _tenon(joint: Joint, cut: Mortise, where: str, stated: Accuracy) -> Chain:
    links = [Link(f"{side} cheek, {where}", stated.routed, -1.0) for side in ("face", "back")]
    wide = Link(f"width of the mortise in {where}", stated.routed)
    pair = (joint.first, joint.second)
    return Chain(joint.kind, pair, joint.fit, (wide, *links), "cut the mortise first and the tenon to it")


def _pins(joint: Joint, stated: Accuracy) -> Iterator[Chain]:
    """Several dowels or biscuits in one joint: the last against the first, marked in both parts."""
    for kind, room, remedy in (
        ("dowel", 0.0, "mark the holes of one part from the other with centre points, or drill both through one jig"),
        ("biscuit", BISCUIT_ROOM, "mark the slots of one part from the other"),
    ):
        count = sum(h.kind == kind for h in joint.hardware)
        if count > 1:
            links = [
                Link(f"{end} {kind} in {name}, joint of {joint.first} and {joint.second}", stated.drilled, times)
                for end, times in (("first", 1.0), ("last", -1.0))
                for name in (joint.first, joint.second)
            ]
            yield Chain(f"{kind}s", (joint.first, joint.second), room, tuple(links), remedy, ends=room == 0.0)


def _loops(piece: Piece, stated: Accuracy) -> Iterator[Chain]:
    """Parts that stand between the same two others: each one's length against the first one's."""
    for between, spanning in _spans(piece).items():
        lengths = {n: piece[n].wood.stock.length for n in spanning}
        for length in sorted({round(v, 3) for v in lengths.values()}):
            alike = sorted(n for n in spanning if round(lengths[n], 3) == length)
            for other in alike[1:]:
                links = [Link(f"length of {n}", stated.sawn, t) for n, t in ((alike[0], 1.0), (other, -1.0))]
                ends = _housed(piece, (alike[0], other), between)
                links += [Link(f"depth at {n} in {b}", stated.routed) for n, b in ends]
                kind = f"lengths between {between[0]} and {between[1]}"
                yield Chain(kind, (alike[0], other), 0.0, tuple(links), "cut them all against one stop", ends=True)


def _spans(piece: Piece) -> dict[tuple[str, str], list[str]]:
    """Parts whose two ends meet the same two others, by those others."""
    met: dict[str, list[Joint]] = defaultdict(list)
    for joint in piece.joints:
        if not isinstance(piece[joint.first].part, GivenPart):
            met[joint.first].append(joint)
    spans: dict[tuple[str, str], list[str]] = defaultdict(list)
    for name, joints in met.items():
        along = piece[name].at.x
        left = {j.second for j in joints if dot(j.closes, along) < -0.7}
        right = {j.second for j in joints if dot(j.closes, along) > 0.7}
        if len(left) == len(right) == 1 and left != right:
            one, other = sorted((*left, *right))
            spans[one, other].append(name)
    return spans


def _housed(piece: Piece, spanning: tuple[str, str], between: tuple[str, str]) -> Iterator[tuple[str, str]]:
    for joint in piece.joints:
        housed = any(isinstance(c, (Channel, EdgeGroove, Mortise)) for c in joint.second_cuts)
        if housed and joint.first in spanning and joint.second in between:
            yield joint.first, joint.second


def _rows(piece: Piece, stated: Accuracy) -> Iterator[Chain]:
    """Boards tongued edge to edge: the sum of their widths against the room they fill."""
    row_of: dict[str, set[str]] = {}
    for joint in piece.joints:
        if any(isinstance(c, Tongue) for c in joint.first_cuts):
            row = row_of.get(joint.first, {joint.first}) | row_of.get(joint.second, {joint.second})
            row_of.update(dict.fromkeys(row, row))
    for boards in {tuple(sorted(row)) for row in row_of.values()}:
        links = [Link(f"width of {n}", stated.sawn, -1.0) for n in boards]
        yield Chain(
            "boards side by side", boards, 0.0, tuple(links), "rip the last to the room that is left", ends=True
        )


def _finding(severity: Severity, kind: str, remedy: str, found: Iterable[tuple[float, Chain]]) -> Finding:
    ordered = sorted(found, key=lambda f: (f[0], f[1].parts))
    share, worst = ordered[0]
    parts = tuple(sorted({n for _, c in ordered for n in c.parts}))
    fits = f"{len(ordered)} fits" if len(ordered) > 1 else "one fit"
    message = (
        f"{kind}: {fits} not to be left to the rule; {worst.parts[0]} with {worst.parts[-1]} would go together in "
        f"{share:.0f} builds of 100: {remedy}"
    )
    return Finding(CHECK, severity, parts, message, share, ENOUGH, "%", SOURCE)


def _summary(by_rule: float, marked: float, count: int) -> Finding:
    message = (
        f"{count} fits: {100.0 * by_rule:.0f} builds of 100 go together by the rule alone, {100.0 * marked:.0f} with "
        "the close fits made from the work"
    )
    return Finding(CHECK, "note", (), message, round(100.0 * marked, 2), ENOUGH, "%", SOURCE)


@lru_cache(maxsize=512)
def _errors(size: str) -> Numbers:
    """The errors of one size in every build, in standard deviations: told by its name, so that chains share them."""
    return np.random.default_rng([SEED, crc32(size.encode())]).standard_normal(BUILDS)
