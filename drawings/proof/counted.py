"""Numbers that count: each is counted again in the piece, by what it says it is of."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drawings.paper.saying import Topic
from drawings.proof.ground import Ground
from model.joints.joint import Joint

#: Counts again what a number is of; None where there is no such thing.
Count = Callable[[tuple[str, ...], Ground], int | None]


def _parts(of: tuple[str, ...], ground: Ground) -> int:
    return len(ground.piece.parts)


def _kinds(of: tuple[str, ...], ground: Ground) -> int:
    return len({p.part for p in ground.piece})


def _off(of: tuple[str, ...], ground: Ground) -> int | None:
    """As many as are made alike, whose solids are indeed as large."""
    names = ground.alike(of[0])
    sizes = {round(ground.witness.volume(name), 3) for name in names}
    return len(names) if len(sizes) == 1 else None


def _item(of: tuple[str, ...], ground: Ground) -> int | None:
    """Items are numbered as the first of their parts comes."""
    firsts = list(dict.fromkeys(ground.alike(p.name)[0] for p in ground.piece))
    alike = ground.alike(of[0])
    return firsts.index(alike[0]) + 1 if alike else None


def _more(of: tuple[str, ...], ground: Ground) -> int | None:
    return len(set(of)) - 1 if set(of) <= ground.piece.parts.keys() else None


def _joints(of: tuple[str, ...], ground: Ground) -> int:
    number, kind = of
    return sum(j.kind == kind and not _loose(j) for j in ground.made.get(int(number), ()))


def _glued(of: tuple[str, ...], ground: Ground) -> int:
    return sum(j.glue_area > 0.0 for j in ground.made.get(int(of[0]), ()))


def _ends(of: tuple[str, ...], ground: Ground) -> int:
    return len({(j.first, j.second) for j in ground.made.get(int(of[0]), ()) if j.glue_area > 0.0})


def _alike(of: tuple[str, ...], ground: Ground) -> int:
    return sum(j.kind == of[0] and bool(j.contacts and (j.first_cuts or j.second_cuts)) for j in ground.piece.joints)


def _hardware(of: tuple[str, ...], ground: Ground) -> int:
    label, number = of
    return sum(h.label == label for h in ground.driven.get(int(number), ()))


def _bought(of: tuple[str, ...], ground: Ground) -> int:
    kind, size = of
    return sum((h.kind, h.size) == (kind, size) for h in ground.piece.hardware)


def _bought_for(of: tuple[str, ...], ground: Ground) -> int:
    """Those that go into one part first and hold the same others, the first and the others parted by a line."""
    kind, size, *names = of
    firsts, others = names[: names.index("|")], tuple(names[names.index("|") + 1 :])
    same = [h for h in ground.piece.hardware if (h.kind, h.size) == (kind, size) and h.parts[1:] == others]
    return sum(h.parts[0] in firsts for h in same)


def _cuts(of: tuple[str, ...], ground: Ground) -> int | None:
    """The cuts of a part that one setting makes, each told by its place among the part's, a row by all its places; and
    which of its settings it is."""
    name, *places = of
    wood = ground.wood(name)
    cuts = [int(n) for place in places for n in place.partition(":")[0].split(",")]
    there = wood is not None and all(n < len(wood.cuts) for n in cuts)
    return len(set(places)) if there else None


def _loose(joint: Joint) -> bool:
    """Do its parts only lie on each other?"""
    return not (joint.first_cuts or joint.second_cuts or joint.hardware or joint.glue_area)


#: How each topic is counted again.
COUNTS: Mapping[Topic, Count] = {
    "parts": _parts,
    "kinds": _kinds,
    "off": _off,
    "item": _item,
    "more": _more,
    "joints": _joints,
    "glued": _glued,
    "ends": _ends,
    "alike": _alike,
    "hardware": _hardware,
    "bought": _bought,
    "bought for": _bought_for,
    "cuts": _cuts,
}
