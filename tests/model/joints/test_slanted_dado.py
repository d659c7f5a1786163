"""A level shelf let into sides that splay: the kernel as witness, over sizes, splays and both hands."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.slanted_dado import SlantedDado
from model.errors import CutError, DesignError
from model.joints.housed import dado
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import Vector, place
from model.stock import board
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    stood,
    taken_away,
)

few = settings(max_examples=8, deadline=None)
splays = mm(2, 25)


def leaning(splay: float, hand: float) -> tuple[Vector, Vector]:
    """The grain and the face of a side that goes up and in, the shelf on its face side; hand: 1 for the left one."""
    s, c = math.sin(math.radians(splay)), math.cos(math.radians(splay))
    return (hand * s, 0.0, c), (hand * c, 0.0, -s)


def shelf_in_side(
    splay: float,
    share: float = 0.4,
    shelf: float = 19.0,
    side: float = 24.0,
    widths: tuple[float, float] = (200.0, 200.0),
    back: bool = False,
    hand: float = 1.0,
) -> tuple[Placed, Placed, float]:
    """A shelf run in by a share of what a side has for it, and by how much, mm, down the middle of its end."""
    a = math.radians(splay)
    skew, most = shelf / 2.0 * math.tan(a), (side - shelf / 2.0 * math.sin(a)) / math.cos(a)
    depth = skew + share * (most - skew)
    grain, face = leaning(splay, hand)
    post = stood(
        "side", board(500.0, widths[1], side), place((0.0, 0.0, 0.0), grain, face if not back else opposite(face))
    )
    at = post.at.point((250.0, widths[1] / 2.0, 0.0 if back else side))
    way = "right" if hand > 0.0 else "left"
    y = at[1] - widths[0] / 2.0 if hand > 0.0 else at[1] + widths[0] / 2.0
    level = place((at[0] - hand * depth, y, at[2] - shelf / 2.0), way, "up")
    return stood("shelf", board(300.0, widths[0], shelf), level), post, depth


def opposite(v: Vector) -> Vector:
    return (-v[0], -v[1], -v[2])


@few
@given(
    splays,
    st.floats(0.1, 0.9),
    mm(9, 25),
    mm(19, 40),
    mm(60, 250),
    mm(60, 250),
    st.booleans(),
    st.sampled_from([1.0, -1.0]),
)
def test_its_walls_are_the_shelfs_faces_and_its_floor_square_to_them(  # type: ignore[no-untyped-def]
    splay, share, thick, side, wide, deep, back, hand
) -> None:
    shelf, post, depth = shelf_in_side(splay, share, thick, side, (wide, deep), back, hand)
    joint = dado(shelf, into=post)
    home(shelf, post, joint)
    (cut,) = joint.second_cuts
    assert isinstance(cut, SlantedDado)

    assert (cut.name, cut.side) == ("slanted dado", "back" if back else "face")
    assert (cut.lean, cut.width, cut.depth) == pytest.approx((splay, thick, depth), abs=1e-5)
    assert [round(abs(c), 9) for c in joint.closes] == [1.0, 0.0, 0.0]
    assert_sound(shelf, post, joint)
    shared = min(wide, deep)
    assert joint.glue_area == pytest.approx((thick + 2.0 * depth) * shared, rel=1e-6)
    assert contact_area(shelf, post) == pytest.approx(joint.glue_area, rel=1e-4)
    assert taken_away(post) == pytest.approx(thick * depth * deep, rel=1e-6)
    assert taken_away(shelf) == pytest.approx(0.0, abs=1e-3)


@few
@given(splays, mm(0.05, 0.6), mm(0.5, 3))
def test_fit_widens_it_and_room_deepens_it(splay, fit, room) -> None:  # type: ignore[no-untyped-def]
    shelf, post, depth = shelf_in_side(splay, 0.3)
    joint = dado(shelf, into=post, fit=fit, room=room)
    home(shelf, post, joint)
    (cut,) = joint.second_cuts
    assert isinstance(cut, SlantedDado)

    assert (cut.width, cut.depth) == pytest.approx((19.0 + fit, depth + room), abs=1e-5)
    assert [c.gap for c in joint.contacts] == pytest.approx([room, fit, fit])
    assert joint.glue_area == 0.0


def test_sides_of_a_pair_are_true_mirror_images() -> None:
    piece = Piece("step", Parameters(thickness=19.0))
    grain, face = leaning(12.0, 1.0)
    left, right = piece.pair("side", board(300.0, 200.0), place((-200.0, 200.0, 0.0), grain, face))
    inside = left.at.point((120.0, 0.0, 19.0))
    shelf = piece.add("shelf", board(-2.0 * (inside[0] - 8.0), 200.0), place((inside[0] - 8.0, 0.0, inside[2] - 9.5)))
    piece.join(dado(shelf, into=left), dado(shelf, into=right))

    assert_mirror_images(left, right)
    assert right.wood.cuts == left.wood.mirrored().cuts


def test_a_trough_s_end_that_leans_has_a_groove_along_its_grain() -> None:
    s, c = math.sin(math.radians(8.0)), math.cos(math.radians(8.0))
    end = stood("end", board(300.0, 150.0), place((0.0, -20.0, 0.0), "back", (c, 0.0, s)))
    at = end.at.point((0.0, 60.0, 19.0))
    floor = stood("floor", board(400.0, 200.0), place((at[0] - 7.0, 30.0, at[2] - 9.5)))
    joint = dado(floor, into=end)
    home(floor, end, joint)
    (cut,) = joint.second_cuts
    assert isinstance(cut, SlantedDado)

    assert (cut.name, cut.axis) == ("slanted groove", 1)
    assert_sound(floor, end, joint)
    assert contact_area(floor, end) == pytest.approx(joint.glue_area, rel=1e-4)


@few
@given(splays, st.sampled_from([1.0, -1.0]))
def test_nails_go_in_from_outside_along_the_shelf(splay, hand) -> None:  # type: ignore[no-untyped-def]
    shelf, post, _ = shelf_in_side(splay, hand=hand)
    joint = dado(shelf, into=post, nails="6d")

    assert len(joint.hardware) == 3
    for nail in joint.hardware:
        assert nail.direction == pytest.approx((hand, 0.0, 0.0), abs=1e-9)
        assert post.at.own_point(nail.at)[2] == pytest.approx(0.0, abs=1e-6)
        assert shelf.at.own_point(nail.at)[2] == pytest.approx(9.5, abs=1e-6)


def test_a_corner_that_stops_short_is_refused_with_what_it_wants() -> None:
    shelf, post, depth = shelf_in_side(15.0)
    shelf.at = shelf.at.moved(depth - 2.0, 0.0, 0.0)
    short = 9.5 * math.tan(math.radians(15.0)) - 2.0

    with pytest.raises(DesignError, match=rf"a corner of shelf stops {short:.2f} mm short of side, which leans 15\.0"):
        dado(shelf, into=post)


def test_one_that_comes_through_is_refused_with_common_practice() -> None:
    shelf, post, _ = shelf_in_side(15.0, share=1.02)
    with pytest.raises(CutError, match=r"a slanted dado .* comes through stock 24 mm thick; 11\.2 mm, about half"):
        dado(shelf, into=post)


def test_a_stopped_one_is_refused() -> None:
    shelf, post, _ = shelf_in_side(10.0)
    with pytest.raises(DesignError, match="side leans to shelf, and a dado sawn at a slant runs right across"):
        dado(shelf, into=post, stopped=20.0)


def test_a_side_that_leans_both_ways_is_refused() -> None:
    _, post, _ = shelf_in_side(10.0)
    inside = post.at.point((250.0, 100.0, 24.0))
    grain = (math.cos(0.1), math.sin(0.1), 0.0)
    shelf = stood("shelf", board(300.0, 200.0), place((inside[0] - 12.0, inside[1] - 100.0, inside[2]), grain, "up"))
    with pytest.raises(DesignError, match="shelf leans to side across its width too; turn it so that its edges"):
        dado(shelf, into=post)


def test_a_side_that_lies_too_flat_is_refused() -> None:
    shelf, post, _ = shelf_in_side(50.0, side=60.0)
    with pytest.raises(DesignError, match=r"side leans 50\.0 degrees from square to shelf; .* no more than 45"):
        dado(shelf, into=post)


def test_a_shelf_beside_the_side_is_refused() -> None:
    shelf, post, _ = shelf_in_side(10.0)
    shelf.at = shelf.at.moved(0.0, 230.0, 0.0)
    with pytest.raises(DesignError, match="no end of shelf runs along its grain to a side of side; check where"):
        dado(shelf, into=post)
