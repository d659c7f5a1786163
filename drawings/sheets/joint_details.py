"""Joint details: for each kind of joint one section across it, large, with its cuts in words."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drawings.lists.cut_words import cuts_in_words
from drawings.paper.lettering import LINE_PITCH, fitted, paragraph, wrapped
from drawings.paper.page import paper
from drawings.paper.scales import scale_text
from drawings.paper.sheet import Entity, Text, ViewPort
from drawings.sheets.hatched import Ring, hatched
from drawings.sheets.leaves import Leaf
from drawings.sheets.packing import packed
from drawings.sheets.principal import Lengths
from drawings.views.curves import Vector, ViewSpec
from model.joints.joint import Joint
from model.order import Order
from model.piece import Piece
from model.placement import added, cross, dot, scaled, unit

if TYPE_CHECKING:
    import cadquery as cq

TITLE = "Joint details"
#: What of a joint is shown, from its middle each way, mm of the piece, and the scales it may be drawn at.
_AROUND = 42.0
_SCALE = 1.0
#: Lettering, and the room of one detail, mm.
_NAME, _WORDS, _WIDTH = 3.5, 2.5, 2.0 * _AROUND * _SCALE + 4.0
_HEADED = 3.5 * _NAME


@dataclass(frozen=True)
class Detail:
    """A joint that stands for all of its kind, and the faces of its two parts in the section, about its middle, mm."""

    joint: Joint
    alike: int
    faces: Mapping[str, Sequence[Sequence[Ring]]]


def detail_leaves(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Leaf]:
    """The details on as many sheets as they take; none for a piece without joints that are cut. Loads the kernel."""
    page, form = paper(order.drawing.paper), Lengths(order.units, order.drawing.denominator)
    waiting = details(piece, shapes)
    pages: list[tuple[Entity, ...]] = []
    while waiting:
        corners = packed([(_WIDTH, _height(d, piece, form)) for d in waiting], page, 8.0) or [page.frame[:2]]
        marks: list[Entity] = []
        for detail, corner in zip(waiting, corners, strict=False):
            marks += _marks(detail, piece, form, corner)
        waiting = waiting[len(corners) :]
        pages.append(tuple(marks))
    return [Leaf("details", TITLE, marks, scale_text(_SCALE, order.units)) for marks in pages]


def details(piece: Piece, shapes: Mapping[str, cq.Shape]) -> list[Detail]:
    """One for each kind of joint that has cuts and a place, the first of the kind. Loads the CAD kernel."""
    kinds: dict[str, list[Joint]] = {}
    for joint in piece.joints:
        if joint.contacts and (joint.first_cuts or joint.second_cuts):
            kinds.setdefault(joint.kind, []).append(joint)
    found = (_detail(joints[0], len(joints), shapes) for joints in kinds.values())
    return [d for d in found if len(d.faces) == 2]


def _detail(joint: Joint, alike: int, shapes: Mapping[str, cq.Shape]) -> Detail:
    from drawings.views.section import cut_faces

    middle, spec = _across(joint)
    cut = cut_faces({n: shapes[n] for n in (joint.first, joint.second)}, spec, dot(middle, spec.direction))
    centre = spec.project(middle)
    faces: dict[str, list[list[Ring]]] = {}
    for name, found in cut.items():
        kept = [ring for face in found for ring in _window([loop.points for loop in face], centre)]
        if kept:
            faces[name] = kept
    return Detail(joint, alike, faces)


def _across(joint: Joint) -> tuple[Vector, ViewSpec]:
    """A place of a joint, and a view along its run there: the way its contact is longest, square to how it closes.

    Where hardware holds it, the section goes through the first of that, across it if it lies along the joint.
    """
    points = [p for c in joint.contacts for p in c.points]
    held = joint.hardware[0] if joint.hardware else None
    middle = held.at if held else scaled(_sum(points), 1.0 / len(points))
    along = held is not None and abs(dot(held.direction, joint.closes)) < 0.1
    eye = held.direction if held and along else _run(points, joint.closes)
    eye = min((eye, scaled(eye, -1.0)), key=lambda v: (round(v[1], 3), -round(v[0], 3), -round(v[2], 3)))
    place = min(points, key=lambda p: math.dist(p, middle))
    place = added(place, scaled(eye, dot(middle, eye) - dot(place, eye)))
    return place, ViewSpec("detail", eye, _right(eye))


def _run(points: Sequence[Vector], closes: Vector) -> Vector:
    first, last = max(((p, q) for p in points for q in points), key=lambda pair: math.dist(*pair))
    run = added(last, scaled(first, -1.0))
    run = added(run, scaled(closes, -dot(run, closes)))
    if math.hypot(*run) < 1.0:
        run = cross(closes, (0.0, 0.0, 1.0) if abs(closes[2]) < 0.9 else (1.0, 0.0, 0.0))
    return unit(run)


def _right(eye: Vector) -> Vector:
    if abs(eye[2]) > 0.99:
        return (1.0, 0.0, 0.0)
    return unit(cross((0.0, 0.0, 1.0), eye))


def _sum(points: Sequence[Vector]) -> Vector:
    xs, ys, zs = zip(*points, strict=True)
    return sum(xs), sum(ys), sum(zs)


def _window(face: Sequence[Sequence[tuple[float, float]]], centre: tuple[float, float]) -> list[list[Ring]]:
    """What of a face lies in the window about the middle, and with that as its origin."""
    from shapely.affinity import translate
    from shapely.geometry import Polygon, box

    area = translate(Polygon(face[0], face[1:]).buffer(0.0), -centre[0], -centre[1])
    shown = area.intersection(box(-_AROUND, -_AROUND * 0.8, _AROUND, _AROUND * 0.8))
    pieces = [p for p in getattr(shown, "geoms", [shown]) if p.area > 0.5]
    return [[(tuple(ring.coords[:-1]), ()) for ring in (p.exterior, *p.interiors)] for p in pieces]


def _said(detail: Detail, piece: Piece, form: Lengths) -> list[str]:
    """The joint's parts and their cuts in words."""
    joint = detail.joint
    said = []
    for name, cuts in ((joint.first, joint.first_cuts), (joint.second, joint.second_cuts)):
        words = cuts_in_words(cuts, piece[name].wood, form.units, form.denominator) if cuts else ["not cut"]
        said.append(f"{name}: {'; '.join(words)}")
    if joint.fit:
        said.append(f"Fit: {form(joint.fit)} clear")
    return said


def _height(detail: Detail, piece: Piece, form: Lengths) -> float:
    lines = sum(len(wrapped(text, _WIDTH, _WORDS)) for text in _said(detail, piece, form))
    return _HEADED + 1.6 * _AROUND * _SCALE + 4.0 + lines * _WORDS * LINE_PITCH + 4.0


def _marks(detail: Detail, piece: Piece, form: Lengths, corner: tuple[float, float]) -> list[Entity]:
    x, top = corner
    joint = detail.joint
    size, (heading, *_) = fitted(joint.kind.capitalize(), _WIDTH, 2.0 * _NAME, (_NAME, _WORDS), bold=True)
    count = f"{joint.first} and {joint.second}" + (f", one of {detail.alike} in the piece" if detail.alike > 1 else "")
    below, (said, *_) = fitted(count, _WIDTH, 2.0 * _WORDS, (_WORDS, 1.8))
    marks: list[Entity] = [
        Text((x, top), heading, size, level="top", bold=True),
        Text((x, top - _NAME * 1.7), said, below, level="top"),
    ]
    y = top - _HEADED - 0.8 * _AROUND * _SCALE
    marks += hatched(detail.faces, ViewPort(_SCALE, (x + _AROUND * _SCALE, y)))
    y -= 0.8 * _AROUND * _SCALE + 3.0
    for text in _said(detail, piece, form):
        marks += paragraph((x, y), text, _WIDTH, _WORDS)
        y -= len(wrapped(text, _WIDTH, _WORDS)) * _WORDS * LINE_PITCH
    return marks
