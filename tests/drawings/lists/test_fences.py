"""Fences and stops touch the finished part, never a piece of the blank that is gone."""

from __future__ import annotations

import math

import pytest

from drawings.lists.cut_words import cut_in_words
from drawings.lists.fences import nearer_fence, saw_stop, shoulder_stop
from drawings.lists.setups import settings_of
from model.cuts.faces import dado
from model.cuts.laps import Shoulder
from model.cuts.sawn import SawCut
from model.part import Part
from model.stock import board

COS = math.sqrt(0.5)
LEFT = SawCut((20.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
#: What is left of 600 mm lies from 20 to 560, of its width from 10 to 100.
SHORT = Part(
    board(600, 100, 20, "red oak"),
    (LEFT, SawCut((560.0, 0.0, 0.0), (1.0, 0.0, 0.0)), SawCut((0.0, 10.0, 0.0), (0.0, -1.0, 0.0))),
)


def test_a_dado_is_set_from_the_end_that_is_left() -> None:
    near, far = nearer_fence(SHORT, 0, 120.0, 138.0), nearer_fence(SHORT, 0, 500.0, 518.0)

    assert (near.distance, near.named) == (100.0, "left end")
    assert (far.distance, far.named) == (42.0, "right end")
    assert cut_in_words(dado(120, 18, 6, 0, 100), SHORT) == "dado 18 × 6 deep, face side, 100 from left end"


def test_a_crosscut_is_stopped_at_the_other_end() -> None:
    (setting,) = settings_of(LEFT, SHORT)

    assert (setting.cut, setting.fence, setting.against) == ("crosscut", 540.0, "other end")
    assert cut_in_words(LEFT, SHORT) == (
        "saw cut at left end, square across, 540 from right end at near edge, back side"
    )


def test_a_corner_sawn_off_is_set_where_it_meets_the_far_edge() -> None:
    corner = SawCut((0.0, 70.0, 0.0), (-COS, COS, 0.0))
    part = Part(board(600, 100, 20, "red oak")).cut(corner)

    assert saw_stop(corner, part).distance == pytest.approx(570.0)
    assert cut_in_words(corner, part).endswith("570 from right end at far edge, back side")


def test_a_bevel_that_leaves_the_back_side_alone_is_set_face_side_down() -> None:
    bevel = SawCut((590.0, 0.0, 20.0), (COS, 0.0, COS))
    part = Part(board(600, 100, 20, "red oak")).cut(bevel)
    (setting,) = settings_of(bevel, part)

    assert (setting.fence, setting.place) == (pytest.approx(590.0), "right end, face side down")


def test_a_laps_shoulder_is_set_from_the_nearer_end_that_is_left() -> None:
    first, last = (shoulder_stop(Shoulder((x, 0.0), (1.0, 0.0)), SHORT) for x in (80.0, 500.0))

    assert (first.distance, first.against) == (60.0, "left end")
    assert (last.distance, last.against) == (60.0, "right end")
