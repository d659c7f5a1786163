"""What each cut takes away, measured on the solid, against its closed form; and its mirror image against itself."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.cuts.cut import Cut
from model.cuts.edges import Bead, Bevel, Chamfer, Ease, EdgeGroove, Rabbet, Tongue
from model.cuts.faces import BISCUIT_CUTTER, BISCUITS, BiscuitSlot, Bore, Channel, Counterbore, dado, groove
from model.cuts.through import Notch, Opening, Profile
from model.layout.outline import circle, rectangle, ring_sector, rounded
from model.part import Part
from model.solids import solid
from model.stock import board

CORNER = 1.0 - math.pi / 4.0  # what a quarter round of radius one leaves of its square

stocks = st.builds(board, st.floats(200, 900), st.floats(80, 250), st.floats(12, 40))
shares = st.floats(0.1, 0.45)
edges = st.sampled_from(["near", "far", "left", "right"])
few = settings(max_examples=8)


def taken(part: Part) -> float:
    """Volume the cuts took from the flat stock, mm3."""
    return part.outline.area * part.thickness - solid(part).Volume()


def run(part: Part, edge: str) -> float:
    return sum(e.length for e in part.outline.named(edge))


def assert_takes(part: Part, cut: Cut, volume: float) -> None:
    """The cut takes that volume, and its mirror image takes the mirrored wood."""
    made = part.cut(cut)
    image = made.mirrored()

    assert taken(made) == pytest.approx(volume, rel=1e-5, abs=1e-2)
    assert taken(image) == pytest.approx(volume, rel=1e-5, abs=1e-2)
    x, y, z = solid(made).Center().toTuple()
    assert solid(image).Center().toTuple() == pytest.approx((x, part.stock.width - y, z), abs=1e-4)
    assert taken(image.mirrored()) == pytest.approx(volume, rel=1e-5, abs=1e-2)


@few
@given(stocks, shares, shares, st.sampled_from(["face", "back"]))
def test_through_dado(stock, place, share, side) -> None:  # type: ignore[no-untyped-def]
    width, depth = 18.0, share * stock.thick
    cut = dado(place * stock.length, width, depth, 0.0, stock.width, side)

    assert cut.name == "dado"
    assert_takes(Part(stock), cut, width * depth * stock.width)


@few
@given(stocks, shares, st.floats(5, 60))
def test_stopped_dado_takes_no_more_than_its_length(stock, share, stop) -> None:  # type: ignore[no-untyped-def]
    depth, end = share * stock.thick, stock.width - stop
    cut = dado(60.0, 10.0, depth, 0.0, end)

    assert cut.open_ends(Part(stock).blank) == (True, False)
    assert_takes(Part(stock), cut, 10.0 * depth * end)


@few
@given(stocks, shares, st.floats(5, 60))
def test_groove_stopped_at_both_ends(stock, share, stop) -> None:  # type: ignore[no-untyped-def]
    depth, length = share * stock.thick, stock.length - 2 * stop
    cut = groove(20.0, 6.0, depth, stop, stock.length - stop)

    assert cut.name == "groove"
    assert cut.open_ends(Part(stock).blank) == (False, False)
    assert_takes(Part(stock), cut, 6.0 * depth * length)


def test_a_slanting_channel_runs_out_at_neither_corner() -> None:
    stock = board(400, 200, 20)
    cut = Channel((100, 50), (250, 130), 12, 8)

    assert_takes(Part(stock), cut, 170 * 12 * 8)


@few
@given(stocks, edges, st.floats(3, 20), shares, st.sampled_from(["face", "back"]))
def test_rabbet(stock, edge, width, share, side) -> None:  # type: ignore[no-untyped-def]
    part, depth = Part(stock), share * stock.thick
    assert_takes(part, Rabbet(edge=edge, width=width, depth=depth, side=side), width * depth * run(part, edge))


@few
@given(stocks, edges, st.floats(1, 30), st.floats(1, 30))
def test_stopped_rabbet(stock, edge, start, short) -> None:  # type: ignore[no-untyped-def]
    part = Part(stock)
    stop = run(part, edge) - short
    cut = Rabbet(edge=edge, width=9.0, depth=5.0, start=start, stop=stop)

    assert not cut.full
    assert_takes(part, cut, 9.0 * 5.0 * (stop - start))


@few
@given(stocks, edges, st.floats(3, 12), st.floats(0.2, 0.4))
def test_tongue(stock, edge, length, third) -> None:  # type: ignore[no-untyped-def]
    part, thickness = Part(stock), third * stock.thick
    cut = Tongue(edge=edge, thickness=thickness, length=length, rise=0.3 * stock.thick)

    assert_takes(part, cut, (stock.thick - thickness) * length * run(part, edge))


@few
@given(stocks, edges, st.floats(3, 12), st.floats(0.2, 0.4))
def test_edge_groove(stock, edge, depth, third) -> None:  # type: ignore[no-untyped-def]
    part, width = Part(stock), third * stock.thick
    cut = EdgeGroove(edge=edge, width=width, depth=depth, rise=0.3 * stock.thick)

    assert_takes(part, cut, width * depth * run(part, edge))


@few
@given(stocks, edges, st.floats(1, 5), st.floats(0.5, 3), st.sampled_from(["face", "back"]))
def test_bead_is_both_its_corners_and_its_quirk(stock, edge, radius, quirk, side) -> None:  # type: ignore[no-untyped-def]
    part = Part(stock)
    section = 2 * CORNER * radius**2 + quirk * radius

    assert_takes(part, Bead(edge=edge, radius=radius, quirk=quirk, side=side), section * run(part, edge))


@few
@given(stocks, edges, st.floats(1, 30), st.sampled_from(["face", "back"]))
def test_bevel(stock, edge, angle, keep) -> None:  # type: ignore[no-untyped-def]
    part = Part(stock)
    section = stock.thick**2 * math.tan(math.radians(angle)) / 2

    assert_takes(part, Bevel(edge=edge, angle=angle, keep=keep), section * run(part, edge))


@few
@given(stocks, edges, st.floats(0.5, 5), st.sampled_from(["face", "back", "both"]))
def test_ease(stock, edge, radius, sides) -> None:  # type: ignore[no-untyped-def]
    part, arrises = Part(stock), 2 if sides == "both" else 1
    assert_takes(part, Ease(edge=edge, radius=radius, sides=sides), arrises * CORNER * radius**2 * run(part, edge))


@few
@given(stocks, edges, st.floats(0.5, 5), st.sampled_from(["face", "back", "both"]))
def test_chamfer(stock, edge, width, sides) -> None:  # type: ignore[no-untyped-def]
    part, arrises = Part(stock), 2 if sides == "both" else 1
    assert_takes(part, Chamfer(edge=edge, width=width, sides=sides), arrises * width**2 / 2 * run(part, edge))


@few
@given(stocks, st.floats(3, 20), shares, st.booleans())
def test_bore_from_either_side(stock, diameter, share, face) -> None:  # type: ignore[no-untyped-def]
    depth = share * stock.thick
    cut = Bore((60.0, 30.0, stock.thick if face else 0.0), (0.0, 0.0, -1.0 if face else 1.0), diameter, depth)

    assert_takes(Part(stock), cut, math.pi * diameter**2 / 4 * depth)


def test_bore_into_an_edge_and_aslant() -> None:
    stock, area = board(400, 200, 20), math.pi * 25 / 4
    assert_takes(Part(stock), Bore((50.0, 0.0, 10.0), (0.0, 1.0, 0.0), 5.0, 30.0), area * 30)

    lean = math.radians(20)
    aslant = Bore((200.0, 100.0, 20.0), (math.sin(lean), 0.0, -math.cos(lean)), 5.0, 60.0)
    assert_takes(Part(stock), aslant, area * 20 / math.cos(lean))  # an oblique cylinder between two planes


@few
@given(stocks, st.floats(8, 14), shares)
def test_counterbore(stock, mouth, share) -> None:  # type: ignore[no-untyped-def]
    depth, clearance = share * stock.thick, 4.5
    cut = Counterbore((60.0, 30.0, stock.thick), (0.0, 0.0, -1.0), mouth, depth, clearance)
    volume = math.pi / 4 * (mouth**2 * depth + clearance**2 * (stock.thick - depth))

    assert_takes(Part(stock), cut, volume)


@pytest.mark.parametrize("size", sorted(BISCUITS))
@pytest.mark.parametrize(
    ("at", "into", "along"),
    [
        ((150.0, 100.0, 25.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
        ((150.0, 0.0, 12.5), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
        ((0.0, 100.0, 12.5), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
    ],
)
def test_biscuit_slot_is_a_segment_of_the_cutter(size, at, into, along) -> None:  # type: ignore[no-untyped-def]
    radius, depth = BISCUIT_CUTTER / 2, BISCUITS[size][2]
    half = math.acos((radius - depth) / radius)
    segment = radius**2 * (half - math.sin(half) * math.cos(half))

    assert_takes(Part(board(300, 200, 25)), BiscuitSlot(at, into, along, size), segment * 4.0)


def test_opening_and_notch() -> None:
    stock = board(400, 200, 19)
    window = rounded([(100, 60), (180, 60), (180, 130), (100, 130)], [10, 0, 5, 0])

    assert_takes(Part(stock), Opening(window), window.area * 19)
    assert_takes(Part(stock), Opening(circle((100, 80), 35)), math.pi * 35**2 / 4 * 19)
    assert_takes(Part(stock), Notch(rectangle(40, 30, x=-5, y=-5)), 35 * 25 * 19)


def test_profile_leaves_the_outline() -> None:
    shape = ring_sector(1000, 1080, 8).moved(140, -985)
    x0, y0, x1, y1 = shape.bounds
    part = Part(board(x1 - x0, y1 - y0, 19)).cut(Profile(shape.moved(-x0, -y0)))

    assert solid(part).Volume() == pytest.approx(19 * shape.area, rel=1e-6)
    assert solid(part.mirrored()).Volume() == pytest.approx(19 * shape.area, rel=1e-6)


def curved_part(inner: float, width: float, half_angle: float) -> Part:
    shape = ring_sector(inner, inner + width, half_angle)
    x0, y0, x1, y1 = shape.bounds
    return Part(board(x1 - x0, y1 - y0, 20)).cut(Profile(shape.moved(-x0, -y0)))


@few
@given(st.floats(400, 3000), st.floats(50, 200), st.floats(4, 40), st.sampled_from(["front", "back"]))
def test_rabbet_along_an_arc_is_a_ring_of_wood(inner, width, half_angle, edge) -> None:  # type: ignore[no-untyped-def]
    step, depth = 10.0, 6.0
    radii = (inner, inner + step) if edge == "front" else (inner + width - step, inner + width)
    ring = math.radians(half_angle) * (radii[1] ** 2 - radii[0] ** 2)

    assert_takes(curved_part(inner, width, half_angle), Rabbet(edge=edge, width=step, depth=depth), ring * depth)


@few
@given(st.floats(400, 3000), st.sampled_from(["front", "back"]), st.floats(0.05, 0.45), st.floats(0.55, 0.95))
def test_stopped_rabbet_along_an_arc(inner, edge, start, stop) -> None:  # type: ignore[no-untyped-def]
    part, step, depth = curved_part(inner, 100, 12), 10.0, 6.0
    (arc,) = part.outline.named(edge)
    radii = (inner, inner + step) if edge == "front" else (inner + 100 - step, inner + 100)
    swept = (stop - start) * abs(arc.sweep)
    cut = Rabbet(edge=edge, width=step, depth=depth, start=start * arc.length, stop=stop * arc.length)

    assert_takes(part, cut, swept / 2 * (radii[1] ** 2 - radii[0] ** 2) * depth)


@pytest.mark.parametrize(("corner", "radius"), [(10.0, 1.0), (37.3, 4.9)])
def test_ease_round_a_tangent_corner_follows_it_without_a_gap(corner, radius) -> None:  # type: ignore[no-untyped-def]
    shape = rounded([(0, 0), (300, 0), (300, 150), (0, 150)], [0, corner, corner, 0], ("rim", "rim", "rim", "left"))
    part = Part(board(300, 150, 20)).cut(Profile(shape))
    # Pappus: straight runs, and two quarter turns at the centroid of the corner's section
    section = CORNER * radius**2
    inset = _corner_centroid(radius)
    straight = 2 * (300 - corner) + (150 - 2 * corner)
    volume = 2 * section * (straight + math.pi * (corner - inset))

    assert_takes(part, Ease(edge="rim", radius=radius), volume)


def _corner_centroid(r: float) -> float:
    """How far in the middle of what a rounding takes lies: square less quarter disc, first moments by hand."""
    square, disc = r * r * r / 2, math.pi * r * r / 4 * (r - 4 * r / (3 * math.pi))
    return (square - disc) / (CORNER * r * r)
