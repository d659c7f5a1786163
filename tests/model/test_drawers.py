"""Drawers and their runners, checked as a piece is: no shared wood, joints touching, room all round, sliding out."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from model.checks.apart import apart
from model.checks.contact import contact
from model.checks.overlap import overlap
from model.cuts.dovetails import Tails
from model.cuts.faces import Channel
from model.drawers import BACK_ROOM, GROOVE_PLAY, SIDE_PLAY, TOP_PLAY, Drawer, DrawerOpening, drawer, runners
from model.errors import DesignError
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.solids import standing
from model.stock import board
from tests.model.joints.witness import NOISE, assert_mirror_images

few = settings(max_examples=6, deadline=None)


def case_with_drawer(width: float, height: float, depth: float, **options: object) -> tuple[Piece, Drawer]:
    """Two case sides with a drawer between them on runners."""
    piece = Piece("case", Parameters())
    thick = piece.parameters.thickness
    at = place((0, depth, 0), grain="up", face="right")
    left, right = piece.pair("case side", board(height + 200, depth), at, middle=width / 2 + thick)
    opening = DrawerOpening((thick, 0, 80), (thick + width, depth, 80 + height))
    made = drawer(piece, "drawer", opening, **options)  # type: ignore[arg-type]
    runners(piece, made, left, right, housed=6.0)
    return piece, made


@few
@example(150.0, 70.0, 150.0, "dovetail", 14.0)  # the bottom's groove runs out between the tails
@given(
    st.floats(150, 900),
    st.floats(70, 280),
    st.floats(150, 500),
    st.sampled_from(["dado", "dovetail"]),
    st.floats(9.5, 16),
)
def test_any_drawer_fits(width, height, depth, back, side):
    piece, made = case_with_drawer(width, height, depth, back=back, side_thickness=side)
    shapes = standing(piece)

    for answer in (overlap(piece, shapes), contact(piece, shapes), apart(piece, shapes)):
        assert answer.findings == ()
        assert all(p.checked == p.held > 0 for p in answer.proofs)
    assert_mirror_images(made.left, made.right)


@pytest.mark.parametrize("back", ["dado", "dovetail"])
def test_it_slides_out_past_everything(back):
    piece, made = case_with_drawer(450, 120, 400, back=back)
    shapes = standing(piece)
    moving = {s.part: s for s in piece.slides}
    fixed = [shape for name, shape in shapes.items() if name not in moving]

    assert set(moving) == {p.name for p in made.parts}
    for share in (0.02, 0.3, 0.7, 1.0):
        for name, slide in moving.items():
            x, y, z = (c * share * slide.opens for c in slide.along)
            out = shapes[name].translate((x, y, z))
            assert all(out.intersect(other.copy()).Volume() < NOISE for other in fixed)


def test_its_room():
    _, made = case_with_drawer(450, 120, 400)
    opening = made.opening

    assert made.front.wood.stock.length == pytest.approx(opening.width - 2 * SIDE_PLAY)
    assert made.front.wood.stock.width == pytest.approx(opening.height - TOP_PLAY)
    assert made.left.at.origin[1] == pytest.approx(opening.high[1] - BACK_ROOM)
    assert made.front.at.point((0, 0, made.front.wood.thickness))[1] == pytest.approx(opening.low[1])


def test_the_lowest_tail_hides_the_groove():
    _, made = case_with_drawer(450, 120, 400)

    groove = next(c for c in made.left.wood.cuts if isinstance(c, Channel) and c.name == "groove")
    tails = next(c for c in made.left.wood.cuts if isinstance(c, Tails)).tails
    low, high = min(sorted(y for _, y in t.corners[:2]) for t in tails)
    assert low < groove.start[1] - groove.width / 2 < groove.start[1] + groove.width / 2 < high
    assert groove.width == pytest.approx(6.4 + GROOVE_PLAY)
    assert {groove.start[0], groove.end[0]} == {0.0, made.left.wood.stock.length}


def test_the_bottom_can_move_to_the_back():
    piece, made = case_with_drawer(450, 120, 400)
    shapes = standing(piece)
    swollen = shapes["drawer bottom"].translate((0.0, BACK_ROOM, 0.0))

    others = [shapes[p.name] for p in made.parts if p is not made.bottom]
    assert all(swollen.intersect(other.copy()).Volume() < NOISE for other in others)


@pytest.mark.parametrize(
    ("size", "options", "says"),
    [
        ((60, 100, 300), {}, "drawer: an opening 60 mm wide, 100 mm high and 300 mm deep is too small for a drawer"),
        ((400, 30, 300), {}, "30 mm high"),
        ((400, 135, 300), {"tails": 6, "bottom_thickness": 9.5}, "does not lie within the lowest tail"),
        ((400, 100, 300), {"bottom_thickness": 45.0}, "make fewer tails, or a thinner bottom"),
    ],
)
def test_refusals(size, options, says):
    piece = Piece("case", Parameters())

    with pytest.raises(DesignError, match=says):
        drawer(piece, "drawer", DrawerOpening((0, 0, 0), (size[0], size[2], size[1])), **options)


def test_a_part_must_slide_some_way():
    piece, made = case_with_drawer(450, 120, 400)

    assert piece.slides[0].opens == pytest.approx((400 - BACK_ROOM) * 2 / 3)
    with pytest.raises(DesignError, match="drawer front would slide open by 0 mm"):
        piece.slide(made.front, (0, -1, 0), 0.0)
