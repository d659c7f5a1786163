"""Every planted fault is found by the whole dry fit, which accuses nothing else; every question has its five."""

from collections import defaultdict

import pytest

from model.checks.dry_fit import dry_fit
from model.solids import standing
from tests.model.checks.faults_as_it_stands import AS_IT_STANDS
from tests.model.checks.faults_in_making import IN_MAKING
from tests.model.checks.planting import DOOR, DRAWER, LARGE, LID, faultless

FAULTS = (*AS_IT_STANDS, *IN_MAKING)

CHECKS = {
    "overlap",
    "contact",
    "held",
    "light",
    "apart",
    "wood left",
    "closing",
    "glue-up",
    "moving",
    "fasteners",
    "shop",
    "way in",
    "accuracy",
}


def graver(piece, **given):
    return [f for f in dry_fit(piece, standing(piece), **given).findings if f.severity != "note"]


@pytest.mark.parametrize("name", [DOOR, DRAWER, LID])
def test_the_small_pieces_fit_before_anything_is_planted(name):
    assert graver(faultless(name), shop=LARGE) == []


@pytest.mark.parametrize("fault", FAULTS, ids=lambda f: f"{f.check}: {f.what}")
def test_a_planted_fault_is_found_and_nothing_else_is_accused(fault):
    found = graver(fault.piece, shop=fault.shop, at=fault.at)
    assert {f.check for f in found} == fault.checks
    assert {name for f in found for name in f.parts} == fault.named


def test_every_question_has_five_faults_or_more_in_three_pieces():
    examples = defaultdict(list)
    for fault in FAULTS:
        examples[fault.check].append(fault.example)
    assert set(examples) == CHECKS
    assert all(len(found) >= 5 and len(set(found)) >= 3 for found in examples.values()), examples
