"""The sizes of work along an edge, as its section shows them: stations in (u, v), and the arcs of its outline."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch

from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeCut, EdgeGroove, Rabbet, Tongue
from model.cuts.moulding import Moulding, RaisedEdge
from model.layout.outline import Edge
from model.part import Part

UV = tuple[float, float]
_SAME = 1e-6


@dataclass(frozen=True)
class Size:
    """A wanted size of a section: from p to q in (u, v), shown on the face, back or edge side of it."""

    p: UV
    q: UV
    where: str


@singledispatch
def sizes(cut: Cut, part: Part) -> Iterator[Size]:
    """What must be given of a cut along an edge, in (u, v); for a kind not known here the reach of its sections."""
    if isinstance(cut, EdgeCut):
        for section in cut.sections(part.thickness):
            _, low, deep, high = section.bounds
            low, high = max(low, 0.0), min(high, part.thickness)
            top = high >= part.thickness - 1e-6
            yield Size((0.0, low if top else high), (deep, low if top else high), "face" if top else "back")
            yield Size((deep, low), (deep, high), "edge")


@sizes.register
def _(cut: Tongue, part: Part) -> Iterator[Size]:
    top = cut.rise + cut.thickness
    yield Size((0.0, top), (cut.length, top), "face")
    yield Size((cut.length, 0.0), (0.0, cut.rise), "edge")
    yield Size((0.0, cut.rise), (0.0, top), "edge")


@sizes.register
def _(cut: EdgeGroove, part: Part) -> Iterator[Size]:
    top = cut.rise + cut.width
    yield Size((0.0, part.thickness), (cut.depth, top), "face")
    yield Size((0.0, 0.0), (0.0, cut.rise), "edge")
    yield Size((0.0, cut.rise), (0.0, top), "edge")


@sizes.register
def _(cut: Rabbet, part: Part) -> Iterator[Size]:
    face = cut.side == "face"
    floor, open_to = (part.thickness - cut.depth, part.thickness) if face else (cut.depth, 0.0)
    yield Size((0.0, floor), (cut.width, open_to), cut.side)
    yield Size((0.0, floor), (cut.width, open_to), "edge")


@sizes.register
def _(cut: Bead, part: Part) -> Iterator[Size]:
    level = part.thickness if cut.side == "face" else 0.0
    deep = part.thickness - cut.radius if cut.side == "face" else cut.radius
    beyond = cut.inset + 2 * cut.radius
    yield Size((beyond, deep), (beyond + cut.quirk, level), cut.side)


@sizes.register(Moulding)
@sizes.register(RaisedEdge)
def _(cut: Moulding | RaisedEdge, part: Part) -> Iterator[Size]:
    """Every corner of the moulded line, in from the edge and down from the side."""
    level = part.thickness if cut.side == "face" else 0.0
    line = _moulded_line(cut, part.thickness)
    for corner in line:
        if corner[0] > _SAME:
            yield Size(line[-1], corner, cut.side)
    if isinstance(cut, RaisedEdge):  # what goes into the groove is told itself
        yield Size(line[-1], (0.0, part.thickness - level), "edge")
        line = line[:1]
    for corner in line:
        if abs(corner[1] - level) > _SAME:
            yield Size((line[0][0], level), corner, "edge")


def _moulded_line(cut: Moulding | RaisedEdge, thickness: float) -> list[UV]:
    """The corners of the line that a moulding leaves, from the moulded side to the edge."""
    (section,) = cut.sections(thickness)
    line = [(max(u, 0.0), v) for u, v in section.corners if u > -_SAME and -_SAME <= v <= thickness + _SAME]
    foot = min(line, key=lambda p: p[0])
    if foot[0] > _SAME:  # a tongue left parallel runs straight on to the edge
        line.append((0.0, foot[1]))
    return sorted(line, reverse=True)


@sizes.register
def _(cut: Bevel, part: Part) -> Iterator[Size]:
    yield from ()


@sizes.register(Ease)
@sizes.register(Chamfer)
def _(cut: EdgeCut, part: Part) -> Iterator[Size]:
    yield from ()


@dataclass(frozen=True)
class Arc:
    """An arc of a section: its centre and radius in (u, v), mm, and some points of it to show the radius at."""

    centre: UV
    radius: float
    points: tuple[UV, ...]


def arcs(cut: Cut, thickness: float) -> Iterator[Arc]:
    """The arcs that work along an edge leaves in its section."""
    if isinstance(cut, Bead):
        v = thickness - cut.radius if cut.side == "face" else cut.radius
        up = math.copysign(1.0, v - thickness / 2.0)
        centre = (cut.inset + cut.radius, v)
        turns = [math.radians(up * a) for a in (60.0, 75.0, 45.0, 30.0)]
        points = tuple((centre[0] + cut.radius * math.cos(a), v + cut.radius * math.sin(a)) for a in turns)
        yield Arc(centre, cut.radius, points)
    elif isinstance(cut, Moulding | RaisedEdge):
        for section in cut.sections(thickness):
            yield from (_arc(e) for e in section.edges if not e.straight)


def _arc(e: Edge) -> Arc:
    return Arc(e.centre, e.radius, tuple(e.point(t) for t in (0.5, 0.35, 0.65, 0.2, 0.8)))
