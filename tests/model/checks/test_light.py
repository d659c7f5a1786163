"""Light: a joint that shows a gap is found, with its width, length and place; rooms left on purpose are not."""

import math
from dataclasses import replace

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.checks.light import light
from model.cuts.cut import Cut
from model.cuts.edges import Tongue
from model.cuts.laps import Lap
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut
from model.cuts.tenons import TenonedEnd
from model.cuts.through import Profile
from model.joints.dowelled import dowelled_edges
from model.joints.joint import Contact, Joint
from model.joints.lap import half_lap
from model.joints.miter import miter
from model.joints.mortise import mortise_and_tenon
from model.joints.sample_pairs import frame_corner, rail_and_leg, stood
from model.joints.samples import samples
from model.layout.outline import Outline
from model.orders import example_names
from model.parameters import Parameters
from model.piece import Piece, Placed
from model.placement import Placement, place
from model.stock import board
from tests.model.checks.planted import BENCH, BOOKCASE, changed, moved, shapes, sound
from tests.model.checks.whole_piece import carried, shuffled

LIMIT = 0.15


def told(piece, limit=LIMIT):
    return light(piece, shapes(piece), limit)


def joined(joint, *parts: Placed) -> Piece:
    """A piece of two parts and a joint."""
    piece = Piece("pair", Parameters())
    piece.parts = {p.name: p for p in parts}
    piece.join(joint)
    return piece


def recut(piece, name, kind, new) -> Piece:
    """One part's cuts of a kind made otherwise."""
    part = piece[name].wood
    cuts: list[Cut] = [new(c) if isinstance(c, kind) else c for c in part.cuts]
    return changed(piece, name, part=replace(part, cuts=tuple(cuts)))


def turned(normal, degrees):
    """A normal turned about z."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c * normal[0] - s * normal[1], s * normal[0] + c * normal[1], normal[2])


@pytest.mark.parametrize("name", example_names())
def test_sound_pieces_show_no_light(name):
    answer = told(sound(name))
    assert answer.findings == ()
    assert all(p.held == p.checked > 0 for p in answer.proofs)


@pytest.mark.parametrize("sample", samples(), ids=lambda s: s.name)
def test_rooms_a_joint_is_made_to_leave_are_not_accused(sample):
    piece = Piece("sample", Parameters())
    piece.parts = {p.name: p for p in sample.parts}
    piece.joints = list(sample.joints)
    assert told(piece).findings == ()


@pytest.mark.parametrize(
    ("example", "part", "step", "other", "wide", "through"),
    [
        (BOOKCASE, "shelf 2", (0.4, 0, 0), "left side", 0.4, True),
        (BOOKCASE, "plinth", (0, 0, -0.4), "bottom", 0.4, True),
        (BOOKCASE, "back board 1", (0.5, 0, 0), "left side", 0.5, False),
        (BENCH, "seat rail", (0, 0, -0.3), "seat", 0.3, False),
        ("refuge-chest", "front", (0, -0.3, 0), "left end", 0.3, True),
        ("refuge-stool", "seat", (0, 0, 0.5), "first frame", 0.5, True),
        ("refuge-table", "top", (0, 0, 0.25), "left head", 0.25, True),
    ],
)
def test_a_part_that_stands_off_shows_light(example, part, step, other, wide, through):
    answer = told(moved(sound(example), part, *step))
    assert all(part in f.parts for f in answer.findings), "only the moved part may be accused of anything"
    finding = next(f for f in answer.findings if set(f.parts) == {part, other})
    assert (finding.check, finding.severity) == ("light", "caution")
    assert finding.value == pytest.approx(wide, abs=0.005)
    assert finding.limit == pytest.approx(LIMIT)
    assert ("light shows through" in finding.message) == through


@pytest.mark.parametrize(("off", "shown"), [(0.1, False), (0.3, True)])
def test_a_tongues_shoulders_that_stand_off_show_light(off, shown):
    """A board with a tongue on both its edges, both cut too long."""
    piece = recut(sound(BOOKCASE), "back board 2", Tongue, lambda t: replace(t, length=t.length + off))
    found = told(piece).findings
    pairs = [{"back board 2", f"back board {n}"} for n in (1, 3)] if shown else []
    assert sorted(map(sorted, (f.parts for f in found))) == sorted(map(sorted, pairs))
    assert all(f.value == pytest.approx(off, abs=1e-3) for f in found)


@pytest.mark.parametrize(("wide", "shown"), [(0.1, False), (0.3, True)])
@pytest.mark.parametrize("let_in", ["rail", "stile"])
def test_a_laps_shoulder_that_stands_off_shows_light(let_in, wide, shown):
    rail = stood("rail", board(400.0, 60.0, 20.0), Placement((-200.0, -30.0, 0.0)).swung(20.0, about=(0.0, 0.0)))
    stile = stood("stile", board(400.0, 50.0, 20.0), Placement((25.0, -200.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)))
    piece = recut(joined(half_lap(rail, over=stile), rail, stile), let_in, Lap, lambda lap: _eased(lap, wide))
    assert [(set(f.parts), f.value) for f in told(piece).findings] == (
        [({"rail", "stile"}, pytest.approx(wide, abs=1e-3))] if shown else []
    )


def _eased(lap, by):
    """One of its shoulders further out."""
    first, *rest = lap.shoulders
    (x, y), (dx, dy) = first.at, first.beyond
    return replace(lap, shoulders=(replace(first, at=(x + by * dx, y + by * dy)), *rest))


def test_within_the_limit_nothing_is_said():
    near = moved(sound(BOOKCASE), "shelf 2", 0.4)
    assert told(near, 0.41).findings == ()
    assert told(moved(sound(BOOKCASE), "shelf 2", 0.14)).findings == ()


def test_what_the_wood_about_it_hides_is_not_accused():
    assert told(moved(sound("refuge-cupboard"), "drawer rail", 0.0, -0.3)).findings == ()


@pytest.mark.parametrize("degrees", [0.3, 0.5])
def test_a_shoulder_off_square_shows_a_wedge(degrees):
    rail, leg = rail_and_leg(30.0)
    piece = joined(mortise_and_tenon(rail, leg), rail, leg)
    width = rail.wood.stock.width

    def off_square(end: TenonedEnd) -> TenonedEnd:
        """Cut through the same near corner of the shoulder."""
        normal, corner = end.shoulder.normal, (end.shoulder.offset * end.shoulder.normal[0], 0.0)
        lean = turned(normal, -math.copysign(degrees, normal[0]))
        if lean[1] < 0.0:
            lean = turned(normal, math.copysign(degrees, normal[0]))
        return replace(end, shoulder=Plane(lean, lean[0] * corner[0] + lean[1] * corner[1]))

    (finding,) = told(recut(piece, "rail", TenonedEnd, off_square)).findings
    assert set(finding.parts) == {"rail", "leg"}
    assert finding.value == pytest.approx(width * math.tan(math.radians(degrees)), abs=1e-4)


def test_a_miter_cut_at_44_7_degrees_opens_at_one_end():
    first, second = frame_corner()
    piece = joined(miter(first, second), first, second)
    assert told(piece).findings == ()
    long = math.hypot(45.0, 45.0)

    def off(cut: SawCut) -> SawCut:
        """Through the same inner corner."""
        inner = (first.wood.stock.length - 45.0, 45.0, cut.at[2])
        return replace(cut, at=inner, out=turned(cut.out, -0.3))

    (finding,) = told(recut(piece, first.name, SawCut, off)).findings
    assert finding.value == pytest.approx(long * math.tan(math.radians(0.3)), rel=0.01)
    assert "miter" in finding.message


def test_a_tongue_too_short_shows_at_the_ends_of_the_boards():
    piece = sound(BOOKCASE)
    tongued = piece["back board 2"].wood
    edge = next(c.edge for c in tongued.cuts if isinstance(c, Tongue))
    near = edge == "near"
    tip = SawCut((0.0, 1.0 if near else tongued.stock.width - 1.0, 0.0), (0.0, -1.0 if near else 1.0, 0.0))
    (finding,) = told(changed(piece, "back board 2", part=replace(tongued, cuts=(*tongued.cuts, tip)))).findings
    assert finding.parts == ("back board 2", "back board 1")
    assert finding.value == pytest.approx(1.8, abs=0.01)
    assert finding.limit == pytest.approx(0.8 + LIMIT)


def test_an_edge_planed_hollow_shows_in_the_middle():
    first = stood("first board", board(600, 70), place())
    second = stood("second board", board(600, 70), place((0, 70, 0)))
    piece = joined(dowelled_edges(first, second, spacing=200.0), first, second)
    hollow = 0.3
    corners = ((0.0, 0.0), (600.0, 0.0), (600.0, 70.0), (0.0, 70.0))
    ring = Outline(corners, (-2.0 * hollow / 600.0, 0.0, 0.0, 0.0))
    part = second.wood
    hollowed = changed(piece, "second board", part=replace(part, cuts=(Profile(ring), *part.cuts)))
    (finding,) = told(hollowed).findings
    assert finding.value == pytest.approx(hollow, abs=0.01)
    assert abs(finding.where[0] - 300.0) < 50.0
    assert "light shows through" in finding.message


def wedge(degrees: float, long: float, wide: float) -> Piece:
    """A block on another, its underside cut off square by so much."""
    rise = long * math.tan(math.radians(degrees))
    plan = cq.Workplane("XZ").polyline([(0, 0), (long, rise), (long, 40), (0, 40)]).close()
    piece = Piece("wedge", Parameters())
    piece.given("block", plan.extrude(-wide))
    piece.given("bed", cq.Workplane().box(long + 40, wide + 40, 20, centered=False).translate((-20, -20, -20)))
    met = Contact(((long / 2.0, wide / 2.0, 0.0),), (0.0, 0.0, 1.0))
    piece.joints = [Joint("rest", "block", "bed", (0.0, 0.0, -1.0), (met,))]
    return piece


@settings(max_examples=12, deadline=None)
@given(st.floats(0.2, 1.0), st.floats(60.0, 110.0), st.floats(20.0, 60.0))
def test_a_wedge_is_as_wide_and_long_as_its_angle_says(degrees, long, wide):
    tangent = math.tan(math.radians(degrees))
    (finding,) = told(wedge(degrees, long, wide)).findings
    assert finding.value == pytest.approx(long * tangent, abs=1e-3)
    length = wide + 2.0 * (long - LIMIT / tangent)
    assert f"{length:.0f} mm of it in sight" in finding.message
    assert finding.where == pytest.approx((long, wide / 2.0, long * tangent / 2.0), abs=3.0)


def test_order_and_place_change_nothing():
    piece = moved(sound(BOOKCASE), "shelf 2", 0.4)
    expected = told(piece).findings
    assert expected
    assert told(shuffled(piece, 3)).findings == expected
    motion: Placement = place((900.0, -50.0, 3.0), "up", "left").swung(33.0, about=(0.0, 0.0))
    away = told(carried(piece, motion)).findings
    assert [(f.parts, f.message, f.value) for f in away] == [(f.parts, f.message, f.value) for f in expected]


def test_mirrored_faults_are_mirrored():
    left = told(moved(sound(BOOKCASE), "shelf 2", 0.4)).findings
    right = told(moved(sound(BOOKCASE), "shelf 2", -0.4)).findings
    assert [f.parts for f in left] == [("shelf 2", "left side")]
    assert [f.parts for f in right] == [("shelf 2", "right side")]
    swapped = [f.message.replace("left", "right") for f in left]
    assert swapped == [f.message for f in right]
    middle = sum(f.where[0] for f in (*left, *right)) / 2.0
    ends = [sound(BOOKCASE)[n].at.origin[0] for n in ("left side", "right side")]
    assert middle == pytest.approx(sum(ends) / 2.0, abs=0.01)
