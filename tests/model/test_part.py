"""Parts: bent round and flat again, mirrored, and refusing what can't be cut."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BiscuitSlot, Bore, Channel, Counterbore, dado
from model.cuts.through import Notch, Opening, Profile
from model.errors import CutError, DesignError
from model.layout.outline import rectangle
from model.part import Bend, Part
from model.solids import solid
from model.stock import board

few = settings(max_examples=12)
bends = st.builds(Bend, st.floats(200, 9000), st.sampled_from(["face", "back"]))
DOWN = (0.0, 0.0, -1.0)


@few
@given(st.floats(300, 1500), st.floats(40, 200), st.floats(3, 20), bends)
def test_a_bent_board_keeps_its_volume(length: float, width: float, thickness: float, bend: Bend) -> None:
    """Pappus: a section turned about an axis sweeps its area times its centroid's path, here the flat length."""
    if length > 5 * bend.neutral_radius(thickness):
        length = 5 * bend.neutral_radius(thickness)
    part = Part(board(length, width, thickness)).bent(bend.radius, bend.hollow)

    assert solid(part).Volume() == pytest.approx(length * width * thickness, rel=1e-9)


@few
@given(st.floats(300, 3000), st.floats(2, 30), st.floats(20, 80), st.floats(0.2, 0.8))
def test_a_bevelled_bent_board_is_section_times_its_own_path(
    radius: float, angle: float, width: float, share: float
) -> None:
    thickness, length = 12.0, share * radius
    part = Part(board(length, width, thickness)).bent(radius).cut(Bevel(edge="far", angle=angle, keep="face"))
    wedge = thickness**2 * math.tan(math.radians(angle)) / 2
    # the wedge is taken at the hollow (back) side: its centroid lies a third of the thickness from there
    turn = length / (radius + thickness / 2)
    volume = length * width * thickness - wedge * turn * (radius + thickness / 3)

    assert solid(part).Volume() == pytest.approx(volume, rel=1e-7)


@given(st.floats(0, 1200), st.floats(0, 100), st.floats(0, 12), bends)
def test_a_station_lies_at_its_radius_from_the_axis(x: float, y: float, z: float, bend: Bend) -> None:
    part = Part(board(1200, 100, 12)).bent(bend.radius, bend.hollow)
    px, py, pz = part.station((x, y, z))
    axis = -bend.radius if bend.hollow == "back" else 12 + bend.radius

    assert py == y
    assert math.hypot(px - 600, pz - axis) == pytest.approx(abs(z - axis), rel=1e-9)


@given(st.floats(1, 170), st.floats(2, 25), bends)
def test_flat_length_and_angle_round_trip(angle: float, thickness: float, bend: Bend) -> None:
    length = bend.flat_length(angle, thickness)
    ends = [bend.placement(x, length, thickness).x for x in (0.0, length)]
    turned = math.degrees(math.acos(max(-1.0, min(1.0, sum(a * b for a, b in zip(*ends, strict=True))))))

    assert turned == pytest.approx(angle, abs=1e-5)


@pytest.mark.parametrize("hollow", ["face", "back"])
def test_stations_on_the_surface_lie_on_the_solid(hollow, distance) -> None:  # type: ignore[no-untyped-def]
    part = Part(board(900, 120, 12)).bent(800, hollow)
    shell = solid(part).Shells()[0]
    for x, y in ((0.0, 60.0), (450.0, 10.0), (725.0, 110.0), (900.0, 60.0)):
        for z in (0.0, 12.0):
            assert distance(shell, part.station((x, y, z))) == pytest.approx(0, abs=1e-6)
        if 0 < x < 900:
            assert distance(shell, part.station((x, y, 6.0))) == pytest.approx(6, abs=1e-6)


@pytest.mark.parametrize("hollow", ["face", "back"])
def test_a_hole_bored_before_bending_stands_square_to_the_curve(hollow, distance) -> None:  # type: ignore[no-untyped-def]
    part = Part(board(900, 120, 12)).bent(700, hollow).cut(Bore((820.0, 60.0, 12.0), DOWN, 6.0, 20.0))
    made = solid(part)

    assert 900 * 120 * 12 - made.Volume() == pytest.approx(math.pi * 9 * 12, rel=0.02)
    for z in (0.0, 3.0, 6.0, 9.0, 12.0):
        # all along the hole's middle the wood is a hole's radius away
        assert distance(made, part.station((820.0, 60.0, z))) == pytest.approx(3.0, abs=0.01)


def test_a_radius_that_is_none_is_refused() -> None:
    with pytest.raises(DesignError, match="can't be bent to a radius of 0 mm; it must be more than zero"):
        Part(board(900, 100, 12)).bent(0.0)


def test_a_bent_part_refuses_a_profile() -> None:
    with pytest.raises(CutError, match="a bent part can't have a profile yet; shape its ends with edge cuts"):
        Part(board(900, 100, 12)).bent(800).cut(Profile(rectangle(900, 50)))


def test_mirrored_twice_is_the_same_part() -> None:
    part = Part(board(400, 150, 20)).cut(
        dado(100, 19, 7, 0, 120),
        Rabbet(edge="near", width=10, depth=6, start=20.0),
        Bore((30.0, 40.0, 20.0), DOWN, 5, 10),
        Notch(rectangle(30, 20)),
    )

    assert part.mirrored() != part
    assert part.mirrored().mirrored() == part


def test_equal_parts_are_equal_whenever_they_are_made() -> None:
    def make() -> Part:
        return Part(board(400, 150, 20)).cut(dado(100, 19, 7, 0, 150), Ease(edge="far", radius=2))

    assert make() == make()
    assert hash(make()) == hash(make())


@pytest.mark.parametrize(
    ("cut", "message"),
    [
        (dado(100, 18, 20, 0, 150), "a dado 20 mm deep would come through stock 19 mm thick; half the stock, 9.5 mm"),
        (dado(100, -1, 5, 0, 150), "the dado's width is -1 mm; it must be more than zero"),
        (Channel((10, 10), (10, 10), 5, 5), "must have some length; its two ends lie in the same place"),
        (Channel((900, 10), (900, 90), 5, 5), "misses|doesn't lie|outside|beside"),
        (Rabbet(edge="near", width=9, depth=19), "a rabbet 19 mm deep would come through"),
        (Tongue(edge="near", thickness=10, length=6, rise=9), "leaves no shoulder in stock 19 mm thick; a third"),
        (EdgeGroove(edge="far", width=10, depth=6, rise=9), "leaves no cheek in stock 19 mm thick; a third"),
        (Bead(edge="near", radius=12, quirk=1), "a bead 12 mm deep would come through"),
        (Bevel(edge="near", angle=75), "a bevel of 75 degrees can't be planed; give more than 0 and less than 60"),
        (Ease(edge="near", radius=10), "a rounding 20 mm deep would come through"),
        (Chamfer(edge="near", width=0), "the chamfer's width is 0 mm; it must be more than zero"),
        (Bore((9, 9, 19), DOWN, 0, 5), "the bore's diameter is 0 mm; it must be more than zero"),
        (Counterbore((9, 9, 19), DOWN, 4, 6, 5), "can't hold a clearance hole of 5 mm; make the counterbore wider"),
        (BiscuitSlot((9, 0, 9), (0, 1, 0), (1, 0, 0), "30"), 'no biscuit has size "30"; there are 0, 10, 20'),
        (Opening(rectangle(50, 50, x=-10, y=20)), "runs out of the part it is cut in; move it in or make it smaller"),
        (Notch(rectangle(50, 50, x=900)), "a notch misses the part it is cut in; check where the two parts stand"),
        (Profile(rectangle(500, 50)), "doesn't lie within its blank of 400.0 by 150.0 mm; make the blank larger"),
    ],
    ids=lambda value: type(value).__name__ if isinstance(value, Cut) else "",
)
def test_a_cut_that_can_not_be_made_is_refused_with_its_remedy(cut: Cut, message: str) -> None:
    with pytest.raises(CutError, match=re.escape(message) if "|" not in message else message):
        Part(board(400, 150, 19)).cut(cut)


def test_an_edge_that_is_not_there_is_refused() -> None:
    part = Part(board(400, 150, 19), (Ease(edge="rim", radius=2),))
    with pytest.raises(DesignError, match=r'no edge is called "rim"; there are: near, right, far, left'):
        solid(part)
