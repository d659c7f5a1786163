"""A sheet as SVG: millimetres, one class a pen, text as text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from xml.sax.saxutils import escape

from drawings.paper.arcs import arc_sweep, bulge_arc, polar
from drawings.paper.lettering import FONT_FAMILY, anchor, font_size, text_width
from drawings.paper.sheet import Arc, Basic, Circle, Fill, Line, Pen, Point, Polyline, Sheet, Text
from drawings.paper.strokes import strokes

_ANCHORS = {"left": "start", "centre": "middle", "right": "end"}


def write_svg(sheet: Sheet, path: Path) -> None:
    """Write the sheet to `path`; the same sheet gives the same bytes."""
    path.write_text(svg_text(sheet), encoding="utf-8", newline="\n")


def svg_text(sheet: Sheet) -> str:
    """The sheet as one `svg` element, with its own scoped style, ready for a file or for a page of HTML."""
    width, height = _number(sheet.paper.width), _number(sheet.paper.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="sheet" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">',
        f"<title>{escape(sheet.title)}</title>",
        f"<style>{_style()}</style>",
        f'<rect class="paper" width="{width}" height="{height}"/>',
        *_elements((mark for entity in sheet.entities for mark in strokes(entity)), sheet.paper.height),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _style() -> str:
    rules = [
        ".paper{fill:#fff}",
        "path{fill:none;stroke:#000;stroke-linejoin:round;stroke-linecap:round}",
        f'text{{font-family:"{FONT_FAMILY}",Verdana,sans-serif;fill:#000;white-space:pre}}',
        ".bold{font-weight:bold}",
        ".fill{stroke:none;fill-rule:evenodd}",
        *(_pen_rule(pen) for pen in Pen),
    ]
    return "".join(f"svg.sheet {rule}" for rule in rules)


def _pen_rule(pen: Pen) -> str:
    dashes = " ".join(_number(length) for length in pen.dashes)
    broken = f";stroke-dasharray:{dashes};stroke-linecap:butt" if dashes else ""
    return f".{_class(pen)}{{stroke-width:{_number(pen.width)}{broken}}}"


def _class(pen: Pen) -> str:
    return f"pen-{pen.value}"


def _elements(marks: Iterable[Basic], page_height: float) -> Iterator[str]:
    """One element a text or fill, and one path for each run of marks by the same pen."""
    pen: Pen | None = None
    run: list[str] = []
    for mark in marks:
        mark_pen = None if isinstance(mark, Text | Fill) else mark.pen
        if run and (mark_pen is not pen):
            yield _path(run, pen)
            run = []
        pen = mark_pen
        if isinstance(mark, Text):
            yield _text(mark, page_height)
        elif isinstance(mark, Fill):
            outlines = "".join(_outline(line, page_height) for line in mark.outlines)
            yield f'<path class="fill" style="fill:{mark.colour}" d="{outlines}"/>'
        else:
            run.append(_outline(mark, page_height))
    if run:
        yield _path(run, pen)


def _path(run: list[str], pen: Pen | None) -> str:
    assert pen is not None
    return f'<path class="{_class(pen)}" d="{"".join(run)}"/>'


def _outline(mark: Line | Arc | Circle | Polyline, page_height: float) -> str:
    """The path data of one mark, y turned down."""
    if isinstance(mark, Line):
        return f"M{_at(mark.p, page_height)}L{_at(mark.q, page_height)}"
    if isinstance(mark, Circle):
        return _circle(mark, page_height)
    if isinstance(mark, Arc):
        sweep = arc_sweep(mark)
        if sweep >= 360:
            return _circle(Circle(mark.centre, mark.radius), page_height)
        begin, end = (polar(mark.centre, mark.radius, angle) for angle in (mark.start, mark.end))
        return f"M{_at(begin, page_height)}{_arc_to(end, mark.radius, sweep, page_height)}"
    return _polyline(mark, page_height)


def _circle(circle: Circle, page_height: float) -> str:
    (x, y), r = circle.centre, circle.radius
    halves = "".join(_arc_to((x + side * r, y), r, 180.0, page_height) for side in (-1, 1))
    return f"M{_at((x + r, y), page_height)}{halves}Z"


def _polyline(line: Polyline, page_height: float) -> str:
    data = [f"M{_at(line.points[0], page_height)}"]
    for p, q, bulge in line.stretches():
        if bulge and p != q:
            _, radius, _, sweep = bulge_arc(p, q, bulge)
            data.append(_arc_to(q, radius, sweep, page_height))
        else:
            data.append(f"L{_at(q, page_height)}")
    return "".join(data) + ("Z" if line.closed else "")


def _arc_to(end: Point, radius: float, sweep: float, page_height: float) -> str:
    large, clockwise = int(abs(sweep) > 180), int(sweep < 0)
    return f"A{_number(radius)} {_number(radius)} 0 {large} {clockwise} {_at(end, page_height)}"


def _text(text: Text, page_height: float) -> str:
    """The lettering, spread to the bundled font's width so that another font does not change the layout."""
    x, y = anchor(text)
    at = f'x="{_number(x)}" y="{_number(page_height - y)}"'
    turn = f' transform="rotate({_number(-text.angle)} {_at((x, y), page_height)})"' if text.angle else ""
    side = "" if text.align == "left" else f' text-anchor="{_ANCHORS[text.align]}"'
    width = text_width(text.text, text.height, text.bold)
    length = f' textLength="{_number(width)}" lengthAdjust="spacingAndGlyphs"' if width else ""
    weight = ' class="bold"' if text.bold else ""
    size = _number(font_size(text.height))
    return f'<text{weight} {at} font-size="{size}"{side}{length}{turn}>{escape(text.text)}</text>'


def _at(point: Point, page_height: float) -> str:
    return f"{_number(point[0])} {_number(page_height - point[1])}"


def _number(value: float) -> str:
    """To a thousandth of a millimetre, without trailing zeros or a negative nought."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
