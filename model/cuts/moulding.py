"""Moulded edges: any section run along an edge, the trade's own profiles, and the raised field of a panel.

A moulding's section is the waste: (u, v) with u inward from the edge and v down into the wood from the moulded side,
run out past both where it is open. `waste` makes one from the moulded line alone; ogee, cove and round_over draw that
line. Cuts along edges that meet at a corner miter themselves there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model.cuts.cut import Blank, Side, positive, shallower
from model.cuts.edges import EdgeCut
from model.cuts.removal import RUN_OUT
from model.errors import CutError
from model.layout.outline import Outline, Point
from model.tolerance import INTERFERENCE, SAME_POINT

_QUARTER = math.tan(math.pi / 8.0)


@dataclass(frozen=True, kw_only=True)
class Moulding(EdgeCut):
    """An edge moulded on one `side` to any `section`, the waste in (u, v); `called`: what the trade calls it."""

    section: Outline
    side: Side = "face"
    called: str = "moulding"

    @property
    def name(self) -> str:
        return self.called

    @property
    def width(self) -> float:
        """From the edge to the moulding's innermost reach on the side, mm."""
        return self.section.bounds[2]

    @property
    def depth(self) -> float:
        """From the side to the moulding's lowest reach on the edge, mm."""
        return self.section.bounds[3]

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        return (self.section if self.side == "back" else self.section.mirrored(thickness),)

    def check(self, blank: Blank) -> None:
        positive(self.called, width=self.width, depth=self.depth)
        shallower(self.called, self.depth, blank.thickness)
        if self.width >= blank.width:
            raise CutError(
                f"{_a(self.called)} {self.width:g} mm wide takes the whole of a part {blank.width:g} mm wide; "
                "make it narrower"
            )


def waste(line: Sequence[Point], bulges: Sequence[float] = ()) -> Outline:
    """What a moulded line takes off: from its point on the side, v = 0 or below, to its point on the edge, u = 0.

    line: (u, v), mm; bulges: one for each piece of the line, tan(sweep / 4), positive for a hollow. Raises CutError
    for a line that takes nothing.
    """
    if line[0][0] < SAME_POINT or line[-1][1] < SAME_POINT:
        raise CutError("a moulded line takes nothing off; run it from a point on the side to a point down the edge")
    steps = tuple(bulges) or (0.0,) * (len(line) - 1)
    corners = ((-RUN_OUT, -RUN_OUT), (line[0][0], -RUN_OUT), *line, (-RUN_OUT, line[-1][1]))
    return Outline(corners, (0.0, 0.0, *steps, 0.0, 0.0))


def round_over(radius: float, step: float = 0.0) -> Outline:
    """A quarter round of `radius`, set down by a `step` (a thumb mould), mm."""
    positive("round-over", radius=radius)
    return waste([(radius, step), (0.0, step + radius)], [-_QUARTER])


def cove(radius: float, step: float = 0.0) -> Outline:
    """A quarter hollow of `radius` about the arris, set down by a `step`, mm."""
    positive("cove", radius=radius)
    return waste([(radius, step), (0.0, step + radius)], [_QUARTER])


def ogee(width: float, depth: float | None = None, step: float = 0.0, *, reverse: bool = False) -> Outline:
    """Two equal arcs that flow into each other, hollow above round; `reverse` has the round above.

    width, depth: of the curve, mm, as deep as wide if not said (then both are quarter circles); step: how far it is
    set down. Flatter or steeper ones have as much sweep as goes in without undercutting.
    """
    deep = width if depth is None else depth
    positive("ogee", width=width, depth=deep)
    bulge = math.tan(math.atan(min(width / deep, deep / width)) / 2.0)
    bulges = (-bulge, bulge) if reverse else (bulge, -bulge)
    return waste([(width, step), (width / 2.0, step + deep / 2.0), (0.0, step + deep)], bulges)


@dataclass(frozen=True, kw_only=True)
class RaisedEdge(EdgeCut):
    """One edge of a raised panel, cut away round its field: a tongue for the groove, then the rise to the field.

    width: from the edge to the field; tongue: thickness left at the edge; flat: how far in the tongue stays parallel,
    mm. The rise is a bevel of `angle` degrees, or hollowed to a `cove` of that radius, mm. What the rise does not
    climb is left as a shoulder round the field. Four of them, one an edge, miter at the corners.
    """

    width: float
    tongue: float
    flat: float = 0.0
    angle: float = 0.0
    cove: float = 0.0
    side: Side = "face"

    @property
    def name(self) -> str:
        return "raised edge"

    @property
    def rise(self) -> float:
        """How far the slope climbs from the tongue, mm."""
        return self._climbed(self.width - self.flat)

    def shoulder(self, thickness: float) -> float:
        """Height of the field's shoulder in a panel of that thickness, mm."""
        return thickness - self.tongue - self.rise

    def left_at(self, inward: float, thickness: float) -> float:
        """Thickness of the panel `inward` mm from its edge."""
        if inward > self.width:
            return thickness
        return self.tongue + self._climbed(max(0.0, inward - self.flat))

    def sections(self, thickness: float) -> tuple[Outline, ...]:
        low = thickness - self.tongue
        foot = (self.flat, low) if self.flat > INTERFERENCE else (0.0, low)  # a finer one is none
        bulge = math.tan(math.asin((self.width - self.flat) / self.cove) / 4.0) if self.cove else 0.0
        step = self.shoulder(thickness)
        line: list[Point] = [(self.width, step if step > INTERFERENCE else 0.0), foot]
        section = waste(line, [bulge])
        return (section if self.side == "back" else section.mirrored(thickness),)

    def check(self, blank: Blank) -> None:
        positive("raised edge", width=self.width, tongue=self.tongue)
        if (self.angle > 0.0) == (self.cove > 0.0):
            raise CutError("a raised edge rises by a bevel or by a cove; give it an angle or a cove radius")
        if not 0.0 <= self.flat < self.width or self.angle >= 60.0:
            raise CutError(
                f"a raised edge {self.width:g} mm wide can't have a flat of {self.flat:g} mm and a bevel of "
                f"{self.angle:g} degrees; make the flat narrower and the bevel less than 60"
            )
        if self.cove and self.cove < self.width - self.flat:
            raise CutError(
                f"a cove of {self.cove:g} mm radius does not reach across the {self.width - self.flat:g} mm from the "
                "tongue to the field; take a larger radius or a wider flat"
            )
        if self.shoulder(blank.thickness) < -SAME_POINT:
            raise CutError(
                f"a raised edge that rises {self.rise:.1f} mm from a tongue {self.tongue:g} mm thick does not go into "
                f"stock {blank.thickness:g} mm thick; {blank.thickness - self.tongue:.1f} mm is the most it may rise, "
                "so make it flatter or narrower"
            )

    def _climbed(self, run: float) -> float:
        if self.cove:
            return self.cove - math.sqrt(max(0.0, self.cove**2 - run**2))
        return run * math.tan(math.radians(self.angle))


def fielded(thickness: float, tongue: float, width: float, *, flat: float, step: float = 1.5) -> tuple[RaisedEdge, ...]:
    """The four raised edges of a panel `thickness` mm thick, all beveled to a field that stands a `step` above them.

    width: of the raised edges; tongue: their thickness at the edge; flat: how far in that stays parallel, all mm.
    """
    angle = math.degrees(math.atan2(thickness - tongue - step, width - flat))
    edges = ("near", "right", "far", "left")
    return tuple(RaisedEdge(edge=edge, width=width, tongue=tongue, flat=flat, angle=angle) for edge in edges)


def _a(name: str) -> str:
    return f"an {name}" if name[0] in "aeiou" else f"a {name}"
