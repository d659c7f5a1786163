"""Assembly steps: each with its picture, its parts and joints told once, what is new tinted where it is seen."""

import numpy as np
import pytest

from drawings.paper.audit import audit, sheet_texts
from drawings.paper.sheet import Fill
from drawings.sheets.step_words import joints_made, stages, told
from drawings.sheets.steps import step_pictures, step_sheets
from drawings.views.curves import FRONT, Segment
from drawings.views.foremost import NOTHING, Foremost, seen
from drawings.views.regions import regions
from model.order import read_order
from model.parameters import Parameters
from model.piece import Piece
from model.placement import place
from model.stock import board
from model.way_home import come, push


@pytest.fixture(scope="module", params=["bench", "bookcase"])
def example(request):
    from drawings.views.shown import shown_solids

    piece = request.getfixturevalue(request.param)
    shapes = request.getfixturevalue(f"{request.param}_shapes")
    return piece, read_order(f"refuge-{request.param}"), shown_solids(piece, shapes)


def test_nothing_is_illegible_and_every_step_is_there(example):
    sheets = step_sheets(*example, cautions={1: ["Mind the step."]})
    texts = [text.text for sheet in sheets for text in sheet_texts(sheet)]

    assert [blemish for sheet in sheets for blemish in audit(sheet)] == []
    assert [t for t in texts if t.startswith("Step ")] == [f"Step {n}" for n in range(1, len(example[0].steps) + 1)]
    assert any("Mind the step." in t or t.endswith("step.") for t in texts)


def test_every_part_is_new_in_one_step_and_every_joint_made_in_one(example):
    piece = example[0]
    found = stages(piece)

    assert sorted(n for s in found for n in s.new) == sorted(piece.parts)
    assert sum(len(joints_made(piece, s)) for s in found) == len(piece.joints)


def test_hardware_told_in_the_steps_adds_up(example):
    piece = example[0]
    said = [t.text for s in stages(piece) for t in told(piece, s) if t.heading == "Hardware"]

    assert sum(int(item.split()[0]) for text in said for item in text.split("; ")) == len(piece.hardware)


def test_what_is_new_is_tinted_as_far_as_it_is_seen(bookcase, bookcase_shapes):
    from drawings.views.curves import PICTORIAL
    from drawings.views.facets import triangles_each

    picture = step_pictures(bookcase, bookcase_shapes)[1]
    facets = triangles_each([bookcase_shapes[n] for n in (*picture.stage.there, *picture.stage.new)])
    grid = seen(Foremost(facets, PICTORIAL), picture.bounds, 200)
    looked = float((grid.things >= len(picture.stage.there)).sum()) * grid.step**2

    assert sum(area(region) for region in picture.lit) == pytest.approx(looked, rel=0.03)


def test_the_tint_lies_under_the_lines(bookcase, bookcase_shapes):
    sheet = step_sheets(bookcase, read_order("refuge-bookcase"), bookcase_shapes)[0]

    assert any(isinstance(e, Fill) and e.colour != "#000000" for e in sheet.entities)


def area(region):
    def ring(points):
        xs, ys = np.array(points).T
        return abs(float(xs @ np.roll(ys, -1) - ys @ np.roll(xs, -1))) / 2.0

    return ring(region[0]) - sum(ring(hole) for hole in region[1:])


def square(x0, x1, y):
    """Two facets of an upright square that faces the front, y mm behind it."""
    a, b, c, d = (x0, y, 0.0), (x1, y, 0.0), (x1, y, 10.0), (x0, y, 10.0)
    return np.array([[a, b, c], [a, c, d]])


def test_the_nearer_thing_is_foremost():
    places = np.array([[2.0, 5.0], [7.0, 5.0], [12.0, 5.0], [30.0, 5.0]])

    assert Foremost([square(0, 10, 5.0), square(5, 15, 0.0)], FRONT).at(places).tolist() == [0, 1, 1, NOTHING]


def test_a_field_belongs_to_the_thing_seen_in_it_though_its_corners_just_miss():
    lines = [
        Segment((0, 0), (4.9, 0)),
        Segment((5, 0.1), (5, 10)),
        Segment((0.1, 10), (5, 10)),
        Segment((0, 0), (0, 9.9)),
    ]
    foremost = Foremost([square(0, 10, 5.0), square(5, 15, 0.0)], FRONT)

    assert area(regions(lines, foremost, {0})[0]) == pytest.approx(50.0, abs=0.5)
    assert regions(lines, foremost, {1}) == []


def test_a_way_home_of_several_legs_is_told():
    piece = Piece("box", Parameters())
    lid = piece.add("lid", board(200.0, 100.0), place())
    piece.step("Set the lid", lid, way=(come("back"), push("down", 12)))
    (stage,) = stages(piece)
    (said,) = (t.text for t in told(piece, stage) if t.heading == "Way home")

    assert said == "Bring it in to the back, then push it 12 mm downward."
