"""Dovetails at any corner, the kernel as witness."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from model.cuts.dovetails import Pins, Tails
from model.errors import CutError, DesignError
from model.joints.dovetail import dovetail
from model.part import Part
from model.piece import Placed
from model.placement import Placement, Vector, cross, dot
from model.stock import board
from tests.model.joints.corners import boards_at_corner
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    stood,
    taken_away,
)

few = settings(max_examples=10, deadline=None)
widths = st.floats(60, 240)
thicknesses = st.floats(8, 24)
angles = st.floats(60, 120)
slants = st.tuples(st.floats(-12, 12), st.floats(-12, 12))
ends = st.tuples(st.sampled_from(["left", "right"]), st.sampled_from(["left", "right"]))
UP: Vector = (0.0, 0.0, 1.0)


def areas(outlines) -> float:
    return sum(o.area for o in outlines)


@few
@given(widths, thicknesses, thicknesses, ends, st.sampled_from([None, 0.3]))
@example(120.0, 19.0, 19.0, ("right", "left"), None)
def test_square_corner_by_its_formulas(width, thick, other, which, lap):
    short = 0.0 if lap is None else -lap * other
    a, b = boards_at_corner(board(300, width, thick), board(250, width, other), over=(short, 0.0), ends=which)
    joint = dovetail(a, b)
    home(a, b, joint)

    tails = joint.first_cuts[0].tails
    depth = other + short
    narrow, wide = (math.dist(*tails[0].corners[i : i + 2]) for i in (0, 2))
    n, m = len(tails), (wide + narrow) / 2.0 * depth
    slant = math.hypot(depth, (wide - narrow) / 2.0)
    blind = n * wide * thick if lap else 0.0
    assert joint.kind == ("half-blind dovetail" if lap else "dovetail")
    assert (wide - narrow) / 2.0 / depth == pytest.approx(1 / 6, rel=1e-4)
    assert joint.glue_area == pytest.approx(2 * n * slant * thick, rel=1e-5)
    assert_sound(a, b, joint)
    assert taken_away(a) == pytest.approx(width * thick * depth - n * m * thick, rel=1e-5)
    assert taken_away(b) == pytest.approx(n * m * thick, rel=1e-5)
    touching = 2 * n * slant * thick + (width - n * narrow) * thick + n * m + blind
    assert contact_area(a, b) == pytest.approx(touching, rel=1e-4)


@few
@given(widths, thicknesses, thicknesses, angles, slants, ends, st.sampled_from([None, 0.35]))
def test_any_corner_by_its_formulas(width, thick, other, angle, slant, which, share):
    # the pin board is wider, so that its edges, which lie aslant of the tail board's, stay out of the sums
    a, b = boards_at_corner(
        board(300, width, thick),
        board(300, width + 80.0, other),
        angle=angle,
        slants=slant,
        over=(plenty(width, thick, slant[0]), plenty(width + 80.0, other, slant[1])),
        ends=which,
    )
    joint = dovetail(a, b, lap=share and share * other)
    if share is None:
        assert joint.kind == "dovetail"
    past = beyond(a, joint.first_cuts[0].shoulder), beyond(b, flipped(joint.second_cuts[0].end))
    home(a, b, joint)

    tails = joint.first_cuts[0].tails
    assert_sound(a, b, joint)
    assert taken_away(a) == pytest.approx(past[0] - areas(tails) * thick, rel=1e-4)
    assert taken_away(b) == pytest.approx(past[1] + areas(tails) * thick, rel=1e-4)
    grain, n1, n2 = b.at.x, a.at.z, b.at.z
    run = cross(n1, n2)
    across = thick / abs(dot(grain, n1)) * size(cross(run, grain)) / size(run)
    narrow, wide = (sum(math.dist(*t.corners[i : i + 2]) for t in tails) for i in (0, 2))
    section = width * thick / abs(dot(a.at.x, n2))
    touching = joint.glue_area + section - narrow * across + areas(tails) + (wide * across if share else 0.0)
    assert contact_area(a, b) == pytest.approx(touching, rel=5e-3)


@few
@given(widths, thicknesses, angles, slants, ends)
def test_left_and_right(width, thick, angle, slant, which):
    a, b = boards_at_corner(
        board(300, width, thick),
        board(300, width, 16.0),
        angle=angle,
        slants=slant,
        over=(plenty(width, thick, slant[0]), plenty(width, 16.0, slant[1])),
        ends=which,
    )
    c, d = (Placed(p.name, p.part, p.at.mirrored(p.wood.stock.width)) for p in (a, b))
    left, right = dovetail(a, b), dovetail(c, d)
    home(a, b, left)
    home(c, d, right)

    for made, image in ((a, c), (b, d)):
        assert_mirror_images(made, image)
        assert_mirror_images(made, Placed("image", made.wood.mirrored(), image.at))
    assert right.closes == pytest.approx((-left.closes[0], left.closes[1], left.closes[2]))
    assert right.glue_area == pytest.approx(left.glue_area)


def test_a_canted_box_closes_all_round():
    lean = math.radians(15.0)
    c, s = math.cos(lean), math.sin(lean)
    front = Placement((-150.0, -100.0, 0.0), (1.0, 0.0, 0.0), (0.0, -s, c), (0.0, -c, -s))
    sides = [stood(f"side {n}", board(300, 120, 14.0), front.swung(90.0 * n, (0.0, 0.0))) for n in range(4)]

    for tails, pins in ((0, 1), (0, 3), (2, 1), (2, 3)):
        joint = dovetail(sides[tails], sides[pins])
        home(sides[tails], sides[pins], joint)
        assert_sound(sides[tails], sides[pins], joint)


def test_a_pin_board_narrower_than_the_tail_board():
    a, b = boards_at_corner(board(300, 120, 12.0), board(250, 90, 12.0))
    joint = dovetail(a, b, number=2)
    home(a, b, joint)

    cut = joint.first_cuts[0]
    assert isinstance(cut, Tails)
    assert [(p.normal[1], p.offset) for p in cut.within] == [(-1.0, -15.0), (1.0, 105.0)]
    assert_sound(a, b, joint)
    assert taken_away(a) == pytest.approx(90 * 12 * 12 - areas(cut.tails) * 12)


def test_what_a_router_sees():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0))
    joint = dovetail(a, b, number=3)
    home(a, b, joint)

    notches = [f for c, f in a.wood.footprints() if isinstance(c, Tails)]
    sawn = sum(min(f.outline.bounds[3], 120) - max(f.outline.bounds[1], 0) for f in notches)
    assert len(notches) == 4
    assert all(f.through for f in notches)
    assert 120 - sawn == pytest.approx(sum(math.dist(*t.corners[:2]) for t in joint.first_cuts[0].tails))


def test_a_router_trims_what_is_left_over():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0), over=(2.0, 0.0), ends=("left", "left"))
    joint = dovetail(a, b, number=3)
    home(a, b, joint)

    *notches, strip = [f.outline for c, f in a.wood.footprints() if isinstance(c, Tails)]
    assert len(notches) == 4
    assert strip.bounds == (-1.0, -1.0, 2.0, 121.0)
    assert_sound(a, b, joint)


@pytest.mark.parametrize("thick", [12.0, 19.0])
def test_machine_pitch(thick):
    a, b = boards_at_corner(board(300, 150, thick), board(250, 150, 19.0), over=(-7.0, 0.0))
    joint = dovetail(a, b, pitch="machine")
    home(a, b, joint)

    first, second = joint.first_cuts[0].tails[:2]
    assert joint.kind == "half-blind dovetail"
    assert len(joint.first_cuts[0].tails) == 6
    assert second.corners[0][1] - first.corners[0][1] == pytest.approx(22.225, abs=1e-5)
    assert_sound(a, b, joint)


def test_clearance_is_shared_by_both_flanks():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0))
    joint = dovetail(a, b, number=2, fit=0.2)
    home(a, b, joint)

    tail, socket = joint.first_cuts[0].tails[0], joint.second_cuts[0].sockets[0]
    assert socket.bounds[2] - socket.bounds[0] == pytest.approx(tail.bounds[3] - tail.bounds[1] + 0.2, abs=1e-5)
    assert_sound(a, b, joint)


def test_pins_know_their_lap():
    a, b = boards_at_corner(board(300, 120, 12.0), board(250, 120, 20.0), over=(-5.0, 0.0))
    cut = dovetail(a, b).second_cuts[0]

    assert isinstance(cut, Pins)
    assert (cut.depth, cut.lap(b.wood.blank)) == (15.0, 5.0)


@pytest.mark.parametrize(
    ("over", "options", "says"),
    [
        ((-20.0, 0.0), {}, "tail board stops 4.00 mm short of pin board"),
        ((-1.0, 0.0), {}, "would leave a lap of 1.0 mm in pin board, which is 16 mm thick; a quarter of it, 4.0 mm"),
        ((-14.0, 0.0), {}, "would leave a lap of 14.0 mm"),
        ((-8.0, 0.0), {"lap": 3.0}, "runs 8.0 mm into pin board; with a lap of 3 mm its tails are 13.0 mm long"),
        ((60.0, 0.0), {}, "runs 60.0 mm past pin board, which makes no corner"),
        ((0.0, -2.0), {}, "pin board stops 2.00 mm short of the outside of tail board"),
        ((0.0, 60.0), {}, "pin board runs 60.0 mm past tail board, which makes no corner"),
        ((0.0, 0.0), {"number": 14}, "14 tails in 120.0 mm would leave a pin's narrow side"),
        ((0.0, 0.0), {"slope": 1.5}, "a dovetail's slope of 1.5 in 1"),
        ((0.0, 0.0), {"pitch": "machine", "number": 9}, "9 tails at a pitch of 22.225 mm do not go into"),
    ],
)
def test_refusals(over, options, says):
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0), over=over)

    with pytest.raises(DesignError, match=says):
        dovetail(a, b, **options)


def test_boards_that_lean_must_be_long_enough():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0), slants=(5.0, 0.0), over=(2.0, 30.0))

    with pytest.raises(DesignError, match="meets pin board at an angle and reaches only"):
        dovetail(a, b)


def test_grain_along_the_corner_is_refused():
    a, _ = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0))
    b = stood("pin board", board(120, 250, 16.0), Placement((-16, 0, -60), UP, (0, 1, 0), (-1, 0, 0)))

    with pytest.raises(DesignError, match="the grain of pin board stands at 0 degrees to the face of tail board"):
        dovetail(a, b)


def test_boards_that_pass_each_other_are_refused():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0))

    with pytest.raises(DesignError, match="pass each other at the corner"):
        dovetail(a, Placed("pin board", b.part, b.at.moved(dz=130.0)))


def test_a_tail_that_would_break_out_of_the_pins():
    a, b = boards_at_corner(board(300, 120, 19.0), board(250, 120, 16.0))
    cut = dovetail(a, b, number=2).second_cuts[0]

    with pytest.raises(
        CutError, match=r"would break out of an edge of the pin board, which goes from 0\.0 to 100\.0 mm"
    ):
        Part(board(250, 100, 16.0)).cut(cut)


def plenty(width: float, thick: float, slant: float) -> float:
    """How far an end must run past the corner to be trimmed all over, mm."""
    return width / 2.0 * math.tan(math.radians(abs(slant))) + 1.2 * thick + 2.0


def size(v: Vector) -> float:
    return math.sqrt(dot(v, v))


def flipped(plane):
    return plane.flipped()


def beyond(part: Placed, plane) -> float:
    """Volume of a whole board in a half of space that takes one of its ends off, mm3: its section by how far the half
    comes along its middle line."""
    stock = part.wood.stock
    nx, ny, nz = plane.normal
    x = (plane.offset - ny * stock.width / 2.0 - nz * stock.thick / 2.0) / nx
    return stock.width * stock.thick * (x if nx > 0.0 else stock.length - x)
