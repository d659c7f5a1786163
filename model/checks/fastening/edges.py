"""How far each nail and screw keeps from edges, ends and faces of the parts it goes through, in their own frames."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from model.checks.fastening.limits import BORED, BORED_SPACING, SPACING, pilot
from model.checks.fastening.lines import Passage
from model.checks.fastening.seat import Wrong
from model.checks.solids.cavities import FINE, polygon
from model.cuts.through import Notch, Opening
from model.joints.joint import clean
from model.part import Bend, Part
from model.piece import Piece, Placed
from model.placement import Vector

Numbers = NDArray[np.float64]

#: An edge counts where the item runs along it rather than into it: cosine to its normal below this.
ALONGSIDE = 0.5

#: Nearer to a limit than this a hand sets no nail, mm (common practice).
SET_BY_HAND = 0.5

#: An edge is an end of the board where its normal lies this near the grain (as the cosine).
END = 0.7


@dataclass(frozen=True)
class Rim:
    """The edges of a part on the flat, openings and notches too: ends of each (n, 2), outward normals (n, 2)."""

    start: Numbers
    end: Numbers
    normal: Numbers

    @property
    def ends(self) -> NDArray[np.bool_]:
        """Which are ends of the board."""
        found: NDArray[np.bool_] = np.abs(self.normal[:, 0]) > END
        return found


def spaced(piece: Piece, found: list[Passage]) -> Iterator[Wrong]:
    """Nails and screws nearer to an edge than half the wood under their head, or to an end than all of it (Wood
    Handbook, chapter 8): notes of the pilot to bore for nails, and cautions where even a bored one may split it."""
    for passage in found:
        runs = [r for r in passage.within() if r[0] in passage.line.item.parts]
        if not passage.line.driven or not runs:
            continue
        thick = runs[0][2] - runs[0][1]
        for name, a, b in runs:
            if isinstance(piece[name].part, Part):
                yield from _near(passage, piece, piece[name], a, b, thick)


def _near(p: Passage, piece: Piece, placed: Placed, a: float, b: float, thick: float) -> Iterator[Wrong]:
    line = p.line
    ends = [placed.at.own_point(line.point(s)) for s in (a, b)]
    to_edge, to_end = distances(placed.wood, ends[0], ends[1])
    for what, away, limit in (("edge", to_edge, thick / 2.0), ("end", to_end, thick)):
        sits, where = f"sits {away:.1f} mm from an {what} of {placed.name}", line.point((a + b) / 2.0)
        if away < BORED * limit - SET_BY_HAND:
            says = f"{sits} and may split it even if bored for; set it {BORED * limit:.1f} mm from there, or more"
            yield Wrong(line.item, "caution", says, away, BORED * limit, BORED_SPACING, where)
        elif away < limit - SET_BY_HAND and line.item.kind == "finish nail":
            bored = pilot(line.item, placed.wood.stock.species or piece.parameters.species).pilot
            says = f"{sits}; bore {bored:.1f} mm for it, or set it {limit:.1f} mm from there, so that it splits nothing"
            yield Wrong(line.item, "note", says, away, limit, SPACING, where)


def distances(part: Part, start: Vector, stop: Vector) -> tuple[float, float]:
    """Least distance of a line in the part's own frame from the edges and faces it runs along, and from the ends, mm;
    infinite where there is none. A bent part is measured on the flat."""
    if part.bend is not None:
        start, stop = (_flattened(part, part.bend, p) for p in (start, stop))
    along = np.subtract(stop, start)
    along /= np.linalg.norm(along)
    rim = rim_of(part)
    beside = np.abs(rim.normal @ along[:2]) < ALONGSIDE
    away = np.minimum(_to_segments(np.array(start[:2]), rim), _to_segments(np.array(stop[:2]), rim))
    faces = [min(z, part.thickness - z) for z in (start[2], stop[2])] if abs(along[2]) < ALONGSIDE else []
    to_edge = min([*away[beside & ~rim.ends].tolist(), *faces], default=math.inf)
    return clean(to_edge), clean(min(away[beside & rim.ends].tolist(), default=math.inf))


@lru_cache(maxsize=1024)
def rim_of(part: Part) -> Rim:
    """The rim of a part, arcs as short straight edges."""
    import shapely
    from shapely.geometry.polygon import orient

    plan = polygon(part.outline)
    for cut in part.cuts:
        if isinstance(cut, Opening | Notch):
            plan = plan.difference(polygon(cut.outline))
    rings = [r for p in shapely.get_parts(plan) for r in (orient(p).exterior, *orient(p).interiors)]
    pairs = [(a, b) for r in rings for a, b in zip(r.coords[:-1], r.coords[1:], strict=True) if math.dist(a, b) > FINE]
    start, end = np.array([a for a, _ in pairs]), np.array([b for _, b in pairs])
    way = (end - start) / np.linalg.norm(end - start, axis=1)[:, None]
    return Rim(start, end, np.column_stack((way[:, 1], -way[:, 0])))


def _to_segments(p: Numbers, rim: Rim) -> Numbers:
    """From one point to each edge, (n,) mm."""
    run = rim.end - rim.start
    share = np.clip(np.einsum("nk,nk->n", p - rim.start, run) / np.einsum("nk,nk->n", run, run), 0.0, 1.0)
    away: Numbers = np.linalg.norm(rim.start + share[:, None] * run - p, axis=1)
    return away


def _flattened(part: Part, bend: Bend, p: Vector) -> Vector:
    """A point of a bent part, where it lay on the flat, mm."""
    thick, length = part.thickness, part.stock.length
    axis = -bend.radius if bend.hollow == "back" else thick + bend.radius
    rise = p[2] - axis
    angle = math.atan2(p[0] - length / 2.0, abs(rise))
    out = math.hypot(p[0] - length / 2.0, rise)
    z = axis + out if bend.hollow == "back" else axis - out
    return (length / 2.0 + angle * bend.neutral_radius(thick), p[1], z)
