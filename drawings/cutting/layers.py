"""What a part's cutting file shows, before it is a file: closed traces, each on the layer that says how it is cut."""

from __future__ import annotations

from dataclasses import dataclass

from drawings.cutting.sawn_outline import ON_THE_OUTLINE, sawn_outline
from model.cuts.cut import Cut, Footprint, Side
from model.cuts.through import Profile
from model.layout.outline import Outline
from model.lengths import format_length
from model.part import Part

OUTLINE, THROUGH = "outline", "through"

#: Decimals of mm that a depth is printed with.
_DECIMALS = 3
#: Traces closer than this everywhere are one and the same, mm.
_SAME = 6


@dataclass(frozen=True)
class Trace:
    """One closed line to be cut along or cleared out, face side up, mm. depth: from the side it is cut from."""

    layer: str
    outline: Outline
    side: Side
    depth: float

    @property
    def circle(self) -> tuple[tuple[float, float], float] | None:
        """(centre, radius) where it is one full circle."""
        if self.outline.bulges != (1.0, 1.0):
            return None
        (x0, y0), (x1, y1) = self.outline.corners
        return ((x0 + x1) / 2.0, (y0 + y1) / 2.0), self.outline.edges[0].radius


def traces(part: Part, inches: bool = False) -> list[Trace]:
    """Everything a router cuts in a part: pockets from the face side, from the back, holes through, then the outline.

    A bent part gives its flat blank. Notches, upright saw cuts, tails and the width of tenons are part of the outline.
    Traces that are the same on the same layer appear once. inches: name each depth in inches too.
    """
    outline, left_over = sawn_outline(part)
    found: dict[tuple[object, ...], Trace] = {}
    for cut, footprint in part.footprints():
        worked_in = isinstance(cut, ON_THE_OUTLINE) and footprint.through and cut not in left_over
        if isinstance(cut, Profile) or worked_in:
            continue
        trace = Trace(layer_of(footprint, inches), footprint.outline, footprint.side, footprint.depth)
        found.setdefault((trace.layer, *_canonical(trace.outline)), trace)
    inner = sorted(found.values(), key=lambda t: (t.layer == THROUGH, t.side == "back", t.depth))
    return [*inner, Trace(OUTLINE, outline, "face", part.thickness)]


def layer_of(footprint: Footprint, inches: bool = False) -> str:
    """The layer that says how a footprint is cut."""
    if footprint.through:
        return THROUGH
    return depth_layer(footprint.side, footprint.depth, inches)


def depth_layer(side: Side, depth: float, inches: bool = False) -> str:
    """A layer's name for cuts of one depth from one side.

    >>> depth_layer("face", 9.5)
    'face side 9.5 mm deep'
    >>> depth_layer("back", 9.525, inches=True)
    'back side 9.525 mm (0.375 in) deep'
    """
    also = f" ({depth / 25.4:.3f} in)" if inches else ""
    return f"{side} side {format_length(depth, 'mm', decimals=_DECIMALS)} mm{also} deep"


def edge_work(part: Part) -> list[Cut]:
    """The cuts that are not in the file, because no router makes them from above: tongues, beads, holes in an edge."""
    return [c for c in part.cuts if not isinstance(c, Profile) and not list(c.footprints(part.blank))]


def _canonical(outline: Outline) -> tuple[tuple[float, float, float], ...]:
    """Corners and bulges from the least corner on: the same for the same ring begun anywhere."""
    ring = [
        (round(x, _SAME) + 0.0, round(y, _SAME) + 0.0, round(b, _SAME) + 0.0)
        for (x, y), b in zip(outline.corners, outline.bulges, strict=True)
    ]
    first = ring.index(min(ring))
    return tuple(ring[first:] + ring[:first])
