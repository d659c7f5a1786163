"""A part: stock and the cuts made in it, in its own frame, flat or bent.

A part lies face side up: x along the grain from its left end, y across from its near edge, z from the back side (0) to
the face side (thickness). A bent part is cut flat and bent afterwards, so all its cuts are given on the flat.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from model.cuts.cut import Blank, Cut, Footprint, Side
from model.cuts.through import Profile
from model.errors import CutError, DesignError
from model.layout.outline import Outline, rectangle
from model.placement import Placement, Vector
from model.stock import Stock

if TYPE_CHECKING:
    import cadquery as cq


@dataclass(frozen=True)
class Bend:
    """Bent about an axis across the grain, hollow on one side.

    radius: of the hollow side, mm; hollow: the side that ends up inside the curve.
    """

    radius: float
    hollow: Side = "back"

    def placement(self, x: float, length: float, thickness: float) -> Placement:
        """Where the wood around `x` mm along the flat blank goes: rigid, mm. Mid-thickness keeps its length
        (common practice)."""
        angle = (x - length / 2.0) / self.neutral_radius(thickness)
        axis = -self.radius if self.hollow == "back" else thickness + self.radius
        lean = angle if self.hollow == "back" else -angle
        c, s = math.cos(lean), math.sin(lean)
        # turned about the axis at (length/2, z = axis); then x is measured from that station
        origin = (length / 2.0 - x * c - axis * s, 0.0, axis + x * s - axis * c)
        return Placement(origin, (c, 0.0, -s), (0.0, 1.0, 0.0), (s, 0.0, c))

    def neutral_radius(self, thickness: float) -> float:
        return self.radius + thickness / 2.0

    def flat_length(self, angle: float, thickness: float) -> float:
        """Length of the flat blank, mm, that reaches round `angle` degrees."""
        return self.neutral_radius(thickness) * math.radians(angle)


@dataclass(frozen=True)
class Part:
    """A piece of stock with its cuts; equal parts are cut alike and share one solid."""

    stock: Stock
    cuts: tuple[Cut, ...] = ()
    bend: Bend | None = None

    @cached_property
    def outline(self) -> Outline:
        """What it is sawn to: its profile, or the stock's own rectangle."""
        profiles = [c for c in self.cuts if isinstance(c, Profile)]
        return profiles[-1].outline if profiles else rectangle(self.stock.length, self.stock.width)

    @cached_property
    def blank(self) -> Blank:
        return Blank(self.outline, self.stock.width, self.stock.thick)

    @property
    def thickness(self) -> float:
        return self.stock.thick

    def cut(self, *cuts: Cut) -> Part:
        """With more cuts; raises CutError for one that can't be made in this stock."""
        for cut in cuts:
            if isinstance(cut, Profile):
                if self.bend is not None:
                    raise CutError("a bent part can't have a profile yet; shape its ends with edge cuts")
                cut.check(Blank(rectangle(self.stock.length, self.stock.width), self.stock.width, self.thickness))
            else:
                cut.check(self.blank)
        return replace(self, cuts=self.cuts + cuts)

    def bent(self, radius: float, hollow: Side = "back") -> Part:
        """Bent round a form of `radius` mm; raises DesignError for a radius that is not positive."""
        if not radius > 0:
            raise DesignError(f"a board can't be bent to a radius of {radius:g} mm; it must be more than zero")
        return replace(self, bend=Bend(radius, hollow))

    def mirrored(self) -> Part:
        """Its mirror image, y' = width - y: a right for a left."""
        return replace(self, cuts=tuple(c.mirrored(self.blank) for c in self.cuts))

    def footprints(self) -> list[tuple[Cut, Footprint]]:
        """Every cut a router can make from above or below, outline first."""
        outline = Footprint(self.outline, "face", self.thickness, through=True)
        shape: list[tuple[Cut, Footprint]] = [(Profile(self.outline), outline)]
        return shape + [(c, f) for c in self.cuts if not isinstance(c, Profile) for f in c.footprints(self.blank)]

    def station(self, p: Vector) -> Vector:
        """A point given on the flat, where it really is (the same for a flat part)."""
        if self.bend is None:
            return p
        return self.bend.placement(p[0], self.stock.length, self.thickness).point(p)


@dataclass(frozen=True)
class GivenPart:
    """A part handed in as a solid of the author's own, in its own frame; drawn and listed by what is measured on it.

    solid: a cadquery Shape or Workplane, mm. species and thickness only for the lists.
    """

    solid: Any
    species: str | None = None

    def shape(self) -> cq.Shape:
        """The solid as a plain shape; raises DesignError if there is none."""
        found = self.solid.val() if hasattr(self.solid, "val") else self.solid
        if found is None or not hasattr(found, "wrapped"):
            raise DesignError("a given part must be a CadQuery solid or workplane with one solid")
        return found
