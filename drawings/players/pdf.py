"""Sheets as one PDF: a page each at its own size, vector lines, embedded fonts, bookmarks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drawings.paper.arcs import arc_sweep, bulge_arc
from drawings.paper.lettering import baseline, font, font_size
from drawings.paper.sheet import Arc, Basic, Circle, Fill, Line, Pen, Polyline, Sheet, Text
from drawings.paper.strokes import strokes

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

#: PDF points in a millimetre.
POINTS = 72 / 25.4


def write_pdf(sheets: Sequence[Sheet], path: Path, title: str, subject: str = "", author: str = "") -> None:
    """Write the sheets to `path`, a page and a bookmark each; the same sheets give the same bytes.

    Raises ValueError when there is no sheet.
    """
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfgen.canvas import Canvas

    if not sheets:
        raise ValueError("a drawing set needs at least one sheet")
    for bold in (False, True):
        pdfmetrics.registerFont(font(bold))
    # Streams as they are packed, not spelt out in letters, which takes a quarter of the time and of the file.
    rl_config.useA85 = 0
    canvas = Canvas(str(path), invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor(author)
    canvas.setCreator("dryfit")
    canvas.setProducer("dryfit")
    for sheet in sheets:
        _page(canvas, sheet)
    canvas.showOutline()
    canvas.save()


def _page(canvas: Canvas, sheet: Sheet) -> None:
    canvas.setPageSize((sheet.paper.width * POINTS, sheet.paper.height * POINTS))
    key = f"sheet-{canvas.getPageNumber()}"
    canvas.bookmarkPage(key)
    canvas.addOutlineEntry(sheet.title, key, level=0)
    canvas.scale(POINTS, POINTS)
    canvas.setLineJoin(1)
    pen = _PenRun(canvas)
    for entity in sheet.entities:
        for mark in strokes(entity):
            pen.draw(mark)
    pen.lift()
    canvas.showPage()


class _PenRun:
    """Gathers the marks of one pen into one path, so that pens are changed as seldom as the order allows."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._pen: Pen | None = None
        self._path: Any = None

    def draw(self, mark: Basic) -> None:
        """Draw one mark, after whatever the pen before it has left to draw."""
        if isinstance(mark, Text):
            self.lift()
            _letter(self._canvas, mark)
        elif isinstance(mark, Fill):
            self.lift()
            _fill(self._canvas, mark)
        else:
            self._gather(mark)

    def lift(self) -> None:
        """Stroke what has been gathered."""
        if self._path is not None:
            self._canvas.drawPath(self._path, stroke=1, fill=0)
        self._pen = self._path = None

    def _gather(self, mark: Line | Arc | Circle | Polyline) -> None:
        if mark.pen is not self._pen:
            self.lift()
            self._take(mark.pen)
        _trace(self._path, mark)

    def _take(self, pen: Pen) -> None:
        self._pen = pen
        self._path = self._canvas.beginPath()
        self._canvas.setLineWidth(pen.width)
        self._canvas.setLineCap(0 if pen.dashes else 1)
        self._canvas.setDash(list(pen.dashes))


def _trace(path: Any, mark: Line | Arc | Circle | Polyline) -> None:
    if isinstance(mark, Line):
        path.moveTo(*mark.p)
        path.lineTo(*mark.q)
    elif isinstance(mark, Circle):
        path.circle(*mark.centre, mark.radius)
    elif isinstance(mark, Arc):
        path.arc(*_square(mark.centre, mark.radius), mark.start, arc_sweep(mark))
    else:
        _trace_polyline(path, mark)


def _trace_polyline(path: Any, line: Polyline) -> None:
    path.moveTo(*line.points[0])
    for p, q, bulge in line.stretches():
        if bulge and p != q:
            centre, radius, start, sweep = bulge_arc(p, q, bulge)
            path.arcTo(*_square(centre, radius), start, sweep)
        else:
            path.lineTo(*q)
    if line.closed:
        path.close()


def _square(centre: tuple[float, float], radius: float) -> tuple[float, float, float, float]:
    x, y = centre
    return x - radius, y - radius, x + radius, y + radius


def _fill(canvas: Canvas, fill: Fill) -> None:
    from reportlab.lib.colors import HexColor

    path = canvas.beginPath()
    for outline in fill.outlines:
        _trace_polyline(path, outline)
    canvas.setFillColor(HexColor(fill.colour))
    canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
    canvas.setFillGray(0)


def _letter(canvas: Canvas, text: Text) -> None:
    line = canvas.beginText(*baseline(text))
    if text.angle:
        turn = math.radians(text.angle)
        line.setTextTransform(math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), *baseline(text))
    line.setFont(font(text.bold).fontName, font_size(text.height))
    line.textOut(text.text)
    canvas.drawText(line)
