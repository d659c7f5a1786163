"""Boxes of different sizes set out on a sheet, in columns from its upper left, clear of the title block. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence

from drawings.paper.page import title_block_area
from drawings.paper.sheet import Paper, Point
from drawings.sheets.leaves import GAP, MARGIN

Size = tuple[float, float]


def packed(sizes: Sequence[Size], page: Paper, gap: float = GAP) -> list[Point]:
    """The upper left corner of as many of the boxes, in their order, as go on one sheet; none may go."""
    x0, _, x1, y1 = page.frame
    x, y, widest = x0 + MARGIN, y1 - MARGIN, 0.0
    corners: list[Point] = []
    for width, height in sizes:
        if y - height < _foot(page, x + width):
            x, y, widest = x + (widest + gap if widest else 0.0), y1 - MARGIN, 0.0
        if x + width > x1 - MARGIN or y - height < _foot(page, x + width):
            break
        corners.append((x, y))
        y -= height + gap
        widest = max(widest, width)
    return corners


def _foot(page: Paper, right: float) -> float:
    """How low a box may reach whose right edge is there."""
    left, _, _, top = title_block_area(page)
    return top + GAP if right > left - GAP else page.frame[1] + MARGIN
