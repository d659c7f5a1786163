"""The exploded view: every part drawn out along its way home, with item references keyed to the parts list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from drawings.paper.board import board
from drawings.paper.page import title_block_area
from drawings.paper.saying import Saying, counted
from drawings.paper.sheet import Entity, Paper, Point, Sheet, ViewPort
from drawings.sheets.apart import Offsets, Reach, apart, middle_of
from drawings.sheets.balloons import RING, balloons, room_for
from drawings.sheets.clear_room import Box, grown
from drawings.sheets.leaves import NO_SCALE, Leaf, bind, columns
from drawings.sheets.parts_list import LIST, Listing, hardware_listing, parts_listing
from drawings.sheets.principal import Lengths
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import PICTORIAL, View
from model.errors import DesignError
from model.order import Order
from model.piece import Piece
from model.placement import Placement, added

if TYPE_CHECKING:
    import cadquery as cq

TITLE = "Exploded view"
_MARGIN, _GAP = 6.0, 6.0
#: Places looked at along the longer side of the view, to find where each part is seen best.
_PLACES = 260
#: A picture is no narrower and no lower than this, mm (ours).
_LEAST = 60.0
#: A picture so much smaller is taken if it saves the lists a sheet of their own (ours).
_NEARLY = 0.7
#: Least distance between parallel lines, mm: what ISO 128-2 asks for (lines 0.5 wide, 0.2 between them).
_SPACE = 0.7


@dataclass(frozen=True)
class Exploded:
    """The view of the parts drawn out, and where each item is pointed at, view mm, by its number, which says of which
    part it is."""

    view: View
    places: Mapping[Saying, Point]


def exploded_sheets(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Sheet]:
    """The exploded view with the parts list and the hardware list, on as many sheets as the lists take.

    shapes: every part's solid where it stands, as it is to be drawn. Loads the CAD kernel.
    """
    return bind(exploded_leaves(piece, order, shapes), order)


def exploded_leaves(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Leaf]:
    """The same before they are bound."""
    return laid_out(exploded_view(piece, shapes), piece, order)


def exploded_view(piece: Piece, shapes: Mapping[str, cq.Shape]) -> Exploded:
    """The parts drawn out as far as `apart` says, seen as the pictorial view sees them. Loads the CAD kernel."""
    from drawings.views.facets import triangles_each
    from drawings.views.foremost import Foremost, seen
    from drawings.views.project import project_views

    home = triangles_each(list(shapes.values()))
    reaches = {name: _reach(facets) for name, facets in zip(shapes, home, strict=True)}
    offsets = apart(piece, reaches)
    moved = _moved(shapes, offsets)
    facets = [own + np.array(offsets[name]) for name, own in zip(shapes, home, strict=True)]
    view = project_views(list(moved.values()), [PICTORIAL])[PICTORIAL.name]
    roomiest = seen(Foremost(facets, PICTORIAL), view.bounds, _PLACES).roomiest()
    behind = {name: (PICTORIAL.project(added(middle_of(reaches[name]), offsets[name])), 0.0) for name in moved}
    best = behind | {name: roomiest[n] for n, name in enumerate(moved) if n in roomiest}
    return Exploded(view, _item_places(piece, best))


def _moved(shapes: Mapping[str, cq.Shape], offsets: Offsets) -> dict[str, cq.Shape]:
    from model.solids import location

    return {name: shape.moved(location(Placement(offsets[name]))) for name, shape in shapes.items()}


def _reach(facets: NDArray[np.float64]) -> Reach:
    (x0, y0, z0), (x1, y1, z1) = (end(facets.reshape(-1, 3), axis=0).tolist() for end in (np.min, np.max))
    return (x0, y0, z0), (x1, y1, z1)


def _item_places(piece: Piece, seen: Mapping[str, tuple[Point, float]]) -> dict[Saying, Point]:
    """For each item the place of the one of its parts that is seen best."""
    best: dict[int, tuple[float, Point, str]] = {}
    for name, item in piece.items().items():
        place, depth = seen[name]
        if item not in best or depth > best[item][0]:
            best[item] = depth, place, name
    return {counted(item, "item", name): place for item, (_, place, name) in best.items()}


def laid_out(exploded: Exploded, piece: Piece, order: Order) -> list[Leaf]:
    """The view and the lists on the order's paper: beside them or above them, whichever shows it larger; what of the
    lists finds no room goes on further sheets."""
    page, form = board(order.drawing.paper, order.units), Lengths(order.units, order.drawing.denominator)
    ways = [way for way in _ways(_listings(piece, form, page), page) if _suffices(way.room, len(exploded.places))]
    if not ways:
        raise DesignError(
            f"[drawing] paper: {len(exploded.places)} item references don't go round the exploded view of {order.name} "
            f"on {page.name}; choose a larger paper"
        )
    way = _best(ways, exploded.view)
    marks = [*_picture(exploded, way.room), *(m for listing, corner in way.placed for m in listing.marks(corner))]
    further = [Leaf("parts-list", "Parts list", more, NO_SCALE) for more in _further(way.rest, page)]
    return [Leaf("exploded", TITLE, tuple(marks)), *further]


@dataclass(frozen=True)
class _Way:
    """Of sharing the sheet: the lists on it with their upper left corners, those left over, the picture's room."""

    placed: Sequence[tuple[Listing, Point]]
    rest: Sequence[Listing]
    room: Box


def _listings(piece: Piece, form: Lengths, page: Paper) -> list[Listing]:
    """Parts and hardware; where the hardware goes is left to the steps if that makes both go over the title block."""
    width, column = _list_width(page), _column(page)
    parts, full = parts_listing(piece, form, width), hardware_listing(piece, form.units, width=width)
    brief = hardware_listing(piece, form.units, where=False, width=width)
    if full is None or brief is None:
        return [parts]
    both, room = parts.height + _GAP, column[3] - column[1]
    return [parts, brief if both + full.height > room >= both + brief.height else full]


def _list_width(page: Paper) -> float:
    x0, _, x1, _ = page.frame
    return min(LIST, x1 - x0)


def _column(page: Paper) -> Box:
    """Where lists stand: over the title block, at the right."""
    _, _, right, top = title_block_area(page)
    return right - _list_width(page), top + _GAP, right, page.frame[3] - _MARGIN


def _ways(listings: Sequence[Listing], page: Paper) -> Iterator[_Way]:
    """Lists over the title block with the picture beside them or above; the last one under the picture; none."""
    column = _column(page)
    placed, rest = _stacked(listings, column)
    beside, above = _rooms(page, placed[0][1][1])
    yield from (_Way(placed, rest, room) for room in (beside, above))
    if rest and rest == listings[1:] and rest[0].width <= beside[2] - beside[0]:
        foot = beside[1] + rest[0].height
        yield _Way([*placed, (rest[0], (beside[0], foot))], [], (beside[0], foot + _GAP, beside[2], beside[3]))
    yield _Way([], listings, _rooms(page, column[1] - _GAP)[1])


def _best(ways: Sequence[_Way], view: View) -> _Way:
    """The one with the largest picture; but one that leaves no list over if its picture is nearly as large, and no list
    at all only where it must be."""
    some = [way for way in ways if way.placed] or list(ways)
    largest = max(some, key=lambda way: _scale(view, way.room))
    whole = [way for way in some if not way.rest and _scale(view, way.room) > _NEARLY * _scale(view, largest.room)]
    return max(whole, key=lambda way: _scale(view, way.room), default=largest)


def _stacked(listings: Sequence[Listing], column: Box) -> tuple[list[tuple[Listing, Point]], list[Listing]]:
    """The listings with their corners, the first lowest line on the column's foot, and what has no room there."""
    left, foot, _, high = column
    total = sum(listing.height for listing in listings) + _GAP * (len(listings) - 1)
    if total <= high - foot:
        top = foot + total
        placed = []
        for listing in listings:
            placed.append((listing, (left, top)))
            top -= listing.height + _GAP
        return placed, []
    first, rest = listings[0].split(high - foot)
    left_over = [rest] if rest.rows else []
    return [(first, (left, high))], [*left_over, *listings[1:]]


def _rooms(page: Paper, list_top: float) -> tuple[Box, Box]:
    """Where the picture may stand: left of the title block and the lists, or above both."""
    x0, y0, x1, y1 = page.frame
    inner = x0 + _MARGIN, y0 + _MARGIN, x1 - _MARGIN, y1 - _MARGIN
    right = min(title_block_area(page)[0], _column(page)[0])
    return (inner[0], inner[1], right - _GAP, inner[3]), (inner[0], list_top + _GAP, inner[2], inner[3])


def _inside(room: Box) -> Box:
    """What the ring of balloons leaves of a room."""
    return grown(room, -RING)


def _suffices(room: Box, count: int) -> bool:
    """Is there room for a picture worth looking at, and for so many balloons round it?"""
    x0, y0, x1, y1 = _inside(room)
    return min(x1 - x0, y1 - y0) > _LEAST and room_for((x0, y0, x1, y1)) >= count


def _scale(view: View, room: Box) -> float:
    (left, bottom, right, top), (x0, y0, x1, y1) = view.bounds, _inside(room)
    return min((x1 - x0) / (right - left), (y1 - y0) / (top - bottom))


def _picture(exploded: Exploded, room: Box) -> list[Entity]:
    left, bottom, right, top = exploded.view.bounds
    scale = _scale(exploded.view, room)
    middle = (room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0
    origin = middle[0] - scale * (left + right) / 2.0, middle[1] - scale * (bottom + top) / 2.0
    port = ViewPort(scale, origin)
    places = {item: port.place(place) for item, place in exploded.places.items()}
    picture = (*port.place((left, bottom)), *port.place((right, top)))
    ring = picture if room_for(picture) >= len(places) else _inside(room)
    return [*view_marks(exploded.view, port, space=_SPACE), *balloons(ring, places)]


def _further(listings: Sequence[Listing], page: Paper) -> list[tuple[Entity, ...]]:
    """Sheets for what of the lists found no room beside the picture, in columns from the left."""
    sheets: list[tuple[Entity, ...]] = []
    waiting = list(listings)
    while waiting:
        marks: list[Entity] = []
        for x, low, high in columns(page, _list_width(page)):
            top = high
            while waiting and top - low > 40.0:
                listing, rest = waiting[0].split(top - low)
                if not listing.rows and top < high:
                    break
                if not listing.rows:
                    listing, rest = waiting[0].broken(top - low)
                marks += listing.marks((min(x, page.frame[2] - listing.width), top))
                top -= listing.height + _GAP
                waiting[:1] = [rest] if rest.rows else []
        sheets.append(tuple(marks))
    return sheets
