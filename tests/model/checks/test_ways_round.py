"""Ways home of several legs: found where no straight one is clear, proved where a step says them; trapped where a bit
less room leaves none, and nothing else accused."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.closing import closing
from model.checks.travel.closing_order import Build
from model.checks.travel.way_legs import in_the_way
from model.checks.travel.ways import Ways
from model.cuts.faces import Channel
from model.errors import DesignError
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.solids import standing
from model.stock import board
from model.way_home import come, push, tip, told
from tests.model.checks.whole_piece import carried

DEEP, SHALLOW, PANEL = 14.0, 6.0, 10.0


def answered(piece):
    return closing(Build(piece, Ways(standing(piece))))


def graver(answer):
    return [f for f in answer.findings if f.severity != "note"]


def blocks(*boxes, way=()):
    """Plain blocks, each set in a step of its own; the way is the last one's."""
    piece = Piece("blocks", Parameters())
    for name, (x, y, z, dx, dy, dz) in boxes:
        part = piece.given(name, cq.Workplane().box(dx, dy, dz, centered=False), place((x, y, z)))
        piece.step(f"Set {name}", part, way=way if name == boxes[-1][0] else ())
    return piece


def niche(lip=30.0, tall=40.0, way=()):
    """A box in a niche 100 high, open to the front over a lip."""
    return blocks(
        ("floor", (0, 0, 0, 200, 200, 20)),
        ("left", (0, 0, 20, 20, 200, 100)),
        ("right", (180, 0, 20, 20, 200, 100)),
        ("rear", (20, 180, 20, 160, 20, 100)),
        ("lip", (20, 0, 20, 160, 10, lip)),
        ("roof", (0, 0, 120, 200, 200, 20)),
        ("box", (60, 60, 20, 80, 80, tall)),
        way=way,
    )


def t_slot(neck=8.0, pocket=30.0, way=()):
    """A headed bar in a slot under two lips, which a pocket at one end lets out upward."""
    return blocks(
        ("bed", (0, 0, 0, 200, 60, 10)),
        ("near lip", (0, 0, 20, 200 - pocket, 30 - neck / 2, 10)),
        ("far lip", (0, 30 + neck / 2, 20, 200 - pocket, 30 - neck / 2, 10)),
        ("near cheek", (0, 0, 10, 200, 15, 10)),
        ("far cheek", (0, 45, 10, 200, 15, 10)),
        ("end", (200, 0, 0, 10, 60, 60)),
        ("start", (-10, 0, 0, 10, 60, 60)),
        ("head", (40, 16, 10, 26, 28, 9)),
        way=way,
    )


def hook(mouth=42.0):
    """A bed rail whose headed tongue has gone into a post through a mouth, and dropped into the slot below it."""
    piece = Piece("bed", Parameters())
    post = cq.Workplane().box(60, 60, 400, centered=False)
    for dx, dy, dz, at in (
        (15, 18, 40, (45, 21, 150)),
        (10, 40, 40, (40, 10, 150)),
        (20, 40, mouth, (40, 10, 190)),
    ):
        post = post.cut(cq.Workplane().box(dx, dy, dz, centered=False).translate(at))
    rail = cq.Workplane().box(300, 40, 40, centered=False)
    tongue = cq.Workplane().box(15, 16, 40, centered=False).translate((-15, 12, 0))
    head = cq.Workplane().box(8, 36, 40, centered=False).translate((-19, 2, 0))
    cap = cq.Workplane().box(500, 60, 20, centered=False)
    stood = [
        piece.given("post", post),
        piece.given("cap", cap, place((0, 0, 400))),
        piece.given("rail", rail.union(tongue).union(head), place((60, 10, 150))),
    ]
    for part in stood:
        piece.step(f"Set the {part.name}", part)
    return piece


def sliding_door(play=2.0, deep=DEEP, way=()):
    """A case 700 high whose door is lifted into a deep groove above and dropped into a shallow one below."""
    piece = Piece("cupboard", Parameters(thickness=20.0))
    left, right = piece.pair("side", board(700, 120), place((-20, 120, 0), grain="up", face="right"), middle=200)
    groove = PANEL + play
    floor = piece.add("floor", board(400, 120), place((0, 0, 30)), Channel((0, 14), (400, 14), groove, SHALLOW))
    under = place((0, 120, 680), grain="right", face="down")
    top = piece.add("top", board(400, 120), under, Channel((0, 106), (400, 106), groove, deep))
    low = 50 - SHALLOW
    door = piece.add("door", board(622, 200, PANEL), place((250, 14 - PANEL / 2 + PANEL, low), "up", "front"))
    piece.step("Stand the case", left, right, floor, top)
    piece.step("Hang the door", door, way=way)
    return piece


@pytest.mark.parametrize(
    ("piece", "part", "legs", "says"),
    [
        (niche, "box", 2, "downward"),
        (t_slot, "head", 2, "to the left"),
        (hook, "rail", 2, "downward"),
        (sliding_door, "door", 3, "tip it true"),
        (lambda: niche(lip=60.0, tall=35.0), "box", 2, "downward"),
        (lambda: sliding_door(play=1.5), "door", 3, "downward"),
    ],
)
def test_a_way_round_is_found_and_told(piece, part, legs, says):
    answer = answered(piece())
    assert graver(answer) == []
    (note,) = answer.findings
    assert note.parts == (part,)
    assert note.value == legs
    assert says in note.message
    assert all(p.checked == p.held for p in answer.proofs)


@pytest.mark.parametrize(
    ("piece", "part"),
    [
        (lambda: niche(lip=70.0), "box"),
        (lambda: t_slot(pocket=25.0), "head"),
        (lambda: hook(mouth=38.0), "rail"),
        (lambda: sliding_door(play=0.1), "door"),
        (lambda: sliding_door(deep=SHALLOW), "door"),
    ],
)
def test_where_there_is_too_little_room_the_part_is_trapped_and_nothing_else(piece, part):
    (fault,) = answered(piece()).findings
    assert (fault.severity, fault.parts[0]) == ("fault", part)
    assert "nor one of two legs" in fault.message


def foot(angle=2.5, way="right"):
    """The door's foot swung in about the front of its upper end, lifted 7 mm."""
    return tip(angle, (0.0, 14.0 - PANEL / 2, 673.0), way)


def hung(turn, lift=7.0):
    return sliding_door(way=(come(turn.leaning("up")), turn, push("down", lift)))


@pytest.mark.parametrize(
    "piece",
    [
        lambda: niche(way=(come("back"), push("down", 35))),
        lambda: niche(way=(come("back"), push("down", 55))),
        lambda: niche(way=(come("back"), push("right", 30), push("down", 40), push("left", 30))),
        lambda: t_slot(way=(come("down"), push("left", 133))),
        lambda: hung(foot()),
        lambda: hung(foot(2.0), 6.5),
    ],
)
def test_a_way_that_its_step_says_is_proved_and_nothing_is_said(piece):
    answer = answered(piece())
    assert answer.findings == ()
    assert all(p.checked == p.held for p in answer.proofs)


@pytest.mark.parametrize(
    ("piece", "pair"),
    [
        (lambda: niche(way=(come("back"), push("down", 25))), ("box", "lip")),
        (lambda: niche(way=(come("back"), push("down", 65))), ("box", "roof")),
        (lambda: niche(way=(come("back"), push("right", 45), push("down", 40))), ("box", "left")),
        (lambda: t_slot(way=(come("down"), push("left", 120))), ("head", "near lip")),
        (lambda: hung(foot(), 5.0), ("door", "floor")),
        (lambda: hung(foot(6.0)), ("door", "top")),
        (lambda: hung(foot(way="left")), ("door", "floor")),
        (lambda: hung(foot(0.8)), ("door", "floor")),
        (lambda: sliding_door(way=(come("up"), push("down", 7))), ("door", "floor")),
    ],
)
def test_a_way_said_that_is_blocked_is_a_fault_and_nothing_else_is_accused(piece, pair):
    (fault,) = answered(piece()).findings
    assert (fault.severity, fault.parts) == ("fault", pair)
    assert "says (bring it in" in fault.message
    assert "this way is clear: bring it in" in fault.message


def test_a_way_beside_a_straight_one_need_not_be_said():
    assert answered(niche(lip=-1.0 + 1.5, way=(come("back"), push("down", 10)))).findings == ()


@settings(max_examples=25, deadline=None)
@given(st.floats(5.0, 80.0), st.floats(15.0, 80.0))
def test_a_box_goes_over_a_lip_just_where_there_is_room_above_it(lip, tall):
    if abs(100.0 - lip - tall) < 0.05 or lip > 99.0 - 15.0:
        return
    piece = niche(lip, tall, way=(come("back"), push("down", lip)))
    met = in_the_way(Ways(standing(piece)), ["box"], [n for n in piece.parts if n != "box"], piece.steps[-1].way)
    assert (met is None) == (lip + tall < 100.0)


@pytest.mark.parametrize("piece", [niche, hook])
def test_the_frame_changes_nothing_of_what_is_found(piece):
    away = place((300.0, -70.0, 41.0), "up", "front").swung(33.0, about=(10.0, 20.0))
    (one,) = answered(carried(piece(), away)).findings
    assert (one.severity, one.value) == ("note", 2.0)


def test_said_legs_turn_with_the_piece():
    away = place((300.0, -70.0, 41.0), "up", "front").swung(33.0, about=(10.0, 20.0))
    assert answered(carried(hung(foot()), away)).findings == ()


def test_ways_that_make_no_sense_are_refused():
    piece = niche()
    for way in ((push("down", 5),), (come("up"), come("back")), (push("down", 5), come("up"))):
        with pytest.raises(DesignError, match="begins with come"):
            piece.step("Set it", piece["box"], way=way)
    with pytest.raises(DesignError, match="more than zero"):
        push("up", 0.0)
    with pytest.raises(DesignError, match="can't be tipped"):
        tip(200.0, (0, 0, 0), "up")
    with pytest.raises(DesignError, match="no direction is called"):
        come("sideways")


def test_a_way_reads_aloud():
    turn = tip(2.5, (0.0, 0.0, 0.0), "right")
    said = told((come(turn.leaning("up")), turn, push("down", 6.4)))
    assert said == "bring it in slantwise upward, then tip it true by 2.5°, then push it 6 mm downward"
    assert math.hypot(*turn.leaning("up")) == pytest.approx(1.0)
