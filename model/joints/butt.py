"""Parts that meet surface to surface: resting, biscuited, nailed, screwed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from model.cuts.faces import BISCUIT_THICKNESS, BISCUITS, BiscuitSlot, Bore, Counterbore
from model.cuts.removal import Plane
from model.errors import DesignError
from model.hardware import Hardware, finish_nail, screw_pilot, screw_shank, wood_screw
from model.joints.joint import Contact, Joint, Stood, clean, spread
from model.joints.meetings.meeting import Meeting, meeting
from model.joints.meetings.shared_face import shared_face
from model.joints.meetings.touch import flat_against, touch
from model.placement import Vector, added, dot, scaled, square_to, tidy
from model.tolerance import CONTACT

#: Biscuits: no closer than this to an end, no further apart (common practice: 50-75 mm, 150-200 mm).
BISCUIT_MARGIN, BISCUIT_SPACING = 60.0, 200.0
#: The least wood between two slots, mm (common practice).
BETWEEN_SLOTS = 10.0
#: Wood leans to a nail from this on (sine); it is not meant to before.
_LEAST_LEAN = 1e-5
BISCUITING = "common practice: biscuits 50 to 75 mm from the ends, 150 to 200 mm apart"
NAILING = "common practice: two nails across the width of a board"
PLUGGING = "common practice: 3/8 in (10 mm) plug for No. 8 to 10 screws, at least 6 mm deep"


def rests(part: Stood, on: Stood, *, gap: float = 0.0) -> Joint:
    """`part` lies on or against `on`, held by nothing here. gap: how far off it may stand, mm."""
    contact = touch(part, on, gap)
    return Joint("rest", part.name, on.name, scaled(contact.toward, -1.0), (contact,))


def rests_at(part: Stood, on: Stood, points: Sequence[Vector], toward: Vector, *, gap: float = 0.0) -> Joint:
    """`part` meets `on` at given points, its wood lying `toward` from there: for surfaces no rule finds."""
    return Joint("rest", part.name, on.name, scaled(toward, -1.0), (Contact(tuple(points), toward, gap),))


def glued(part: Stood, to: Stood, *, area: float | None = None) -> Joint:
    """`part` glued against `to`, over `area` mm2 if not all of the flat that they share, outlines taken as convex.

    Raises DesignError if they do not touch, or share no flat and no area is said.
    """
    contact = touch(part, to)
    return Joint(
        "glued",
        part.name,
        to.name,
        scaled(contact.toward, -1.0),
        (contact,),
        glue_area=_shared_area(part, to, contact) if area is None else area,
    )


def _shared_area(part: Stood, to: Stood, contact: Contact) -> float:
    face = shared_face(part, to, Plane(contact.toward, dot(contact.toward, contact.points[0])))
    if face is None:
        raise DesignError(f"{part.name} and {to.name} share no flat to glue; say over how much:  area=...  in mm2")
    return face.area


def biscuited(part: Stood, to: Stood, *, size: str | None = None) -> Joint:
    """The end of `part` butted square against `to`, with biscuits; the largest size that goes in if none is said.

    Raises DesignError if the end does not lie against the other part or is too short for any biscuit.
    """
    m = meeting(part, to)
    if abs(m.depth) > CONTACT:
        way = "stops short of" if m.depth < 0 else "runs into"
        raise DesignError(f"{part.name} {way} {to.name} by {abs(m.depth):.2f} mm; a butt joint needs them to touch")
    lo, hi = m.reach(-CONTACT)
    chosen = size or _biscuit_for(m, hi - lo)
    slots = [(lo + s) for s in _stations(hi - lo, chosen)]
    ends, faces, biscuits = [], [], []
    for s in slots:
        mouth = m.point(s)
        ends.append(_slot(part, mouth, m.normal, m.along, chosen))
        faces.append(_slot(to, mouth, scaled(m.normal, -1.0), m.along, chosen))
        length, width, _ = BISCUITS[chosen]
        names = (part.name, to.name)
        flat = (width, length, BISCUIT_THICKNESS, m.along)
        biscuits.append(Hardware("biscuit", f"No. {chosen}", mouth, m.normal, names, *flat))
    quarter = [lo + t * (hi - lo) for t in (0.05, 0.5, 0.95)]
    clear = [s for s in quarter if all(abs(s - slot) > BISCUITS[chosen][0] for slot in slots)] or [
        lo + 0.02 * (hi - lo)
    ]
    return Joint(
        "biscuit",
        part.name,
        to.name,
        scaled(m.normal, -1.0),
        (Contact(tuple(m.point(s) for s in clear), m.normal),),
        tuple(ends),
        tuple(faces),
        glue_area=part.wood.thickness * (hi - lo),
        hardware=tuple(biscuits),
        source=BISCUITING,
    )


def _stations(length: float, size: str) -> Sequence[float]:
    """Middles of the slots along what meets, mm: a single one where two would run into each other."""
    found = spread(length, BISCUIT_MARGIN, BISCUIT_SPACING)
    slot = BiscuitSlot((0.0, 0.0, 0.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0), size).length
    crowded = len(found) > 1 and found[1] - found[0] < slot + BETWEEN_SLOTS
    return (length / 2.0,) if crowded else found


def nailed(
    part: Stood,
    to: Stood,
    *,
    penny: str = "6d",
    count: int = 2,
    gap: float = 0.0,
    contact: Contact | None = None,
) -> Joint:
    """`part` nailed through its thickness to `to`, `count` finish nails spread across its width where they meet.

    gap: how far off the surface it may stand before it is drawn up, mm. contact: where they meet, if it can't be
    found; then a nail goes in at each of its points. Raises DesignError if the part does not lie flat on the other.
    """
    found = contact or flat_against(part, to, gap)
    if abs(abs(dot(found.toward, part.at.z)) - 1.0) > 1e-3:
        raise DesignError(f"{part.name} does not lie flat on {to.name}; a nail goes through its thickness")
    inward, out = scaled(found.toward, -1.0), scaled(found.toward, part.wood.thickness)
    feet = found.points if contact else _across(part, found, count)
    nails = [finish_nail(penny, added(p, out), inward, (part.name, to.name)) for p in feet]
    nails = nails if contact else [_amid(to, nail, part.wood.thickness) for nail in nails]
    return Joint("nailed", part.name, to.name, inward, (found,), hardware=tuple(nails), source=NAILING)


def screwed(
    part: Stood,
    to: Stood,
    at: Sequence[tuple[float, float]],
    *,
    gauge: str = "8",
    length: float = 38.0,
    plug: float = 10.0,
    plug_depth: float = 6.0,
    gap: float = 0.0,
) -> Joint:
    """`part` screwed to `to` through counterbores in its outer side, plugged: at points (x, y) of the flat blank.

    The part may be bent: holes then stand square to its curve. length: of the screws, mm; plug: diameter and depth,
    mm. gap: how far off the surfaces may stand at the screws. Raises DesignError if a screw misses the other part.
    """
    outer = _outer_side(part)
    z = part.wood.thickness if outer == "face" else 0.0
    into = (0.0, 0.0, -1.0) if outer == "face" else (0.0, 0.0, 1.0)
    bores, pilots, items, seats = [], [], [], []
    for x, y in at:
        shank = screw_shank(gauge)
        bores.append(Counterbore((x, y, z), into, plug, plug_depth, shank + 0.3))
        head, inner, direction = _driven(part, x, y, plug_depth)
        mouth = to.at.own_point(inner)
        own = to.at.own_direction(direction)
        pilot = tuple(clean(c) for c in mouth)
        pilots.append(
            Bore(
                (pilot[0], pilot[1], pilot[2]),
                tidy(own),
                screw_pilot(gauge),
                length - part.wood.thickness + plug_depth,
            )
        )
        items.append(wood_screw(gauge, length, head, direction, (part.name, to.name)))
        items.append(Hardware("plug", f"{plug:g} mm", head, direction, (part.name,), plug_depth, plug))
        seats.append(_beside(inner, part, plug))
    closes = items[0].direction
    return Joint(
        "screwed",
        part.name,
        to.name,
        closes,
        (Contact(tuple(seats), scaled(closes, -1.0), gap),),
        tuple(bores),
        tuple(pilots),
        hardware=tuple(items),
        source=PLUGGING,
    )


def _biscuit_for(m: Meeting, span: float) -> str:
    for size in ("20", "10", "0"):
        slot = BiscuitSlot((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), size)
        if slot.length + 8.0 <= span and slot.depth <= m.second.wood.thickness - 5.0:
            return size
    raise DesignError(
        f"{m.first.name} meets {m.second.name} over {span:.0f} mm only, too little for a biscuit; "
        "make it wider or use nails"
    )


def _slot(part: Stood, mouth: Vector, into: Vector, along: Vector, size: str) -> BiscuitSlot:
    at = part.at.own_point(mouth)
    return BiscuitSlot(
        (clean(at[0]), clean(at[1]), clean(at[2])),
        tidy(part.at.own_direction(into)),
        tidy(part.at.own_direction(along)),
        size,
    )


def _across(part: Stood, contact: Contact, count: int) -> list[Vector]:
    """Nail points spread over the part's width, level with where it touches."""
    middle = contact.points[len(contact.points) // 2]
    if count == 1:
        return [middle]
    width = part.wood.stock.width
    x, _, z = part.at.own_point(middle)
    inset = min(25.0, width / 4.0)
    return [part.at.point((x, inset + (width - 2.0 * inset) * n / (count - 1), z)) for n in range(count)]


def _amid(wood: Stood, nail: Hardware, passed: float) -> Hardware:
    """A nail that goes through `passed` mm first, into wood that leans to it: moved so that half way in it is amid its
    thickness."""
    z, half_way = wood.at.z, added(nail.at, scaled(nail.direction, (passed + nail.length) / 2.0))
    aside = square_to(z, nail.direction)
    if dot(aside, aside) < _LEAST_LEAN or abs(dot(z, nail.direction)) < _LEAST_LEAN:
        return nail
    off = wood.wood.thickness / 2.0 - wood.at.own_point(half_way)[2]
    return replace(nail, at=added(nail.at, scaled(aside, off / dot(aside, aside))))


def _outer_side(part: Stood) -> str:
    bend = part.wood.bend
    return "face" if bend is None or bend.hollow == "back" else "back"


def _driven(part: Stood, x: float, y: float, sunk: float) -> tuple[Vector, Vector, Vector]:
    """Head of the screw, where it leaves the part, and the way it goes, in the piece."""
    wood, outer = part.wood, _outer_side(part)
    levels = (wood.thickness - sunk, 0.0) if outer == "face" else (sunk, wood.thickness)
    head = part.at.point(wood.station((x, y, levels[0])))
    inner = part.at.point(wood.station((x, y, levels[1])))
    size = sum((b - a) ** 2 for a, b in zip(head, inner, strict=True)) ** 0.5
    return head, inner, scaled((inner[0] - head[0], inner[1] - head[1], inner[2] - head[2]), 1.0 / size)


def _beside(inner: Vector, part: Stood, plug: float) -> Vector:
    """A point where the surfaces meet, clear of the hole: along the part's width."""
    y = part.at.y
    return (inner[0] + plug * y[0], inner[1] + plug * y[1], inner[2] + plug * y[2])
