"""Which parts get a full-size pattern, and what it shows: outline, openings, every cut's footprint, hole centres."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import PurePath

from drawings.cutting.files import cut_from_stock
from drawings.cutting.layers import edge_work
from drawings.cutting.sawn_outline import ON_THE_OUTLINE, sawn_outline
from drawings.lists.cut_words import cuts_in_words
from drawings.lists.distinct import Distinct, in_short
from drawings.lists.teller import Teller
from drawings.paper.sheet import Pen
from drawings.patterns.pattern import Label, Pattern, Penned
from drawings.patterns.pieces import in_wood, out_of
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut, Footprint
from model.cuts.faces import Bore
from model.cuts.sawn import SawCut
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import Edge, Outline
from model.order import Order
from model.part import Part
from model.piece import Piece

#: The cross on a hole's centre runs past its edge by this, mm.
_CROSS = 2.0
#: No more letters than this of work that is not drawn are told beside the pattern (ours).
_MOST_WORDS = 250
#: Decimals of mm to which outlines are held against each other.
_SAME = 4

Sawn = tuple[Outline, tuple[Cut, ...]]


def patterns(piece: Piece, order: Order) -> list[Pattern]:
    """One for each distinct part that is not a plain rectangle with plain holes, in the order of their numbers.

    Parts whose outlines and footprints are the same share one, but a left never with its right. A bent part's is of
    its flat blank. Parts given as solids have none.
    """
    hands = {hand for p in piece if p.mirror_of for hand in (p.name, p.mirror_of)}
    alike: dict[object, list[tuple[str, Distinct, Part]]] = {}
    for file, (distinct, part) in cut_from_stock(piece).items():
        if is_shaped(part):
            key = (_shape_key(part), distinct.item if hands & set(distinct.names) else None)
            alike.setdefault(key, []).append((PurePath(file).stem, distinct, part))
    form = Lengths(order.units, order.drawing.denominator)
    return [_pattern(members, order, form) for members in alike.values()]


def is_shaped(part: Part) -> bool:
    """Whether it is sawn to anything but a plain rectangle, or has an opening; tenons and tails, which are laid out
    by their own figures, don't count."""
    sawn = [c for c in part.cuts if isinstance(c, Notch | SawCut | Opening)]
    plain = _is_rectangle(part.outline)
    return not plain or any(isinstance(c, Opening) for c in sawn) or (bool(sawn) and not _is_rectangle(_sawn(part)))


def _sawn(part: Part) -> Outline:
    """The outline with its notches and saw cuts alone."""
    return sawn_outline(replace(part, cuts=tuple(c for c in part.cuts if isinstance(c, Profile | Notch | SawCut))))[0]


def _is_rectangle(outline: Outline) -> bool:
    x0, y0, x1, y1 = outline.bounds
    return all(e.straight for e in outline.edges) and abs((x1 - x0) * (y1 - y0) - outline.area) < 1e-3


def _shape_key(part: Part) -> object:
    rings = [(f.side, f.depth, f.through, f.outline) for _, f in _inner(part, sawn_outline(part))]
    rings.append(("face", part.thickness, True, sawn_outline(part)[0]))
    return tuple(sorted((s, round(d, _SAME), t, _canonical(o)) for s, d, t, o in rings))


def _canonical(outline: Outline) -> tuple[tuple[float, ...], ...]:
    ring = zip(outline.corners, outline.bulges, strict=True)
    return tuple(sorted((round(x, _SAME) + 0.0, round(y, _SAME) + 0.0, round(b, _SAME) + 0.0) for (x, y), b in ring))


def _inner(part: Part, sawn: Sawn) -> Iterator[tuple[Cut, Footprint]]:
    """Every footprint but the outline's own and what was worked into it; one that lies on another once."""
    seen = set()
    for cut, footprint in part.footprints():
        worked_in = footprint.through and isinstance(cut, ON_THE_OUTLINE) and cut not in sawn[1]
        key = footprint.side, round(footprint.depth, _SAME), footprint.through, _canonical(footprint.outline)
        if not isinstance(cut, Profile) and not worked_in and key not in seen:
            seen.add(key)
            yield cut, footprint


def _pattern(members: Sequence[tuple[str, Distinct, Part]], order: Order, form: Lengths) -> Pattern:
    name, _, part = members[0]
    sawn = sawn_outline(part)
    wood, inner = sawn[0], list(_inner(part, sawn))
    say = Teller(part, order.units, order.drawing.denominator)
    names = in_short(n for _, d, _ in members for n in d.names)
    return Pattern(
        name,
        names[0].upper() + names[1:],
        (*_lines(wood, inner), *_centre_line(wood)),
        tuple(_facts(members, order, form)),
        tuple(_notes(members, order)),
        tuple(_label(cut, footprint, say) for cut, footprint in inner if not isinstance(cut, Notch)),
        wood=wood,
        holes=tuple(f.outline for c, f in inner if f.through and not isinstance(c, Notch)),
    )


def _lines(wood: Outline, inner: Iterable[tuple[Cut, Footprint]]) -> Iterator[Penned]:
    edges: Iterable[Edge] = wood.edges
    for _, footprint in inner:
        if footprint.through:
            edges = out_of(edges, footprint.outline)
        pen = Pen.VISIBLE if footprint.through else Pen.THIN if footprint.side == "face" else Pen.HIDDEN
        yield Penned(tuple(in_wood(footprint.outline.edges, wood)), pen)
        if diameter_of(footprint.outline) is not None:
            yield Penned(_cross(footprint.outline), Pen.THIN)
    yield Penned(tuple(edges))


def _cross(hole: Outline) -> tuple[Edge, ...]:
    x0, y0, x1, y1 = hole.bounds
    x, y = (x0 + x1) / 2.0, (y0 + y1) / 2.0
    return Edge((x0 - _CROSS, y), (x1 + _CROSS, y)), Edge((x, y0 - _CROSS), (x, y1 + _CROSS))


def _centre_line(wood: Outline) -> Iterator[Penned]:
    """Across the grain through the middle, of an outline that is the same on both sides of it."""
    x0, y0, x1, y1 = wood.bounds
    mirrored = [(x0 + x1 - e.end[0], e.end[1], e.bulge) for e in wood.edges]
    ring = sorted((round(x, _SAME), round(y, _SAME), round(b, _SAME)) for x, y, b in mirrored)
    if ring == sorted(
        (round(x, _SAME), round(y, _SAME), round(e.bulge, _SAME)) for e in wood.edges for x, y in [e.start]
    ):
        middle = (x0 + x1) / 2.0
        yield Penned((Edge((middle, y0 - 4.0), (middle, y1 + 4.0)),), Pen.CENTRE)


def _label(cut: Cut, footprint: Footprint, say: Teller) -> Label:
    """What the cut is and how deep it goes: "dado 9.5 deep", "hole Ø8, 20 deep, back side"."""
    size = diameter_of(footprint.outline)
    depth = "through" if footprint.through else f"{say.length(footprint.depth)} deep"
    if footprint.side == "back" and not footprint.through:
        depth += ", back side"
    name = "hole" if isinstance(cut, Bore) else cut.name.removeprefix("through ")
    words = f"{name} {depth}" if size is None else f"{name} Ø{say.length(size)}, {depth}"
    return Label(words, footprint.outline.bounds, counted=size is not None)


def diameter_of(outline: Outline) -> float | None:
    """Of an outline that is one full circle, mm; None for any other."""
    return outline.edges[0].chord if outline.bulges == (1.0, 1.0) else None


def _facts(members: Sequence[tuple[str, Distinct, Part]], order: Order, form: Lengths) -> Iterator[str]:
    items = ", ".join(str(d.item) for _, d, _ in members)
    count = sum(d.quantity for _, d, _ in members)
    yield f"Item{'s' if len(members) > 1 else ''} {items}, {count} off. {order.title}"
    stock = members[0][2].stock
    sizes = " × ".join(form(s) for s in (stock.length, stock.width, stock.thick))
    yield f"Blank {sizes}, {stock.species}"


def _notes(members: Sequence[tuple[str, Distinct, Part]], order: Order) -> Iterator[str]:
    if members[0][2].bend:
        yield "This is the flat blank: bend it after it is cut."
    told = [
        tuple(cuts_in_words(edge_work(part), part, order.units, order.drawing.denominator)) for _, _, part in members
    ]
    if len(set(told)) > 1:
        yield "Work on the edges differs from part to part: see their sheets."
    elif told[0]:
        words = "; ".join(told[0])
        short = len(words) <= _MOST_WORDS
        yield f"Not drawn here: {words}." if short else "Its edges and ends are worked too, as its sheet shows."
