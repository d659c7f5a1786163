"""The drawing set of a piece: which sheets, in which order, numbered through."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from drawings.cards.for_the_bench import bench_leaves
from drawings.cards.trammel import trammel_leaves
from drawings.paper.sheet import Sheet
from drawings.parts.compose import part_leaves
from drawings.sheets.exploded import exploded_leaves
from drawings.sheets.general import general_leaf, general_scale, general_views
from drawings.sheets.joint_details import details
from drawings.sheets.leaves import Leaf, bind
from drawings.sheets.pointers import CutPlane, Pointers, Ringed
from drawings.sheets.sections import lettered, section_leaves, sections
from drawings.sheets.steps import step_leaves
from drawings.side_by_side import side_by_side
from drawings.views.shown import shown_solids
from model.lengths import INCH_UNITS
from model.order import Order
from model.piece import Piece

if TYPE_CHECKING:
    import cadquery as cq


def book(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Sheet]:
    """Every sheet of the set: the whole, taken apart and cut through, each part, the steps, and the cards for bench and
    machine.

    shapes: every part's solid where it stands. Loads the CAD kernel. Raises DesignError, naming [drawing] paper, for
    paper too small at any scale.
    """
    whole, making = side_by_side(
        lambda: _of_the_whole(piece, order, shapes), lambda: _of_the_making(piece, order, shapes)
    )
    return bind([*whole, *making], order)


def _of_the_whole(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Leaf]:
    """What shows the piece standing, taken apart and cut through."""
    shown = shown_solids(piece, shapes)
    views = general_views(shown, order)
    planes = tuple(CutPlane(letter, place.axis, place.at) for letter, place in lettered(piece, shapes))
    pointers = Pointers(planes, inward=order.units not in INCH_UNITS)
    scale = general_scale(piece, order, views, pointers)
    larger = [d for d in details(piece, shapes) if d.wanted(scale)]
    cut_through, lettered_larger = section_leaves(sections(piece, shapes), larger, piece, order)
    rings = tuple(Ringed(letter, d.middle, d.spec.direction, d.reach) for letter, d in lettered_larger)
    return [
        general_leaf(piece, order, views, replace(pointers, rings=rings)),
        *exploded_leaves(piece, order, shown),
        *cut_through,
    ]


def _of_the_making(piece: Piece, order: Order, shapes: Mapping[str, cq.Shape]) -> list[Leaf]:
    """What is made from: each part's drawing, the steps, the cards for bench and machine."""
    from model.checks.glue_up import in_goes

    goes = in_goes(piece, open_time=order.shop.open_time, clamps=order.shop.clamps)
    return [
        *part_leaves(piece, order),
        *step_leaves(piece, order, shown_solids(piece, shapes), goes),
        *bench_leaves(piece, order),
        *trammel_leaves(piece, order),
    ]
