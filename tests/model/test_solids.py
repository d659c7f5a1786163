"""Solids: one whole valid piece for each part, the same object for equal parts, refusals that name the part."""

from __future__ import annotations

import math
import pickle

import pytest

from model.cuts.faces import dado
from model.cuts.through import Notch
from model.errors import DesignError
from model.layout.outline import rectangle
from model.parameters import Parameters
from model.part import Part
from model.piece import Piece
from model.placement import place
from model.solids import bring, part_of, placed, solid, standing
from model.stock import board

STOCK = board(400, 150, 19, "red oak")


def test_equal_parts_share_one_solid() -> None:
    assert solid(Part(STOCK).cut(dado(50, 19, 6, 0, 150))) is solid(Part(STOCK).cut(dado(50, 19, 6, 0, 150)))


def test_all_parts_of_the_examples_are_single_valid_solids(bench_shapes, bookcase_shapes) -> None:  # type: ignore[no-untyped-def]
    for shape in [*bench_shapes.values(), *bookcase_shapes.values()]:
        assert shape.ShapeType() == "Solid"
        assert shape.isValid()
        assert shape.Volume() > 0


def test_placed_shares_geometry_and_moves_as_the_placement_says() -> None:
    own = solid(Part(STOCK))
    at = place((10.0, 20.0, 30.0), grain="up", face="left").swung(25, about=(5.0, 5.0))
    there = placed(own, at)

    assert there.wrapped.IsPartner(own.wrapped)
    assert there.Center().toTuple() == pytest.approx(at.point((200, 75, 9.5)), abs=1e-9)


def test_a_cut_that_severs_the_part_is_refused_by_its_name() -> None:
    piece = Piece("bench", Parameters())
    piece.add("stretcher", STOCK, place()).cut(Notch(rectangle(20, 152, x=190, y=-1)))

    with pytest.raises(DesignError, match=r"^stretcher: the cuts leave 2 pieces .* make a cut smaller or move it"):
        standing(piece)


def test_a_cut_that_leaves_nothing_is_refused() -> None:
    part = Part(STOCK).cut(Notch(rectangle(402, 152, x=-1, y=-1)))
    with pytest.raises(DesignError, match="the cuts leave 0 pieces"):
        solid(part)


def test_overlapping_cuts_take_their_wood_once() -> None:
    crossed = Part(STOCK).cut(dado(100, 20, 6, 0, 150), dado(110, 20, 9, 0, 150))

    assert 400 * 150 * 19 - solid(crossed).Volume() == pytest.approx(150 * (10 * 6 + 20 * 9), rel=1e-9)


def test_the_rounding_of_mirrored_sides_is_whole_on_both() -> None:
    """Sizes at which the kernel once lost one of the two roundings of the right side's front."""
    from model.cuts.edges import Ease
    from model.cuts.through import Profile
    from model.layout.outline import rounded

    corners = [(0, 0), (1195.964, 0), (1195.964, 236.2), (600, 290), (600, 435.858), (0, 435.858)]
    shape = rounded(corners, (0, 0, 83.1, 40, 21.7, 0), ("near", "top", "front", "front", "front", "bottom"))
    left = Part(board(1195.964, 435.858, 22)).cut(Profile(shape), Ease(edge="front", radius=3.0))
    length = sum(e.length for e in left.outline.named("front"))
    taken = [left.outline.area * 22 - solid(part).Volume() for part in (left, left.mirrored())]

    assert taken[0] == pytest.approx(taken[1], rel=1e-5)
    assert taken[0] == pytest.approx(2 * (1 - math.pi / 4) * 9 * length, rel=0.01)


def test_a_solid_made_elsewhere_is_given_out_for_its_part() -> None:
    part = Part(STOCK).cut(dado(50, 19.25, 6, 0, 150))
    elsewhere = pickle.loads(pickle.dumps(solid(Part(STOCK).cut(dado(50, 20.75, 6, 0, 150)))))
    bring({part: elsewhere})

    assert solid(part) is elsewhere
    assert solid(part) is elsewhere
    assert part_of(elsewhere.wrapped.TShape()) == part
