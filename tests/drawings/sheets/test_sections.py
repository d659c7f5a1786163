"""Sections: the cut faces as large as the wood there, hatched apart from their neighbours; a detail a joint."""

import math
from itertools import combinations

import pytest

from drawings.paper.audit import audit
from drawings.paper.sheet import Hatch, Text, ViewPort
from drawings.sheets.hatched import STYLES, hatched
from drawings.sheets.joint_details import details
from drawings.sheets.packing import Spot
from drawings.sheets.sections import in_reading_order, section_leaves, section_sheets, sections
from drawings.views.curves import RIGHT, TOP
from drawings.views.section import cut_away, cut_faces
from model.errors import DesignError
from model.order import read_order
from model.piece import Piece


@pytest.fixture(scope="module", params=["bench", "bookcase"])
def example(request):
    return (
        request.getfixturevalue(request.param),
        read_order(f"refuge-{request.param}"),
        request.getfixturevalue(f"{request.param}_shapes"),
    )


def area(loop):
    """Of an outline with bulges: the shoelace, and each arc's segment, r2 (a - sin a) / 2."""
    total = 0.0
    for n, (p, bulge) in enumerate(zip(loop.points, loop.bulges, strict=True)):
        q = loop.points[(n + 1) % len(loop.points)]
        total += (p[0] * q[1] - q[0] * p[1]) / 2.0
        if bulge:
            sweep = 4.0 * math.atan(bulge)
            radius = math.dist(p, q) / 2.0 / abs(math.sin(sweep / 2.0))
            total += radius**2 * (sweep - math.sin(sweep)) / 2.0
    return abs(total)


def test_nothing_is_illegible(example):
    assert [blemish for sheet in section_sheets(*example) for blemish in audit(sheet)] == []


def test_every_kind_of_cut_joint_has_one_detail(example):
    piece, _, shapes = example
    kinds = {j.kind for j in piece.joints if j.contacts and (j.first_cuts or j.second_cuts)}

    assert sorted(d.joint.kind for d in details(piece, shapes)) == sorted(kinds)


def test_cut_faces_are_as_large_as_the_wood_there():
    import cadquery as cq

    tube = cq.Workplane().circle(30).circle(20).extrude(100).translate((0, 0, -50)).val()
    (outer, inner), *_ = cut_faces({"tube": tube}, TOP, 10.0)["tube"]
    faces, view = cut_away({"tube": tube}, RIGHT, 0.0)

    assert area(outer) - area(inner) == pytest.approx(math.pi * (30**2 - 20**2))
    assert sum(area(face[0]) for face in faces["tube"]) == pytest.approx(2 * 10 * 100)
    assert view.bounds == pytest.approx((-30.0, -50.0, 30.0, 50.0), abs=1e-3)


def test_neighbours_are_hatched_apart():
    def box(x):
        return [[(((x, 0.0), (x + 10.0, 0.0), (x + 10.0, 10.0), (x, 10.0)), ())]]

    marks = hatched({n: box(10.0 * k) for k, n in enumerate("abc")}, ViewPort())
    styles = [(m.angle, m.spacing) for m in marks if isinstance(m, Hatch)]

    assert styles[0] != styles[1] != styles[2]
    assert all(style in STYLES for style in styles)
    assert len(set(STYLES)) == len(STYLES)


def test_a_section_that_the_script_names_is_drawn_and_one_in_the_air_refused(bookcase, bookcase_shapes):
    piece = Piece(bookcase.name, bookcase.parameters)
    piece.section("Through a shelf", "z", 350.0)

    assert [s.letter for s in sections(piece, bookcase_shapes)] == ["A", "B", "C"]

    piece.section("Over the top", "z", 5000.0)
    with pytest.raises(DesignError, match="Over the top at z = 5000 mm meets no part"):
        sections(piece, bookcase_shapes)


def test_a_level_section_goes_between_level_boards(bookcase, bookcase_shapes):
    level = sections(bookcase, bookcase_shapes)[1]

    assert set(level.faces) == {"left side", "right side", *(n for n in bookcase.parts if n.startswith("back board"))}
    assert all(a != b for a, b in combinations(level.faces, 2))


def test_figures_are_read_row_by_row_though_their_tops_differ_a_little():
    spots = [Spot(0, 0, 100.0, 250.0), Spot(1, 0, 10.0, 240.0), Spot(2, 0, 10.0, 150.0), Spot(3, 0, 60.0, 165.0)]

    assert [spot.item for spot in in_reading_order(spots)] == [1, 0, 2, 3]


def test_details_are_lettered_as_they_are_read(example):
    piece, order, shapes = example
    found = sections(piece, shapes)
    leaves, lettered = section_leaves(found, details(piece, shapes), piece, order)
    heads = [m for leaf in leaves for m in leaf.marks if isinstance(m, Text) and m.bold and len(m.text) == 1]
    letters = [letter for letter, _ in lettered]

    assert letters == sorted(letters)
    assert sorted(m.text for m in heads) == letters
    assert {d.joint.kind for _, d in lettered} == {d.joint.kind for d in details(piece, shapes)}
    for leaf in leaves:
        rows = [m for m in leaf.marks if m in heads]
        assert all(a.text < b.text for a in rows for b in rows if a.at[1] - b.at[1] > 30.0)
