"""Contact: a joint that opens is found, with how far; a sound piece is in contact everywhere."""

from dataclasses import replace

import cadquery as cq
import pytest

from model.checks.contact import contact
from model.joints.joint import Joint
from model.placement import dot, place, scaled
from tests.model.checks.planted import BENCH, BOOKCASE, longer, moved, shapes, sound
from tests.model.checks.whole_piece import carried, shuffled


def told(piece):
    return contact(piece, shapes(piece))


@pytest.mark.parametrize(("name", "joints"), [(BENCH, 130), (BOOKCASE, 46)])
def test_sound_pieces_are_in_contact(name, joints):
    answer = told(sound(name))
    assert answer.findings == ()
    assert answer.proofs[0].held == answer.proofs[0].checked == len(sound(name).joints)
    assert len(sound(name).joints) >= joints


@pytest.mark.parametrize(
    ("example", "part", "step", "other", "gap"),
    [
        (BOOKCASE, "shelf 2", (1, 0, 0), "left side", 1.0),
        (BOOKCASE, "shelf 2", (-0.05, 0, 0), "right side", 0.05),
        (BOOKCASE, "plinth", (0, 0, -1), "bottom", 1.0),
        (BOOKCASE, "back board 1", (0, 1, 0), "bottom", 1.0),
        (BOOKCASE, "back board 1", (0.5, 0, 0), "left side", 0.5),
        (BOOKCASE, "left side", (-1, 0, 0), "plinth", 1.0),
        (BENCH, "seat rail", (0, 0, -1), "seat", 1.0),
        (BENCH, "floor cleat", (0, 0, 1), "floor", 1.0),
        (BENCH, "hatch", (0, 0, 1), "seat cleat", 1.0),
        (BENCH, "front board 3", (0, -1, 0), "floor", 1.0),
        (BENCH, "band", (0, 1, 0), "floor", 1.0),
    ],
)
def test_a_part_moved_off_its_neighbour_opens_the_joint(example, part, step, other, gap):
    answer = told(moved(sound(example), part, *step))
    assert all(part in f.parts for f in answer.findings), "only the moved part may be accused of anything"
    opened = next(f for f in answer.findings if set(f.parts) == {part, other})
    assert opened.value == pytest.approx(gap, rel=0.1)
    assert opened.severity == "fault"
    assert opened.limit < opened.value


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_shelf_against_either_end_opens_the_other(way):
    piece = sound(BOOKCASE)
    left, right = (
        next(j for j in piece.joints if (j.first, j.second) == ("shelf 1", s)) for s in ("left side", "right side")
    )
    assert dot(left.closes, right.closes) == pytest.approx(-1.0)
    answer = told(moved(piece, "shelf 1", *scaled(left.closes, way)))
    assert [f.parts for f in answer.findings] == [("shelf 1", "right side" if way > 0 else "left side")]


def test_a_short_shelf_is_found_and_a_hair_is_not():
    assert [f.parts for f in told(longer(sound(BOOKCASE), "shelf 1", -0.05)).findings] == [("shelf 1", "right side")]
    assert told(longer(sound(BOOKCASE), "shelf 1", -0.01)).findings == ()


def test_a_joint_without_points_is_held_to_the_distance():
    piece = shuffled(sound(BOOKCASE), 0)
    height = piece["shelf 1"].at.origin[2] + 19.0
    piece.given("box", cq.Workplane().box(50, 50, 50, centered=False), place((200.0, 100.0, height + 0.3)))
    loose = Joint("rest", "box", "shelf 1", (0.0, 0.0, -1.0))
    piece.joints = [*piece.joints, loose]
    (finding,) = told(piece).findings
    assert finding.value == pytest.approx(0.3)
    assert "box and shelf 1" in finding.message
    piece.joints[-1] = replace(loose, fit=0.29)
    assert told(piece).findings == ()


def test_wood_that_is_not_where_they_meet_is_told_apart_from_a_gap():
    piece = moved(sound(BENCH), "floor cleat", 0.0, -60.0)
    messages = [f.message for f in told(piece).findings]
    assert messages
    assert all("floor cleat" in m for m in messages)


def test_order_and_place_change_nothing():
    piece = moved(sound(BOOKCASE), "shelf 2", 1.0)
    expected = told(piece).findings
    assert told(shuffled(piece, 3)).findings == expected
    away = told(carried(piece, place((900.0, -50.0, 3.0), "up", "left").swung(33.0, about=(0.0, 0.0)))).findings
    assert [(f.parts, f.message, f.value) for f in away] == [(f.parts, f.message, f.value) for f in expected]
