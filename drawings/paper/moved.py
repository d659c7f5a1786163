"""Marks set down somewhere else on the paper."""

from __future__ import annotations

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


def moved(entity: Entity, dx: float, dy: float) -> Entity:
    """The same mark, (dx, dy) mm further; what it measures stays."""
    if isinstance(entity, Fill | Hatch):
        outlines = tuple(_line(outline, dx, dy) for outline in entity.outlines)
        return replace(entity, outlines=outlines)
    if type(entity) in _ROWS:
        row = getattr(entity, _ROWS[type(entity)])
        return _with(entity, points=tuple((x + dx, y + dy) for x, y in row))
    places = {name: getattr(entity, name) for name in _POINTS[type(entity)]}
    return _with(entity, **{name: (x + dx, y + dy) for name, (x, y) in places.items()})


def _line(line: Polyline, dx: float, dy: float) -> Polyline:
    return replace(line, points=tuple((x + dx, y + dy) for x, y in line.points))


def _with(entity: Any, **changes: Any) -> Entity:
    changed: Entity = replace(entity, **changes)
    return changed
