"""Glue-ups: clamps and minutes by hand, and what an order's glue and clamps change."""

import copy
import math
from dataclasses import replace

import pytest

from model.checks.glue_up import (
    AT_ONCE_LATE,
    AT_ONCE_SHORT,
    CLAMP_FORCE,
    DRIVE,
    KEY,
    SPREAD,
    START,
    clamps_for,
    glue_up,
    glue_ups,
    in_goes,
    pressure_for,
)
from model.checks.travel.closing_order import Build
from model.checks.travel.ways import Ways
from model.joints.joint import Contact, Joint
from model.solids import standing
from tests.model.checks.planted import BENCH, BOOKCASE, sound


def build(piece):
    return Build(piece, Ways(standing(piece)))


def without_nails(piece):
    other = copy.copy(piece)
    other.joints = [replace(j, hardware=()) if j.glue_area else j for j in piece.joints]
    return other


@pytest.mark.parametrize(("density", "pressure"), [(300, 0.7), (380, 0.7), (590, 1.2), (800, 1.7), (900, 1.7)])
def test_pressure_keeps_within_the_handbooks_two_figures(density, pressure):
    assert pressure_for(density) == pytest.approx(pressure)


def test_a_bookcases_right_side_by_hand():
    ups = {g.step: g for g in glue_ups(build(sound(BOOKCASE)))}
    dado, plinth = 7006.0, 1330.0
    area = 5 * dado + plinth
    assert ups[2].area == pytest.approx(area, rel=1e-3)
    assert ups[2].longest == pytest.approx(SPREAD * area / 1e4 + 6 * START + KEY + DRIVE, rel=1e-3)
    assert ups[1].longest == pytest.approx(SPREAD * dado / 1e4 + START + DRIVE, rel=1e-3)
    assert ups[2].clamps == 6
    assert ups[3].clamps == 0, "the back boards are nailed"


@pytest.mark.parametrize(("first_area", "second_area"), [(20_000, 9_000), (5_000, 5_000)])
def test_a_clamp_across_a_part_presses_both_its_ends(first_area, second_area):
    def end(area, way):
        seat = Contact(((0.0, 0.0, 0.0), (0.0, 90.0, 0.0)), (way, 0.0, 0.0))
        return Joint("glued", "rail", "post", (way, 0.0, 0.0), (seat,), glue_area=area)

    alone = clamps_for([end(first_area, 1.0)], 0.7)
    assert alone == math.ceil(0.7 * first_area / CLAMP_FORCE)
    assert clamps_for([end(first_area, 1.0), end(second_area, -1.0)], 0.7) == alone
    assert clamps_for([end(first_area, 1.0), end(first_area, 1.0)], 0.7) == 2 * alone


@pytest.mark.parametrize(
    ("name", "changes", "steps", "unit"),
    [
        (BOOKCASE, {"open_time": 5.0}, {2}, "min"),
        (BOOKCASE, {"open_time": 3.0}, {2, 3}, "min"),
        (BOOKCASE, {"clamps": 5}, {1, 2}, "clamps"),
        (BENCH, {"open_time": 5.0}, {4}, "min"),
        (BENCH, {"clamps": 3}, {2, 4}, "clamps"),
    ],
)
def test_a_quick_glue_or_too_few_clamps_is_told(name, changes, steps, unit):
    answer = glue_up(build(sound(name)), **changes)
    cautions = [f for f in answer.findings if f.severity == "caution"]
    assert {int(f.message.split(":")[0].split()[1]) for f in cautions} == steps
    assert {f.unit for f in cautions} == {unit}
    assert all(f.value > f.limit for f in cautions)
    assert not [f for f in answer.findings if f.severity == "fault"]


def test_a_step_whose_joints_cannot_be_closed_at_once_is_to_be_minded():
    piece = sound(BOOKCASE)
    assert in_goes(piece) == {}
    assert in_goes(piece, open_time=5.0) == {n: [AT_ONCE_LATE] for n in (1, 2, 3)}
    assert in_goes(piece, clamps=5) == {n: [AT_ONCE_SHORT] for n in (1, 2)}
    told = {f.message.split(":")[0] for f in glue_up(build(piece), open_time=5.0).findings if f.severity == "caution"}
    assert told <= {f"step {n}" for n in in_goes(piece, open_time=5.0)}, "what is cautioned is on the sheet, too"


def test_joints_without_nails_need_clamps():
    nailed, bare = (list(glue_ups(build(p))) for p in (sound(BENCH), without_nails(sound(BENCH))))
    assert sum(g.clamps for g in bare) > sum(g.clamps for g in nailed)
