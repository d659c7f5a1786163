"""Marks set down somewhere else on the paper, or larger."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from drawings.paper.sheet import (
    AngularDimension,
    Arc,
    Circle,
    Entity,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    OrdinateDimension,
    Point,
    Polyline,
    RadiusDimension,
    Text,
)

#: What holds a place on the paper: single points, and rows of points.
_POINTS: dict[type, tuple[str, ...]] = {
    Line: ("p", "q"),
    Arc: ("centre",),
    Circle: ("centre",),
    Text: ("at",),
    LinearDimension: ("p", "q", "line"),
    RadiusDimension: ("centre",),
    AngularDimension: ("centre",),
    OrdinateDimension: ("p", "origin", "end"),
}
_ROWS: dict[type, str] = {Polyline: "points", Leader: "points"}
#: What is a length on the paper, or goes with it.
_LENGTHS: dict[type, tuple[str, ...]] = {
    Arc: ("radius",),
    Circle: ("radius",),
    Text: ("height",),
    Hatch: ("spacing",),
    LinearDimension: ("scale", "height", "enlarged"),
    RadiusDimension: ("radius", "scale", "reach", "height", "enlarged"),
    AngularDimension: ("radius", "inner", "height", "enlarged"),
    OrdinateDimension: ("scale", "height", "enlarged"),
    Leader: ("height", "enlarged"),
}


def moved(entity: Entity, dx: float, dy: float) -> Entity:
    """The same mark, (dx, dy) mm further; what it measures stays."""
    return _carried(entity, lambda p: (p[0] + dx, p[1] + dy))


def enlarged(entity: Entity, by: float) -> Entity:
    """The same mark so many times as large, as seen from the paper's origin: lettering, arrowheads, hatching and the
    scale of a dimension too; line widths and what it measures stay."""
    larger = _carried(entity, lambda p: (p[0] * by, p[1] * by))
    return _with(larger, **{name: getattr(entity, name) * by for name in _LENGTHS.get(type(entity), ())})


def _carried(entity: Entity, onto: Callable[[Point], Point]) -> Entity:
    """The mark with each of its points where another comes."""
    if isinstance(entity, Fill | Hatch):
        outlines = tuple(replace(line, points=tuple(map(onto, line.points))) for line in entity.outlines)
        return replace(entity, outlines=outlines)
    if type(entity) in _ROWS:
        return _with(entity, points=tuple(map(onto, getattr(entity, _ROWS[type(entity)]))))
    return _with(entity, **{name: onto(getattr(entity, name)) for name in _POINTS[type(entity)]})


def _with(entity: Any, **changes: Any) -> Entity:
    changed: Entity = replace(entity, **changes)
    return changed
