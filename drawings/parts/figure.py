"""All that a part's drawing consists of, in the order it is set down: heading, plan, sections, views, tables, notes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from drawings.lists.distinct import in_brief
from drawings.paper.lettering import LINE_PITCH, wrapped
from drawings.paper.saying import Saying, capital, say
from drawings.paper.scales import view_scale
from drawings.paper.sheet import Entity, Point, Text
from drawings.parts.dovetail_views import dovetail_views
from drawings.parts.edge_section import edge_sections
from drawings.parts.edge_view import edge_views
from drawings.parts.family import Family
from drawings.parts.joint_section import joint_sections
from drawings.parts.leg_view import leg_views
from drawings.parts.mouth_view import mouth_views
from drawings.parts.notes_of_part import notes, notes_block
from drawings.parts.plan import Plan
from drawings.parts.section_view import section_views
from drawings.parts.table import Table
from drawings.parts.tables_of_part import heading_table, tables
from drawings.sheets.block import Block
from drawings.sheets.principal import Lengths
from model.piece import Piece

#: The title's lettering, and how much closer the pieces of a heading stand, which have no titles, than tables, mm.
_NAME, _CLOSE = 5.0, 2.6


@dataclass(frozen=True)
class Figure:
    """The drawing of one family of parts; width: what its sheets have room for, mm."""

    family: Family
    piece: Piece
    form: Lengths
    width: float = math.inf

    @cached_property
    def plan(self) -> Plan:
        return Plan(self.family, self.form)

    @property
    def title(self) -> Saying:
        """The parts by name, as a heading."""
        return capital(in_brief(name for member in self.family.members for name in member.names))

    @property
    def items(self) -> list[int]:
        return [member.item for member in self.family.members]

    def heading(self, scale: float, more: bool = False) -> Block:
        """The title with the scale of the plan over the table of stock; only the title where it goes on."""
        if more:
            goes_on = self._titled(say("{}, continued", self.title))
            return Block(lambda at: _heading(goes_on, (), at))
        title = say("{}, {}", self.title, view_scale(scale, self.form.units, self.family.shown()))
        pieces = heading_table(self.family, self.form).folded(self.width)
        return Block(lambda at: _heading(self._titled(title), pieces, at))

    def _titled(self, title: Saying) -> list[str]:
        """The lines that a title takes."""
        return wrapped(title, self.width, _NAME, bold=True)

    def plan_block(self, scale: float) -> Block:
        """The plan with its dimensions; the same block whenever it is asked for."""
        if scale not in self._plans:
            self._plans[scale] = Block(lambda at: self.plan.marks(scale, at))
        return self._plans[scale]

    @cached_property
    def _plans(self) -> dict[float, Block]:
        return {}

    @cached_property
    def others(self) -> list[Block]:
        """Sections, edge views, tables and notes: whatever has a scale of its own."""
        sections = section_views(self.family, edge_sections(self.family.part), self.form)
        said = notes(self.family, self.piece, self.form)
        found = [Block(view.marks) for view in sections]
        found += [Block(view.marks) for view in (*dovetail_views(self.plan, self.width), *joint_sections(self.plan))]
        found += [Block(view.marks) for view in edge_views(self.plan, self.width)]
        found += [Block(view.marks) for view in mouth_views(self.plan)]
        found += [Block(view.marks) for view in leg_views(self.family, self.form)]
        found += [block for table in tables(self.plan) for block in table.blocks(self.width)]
        return [*found, notes_block(said, self.family.names[0])] if said else found


def _heading(title: Sequence[str], tables: Sequence[Table], corner: Point) -> list[Entity]:
    """The title's lines over the table of stock, the pieces of which stand one under the other."""
    x, y = corner
    lines = [Text((x, y - n * _NAME * LINE_PITCH), line, _NAME, level="top", bold=True) for n, line in enumerate(title)]
    below, top = list[Entity](), lines[-1].at[1] - _NAME + 2.2
    for table in tables:
        below += table.marks((x, top))
        top -= table.height - _CLOSE
    return [*lines, *(m for m in below if not _empty(m))]


def _empty(mark: Entity) -> bool:
    return isinstance(mark, Text) and not mark.text
