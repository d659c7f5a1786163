"""A sheet as DXF: model space in paper millimetres, real DIMENSION, HATCH and TEXT entities.

Each dimension carries the block of lines that the SVG and the PDF show too, and a dimension style with the same
sizes and the scale's length factor, so that a CAD program that regenerates it measures the true length.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from functools import singledispatch
from pathlib import Path
from typing import Any

from drawings.paper import strokes as sizes
from drawings.paper.arcs import polar
from drawings.paper.lettering import FONT_FILES, text_corners
from drawings.paper.measured import Meant, Measured, meanings
from drawings.paper.saying import Meaning, Says, meanings_of
from drawings.paper.sheet import (
    AngularDimension,
    Arc,
    Circle,
    Dimension,
    Entity,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    OrdinateDimension,
    Pen,
    Polyline,
    RadiusDimension,
    Sheet,
    Text,
)
from drawings.players.dxf_plain import Plain, add_plain, text_style

#: $INSUNITS: millimetres. ACI 7: black on white, white on black.
_MILLIMETRES, _BLACK = 4, 7
FILL_LAYER = "fill"

_LINEAR, _DIAMETER, _RADIUS, _ANGULAR, _ORDINATE = 0, 3, 4, 5, 6
_OWN_BLOCK, _ALONG_X, _TEXT_PLACED = 32, 64, 128

#: Under this name an entity carries what its number measures, and a text what each of its numbers says.
APPLICATION, SAYS = "DRYFIT", "DRYFIT-SAYS"


def write_dxf(sheet: Sheet, path: Path) -> None:
    """Write the sheet to `path` as DXF R2010; the same sheet gives the same bytes."""
    with fixed_metadata():
        doc = new_document()
        _set_up(doc, sheet)
        for entity in sheet.entities:
            _draw(entity, doc.modelspace())
        _lay_out(doc, sheet)
        doc.saveas(path)


def new_document(release: str = "R2010") -> Any:
    """An empty document in millimetres.

    Its classes are asked for in order: ezdxf takes some of them from a set, whose order is another in every process.
    """
    import ezdxf
    from ezdxf.sections.classes import REQ_R2000

    doc = ezdxf.new(release, units=_MILLIMETRES)
    for name in REQ_R2000:
        doc.classes.add_class(name)
    return doc


@contextmanager
def fixed_metadata() -> Iterator[None]:
    """Within it ezdxf writes fixed dates and identifiers instead of the clock's."""
    from ezdxf import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _set_up(doc: Any, sheet: Sheet) -> None:
    doc.header["$MEASUREMENT"] = 1
    doc.header["$LWDISPLAY"] = 1
    doc.header["$LTSCALE"] = 1.0
    for pen in Pen:
        _add_pen(doc, pen)
    doc.layers.add(FILL_LAYER, color=_BLACK)
    doc.appids.add(APPLICATION)
    doc.appids.add(SAYS)
    for bold, file in FONT_FILES.items():
        doc.styles.add(text_style(bold), font=file)


def _add_pen(doc: Any, pen: Pen) -> None:
    linetype = "Continuous"
    if pen.dashes:
        linetype = pen.value
        signed = [length * (-1) ** n for n, length in enumerate(pen.dashes)]
        doc.linetypes.add(linetype, [sum(pen.dashes), *signed], description=f"{pen.value}, ISO 128")
    doc.layers.add(pen.value, color=_BLACK, linetype=linetype, lineweight=round(pen.width * 100))


def _lay_out(doc: Any, sheet: Sheet) -> None:
    """The paper itself as a layout at 1:1, and the opening view on the whole sheet."""
    width, height = sheet.paper.width, sheet.paper.height
    middle = (width / 2, height / 2)
    doc.set_modelspace_vport(height * 1.05, middle)
    # ezdxf passes a model space's extents on only when neither corner is the origin
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = (0, 0, 0), (width, height, 0)
    doc.modelspace().reset_extents((0, 0, 0), (width, height, 0))
    doc.modelspace().reset_limits((0, 0), (width, height))
    layout = doc.layout("Layout1")
    layout.page_setup(size=(width, height), margins=(0, 0, 0, 0), units="mm")
    layout.add_viewport(middle, (width, height), middle, height)


def _on(pen: Pen) -> dict[str, Any]:
    return {"layer": pen.value}


@singledispatch
def _draw(entity: Entity, space: Any) -> None:
    raise TypeError(f"a sheet has no {type(entity).__name__}")


@_draw.register(Line)
@_draw.register(Arc)
@_draw.register(Circle)
@_draw.register(Polyline)
def _(mark: Plain, space: Any) -> None:
    add_plain(mark, space)


@_draw.register
def _(text: Text, space: Any) -> None:
    add_plain(text, space, [*_extended(text.measured), *_said(text.text)])


@_draw.register
def _(fill: Fill, space: Any) -> None:
    black = fill.colour == "#000000"
    outline = fill.outlines[0]
    if black and len(fill.outlines) == 1 and len(outline.points) == 3 and not outline.bulges:
        space.add_solid(outline.points, _on(Pen.DIMENSION))
        return
    hatch = space.add_hatch(color=_BLACK, dxfattribs={"layer": FILL_LAYER, "hatch_style": 0})
    if not black:
        hatch.rgb = tuple(bytes.fromhex(fill.colour.removeprefix("#")))
    _bound(hatch, fill.outlines)


@_draw.register
def _(hatch: Hatch, space: Any) -> None:
    mark = space.add_hatch(color=_BLACK, dxfattribs=_on(hatch.pen))
    turn = math.radians(hatch.angle)
    offset = (-math.sin(turn) * hatch.spacing, math.cos(turn) * hatch.spacing)
    lines = [[hatch.angle, (0, 0), offset, []]]
    mark.set_pattern_fill("LINES", color=_BLACK, pattern_type=0, style=0, definition=lines)
    _bound(mark, hatch.outlines)


@_draw.register
def _(leader: Leader, space: Any) -> None:
    for mark in sizes.strokes(leader):
        _draw(mark, space)


@_draw.register(LinearDimension)
@_draw.register(RadiusDimension)
@_draw.register(AngularDimension)
@_draw.register(OrdinateDimension)
def _(dimension: Dimension, space: Any) -> None:
    doc = space.doc
    block = doc.blocks.new_anonymous_block(type_char="D")
    for mark in sizes.dimension_strokes(dimension):
        _draw(mark, block)
    lower_left, _, upper_right, _ = text_corners(sizes.dimension_text_of(dimension))
    attribs = {
        **_on(Pen.DIMENSION),
        "geometry": block.name,
        "dimstyle": _dimstyle(doc, dimension),
        "text": dimension.text,
        "text_midpoint": ((lower_left[0] + upper_right[0]) / 2, (lower_left[1] + upper_right[1]) / 2),
        **_measured(dimension),
    }
    attribs["dimtype"] |= _OWN_BLOCK | _TEXT_PLACED
    mark = space.new_entity("DIMENSION", attribs)
    if told := _extended(dimension.measured):
        mark.set_xdata(APPLICATION, told[1:])


def _extended(meant: Meant) -> list[tuple[int, Any]]:
    """What a number measures, as extended data of ours: one meaning after the other."""
    tags = [tag for measured in meanings(meant) for tag in _tags(measured)]
    return [(1001, APPLICATION), *tags] if tags else []


def _said(text: str) -> list[tuple[int, Any]]:
    """What each number of a text says, in braces, as extended data of ours; none where no number says anything."""
    said = meanings_of(text)
    if not any(said):
        return []
    return [(1001, SAYS), *(tag for meaning in said for tag in ((1002, "{"), *_says_tags(meaning), (1002, "}")))]


def _says_tags(meaning: Meaning) -> list[tuple[int, Any]]:
    """All that it measures, or its topic and what it is said of."""
    if isinstance(meaning, Says):
        return [(1000, meaning.topic), *((1000, of) for of in meaning.of)]
    return [tag for measured in meaning or () for tag in _tags(measured)]


def _tags(measured: Measured) -> list[tuple[int, Any]]:
    """Kind, directions and points of the view, and the parts by name."""
    shown = measured.shown
    flat = [(*point, 0.0) for point in (measured.p, measured.q, measured.along)]
    tags: list[tuple[int, Any]] = [(1000, measured.kind), *((1010, point) for point in (shown.right, shown.up, *flat))]
    tags += [] if shown.at is None else [(1040, shown.at)]
    tags += [(1041, measured.within)] if measured.within else []
    return [*tags, *((1000, name) for name in shown.subjects)]


def _measured(dimension: Dimension) -> dict[str, Any]:
    """The type, the measured points and the true measure of a DIMENSION entity."""
    if isinstance(dimension, LinearDimension):
        points = {"defpoint": dimension.line, "defpoint2": dimension.p, "defpoint3": dimension.q}
        measure = {"actual_measurement": dimension.value_mm, "angle": dimension.angle}
        return {"dimtype": _LINEAR, **measure, **points}
    if isinstance(dimension, RadiusDimension):
        on_arc = polar(dimension.centre, dimension.radius, dimension.angle)
        across = polar(dimension.centre, -dimension.radius, dimension.angle)
        points = {"defpoint": across if dimension.diameter else dimension.centre, "defpoint4": on_arc}
        dimtype = _DIAMETER if dimension.diameter else _RADIUS
        return {"dimtype": dimtype, "actual_measurement": dimension.value_mm, **points}
    if isinstance(dimension, OrdinateDimension):
        points = {"defpoint": dimension.origin, "defpoint2": dimension.p, "defpoint3": dimension.end}
        dimtype = _ORDINATE | (_ALONG_X if dimension.axis == "x" else 0)
        return {"dimtype": dimtype, "actual_measurement": dimension.value_mm, **points}
    return {
        "dimtype": _ANGULAR,
        "actual_measurement": math.radians(dimension.value_deg),
        "defpoint": polar(dimension.centre, dimension.radius, dimension.start + dimension.value_deg / 2),
        "defpoint2": polar(dimension.centre, max(dimension.inner, 1.0), dimension.start),
        "defpoint3": polar(dimension.centre, max(dimension.inner, 1.0), dimension.end),
        "defpoint4": dimension.centre,
    }


def _dimstyle(doc: Any, dimension: Dimension) -> str:
    """The name of the dimension style for this scale and lettering height, added when it is first asked for."""
    factor = 1.0 if isinstance(dimension, AngularDimension) else 1 / dimension.scale
    name = f"shop {factor:.6g} to 1, {dimension.height:g} mm"
    if name not in doc.dimstyles:
        style = doc.dimstyles.new(name)
        style.dxf.update(
            {
                "dimlfac": factor,
                "dimscale": 1.0,
                "dimtxt": dimension.height,
                "dimtxsty": text_style(False),
                "dimasz": sizes.ARROW_LENGTH * dimension.enlarged,
                "dimexo": sizes.EXTENSION_GAP * dimension.enlarged,
                "dimexe": sizes.EXTENSION_OVERRUN * dimension.enlarged,
                "dimgap": sizes.TEXT_GAP * dimension.enlarged,
                "dimtad": 1,
                "dimtih": 0,
                "dimtoh": 0,
            }
        )
    return name


def _bound(hatch: Any, outlines: tuple[Polyline, ...]) -> None:
    for outline in outlines:
        hatch.paths.add_polyline_path(_vertices(outline), is_closed=True)


def _vertices(line: Polyline) -> list[tuple[float, float, float]]:
    bulges = line.bulges or (0.0,) * len(line.points)
    return [(x, y, bulge) for (x, y), bulge in zip(line.points, bulges, strict=True)]
