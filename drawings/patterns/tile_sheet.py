"""One page of a pattern: its share at full size, crop and join marks round it, and a panel that says what it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from drawings.paper.sheet import Entity, Fill, Leader, Line, Paper, Pen, Point, Polyline, Sheet, Text
from drawings.patterns.grain_mark import grain_mark
from drawings.patterns.joins import Join, joins
from drawings.patterns.labels import lettered
from drawings.patterns.panel import PANEL_GAP, Panel, panel_marks
from drawings.patterns.pattern import Pattern, in_the_wood
from drawings.patterns.tiling import OVERLAP, Tile, Tiling
from drawings.sheets.clear_room import Box, Drawn, box_of, grown, within

#: Left free round the page, mm: more than printers need (common practice 5), so that crop marks stand in it.
MARGIN = 12.0
#: Free paper left round the pattern's own lines, mm.
AROUND = 6.0
#: Crop marks begin and end so far outside what the tile prints, mm.
_CROP = (1.0, 5.0)
#: What carries grain and face side inside the part, and the least room lettering keeps from the tile's edge, mm.
_GRAIN, _GRAIN_LONG, _INSET = "grain, face side up", 60.0, 1.5

#: Free paper added before or after the pattern, mm, to move the joins by half of it; joins keep so far off its lines.
_ASIDE = ((0.0, 0.0), *(more for n in (8.0, 16.0, 24.0, 36.0, 50.0, 70.0) for more in ((n, 0.0), (0.0, n))))
_CLEAR = 1.5


@dataclass(frozen=True)
class Layout:
    """How a page is divided: what it prints at full size, and the panel beside or under it; page mm."""

    paper: Paper
    window: Box
    panel: Box


def layout(paper: Paper, panel: tuple[float, float], margin: float = MARGIN) -> Layout:
    """The page with its panel, width and height `panel`, mm: on the right of a lying page, under a standing one."""
    x0, y0, x1, y1 = margin, margin, paper.width - margin, paper.height - margin
    wide, high = panel
    if paper.width >= paper.height:
        return Layout(paper, (x0, y0, x1 - wide - PANEL_GAP, y1), (x1 - wide, y0, x1, y1))
    return Layout(paper, (x0, y0 + high + PANEL_GAP, x1, y1), (x0, y0, x1, y0 + high))


@dataclass(frozen=True)
class TiledPattern:
    """A pattern on one kind of page: its tiles, empty ones left out, and their joins.

    square: the check square's side; around: free paper round the pattern; mm.
    """

    pattern: Pattern
    layout: Layout
    square: float
    around: float = AROUND

    @cached_property
    def tiling(self) -> Tiling:
        """The grid, moved by a little where a join would run along a line of the pattern or through its lettering."""
        x0, y0, x1, y1 = self.layout.window
        bounds = grown(self.pattern.bounds, self.around)
        for axis in (0, 1):
            tried = [_wider(bounds, axis, *more) for more in _ASIDE]
            grids = [(b, Tiling(b, (x1 - x0, y1 - y0), OVERLAP)) for b in tried]
            bounds = next((b for b, grid in grids if not self._clashes(grid, axis)), bounds)
        return Tiling(bounds, (x1 - x0, y1 - y0), OVERLAP)

    def _clashes(self, tiling: Tiling, axis: int) -> bool:
        """Whether a join at one station of an axis runs along a straight line, or cuts a text."""
        joined = {tile.core[axis] for tile in tiling.tiles if (tile.column, tiling.rows - 1 - tile.row)[axis] > 0}
        spans = [(box[axis], box[axis + 2]) for box in (grown(box_of([text]), 1.0) for text in self.pattern.texts)]
        edges = (e for line in self.pattern.lines for e in line.edges if e.straight)
        along = ((e.start[axis], e.end[axis]) for e in edges if e.length > _CLEAR)
        spans += [(min(ends) - _CLEAR, max(ends) + _CLEAR) for ends in along if abs(ends[0] - ends[1]) < _CLEAR]
        return any(low < at < high for low, high in spans for at in joined)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that show any of it."""
        return tuple(t for t in self.tiling.tiles if self.pattern.shows_in(t.core))

    @cached_property
    def joins(self) -> list[Join]:
        return joins(self.pattern, self.tiles)

    def sheets(self) -> list[Sheet]:
        """A sheet for each tile."""
        return [self._sheet(tile, n) for n, tile in enumerate(self.tiles, 1)]

    def _sheet(self, tile: Tile, number: int) -> Sheet:
        count = len(self.tiles)
        name = f"{self.pattern.name}-{tile.name}" if count > 1 else self.pattern.name
        title = f"{self.pattern.title}, tile {tile.name}" if count > 1 else self.pattern.title
        shown, unplaced = self._shown(tile)
        panel = Panel(self.pattern, self.tiling, self.tiles, tile, self.square, tuple(unplaced))
        marks = (*shown, *self._crop_marks(tile), *panel_marks(panel, self.layout.panel))
        return Sheet(name, title, self.layout.paper, marks, number, count)

    def _shown(self, tile: Tile) -> tuple[list[Entity], list[str]]:
        """The tile's share at full size on the page; and the labels that found no place."""
        room = grown(tile.window, -_INSET)
        marks: list[Entity] = [m for join in self.joins if tile.name in join.tiles for m in join.drawn_on(tile)]
        marks += [text for text in self.pattern.texts if within(box_of([text]), tile.window)]
        lines: list[Entity] = list(self.pattern.polylines(tile.window))
        placed, unplaced = lettered(self.pattern.labels, room, [*marks, *lines])
        marks += placed
        marks += self._grain(room, [*marks, *lines])
        dx, dy = self.layout.window[0] - tile.window[0], self.layout.window[1] - tile.window[1]
        return [moved(mark, dx, dy) for mark in [*lines, *marks]], unplaced

    def _grain(self, room: Box, drawn: Sequence[Entity]) -> list[Entity]:
        """The grain arrow in the wood, where a tile has clear room for it."""
        wood, taken = self.pattern.wood, Drawn(drawn)
        if wood is None:
            return []
        for at in _spread(room):
            marks = grain_mark(_GRAIN, at, _GRAIN_LONG)
            x0, y0, x1, y1 = grown(box_of(marks), 3.0)
            ring = Polyline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), closed=True)
            inside = in_the_wood(at, wood, self.pattern.holes) and within((x0, y0, x1, y1), room)
            if inside and not taken.crossings(ring) and not any(map(taken.crossings, marks)):
                return marks
        return []

    def _crop_marks(self, tile: Tile) -> Iterator[Line]:
        """Outside the window, where the tile is cut: at the ends of each of its join lines."""
        wx0, wy0, wx1, wy1 = self.layout.window
        dx, dy = wx0 - tile.window[0], wy0 - tile.window[1]
        cx0, cy0, cx1, cy1 = tile.core
        near, far = _CROP
        for x in (cx0 + dx, cx1 + dx):
            yield Line((x, wy0 - near), (x, wy0 - far), Pen.THIN)
            yield Line((x, wy1 + near), (x, wy1 + far), Pen.THIN)
        for y in (cy0 + dy, cy1 + dy):
            yield Line((wx0 - near, y), (wx0 - far, y), Pen.THIN)
            yield Line((wx1 + near, y), (wx1 + far, y), Pen.THIN)


def _wider(box: Box, axis: int, before: float, after: float) -> Box:
    """A box with so much more room before and after it along an axis."""
    x0, y0, x1, y1 = box
    return (x0 - before, y0, x1 + after, y1) if axis == 0 else (x0, y0 - before, x1, y1 + after)


def _spread(room: Box) -> list[Point]:
    """Places all over a room, those near its middle first."""
    x0, y0, x1, y1 = room
    shares = (0.5, 0.35, 0.65, 0.2, 0.8)
    return [(x0 + a * (x1 - x0), y0 + b * (y1 - y0)) for a in shares for b in (*shares, 0.1, 0.9)]


def moved(mark: Entity, dx: float, dy: float) -> Entity:
    """A line, a text, a fill or a leader shifted on the paper, mm. Raises TypeError for any other mark."""

    def shift(p: Point) -> Point:
        return p[0] + dx, p[1] + dy

    if isinstance(mark, Line):
        return replace(mark, p=shift(mark.p), q=shift(mark.q))
    if isinstance(mark, Polyline | Leader):
        return replace(mark, points=tuple(map(shift, mark.points)))
    if isinstance(mark, Text):
        return replace(mark, at=shift(mark.at))
    if isinstance(mark, Fill):
        return replace(mark, outlines=tuple(replace(o, points=tuple(map(shift, o.points))) for o in mark.outlines))
    raise TypeError(f"patterns have no {type(mark).__name__}")
