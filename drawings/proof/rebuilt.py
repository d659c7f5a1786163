"""Completeness: a part made again from nothing but the numbers printed on its sheet.

What a part is (which cuts, on which edge, in which order) is read off its drawing by eye; here it is taken from the
part itself. Every number, though, is looked up among the printed ones, and one that is not there is a fault.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from drawings.cutting.finished import finished_outline, turned_all_along
from drawings.cutting.sawn_outline import NOTCHED
from drawings.parts.edge_section import is_arris
from drawings.proof.made_again import made_again
from drawings.proof.maker import Maker
from drawings.proof.printed_numbers import IncompleteError, Numbers
from drawings.proof.readings import Reading
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.legs import TURNED_OFF
from model.cuts.sawn import SawCut
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Profile
from model.layout.outline import Edge, Outline
from model.part import Part
from model.stock import Stock

__all__ = ["IncompleteError", "rebuilt"]

_SQUARE = 1e-6


def rebuilt(name: str, part: Part, readings: Iterable[Reading], unit: str, half_place: float) -> Part:
    """The flat part called `name` made from its sheet's numbers: lengths in `unit`, rounded by half_place mm at most.

    Raises IncompleteError for a number that is not there. What is sawn out of the outline comes back as its corners.
    """
    sawn, left_over = finished_outline(part)
    x0, y0, x1, y1 = sawn.bounds
    ends = ((x0, x1), (y0, y1), (0.0, part.thickness))
    return _Rebuilt(part, Numbers.of(name, readings, unit, half_place, ends), sawn, left_over).make()


@dataclass(frozen=True)
class _Rebuilt:
    part: Part
    numbers: Numbers
    sawn: Outline
    left_over: tuple[Cut, ...]

    @cached_property
    def maker(self) -> Maker:
        return Maker(self.part, self.numbers, self.sawn)

    def make(self) -> Part:
        stock = self.part.stock
        length, width, thickness = (self.numbers.extent(k) for k in range(3))
        if turned_all_along(self.part):  # from any square that is large enough
            width, thickness = width + 4.0 * TURNED_OFF, thickness + 4.0 * TURNED_OFF
        made = Part(Stock(stock.kind, length, width, thickness, stock.species))
        outline = self.part.outline if self._broken else self._without_tenons
        plain = outline == self.part.outline and outline.bounds == self.sawn.bounds
        shaped = not plain or any(isinstance(c, Profile) for c in self.part.cuts)
        made_outline = self.maker.blank(outline) if self._broken else self.maker.outline(outline)
        profile: Sequence[Cut] = [Profile(made_outline)] if shaped else []
        others = [c for c in self.part.cuts if not self._in_outline(c)]
        return replace(made, cuts=(*profile, *(made_again(c, self.maker) for c in others)))

    @cached_property
    def _without_tenons(self) -> Outline:
        """The outline before its ends are cut back to tenons, which are made on it again."""
        cuts = tuple(c for c in self.part.cuts if not isinstance(c, TenonedEnd))
        return finished_outline(replace(self.part, cuts=cuts))[0]

    @cached_property
    def _broken(self) -> bool:
        """Is an edge that something runs along broken up, sawn off or cut short at a slant by what is sawn out of it?
        Then that is sawn out later."""
        worked = {c.edge for c in self.part.cuts if isinstance(c, EdgeCut) and not is_arris(c)}
        return any(self._cut_into(name) for name in worked)

    def _cut_into(self, name: str) -> bool:
        left = [e for e in self.sawn.edges if e.name == name]
        if len(left) != len(self.part.outline.named(name)):
            return True
        return any(not _square(a, b) for a, b in pairwise((*self.sawn.edges, self.sawn.edges[0])) if _sawn(a, b, name))

    def _in_outline(self, cut: Cut) -> bool:
        """Is all that the cut takes gone from the outline already?"""
        plain = type(cut).__name__ in ("Notch", "Slot", "Tails", "Fingers") and not self._broken
        upright = isinstance(cut, SawCut) and cut.upright and not self._broken
        return isinstance(cut, Profile) or ((plain or upright) and cut not in self.left_over)


def _sawn(a: Edge, b: Edge, name: str) -> bool:
    """Does an edge of that name meet one that is sawn?"""
    return {a.name, b.name} == {name, NOTCHED}


def _square(a: Edge, b: Edge) -> bool:
    (ax, ay), (bx, by) = a.direction(1.0), b.direction(0.0)
    return abs(ax * bx + ay * by) < _SQUARE
