"""How steps share a sheet: how many go on each, in which fields, and what of a field is picture and what is words."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from drawings.paper.page import title_block_area
from drawings.paper.sheet import Paper
from drawings.sheets.clear_room import Box
from drawings.sheets.leaves import GAP, MARGIN
from drawings.views.curves import Bounds

#: A sheet takes as many steps as fields of about this size, mm: two by two on an A3.
_FIELD = (180.0, 100.0)
#: Room inside a field, and lettering from the one that is wanted down, mm.
PAD, LETTERINGS = 3.0, (2.5, 1.8)
#: The words' share of a field's width where they stand beside the picture, the first at which they go in; beneath it
#: they take no more than so much of its height (ours).
_BESIDE, _BENEATH = (0.37, 0.44, 0.5), 0.5
#: No picture is narrower or lower than this, mm.
_LEAST = 20.0

#: How high a step's words come out in lines so many mm wide, at a lettering height.
Tall = Callable[[float, float], float]


@dataclass(frozen=True)
class Asked:
    """A step that is to be set out: the bounds of its picture, and how high its words are."""

    bounds: Bounds
    tall: Tall


@dataclass(frozen=True)
class Field:
    """A step's part of a sheet: all of it, its picture's room and its words', and their lettering."""

    frame: Box
    picture: Box
    words: Box
    lettering: float


def set_out(steps: Sequence[Asked], page: Paper) -> list[list[Field]]:
    """The fields of the steps, sheet by sheet: no more sheets than are needed, the steps spread evenly over them, on
    each in the rows and columns that show its pictures largest."""
    across, down = _most(page)
    sheets = math.ceil(len(steps) / (across * down))
    each = math.ceil(len(steps) / max(sheets, 1))
    return [_sheet(steps[n * each : (n + 1) * each], page) for n in range(sheets)]


def scale_in(bounds: Bounds, room: Box) -> float:
    """The scale at which a picture fills a room."""
    left, bottom, right, top = bounds
    return min((room[2] - room[0]) / (right - left), (room[3] - room[1]) / (top - bottom))


def _room(page: Paper) -> Box:
    """Over the title block."""
    x0, _, x1, y1 = page.frame
    return x0 + MARGIN, title_block_area(page)[3] + GAP, x1 - MARGIN, y1 - MARGIN


def _most(page: Paper) -> tuple[int, int]:
    x0, y0, x1, y1 = _room(page)
    return max(round((x1 - x0 + GAP) / (_FIELD[0] + GAP)), 1), max(round((y1 - y0 + GAP) / (_FIELD[1] + GAP)), 1)


def _sheet(steps: Sequence[Asked], page: Paper) -> list[Field]:
    count = len(steps)
    level = [replace(step, tall=_tallest(steps)) for step in steps]
    grids = [(a, d) for a, d in product(range(1, count + 1), repeat=2) if count <= a * d < count + min(a, d)]
    ways = [[_field(box, step) for box, step in zip(_boxes(page, *grid), level, strict=False)] for grid in grids]
    return max(ways, key=lambda fields: _worth(fields, steps))


def _tallest(steps: Sequence[Asked]) -> Tall:
    """So that the words of all steps of a sheet are lettered alike, and begin level where they stand beneath."""
    return lambda width, size: max(step.tall(width, size) for step in steps)


def _worth(fields: Sequence[Field], steps: Sequence[Asked]) -> tuple[float, float]:
    """The smallest lettering first, then how large the pictures are together."""
    shown = (math.log(scale_in(s.bounds, f.picture)) for f, s in zip(fields, steps, strict=True))
    return min(field.lettering for field in fields), sum(shown)


def _boxes(page: Paper, across: int, down: int) -> list[Box]:
    """In rows from the upper left."""
    x0, y0, x1, y1 = _room(page)
    width, height = (x1 - x0 + GAP) / across - GAP, (y1 - y0 + GAP) / down - GAP
    corners = ((x0 + n * (width + GAP), y1 - m * (height + GAP)) for m in range(down) for n in range(across))
    return [(x, y - height, x + width, y) for x, y in corners]


def _field(frame: Box, step: Asked) -> Field:
    """Words beside the picture or beneath it, whichever shows it larger."""
    ways = [*_beside(frame, step), *_beneath(frame, step)]
    roomy = [f for f in ways if min(f.picture[2] - f.picture[0], f.picture[3] - f.picture[1]) > _LEAST] or ways
    return max(roomy, key=lambda f: (f.lettering, scale_in(step.bounds, f.picture)))


def _beside(frame: Box, step: Asked) -> list[Field]:
    x0, y0, x1, y1 = frame
    fields = []
    for share in _BESIDE:
        divide = x1 - (x1 - x0) * share - PAD
        words = divide + 2.0 * PAD, y0 + PAD, x1 - PAD, y1 - PAD
        size = _lettering(step, words)
        fields.append(Field(frame, (x0 + PAD, y0 + PAD, divide, y1 - PAD), words, size or LETTERINGS[-1]))
        if size == LETTERINGS[0]:
            break
    return fields


def _beneath(frame: Box, step: Asked) -> list[Field]:
    x0, y0, x1, y1 = frame
    words = step.tall(x1 - x0 - 2.0 * PAD, LETTERINGS[0])
    if words > _BENEATH * (y1 - y0):
        return []
    divide = y0 + PAD + words
    box = x0 + PAD, y0 + PAD, x1 - PAD, divide
    return [Field(frame, (x0 + PAD, divide + 2.0 * PAD, x1 - PAD, y1 - PAD), box, LETTERINGS[0])]


def _lettering(step: Asked, words: Box) -> float | None:
    """The largest at which a step's words go into their box; None at none."""
    width, height = words[2] - words[0], words[3] - words[1]
    return next((size for size in LETTERINGS if step.tall(width, size) <= height), None)
