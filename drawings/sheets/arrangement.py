"""Where the views of a general sheet stand on the paper: in projection, clear of the title block, room used well."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from drawings.paper.page import title_block_area
from drawings.paper.sheet import Paper, Point
from drawings.sheets.clear_room import Box, boxes_meet, grown, shifted, within

#: Left free inside the frame and round the title block, mm (ours).
MARGIN = 5.0
#: The centring marks reach 5 mm inside the frame (ISO 5457); so much is left free beside the left and right ones.
_MARK = 6.0
#: Between one block of marks and the next, mm: the widest that does not make the pictorial view small (ours).
GAPS = (26.0, 18.0, 12.0, 6.0, 3.0)
#: How many places the group of views is tried at, each way.
_TRIES = 5
#: What counts against an arrangement, beside a pictorial view at full size counting 1 (ours, by eye): all that is on
#: the sheet lying off its middle, the group of views pushed to the right, notes far from the title block, an empty
#: stretch of the sheet; and for it, each mm between the blocks.
_OFF_MIDDLE, _OFF_LEFT, _NOTES_ASTRAY, _VOID, _SPACED = 0.5, 0.3, 0.25, 1.0, 0.01

Projection = Literal["first", "third"]
Size = tuple[float, float]
Role = Literal["front", "top", "side"]


@dataclass(frozen=True)
class Room:
    """What the sheet must hold beside the views, mm: the paper, the shapes the notes can take, and the pictorial view,
    as wide and as high as it may become, never narrower than its name."""

    paper: Paper
    notes: tuple[Size, ...]
    pictorial: Size
    name_width: float = 0.0

    @property
    def area(self) -> Box:
        x0, y0, x1, y1 = self.paper.frame
        return x0 + _MARK, y0 + MARGIN, x1 - _MARK, y1 - MARGIN

    @property
    def kept_free(self) -> tuple[Box, ...]:
        """The title block with room round it, and the centring marks at top and bottom."""
        (_, y0, _, y1), middle = self.paper.frame, self.paper.width / 2
        marks = ((middle - 0.5, y0, middle + 0.5, y0 + MARGIN), (middle - 0.5, y1 - MARGIN, middle + 0.5, y1))
        return self.title, *marks

    @property
    def title(self) -> Box:
        return grown(title_block_area(self.paper), MARGIN)


@dataclass(frozen=True)
class Arrangement:
    """Where things stand, mm: each view's own (0, 0), the notes' box, and the pictorial view's.

    share: how large the pictorial view is, over the largest it may become.
    """

    origins: Mapping[Role, Point]
    notes: Box
    pictorial: Box
    share: float
    worth: float


def arranged(boxes: Mapping[Role, Box], projection: Projection, room: Room) -> Arrangement | None:
    """The best arrangement by size of the pictorial view, space between blocks and balance; None when nothing fits.

    boxes: of front, top and side with all their dimensions, when each view's own (0, 0) is at the paper's.
    """
    found = (a for gap in GAPS for a in _arrangements(boxes, in_projection(boxes, projection, gap), room, gap))
    return max(found, key=lambda a: a.worth, default=None)


def in_projection(boxes: Mapping[Role, Box], projection: Projection, gap: float) -> dict[Role, Point]:
    """Origins of the views in line with the front view, whose own is at (0, 0): the side view on the right, the top
    view above (third angle) or below (first angle)."""
    front, top, side = boxes["front"], boxes["top"], boxes["side"]
    up = front[3] + gap - top[1] if projection == "third" else front[1] - gap - top[3]
    return {"front": (0.0, 0.0), "top": (0.0, up), "side": (front[2] + gap - side[0], 0.0)}


def _arrangements(
    boxes: Mapping[Role, Box], origins: Mapping[Role, Point], room: Room, gap: float
) -> Iterator[Arrangement]:
    for dx, dy in _places(_joined([shifted(boxes[v], *origins[v]) for v in origins]), room.area):
        moved = {v: (x + dx, y + dy) for v, (x, y) in origins.items()}
        taken = [shifted(boxes[v], *moved[v]) for v in moved]
        if any(boxes_meet(box, free) for box in taken for free in room.kept_free):
            continue
        for notes in _note_places(room, [grown(b, gap) for b in taken]):
            obstacles = [*(grown(b, gap) for b in (*taken, notes)), *room.kept_free]
            free = largest_free(room.area, obstacles, room.pictorial)
            if free and free[2] - free[0] >= room.name_width:
                share = _share(free, room.pictorial)
                pictorial = _centred(free, room.pictorial, share, room.name_width)
                worth = share + _SPACED * gap - _faults([*taken, notes, pictorial], notes, room)
                yield Arrangement(moved, notes, pictorial, share, worth)


def _faults(taken: Sequence[Box], notes: Box, room: Room) -> float:
    """What counts against an arrangement: see the weights."""
    area, all_taken = room.area, [*taken, room.title]
    width, height = area[2] - area[0], area[3] - area[1]
    void = largest_free(area, all_taken, (width, height))
    return (
        _OFF_MIDDLE * _imbalance(all_taken, area)
        + _OFF_LEFT * (min(box[0] for box in taken[:-2]) - area[0]) / width
        + _NOTES_ASTRAY * (notes[1] > room.title[3] + MARGIN)
        + _VOID * (_share(void, (width, height)) if void else 0.0)
    )


def _places(group: Box, area: Box) -> Iterator[Point]:
    """Shifts that keep the group inside the area: from the left to its middle, and from top to bottom."""
    spare_x = area[2] - area[0] - (group[2] - group[0])
    spare_y = area[3] - area[1] - (group[3] - group[1])
    if spare_x < 0 or spare_y < 0:
        return
    for i in range(_TRIES):
        for j in range(_TRIES):
            across, down = i / (_TRIES - 1) / 2 * spare_x, j / (_TRIES - 1) * spare_y
            yield area[0] - group[0] + across, area[3] - group[3] - down


def _note_places(room: Room, taken: Sequence[Box]) -> Iterator[Box]:
    """Free places for the notes in each of their shapes: over the title block, beside it, and in the corners."""
    (x0, y0, x1, y1), title = room.area, room.title
    for width, height in room.notes:
        for top in (title[3] + height, y0 + height, y1):
            for left in (title[0] + MARGIN, x1 - width, x0, title[0] - width):
                box = left, top - height, left + width, top
                if within(box, room.area) and not any(boxes_meet(box, b) for b in (*taken, *room.kept_free)):
                    yield box


def largest_free(area: Box, taken: Sequence[Box], size: Size) -> Box | None:
    """The free box in which something of the proportions of `size` comes out largest."""
    xs = sorted({area[0], area[2], *(x for b in taken for x in (b[0], b[2]) if area[0] < x < area[2])})
    free = [
        (x0, low, x1, high)
        for n, x0 in enumerate(xs)
        for x1 in xs[n + 1 :]
        for low, high in _gaps(area, [b for b in taken if b[0] < x1 and x0 < b[2]])
    ]
    return max(free, key=lambda box: _share(box, size), default=None)


def _gaps(area: Box, taken: Sequence[Box]) -> Iterator[tuple[float, float]]:
    """Free stretches from the area's foot to its top, between boxes that lie across it."""
    reached = area[1]
    for low, high in sorted((b[1], b[3]) for b in taken):
        if low > reached:
            yield reached, min(low, area[3])
        reached = max(reached, high)
    if reached < area[3]:
        yield reached, area[3]


def _share(box: Box, size: Size) -> float:
    """How much of `size`, at most all of it, goes into a box."""
    return min((box[2] - box[0]) / size[0], (box[3] - box[1]) / size[1], 1.0)


def _centred(box: Box, size: Size, share: float, least: float) -> Box:
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    across, up = max(share * size[0], least) / 2, share * size[1] / 2
    return x - across, y - up, x + across, y + up


def _imbalance(boxes: Sequence[Box], area: Box) -> float:
    """How far the middle of all that is on the sheet lies from the middle of the area, over the area's size."""
    weights = [(b[2] - b[0]) * (b[3] - b[1]) for b in boxes]
    total = sum(weights)
    x = sum(w * (b[0] + b[2]) / 2 for w, b in zip(weights, boxes, strict=True)) / total
    y = sum(w * (b[1] + b[3]) / 2 for w, b in zip(weights, boxes, strict=True)) / total
    middle = (area[0] + area[2]) / 2, (area[1] + area[3]) / 2
    return abs(x - middle[0]) / (area[2] - area[0]) + abs(y - middle[1]) / (area[3] - area[1])


def _joined(boxes: Sequence[Box]) -> Box:
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)
