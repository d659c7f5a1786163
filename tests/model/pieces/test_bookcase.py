"""The bookcase as the example order has it, in bays, and in inches."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from model.cuts.edges import Bead, Chamfer, Ease, Rabbet
from model.cuts.faces import Channel
from model.cuts.through import Notch
from model.errors import DesignError
from model.pieces.bookcase import Bookcase, make
from model.solids import solid, standing

INCH = 25.4


def shelves_of(piece: Any) -> list[Any]:
    return [p for name, p in piece.parts.items() if name.startswith(("bottom", "shelf", "top"))]


def test_the_parts_are_those_of_a_bookcase(bookcase: Any) -> None:
    assert [p.name for p in shelves_of(bookcase)] == ["bottom", "shelf 1", "shelf 2", "shelf 3", "top"]
    assert {"left side", "right side", "plinth"} <= set(bookcase.parts)
    assert sum(name.startswith("back board") for name in bookcase.parts) == len(bookcase.parts) - 8


def test_it_is_whole_and_overlaps_nowhere(
    bookcase: Any,
    bookcase_shapes: dict[str, Any],
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
    loose_contacts: Callable[[Any, Any], list[str]],
) -> None:
    assert all(shape.isValid() for shape in bookcase_shapes.values())
    assert overlaps(bookcase_shapes) == []
    assert loose_contacts(bookcase, bookcase_shapes) == []


def test_the_right_side_mirrors_the_left(bookcase: Any, bookcase_shapes: dict[str, Any]) -> None:
    left, right = bookcase_shapes["left side"], bookcase_shapes["right side"]
    x, y, z = left.Center().toTuple()

    assert right.Volume() == pytest.approx(left.Volume(), rel=1e-7)
    assert right.Center().toTuple() == pytest.approx((900 - x, y, z), abs=1e-5)


def test_it_is_as_large_as_ordered(bookcase_shapes: dict[str, Any]) -> None:
    boxes = [shape.BoundingBox() for shape in bookcase_shapes.values()]
    reach = {axis: (min(getattr(b, f"{axis}min") for b in boxes), max(getattr(b, f"{axis}max") for b in boxes))
             for axis in "xyz"}  # fmt: skip

    assert reach["x"] == pytest.approx((0, 900), abs=1e-4)
    assert reach["y"] == pytest.approx((0, 250), abs=1e-4)
    assert reach["z"] == pytest.approx((0, 1200), abs=1e-4)


def test_equal_shelves_are_one_solid(bookcase: Any) -> None:
    assert len({id(solid(p.part)) for p in shelves_of(bookcase)}) == 1
    assert len({bookcase.items()[p.name] for p in shelves_of(bookcase)}) == 1


def test_every_shelf_has_a_dado_in_each_side_and_the_back_a_rabbet(bookcase: Any) -> None:
    for name in ("left side", "right side"):
        cuts = bookcase[name].part.cuts
        dadoes = [c for c in cuts if isinstance(c, Channel)]
        assert len(dadoes) == 5
        assert {(c.width, c.depth) for c in dadoes} == {(19, 6)}
        (rabbet,) = [c for c in cuts if isinstance(c, Rabbet)]
        assert (rabbet.width, rabbet.depth) == pytest.approx((12, 19 / 2)) or (
            rabbet.width,
            rabbet.depth,
        ) == pytest.approx((19 / 2, 12))


@pytest.mark.parametrize("stopped", [True, False])
def test_stopped_dadoes_end_short_of_the_front_and_the_shelf_is_notched(stopped: bool) -> None:
    piece = make(Bookcase(stopped=stopped, shelves=1))
    left, shelf = piece["left side"].part, piece["shelf 1"].part
    (dado, *_) = [c for c in left.cuts if isinstance(c, Channel)]

    assert all(dado.open_ends(left.blank)) is False  # the back end lies under the rabbet's shoulder or is stopped
    assert sum(isinstance(c, Notch) for c in shelf.cuts) == (2 if stopped else 0)


@pytest.mark.parametrize(("edge", "cut"), [("bead", Bead), ("ease", Ease), ("chamfer", Chamfer), ("square", None)])
def test_front_edges_are_finished_as_asked(edge: str, cut: Any) -> None:
    piece = make(Bookcase(front_edge=edge))
    for name in ("left side", "right side", "shelf 1"):
        found = [c for c in piece[name].part.cuts if isinstance(c, Bead | Ease | Chamfer)]
        assert [type(c) for c in found] == ([cut] if cut else [])


def test_two_bays_stand_without_overlap_whatever_their_edges(
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
    loose_contacts: Callable[[Any, Any], list[str]],
) -> None:
    piece = make(Bookcase(bays=2, shelves=1, stopped=False, front_edge="chamfer"))
    shapes = standing(piece)

    assert "upright 1" in shapes
    assert overlaps(shapes) == []
    assert loose_contacts(piece, shapes) == []


def test_in_inches() -> None:
    piece = make(
        Bookcase.read(
            {"width": "3'", "height": "4'", "depth": '11 1/4"', "housing": '1/4"', "back_thickness": '1/2"'},
            "ft-in",
            given={"thickness": 0.75 * INCH, "units": "ft-in"},
        )
    )
    shelf = piece["shelf 1"].part.stock

    assert shelf.length == pytest.approx((36 - 2 * 0.75 + 2 * 0.25) * INCH)
    assert shelf.width == pytest.approx((11.25 - 0.5) * INCH)
    assert shelf.thickness == pytest.approx(0.75 * INCH)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"housing": 12, "thickness": 12}, "a dado 12 mm deep would come through sides 12 mm thick; a third"),
        ({"housing": 10, "bays": 2}, "two dadoes 10 mm deep meet inside an upright 19 mm thick; make them less"),
        ({"bays": 10}, "bays: 10 leave .* make fewer bays or a wider piece"),
        ({"shelves": 20}, "shelves: 20 leave .* make fewer shelves or a taller piece"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        make(Bookcase(**sizes))
