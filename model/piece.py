"""A piece: its parts where they stand, the joints between them, the hardware, what moves, and the order of work."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from model.cuts.cut import Cut
from model.cuts.through import Profile
from model.errors import DesignError
from model.hardware import Hardware
from model.joints.joint import Joint
from model.layout.outline import Outline
from model.parameters import Parameters
from model.part import GivenPart, Part
from model.placement import Placement, Vector, place, unit
from model.stock import Stock, board, panel
from model.way_home import Leg, checked

#: Boards wider than this are glued up from narrower ones (common practice: what racks commonly hold; 11 1/4 in).
WIDEST_BOARD = 286.0

View = Literal["front", "top", "side"]


@dataclass(eq=False)
class Placed:
    """A part by name, where it stands; joints add cuts to it while the piece is being put together."""

    name: str
    part: Part | GivenPart
    at: Placement
    mirror_of: str | None = None

    @property
    def wood(self) -> Part:
        """The part as stock and cuts; raises DesignError for one given as a solid, which has neither."""
        if isinstance(self.part, GivenPart):
            raise DesignError(f"{self.name} is given as a solid; joints can only be cut in parts made of stock")
        return self.part

    def cut(self, *cuts: Cut) -> Placed:
        """Makes more cuts in it; raises CutError, naming the part, for one that can't be made."""
        try:
            self.part = self.wood.cut(*cuts)
        except DesignError as error:
            raise type(error)(f"{self.name}: {error}") from None
        return self

    def bent(self, radius: float) -> Placed:
        """Bends it round a form of `radius` mm, hollow on its back side."""
        self.part = self.wood.bent(radius)
        return self


@dataclass(frozen=True)
class Apart:
    """Two parts that must never touch: `gap` mm is the least between them."""

    first: str
    second: str
    gap: float


@dataclass(frozen=True)
class Swing:
    """A part that turns about a line: a point of its pin, the pin's direction, and how far it opens, degrees."""

    part: str
    pin: Vector
    along: Vector
    opens: float


@dataclass(frozen=True)
class Slide:
    """A part that slides along a line, a drawer's: the unit direction in which it opens, and how far, mm."""

    part: str
    along: Vector
    opens: float


@dataclass(frozen=True)
class Measure:
    """A principal measure that the drawings must give: between two points, in the front, top or side view.

    start, end: points of the piece, mm; shown is their distance along the view's axis that it runs in. times: how
    many equal ones it stands for.
    """

    what: str
    start: Vector
    end: Vector
    view: View
    times: int = 1


@dataclass(frozen=True)
class SectionAt:
    """A section that the drawings must show: what it shows, and the plane, square to an axis of the piece, mm."""

    what: str
    axis: Literal["x", "y", "z"]
    at: float


@dataclass(frozen=True)
class DetailOf:
    """A joint that the drawings must show larger: between which two parts, and how large if not as they choose (paper
    over model)."""

    first: str
    second: str
    scale: float | None = None


@dataclass(frozen=True)
class Step:
    """One step of assembly, as a sentence, and the parts it adds; way: the legs by which each of them goes home, where
    it is not one straight line."""

    text: str
    parts: tuple[str, ...]
    way: tuple[Leg, ...] = ()


class Piece:
    """What a piece script builds up, part by part. Everything is in mm, standing on z = 0, front toward -y."""

    def __init__(self, name: str, parameters: Parameters) -> None:
        self.name = name
        self.parameters = parameters
        self.parts: dict[str, Placed] = {}
        self.joints: list[Joint] = []
        self.hardware: list[Hardware] = []
        self.apart: list[Apart] = []
        self.swings: list[Swing] = []
        self.slides: list[Slide] = []
        self.steps: list[Step] = []
        self.arcs: dict[str, tuple[float, tuple[float, float]]] = {}
        self.measures: list[Measure] = []
        self.sections: list[SectionAt] = []
        self.details: list[DetailOf] = []

    def __iter__(self) -> Iterator[Placed]:
        return iter(self.parts.values())

    def __getitem__(self, name: str) -> Placed:
        if name not in self.parts:
            raise DesignError(f'no part is called "{name}"; there are: {", ".join(self.parts)}')
        return self.parts[name]

    def add(self, name: str, stock: Stock, at: Placement, *cuts: Cut) -> Placed:
        """A part from stock, with any cuts of its own. Raises DesignError if the name is taken."""
        return self._stand(name, Part(self._answered(stock)), at).cut(*cuts)

    def given(self, name: str, solid: Any, at: Placement | None = None, species: str | None = None) -> Placed:
        """A part from a CadQuery solid of the author's own, in its own frame."""
        return self._stand(name, GivenPart(solid, species or self.parameters.species), at or Placement())

    def lay(self, name: str, plan: Outline, bottom: float, *cuts: Cut, thickness: float | None = None) -> Placed:
        """A part lying flat, face side up, its outline given in the piece's own plan; its bottom at height `bottom`.

        Its grain runs left to right; wide ones are glued up into a panel.
        """
        x0, y0, x1, y1 = plan.bounds
        make = panel if y1 - y0 > WIDEST_BOARD else board
        stock = make(x1 - x0, y1 - y0, thickness)
        return self.add(name, stock, place((x0, y0, bottom)), Profile(plan.moved(-x0, -y0)), *cuts)

    def pair(self, name: str, stock: Stock, at: Placement, *cuts: Cut, middle: float = 0.0) -> tuple[Placed, Placed]:
        """A left and a right that mirror each other in the plane x = `middle`; given is the left."""
        left = self.add(f"left {name}", stock, at, *cuts)
        right = self._stand(f"right {name}", left.wood.mirrored(), at.mirrored(stock.width, middle))
        right.mirror_of = left.name
        return left, right

    def join(self, *joints: Joint) -> None:
        """Makes each joint's cuts in its two parts and takes on its hardware."""
        for joint in joints:
            if joint.first_cuts:
                self[joint.first].cut(*joint.first_cuts)
            if joint.second_cuts:
                self[joint.second].cut(*joint.second_cuts)
            self.joints.append(joint)
            self.hardware.extend(joint.hardware)

    def fit(self, *items: Hardware) -> None:
        """Adds hardware that belongs to no joint."""
        self.hardware.extend(items)

    def keep_apart(self, first: Placed, second: Placed, gap: float) -> None:
        """Two parts that must never touch."""
        self.apart.append(Apart(first.name, second.name, gap))

    def swing(self, part: Placed, pin: Vector, along: Vector, opens: float) -> None:
        """A part that turns on a hinge."""
        self.swings.append(Swing(part.name, pin, along, opens))

    def slide(self, part: Placed, along: Vector, opens: float) -> None:
        """A part that slides: `along` the direction in which it opens, by `opens` mm. Raises DesignError for none."""
        if not opens > 0.0:
            raise DesignError(f"{part.name} would slide open by {opens:g} mm; give more than zero")
        self.slides.append(Slide(part.name, unit(along), opens))

    def arc(self, name: str, radius: float, centre: tuple[float, float]) -> None:
        """Names an arc of the plan, so that drawings give its radius and where its centre lies."""
        self.arcs[name] = (radius, centre)

    def measure(self, what: str, start: Vector, end: Vector, view: View, times: int = 1) -> None:
        """Names a principal measure, so that drawings give it; measures that meet end to end make a chain."""
        self.measures.append(Measure(what, start, end, view, times))

    def section(self, what: str, axis: Literal["x", "y", "z"], at: float) -> None:
        """Names a section that drawings must show, besides those they choose: the plane where `axis` is `at` mm."""
        self.sections.append(SectionAt(what, axis, at))

    def detail(self, first: Placed, second: Placed, scale: float | None = None) -> None:
        """Names the joint of two parts that drawings must show larger, rather than one they choose of its kind; at a
        scale of its own, paper over model, if one is given. Raises DesignError where the two are not joined."""
        if not any({j.first, j.second} == {first.name, second.name} for j in self.joints):
            raise DesignError(f"{first.name} and {second.name} are not joined, so no detail can show how")
        self.details.append(DetailOf(first.name, second.name, scale))

    def step(self, text: str, *parts: Placed, way: Sequence[Leg] = ()) -> None:
        """The next step of putting it together; way: come(...), push(...), tip(...), the legs by which each of its
        parts goes home where no straight line does. In which order they are named says only which one is fitted last,
        where that one is made to the room that the others leave it. Raises DesignError for a way that comes from
        nowhere."""
        self.steps.append(Step(text, tuple(p.name for p in parts), checked(way)))

    def items(self) -> dict[str, int]:
        """An item number for each part; equal parts share theirs. Numbered as they come."""
        numbers: dict[Part | GivenPart, int] = {}
        return {p.name: numbers.setdefault(p.part, len(numbers) + 1) for p in self}

    def _answered(self, stock: Stock) -> Stock:
        return stock.of(self.parameters.thickness, self.parameters.species)

    def _stand(self, name: str, part: Part | GivenPart, at: Placement) -> Placed:
        if name in self.parts:
            raise DesignError(f'two parts are called "{name}"; give each its own name')
        if not all(math.isfinite(c) for row in at.matrix() for c in row):
            raise DesignError(f"{name} can't be placed: one of its coordinates is not a number")
        self.parts[name] = Placed(name, part, at)
        return self.parts[name]
