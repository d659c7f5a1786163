"""The section of a cut as the work lies at the machine: on the table, against the fence. Millimetres.

x runs from the fence's face to the right, y up from the table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from drawings.lists.setups import Setting
from model.cuts.cut import Cut
from model.cuts.edges import EdgeCut
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore
from model.cuts.mortises import Mortise
from model.layout.outline import Outline
from model.part import Part
from model.piece import Piece

Point = tuple[float, float]

#: Wood shown beyond a cut, and the most shown between fence and cut, before it is broken off.
_BEYOND, _MOST = 12.0, 20.0
_SAGITTA = 0.05

#: Cuts that are a trench or a hole straight down, of which width and depth say all.
_SUNK = (Channel, Bore, Counterbore, BiscuitSlot, Mortise)


@dataclass(frozen=True)
class Span:
    """A figure of the card, by its letter, shown from p to q, `level` or upright, on a side of the section."""

    letter: str
    p: Point
    q: Point
    side: Literal["above", "below", "left", "right"]


@dataclass(frozen=True)
class Posed:
    """The wood as rings of points, what rides a fence at x = 0 or lies open, and what the figures mean.

    broken: where wood is left out between fence and cut, x; shortened: whether the cut is drawn less deep than it is;
    cutter: from where to where it comes through the table.
    """

    rings: tuple[tuple[Point, ...], ...]
    width: float
    height: float
    spans: tuple[Span, ...]
    fence: bool
    broken: float | None = None
    shortened: bool = False
    cutter: tuple[float, float] | None = None


def posed(setting: Setting, cut: Cut, part: Part) -> Posed | None:
    """How the work lies for a setting, with one of the cuts it is for; None for what a section doesn't show."""
    if isinstance(cut, EdgeCut):
        standing = setting.against == "back side"
        return _standing(setting, cut, part) if standing else _on_its_side(setting, cut, part)
    if setting.width is None or setting.depth is None or not isinstance(cut, _SUNK):
        return None
    if setting.angle is not None and not isinstance(cut, Channel):
        return None  # no section square to the work shows how it leans
    if setting.against.startswith("back side"):
        return _into_edge(setting, part) if "slot" in setting.cut else _into_raised_edge(setting, part)
    return _trench(setting, part)


def example(piece: Piece, setting: Setting, names: Sequence[str]) -> tuple[Cut, Part] | None:
    """One of the cuts that a setting makes, and its part: the one whose sizes come nearest."""
    found = [(c, piece[n].wood) for n in names for c in piece[n].wood.cuts if _may_be(c, setting)]
    return min(found, key=lambda pair: _unlike(pair[0], setting), default=None)


def _may_be(cut: Cut, setting: Setting) -> bool:
    also = {"hole": "bore", "clearance hole": "counterbore"}.get(setting.cut, setting.cut)
    return also.startswith(cut.name)


def _unlike(cut: Cut, setting: Setting) -> float:
    sizes = [v for v in vars(cut).values() if isinstance(v, float)]
    wanted = [v for v in (setting.width, setting.depth, setting.angle, setting.fence) if v is not None]
    off = [min((abs(v - size) for size in sizes), default=0.0) for v in wanted]
    side = getattr(cut, "edge", "")
    return sum(off) + (0.01 if side and side not in setting.place else 0.0)


def _trench(setting: Setting, part: Part) -> Posed:
    """Down into a side: on the saw or the router table cut side down, where no fence sets it from above."""
    width, depth, off = _set(setting)
    thick, deep, fence = part.thickness, min(depth, part.thickness), setting.fence is not None
    start = min(off, _MOST) if fence else _BEYOND
    end = start + width
    floor, mouth = (deep, 0.0) if fence else (thick - deep, thick)
    void = ((start, min(floor, mouth)), (end, min(floor, mouth)), (end, max(floor, mouth)), (start, max(floor, mouth)))
    rings = _less(_box(0.0, 0.0, end + _BEYOND, thick), [void])
    spans = [
        Span("W", (start, mouth), (end, mouth), "below" if fence else "above"),
        Span("D", (end, floor), (end, mouth), "right"),
    ]
    if off:
        spans.append(Span("F", (0.0, thick), (start, thick), "above"))
    broken = start / 2.0 if off > _MOST else None
    return Posed(rings, end + _BEYOND, thick, tuple(spans), fence, broken, cutter=(start, end) if fence else None)


def _into_edge(setting: Setting, part: Part) -> Posed:
    """Into an edge of work lying on its back side; the fence's figure is its height to the middle of the cut."""
    width, depth, middle = _set(setting)
    low, high = middle - width / 2.0, middle + width / 2.0
    shown = min(depth, 2.0 * _MOST)
    reach = shown + _BEYOND
    void = ((-1.0, low), (shown, low), (shown, high), (-1.0, high))
    spans = (
        Span("D", (0.0, high), (shown, high), "above"),
        Span("W", (shown, low), (shown, high), "right"),
        Span("F", (0.0, 0.0), (0.0, middle), "left"),
    )
    return Posed(_less(_box(0.0, 0.0, reach, part.thickness), [void]), reach, part.thickness, spans, False)


def _into_raised_edge(setting: Setting, part: Part) -> Posed:
    """Into an edge of work that stands on the other one, its back side at the fence."""
    width, depth, middle = _set(setting)
    low, high = middle - width / 2.0, middle + width / 2.0
    shown = min(depth, 1.5 * _MOST)
    height = shown + _BEYOND
    void = ((low, height - shown), (high, height - shown), (high, height + 1.0), (low, height + 1.0))
    spans = (
        Span("W", (low, height), (high, height), "above"),
        Span("D", (high, height - shown), (high, height), "right"),
        Span("F", (0.0, 0.0), (middle, 0.0), "below"),
    )
    rings = _less(_box(0.0, 0.0, part.thickness, height), [void])
    return Posed(rings, part.thickness, height, spans, True, shortened=shown < depth)


def _on_its_side(setting: Setting, cut: EdgeCut, part: Part) -> Posed:
    """Along an edge, the worked side down, the edge at the fence."""
    thick = part.thickness
    down = getattr(cut, "side", "back")
    voids = [_turned(s, thick, flipped=down == "face") for s in cut.sections(thick)]
    reach = _reach(cut, thick) + _BEYOND
    rings = _less(_box(0.0, 0.0, reach, thick), voids)
    spans = []
    if setting.width and setting.depth:
        start = setting.fence or 0.0
        spans = [
            Span("W", (start, 0.0), (start + setting.width, 0.0), "below"),
            Span("D", (start + setting.width, 0.0), (start + setting.width, setting.depth), "right"),
        ]
        if setting.fence:
            spans.append(Span("F", (0.0, thick), (start, thick), "above"))
    return Posed(rings, reach, thick, tuple(spans), bool(setting.against))


def _standing(setting: Setting, cut: EdgeCut, part: Part) -> Posed:
    """Along an edge, standing on it, the back side at the fence."""
    width, depth, low = _set(setting)
    thick, reach = part.thickness, _reach(cut, part.thickness) + _BEYOND
    voids = [[(v, u) for u, v in s.points(_SAGITTA)] for s in cut.sections(thick)]
    rings = _less(_box(0.0, 0.0, thick, reach), voids)
    spans = (
        Span("W", (low, 0.0), (low + width, 0.0), "below"),
        Span("D", (thick, 0.0), (thick, depth), "right"),
        Span("F", (0.0, reach), (low, reach), "above"),
    )
    return Posed(rings, thick, reach, spans, True)


def _set(setting: Setting) -> tuple[float, float, float]:
    """Width, depth and fence, 0 for what is not set."""
    return setting.width or 0.0, setting.depth or 0.0, setting.fence or 0.0


def _reach(cut: EdgeCut, thick: float) -> float:
    return max(u for s in cut.sections(thick) for u, v in s.points(_SAGITTA) if -1e-6 <= v <= thick + 1e-6)


def _turned(section: Outline, thick: float, flipped: bool) -> list[Point]:
    return [(u, thick - v if flipped else v) for u, v in section.points(_SAGITTA)]


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _less(wood: Sequence[Point], voids: Sequence[Sequence[Point]]) -> tuple[tuple[Point, ...], ...]:
    """The wood without the voids, as rings."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    left = Polygon(wood).difference(unary_union([Polygon(v) for v in voids]))
    pieces = [p for p in getattr(left, "geoms", [left]) if p.area > 0.01]
    return tuple(tuple((float(x), float(y)) for x, y in p.exterior.coords[:-1]) for p in pieces)
