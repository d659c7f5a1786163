"""Every mark of a sheet as the basic ones all players draw: lines, arcs, fills and single texts.

A dimension's lines, arrowheads and lettering are worked out here once, so that they stand in the same place in
the DXF, the SVG and the PDF.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from drawings.paper.arcs import polar
from drawings.paper.hatching import hatch_lines
from drawings.paper.lettering import reach, text_width
from drawings.paper.measured import Meant
from drawings.paper.sheet import (
    AngularDimension,
    Arc,
    Basic,
    Circle,
    Dimension,
    Entity,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    OrdinateDimension,
    Pen,
    Point,
    Polyline,
    RadiusDimension,
    Text,
)

#: Arrowheads three times as long as wide (NAVEDTRA 14069 ch. 3, length 1/8 in), mm.
ARROW_LENGTH = 3.0
ARROW_WIDTH = 1.0
#: Extension lines start short of the outline and run past the dimension line (common practice 1/16 in and
#: 1/8 in; ISO 129-1, from memory: 8 line widths, 2 mm), mm.
EXTENSION_GAP = 1.5
EXTENSION_OVERRUN = 2.0
#: Lettering stands this far above its line, mm, and its tails keep so far off it.
TEXT_GAP, _TAILS_OFF = 0.9, 0.075
#: An ordinate's leader jogs aside over this length, and runs straight again for that before its end (ours), mm.
JOG, JOG_END = 4.0, 2.0
#: The dot at the end of a leader (ASME Y14.2-2008 2.9.3), diameter in mm.
DOT = 1.5


def strokes(entity: Entity) -> tuple[Basic, ...]:
    """The basic marks of one entity, in drawing order."""
    if isinstance(entity, Dimension):
        return dimension_strokes(entity)
    if isinstance(entity, Leader):
        return _leader(entity)
    if isinstance(entity, Hatch):
        return hatch_lines(entity)
    return (entity,)


def dimension_strokes(dimension: Dimension) -> tuple[Basic, ...]:
    """The lines, filled arrowheads and the text (last) of a dimension, paper mm."""
    if isinstance(dimension, LinearDimension):
        return tuple(_linear(dimension))
    if isinstance(dimension, RadiusDimension):
        return _radius(dimension)
    if isinstance(dimension, OrdinateDimension):
        return _ordinate(dimension)
    return _angular(dimension)


def dimension_text_of(dimension: Dimension) -> Text:
    """The lettering of a dimension where it stands on the paper."""
    text = dimension_strokes(dimension)[-1]
    assert isinstance(text, Text)
    return text


def reading_angle(angle: float) -> float:
    """The angle at which lettering along `angle` is read from below or from the right: over -90 up to 90.

    >>> reading_angle(180), reading_angle(-90), reading_angle(135)
    (0.0, 90.0, -45.0)
    """
    turned = (angle + 90.0) % 180.0 - 90.0
    return 90.0 if turned <= -90.0 + 1e-9 else turned


def text_gap(text: str, height: float, by: float = 1.0) -> float:
    """How far over its line a text stands, mm: its tails stay clear; by: how many times larger it all is."""
    return max(TEXT_GAP * by, _TAILS_OFF * by - reach(text)[0] * height)


def _line(p: Point, q: Point) -> Line:
    return Line(p, q, Pen.DIMENSION)


def _step(p: Point, angle: float, length: float) -> Point:
    return polar(p, length, angle)


def _arrow(tip: Point, angle: float, by: float) -> Fill:
    """A filled arrowhead at `tip`, pointing along `angle`, so many times larger than usual."""
    heel = _step(tip, angle, -ARROW_LENGTH * by)
    side = ARROW_WIDTH * by / 2
    return Fill((Polyline((tip, _step(heel, angle + 90, side), _step(heel, angle - 90, side)), closed=True),))


def _linear(dim: LinearDimension) -> Iterator[Basic]:
    first, last = _feet(dim)
    start, end = (first, last) if _along(dim, last) >= _along(dim, first) else (last, first)
    length, by, head = math.dist(start, end), dim.enlarged, ARROW_LENGTH * dim.enlarged
    width = text_width(dim.text, dim.height)
    arrows_inside = length >= 2 * head + 2 * by
    text_inside = width + by <= length
    for point, foot in ((dim.p, first), (dim.q, last)):
        yield from _extension(point, foot, by)
    tail = 0.0 if arrows_inside else 2 * head
    beyond = 0.0 if text_inside else max(tail, head + by) + width + 0.5 * by
    before, after = (beyond, tail) if dim.beside == "start" else (tail, beyond)
    yield _line(_step(start, dim.angle, -max(before, tail)), _step(end, dim.angle, max(after, tail)))
    yield _arrow(start, dim.angle + (180 if arrows_inside else 0), by)
    yield _arrow(end, dim.angle + (0 if arrows_inside else 180), by)
    yield _text_above(dim, _text_middle(dim, start, end, text_inside, beyond - width / 2))


def _along(dim: LinearDimension, point: Point) -> float:
    turn = math.radians(dim.angle)
    return point[0] * math.cos(turn) + point[1] * math.sin(turn)


def _feet(dim: LinearDimension) -> tuple[Point, Point]:
    """Where the two measured points come on the dimension line."""
    base = _along(dim, dim.line)
    p, q = (_step(dim.line, dim.angle, _along(dim, point) - base) for point in (dim.p, dim.q))
    return p, q


def _extension(point: Point, foot: Point, by: float) -> Iterator[Line]:
    if math.dist(point, foot) > EXTENSION_GAP * by:
        away = math.degrees(math.atan2(foot[1] - point[1], foot[0] - point[0]))
        yield _line(_step(point, away, EXTENSION_GAP * by), _step(foot, away, EXTENSION_OVERRUN * by))


def _text_middle(dim: LinearDimension, start: Point, end: Point, inside: bool, reach: float) -> Point:
    """The point of the dimension line that the text is centred over."""
    if inside:
        return (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    return _step(start, dim.angle, -reach) if dim.beside == "start" else _step(end, dim.angle, reach)


def _text_above(dim: LinearDimension, middle: Point) -> Text:
    angle = reading_angle(dim.angle)
    at = _step(middle, angle + 90, text_gap(dim.text, dim.height, dim.enlarged))
    return Text(at, dim.text, dim.height, "centre", angle=angle, pen=Pen.DIMENSION)


def _radius(dim: RadiusDimension) -> tuple[Basic, ...]:
    tip = polar(dim.centre, dim.radius, dim.angle)
    elbow = polar(dim.centre, dim.radius - dim.reach, dim.angle)
    arrow = _arrow(tip, dim.angle + (0 if dim.reach > 0 else 180), dim.enlarged)
    return (_line(tip, elbow), arrow, *_shoulder(elbow, elbow[0] >= tip[0] - 1e-9, dim))


def _ordinate(dim: OrdinateDimension) -> tuple[Basic, ...]:
    """The leader, with its jog if it has one, and the text beyond it along the same direction."""
    axis = 0 if dim.axis == "x" else 1
    out = math.copysign(1.0, dim.end[1 - axis] - dim.p[1 - axis])

    def at(station: float, across: float) -> Point:
        return (station, across) if axis == 0 else (across, station)

    by = dim.enlarged
    begin, end = dim.p[1 - axis] + out * EXTENSION_GAP * by, dim.end[1 - axis]
    path = [at(dim.p[axis], begin)]
    if abs(dim.p[axis] - dim.end[axis]) > 0.01:
        path += [at(dim.p[axis], end - out * (JOG + JOG_END) * by), at(dim.end[axis], end - out * JOG_END * by)]
    path.append(dim.end)
    place = at(dim.end[axis], end + out * text_gap(dim.text, dim.height, by))
    text = Text(
        place,
        dim.text,
        dim.height,
        "left" if out > 0 else "right",
        "middle",
        90.0 if axis == 0 else 0.0,
        pen=Pen.DIMENSION,
    )
    return (Polyline(tuple(path), pen=Pen.DIMENSION), text)


def _shoulder(
    elbow: Point, rightwards: bool, of: RadiusDimension | Leader, measured: Meant = None
) -> tuple[Line, Text]:
    """A level line from the elbow with the text standing on it."""
    run = (text_width(of.text, of.height) + of.enlarged) * (1 if rightwards else -1)
    middle = (elbow[0] + run / 2, elbow[1] + text_gap(of.text, of.height, of.enlarged))
    return (
        _line(elbow, (elbow[0] + run, elbow[1])),
        Text(middle, of.text, of.height, "centre", pen=Pen.DIMENSION, measured=measured),
    )


def _leader(leader: Leader) -> tuple[Basic, ...]:
    first, second = leader.points[0], leader.points[1]
    angle = math.degrees(math.atan2(first[1] - second[1], first[0] - second[0]))
    tips: dict[str, tuple[Basic, ...]] = {
        "arrow": (_arrow(first, angle, leader.enlarged),),
        "dot": (_dot(first, leader.enlarged),),
        "none": (),
    }
    path = Polyline(leader.points, pen=Pen.DIMENSION)
    before, last = leader.points[-2:]
    return (
        path,
        *tips[leader.tip],
        *_shoulder(last, last[0] >= before[0] - 1e-9, leader, leader.measured),
    )


def _dot(at: Point, by: float) -> Fill:
    left, right = (at[0] - DOT * by / 2, at[1]), (at[0] + DOT * by / 2, at[1])
    return Fill((Polyline((left, right), (1.0, 1.0), closed=True),))


def _angular(dim: AngularDimension) -> tuple[Basic, ...]:
    sweep = (dim.end - dim.start) % 360 or 360.0
    width = text_width(dim.text, dim.height)
    length = math.radians(sweep) * dim.radius
    by, head = dim.enlarged, ARROW_LENGTH * dim.enlarged
    lean = math.degrees(head / dim.radius) / 2
    inside = length >= 2 * head + 2 * by
    tail = 0.0 if inside else math.degrees(2 * head / dim.radius)
    turns = (-90 + lean, 90 - lean) if inside else (90 - lean, -90 + lean)
    arrows = tuple(
        _arrow(polar(dim.centre, dim.radius, at), at + turn, by)
        for at, turn in zip((dim.start, dim.end), turns, strict=True)
    )
    arc = Arc(dim.centre, dim.radius, dim.start - tail, dim.end + tail, Pen.DIMENSION)
    return (*_angle_extensions(dim), arc, *arrows, _angle_text(dim, sweep, length >= width + by))


def _angle_extensions(dim: AngularDimension) -> tuple[Line, ...]:
    begin = dim.inner + EXTENSION_GAP * dim.enlarged
    return tuple(
        _line(polar(dim.centre, begin, at), polar(dim.centre, dim.radius + EXTENSION_OVERRUN * dim.enlarged, at))
        for at in (dim.start, dim.end)
        if begin < dim.radius
    )


def _angle_text(dim: AngularDimension, sweep: float, inside: bool) -> Text:
    """Outside the arc and along it where it fits, else level beyond the arrow's tail."""
    middle = dim.start + sweep / 2
    if inside:
        angle = reading_angle(middle - 90)
        level_up = abs((angle - (middle - 90)) % 360) < 1
        out = text_gap(dim.text, dim.height, dim.enlarged) + (0.0 if level_up else dim.height)
        text = Text(polar(dim.centre, dim.radius + out, middle), dim.text, dim.height, "centre", angle=angle)
    else:
        past = dim.end + math.degrees((2 * ARROW_LENGTH + 1) * dim.enlarged / dim.radius)
        at = polar(dim.centre, dim.radius, past)
        rightwards = at[0] >= polar(dim.centre, dim.radius, dim.end)[0] - 1e-9
        text = Text(at, dim.text, dim.height, "left" if rightwards else "right", "middle")
    return replace(text, pen=Pen.DIMENSION)


def circle_and_text(at: Point, text: str, height: float = 5.0) -> tuple[Basic, ...]:
    """An item reference: a numeral in a circle, twice the dimensions' height (ISO 6433, from memory)."""
    radius = max(height, math.hypot(text_width(text, height) / 2, height / 2) + 0.8)
    return Circle(at, radius, Pen.THIN), Text(at, text, height, "centre", "middle")
