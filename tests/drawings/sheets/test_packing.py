"""Packing: everything goes down once, nothing overlaps, nothing stands on the title block, no sheet too many."""

from hypothesis import given
from hypothesis import strategies as st

from drawings.paper.page import paper, title_block_area
from drawings.sheets.clear_room import boxes_meet, within
from drawings.sheets.packing import Footprint, packed, sheet_room

A3 = paper("A3")
sizes = st.builds(Footprint, st.floats(5.0, 180.0), st.floats(5.0, 200.0))
items = st.lists(st.lists(sizes, min_size=1, max_size=3), min_size=1, max_size=9)


@given(items)
def test_every_block_has_a_place_of_its_own(shapes):
    empty = sheet_room(A3)
    sheets = packed(shapes, empty)

    assert sorted(spot.item for spots in sheets for spot in spots) == list(range(len(shapes)))
    for spots in sheets:
        boxes = []
        for spot in spots:
            width, height = shapes[spot.item][spot.shape].size
            boxes.append((spot.left, spot.top - height, spot.left + width, spot.top))
        assert all(within(box, A3.frame) and not boxes_meet(box, title_block_area(A3)) for box in boxes)
        assert not any(boxes_meet(a, b) for n, a in enumerate(boxes) for b in boxes[:n])


@given(items)
def test_no_sheet_is_begun_for_what_goes_on_the_first(shapes):
    area = sum(min(shape.width * shape.height for shape in some) for some in shapes)
    assert len(packed(shapes, sheet_room(A3))) <= 1 + len(shapes) * (area > 4_000)


def test_a_shape_that_saves_a_sheet_is_taken():
    assert (
        len(packed([[Footprint(370.0, 190.0)], [Footprint(300.0, 60.0), Footprint(150.0, 50.0)]], sheet_room(A3))) == 1
    )


def test_blocks_keep_their_order_where_that_costs_no_sheet():
    (spots,) = packed([[Footprint(100.0, 40.0 + n)] for n in range(6)], sheet_room(A3))
    assert [spot.item for spot in spots] == list(range(6))


def test_what_is_larger_than_the_sheet_goes_on_none():
    assert packed([[Footprint(500.0, 10.0)]], sheet_room(A3)) is None


def test_the_title_block_reaches_in_where_nothing_is_drawn():
    drawn = ((0.0, -200.0, 190.0, 0.0), (190.0, -150.0, 370.0, 0.0))
    assert packed([[Footprint(370.0, 220.0)]], sheet_room(A3)) is None
    assert packed([[Footprint(370.0, 220.0, drawn)]], sheet_room(A3)) is not None


def test_another_block_keeps_off_where_nothing_is_drawn():
    tall = Footprint(370.0, 200.0, ((0.0, -200.0, 190.0, 0.0),))
    assert len(packed([[tall], [Footprint(100.0, 100.0)]], sheet_room(A3))) == 2


def test_a_sheet_is_saved_where_blocks_go_together_in_no_plain_order():
    """Two rows of three and two, of four heights: neither the tallest first nor the largest first gets them on one."""
    sizes = [(190.0, 120.0), (180.0, 95.0), (120.0, 130.0), (70.0, 125.0), (175.0, 100.0)]
    assert len(packed([[Footprint(w, h)] for w, h in sizes], sheet_room(A3))) == 1


def test_the_same_blocks_are_always_set_out_alike():
    some = [[Footprint(60.0 + 17.0 * n % 120.0, 50.0 + 29.0 * n % 90.0)] for n in range(14)]
    assert packed(some, sheet_room(A3)) == packed(some, sheet_room(A3))
