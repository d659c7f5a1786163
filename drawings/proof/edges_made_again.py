"""Work along an edge made again: with the sizes that its section prints, between the stations of its ends."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import Any

from drawings.paper.measured import Kind
from drawings.proof.maker import Maker, bulge_of
from model.cuts.edges import EdgeCut
from model.cuts.moulding import Moulding, RaisedEdge
from model.layout.outline import Outline

_THERE = 1e-3


def edge_work(cut: EdgeCut, maker: Maker) -> EdgeCut:
    """Any kind that its fields say all of."""
    sizes = {f.name: getattr(cut, f.name) for f in fields(cut)}
    printed: dict[str, Any] = {n: _edge_size(n, v, maker) for n, v in sizes.items() if isinstance(v, float) and v}
    return replace(cut, **printed | _stops(cut, maker))


def _edge_size(name: str, value: float, maker: Maker) -> float:
    kinds: dict[str, Kind] = {"radius": "radius", "angle": "angle"}
    return value if name in ("start", "stop") else maker.numbers.size(value, kinds.get(name, "length"))


def _stops(cut: EdgeCut, maker: Maker) -> dict[str, Any]:
    """Where a cut along a straight edge starts and stops short of its ends."""
    found = {}
    for name in ("start", "stop"):
        station = getattr(cut, name)
        if station is not None:
            edge = maker.part.outline.named(cut.edge)[0]
            p, (dx, dy) = edge.point(station / edge.length), edge.direction(0.0)
            k = 0 if abs(dx) > abs(dy) else 1
            found[name] = abs(maker.numbers.place(k, p[k]) - maker.numbers.place(k, edge.start[k]))
    return found


def moulding(cut: Moulding, maker: Maker) -> Moulding:
    """Its line from corner to corner, down from the side and in from the edge."""
    section = cut.section
    stations = [sorted({max(p[k], 0.0) for p in section.corners}) for k in (0, 1)]
    printed = [_told(values, maker) for values in stations]
    corners = tuple((printed[0][u] if u > 0.0 else u, printed[1][v] if v > 0.0 else v) for u, v in section.corners)
    ends = corners[1:] + corners[:1]
    bulges = tuple(
        0.0 if e.straight else bulge_of(maker.numbers.size(e.radius, "radius"), p, q, e.bulge)
        for e, p, q in zip(section.edges, corners, ends, strict=True)
    )
    return replace(cut, section=Outline(corners, bulges, section.names), **_stops(cut, maker))


def _told(values: list[float], maker: Maker) -> dict[float, float]:
    """Stations by their printed distances from the edge, or from the side."""
    return {value: maker.numbers.size(value, "length") for value in values if value > 0.0}


def raised_edge(cut: RaisedEdge, maker: Maker) -> RaisedEdge:
    """Flat, tongue and step as told, the slope to what is left between them."""
    thick, say = maker.part.thickness, maker.numbers.size
    flat = say(cut.flat, "length") if cut.flat else 0.0
    width, tongue = say(cut.width, "length"), say(cut.tongue, "length")
    made = replace(cut, width=width, flat=flat, tongue=tongue, **_stops(cut, maker))
    if cut.cove:
        return replace(made, cove=say(cut.cove, "radius"))
    shoulder = cut.shoulder(thick)
    step = say(shoulder, "length") if shoulder > _THERE else 0.0
    rise = maker.z(thick) - tongue - step
    return replace(made, angle=math.degrees(math.atan2(rise, width - flat)))
