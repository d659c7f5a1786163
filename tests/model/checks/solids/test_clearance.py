"""Clearance: what two surfaces really leave between them, flat and curved, and the table a report makes of it."""

import math

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.solids.clearance import clearances, told
from model.joints.joint import Contact, Joint
from model.parameters import Parameters
from model.piece import Piece
from model.placement import Placement, place
from tests.model.checks.planted import BENCH, BOOKCASE, moved, shapes, sound
from tests.model.checks.whole_piece import carried


def pair(first: cq.Workplane, second: cq.Workplane, *contacts: Contact, fit: float = 0.0) -> Piece:
    """Two solids and a joint between them."""
    piece = Piece("pair", Parameters())
    piece.given("first", first)
    piece.given("second", second)
    piece.joints = [Joint("rest", "first", "second", (0.0, 0.0, -1.0), contacts, fit=fit)]
    return piece


def measured(piece: Piece):
    return clearances(piece, shapes(piece))


def slab(x0, y0, z0, x1, y1, z1) -> cq.Workplane:
    return cq.Workplane().box(x1 - x0, y1 - y0, z1 - z0, centered=False).translate((x0, y0, z0))


UP = (0.0, 0.0, 1.0)


@settings(max_examples=15, deadline=None)
@given(st.floats(-0.5, 0.8), st.floats(-1.0, 1.0), st.floats(-1.0, 1.0))
def test_flat_faces_are_measured_to_the_last_digit(off, lean_x, lean_y):
    """A block leaning two ways over a bed: the planes' own distance along the contact, at the corners."""
    tx, ty = (math.tan(math.radians(a)) for a in (lean_x, lean_y))
    plane = [(0.0, 0.0), (40.0, 0.0), (40.0, 25.0), (0.0, 25.0)]
    under = [(x, y, off + tx * x + ty * y) for x, y in plane]
    faces = [[*under], [(x, y, 30.0) for x, y in reversed(plane)]]
    top = [(x, y, 30.0) for x, y in plane]
    faces += [[under[n], under[n - 1], top[n - 1], top[n]] for n in range(4)]
    shells = [cq.Face.makeFromWires(cq.Wire.makePolygon([*map(cq.Vector, f)], close=True)) for f in faces]
    block = cq.Workplane(cq.Solid.makeSolid(cq.Shell.makeShell(shells)))
    heights = [z for _, _, z in under]
    (found,) = measured(pair(block, slab(-5, -5, -20, 45, 30, 0), Contact(((20.0, 12.0, 0.0),), UP)))
    assert (found.least, found.greatest) == pytest.approx((min(heights), max(heights)), abs=1e-5)


@pytest.mark.parametrize("play", [0.0, 0.1, 0.4])
def test_a_round_peg_in_a_round_hole_leaves_half_the_play_all_round(play):
    peg = cq.Workplane().circle(8.0).extrude(40.0)
    block = slab(-30, -30, 0, 30, 30, 40).cut(cq.Workplane().circle(8.0 + play / 2.0).extrude(40.0))
    (found,) = measured(pair(peg, block, Contact(((8.0, 0.0, 20.0),), (-1.0, 0.0, 0.0), play)))
    assert found.fitting
    assert (found.least, found.greatest) == pytest.approx((play / 2.0, play / 2.0), abs=0.02)


def test_a_round_on_a_flat_touches_in_a_line():
    rod = cq.Workplane("YZ").center(0.0, 60.0).circle(60.0).extrude(80.0)
    (found,) = measured(pair(rod, slab(-10, -80, -20, 90, 80, 0), Contact(((40.0, 0.0, 0.0),), UP)))
    assert not found.fitting
    assert found.least == pytest.approx(0.0, abs=0.01)
    assert found.greatest > 1.0


def test_a_joint_that_names_no_surfaces_is_told_by_its_distance():
    (found,) = measured(pair(slab(0, 0, 1.2, 40, 40, 20), slab(0, 0, -20, 40, 40, 0), fit=1.0))
    assert (found.gap, found.least, found.greatest) == pytest.approx((1.0, 1.2, 1.2))


def test_surfaces_beside_the_contacts_plane_are_others():
    """The step beside a shoulder, 5 mm lower, has a clearance of its own that is not the joint's."""
    stepped = slab(0, 0, 0, 40, 20, 30).union(slab(0, 20, 5.3, 40, 40, 30))
    bed = slab(0, 0, -20, 40, 20, 0).union(slab(0, 20, -20, 40, 40, 5))
    (found,) = measured(pair(stepped, bed, Contact(((20.0, 10.0, 0.0),), UP)))
    assert (found.least, found.greatest) == pytest.approx((0.0, 0.0), abs=1e-6)


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_every_joint_of_a_piece_is_measured_wherever_it_stands(name):
    piece = sound(name)
    found = measured(piece)
    assert {id(c.joint) for c in found} == {id(j) for j in piece.joints}
    motion: Placement = place((900.0, -50.0, 3.0), "up", "left").swung(33.0, about=(0.0, 0.0))
    away = measured(carried(piece, motion))
    assert [(c.least, c.greatest) for c in away] == [pytest.approx((c.least, c.greatest), abs=1e-6) for c in found]


def test_joints_that_came_out_alike_are_one_row():
    piece = moved(sound(BOOKCASE), "shelf 2", 0.4)
    rows = [row for row in told(measured(piece)) if row["kind"] == "dado"]
    assert [(row["joints"], row["least_mm"], row["greatest_mm"]) for row in rows] == [
        (8, 0.0, 0.0),
        (1, 0.0, 0.4),
        (1, -0.4, 0.0),
    ]
    assert rows[1]["parts"] == ["shelf 2", "left side"]
