"""The screws of a hinge's leaves: so many to a leaf, their heads flush in it, driven square into the wood behind.

Their pilots are bored through the leaf with the hinge lying in its place, so they are no cuts and nothing is marked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from model.hardware import Hardware
from model.joints.joint import Stood, clean
from model.joints.meetings.hinge_line import HingeLine
from model.placement import scaled

#: Shank diameter of the small gauges, mm: 0.060 in and 0.013 in more for each number (ASME B18.6.1, from memory).
SHANKS = {"3": 2.51, "4": 2.84, "5": 3.18, "6": 3.51, "8": 4.17}
#: Lengths they are stocked in, mm (common practice: 3/8, 1/2, 5/8, 3/4 and 1 in).
LENGTHS = (9.5, 12.7, 16.0, 19.0, 25.0)
#: Wood left before the point of a screw, mm (common practice: 1/8 in).
BEFORE_POINT = 3.0
#: Screws of a continuous hinge stand so far apart, mm, half of that from its ends (common practice: 2 in).
SPACING = 50.0
#: Where across a leaf its screws stand, the outer ones and those between, as shares of its width from the flush side.
OUTER, INNER = 0.58, 0.42


@dataclass(frozen=True)
class LeafScrews:
    """For one leaf: gauge, the longest that goes with it, mm, and how many."""

    gauge: str
    length: float
    count: int


#: By the hinge's length (common practice: what such hinges are sold with).
OF_BUTTS = {
    "38 mm": LeafScrews("4", 12.7, 2),
    "50 mm": LeafScrews("5", 16.0, 3),
    "64 mm": LeafScrews("6", 19.0, 3),
    "76 mm": LeafScrews("8", 25.0, 3),
}
#: A continuous hinge's gauge and the longest that goes with it, mm (common practice).
OF_CONTINUOUS = ("4", 12.7)


def butt_screws(line: HingeLine, name: str, middle: float, length: float, leaf: float) -> tuple[Hardware, ...]:
    """Of both leaves of one butt hinge, by its size's name, its middle along the pin; length and leaf width, mm."""
    each = OF_BUTTS[name]
    along = [middle + length * 0.64 * (n / (each.count - 1) - 0.5) for n in range(each.count)]
    across = [leaf * (OUTER if n in (0, each.count - 1) else INNER) for n in range(each.count)]
    return tuple(_screws(line, list(zip(along, across, strict=True)), each.gauge, each.length))


def continuous_screws(line: HingeLine, middle: float, length: float, leaf: float) -> tuple[Hardware, ...]:
    """Of both leaves of a continuous hinge, in one row along the middle of each."""
    count = max(2, round(length / SPACING))
    along = [middle + length * ((n + 0.5) / count - 0.5) for n in range(count)]
    return tuple(_screws(line, [(s, leaf / 2.0) for s in along], *OF_CONTINUOUS))


def _screws(line: HingeLine, places: list[tuple[float, float]], gauge: str, longest: float) -> Iterator[Hardware]:
    for part, into in ((line.first, scaled(line.normal, -1.0)), (line.second, line.normal)):
        length = _length(line, part, longest)
        for s, down in places:
            head = line.point(s, line.start + line.gap / 2.0, line.level - down)
            size = f"No. {gauge} x {length:g} mm"
            yield Hardware("hinge screw", size, head, into, (part.name,), length, SHANKS[gauge])


def _length(line: HingeLine, part: Stood, longest: float) -> float:
    """The longest stocked that the wood behind the leaf takes; the shortest where it takes none."""
    x, y, z = (abs(c) for c in part.at.own_direction(line.normal))
    stock = part.wood.stock
    behind = clean(x * stock.length + y * stock.width + z * part.wood.thickness) + line.gap / 2.0 - BEFORE_POINT
    return max((n for n in LENGTHS if n <= min(longest, behind)), default=LENGTHS[0])
