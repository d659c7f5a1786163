"""Parts drawn together: those alike in all but their width share one drawing with a table of widths."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass, fields

from drawings.lists.distinct import Distinct, distinct_parts
from drawings.paper.measured import Shown, Vector
from drawings.sheets.principal import Lengths
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.part import Part
from model.piece import Piece

_SQUARE = ("near", "far", "left", "right")


@dataclass(frozen=True)
class Family:
    """Distinct parts that one drawing serves; drawn is the first."""

    members: tuple[Distinct, ...]

    @property
    def part(self) -> Part:
        """The part drawn."""
        part = self.members[0].wood
        assert part is not None
        return part

    @property
    def tabulated(self) -> bool:
        """Does its width stand in the table?"""
        return len(self.members) > 1

    @property
    def names(self) -> tuple[str, ...]:
        """A name of each member, to find it in the piece by."""
        return tuple(member.names[0] for member in self.members)

    def shown(self, right: Vector = (1.0, 0.0, 0.0), up: Vector = (0.0, 1.0, 0.0), at: float | None = None) -> Shown:
        """A view of it in which every number holds for all its members."""
        return Shown(self.names, right, up, at)

    def shown_one(self, member: Distinct) -> Shown:
        """The plan view of one member alone."""
        return Shown((member.names[0],))


def families(piece: Piece, form: Lengths) -> list[Family]:
    """All parts made of stock, in the order of their numbers; those given as solids are left to the general views."""
    alike: dict[object, list[Distinct]] = {}
    for found in distinct_parts(piece):
        if found.wood is not None:
            alike.setdefault(_key(found.wood, found.item, form), []).append(found)
    return [Family(tuple(members)) for members in alike.values()]


def _key(part: Part, item: int, form: Lengths) -> object:
    """The same for parts that differ in width alone, as far as they are printed."""
    plain = all(isinstance(c, EdgeCut) and c.full and c.edge in _SQUARE for c in part.cuts)
    if part.bend or not plain:
        return item
    stock = part.stock
    sizes = form(stock.length), form(part.thickness)
    return stock.kind, stock.species, sizes, tuple(sorted(repr(printed(c, form)) for c in part.cuts))


def printed(cut: Cut, form: Lengths, but: Container[str] = ()) -> tuple[object, ...]:
    """A cut as it comes out on paper: its kind and its fields, lengths as they are printed; some fields left out."""
    said = ((f.name, getattr(cut, f.name)) for f in fields(cut) if f.name not in but)  # type: ignore[arg-type]
    return type(cut).__name__, *((n, form(v) if isinstance(v, float) else v) for n, v in said)
