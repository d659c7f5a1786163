"""What a maker measures on the ends of parts that join: how long a tenon is, how dovetails slope, where sockets lie."""

from __future__ import annotations

import math
from dataclasses import dataclass

from drawings.cutting.finished import finished_bounds
from model.cuts.cut import Blank
from model.cuts.dovetails import Pins, Tails
from model.cuts.laps import Shoulder
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove, sawn_through
from model.cuts.tenons import Tenon, TenonedEnd
from model.layout.outline import Outline
from model.part import Part
from model.placement import Vector, added, cross, dot, scaled

Span = tuple[float, float]
#: A groove is square to the sawn face that its mouth lies in, within this (sine), mm.
_ON = 1e-4


@dataclass(frozen=True)
class Splay:
    """A tail or socket across its board, mm: from where to where at its wide and at its narrow end, and between them
    `length` mm."""

    wide: Span
    narrow: Span
    length: float

    @property
    def width(self) -> float:
        """Where it is widest, mm."""
        return _breadth(self.wide)

    @property
    def slope(self) -> float:
        """How much each flank splays over its length, as a ratio; 0 for a finger."""
        return (_breadth(self.wide) - _breadth(self.narrow)) / 2.0 / self.length


def crossed(plane: Plane, y: float, z: float) -> float:
    """Where a line along the grain, at (y, z), crosses a plane of the part's own frame: x, mm."""
    return (plane.offset - plane.normal[1] * y - plane.normal[2] * z) / plane.normal[0]


def tenon_length(cut: TenonedEnd, tenon: Tenon, blank: Blank) -> float:
    """From the shoulder to the tip along the tenon's middle line, mm."""
    x0, _, x1, _ = blank.outline.bounds
    tip = (x1 if cut.end == "right" else x0) if tenon.tip is None else crossed(tenon.tip, *tenon.middle)
    return abs(tip - crossed(cut.shoulder, *tenon.middle))


def open_depth(cut: OpenMortise, blank: Blank) -> float:
    """Of an open mortise down the middle of the part, mm."""
    x0, y0, x1, y1 = blank.outline.bounds
    end = x1 if cut.end == "right" else x0
    return abs(end - crossed(cut.floor, (y0 + y1) / 2.0, cut.rise + cut.width / 2.0))


def sawn(plane: Plane) -> SawCut:
    """A shoulder as the saw cut that makes it, for its angles."""
    return sawn_through(plane)


def lean(cut: Mortise) -> float:
    """How far a mortise leans from square to the side it is cut in, degrees."""
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(cut.into, scaled(cut.mouth, -1.0))))))


def splays(cut: Tails | Pins, blank: Blank) -> list[Splay]:
    """Each tail, or each socket between the pins, as far as it lies on the board, from the near edge on."""
    drawn, axis = (cut.tails, 1) if isinstance(cut, Tails) else (cut.sockets, 0)
    _, low, _, high = blank.outline.bounds
    return sorted((_splay(outline, axis, low, high) for outline in drawn), key=lambda s: s.wide)


def end_of(plane: Plane) -> str:
    """The end that lies beyond a plane: the shoulder's outward side is where the normal does not point."""
    return "left" if plane.normal[0] > 0.0 else "right"


def baseline_depth(cut: Pins, blank: Blank) -> float:
    """From the end of the pin board to the bottom of its sockets, along the grain at mid thickness, mm."""
    _, y0, _, y1 = blank.outline.bounds
    middle = ((y0 + y1) / 2.0, blank.thickness / 2.0)
    return abs(crossed(cut.end, *middle) - crossed(cut.baseline, *middle))


def sawn_face(cut: SawnGroove, part: Part) -> SawCut | None:
    """The sawn face that a groove is let into square; None for a key's slot, which lies across the corner."""
    met = sawn_corner(cut, part)
    return met if met is not None and dot(met.out, cut.into) < -1.0 + _ON else None


def sawn_corner(cut: SawnGroove, part: Part) -> SawCut | None:
    """The saw cut in whose face a groove's mouth, or the arris that a key is let in across, lies."""
    sawn = (c for c in part.cuts if isinstance(c, SawCut))
    return next((c for c in sawn if abs(dot(c.out, cut.at) - c.kept.offset) < _ON), None)


def from_arris(cut: SawnGroove, sawn: SawCut, part: Part) -> tuple[Vector, Vector]:
    """Of a groove in a leaning sawn face: the face's sharp arris and the groove's nearer wall, at the mouth, mm."""
    level = part.thickness if sawn.out[2] < 0.0 else 0.0
    far = (level - cut.at[2]) / cut.across[2]
    near = math.copysign(cut.width / 2.0, far)
    return added(cut.at, scaled(cut.across, far)), added(cut.at, scaled(cut.across, near))


def slot_angle(cut: SawnGroove) -> float:
    """Between the floor of a key's slot and the side of the part, degrees."""
    return math.degrees(math.atan2(math.hypot(cut.into[0], cut.into[1]), abs(cut.into[2])))


def slot_end(cut: SawnGroove) -> Vector:
    """Where the floor of a key's slot comes out on the side that its mouth lies in, mid between its walls."""
    run = cross(cut.across, (0.0, 0.0, 1.0))
    return added(cut.at, scaled(run, cut.depth / dot(cut.into, run)))


def shoulder_place(shoulder: Shoulder, part: Part) -> tuple[float, str]:
    """How far off a lap's shoulder lies, mm, and from what: at the near edge from the left end, or, for one that runs
    along the grain, at the left end from the near edge; of the finished part."""
    x0, y0, _, _ = finished_bounds(part)
    (bx, by), (px, py) = shoulder.beyond, shoulder.at
    if abs(bx) >= abs(by):
        return px - (y0 - py) * by / bx - x0, "left end"
    return py - (x0 - px) * bx / by - y0, "near edge"


def _splay(outline: Outline, axis: int, low: float, high: float) -> Splay:
    """Of four corners, the two base ones first; `axis` is the coordinate across the board, from `low` to `high`."""
    a, b, c, d = outline.corners
    base, tip = (sorted(min(max(r[axis], low), high) for r in pair) for pair in ((a, b), (c, d)))
    along = 1 - axis
    length = abs((c[along] + d[along] - a[along] - b[along]) / 2.0)
    narrow, wide = sorted(((base[0], base[1]), (tip[0], tip[1])), key=_breadth)
    return Splay(wide, narrow, length)


def _breadth(span: Span) -> float:
    return span[1] - span[0]
