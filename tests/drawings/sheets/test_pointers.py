"""Section marks and detail rings: where the plane lies, pointing the way it is seen, letters clear of all lines."""

import pytest

from drawings.paper.sheet import Circle, Fill, Line, Pen, Text, ViewPort
from drawings.sheets.clear_room import Drawn
from drawings.sheets.pointers import CutPlane, Pointers, Ringed
from drawings.sheets.view_marks import view_marks
from drawings.views.curves import FRONT, TOP, Segment, View

PORT = ViewPort(0.1, (100.0, 100.0))


def box(spec, width, height):
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    edges = tuple(Segment(p, q) for p, q in zip(corners, (*corners[1:], corners[0]), strict=True))
    return View(spec.name, spec.direction, spec.right, edges)


def tip(mark):
    return mark.outlines[0].points[0]


@pytest.mark.parametrize(
    ("plane", "spec", "axis", "sight"),
    [
        (CutPlane("A", "x", 300.0), FRONT, 0, (-1.0, 0.0)),
        (CutPlane("B", "z", 200.0), FRONT, 1, (0.0, -1.0)),
        (CutPlane("C", "y", 150.0), TOP, 1, (0.0, 1.0)),
    ],
)
@pytest.mark.parametrize("inward", [True, False])
def test_both_ends_lie_on_the_plane_and_point_the_way_it_is_seen(plane, spec, axis, sight, inward):
    view = box(spec, 800.0, 500.0)
    marks = Pointers((plane,), inward=inward).marks(view, PORT, view_marks(view, PORT))
    ends = [m for m in marks if isinstance(m, Line) and m.pen is Pen.CUTTING]
    shafts = [m for m in marks if isinstance(m, Line) and m.pen is Pen.THIN]

    assert len(ends) == 2
    for end in ends:
        assert {end.p[axis], end.q[axis]} == {100.0 + 0.1 * plane.at}
    for shaft, arrow in zip(shafts, (m for m in marks if isinstance(m, Fill)), strict=True):
        along = [b - a for a, b in zip(shaft.p, tip(arrow), strict=True)]
        assert along == pytest.approx([7.0 * s for s in sight])
        assert (tip(arrow) if inward else shaft.p)[axis] == pytest.approx(100.0 + 0.1 * plane.at)
    assert [m.text for m in marks if isinstance(m, Text)] == [plane.letter] * 2


def test_planes_and_rings_are_marked_on_one_view_each():
    pointers = Pointers(
        (CutPlane("A", "x", 1.0), CutPlane("B", "y", 1.0)), (Ringed("D", (10.0, 0.0, 10.0), (0.0, -1.0, 0.0), 20.0),)
    )
    front = pointers.marks(box(FRONT, 800.0, 500.0), PORT, view_marks(box(FRONT, 800.0, 500.0), PORT))
    top = pointers.marks(box(TOP, 800.0, 500.0), PORT, view_marks(box(TOP, 800.0, 500.0), PORT))

    assert {m.text for m in front if isinstance(m, Text)} == {"A", "D"}
    assert {m.text for m in top if isinstance(m, Text)} == {"B"}
    assert [m.centre for m in front if isinstance(m, Circle)] == [pytest.approx((101.0, 101.0))]


def test_letters_keep_clear_of_all_that_is_drawn():
    view = box(FRONT, 800.0, 500.0)
    drawn = [*view_marks(view, PORT), *(Line((90.0 + 3 * n, 90.0), (90.0 + 3 * n, 155.0)) for n in range(12))]
    ring = Ringed("D", (100.0, 0.0, 100.0), (0.0, -1.0, 0.0), 20.0)
    marks = Pointers((), (ring,)).marks(view, PORT, drawn)

    (letter,) = (m for m in marks if isinstance(m, Text))
    assert Drawn([*drawn, *(m for m in marks if m is not letter)]).strikes(letter) == 0
