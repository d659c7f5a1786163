"""The panel beside a tile: part, item, tile, key map, check square, and how to put the tiles together."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from dataclasses import dataclass

from drawings.paper.lettering import fitted, line_pitch, reach
from drawings.paper.sheet import Entity, Fill, Pen, Point, Polyline, Text
from drawings.patterns.grain_mark import grain_mark
from drawings.patterns.pattern import Pattern, polyline
from drawings.patterns.pieces import runs
from drawings.patterns.tiling import Tile, Tiling, column_letters
from drawings.sheets.clear_room import Box

#: Between what is printed at full size and the panel, mm.
PANEL_GAP = 8.0
#: The check square's side, mm: a round size in the order's units (common practice).
SQUARES = {"mm": 100.0, "in": 101.6}
_SQUARE_TEXT, _ABOUT = {100.0: "100 mm", 101.6: "4 in"}, {100.0: "", 101.6: " (about 3/8 in)"}
#: Room the panel keeps round the check square, mm.
_PAD = 1.0
_SMALL, _PLAIN, _LARGE = 1.8, 2.5, 5.0
#: Paper given to the names along the key map, most height of the map, and least room worth lettering notes in, mm.
_MAP_NAMES, _MAP_HIGH, _LEAST_NOTES = 4.0, 38.0, 6.0
_TINT = "#d0d0d0"


@dataclass(frozen=True)
class Panel:
    """What it is said of: a tile among those kept of a tiling, and the labels that found no place on it."""

    pattern: Pattern
    tiling: Tiling
    tiles: Sequence[Tile]
    tile: Tile
    square: float
    unplaced: tuple[str, ...] = ()


def panel_size(square: float, wide: bool = False) -> tuple[float, float]:
    """The least width and height of a panel, the words beside the check square if it is to be wide, mm."""
    side = square + 2 * _PAD
    return (2.0 * side, side) if wide else (side, side)


def panel_marks(panel: Panel, box: Box) -> list[Entity]:
    """The panel in its box, page mm: the square in a corner, the words over it or beside it."""
    x0, y0, x1, y1 = box
    side = panel.square + 2 * _PAD
    if y1 - y0 > x1 - x0:
        corner, words = (x0 + _PAD, y0 + _PAD), (x0, y0 + side + 3.0, x1, y1)
    else:
        corner, words = (x1 - panel.square - _PAD, y0 + _PAD), (x0, y0, x1 - side - 4.0, y1)
    return [*check_square(panel, corner), *_words(panel, words)]


def check_square(panel: Panel, corner: Point) -> Iterator[Entity]:
    """The square, its stated size, and in it how to print, cut and join."""
    (x, y), side = corner, panel.square
    yield Polyline(((x, y), (x + side, y), (x + side, y + side), (x, y + side)), closed=True, pen=Pen.THIN)
    stated = _SQUARE_TEXT[side]
    lines = [f"Check square {stated} × {stated}: measure it both ways before you use this page."]
    lines.append("Print at 100 %, actual size, never fitted to the page.")
    if panel.pattern.wood:
        lines.append("Wide lines: the outline and what goes right through. Thin lines: cut from the face side.")
        lines.append("Dashed lines: cut from the back side, seen through the wood.")
    if len(panel.tiles) > 1:
        lines.append(
            f"Tiles overlap by {panel.tiling.overlap:g} mm{_ABOUT[side]}. Cut one of two neighbours "
            "along the join line, which the crop marks show, and lay it on the other so that the diamonds with the "
            "same number meet."
        )
    top = y + side - 4.0
    for line in lines:
        top = yield from _stacked(line, (x + 4.0, top), side - 8.0, top - y - 4.0, (_PLAIN, _SMALL))
        top -= 2.0


def _words(panel: Panel, box: Box) -> Iterator[Entity]:
    x0, y0, x1, top = box
    wide, pattern = x1 - x0, panel.pattern
    top = yield from _stacked(pattern.title, (x0, top), wide, 14.0, (_LARGE, 3.5, _PLAIN), bold=True)
    top -= 2.0
    for fact in pattern.facts:
        top = yield from _stacked(fact, (x0, top), wide, 7.0, (_PLAIN, _SMALL))
        top -= 1.4
    if len(panel.tiles) > 1:
        count = panel.tiles.index(panel.tile) + 1
        text = f"Tile {panel.tile.name}, page {count} of {len(panel.tiles)}"
        top = yield from _stacked(text, (x0, top - 1.0), wide, 8.0, (_LARGE, 3.5, _PLAIN), bold=True)
        top -= 1.6
    if pattern.wood:
        top -= 4.5
        yield from grain_mark("grain; this side of the paper is the face side", ((x0 + x1) / 2.0, top), 40.0)
        top -= 3.0
    if len(panel.tiles) > 1:
        high = min(_MAP_HIGH, top - y0)
        top = yield from _key_map(panel, (x0, top - high, x1, top))
        top -= 3.0
    yield from _notes(panel, (x0, y0, x1, top))


def _notes(panel: Panel, box: Box) -> Iterator[Entity]:
    x0, y0, x1, top = box
    notes = list(panel.pattern.notes)
    if panel.unplaced:
        notes.append(f"Not lettered on this tile for want of room: {'; '.join(panel.unplaced)}.")
    if notes and top - y0 > _LEAST_NOTES:
        yield from _stacked(" ".join(notes), (x0, top), x1 - x0, top - y0, (_PLAIN, _SMALL))


def _stacked(
    text: str, at: Point, width: float, room: float, heights: tuple[float, ...], bold: bool = False
) -> Generator[Text, None, float]:
    """A text hung from `at`, in as large a lettering as goes in; returns where it ends."""
    height, lines = fitted(text, width, room, heights, bold)
    low, high = reach(text)
    first, step = at[1] - high * height, line_pitch(text) * height
    for n, line in enumerate(lines):
        yield Text((at[0], first - n * step), line, height, bold=bold)
    return first - (len(lines) - 1) * step + low * height


def _key_map(panel: Panel, box: Box) -> Generator[Entity, None, float]:
    """The whole pattern in small under the grid of its tiles, this tile tinted; letters over it, numbers beside it."""
    tiles = panel.tiling.tiles
    whole = tiles[0].core[0], tiles[-1].core[1], tiles[-1].core[2], tiles[0].core[3]
    wide, high = whole[2] - whole[0], whole[3] - whole[1]
    scale = min((box[2] - box[0] - _MAP_NAMES) / wide, (box[3] - box[1] - _MAP_NAMES) / high)
    left, top = box[0] + _MAP_NAMES, box[3] - _MAP_NAMES

    def place(p: Point) -> Point:
        return left + (p[0] - whole[0]) * scale, top + (p[1] - whole[3]) * scale

    yield Fill((_rectangle(panel.tile.core, place),), _TINT)
    for tile in panel.tiles:
        yield _rectangle(tile.core, place)
    for line in panel.pattern.lines:
        if line.pen is Pen.VISIBLE:
            for run in runs(line.edges):
                shown = polyline(run, Pen.GRID)
                yield Polyline(tuple(map(place, shown.points)), shown.bulges, shown.closed, shown.pen)
    for tile in tiles:
        x, y = place(((tile.core[0] + tile.core[2]) / 2.0, (tile.core[1] + tile.core[3]) / 2.0))
        if tile.row == 0:
            yield Text((x, top + 1.2), column_letters(tile.column), _SMALL, "centre")
        if tile.column == 0:
            yield Text((left - 1.5, y), str(tile.row + 1), _SMALL, "right", "middle")
    return top - high * scale


def _rectangle(box: Box, place: Callable[[Point], Point]) -> Polyline:
    x0, y0, x1, y1 = box
    return Polyline(tuple(map(place, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))), closed=True, pen=Pen.THIN)
