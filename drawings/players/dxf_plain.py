"""Lines, arcs, circles, polylines and texts as DXF, ready written: tag for tag what ezdxf would write of them.

Nearly all of a sheet is these five, and ezdxf takes a tenth of a millisecond for each, because it asks of every
attribute that such an entity can have whether this one has it. Written here they take a tenth of that; tables,
dimensions, hatches and blocks are left to ezdxf.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import singledispatch
from typing import Any

from drawings.paper.lettering import FONT_FAMILY, anchor
from drawings.paper.sheet import Arc, Circle, Line, Point, Polyline, Text

Plain = Line | Arc | Circle | Polyline | Text

#: Group 72 of a TEXT; from the left is what goes without saying.
_ALIGNED = {"left": None, "centre": 1, "right": 2}
_CLOSED = 1
#: A point of extended data.
_POINT = 1010


def text_style(bold: bool) -> str:
    """The name of the text style for our lettering."""
    return f"{FONT_FAMILY} Bold" if bold else FONT_FAMILY


def add_plain(mark: Plain, space: Any, extended: Iterable[tuple[int, Any]] = ()) -> None:
    """Put a mark into an ezdxf layout, as an entity that only knows how to write itself.

    extended: its extended data as group codes and values, beginning with the application's name.
    """
    kind, tags = _kind_and_tags(mark)
    handle = space.doc.entitydb.next_handle()
    head = [(0, kind), (5, handle), (330, space.layout_key), (100, "AcDbEntity"), (8, mark.pen.value)]
    flat = [tag for code, value in extended for tag in (_in_space(code, value) if code == _POINT else [(code, value)])]
    written = "".join(f"{code:3d}\n{value}\n" for code, value in (*head, *tags, *flat))
    # its own way in asks for an entity of its own
    space.entity_space.entities.append(_Written(kind, written))


class _Written:
    """What ezdxf asks of an entity when it writes a layout."""

    is_alive = True

    def __init__(self, kind: str, tags: str) -> None:
        self._kind, self._tags = kind, tags

    def dxftype(self) -> str:
        return self._kind

    def export_dxf(self, writer: Any) -> None:
        writer.write_str(self._tags)


Tags = list[tuple[int, Any]]


@singledispatch
def _kind_and_tags(mark: Plain) -> tuple[str, Tags]:
    raise TypeError(f"a {type(mark).__name__} is not a plain mark")


@_kind_and_tags.register
def _(line: Line) -> tuple[str, Tags]:
    return "LINE", [(100, "AcDbLine"), *_at(line.p), *_at(line.q, 11)]


@_kind_and_tags.register
def _(circle: Circle) -> tuple[str, Tags]:
    return "CIRCLE", _round(circle)


@_kind_and_tags.register
def _(arc: Arc) -> tuple[str, Tags]:
    return "ARC", [*_round(arc), (100, "AcDbArc"), (50, float(arc.start)), (51, float(arc.end))]


@_kind_and_tags.register
def _(line: Polyline) -> tuple[str, Tags]:
    bulges = line.bulges or (0.0,) * len(line.points)
    head = [(100, "AcDbPolyline"), (90, len(line.points)), (70, _CLOSED if line.closed else 0)]
    return "LWPOLYLINE", [*head, *_corners(zip(line.points, bulges, strict=True))]


@_kind_and_tags.register
def _(text: Text) -> tuple[str, Tags]:
    tags = [(100, "AcDbText"), *_at(anchor(text)), (40, float(text.height)), (1, text.text)]
    tags += [(50, float(text.angle))] if text.angle else []
    tags += [(7, text_style(text.bold))]
    tags += [(72, _ALIGNED[text.align])] if _ALIGNED[text.align] else []
    return "TEXT", [*tags, *_at(anchor(text), 11), (100, "AcDbText")]


def _round(mark: Circle | Arc) -> Tags:
    return [(100, "AcDbCircle"), *_at(mark.centre), (40, float(mark.radius))]


def _at(place: Point, code: int = 10) -> Tags:
    return _in_space(code, (*place, 0.0))


def _in_space(code: int, place: Iterable[float]) -> Tags:
    return [(code + 10 * n, float(c)) for n, c in enumerate(place)]


def _corners(corners: Iterable[tuple[Point, float]]) -> Tags:
    tags: Tags = []
    for (x, y), bulge in corners:
        tags += [(10, float(x)), (20, float(y))]
        tags += [(42, float(bulge))] if bulge else []
    return tags
