"""Every kind of cut there is has words and a setting of its own."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from typing import Any

import pytest

import model.cuts
from drawings.lists.cut_words import WORDS, cut_in_words, cuts_in_words
from drawings.lists.setups import SETTINGS, settings_of
from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, Tongue
from model.cuts.faces import Bore
from model.cuts.laps import Lap, Shoulder
from model.cuts.legs import Station, Taper, Turned
from model.cuts.moulding import Moulding, ogee, round_over
from model.cuts.removal import Plane
from model.cuts.sawn import SawCut, SawnGroove
from model.cuts.shelf_bores import shelf_bores
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Opening, Profile
from model.joints.samples import samples
from model.layout.outline import circle, rectangle
from model.part import Part
from model.stock import board

BOARD = Part(board(600, 100, 30, "red oak"))
LEG = Part(board(700, 45, 45, "red oak"))

#: Cuts that no joint makes.
ALONE: list[tuple[Cut, Part]] = [
    (Bead(edge="near", radius=3, quirk=1.5), BOARD),
    (Bevel(edge="near", angle=5), BOARD),
    (Ease(edge="near", radius=3), BOARD),
    (Chamfer(edge="near", width=3), BOARD),
    (Tongue(edge="near", thickness=6, length=8, rise=6), BOARD),
    (Moulding(edge="near", section=ogee(9), called="ogee"), BOARD),
    (Profile(rectangle(600, 100)), BOARD),
    (Opening(circle((300, 50), 40)), BOARD),
    (Taper(("near", "face"), 500, 25), LEG),
    (Turned((Station(100, 40), Station(300, 30), Station(600, 42))), LEG),
]

#: Sawn to a line that is laid out: nothing is set.
LAID_OUT = {Profile, Opening}


def kinds() -> list[type[Cut]]:
    """Every cut that can be made, in any module of cuts."""
    for found in pkgutil.iter_modules(model.cuts.__path__):
        importlib.import_module(f"model.cuts.{found.name}")

    def below(kind: Any) -> Iterator[type[Cut]]:
        for sub in kind.__subclasses__():
            if sub.__module__.startswith("model."):
                yield sub
                yield from below(sub)

    return [k for k in dict.fromkeys(below(Cut)) if not inspect.isabstract(k)]


def made() -> list[tuple[Cut, Part]]:
    """A cut of every kind, in the part it is made in."""
    return ALONE + [(c, p.wood) for s in samples() for p in s.parts for c in p.wood.cuts]


@pytest.mark.parametrize("kind", kinds(), ids=lambda k: k.__name__)
def test_every_kind_of_cut_has_words_of_its_own(kind: type[Cut]) -> None:
    assert kind in WORDS
    found = [(c, p) for c, p in made() if type(c) is kind]
    assert found, "show one here or in a joint's sample"
    for cut, part in found:
        said = cut_in_words(cut, part)
        assert said != cut.name
        assert re.search(r"\d", said) or kind is Profile, said
        assert "-0 " not in said


@pytest.mark.parametrize("kind", [k for k in kinds() if k not in LAID_OUT], ids=lambda k: k.__name__)
def test_every_kind_of_cut_has_its_setting(kind: type[Cut]) -> None:
    assert kind in SETTINGS
    for cut, part in made():
        if type(cut) is kind:
            settings = list(settings_of(cut, part))
            assert settings
            assert all(s.width or s.depth or s.angle is not None for s in settings)


def wood_of(name: str, part: str) -> Part:
    (sample,) = (s for s in samples() if s.name == name)
    return next(p.wood for p in sample.parts if p.name == part)


SAID = {
    ("mortise and tenon", "rail"): [
        "tenon 7.3 thick × 47.3 wide × 30 long, on left end, 7.3 from back side, 6.3 from near edge"
    ],
    ("mortise and tenon", "leg"): [
        "mortise 47.3 long × 7.3 wide × 31.5 deep, long along the grain, in near edge, 115 from left end, "
        "22.5 from back side"
    ],
    ("twin tenon", "rail"): [
        "twin tenon 2 of 9 thick × 47.3 wide × 34 long, on left end, 9 and 27 from back side, 6.3 from near edge"
    ],
    ("through dovetail", "front"): [
        "2 tails 16 long, slope 1:6, on right end, marked on face side, tips 4.7 to 43.3, 52.7 to 91.3 from near edge"
    ],
    ("cross half lap", "first lath"): ["cross lap 45 × 12.5 deep, back side, shoulders 62.5 and 107.5 from left end"],
    ("miter", "first member"): ["saw cut at right end, miter 45°, 150 from left end at near edge, back side"],
    ("scarf", "second length"): [
        "saw cut at left end, square across, planed to a slope 1:8, 190 from right end at near edge, back side"
    ],
    ("corner bridle", "rail"): ["open mortise 6.3 wide × 45 deep, in left end, 6.3 from back side"],
    ("slotted", "second divider"): [
        "slot 12.2 wide × 32 long right through, in from far edge, its middle 80 from left end"
    ],
}


@pytest.mark.parametrize(("joint", "part"), SAID)
def test_a_joint_is_told_in_a_makers_words(joint: str, part: str) -> None:
    wood = wood_of(joint, part)

    assert cuts_in_words(wood.cuts, wood) == SAID[joint, part]


def test_a_skew_lap_tells_its_angle() -> None:
    skew = Lap((Shoulder((100, 0), (0.866025, -0.5)),), 12)

    assert cut_in_words(skew, BOARD).startswith("end lap")
    assert "shoulder at 60° to the grain 100 from left end" in cut_in_words(skew, BOARD)


def test_compound_saw_cuts_give_both_angles_to_set() -> None:
    cut = SawCut((400, 0, 0), (0.8137977, -0.4698463, -0.3420201))
    (setting,) = settings_of(cut, BOARD)

    assert (setting.angle, setting.tilt, setting.fence) == pytest.approx((30, 20, 400), abs=1e-4)
    assert "miter 30°, blade tilted 20°, 400 from left end" in cut_in_words(cut, BOARD)


def test_a_rip_is_set_from_the_other_edge() -> None:
    (setting,) = settings_of(SawCut((0, 80, 0), (0, 1, 0)), BOARD)

    assert (setting.cut, setting.fence, setting.against, setting.tilt) == ("rip", 80, "other edge", 0)


def test_a_lap_is_set_by_its_shoulders_from_the_nearer_end() -> None:
    wood = wood_of("tee half lap", "second lath")
    fences = [(s.fence, s.against, s.angle) for c in wood.cuts for s in settings_of(c, wood)]

    assert fences == [(62.5, "left end", 0), (62.5, "right end", 0)]


def test_rows_of_shelf_bores_are_told_and_set_once() -> None:
    side = BOARD.cut(*shelf_bores(BOARD, 40, 500, inset=20))

    assert cuts_in_words(side.cuts, side) == [
        "row of 15 holes 5 diameter × 12.7 deep, 32 apart, face side, 20 from near edge, "
        "from 40 to 488 off the left end",
        "row of 15 holes 5 diameter × 12.7 deep, 32 apart, face side, 80 from near edge, "
        "from 40 to 488 off the left end",
    ]
    uneven = BOARD.cut(*side.cuts[:5], *side.cuts[7:15])
    assert all(told.startswith("hole") for told in cuts_in_words(uneven.cuts, uneven))


def test_the_same_tenon_on_both_ends_is_told_once() -> None:
    tenon = Tenon(10, 80, 10, 10)
    ends = [TenonedEnd(Plane((1.0, 0.0, 0.0), 560.0), (tenon,)), TenonedEnd(Plane((-1.0, 0.0, 0.0), -40.0), (tenon,))]
    hole = Bore((300, 50, 30), (0, 0, -1), 8, 30)

    assert cuts_in_words([*ends, hole], BOARD) == [
        "tenon 10 thick × 80 wide × 40 long, on both ends, 10 from back side, 10 from near edge",
        "hole 8 diameter, right through, face side, 300 from left end, 50 from near edge",
    ]


def test_a_slanting_hole_into_a_side_is_told_from_that_side() -> None:
    hole = Bore((200, 40, 30), (0.3, -0.4, -(0.75**0.5)), 8, 20)
    (setting,) = settings_of(hole, BOARD)

    assert cut_in_words(hole, BOARD) == (
        "hole 8 diameter × 20 deep, face side, 200 from left end, 40 from near edge, 60° to the side, "
        "53.1° to the grain toward right end and near edge"
    )
    assert (setting.depth, setting.angle, setting.fence) == pytest.approx((20, 30, None))
    assert setting.place == "face side, leaning toward right end and near edge, laid out"


def test_holes_through_and_mouldings_and_keys_are_told() -> None:
    cove = Moulding(edge="far", section=round_over(6), called="round-over", side="back")
    key = SawnGroove((0, 50, 30), (0.7071068, 0, -0.7071068), (0, 1, 0), 3.2, 20, "key slot")

    assert cut_in_words(cove, BOARD) == "round-over 6 wide × 6 deep, along far edge, back side"
    assert cut_in_words(key, BOARD).startswith("key slot 3.2 wide × 20 deep, in left end, tilted 45°")
