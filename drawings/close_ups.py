"""Pictures of the places that findings are about: the parts lit, their neighbours faded, the spot ringed."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from drawings.views.curves import PICTORIAL, CircularArc, Curve, Segment, ViewSpec
from model.checks.finding import Finding
from model.placement import Vector

#: Most pictures in one report; the gravest findings come first.
MOST = 12

#: How far round the place a picture shows, mm.
AROUND = 150.0

_LIT, _FADED, _RING = "#1f4e79", "#b9b2a8", "#b3261e"


def close_ups(findings: Sequence[Finding], shapes: Mapping[str, Any]) -> dict[int, str]:
    """An SVG picture for each fault and caution that says where it is, by its number; the first `MOST` of them.

    shapes: every part's solid where it stands. Loads the CAD kernel.
    """
    grave = [(n, f) for n, f in enumerate(findings) if f.severity != "note" and f.where is not None]
    placed = [(n, f) for n, f in grave if all(part in shapes for part in f.parts)]
    return {n: _picture(f, shapes) for n, f in placed[:MOST]}


def _picture(finding: Finding, shapes: Mapping[str, Any]) -> str:
    from drawings.views.project import project_views

    assert finding.where is not None
    lit = [shapes[name] for name in finding.parts]
    near = [s for name, s in shapes.items() if name not in finding.parts and _near(s, finding.where)]
    spec = PICTORIAL
    seen = project_views(lit, [spec], {spec.name})[spec.name]
    strokes = [_stroke(seen.hidden, _LIT, 0.5, dashed=True), _stroke(seen.visible, _LIT, 1.4)]
    if near:
        strokes.insert(0, _stroke(project_views([*near, *lit], [spec])[spec.name].visible, _FADED, 0.8))
    return _framed(strokes, spec, finding.where)


def _near(shape: Any, where: Vector) -> bool:
    box = shape.BoundingBox()
    lows, highs = (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)
    return all(lows[i] - AROUND < where[i] < highs[i] + AROUND for i in range(3))


def _framed(strokes: Sequence[str], spec: ViewSpec, where: Vector) -> str:
    x, y = spec.project(where)
    left, top, size = x - AROUND, -y - AROUND * 0.7, 2.0 * AROUND
    ring = f'<circle cx="{x:.2f}" cy="{-y:.2f}" r="14" fill="none" stroke="{_RING}" stroke-width="2"/>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left:.1f} {top:.1f} {size:.1f} {size * 0.7:.1f}" '
        f'role="img" aria-label="the place, ringed">{"".join(strokes)}{ring}</svg>'
    )


def _stroke(curves: Sequence[Curve], colour: str, width: float, *, dashed: bool = False) -> str:
    path = " ".join(_path(curve) for curve in curves)
    dashes = ' stroke-dasharray="5 3"' if dashed else ""
    return f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width}"{dashes} stroke-linecap="round"/>'


def _path(curve: Curve) -> str:
    points: Sequence[tuple[float, float]]
    if isinstance(curve, Segment):
        points = (curve.p, curve.q)
    elif isinstance(curve, CircularArc):
        count = max(2, math.ceil((curve.end_deg - curve.start_deg) / 10.0))
        step = (curve.end_deg - curve.start_deg) / count
        points = [curve.at(curve.start_deg + n * step) for n in range(count + 1)]
    else:
        points = curve.points
    return "M" + "L".join(f"{x:.2f} {-y:.2f}" for x, y in points)
