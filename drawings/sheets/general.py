"""The general sheet of a piece: front, top, side and a pictorial view, with its principal dimensions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from drawings.paper.board import board
from drawings.paper.lettering import text_width
from drawings.paper.measured import Shown
from drawings.paper.saying import Saying
from drawings.paper.scales import scales, sheet_scale, small_scales
from drawings.paper.sheet import Entity, Paper, Sheet, Text, ViewPort
from drawings.sheets.arrangement import Arrangement, Role, Room, arranged
from drawings.sheets.clear_room import Box, box_of
from drawings.sheets.leaves import Leaf, bind, projection
from drawings.sheets.notes import NOTES_WIDTHS, general_notes, notes_marks, notes_size
from drawings.sheets.pointers import Pointers
from drawings.sheets.principal import Lengths, centre_line, principal_dimensions
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import FRONT, LEFT, PICTORIAL, RIGHT, TOP, Segment, View
from model.errors import DesignError
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq

#: The pictorial view is no larger than this times the others' scale, and a scale at which it would be smaller than
#: the least leaves it too little room (ours).
_PICTORIAL_MOST, _PICTORIAL_LEAST = 1.5, 0.5

_NAME, _NAME_GAP = 3.5, 2.5
_NAMED = _NAME + _NAME_GAP

_VIEW_NAMES = {"front": "Front", "top": "Top", "right": "Right side", "left": "Left side"}

_PICTORIAL = "Pictorial, not to scale"


def general_views(shapes: Mapping[str, cq.Shape], order: Order) -> dict[str, View]:
    """The views a general sheet shows of placed solids: "front", "top", "right" ("left" in first angle), "pictorial".

    Hidden lines are kept where they help: all in the top view, in the side view the level ones, which are seats and
    shelves; in front they would cover the boards. Loads the CAD kernel.
    """
    from drawings.views.project import project_views

    side = RIGHT if order.drawing.projection == "third" else LEFT
    views = project_views(list(shapes.values()), [FRONT, TOP, side, PICTORIAL], {"top", side.name})
    return views | {side.name: _with_level_hidden(views[side.name])}


def _with_level_hidden(view: View) -> View:
    level = tuple(c for c in view.hidden if isinstance(c, Segment) and abs(c.p[1] - c.q[1]) < 1e-3)
    return replace(view, hidden=level)


def general_sheet(piece: Piece, order: Order, views: Mapping[str, View]) -> Sheet:
    """The general sheet on the order's paper, at the largest scale at which all goes on.

    views: as `general_views` gives them. Raises DesignError when the paper is too small at any scale.
    """
    return bind([general_leaf(piece, order, views)], order)[0]


def general_leaf(piece: Piece, order: Order, views: Mapping[str, View], pointers: Pointers | None = None) -> Leaf:
    """The same before it is bound, with what points to other sheets."""
    plan = _Plan(piece, order, _roles(views), views["pictorial"], pointers or Pointers())
    scale, named, arrangement = plan.fitted()
    marks = tuple(plan.marks(scale, named, arrangement))
    return Leaf("general", "General arrangement", marks, sheet_scale(scale, order.units))


def general_scale(piece: Piece, order: Order, views: Mapping[str, View], pointers: Pointers) -> float:
    """The scale at which a general sheet comes out, paper over model. Raises as `general_sheet`."""
    return _Plan(piece, order, _roles(views), views["pictorial"], pointers).fitted()[0]


def _roles(views: Mapping[str, View]) -> dict[Role, View]:
    side = views["right"] if "right" in views else views["left"]
    return {"front": views["front"], "top": views["top"], "side": side}


@dataclass(frozen=True)
class _Plan:
    """What a sheet is composed of, before its scale and places are chosen."""

    piece: Piece
    order: Order
    views: Mapping[Role, View]
    pictorial: View
    pointers: Pointers

    @property
    def paper(self) -> Paper:
        return board(self.order.drawing.paper, self.order.units)

    @property
    def form(self) -> Lengths:
        return Lengths(self.order.units, self.order.drawing.denominator)

    @property
    def notes(self) -> list[Saying]:
        return general_notes(self.piece, self.order, self.form)

    def fitted(self) -> tuple[float, bool, Arrangement]:
        """The largest scale with room for all, whether there is room for the views' names too, and the arrangement."""
        units = self.order.units
        for scale in (s for s in (*scales(units), *small_scales(units)) if s <= 1.0 and self._may_fit(s)):
            for named in (True, False):
                found = self._arranged(scale, named)
                if found and found.share * _PICTORIAL_MOST >= _PICTORIAL_LEAST:
                    return scale, named, found
        raise DesignError(
            f"[drawing] paper: the views of {self.order.name} and their dimensions don't fit on {self.paper.name} at "
            "any scale; choose a larger paper"
        )

    def _arranged(self, scale: float, named: bool) -> Arrangement | None:
        width, height = _size(self.pictorial)
        most = scale * _PICTORIAL_MOST
        shapes = tuple(notes_size(self.notes, width) for width in NOTES_WIDTHS)
        room = Room(self.paper, shapes, (width * most, height * most + _NAMED), _width(_PICTORIAL))
        boxes = {role: box_of(self.view_marks(role, ViewPort(scale), named)) for role in self.views}
        return arranged(boxes, projection(self.order), room)

    def _may_fit(self, scale: float) -> bool:
        """Rules out at once what is larger than the page by its bare outlines."""
        (front, high), (depth, _) = _size(self.views["front"]), _size(self.views["side"])
        x0, y0, x1, y1 = self.paper.frame
        return (front + depth) * scale < x1 - x0 and (high + _size(self.views["top"])[1]) * scale < y1 - y0

    def marks(self, scale: float, named: bool, arrangement: Arrangement) -> list[Entity]:
        marks: list[Entity] = []
        for role in self.views:
            view = self.views[role]
            port = ViewPort(scale, arrangement.origins[role], Shown((), view.right, view.up))
            marks += self.view_marks(role, port, named)
        marks += _pictorial_marks(self.pictorial, arrangement.pictorial)
        return [*marks, *notes_marks(self.notes, arrangement.notes)]

    def view_marks(self, role: Role, port: ViewPort, named: bool) -> list[Entity]:
        """One view with its centre line, its dimensions and, if there is room, its name above them."""
        view = self.views[role]
        marks: list[Entity] = [*view_marks(view, port), *centre_line(self.piece, role, view, port)]
        marks += principal_dimensions(self.piece, role, view, port, self.form, marks)
        marks += self.pointers.marks(view, port, marks)
        return [*marks, _name(_VIEW_NAMES[view.name], marks, view, port)] if named else marks


def _name(name: str, marks: list[Entity], view: View, port: ViewPort) -> Text:
    """The view's name over the middle of its outline, above whatever stands there."""
    middle = port.place(((view.bounds[0] + view.bounds[2]) / 2, 0.0))[0]
    reach = text_width(name, _NAME) / 2 + 1.0
    below = [
        box for box in map(box_of, ([mark] for mark in marks)) if box[0] < middle + reach and middle - reach < box[2]
    ]
    return Text((middle, max(box[3] for box in below) + _NAME_GAP), name, _NAME, "centre")


def _width(name: str) -> float:
    """What a view's name takes across, with a little room, mm."""
    return text_width(name, _NAME) + 2.0


def _pictorial_marks(view: View, room: Box) -> list[Entity]:
    """The pictorial view in its box, its name over it."""
    left, bottom, right, top = view.bounds
    scale = min((room[2] - room[0]) / (right - left), (room[3] - room[1] - _NAMED) / (top - bottom))
    x, y = (room[0] + room[2]) / 2, (room[1] + room[3] - _NAMED) / 2
    port = ViewPort(scale, (x - scale * (left + right) / 2, y - scale * (bottom + top) / 2))
    name = Text((x, room[3] - _NAME), _PICTORIAL, _NAME, "centre")
    return [*view_marks(view, port), name]


def _size(view: View) -> tuple[float, float]:
    left, bottom, right, top = view.bounds
    return right - left, top - bottom
