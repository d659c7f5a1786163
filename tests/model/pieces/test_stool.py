"""The stool as the example order has it, in inches, over its whole range: nothing but outlines cut from above."""

from __future__ import annotations

import math
from typing import Any

import pytest

from model.cuts.laps import Slot
from model.cuts.through import Notch, Opening
from model.errors import DesignError
from model.layout.outline import Edge, Outline
from model.pieces.stool import Stool, bent_slot, make
from model.solids import solid, standing
from tests.conftest import made
from tests.model.pieces.orders import orders, pieces_of
from tests.model.pieces.sound import assert_sound

INCH = 25.4
ORDERS = 60


@pytest.fixture(scope="module")
def stool() -> Any:
    """The piece of the shipped order refuge-stool; not to be changed."""
    return made("refuge-stool")


def turn(before: Edge, after: Edge) -> float:
    """How far an outline turns left at a corner, degrees."""
    (ux, uy), (vx, vy) = before.direction(1.0), after.direction(0.0)
    return math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy))


def assert_followed(outline: Outline, cutter: float, waste_inside: bool) -> None:
    """A round cutter on the side of the waste gets into every corner and every hollow of an outline."""
    edges, side = outline.edges, 1.0 if waste_inside else -1.0
    for n, edge in enumerate(edges):
        assert side * turn(edges[n - 1], edge) < 1.0, f"a sharp inside corner at {edge.start}"
        hollow = not edge.straight and side * edge.bulge > 0.0
        assert not hollow or edge.radius >= cutter / 2.0, f"a hollow of radius {edge.radius:.2f} mm"


def assert_routed(piece: Any) -> None:
    """Every cut is a footprint right through from the face, and its own cutter gets everywhere in it."""
    cutter = piece.parameters.cutter
    for placed in piece:
        footprints = placed.part.footprints()
        assert {type(c) for c in placed.part.cuts} <= {type(c) for c, _ in footprints}
        assert all(f.side == "face" and f.through for _, f in footprints)
        assert_followed(placed.part.outline, cutter, waste_inside=False)
        for cut in placed.part.cuts:
            if isinstance(cut, Opening):
                assert_followed(cut.outline, cutter, waste_inside=True)
            if isinstance(cut, Notch):
                inside = [e for e in cut.outline.edges if not e.straight]
                assert inside, "a notch without reliefs"
                assert all(e.radius >= cutter / 2.0 for e in inside)


def test_three_parts_of_sheet_and_no_hardware(stool: Any) -> None:
    assert list(stool.parts) == ["first frame", "second frame", "seat"]
    assert {p.part.stock.kind for p in stool} == {"sheet"}
    assert {p.part.stock.species for p in stool} == {"plywood"}
    assert [j.kind for j in stool.joints] == ["slotted", "tabbed", "tabbed"]
    assert stool.hardware == []


def test_it_fits_and_is_as_large_as_ordered(stool: Any) -> None:
    assert_sound(stool)
    boxes = [shape.BoundingBox() for shape in standing(stool).values()]
    low = [min(getattr(b, f"{axis}min") for b in boxes) for axis in "xyz"]
    high = [max(getattr(b, f"{axis}max") for b in boxes) for axis in "xyz"]
    assert low == pytest.approx((-200, -200, 0), abs=1e-4)
    assert high == pytest.approx((200, 200, 450), abs=1e-4)


def test_nothing_in_it_needs_more_than_a_router(stool: Any) -> None:
    assert_routed(stool)


def test_the_frames_differ_only_in_the_slots_and_are_their_own_mirror_images(stool: Any) -> None:
    first, second = stool["first frame"].part, stool["second frame"].part
    assert first.outline == second.outline
    (a,), (b,) = ([c for c in part.cuts if isinstance(c, Slot)] for part in (first, second))
    assert a.width == b.width == pytest.approx(18.2)
    assert a.length == pytest.approx(b.length)
    assert a.length + b.length == pytest.approx(150, abs=1.0)  # the web, and the scoop's rise across the slot
    for part in (first, second):
        assert solid(part).Center().y == pytest.approx(200, abs=1e-3)


def test_the_hand_hold_is_four_true_arcs(stool: Any) -> None:
    hand_hold = next(c for c in stool["seat"].part.cuts if isinstance(c, Opening)).outline
    radii = sorted(e.radius for e in hand_hold.edges)
    assert radii == pytest.approx([17, 17, 140 - 17, 140 + 17])
    x0, _, x1, _ = hand_hold.bounds
    assert x1 - x0 == pytest.approx(120)


@pytest.mark.parametrize(("length", "width", "radius"), [(110, 28, 90), (150, 45, 90), (120, 34, 400)])
def test_a_bent_slot_is_smooth_and_as_large_as_an_arc_of_its_width(length: float, width: float, radius: float) -> None:
    slot = bent_slot(length, width, radius)
    middle_line = 2 * radius * math.asin((length - width) / 2 / radius)
    assert slot.area == pytest.approx(middle_line * width + math.pi * width**2 / 4)
    edges = slot.edges
    assert all(abs(turn(edges[n - 1], e)) < 1e-6 for n, e in enumerate(edges))


def test_in_inches() -> None:
    size = {"height": '25"', "seat": '14"', "stance": '17"', "web": '8"', "cutter": '1/4"'}
    piece = make(Stool.read(size, "ft-in", given={"thickness": 0.72 * INCH, "units": "ft-in", "species": "plywood"}))
    assert piece["seat"].part.stock.width == pytest.approx(14 * INCH)
    assert_sound(piece)
    assert_routed(piece)


@pytest.mark.parametrize(
    ("sizes", "message"),
    [
        ({"web": 250, "height": 380}, "leaves an arch .* 80 mm is the least, so make the web or the scoop smaller"),
        ({"crown": 95, "stance": 330, "foot": 80}, "arcs of 95 mm don't fit an arch"),
        ({"height": 700, "web": 260}, "to stand steady; make it 420 mm or more"),
        ({"tab": 60}, "there is room for a tab .* wide and its shoulders; make the tabs"),
        (
            {"seat": 320, "shoulder": 320, "tab": 30},
            "a seat 320 mm across leaves .*; make it 345.4 mm or more",
        ),
        ({"species": "red oak"}, "would break off along the grain; .* give plywood"),
    ],
)
def test_sizes_that_can_not_stand_together_are_refused(sizes: dict[str, Any], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        make(Stool(**sizes))


def test_every_order_that_is_built_is_routed() -> None:
    for piece in pieces_of(orders("stool", ORDERS)):
        assert_routed(piece)
