"""Joint details: large enough, dimensioned with what a plane really cuts, asked for by a script."""

import math

import pytest

from drawings.paper.board import enlargement
from drawings.paper.sheet import LinearDimension
from drawings.sheets.detail_figure import DetailFigure
from drawings.sheets.joint_details import LEGIBLE, across, details
from drawings.sheets.principal import Lengths
from model.cuts.dovetails import Tails
from model.errors import DesignError
from model.pieces.bookcase import make
from model.placement import dot
from model.solids import standing
from tests.drawings.made_pieces import example


@pytest.fixture(scope="module")
def made(bookcase, bookcase_shapes):
    return bookcase, {d.joint.kind: d for d in details(bookcase, bookcase_shapes)}


def figure(made, kind, units="mm"):
    piece, found = made
    return DetailFigure("C", found[kind], piece, Lengths(units))


def dimensions(made, kind):
    return [m for m in figure(made, kind).marks((0.0, 0.0)) if isinstance(m, LinearDimension)]


def test_a_dado_gives_its_width_and_depth_as_cut(made):
    _, found = made
    (cut,) = found["dado"].joint.second_cuts

    printed = [m.value_mm for m in dimensions(made, "dado")]
    for size in (cut.width, cut.depth):
        assert any(abs(size - value) < 1e-3 for value in printed)


def test_every_dimension_says_what_it_measures_on_which_part(made):
    for kind, detail in made[1].items():
        for mark in dimensions(made, kind):
            m = mark.measured
            assert m.shown.subjects[0] in (detail.joint.first, detail.joint.second)
            assert math.dist(m.p, m.q) == pytest.approx(mark.value_mm, abs=1e-6)
            assert mark.drawn_mm == pytest.approx(mark.value_mm, abs=1e-6)
            assert m.shown.at is not None


def test_no_number_is_printed_twice_one_way(made):
    for kind in made[1]:
        printed = [(m.angle, m.text) for m in dimensions(made, kind)]
        assert len(set(printed)) == len(printed)


def test_details_are_clear_at_their_scale_and_left_out_where_the_sheet_shows_enough(made):
    for kind, detail in made[1].items():
        assert detail.smallest * figure(made, kind).scale > LEGIBLE - 1e-6
        assert detail.wanted(0.1)
        assert not detail.wanted(LEGIBLE / detail.smallest + 0.01)
        assert round(figure(made, kind, "in").scale * enlargement("in"), 9) in (0.25, 0.5, 1.0, 2.0, 4.0)


def test_a_script_asks_for_a_joint_at_its_own_scale(bookcase, bookcase_shapes):
    piece = make(bookcase.parameters)
    piece.detail(piece["shelf 2"], piece["right side"], scale=0.5)
    (dado,) = (d for d in details(piece, standing(piece)) if d.joint.kind == "dado")

    assert {dado.joint.first, dado.joint.second} == {"shelf 2", "right side"}
    assert dado.wanted(1.0)
    assert dado.scale("mm") == 0.5
    with pytest.raises(DesignError, match="shelf 1 and shelf 2 are not joined"):
        piece.detail(piece["shelf 1"], piece["shelf 2"])


def test_tails_are_looked_at_along_the_way_they_close_where_their_shape_shows() -> None:
    joints = [joint for name in ("chest", "cupboard") for joint in example(name)[0].joints]
    tailed = [j for j in joints if any(isinstance(c, Tails) for c in (*j.first_cuts, *j.second_cuts))]

    assert {j.kind for j in tailed} >= {"dovetail", "half-blind dovetail"}
    assert all(abs(dot(across(j)[1].direction, j.closes)) > 0.999 for j in tailed)
