"""Writing patterns: each as tiles for the order's paper, and as one strip for a plotter's roll."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from drawings.cutting.files import speaks_inches
from drawings.paper.page import paper
from drawings.paper.sheet import Paper, Sheet
from drawings.patterns.full_size import patterns
from drawings.patterns.panel import PANEL_GAP, SQUARES, panel_size
from drawings.patterns.pattern import Pattern
from drawings.patterns.tile_sheet import TiledPattern, layout
from drawings.players.pdf import write_pdf
from model.order import Order
from model.piece import Piece

#: Width of a plotter's roll, mm: 36 in (common practice).
ROLL = 914.0
#: A page of a PDF is no longer than 14400 points (ISO 32000-1, annex C.2), mm.
LONGEST_PAGE = 5080.0
#: Left free along a roll's edges and round the pattern, mm: little, so that a 880 mm top still goes on in one (ours).
_ROLL_MARGIN, _NARROW = 8.0, 3.0
#: A strip at least this high has room for its words over the check square, mm (ours).
_TALL = 215.0


def write_patterns(piece: Piece, order: Order, folder: Path) -> list[Path]:
    """Write the full-size patterns of a piece into `folder`; returns the files written.

    Two for each distinct shaped part, named as its cutting file is: NN-name.pdf in tiles for the order's paper, and
    NN-name-strip.pdf on one long page for a plotter. The same piece gives the same bytes.
    """
    return write_full_size(patterns(piece, order), piece, order, folder)


def write_full_size(drawn: Iterable[Pattern], piece: Piece, order: Order, folder: Path) -> list[Path]:
    """Write patterns, tiled and as strips; returns the files written."""
    folder.mkdir(parents=True, exist_ok=True)
    square = check_square_side(piece)
    written = []
    for pattern in drawn:
        for name, tiled in (
            (pattern.name, on_paper(pattern, paper(order.drawing.paper), square)),
            (f"{pattern.name}-strip", on_roll(pattern, square)),
        ):
            path = folder / f"{name}.pdf"
            write_pdf(tiled.sheets(), path, pattern.title, f"Full-size pattern of {order.name}", order.drawing.owner)
            written.append(path)
    return written


def check_square_side(piece: Piece) -> float:
    """Of the check square, mm: 100, or 4 in where the order speaks inches."""
    return SQUARES["in" if speaks_inches(piece) else "mm"]


def on_paper(pattern: Pattern, sheet_paper: Paper, square: float) -> TiledPattern:
    """A pattern in tiles on a paper, turned the way that takes the fewest pages."""
    short, long = sorted((sheet_paper.width, sheet_paper.height))
    ways = [
        TiledPattern(pattern, layout(page(sheet_paper.name, wide, high), panel_size(square)), square)
        for wide, high in ((long, short), (short, long))
    ]
    return min(ways, key=lambda tiled: len(tiled.tiles))


def on_roll(pattern: Pattern, square: float) -> TiledPattern:
    """A pattern on one page as long as it needs; in lanes, or in lengths, where it is larger than the roll."""
    x0, y0, x1, y1 = pattern.bounds
    wide, high = x1 - x0 + 2 * _NARROW, y1 - y0 + 2 * _NARROW
    panel = panel_size(square, wide=high < _TALL)
    page_high = min(ROLL, max(high, panel[1]) + 2 * _ROLL_MARGIN)
    # as wide as high at least, so that the panel stands at the strip's end
    page_wide = min(LONGEST_PAGE, max(wide + PANEL_GAP + panel[0] + 2 * _ROLL_MARGIN, page_high))
    sheet_layout = layout(page("Roll", page_wide, page_high), panel, _ROLL_MARGIN)
    return TiledPattern(pattern, sheet_layout, square, _NARROW)


def page(name: str, width: float, height: float) -> Paper:
    """A page without a frame, its lettering kept off the edges, mm."""
    return Paper(name, width, height, filing_edge=5.0, edge=5.0, has_grid=False)


def pattern_sheets(piece: Piece, order: Order) -> list[Sheet]:
    """All the tiles of all a piece's patterns, as sheets."""
    base, square = paper(order.drawing.paper), check_square_side(piece)
    return [sheet for pattern in patterns(piece, order) for sheet in on_paper(pattern, base, square).sheets()]
