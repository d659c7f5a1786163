"""Does each spline, key, wedge and loose tongue lie in what is cut for it, in its own parts and no others?

Each is tried as a solid against the parts' own solids, exactly. A wedge spreads the kerf it is driven into, and so may
run into its own parts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from model.checks.fastening.seat import Wrong
from model.checks.solids.near_pairs import StoodBox, near_pairs
from model.checks.solids.shared_wood import shared_wood
from model.checks.solids.stood_solid import StoodSolid, bounds_of, distance, stood_solids
from model.hardware import Hardware
from model.hardware_solids import hardware_solid
from model.piece import Piece
from model.placement import Placement
from model.tolerance import CONTACT

LOOSE = ("spline", "key", "wedge", "loose tongue")
SLOT = "a loose piece must go into its slot; 0.02 mm is as near as a shop holds it (common practice)"
REACHES = "common practice: a loose piece joins both its parts, and stands no more than 1 mm off their wood"

#: Further than this from a part's wood, it is not in it, mm.
OFF = 1.0


def loose_pieces(piece: Piece) -> list[Hardware]:
    """What the check looks at."""
    return [h for h in piece.hardware if h.kind in LOOSE]


def slotted(piece: Piece, shapes: Mapping[str, Any]) -> Iterator[Wrong]:
    """Faults for loose pieces that run into wood, or lie in only one of their parts. shapes: every part's solid where
    it stands, by name."""
    items = loose_pieces(piece)
    if not items:
        return
    solids = stood_solids(shapes)
    boxes = [s.box for s in solids]
    for item in items:
        shape = hardware_solid(item).wrapped
        own = StoodSolid(item.kind, shape, shape.TShape(), StoodBox(*bounds_of(shape), Placement()))
        # the item's box stands last: pairs with it name the parts that are near
        near = {i for i, j in near_pairs([*boxes, own.box], -OFF) if j == len(boxes)}
        yield from _missed(item, own, solids)
        for n in sorted(near):
            yield from _run_into(item, own, solids[n])


def _missed(item: Hardware, own: StoodSolid, solids: list[StoodSolid]) -> Iterator[Wrong]:
    for solid in solids:
        if solid.name in item.parts:
            off, where = distance(own, solid)
            if off > OFF:
                says = f"lies {off:.1f} mm off {solid.name} and doesn't join it; move it into its slot"
                yield Wrong(item, "fault", says, off, OFF, REACHES, where)


def _run_into(item: Hardware, own: StoodSolid, solid: StoodSolid) -> Iterator[Wrong]:
    if solid.name in item.parts and item.kind == "wedge":
        return
    for shared in shared_wood(own.own, solid.own, solid.at, CONTACT)[:1]:
        if solid.name in item.parts:
            says = f"is {shared.depth:.2f} mm too big for its slot in {solid.name}; make it smaller, or the slot larger"
            yield Wrong(item, "fault", says, shared.depth, CONTACT, SLOT, shared.middle)
        else:
            says = f"runs {shared.depth:.2f} mm into {solid.name}; make it shorter, or move it"
            yield Wrong(item, "fault", says, shared.depth, CONTACT, SLOT, shared.middle, (solid.name,))
