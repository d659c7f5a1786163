"""The settle as the example order has it, and at sizes that common practice gives in inches."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest

from model.cuts.edges import Bead, EdgeGroove, Tongue
from model.cuts.faces import Channel
from model.errors import DesignError
from model.lengths import parse_length
from model.order import order_from_text
from model.pieces import design
from model.pieces.settle import Settle, make

INCH = 25.4


def test_the_parts_are_those_of_a_settle(bench: Any) -> None:
    kinds = Counter(name.rstrip("0123456789 ") for name in bench.parts)

    assert {"left side", "right side", "seat", "top rail", "seat rail", "floor", "hatch", "band"} <= set(bench.parts)
    assert {"seat cleat", "floor cleat"} <= set(bench.parts)
    assert kinds["back board"] >= 10
    assert kinds["front board"] >= 10
    assert len(bench.parts) == 10 + kinds["back board"] + kinds["front board"]


def test_the_right_side_mirrors_the_left(bench: Any, bench_shapes: dict[str, Any]) -> None:
    left, right = bench_shapes["left side"], bench_shapes["right side"]
    x, y, z = left.Center().toTuple()

    assert bench["right side"].mirror_of == "left side"
    assert right.Volume() == pytest.approx(left.Volume(), rel=1e-7)
    assert right.Center().toTuple() == pytest.approx((-x, y, z), abs=1e-5)
    assert bench["left side"].part != bench["right side"].part


def test_it_is_whole_and_overlaps_nowhere(
    bench: Any,
    bench_shapes: dict[str, Any],
    overlaps: Callable[[Any], list[tuple[str, str, float]]],
    loose_contacts: Callable[[Any, Any], list[str]],
) -> None:
    assert all(shape.isValid() for shape in bench_shapes.values())
    assert overlaps(bench_shapes) == []
    assert loose_contacts(bench, bench_shapes) == []


def test_a_part_moved_by_a_millimetre_overlaps(
    bench_shapes: dict[str, Any], overlaps: Callable[[Any], list[tuple[str, str, float]]]
) -> None:
    moved = bench_shapes | {"seat": bench_shapes["seat"].translate((0, 0, 1))}

    assert {(a, b) for a, b, _ in overlaps(moved)} >= {("left side", "seat"), ("right side", "seat")}


def test_the_sides_stand_on_radial_lines(bench: Any) -> None:
    p = bench.parameters
    centre = (*p.centre, 0.0)
    for name in ("left side", "right side"):
        at, inside = bench[name].at, bench[name].part.thickness
        own = at.own_point(centre)
        assert own[2] == pytest.approx(inside, abs=1e-6), "the arc's centre lies in the plane of the inside face"


def test_the_sides_are_the_chord_apart_along_the_back_line(bench: Any) -> None:
    p = bench.parameters
    right = bench["right side"].at
    # the inside face's line meets the back arc at half the chord
    corner = (p.chord / 2, p.centre[1] + math.sqrt(p.back_radius**2 - (p.chord / 2) ** 2), 0.0)

    assert right.own_point(corner)[2] == pytest.approx(bench["right side"].part.thickness, abs=1e-6)


def test_seat_edges_are_concentric_and_as_deep_as_ordered(bench: Any) -> None:
    p, outline = bench.parameters, bench["seat"].part.outline
    (front,), (back,) = outline.named("front"), outline.named("back")

    assert back.radius == pytest.approx(2750)
    assert front.radius == pytest.approx(2750 - 395)
    assert front.centre == pytest.approx(back.centre, abs=1e-6)
    assert p.front_radius == pytest.approx(p.back_radius - p.seat_depth)


def test_the_housings_are_half_the_stock_deep(bench: Any) -> None:
    for name in ("left side", "right side"):
        dadoes = [c for c in bench[name].part.cuts if isinstance(c, Channel)]
        assert [c.depth for c in dadoes] == pytest.approx([19 / 2, 19 / 2])
        assert {c.width for c in dadoes} == {19}


def test_alternate_boards_are_grooved_and_tongued_and_the_tongued_beaded_front_and_back(bench: Any) -> None:
    boards = [p for name, p in bench.parts.items() if name.startswith("back board")]
    for n, board in enumerate(boards):
        tongues = {c.edge for c in board.part.cuts if isinstance(c, Tongue)}
        grooves = {c.edge for c in board.part.cuts if isinstance(c, EdgeGroove)}
        beads = {(c.edge, c.side) for c in board.part.cuts if isinstance(c, Bead)}
        ends = {"near", "far"} if 0 < n < len(boards) - 1 else {"near"} if n == 0 else {"far"}
        assert (tongues, grooves) == ((ends, set()) if n % 2 else (set(), ends))
        assert beads == {(edge, side) for edge in tongues for side in ("face", "back")}


def test_the_hatch_clears_its_opening_all_round(bench_shapes: dict[str, Any], bench: Any) -> None:
    gap = bench_shapes["hatch"].distance(bench_shapes["seat"])

    assert gap == pytest.approx(bench.parameters.clearance, abs=0.02)
    assert [(a.first, a.second, a.gap) for a in bench.apart] == [("hatch", "seat", bench.parameters.clearance)]


def test_the_hatch_leaves_sound_margins(bench: Any) -> None:
    p = bench.parameters
    for x in (0.0, p.hatch_half_width):
        front = math.sqrt(p.front_radius**2 - x**2)
        back = math.sqrt(p.back_radius**2 - x**2) + p.centre[1]
        assert back - p.hinge_line >= p.back_margin - 1e-6
        assert math.sqrt((p.front_radius + p.front_margin) ** 2 - x**2) - front >= p.front_margin - 1e-6
    end = p.front_radius * math.sin(math.radians(p.half_angle))
    assert end - p.hatch_half_width >= 100.0


def test_the_band_is_bent_to_the_back_line_and_its_blank_is_longer_than_the_chord(bench: Any) -> None:
    band, p = bench["band"].part, bench.parameters

    assert band.bend.radius == p.back_radius
    assert band.stock.length == pytest.approx(
        2 * math.radians(p.outer_angle) * (p.back_radius + p.band_thickness / 2), rel=1e-9
    )
    assert sum(h.kind == "plug" for h in bench.hardware) == sum(h.kind == "wood screw" for h in bench.hardware) == 4


def test_inches_give_common_practice() -> None:
    """A 10 ft 8 in back and a 14 7/8 in seat: front radius less by just that; 1/4 in grooves, 5/16 in deep."""
    source = """
piece = "settle"
name = "inch-settle"
units = "ft-in"
[size]
chord = "4' 10\\""
back_radius = "10' 8\\""
seat_depth = "14 7/8 in"
housing = "3/8 in"
[wood]
thickness = "3/4 in"
"""
    order = order_from_text(source)
    p = order.parameters(design(order.piece).parameters)
    piece = make(p)
    grooves = [c for part in piece for c in part.part.cuts if isinstance(c, EdgeGroove)]

    assert p.back_radius == pytest.approx(128 * INCH)
    assert p.front_radius == pytest.approx(128 * INCH - parse_length("14 7/8 in"))
    assert piece["seat"].part.outline.named("front")[0].radius == pytest.approx(113.125 * INCH)
    assert {round(g.width, 6) for g in grooves} == {round(0.25 * INCH, 6)}
    assert [g.depth for g in grooves] == pytest.approx([5 / 16 * INCH] * len(grooves), abs=0.02)
    assert {c.depth for c in piece["left side"].part.cuts if isinstance(c, Channel)} == {round(0.375 * INCH, 6)}


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"housing": 16, "thickness": 15}, "a dado 16 mm deep would come through sides 15 mm thick; half of that"),
        ({"rail_width": 110, "top_depth": 120}, "leaves too little of sides 120 mm deep at the top; keep 20 mm"),
        ({"band_thickness": 19, "thickness": 15}, "stands out past boards 15 mm thick"),
        ({"board_widths": [100, 120]}, "leave .* of the arc bare; add boards"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    from model.declared import WidthList

    if "board_widths" in sizes:
        sizes = {"board_widths": WidthList(tuple(sizes["board_widths"]))}
    with pytest.raises(DesignError, match=message):
        make(Settle(**sizes))
