"""A drawing sheet as plain data: pens, the marks on the paper, the paper and the sheet.

Everything is in paper millimetres, origin at the bottom left corner of the trimmed page, x right, y up; angles
in degrees counter-clockwise from x. A `ViewPort` carries model millimetres onto the paper. The players
(DXF, SVG, PDF) draw a sheet; none of them adds to it or leaves anything out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import Literal

from drawings.paper.measured import Meant, Measured, Shown

Point = tuple[float, float]

Align = Literal["left", "centre", "right"]
Level = Literal["baseline", "middle", "top"]

#: Line widths of ISO 128-2 line group 0.5 (wide 0.5, narrow 0.25), the frame's 0.7 of ISO 5457. Millimetres.
WIDE, NARROW, MIDDLE, FRAME_WIDTH = 0.5, 0.25, 0.35, 0.7

#: Dash and gap lengths as multiples of the line width: ISO 128-2 (ISO 128-20), the dashed line from memory.
DASHED = (12.0, 3.0)
LONG_DASHED_DOTTED = (24.0, 3.0, 0.5, 3.0)
LONG_DASHED_DOUBLE_DOTTED = (24.0, 3.0, 0.5, 3.0, 0.5, 3.0)


class Pen(Enum):
    """A kind of line by what it means. The value is also its layer in the DXF and its class in the SVG.

    Line types by number in ISO 128-2: 01.1 narrow continuous, 01.2 wide continuous, 02.1 dashed, 04.1 and
    04.2 long-dashed dotted, 05.1 long-dashed double-dotted (02.1 to 05.1 from memory). A reference is a number that
    only counts or names (an item, a hole, a mark); every other number in lettering says what it measures.
    """

    VISIBLE = ("visible", WIDE, ())
    HIDDEN = ("hidden", NARROW, DASHED)
    CENTRE = ("centre", NARROW, LONG_DASHED_DOTTED)
    DIMENSION = ("dimension", NARROW, ())
    THIN = ("thin", NARROW, ())
    HATCH = ("hatch", NARROW, ())
    CUTTING = ("cutting", WIDE, LONG_DASHED_DOTTED)
    PHANTOM = ("phantom", NARROW, LONG_DASHED_DOUBLE_DOTTED)
    FRAME = ("frame", FRAME_WIDTH, ())
    GRID = ("grid", MIDDLE, ())
    LETTERING = ("lettering", NARROW, ())
    REFERENCE = ("reference", NARROW, ())

    width: float
    multiples: tuple[float, ...]

    def __new__(cls, name: str, width: float, multiples: tuple[float, ...]) -> Pen:
        pen = object.__new__(cls)
        pen._value_ = name
        pen.width = width
        pen.multiples = multiples
        return pen

    @property
    def dashes(self) -> tuple[float, ...]:
        """Dash, gap, dash, gap, ... in mm; empty for a continuous line."""
        return tuple(multiple * self.width for multiple in self.multiples)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from p to q."""

    p: Point
    q: Point
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc, counter-clockwise from `start` to `end` degrees."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle."""

    centre: Point
    radius: float
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True, slots=True)
class Polyline:
    """Points joined by lines, or by arcs where `bulges` says so.

    A bulge is tan(included angle / 4), positive counter-clockwise; one for each point, for the stretch that
    leaves it. Empty `bulges` means straight throughout.
    """

    points: tuple[Point, ...]
    bulges: tuple[float, ...] = ()
    closed: bool = False
    pen: Pen = Pen.VISIBLE

    def __post_init__(self) -> None:
        if self.bulges and len(self.bulges) != len(self.points):
            raise ValueError(f"{len(self.points)} points need as many bulges, not {len(self.bulges)}")

    def stretches(self) -> list[tuple[Point, Point, float]]:
        """Each stretch as (from, to, bulge), the closing one included."""
        bulges = self.bulges or (0.0,) * len(self.points)
        ends = self.points[1:] + (self.points[:1] if self.closed else ())
        return list(zip(self.points, ends, bulges, strict=False))


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; `height` is the height of its capitals (ISO 3098: 1.8, 2.5, 3.5, 5, 7, 10).

    measured: for a number in a table or on a card, all that it measures.
    """

    at: Point
    text: str
    height: float = 2.5
    align: Align = "left"
    level: Level = "baseline"
    angle: float = 0.0
    bold: bool = False
    pen: Pen = Pen.LETTERING
    measured: Meant = None

    def __post_init__(self) -> None:
        if any(sign < " " for sign in self.text):
            raise ValueError(f"a text is one line without control signs, not {self.text!r}")


@dataclass(frozen=True, slots=True)
class Fill:
    """A flat colour ("#rrggbb") inside closed outlines; an outline inside another is a hole."""

    outlines: tuple[Polyline, ...]
    colour: str = "#000000"


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines at `angle` degrees, `spacing` mm apart, in closed outlines; an inner outline is a hole."""

    outlines: tuple[Polyline, ...]
    angle: float = 45.0
    spacing: float = 2.0
    pen: Pen = Pen.HATCH


@dataclass(frozen=True, slots=True)
class LinearDimension:
    """The distance from p to q measured along `angle`, on a dimension line through `line`.

    `scale` is paper over model (1:5 is 0.2) and `value_mm` the true length in the model, so that the distance
    on the paper over `scale` is `value_mm`. Text that does not fit between the arrows stands beyond the end
    `beside`. enlarged, here and below: how many times larger than usual arrowheads and gaps are.
    """

    p: Point
    q: Point
    line: Point
    angle: float
    text: str
    value_mm: float
    scale: float = 1.0
    height: float = 2.5
    beside: Literal["start", "end"] = "end"
    measured: Measured | None = None
    enlarged: float = 1.0

    @property
    def drawn_mm(self) -> float:
        """What the drawn distance stands for in the model, mm."""
        along = (math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle)))
        return abs((self.q[0] - self.p[0]) * along[0] + (self.q[1] - self.p[1]) * along[1]) / self.scale


@dataclass(frozen=True, slots=True)
class RadiusDimension:
    """A radius (or a diameter) shown by an arrow on the arc at `angle` degrees from its centre.

    The leader is `reach` mm long: towards the centre when positive, outwards when negative; the text stands on
    a shoulder at its end.
    """

    centre: Point
    radius: float
    angle: float
    text: str
    value_mm: float
    scale: float = 1.0
    reach: float = -8.0
    height: float = 2.5
    diameter: bool = False
    measured: Measured | None = None
    enlarged: float = 1.0

    @property
    def drawn_mm(self) -> float:
        """What the drawn radius or diameter stands for in the model, mm."""
        return self.radius * (2 if self.diameter else 1) / self.scale


@dataclass(frozen=True, slots=True)
class AngularDimension:
    """The angle at `centre`, counter-clockwise from `start` to `end` degrees, on an arc of `radius`.

    Extension lines begin `inner` mm from the centre (where the outline ends).
    """

    centre: Point
    radius: float
    start: float
    end: float
    text: str
    value_deg: float
    inner: float = 0.0
    height: float = 2.5
    measured: Measured | None = None
    enlarged: float = 1.0


@dataclass(frozen=True, slots=True)
class OrdinateDimension:
    """How far p lies from `origin` along x or y, at the end of a leader that leaves p square to that axis.

    The leader ends at `end`, with a jog where that does not lie straight off p, and the text stands beyond it along
    the leader (ASME Y14.5, rectangular coordinate dimensioning without dimension lines).
    """

    p: Point
    origin: Point
    axis: Literal["x", "y"]
    end: Point
    text: str
    value_mm: float
    scale: float = 1.0
    height: float = 2.5
    measured: Measured | None = None
    enlarged: float = 1.0

    @property
    def drawn_mm(self) -> float:
        """What the drawn distance stands for in the model, mm."""
        axis = 0 if self.axis == "x" else 1
        return abs(self.p[axis] - self.origin[axis]) / self.scale


@dataclass(frozen=True, slots=True)
class Leader:
    """A note tied to a feature: points from the feature to the text, ending on the feature as `tip` says."""

    points: tuple[Point, ...]
    text: str
    tip: Literal["arrow", "dot", "none"] = "arrow"
    height: float = 2.5
    measured: Meant = None
    enlarged: float = 1.0


Dimension = LinearDimension | RadiusDimension | AngularDimension | OrdinateDimension
Basic = Line | Arc | Circle | Polyline | Fill | Text
Entity = Basic | Hatch | Dimension | Leader


@dataclass(frozen=True, slots=True)
class ViewPort:
    """How a view lies on the paper: `scale` (1:5 is 0.2) and where its own (0, 0) comes, in paper mm.

    shown: what it shows, passed on to the dimensions drawn in it.
    """

    scale: float = 1.0
    origin: Point = (0.0, 0.0)
    shown: Shown | None = None

    def place(self, point: Point) -> Point:
        """A point of the view, model mm, on the paper, mm."""
        return self.origin[0] + point[0] * self.scale, self.origin[1] + point[1] * self.scale


@dataclass(frozen=True, slots=True)
class Paper:
    """A trimmed page in mm as it is drawn on, with the width of the border left outside the frame.

    enlarged: how many times larger it comes out than it is drawn.
    """

    name: str
    width: float
    height: float
    filing_edge: float = 20.0
    edge: float = 10.0
    has_grid: bool = True
    enlarged: float = 1.0

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """The drawing space inside the frame: x0, y0, x1, y1 in mm."""
        return self.filing_edge, self.edge, self.width - self.edge, self.height - self.edge


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a set. `name` is its file's stem; `number` of `of` its place in the set."""

    name: str
    title: str
    paper: Paper
    entities: tuple[Entity, ...] = ()
    number: int = 1
    of: int = 1
