"""Tapered and turned legs, measured on the solid, against closed forms."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.legs import ALL_SIDES, Station, Taper, Turned
from model.errors import CutError
from model.part import Part
from model.solids import solid
from model.stock import board

few = settings(max_examples=8, deadline=None)
squares = st.floats(35, 70)
feet = st.sampled_from(["left", "right"])


def leg(square: float, length: float = 700.0) -> Part:
    return Part(board(length, square, square))


def volume(part: Part) -> float:
    shape = solid(part)
    assert shape.isValid()
    return shape.Volume()


@few
@given(squares, st.floats(0.4, 0.8), st.floats(300, 700), feet)
def test_two_inner_faces(square, share, start, foot) -> None:  # type: ignore[no-untyped-def]
    part = leg(square).cut(Taper(("far", "back"), start, share * square, foot))
    d = (1.0 - share) * square
    x, y, z = solid(part).Center().toTuple()

    assert volume(part) == pytest.approx(700.0 * square**2 - start * (square * d - d**2 / 3.0), rel=1e-8)
    assert y < square / 2.0 < z
    assert (x > 350.0) == (foot == "left")


@few
@given(squares, st.floats(0.4, 0.8), st.floats(300, 700), feet)
def test_all_four_faces(square, share, start, foot) -> None:  # type: ignore[no-untyped-def]
    part = leg(square).cut(Taper(ALL_SIDES, start, share * square, foot))
    d = (1.0 - share) * square

    assert volume(part) == pytest.approx(700.0 * square**2 - start * (square * d - d**2 / 3.0), rel=1e-8)
    assert solid(part).Center().toTuple()[1:] == pytest.approx((square / 2.0, square / 2.0), abs=1e-6)


@few
@given(squares, st.floats(0.4, 0.8), st.sets(st.sampled_from(ALL_SIDES), min_size=1), feet)
def test_tapers_mirror(square, share, sides, foot) -> None:  # type: ignore[no-untyped-def]
    part = leg(square).cut(Taper(tuple(s for s in ALL_SIDES if s in sides), 500.0, share * square, foot))
    x, y, z = solid(part).Center().toTuple()

    assert solid(part.mirrored()).Center().toTuple() == pytest.approx((x, square - y, z), abs=1e-6)
    assert part.mirrored().mirrored() == part


def test_foot_has_its_size() -> None:
    foot = solid(leg(45.0).cut(Taper(("near", "face"), 580.0, 25.0))).faces("<X").BoundingBox()

    assert (foot.ylen, foot.zlen) == pytest.approx((25.0, 25.0), abs=1e-6)
    assert (foot.ymax, foot.zmin) == pytest.approx((45.0, 0.0), abs=1e-6)


@pytest.mark.parametrize(
    ("taper", "said"),
    [
        (Taper(("near",), 800.0, 20.0), "can't begin 800 mm from the foot of a leg 700 mm long"),
        (Taper(("near",), 500.0, 45.0), "can't taper to 45 mm; half to two thirds of it, 22.5 to 30.0 mm"),
        (Taper((), 500.0, 20.0), "needs the sides"),
        (Taper(("near", "near"), 500.0, 20.0), "each once"),
    ],
)
def test_tapers_that_cannot_be(taper, said) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(CutError, match=said):
        leg(45.0).cut(taper)


def frustum(a: float, b: float, length: float) -> float:
    return math.pi * length * (a * a + a * b + b * b) / 12.0


@few
@given(st.lists(st.decimals(12, 40, places=1).map(float), min_size=2, max_size=5), st.booleans())
def test_straight_turnings_are_frustums(diameters, to_the_end) -> None:  # type: ignore[no-untyped-def]
    start, stop = 100.0, 700.0 if to_the_end else 640.0
    pitch = (stop - start) / (len(diameters) - 1)
    cut = Turned(tuple(Station(start + n * pitch, d) for n, d in enumerate(diameters)))
    part = leg(45.0).cut(cut)
    turned = sum(frustum(a, b, pitch) for a, b in pairwise(diameters))

    assert volume(part) == pytest.approx(45.0**2 * (700.0 - (stop - start)) + turned, rel=1e-8)
    assert part.mirrored() == part
    assert solid(part).Center().toTuple()[1:] == pytest.approx((22.5, 22.5), abs=1e-6)


@few
@given(st.floats(10, 40), st.floats(16, 36), st.floats(1, 9))
def test_a_bead_is_a_true_arc_turned_round(length, diameter, swell) -> None:  # type: ignore[no-untyped-def]
    swell = min(swell, length / 2.0, (43.9 - diameter) / 2.0)
    part = leg(45.0).cut(Turned((Station(200.0, diameter, swell), Station(200.0 + length, diameter))))
    # Pappus: the segment's area times the way of its centroid, and the cylinder inside
    r = (length**2 / 4.0 + swell**2) / (2.0 * swell)
    half = math.asin(min(1.0, length / (2.0 * r)))
    half = half if swell <= r else math.pi - half
    area = r * r * (half - math.sin(half) * math.cos(half))
    centroid = diameter / 2.0 - (r - swell) + 2.0 * (r * math.sin(half)) ** 3 / (3.0 * area)
    round_wood = math.pi * diameter**2 / 4.0 * length + math.tau * centroid * area

    assert volume(part) == pytest.approx(45.0**2 * (700.0 - length) + round_wood, rel=1e-7)


def test_steps_and_coves() -> None:
    profile = ((150.0, 38.0), (160.0, 38.0), (160.0, 30.0, -6.0), (190.0, 30.0), (190.0, 36.0), (700.0, 24.0))
    part = leg(45.0).cut(Turned(profile))  # type: ignore[arg-type]
    plain = 45.0**2 * 150.0 + math.pi * 361.0 * 10.0 + math.pi * 225.0 * 30.0 + frustum(36.0, 24.0, 510.0)

    assert volume(part) < plain
    assert volume(part) > plain - math.pi * 225.0 * 30.0


@pytest.mark.parametrize(
    ("profile", "said"),
    [
        (((100.0, 45.0), (500.0, 30.0)), "can't come from a square of 45 mm; 44.0 mm is the most"),
        (((100.0, 40.0, 3.0), (120.0, 40.0)), "a turning 46.0 mm thick"),
        (((100.0, 10.0, -6.0), (120.0, 10.0)), "cuts the turning in two"),
        (((100.0, 30.0), (900.0, 30.0)), "runs out of a leg 700 mm long"),
        (((500.0, 30.0), (100.0, 30.0)), "at least two stations"),
        (((100.0, 30.0), (300.0, 30.0), (200.0, 30.0)), "follow one another"),
        (((100.0, 30.0), (100.0, 30.0), (200.0, 30.0)), "a plain step"),
        (((100.0, 0.0), (300.0, 30.0)), "must be more than zero"),
    ],
)
def test_turnings_that_cannot_be(profile, said) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(CutError, match=said):
        leg(45.0).cut(Turned(profile))
