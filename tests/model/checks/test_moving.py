"""Lids and drawers through their travel: pins set wrong and things in the way are found, nothing else is accused."""

from __future__ import annotations

import copy
import math
from dataclasses import replace

import cadquery as cq
import pytest

from model.checks.moving import carried as goes_along
from model.checks.moving import moving, slides, turns
from model.checks.travel.ways import Ways
from model.drawers import DrawerOpening, drawer, runners
from model.joints.joint import Contact, Joint
from model.parameters import Parameters
from model.piece import Piece, Swing
from model.placement import added, place, scaled
from model.solids import standing
from model.stock import board
from tests.model.checks.planted import BENCH, sound
from tests.model.checks.whole_piece import carried, shuffled


def told(piece):
    return moving(piece, Ways(standing(piece)))


def hung(dx=0.0, dy=0.0, dz=0.0, **changes):
    """The bench with its hatch's pin moved, or its swing otherwise."""
    piece = copy.copy(sound(BENCH))
    (swing,) = piece.swings
    piece.swings = [replace(swing, pin=added(swing.pin, (dx, dy, dz)), **changes)]
    return piece


def with_block(piece, at, size):
    other = copy.copy(piece)
    other.parts = dict(piece.parts)
    other.given("block", cq.Workplane().box(*size, centered=False), place(at))
    return other


def graver(answer):
    return [f for f in answer.findings if f.severity != "note"]


def drawer_case(wide=488, **play):
    piece = Piece("case", Parameters())
    thick = piece.parameters.thickness
    at = place((0, 400, 0), grain="up", face="right")
    left, right = piece.pair("case side", board(320, 400), at, middle=wide / 2)
    made = drawer(piece, "drawer", DrawerOpening((thick, 0, 80), (wide - thick, 400, 200)), **play)
    runners(piece, made, left, right, housed=6.0)
    return piece


def chest(pin_y=2.5, pin_z=300.0, opens=95.0):
    """A box 300 deep and 300 high under a lid 20 thick, hinged along its back; the pin stands behind it."""
    piece = Piece("chest", Parameters())
    for name, size, at in (
        ("front", (500, 20, 300), (0, -300, 0)),
        ("end", (20, 260, 300), (0, -280, 0)),
        ("back", (500, 20, 300), (0, -20, 0)),
        ("lid", (500, 300, 20), (0, -300, 300)),
        ("batten", (40, 200, 15), (200, -250, 285)),
    ):
        piece.given(name, cq.Workplane().box(*size, centered=False), place(at))
    for part, to, where, toward in (
        ("end", "front", (10.0, -280.0, 150.0), (0.0, -1.0, 0.0)),
        ("back", "end", (10.0, -20.0, 150.0), (0.0, -1.0, 0.0)),
        ("batten", "lid", (220.0, -150.0, 300.0), (0.0, 0.0, 1.0)),
    ):
        piece.join(Joint("laid", part, to, toward, (Contact((where,), scaled(toward, -1.0)),)))
    piece.swings.append(Swing("lid", (0.0, pin_y, pin_z), (-1.0, 0.0, 0.0), opens))
    return piece


def test_the_hatch_opens_and_nothing_is_said():
    answer = told(sound(BENCH))
    assert answer.findings == ()
    assert [(p.checked, p.held) for p in answer.proofs] == [(1, 1), (0, 0)]


@pytest.mark.parametrize(
    ("piece", "pair", "opened"),
    [
        (lambda: hung(dz=-15.0), ("hatch", "seat"), (0.0, 15.0)),
        (lambda: hung(opens=180.0), ("hatch", "back board"), (95.0, 140.0)),
        (lambda: hung(along=(1.0, 0.0, 0.0)), ("hatch", "seat cleat"), (0.0, 0.5)),
        (lambda: with_block(sound(BENCH), (-40, 120, 560), (80, 60, 60)), ("hatch", "block"), (40.0, 80.0)),
        (lambda: chest(pin_y=-10.0), ("lid", "back"), (0.0, 10.0)),
        (lambda: chest(pin_z=320.0, pin_y=-1.0), ("lid", "back"), (0.0, 10.0)),
    ],
)
def test_a_lid_that_stops_short_is_found_with_what_stops_it(piece, pair, opened):
    answer = told(piece())
    (fault,) = answer.findings
    assert fault.severity == "fault"
    assert fault.parts[0] == pair[0]
    assert fault.parts[1].startswith(pair[1])
    assert opened[0] <= fault.value <= opened[1]
    assert answer.proofs[0].held == answer.proofs[0].checked - 1


def test_a_pin_that_runs_the_wrong_way_is_told_so():
    (fault,) = told(hung(along=(1.0, 0.0, 0.0))).findings
    assert "turn the pin's direction round" in fault.message


def test_the_stop_is_where_the_lids_corner_meets_the_wall():
    """A lid opened against a wall: its outer edge at radius R from the pin comes to a wall D behind the pin when the
    upper face has turned by 90 degrees and more."""
    piece = chest(opens=170.0)
    piece.given("wall", cq.Workplane().box(800, 20, 900, centered=False), place((-100, 102.5, 0)))
    (fault,) = told(piece).findings
    assert fault.parts == ("lid", "wall")
    # turned by t, that edge, 302.5 before the pin and 20 above it, stands R sin(t + lead - 90) behind it
    radius, lead = math.hypot(302.5, 20.0), math.degrees(math.atan2(20.0, 302.5))
    expected = 90.0 + math.degrees(math.asin(100.01 / radius)) - lead
    assert fault.value == pytest.approx(expected, abs=0.02)


def test_a_drawer_slides_and_its_parts_go_as_one():
    piece = drawer_case()
    ((_, parts),) = slides(piece)
    assert set(parts) == {"drawer front", "left drawer side", "right drawer side", "drawer back", "drawer bottom"}
    answer = told(piece)
    assert graver(answer) == []
    assert [(p.checked, p.held) for p in answer.proofs] == [(1, 1), (1, 1)]


@pytest.mark.parametrize(
    ("at", "size", "part"),
    [
        ((100, -120, 90), (50, 20, 50), "drawer front"),
        ((21, -250, 150), (2, 200, 10), "drawer front"),
        ((19, -25, 60), (450, 20, 20.5), "drawer front"),
        ((200, 150, 120), (60, 20, 30), "drawer back"),
    ],
    ids=["post", "hook", "proud rail", "thing inside"],
)
def test_what_stands_before_a_drawer_stops_it(at, size, part):
    piece = with_block(drawer_case(), at, size)
    (fault,) = (f for f in told(piece).findings if f.severity == "fault")
    assert fault.parts == (part, "block")
    assert fault.value == pytest.approx(standing(piece)[part].BoundingBox().ymin - at[1] - size[1], abs=0.01)
    assert fault.severity == "fault"


def test_what_a_drawer_only_just_passes_does_not_stop_it():
    assert graver(told(with_block(drawer_case(), (19, -25, 60), (450, 20, 20.0)))) == []


def test_what_passes_near_squeezes_a_finger():
    piece = chest(opens=100.0)
    piece.given("bracket", cq.Workplane().box(100, 40, 20, centered=False), place((100, -60, 620.0)))
    (note,) = told(piece).findings
    assert (note.severity, note.parts) == ("note", ("lid", "bracket"))
    assert 8.0 < note.value < 25.0


def test_neither_the_frame_nor_the_order_of_parts_changes_anything():
    piece = hung(dz=-15.0)
    (fault,) = told(piece).findings
    (again,) = told(shuffled(piece, 5)).findings
    away = place((300.0, -70.0, 41.0), "up", "front").swung(33.0, about=(10.0, 20.0))
    (elsewhere,) = told(carried(piece, away)).findings
    for other in (again, elsewhere):
        assert other.parts == fault.parts
        assert other.value == pytest.approx(fault.value, abs=0.02)


def test_what_hangs_on_a_lid_goes_along():
    piece = sound(BENCH)
    assert goes_along(piece, ["hatch"]) == ("hatch",)
    (turn,) = turns(piece)
    assert len(turn.fixed) == len(piece.parts) - 1
    assert scaled(turn.swing.along, -1.0) == pytest.approx((1.0, 0.0, 0.0))
