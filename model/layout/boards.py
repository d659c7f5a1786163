"""Boards standing round an arc, in plan: how wide, at what angle, and how neighbours meet.

Angles are degrees about the arc's centre, 0 through the arc's middle, to the left negative; in plan the
centre is the origin, x to the right and y from the centre towards the arc's middle. Lengths are millimetres.

Two ways to stand:

- **Outside a convex arc** (`tangent_boards`): each board's near face is tangent to the arc at the board's
  middle. A board of width w then reaches, on either side, the ray at a = atan(w / (2 R)), and its near corner
  stands on that ray R / cos a from the centre. Its edge runs outward parallel to its own middle, away from
  the ray, so each board keeps to its own wedge and no two overlap, whatever their widths. Equal neighbours
  touch corner to corner; unequal ones stand off by `step` along the ray, which leaves `joint_gap` between
  them.
- **Inside a concave arc** (`chord_boards`): equal boards whose back corners stand on the arc and whose front
  corners meet. The front is nearer the centre, where there is less room, so square edges touch there and open
  to the back.
"""

import math
import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from model.errors import DesignError
from model.layout.arcs import Point, arc_length, check_angle, check_positive
from model.lengths import INCH, format_length
from model.tolerance import SAME_POINT

#: A ripped board narrower than this splits when it is nailed. Millimetres; common practice.
LEAST_RIPPED = 25.0

#: Random widths are whole multiples of this, so that they can be read off a rule. Millimetres, by unit.
GRID = {"mm": Fraction(1), "in": INCH / 16}

# Puts a drawn width back on its mark after the way to its angle and back.
_DECIMALS = 9


@dataclass(frozen=True)
class Standing:
    """Where one board stands round an arc.

    Attributes:
        index: 0 for the leftmost.
        width: of the near face [mm].
        angle: of the board's middle [deg].
        distance: from the arc's centre to the near face (the one towards the centre), along `angle` [mm].
        half_span: the angle on either side of its middle that the board takes up [deg].
    """

    index: int
    width: float
    angle: float
    distance: float
    half_span: float

    def point(self, along: float, out: float = 0.0) -> Point:
        """A point in plan [mm]: `along` the near face to the right of its middle, `out` behind that face."""
        turn = math.radians(self.angle)
        reach = self.distance + out
        return (
            reach * math.sin(turn) + along * math.cos(turn),
            reach * math.cos(turn) - along * math.sin(turn),
        )

    def footprint(self, thickness: float) -> tuple[Point, Point, Point, Point]:
        """Corners in plan [mm] of a square-edged board: near left, near right, far right, far left."""
        half = self.width / 2
        return (
            self.point(-half),
            self.point(half),
            self.point(half, thickness),
            self.point(-half, thickness),
        )


def half_span(radius: float, width: float) -> float:
    """Angle [deg] a tangent board of a width [mm] takes up either side of its middle: atan(w / (2 R)).

    Raises:
        DesignError: a size is not a positive length.
    """
    check_positive(radius=radius, width=width)
    return math.degrees(math.atan2(width, 2 * radius))


def width_over(radius: float, span: float) -> float:
    """Width [mm] of the tangent board that takes up a whole span [deg, below 180]: 2 R tan(span / 2)."""
    return 2 * radius * math.tan(math.radians(span) / 2)


def gap_behind(radius: float, width: float) -> float:
    """How far the edge of a tangent board's near face stands off the arc, radially [mm]: R / cos a - R.

    R / cos a is sqrt(R² + (w/2)²); worked as (w/2)² / (sqrt(R² + (w/2)²) + R), which keeps its digits.

    >>> gap_behind(2750, 150)
    1.0225

    Raises:
        DesignError: a size is not a positive length.
    """
    check_positive(radius=radius, width=width)
    half = width / 2
    return half**2 / (math.hypot(radius, half) + radius)


def step(radius: float, first: float, second: float) -> float:
    """How far the first of two tangent neighbours stands out beyond the second, along their joint's ray [mm].

    R / cos a1 - R / cos a2; negative when the second, the wider, stands out.

    Raises:
        DesignError: a size is not a positive length.
    """
    return gap_behind(radius, first) - gap_behind(radius, second)


def joint_gap(radius: float, first: float, second: float) -> float:
    """The opening between two tangent neighbours of unequal widths [mm]: |step| sin a of the narrower.

    The wider board's corner stands `step` further out on the joint's ray; the narrower board's edge leaves
    that ray at the narrower one's half span, so the corner clears it by this much. Holds for boards thicker
    than the step.

    Raises:
        DesignError: a size is not a positive length.
    """
    narrower = math.radians(half_span(radius, min(first, second)))
    return abs(step(radius, first, second)) * math.sin(narrower)


def tangent_boards(
    radius: float, widths: Iterable[float], total_angle: float, *, least: float = LEAST_RIPPED
) -> list[Standing]:
    """Flat boards round the outside of a convex arc, near faces tangent to it.

    They run from -total_angle / 2 to +total_angle / 2. Boards are taken in the order given until the arc is
    full; the last is ripped to fit and the rest are left over.

    Args:
        radius: of the arc the near faces touch [mm].
        widths: face widths [mm], as laid (without tongues); may be endless.
        total_angle: of the arc to fill [deg].
        least: the narrowest ripped board allowed [mm].

    Raises:
        DesignError: a size is not positive; the widths don't fill the arc (says how much is missing along
            it); or the ripped board would be narrower than `least` (says what to change).
    """
    check_positive(radius=radius)
    check_angle(total_angle)
    same_angle = math.degrees(SAME_POINT / radius)
    standings: list[Standing] = []
    start, end = -total_angle / 2, total_angle / 2
    for index, width in enumerate(widths):
        span = 2 * half_span(radius, width)
        if start + span > end + same_angle:
            span = end - start
            width = width_over(radius, span)
            _check_rip(width, index, least)
        standings.append(Standing(index, width, start + span / 2, radius, span / 2))
        start += span
        if start >= end - same_angle:
            return standings
    missing = arc_length(radius, end - start)
    raise DesignError(
        f"the {len(standings)} board widths given leave {_mm(missing)} of the arc bare; "
        "add boards to cover it, or take wider ones"
    )


def chord_boards(radius: float, count: int, thickness: float, total_angle: float) -> list[Standing]:
    """Equal flat boards round the inside of a concave arc, back corners on it, front corners meeting.

    Each board takes up 2 a = total_angle / count. With half width h and its back face d from the centre:

        back corners on the arc    d² + h² = R²
        front corners on the rays  h = (d - t) tan a

    Putting d = h / tan a + t into the first gives a quadratic in h whose positive root is
    h = sin a (sqrt(R² - t² sin² a) - t cos a).

    Args:
        radius: of the arc that the back corners touch [mm].
        count: how many boards.
        thickness: of the boards [mm], measured outward from `distance`, the front face, to the back face.
        total_angle: of the arc to fill [deg], below 180 for each board.

    Returns:
        The boards from left to right; `distance` is to the front face, d - t.

    Raises:
        DesignError: a size is not positive, there are no boards, or they are too thick or too few to stand.
    """
    check_positive(radius=radius, thickness=thickness)
    check_angle(total_angle)
    if count < 1 or total_angle / count >= 180:
        fewest = math.floor(total_angle / 180) + 1
        raise DesignError(f"{count} flat boards can't go round {total_angle:g} degrees; take {fewest} or more")
    if thickness >= radius:
        raise DesignError(f"boards {_mm(thickness)} thick can't stand inside a radius of {_mm(radius)}")
    span = total_angle / count
    a = math.radians(span / 2)
    sin, cos = math.sin(a), math.cos(a)
    ray = math.sqrt(radius**2 - (thickness * sin) ** 2) - thickness * cos
    middles = [(n + 0.5) * span - total_angle / 2 for n in range(count)]
    return [Standing(n, 2 * ray * sin, middle, ray * cos, span / 2) for n, middle in enumerate(middles)]


def random_widths(low: float, high: float, seed: int, unit: str = "mm") -> Iterator[float]:
    """Endless board widths [mm] from low to high [mm], on whole millimetres, or 1/16 in when `unit` is "in".

    The same seed gives the same widths on every version of Python: only `Random.random()` is drawn from,
    whose sequence the library guarantees.

    Raises:
        DesignError: low or high is not a positive length, or no mark of the rule lies from low to high.
    """
    check_positive(low=low, high=high)
    grid = GRID[unit]
    first, last = math.ceil((low - SAME_POINT) / grid), math.floor((high + SAME_POINT) / grid)
    if first > last:
        raise DesignError(f"no board width on the rule lies from {_mm(low)} to {_mm(high)}; widen the range")
    return _drawn(first, last, grid, random.Random(seed))


def fill_with_random(
    radius: float, low: float, high: float, seed: int, total_angle: float, unit: str = "mm"
) -> list[float]:
    """Random widths [mm] of tangent boards that fill an arc exactly, without a sliver at the end.

    Boards are drawn as by `random_widths` and the last is ripped. If that leaves it narrower than low, the
    boards at the end are evened out: as few as will do, one board fewer if need be. So every width lies from
    low to high whenever any number of boards can do that, and all but the evened ones are on the rule's
    marks. Where no number can, all the boards are equal and narrower than low: a board can be ripped, never
    widened.

    Raises:
        DesignError: a size is not a positive length, or the range holds no width on the rule.
    """
    check_positive(radius=radius)
    check_angle(total_angle)
    drawn = (2 * half_span(radius, width) for width in random_widths(low, high, seed, unit))
    least, most = 2 * half_span(radius, low), 2 * half_span(radius, high)
    spans = _filling(drawn, total_angle, least, most, math.degrees(SAME_POINT / radius))
    return [round(width_over(radius, span), _DECIMALS) for span in spans]


def fill_straight_with_random(length: float, low: float, high: float, seed: int, unit: str = "mm") -> list[float]:
    """Random widths [mm] that fill a straight run of a length [mm] exactly, chosen as by `fill_with_random`.

    Raises:
        DesignError: a size is not a positive length, or the range holds no width on the rule.
    """
    check_positive(length=length)
    return _filling(random_widths(low, high, seed, unit), length, low, high, SAME_POINT)


def _drawn(first: int, last: int, grid: Fraction, source: random.Random) -> Iterator[float]:
    while True:
        yield float((first + math.floor(source.random() * (last - first + 1))) * grid)


def _filling(drawn: Iterator[float], total: float, low: float, high: float, same: float) -> list[float]:
    """Pieces that add up to `total`, in any measure: drawn, then evened out if the last is below low."""
    pieces: list[float] = []
    left = total
    while left > same:
        pieces.append(min(next(drawn), left))
        left = total - math.fsum(pieces)
    return pieces if pieces[-1] >= low - same else _evened(pieces, low - same, high + same)


def _evened(pieces: list[float], low: float, high: float) -> list[float]:
    """The pieces with the fewest at the end made equal, so that these lie from low to high."""
    for tail in range(2, len(pieces) + 1):
        kept, run = pieces[:-tail], math.fsum(pieces[-tail:])
        for boards in (tail, tail - 1):
            if low <= run / boards <= high:
                return kept + [run / boards] * boards
    return [math.fsum(pieces) / len(pieces)] * len(pieces)


def _check_rip(width: float, index: int, least: float) -> None:
    if width >= least:
        return
    if index == 0:
        raise DesignError(f"the arc to fill is only {_mm(width)} wide, less than the least board, {_mm(least)}")
    narrower, wider = _enough(least - width), _enough(width)
    raise DesignError(
        f"board {index + 1}, the last, would be ripped to {_mm(width)}, narrower than {_mm(least)}; "
        f"make the boards before it {narrower} mm narrower in all, or {wider} mm wider"
    )


def _enough(change: float) -> int:
    """A change [mm] of the boards' widths in whole millimetres, with one over: round an arc, width counts for less."""
    return math.ceil(change - SAME_POINT) + 1


def _mm(length: float) -> str:
    return f"{format_length(length, decimals=2)} mm"
