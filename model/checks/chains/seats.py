"""Where, along a line, does a joint hold two parts against each other, and which of their sizes say how far along?

A seat is a plane of each part: an end, an edge, a face, or the floor or shoulder of a cut a known depth from one. How
far it lies from the part's own origin is made up of sizes; the two planes being one, going from part to part over
their seats adds the sizes up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from model.checks.chains.chain import Link, Size
from model.checks.chains.made_sizes import Maker, Work
from model.cuts.edges import Tongue
from model.cuts.faces import Channel
from model.cuts.mortises import Mortise
from model.cuts.sawn import SawCut
from model.cuts.slanted_dado import SlantedDado
from model.joints.joint import Contact, Joint
from model.part import GivenPart
from model.piece import Placed
from model.placement import Vector, dot
from model.tolerance import CONTACT

#: As the cosine: what runs along the line, and what meets it at a miter's angle.
ALONG, MITER = 0.999, (0.6, 0.8)
#: A plane this near an end, edge or face is that one, mm.
_SAME = 0.05

#: Joints drawn together by what holds them, or that hide a gap: a little more may be left open.
_FORGIVING = ("rest", "nailed", "screwed", "glued", "biscuit")


@dataclass(frozen=True, eq=False)
class Seat:
    """One joint along a line. first, second: the sizes that say how far along each part's plane lies; slack: how much
    less and more than drawn the second may come to lie past the first, mm; hidden: whether a gap there is not seen."""

    parts: tuple[str, str]
    first: tuple[Link, ...]
    second: tuple[Link, ...]
    slack: tuple[float, float] = (0.0, 0.0)
    hidden: bool = False
    row: bool = False


def seats(joint: Joint, line: Vector, maker: Maker) -> Iterator[Seat]:
    """Where a joint holds its parts along a line (unit vector), if it does: between the walls of a groove or mortise,
    or at a contact. Nowhere with a part that is bent, askew to the line, or given as a solid."""
    pair = maker.piece[joint.first], maker.piece[joint.second]
    if any(isinstance(p.part, GivenPart) or p.part.bend is not None or _axis(p, line) is None for p in pair):
        return
    met = next((c for c in joint.contacts if _meets(joint, c, line)), None)
    if _walls(joint, line, maker):
        yield _between_walls(joint, line, maker)
    elif met is not None:
        yield _at_contact(joint, met, line, maker)


def surface(placed: Placed, line: Vector, out: float, maker: Maker) -> tuple[Link, ...]:
    """The sizes that say how far along the line the end, edge or face of a part lies that looks that way (1 or -1)."""
    axis, sense = _axis(placed, line) or (0, 1.0)
    return _scaled((Link(_whole(placed, axis, maker)),), sense) if out * sense > 0.0 else ()


def _axis(placed: Placed, line: Vector) -> tuple[int, float] | None:
    """Which own axis of a part runs along the line, and whether with it (1) or against it (-1)."""
    for n, axis in enumerate((placed.at.x, placed.at.y, placed.at.z)):
        if abs(along := dot(axis, line)) > ALONG:
            return n, 1.0 if along > 0.0 else -1.0
    return None


def _meets(joint: Joint, contact: Contact, line: Vector) -> bool:
    if not contact.points:
        return False
    cosine = abs(dot(contact.toward, line))
    sawn = any(isinstance(c, SawCut) for c in joint.first_cuts)
    return cosine > ALONG or (sawn and MITER[0] < cosine < MITER[1])


def _at_contact(joint: Joint, contact: Contact, line: Vector, maker: Maker) -> Seat:
    first, second = maker.piece[joint.first], maker.piece[joint.second]
    way = 1.0 if dot(contact.toward, line) > 0.0 else -1.0
    if abs(dot(contact.toward, line)) < ALONG:
        return _at_miter(first, second, line, way, maker)
    p = contact.points[0]
    tongue = any(isinstance(c, Tongue) for c in (*joint.first_cuts, *joint.second_cuts))
    gap = contact.gap if contact.gap > CONTACT else 0.0
    # shoulders stop a tongue where it is drawn; the second then lies that much further from the first, never nearer
    nearer, further = (0.0 if tongue else gap), gap
    return Seat(
        (joint.first, joint.second),
        _plane(first, p, line, -way, maker, joint.second),
        _plane(second, p, line, way, maker, joint.first),
        (-further, nearer) if way > 0.0 else (-nearer, further),
        joint.kind in _FORGIVING or any(isinstance(c, Channel | SlantedDado) for c in joint.second_cuts),
        tongue,
    )


def _at_miter(first: Placed, second: Placed, line: Vector, way: float, maker: Maker) -> Seat:
    """At their heels: the end of the one that runs along the line, and the other's outer side."""
    lengthwise = abs(dot(first.at.x, line)) > ALONG
    out = -way if lengthwise else way
    return Seat((first.name, second.name), surface(first, line, out, maker), surface(second, line, out, maker))


def _plane(placed: Placed, p: Vector, line: Vector, out: float, maker: Maker, other: str) -> tuple[Link, ...]:
    """The plane at a point that looks `out` along the line."""
    axis, sense = _axis(placed, line) or (0, 1.0)
    links = surface(placed, line, out, maker)
    low, high = _bounds(placed, axis)
    at = placed.at.own_point(p)[axis]
    deep = high - at if out * sense > 0.0 else at - low
    if abs(deep) < _SAME:
        return links
    work: Work = "sawn" if axis == 0 else "routed"
    what = ("shoulder from the end", "depth from the edge", "depth from the face")[axis]
    return (*links, Link(maker.cut(placed.name, what, deep, work, None, f"for {other}"), -out))


def _of(joint: Joint, kind: type[Channel] | type[Mortise]) -> list[Channel | Mortise]:
    return [c for c in joint.second_cuts if isinstance(c, kind)]


def _walls(joint: Joint, line: Vector, maker: Maker) -> list[tuple[Channel | Mortise, Vector]]:
    """The cuts whose walls hold the first part along the line, and a point in the middle between them."""
    second = maker.piece[joint.second]
    axis, _ = _axis(second, line) or (0, 1.0)
    found: list[tuple[Channel | Mortise, Vector]] = []
    for cut in (*_of(joint, Channel), *_of(joint, Mortise)):
        if isinstance(cut, Channel):
            middle: Vector = ((cut.start[0] + cut.end[0]) / 2.0, (cut.start[1] + cut.end[1]) / 2.0, 0.0)
            held = axis < 2 and abs(cut.direction[axis]) < 1e-6
        else:
            middle, held = cut.at, abs(cut.into[axis]) < 1e-6
        if held:
            found.append((cut, second.at.point(middle)))
    return found


def _between_walls(joint: Joint, line: Vector, maker: Maker) -> Seat:
    """The middle of what the first part has in a groove or mortise, in the middle of that."""
    first, second = maker.piece[joint.first], maker.piece[joint.second]
    cut, middle = _walls(joint, line, maker)[0]
    theirs = _place(second, middle, line, maker, f"place of {cut.name}", joint.first, cut)
    ours = _place(first, middle, line, maker, "place of joint", joint.second)
    return Seat((joint.first, joint.second), ours, theirs, hidden=True)


def _place(
    placed: Placed, p: Vector, line: Vector, maker: Maker, what: str, other: str, cut: Channel | Mortise | None = None
) -> tuple[Link, ...]:
    """A place on a part along the line: half way, or so far from the nearer end or edge."""
    axis, sense = _axis(placed, line) or (0, 1.0)
    low, high = _bounds(placed, axis)
    at, whole = placed.at.own_point(p)[axis], Link(_whole(placed, axis, maker))
    if cut is None and abs(at - (low + high) / 2.0) < _SAME:
        return _scaled((whole,), 0.5 * sense)
    from_high = high - at < at - low
    off = maker.cut(placed.name, what, min(high - at, at - low), "drilled", cut, f"for {other}")
    return _scaled((whole, Link(off, -1.0)) if from_high else (Link(off),), sense)


def _whole(placed: Placed, axis: int, maker: Maker) -> Size:
    return (maker.length, maker.width, maker.thickness)[axis](placed.name)


def _bounds(placed: Placed, axis: int) -> tuple[float, float]:
    if axis == 2:
        return 0.0, placed.wood.thickness
    bounds = placed.wood.outline.bounds
    return bounds[axis], bounds[axis + 2]


def _scaled(links: tuple[Link, ...], by: float) -> tuple[Link, ...]:
    return tuple(Link(link.size, by * link.times) for link in links)
