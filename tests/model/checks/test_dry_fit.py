"""All questions in one answer."""

from dataclasses import replace

import pytest

from model.checks.dry_fit import dry_fit, fits
from model.checks.finding import Answer, Finding
from model.cuts.faces import Channel
from tests.model.checks.planted import BENCH, BOOKCASE, changed, moved, shapes, sound


def told(piece, **more):
    return dry_fit(piece, shapes(piece), least_wood=3.0, **more)


@pytest.mark.parametrize("name", [BENCH, BOOKCASE])
def test_the_examples_fit(name):
    answer = told(sound(name))
    assert fits(answer)
    assert {f.severity for f in answer.findings} <= {"note"}
    assert len(answer.proofs) >= 3
    assert all(p.held == p.checked for p in answer.proofs)


@pytest.mark.parametrize("step", [(1.0, 0, 0), (-1.0, 0, 0), (0, 0, 1.0), (0, 0, -1.0), (0, 1.0, 0)])
def test_a_shelf_a_millimetre_out_never_fits(step):
    answer = told(moved(sound(BOOKCASE), "shelf 2", *step))
    assert not fits(answer)
    assert all("shelf 2" in f.parts for f in answer.findings if f.severity != "note")


def test_a_deeper_dado_opens_the_joint_and_thins_the_side():
    piece = sound(BOOKCASE)
    side = piece["left side"].wood
    first = next(c for c in side.cuts if isinstance(c, Channel))
    deeper = replace(side, cuts=tuple(replace(c, depth=16.5) if c is first else c for c in side.cuts))
    answer = told(changed(piece, "left side", part=deeper))
    graver = [f for f in answer.findings if f.severity != "note"]
    assert [(f.check, f.severity) for f in graver] == [("contact", "fault"), ("wood left", "caution")]
    assert answer.findings[0].value == pytest.approx(10.5)
    assert answer.findings[1].value == pytest.approx(2.5)
    assert {n for f in graver for n in f.parts} == {"left side", "bottom"}


def test_cautions_alone_still_fit():
    caution = Finding("wood left", "caution", ("shelf",), "thin", 2.0, 3.0, "mm", "common practice")
    assert fits(Answer((caution,)))
    assert not fits(Answer((caution, replace(caution, severity="fault"))))


def test_progress_is_told_before_each_question():
    heard = []
    told(sound(BOOKCASE), progress=heard.append)
    assert len(heard) == 13
    assert all(h.endswith("?") for h in heard)
