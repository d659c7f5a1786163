"""A drawer's play: measured as it was made, planted tight and loose ones found, nothing else accused."""

from __future__ import annotations

import copy
from dataclasses import replace

import cadquery as cq
import pytest

from model.checks.moving import Limits, moving, slides
from model.checks.travel.drawer_play import play
from model.checks.travel.ways import Ways
from model.joints.joint import Contact, Joint
from model.placement import Placement, place, scaled
from model.solids import standing
from tests.model.checks.planted import moved, sound
from tests.model.checks.test_moving import chest, drawer_case, graver, told, with_block
from tests.model.checks.whole_piece import carried


def measured(piece):
    ((slide, parts),) = slides(piece)
    return play(piece, Ways(standing(piece)), slide, parts)


def opening(piece, by):
    """The piece with its drawer meant to open so far, mm."""
    other = copy.copy(piece)
    other.slides = [replace(s, opens=by) for s in piece.slides]
    return other


@pytest.mark.parametrize(("side", "top"), [(0.8, 1.6), (0.5, 2.4), (1.4, 1.0)])
def test_the_play_is_what_the_drawer_was_made_with(side, top):
    found = measured(drawer_case(side_play=side, top_play=top))
    assert found.part == "drawer front"
    assert found.across == (pytest.approx(2.0 * side, abs=1e-3), pytest.approx(2.0 * side, abs=1e-3))
    assert found.above == (pytest.approx(top, abs=1e-3), pytest.approx(top, abs=1e-3))


def test_an_example_tells_its_play_and_the_report_has_it_along_the_way():
    answer = told(sound("refuge-cupboard"))
    (note,) = (f for f in answer.findings if "play" in f.message)
    assert (note.severity, note.value, note.limit) == ("note", 1.6, 3.2)
    (figure,) = answer.figures["drawer play"]
    assert set(figure["side_to_side_mm"]) == {1.6}
    assert figure["stations_mm"][0] == 0.0
    assert figure["stations_mm"][-1] == pytest.approx(sound("refuge-cupboard").slides[0].opens, abs=0.05)


@pytest.mark.parametrize(
    ("piece", "says", "value"),
    [
        (lambda: drawer_case(side_play=0.3), "binds", 0.6),
        (lambda: drawer_case(side_play=2.0), "racks", 4.0),
        (lambda: drawer_case(wide=380, side_play=1.8), "racks", 3.6),
        (lambda: drawer_case(top_play=0.2), "above it", 0.2),
        (lambda: drawer_case(top_play=7.0), "tips down", 7.0),
        (lambda: opening(drawer_case(), 460.0), "leaves its guides", None),
        (lambda: with_block(drawer_case(side_play=0.5), (19, 360, 100), (0.3, 30, 50)), "binds", 0.7),
    ],
)
def test_a_drawer_too_tight_or_too_loose_is_a_caution_and_nothing_else(piece, says, value):
    answer = told(piece())
    found = graver(answer)
    assert {f.parts for f in found} == {("drawer front",)}
    assert {f.severity for f in found} == {"caution"}
    assert any(says in f.message for f in found)
    if value is not None:
        assert found[0].value == pytest.approx(value, abs=1e-3)
    assert answer.proofs[1].checked - answer.proofs[1].held == 1
    assert answer.proofs[0].held == answer.proofs[0].checked


def with_button(piece, y, proud, long):
    """The drawer's left side with a button on it, so far proud and so long."""
    piece.given("button", cq.Workplane().box(proud, long, 20.0, centered=False), place((19.8 - proud, y, 120.0)))
    at = (19.8, y + long / 2.0, 130.0)
    piece.join(Joint("laid", "button", "left drawer side", (1.0, 0.0, 0.0), (Contact((at,), (-1.0, 0.0, 0.0)),)))
    return piece


@pytest.mark.parametrize("y", [120.0, 133.7, 201.3])
@pytest.mark.parametrize("long", [3.0, 0.5])
def test_two_buttons_that_pass_each_other_are_never_missed(y, long):
    """On the drawer and on the case, each so short that a look here and there would find them apart."""
    piece = with_block(with_button(drawer_case(), y, 0.3, long), (19.0, y - 57.1, 115.0), (0.3, long, 30.0))
    found = measured(piece)
    assert found.across[0] == pytest.approx(1.6 - 0.6, abs=1e-3)
    assert all(abs(s.open - 57.1) < long for s in found.stations if s.across < 1.1)


@pytest.mark.parametrize("thick", [(0.0, 0.5), (0.6, 0.1)])
def test_play_that_tapers_is_told_at_its_least_and_its_most(thick):
    """A wedge on the case, beside a button on the drawer that slides past some of it."""
    first, last = thick
    wedge = cq.Workplane().polyline([(0.0, 0.0), (first or 1e-3, 0.0), (last, 80.0), (0.0, 80.0)]).close().extrude(30.0)
    piece = with_button(drawer_case(), 200.0, 0.2, 5.0)
    piece.given("wedge", wedge, place((19.0, 95.0, 115.0)))
    ((slide, parts),) = slides(piece)
    ways, fixed = Ways(standing(piece)), [n for n in piece.parts if n not in parts]
    low, high = play(piece, ways, slide, parts).across
    for n in range(20):
        moved_by = Placement(scaled(slide.along, slide.opens * n / 19.0))
        met = (ways.first_met(parts, fixed, way, 25.0, moved_by) for way in ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)))
        assert low - 1e-3 <= sum(m.travel for m in met) <= high + 1e-3
    assert low == pytest.approx(1.6 - 0.2 - max(thick), abs=2e-3)


def test_the_limits_are_the_shops():
    piece = drawer_case(side_play=2.0)
    assert graver(moving(piece, Ways(standing(piece)), Limits(drawer_play=(0.4, 2.5)))) == []
    tight = drawer_case()
    assert graver(moving(tight, Ways(standing(tight)), Limits(drawer_play=(1.0, 2.5))))


def test_the_frame_changes_nothing():
    piece = drawer_case(side_play=2.0)
    away = place((300.0, -70.0, 41.0), "up", "front").swung(33.0, about=(10.0, 20.0))
    (one,), (other,) = (graver(told(p)) for p in (piece, carried(piece, away)))
    assert (one.parts, one.severity) == (other.parts, other.severity)
    assert one.value == pytest.approx(other.value, abs=1e-3)


@pytest.mark.parametrize(
    ("gap", "caught"), [(2.0, False), (4.9, False), (5.5, True), (9.0, True), (11.9, True), (12.5, False)]
)
def test_a_gap_at_a_hinge_that_takes_a_finger(gap, caught):
    """The lid of a chest hung so far over its back that fingers go in between."""
    from model.joints.hinged import Hinged

    piece = moved(chest(pin_y=2.5, pin_z=300.0 + gap / 2.0, opens=90.0), "lid", dz=gap)
    piece = moved(piece, "batten", dz=gap)
    piece.joints = [Hinged("continuous hinge", "lid", "back", (0.0, 0.0, -1.0), pin=piece.swings[0].pin)]
    found = [f for f in told(piece).findings if "takes a finger in" in f.message]
    assert bool(found) == caught
    assert {f.parts for f in found} <= {("lid", "back")}


def test_finger_gaps_are_the_orders():
    piece = chest(opens=100.0)
    other = with_block(piece, (100, -60, 620.0), (100, 40, 20))
    assert [f.parts for f in told(other).findings] == [("lid", "block")]
    assert moving(other, Ways(standing(other)), Limits(finger_gap=(8.0, 10.0))).findings == ()
