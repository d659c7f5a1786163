"""Doors, lids and hatches on hinges: gains cut in both parts, the pin where it turns, how far it opens."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model.errors import DesignError
from model.hardware import Hardware
from model.joints.hinge_screws import butt_screws, continuous_screws
from model.joints.joint import Joint, Stood, clean
from model.joints.meetings.hinge_line import HingeLine, hinge_line
from model.placement import Vector, named_direction
from model.tolerance import SAME_POINT

CONTINUOUS = "common practice: the hinge a little shorter than the lid, its leaves in the gap or let in flush"
HINGING = "common practice: each leaf let in flush, one hinge length from the ends, a third hinge above a metre"

#: How far a door or lid opens if not said, degrees (common practice).
DOOR_OPENS, LID_OPENS = 110.0, 95.0
#: A door or lid longer than this has a third hinge, mm, and another for each such length (common practice).
THIRD_HINGE = 1000.0
#: Wood left behind a leaf, mm, so that its gain does not break out (common practice: 1/8 in).
BACKING = 3.0
#: Gains shallower than this are not cut, mm: the leaves lie in the gap.
SHALLOWEST = 0.1
#: A continuous hinge stops short of the ends by this, mm, and its knuckle is so thick (common practice).
CONTINUOUS_MARGIN, CONTINUOUS_KNUCKLE, CONTINUOUS_LEAF = 15.0, 5.0, 12.0


@dataclass(frozen=True)
class ButtHinge:
    """length along the pin; leaf from the pin's middle to the leaf's edge; closed: thickness over both leaves, shut;
    knuckle: its diameter. mm."""

    length: float
    leaf: float
    closed: float
    knuckle: float


#: Butt hinges by length (common practice: sold as 1 1/2, 2, 2 1/2 and 3 in; leaf thickness from 1.2 to 2 mm).
BUTTS: dict[str, ButtHinge] = {
    "38 mm": ButtHinge(38.0, 11.0, 3.0, 4.5),
    "50 mm": ButtHinge(50.0, 13.5, 3.5, 5.0),
    "64 mm": ButtHinge(64.0, 17.5, 4.0, 5.5),
    "76 mm": ButtHinge(76.0, 20.0, 4.5, 6.0),
}


@dataclass(frozen=True)
class Hinged(Joint):
    """A joint that turns: a point on its `pin`, the pin's direction `along`, right-handed about which it opens, and
    how far it `opens`, degrees. fit: the gap between the two parts, mm."""

    pin: Vector = (0.0, 0.0, 0.0)
    along: Vector = (0.0, 0.0, 1.0)
    opens: float = DOOR_OPENS

    @property
    def swing(self) -> tuple[Vector, Vector, float]:
        """For piece.swing(door, *joint.swing)."""
        return self.pin, self.along, self.opens


def butt_hinges(
    door: Stood,
    to: Stood,
    *,
    knuckle: str | Vector = "front",
    size: str | None = None,
    count: int | None = None,
    margin: float | None = None,
    opens: float = DOOR_OPENS,
) -> Hinged:
    """`door` (or lid) hung on `to` with butt hinges in the gap between them: gains for the leaves in both, each half of
    what the closed hinge is thicker than the gap.

    The two stand shut, flush where the knuckles show; knuckle: that way, a direction's name or a vector. size: of the
    hinges, from BUTTS, the largest up to 64 mm whose leaf goes in if not said. count: two, three above a metre.
    margin: from the ends to the hinges, mm, one hinge length if not said. Raises DesignError if no gap is found, if it
    is wider than the hinge, or if the hinges don't go in. Proportions are common practice.
    """
    line = hinge_line(door, to, named_direction(knuckle))
    name = size or _fitting(line)
    hinge = _butt(name)
    sunk = _sunk(line, hinge.closed, f"butt hinge {name} long")
    number = count or 2 + int(line.length // THIRD_HINGE)
    places = list(_places(line, hinge, number, hinge.length if margin is None else margin))
    leaf = clean(hinge.leaf - hinge.knuckle / 2.0)
    if leaf > line.breadth - BACKING + SAME_POINT:
        raise DesignError(
            f"a leaf let in {leaf:.1f} mm breaks out of {line.breadth:.1f} mm of wood between {door.name} and "
            f"{to.name}; {line.breadth - BACKING:.1f} mm is the most, so take a smaller hinge"
        )
    proud = hinge.knuckle / 2.0
    items = tuple(
        Hardware("butt hinge", name, line.pin(s, proud), line.along, (door.name, to.name), hinge.length, hinge.knuckle)
        for s in places
    )
    items += tuple(screw for s in places for screw in butt_screws(line, name, s, hinge.length, leaf))
    return _hinged("butt hinges", line, places, (hinge.length, leaf, sunk), items, proud, opens)


def continuous_hinge(
    leaf: Stood,
    to: Stood,
    *,
    knuckle: str | Vector = "up",
    margin: float = CONTINUOUS_MARGIN,
    closed: float | None = None,
    opens: float = LID_OPENS,
) -> Hinged:
    """A continuous hinge all along the gap between `leaf` and `to`, `margin` mm short of its ends.

    closed: thickness over both leaves, mm; not said, they just fill the gap, and no gains are cut. Otherwise as
    butt_hinges. Raises DesignError if no gap is found, if it is wider than the hinge, or if nothing is left of it.
    """
    line = hinge_line(leaf, to, named_direction(knuckle))
    length = clean(line.length - 2.0 * margin)
    if length <= 0.0:
        raise DesignError(
            f"nothing is left of a hinge {line.length:.1f} mm long, {margin:g} mm short at each end; take less off it"
        )
    sunk = 0.0 if closed is None else _sunk(line, closed, "continuous hinge")
    proud = CONTINUOUS_KNUCKLE / 2.0
    width = min(CONTINUOUS_LEAF - proud, line.breadth)
    middle = (line.low + line.high) / 2.0
    names = (leaf.name, to.name)
    item = Hardware(
        "continuous hinge", f"{length:.0f} mm long", line.pin(middle, proud), line.along, names, length, 2.0 * proud
    )
    items = (item, *continuous_screws(line, middle, length, width))
    return _hinged("continuous hinge", line, [middle], (length, width, sunk), items, proud, opens)


def lid_stay(lid: Stood, to: Stood, at: Vector, *, direction: str | Vector = "up", length: float = 250.0) -> Hardware:
    """A stay that holds a lid open: fixed to the inside of `to` at a point of the piece, its arm `length` mm long when
    shut, lying in a direction. mm; sizes are common practice."""
    return Hardware("lid stay", f"{length:g} mm", at, named_direction(direction), (lid.name, to.name), length, 10.0)


def _hinged(
    kind: str,
    line: HingeLine,
    places: Sequence[float],
    seat: tuple[float, float, float],
    items: tuple[Hardware, ...],
    proud: float,
    opens: float,
) -> Hinged:
    length, leaf, sunk = seat
    cut = sunk > SHALLOWEST
    return Hinged(
        kind,
        line.first.name,
        line.second.name,
        line.closing,
        first_cuts=tuple(line.gain(line.first, s, length, leaf, sunk) for s in places if cut),
        second_cuts=tuple(line.gain(line.second, s, length, leaf, sunk) for s in places if cut),
        fit=line.gap,
        hardware=items,
        source=CONTINUOUS if kind == "continuous hinge" else HINGING,
        pin=line.pin((line.low + line.high) / 2.0, proud),
        along=line.along,
        opens=opens,
    )


def _butt(size: str) -> ButtHinge:
    if size not in BUTTS:
        raise DesignError(f'no butt hinge is "{size}" long; there are {", ".join(BUTTS)}')
    return BUTTS[size]


def _fitting(line: HingeLine) -> str:
    """The largest size up to 64 mm whose leaf goes into the wood; the smallest if none does."""
    sizes = [n for n, h in BUTTS.items() if h.length <= 64.0]
    fitting = [n for n in sizes if BUTTS[n].leaf - BUTTS[n].knuckle / 2.0 <= line.breadth - BACKING]
    return (fitting or sizes[:1])[-1]


def _sunk(line: HingeLine, closed: float, what: str) -> float:
    """How deep each leaf is let in, mm."""
    if closed < line.gap - SAME_POINT:
        raise DesignError(
            f"the gap between {line.first.name} and {line.second.name} is {line.gap:.1f} mm, but the {what} is only "
            f"{closed:g} mm thick when shut; make the gap that or less"
        )
    return clean((closed - line.gap) / 2.0)


def _places(line: HingeLine, hinge: ButtHinge, count: int, margin: float) -> Iterator[float]:
    """Middles of the hinges along the pin."""
    first, last = line.low + margin + hinge.length / 2.0, line.high - margin - hinge.length / 2.0
    if count < 2 or (last - first) / (count - 1) < hinge.length:
        raise DesignError(
            f"{count} hinges {hinge.length:g} mm long, {margin:g} mm from the ends, don't go on {line.length:.1f} mm; "
            "take two or more, smaller ones or less margin"
        )
    for n in range(count):
        yield first + (last - first) * n / (count - 1)
