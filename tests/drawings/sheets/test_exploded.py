"""The exploded view: every item pointed at once, no leader across another, the lists complete, all parts apart."""

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawings.paper.audit import audit
from drawings.paper.page import paper
from drawings.paper.saying import counted
from drawings.paper.sheet import Circle, Line, Pen, Text
from drawings.parts.table import Cell
from drawings.sheets.apart import apart
from drawings.sheets.balloons import RADIUS, balloons, room_for, shortest_matching
from drawings.sheets.exploded import exploded_sheets
from drawings.sheets.parts_list import Column, Listing, hardware_listing, parts_listing
from drawings.sheets.principal import Lengths
from model.order import read_order
from model.placement import added, dot, scaled


@pytest.fixture(scope="module", params=["bench", "bookcase"])
def example(request):
    from drawings.views.shown import shown_solids

    piece = request.getfixturevalue(request.param)
    shapes = request.getfixturevalue(f"{request.param}_shapes")
    return piece, read_order(f"refuge-{request.param}"), shown_solids(piece, shapes)


@pytest.fixture(scope="module")
def sheets(example):
    return exploded_sheets(*example)


def balloon_numbers(sheet):
    rings = {e.centre for e in sheet.entities if isinstance(e, Circle) and e.radius == RADIUS}
    return [e.text for e in sheet.entities if isinstance(e, Text) and e.at in rings]


def leaders(sheet):
    """The narrow lines that end at a balloon's ring."""
    rings = [e.centre for e in sheet.entities if isinstance(e, Circle) and e.radius == RADIUS]
    thin = [e for e in sheet.entities if isinstance(e, Line) and e.pen is Pen.THIN]
    return [e for e in thin if any(abs(math.dist(e.q, ring) - RADIUS) < 1e-6 for ring in rings)]


def crosses(a, b):
    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a.p, a.q, b.p) * side(a.p, a.q, b.q) < 0 and side(b.p, b.q, a.p) * side(b.p, b.q, a.q) < 0


def test_nothing_is_illegible(sheets):
    assert [blemish for sheet in sheets for blemish in audit(sheet)] == []


def test_every_item_is_pointed_at_once(example, sheets):
    assert sorted(map(int, balloon_numbers(sheets[0]))) == sorted(set(example[0].items().values()))


def test_no_leader_crosses_another(sheets):
    found = leaders(sheets[0])

    assert len(found) == len(balloon_numbers(sheets[0]))
    assert not any(crosses(a, b) for a, b in combinations(found, 2))


def test_the_parts_list_counts_every_part(example):
    piece = example[0]
    listing = parts_listing(piece, Lengths())

    assert sum(int(row[1].text) for row in listing.rows) == len(piece.parts)
    assert [int(row[0].text) for row in listing.rows] == sorted(set(piece.items().values()))


@pytest.mark.parametrize("units", ["mm", "cm", "in", "ft-in"])
def test_no_size_of_the_parts_list_is_broken_over_two_lines(example, units):
    listing = parts_listing(example[0], Lengths(units))
    said = {m.text for m in listing.marks((0.0, 0.0)) if isinstance(m, Text)}

    assert listing.width == pytest.approx(180.0)
    assert all(cell.text in said for row in listing.rows for cell in row[3:6])


def test_the_hardware_list_counts_every_item(example):
    listing = hardware_listing(example[0], "mm")

    assert sum(int(row[0].text) for row in listing.rows) == len(example[0].hardware)


def test_a_listing_split_keeps_its_rows(example):
    listing = parts_listing(example[0], Lengths())
    first, rest = listing.split(40.0)

    assert first.height <= 40.0
    assert first.rows + rest.rows == listing.rows
    assert rest.heading.endswith("continued")


def test_every_joint_opens_against_the_way_it_closes(example):
    piece, _, shapes = example
    offsets = apart(piece, {name: reach(shape) for name, shape in shapes.items()})

    for joint in piece.joints:
        between = added(offsets[joint.first], scaled(offsets[joint.second], -1.0))
        assert dot(between, joint.closes) < -10.0, (joint.kind, joint.first, joint.second)


def reach(shape):
    box = shape.BoundingBox()
    return (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)


def test_what_slides_is_drawn_out_as_a_whole():
    from tests.conftest import made

    piece = made("refuge-cupboard")
    offsets = apart(piece, dict.fromkeys(piece.parts, ((0.0, 0.0, 0.0), (400.0, 200.0, 700.0))))
    slide = piece.slides[0]
    drawer = [name for name in piece.parts if name.startswith(("drawer", "left drawer s", "right drawer s"))]
    out = [dot(offsets[name], slide.along) for name in drawer if name != "drawer rail"]

    assert min(out) > slide.opens - 70.0


@given(st.integers(1, 6), st.integers(0, 4), st.randoms(use_true_random=False))
@settings(max_examples=30)
def test_the_matching_is_the_shortest(rows, spare, random):
    from itertools import permutations

    costs = [[random.uniform(0.0, 10.0) for _ in range(rows + spare)] for _ in range(rows)]
    chosen = shortest_matching(costs)
    best = min(
        sum(costs[row][column] for row, column in enumerate(columns))
        for columns in permutations(range(rows + spare), rows)
    )

    assert len(set(chosen)) == rows
    assert sum(costs[row][column] for row, column in enumerate(chosen)) == pytest.approx(best)


@given(st.lists(st.tuples(st.floats(1, 99), st.floats(1, 99)), min_size=2, max_size=20, unique=True))
@settings(max_examples=30)
def test_leaders_to_any_places_do_not_cross(places):
    numbered = {counted(n, "item", "seat"): place for n, place in enumerate(places, 1)}
    found = [e for e in balloons((0.0, 0.0, 100.0, 100.0), numbered) if isinstance(e, Line)]

    assert not any(crosses(a, b) for a, b in combinations(found, 2))


def test_too_many_balloons_are_refused():
    picture = (0.0, 0.0, 30.0, 30.0)

    with pytest.raises(ValueError, match="don't go round a picture"):
        balloons(picture, {counted(n, "item", "seat"): (15.0, 15.0) for n in range(room_for(picture) + 1)})


def test_a_row_too_tall_for_a_sheet_goes_on_over_the_next():
    from drawings.sheets.exploded import _further

    names = [f"shelf {n}, bay {n % 7}" for n in range(900)]
    columns = (Column("Qty", 12.0), Column("Where", 95.0))
    listing = Listing("Hardware", columns, ((Cell("4"), Cell("near")), (Cell("900"), Cell(", ".join(names)))))
    texts = [e.text for marks in _further([listing], paper("A3")) for e in marks if isinstance(e, Text)]
    assert texts.count("900") == texts.count("4") == 1
    assert sum(text.count("shelf") for text in texts) == len(names)
