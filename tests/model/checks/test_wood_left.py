"""Wood left by cuts: what is too thin is found, with how much is left, and the examples have enough."""

import math
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.checks.wood_left import remnants, wood_left
from model.cuts.edges import Bead, Chamfer, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, dado, groove
from model.cuts.through import Notch, Opening
from model.layout.outline import circle, rectangle
from model.order import read_order
from model.part import Part
from model.stock import board
from tests.model.checks.planted import BENCH, BOOKCASE, changed, sound
from tests.model.checks.whole_piece import shuffled

LEAST = 3.0


def cut(*cuts, thickness=19.0):
    return Part(board(600.0, 200.0, thickness, "eastern white pine")).cut(*cuts)


def thin(*cuts, thickness=19.0):
    """What is left where less than LEAST is."""
    return sorted(round(r.left, 3) for r in remnants(cut(*cuts, thickness=thickness), LEAST) if r.left < LEAST)


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_the_examples_have_enough(name):
    answer = wood_left(sound(name), read_order(name).shop.least_wood)
    assert answer.findings == ()
    assert answer.proofs[0].held == answer.proofs[0].checked > 50


@pytest.mark.parametrize(
    ("cuts", "left"),
    [
        ((dado(300, 19, 17, 0, 200),), [2.0]),
        ((Rabbet(edge="far", width=12, depth=16.5),), [2.5]),
        ((groove(60, 6, 9, 0, 600), groove(62, 6, 8, 0, 600, side="back")), [2.0]),
        ((groove(60, 6, 10, 0, 600), dado(300, 19, 10, 0, 200, side="back")), [-1.0]),
        ((groove(60, 6, 9, 0, 600), groove(68, 6, 9, 0, 600)), [2.0]),
        ((groove(1.5, 6, 9, 0, 600),), [1.5]),
        ((dado(300, 19, 9, 2.5, 200),), [2.5]),
        ((Opening(rectangle(100, 100, 2.0, 50)),), [2.0]),
        ((Opening(circle((100, 100), 50)), Opening(circle((152, 100), 50))), [2.0]),
        ((EdgeGroove(edge="near", width=15, depth=8, rise=2.0),), [2.0, 2.0]),
        ((EdgeGroove(edge="near", width=6, depth=8, rise=5.0), Chamfer(edge="near", width=3, sides="back")), [2.0]),
        ((EdgeGroove(edge="near", width=6, depth=8, rise=5), Bead(edge="near", radius=4, quirk=1, side="back")), [1.0]),
        ((EdgeGroove(edge="near", width=6, depth=8, rise=6.5), dado(300, 19, 5, 0, 200)), [1.5]),
        ((EdgeGroove(edge="near", width=6, depth=8, rise=6.5), groove(10, 6, 9, 0, 600)), [2.0]),
        ((Notch(rectangle(4, 195, -1, 2)),), [2.0]),
        ((Tongue(edge="far", thickness=2.5, length=6, rise=8),), [2.5]),
        ((Counterbore((50, 50, 19), (0, 0, -1), 10, 17, 4.5),), [2.0]),
        ((Bore((50, 4.0, 19), (0, 0, -1), 5, 10),), [1.5]),
        ((Bore((300, 0, 9.5), (0, 1, 0), 15, 30),), [2.0, 2.0]),
        ((BiscuitSlot((300, 100, 19), (0, 0, -1), (1, 0, 0)), dado(250, 100, 5, 0, 200, side="back")), [1.7]),
        ((BiscuitSlot((300, 0, 9.5), (0, 1, 0), (1, 0, 0)), dado(300, 19, 12, 0, 200)), [-4.0]),
        ((BiscuitSlot((600, 60, 9.5), (-1, 0, 0), (0, 1, 0)), Bore((590, 0, 9.5), (0, 1, 0), 6, 60)), [-4.0]),
        ((BiscuitSlot((600, 20, 9.5), (-1, 0, 0), (0, 1, 0)),), [0.0]),
    ],
)
def test_thin_wood_is_found(cuts, left):
    assert thin(*cuts) == pytest.approx(left, abs=0.02)


@pytest.mark.parametrize(
    "cuts",
    [
        (dado(300, 19, 9.5, 0, 200), Rabbet(edge="far", width=12, depth=9.5, side="face")),
        (dado(300, 19, 9.5, 0, 200), groove(60, 6, 9.5, 0, 600)),
        (dado(300, 19, 9.5, 0, 200), EdgeGroove(edge="near", width=6, depth=8, rise=6.5)),
        (dado(300, 19, 9.5, 12, 200), Bead(edge="near", radius=3, quirk=1.5)),
        (Tongue(edge="near", thickness=5, length=6, rise=7), Bead(edge="near", radius=3, quirk=1.5, inset=6)),
        (Bore((50, 50, 19), (0, 0, -1), 5, 19),),
        (Notch(rectangle(4, 13, -1, -1)),),
    ],
)
def test_cuts_that_may_meet_are_left_alone(cuts):
    assert thin(*cuts) == []


@given(st.floats(0.5, 18.5), st.floats(0.5, 18.5))
def test_opposite_grooves_leave_what_is_between_them(one, other):
    a, b = groove(60, 10, one, 0, 600), groove(60, 10, other, 0, 600, side="back")
    between = [r.left for r in remnants(cut(a, b), LEAST) if "over it" in r.place]
    assert between == [pytest.approx(19.0 - one - other)]


@given(st.floats(0.0, 90.0), st.floats(10.0, 30.0))
def test_a_turned_channel_leaves_the_same_wall(degrees, width):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    start, end = (300 - 40 * c, 100 - 40 * s), (300 + 40 * c, 100 + 40 * s)
    aside = (-(width + 2.0) * s, (width + 2.0) * c)
    beside = [(p[0] + aside[0], p[1] + aside[1]) for p in (start, end)]
    part = cut(Channel(start, end, width, 5), Channel(*beside, width, 5))
    walls = [r.left for r in remnants(part, LEAST) if "beside it" in r.place]
    assert walls == [pytest.approx(2.0)]


def test_a_cut_that_comes_through_is_a_fault_and_a_thin_one_a_caution():
    piece = sound(BOOKCASE)
    side = piece["left side"].wood
    deep = replace(side, cuts=tuple(replace(c, depth=17.0) if isinstance(c, Channel) else c for c in side.cuts))
    thin_side = wood_left(changed(piece, "left side", part=deep), LEAST).findings
    assert {f.severity for f in thin_side} == {"caution"}
    assert {f.parts for f in thin_side} == {("left side",)}
    assert len(thin_side) == 5
    through = side.cut(dado(250, 19, 15, 20, 230, side="back"), groove(100, 10, 6, 200, 300))
    (fault,) = [
        f for f in wood_left(changed(piece, "left side", part=through), LEAST).findings if f.severity == "fault"
    ]
    assert fault.value == pytest.approx(-2.0)
    assert "no wood is left between the dado and the groove" in fault.message


def test_equal_parts_share_a_finding_and_the_place_lies_in_the_first():
    piece = shuffled(sound(BOOKCASE), 0)
    shelves = [n for n in piece.parts if n.startswith("shelf")]
    for name in shelves:
        piece.parts[name] = replace(piece[name], part=piece[name].wood.cut(groove(100, 6, 17, 100, 300, side="back")))
    (finding,) = wood_left(piece, LEAST).findings
    assert set(finding.parts) == set(shelves)
    assert "2 more cut like it" in finding.message
    x, y, z = piece[finding.parts[0]].at.own_point(finding.where)
    assert (x, y) == pytest.approx((200.0, 103.0))
    assert 0.0 < z < 19.0


def test_a_mirrored_part_leaves_the_same():
    part = cut(groove(1.5, 6, 17, 0, 600), Bore((50, 4.0, 19), (0, 0, -1), 5, 10))
    lefts = sorted(r.left for r in remnants(part, LEAST))
    assert sorted(r.left for r in remnants(part.mirrored(), LEAST)) == pytest.approx(lefts)


def test_the_kernel_is_not_needed():
    heavy = "('OCP', 'cadquery', 'shapely')"
    code = f"import sys, model.checks.wood_left; print(any(m.split('.')[0] in {heavy} for m in sys.modules))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "False\n"


@pytest.mark.parametrize(
    ("example", "name", "planted", "left"),
    [
        (BOOKCASE, "right side", dado(500, 19, 17.5, 20, 220), 1.5),
        (BOOKCASE, "shelf 1", groove(100, 6, 16.5, 100, 300), 2.5),
        (BOOKCASE, "back board 3", groove(30, 6, 10, 100, 300), 2.0),
        (BOOKCASE, "plinth", Bore((300, 35, 19), (0, 0, -1), 8, 18), 1.0),
        (BOOKCASE, "top", Opening(rectangle(100, 50, 400, 186.0)), 2.0),
        (BENCH, "left side", dado(700, 19, 17, 20, 200), 2.0),
        (BENCH, "right side", dado(426, 6, 8, 100, 200, side="back"), 1.5),
        (BENCH, "back board 3", groove(30, 6, 18, 100, 300), 1.0),
        (BENCH, "hatch", Bore((300, 100, 0), (0, 0, 1), 8, 18.5), 0.5),
        (BENCH, "band", Bore((300, 70, 0), (0, 0, 1), 8, 10), 2.0),
    ],
)
def test_a_deep_cut_planted_in_a_piece_accuses_that_part_alone(example, name, planted, left):
    piece = sound(example)
    (finding,) = wood_left(changed(piece, name, part=piece[name].wood.cut(planted)), LEAST).findings
    assert finding.parts == (name,)
    assert finding.value == pytest.approx(left, abs=0.01)
    assert finding.severity == "caution"
