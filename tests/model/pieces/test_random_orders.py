"""A hundred random orders over each design's whole declared ranges: a sound piece, or a refusal that says what to do.

Every order is made; every twentieth that can be is built solid and looked at pair by pair, a few are put through the
whole dry fit.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from model.errors import DryfitError
from model.piece import Piece
from model.pieces import design, design_names
from model.solids import standing
from tests.model.pieces.orders import assert_refused_plainly, orders, pieces_of
from tests.model.pieces.sound import assert_fits, assert_sound

ORDERS = 100
LEAST_MADE = 0.5
#: Parts: a piece with more is made but not built, for time.
LARGEST_BUILT = 40
#: Every so many of the pieces made are built, and every so many put through the dry fit.
BUILT, DRY_FITTED = 20, 30
#: Designs whose sizes leave nothing to caution of; in others stock may be too thin for a dado's floor or for screws.
WITHOUT_CAUTION = ("table", "stool")

Orders = list[Piece | DryfitError]


@pytest.fixture(scope="module", params=design_names())
def drawn(request: pytest.FixtureRequest) -> Orders:
    return orders(request.param, ORDERS)


@pytest.fixture(scope="module")
def made(drawn: Orders) -> list[Piece]:
    return pieces_of(drawn)


def test_most_orders_can_be_made(made: list[Piece]) -> None:
    assert len(made) >= LEAST_MADE * ORDERS


def test_every_refusal_is_a_sentence_with_its_remedy(drawn: Orders) -> None:
    assert_refused_plainly(drawn)


def test_every_made_piece_is_told_in_full(made: list[Piece]) -> None:
    for piece in made:
        told = {name for step in piece.steps for name in step.parts}
        joined = {name for joint in piece.joints for name in (joint.first, joint.second)}
        assert told <= set(piece.parts)
        assert joined <= set(piece.parts)
        assert {n for n in piece.parts if n not in joined} == set(), "a part that nothing holds"


def test_every_twentieth_is_sound_wood_that_overlaps_nowhere_and_touches_where_it_should(
    made: list[Piece],
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
    loose_contacts: Callable[[Any, Any], list[str]],
) -> None:
    for piece in [p for p in made[::BUILT] if len(p.parts) <= LARGEST_BUILT]:
        shapes = standing(piece)
        assert all(shape.isValid() and shape.Volume() > 0 for shape in shapes.values())
        assert overlaps(shapes) == []
        assert loose_contacts(piece, shapes) == []
        for name, placed in piece.parts.items():
            if placed.mirror_of and placed.part == piece[placed.mirror_of].part.mirrored():
                assert shapes[name].Volume() == pytest.approx(shapes[placed.mirror_of].Volume(), rel=1e-6)


def test_a_few_are_put_through_the_whole_dry_fit(made: list[Piece], request: pytest.FixtureRequest) -> None:
    for piece in [p for p in made[::DRY_FITTED] if len(p.parts) <= LARGEST_BUILT]:
        held = assert_sound if request.node.callspec.params["drawn"] in WITHOUT_CAUTION else assert_fits
        held(piece)


def test_a_wall_of_two_hundred_parts_is_made() -> None:
    script = design("bookcase")
    wall = script.make(script.parameters(width=9000.0, height=2400.0, bays=12, shelves=8, housing=6.0))

    assert len(wall.parts) >= 200
    # shelves of all bays are alike, so are the uprights between them
    assert len(set(wall.items().values())) < 60
