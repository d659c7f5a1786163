"""Mouldings and raised fields: what they take, measured on the solid, against closed forms."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from model.cuts.moulding import Moulding, RaisedEdge, cove, ogee, round_over, waste
from model.errors import CutError
from model.layout.outline import Outline
from model.part import Part
from model.solids import solid
from model.stock import board, panel

few = settings(max_examples=8, deadline=None)
sides = st.sampled_from(["face", "back"])
edges = st.sampled_from(["near", "far", "left", "right"])
radii, steps = st.floats(2, 9), st.just(0.0) | st.floats(0.2, 4)


def taken(part: Part) -> float:
    return part.outline.area * part.thickness - solid(part).Volume()


def assert_mirrors(part: Part) -> None:
    image = part.mirrored()
    x, y, z = solid(part).Center().toTuple()

    assert taken(image) == pytest.approx(taken(part), rel=1e-6)
    assert solid(image).Center().toTuple() == pytest.approx((x, part.stock.width - y, z), abs=1e-4)
    assert solid(image.mirrored()).Center().toTuple() == pytest.approx((x, y, z), abs=1e-6)


def assert_runs(section: Outline, edge: str, side, area: float) -> None:  # type: ignore[no-untyped-def]
    """Run along an edge it takes its area times the edge's length, and its mirror image the mirrored wood."""
    plain = Part(board(300.0, 120.0, 22.0))
    part = plain.cut(Moulding(edge=edge, section=section, side=side))
    length = sum(e.length for e in plain.outline.named(edge))

    assert taken(part) == pytest.approx(area * length, rel=1e-5)
    assert_mirrors(part)


@few
@given(radii, steps, edges, sides)
def test_round_over(radius, step, edge, side) -> None:  # type: ignore[no-untyped-def]
    assert_runs(round_over(radius, step), edge, side, (1.0 - math.pi / 4.0) * radius**2 + radius * step)


@few
@given(radii, steps, edges, sides)
def test_cove(radius, step, edge, side) -> None:  # type: ignore[no-untyped-def]
    assert_runs(cove(radius, step), edge, side, math.pi / 4.0 * radius**2 + radius * step)


@few
@given(st.floats(4, 15), st.floats(4, 15), steps, edges, sides, st.booleans())
def test_ogee_takes_half_its_box(width, depth, step, edge, side, reverse) -> None:  # type: ignore[no-untyped-def]
    assert_runs(ogee(width, depth, step, reverse=reverse), edge, side, width * depth / 2.0 + width * step)


@given(st.floats(2, 30), st.floats(2, 30), st.booleans())
def test_ogee_never_undercuts_and_flows(width, depth, reverse) -> None:  # type: ignore[no-untyped-def]
    section = ogee(width, depth, reverse=reverse)
    upper, lower = (e for e in section.edges if not e.straight)

    assert section.bounds[2:] == pytest.approx((width, depth))
    assert upper.direction(1.0) == pytest.approx(lower.direction(0.0))
    assert upper.bulge == -lower.bulge
    for e in (upper, lower):
        for t in (0.0, 0.5, 1.0):
            u, v = e.direction(t)
            assert u <= 1e-9
            assert v >= -1e-9


def test_square_ogee_is_two_quarter_circles() -> None:
    upper, lower = (e for e in ogee(10.0).edges if not e.straight)

    assert (upper.sweep, lower.sweep) == pytest.approx((math.pi / 2, -math.pi / 2))
    assert upper.centre == pytest.approx((5.0, 0.0))
    assert lower.centre == pytest.approx((5.0, 10.0))


def test_a_line_of_ones_own() -> None:
    # a chamfer with a square step above it
    assert_runs(waste([(8.0, 2.0), (0.0, 10.0)]), "near", "face", 8.0 * 2.0 + 32.0)


def test_mouldings_all_round_miter_at_the_corners() -> None:
    part = Part(panel(300.0, 200.0, 20.0))
    made = part.cut(*(Moulding(edge=e, section=cove(8.0)) for e in ("near", "right", "far", "left")))
    # the waste at depth v below the side stands sqrt(r2 - v2) in from each edge
    expected = math.pi / 4.0 * 64.0 * 1000.0 - 4.0 * (2.0 / 3.0) * 8.0**3

    assert taken(made) == pytest.approx(expected, rel=1e-6)


def test_moulding_too_large_refuses() -> None:
    part = Part(board(300.0, 40.0, 12.0))

    with pytest.raises(CutError, match="a cove 12 mm deep would come through stock 12 mm thick"):
        part.cut(Moulding(edge="near", section=cove(12.0), called="cove"))
    with pytest.raises(CutError, match="an ogee 40 mm wide takes the whole of a part 40 mm wide"):
        part.cut(Moulding(edge="near", section=ogee(40.0, 8.0), called="ogee"))
    with pytest.raises(CutError, match="takes nothing off"):
        waste([(0.0, 0.0), (0.0, 5.0)])


@few
@example(25.0, 5.0, 0.02, 2.0, "face")
@given(st.floats(25, 60), st.floats(5, 8), st.just(0.0) | st.floats(0.02, 12), st.floats(2, 10), sides)
def test_raised_field_miters(width, tongue, flat, angle, side) -> None:  # type: ignore[no-untyped-def]
    stock = panel(420.0, 300.0, 20.0)
    cuts = [
        RaisedEdge(edge=e, width=width, tongue=tongue, flat=flat, angle=angle, side=side)
        for e in ("near", "right", "far", "left")
    ]
    if cuts[0].shoulder(20.0) < 0.0:
        with pytest.raises(CutError, match="does not go into stock 20 mm thick"):
            Part(stock).cut(*cuts)
        return
    made = Part(stock).cut(*cuts)
    # a ring u in from the edges is 2 (L + W) - 8 u long; cut depth(u) deep there
    low, slope = 20.0 - tongue, math.tan(math.radians(angle))
    run = width - flat
    ring = 2.0 * (420.0 + 300.0)
    area = low * width - slope * run**2 / 2.0
    moment = low * width**2 / 2.0 - slope * (run**3 / 3.0 + flat * run**2 / 2.0)

    assert taken(made) == pytest.approx(ring * area - 8.0 * moment, rel=1e-6)
    assert_mirrors(made)


@few
@given(st.floats(20, 40), st.floats(0, 10), st.floats(1.0, 3.0))
def test_coved_edge(width, flat, share) -> None:  # type: ignore[no-untyped-def]
    run = width - flat
    radius = share * run
    cut = RaisedEdge(edge="near", width=width, tongue=6.0, flat=flat, cove=radius)
    thickness = 6.0 + cut.rise + 2.0
    made = Part(panel(300.0, 200.0, thickness)).cut(cut)
    half = math.asin(run / radius)
    under = radius * run - (radius**2 * half + run * math.sqrt(radius**2 - run**2)) / 2.0

    assert cut.shoulder(thickness) == pytest.approx(2.0)
    assert taken(made) == pytest.approx(300.0 * ((thickness - 6.0) * width - under), rel=1e-6)
    assert cut.left_at(flat, thickness) == pytest.approx(6.0)
    assert cut.left_at(width, thickness) == pytest.approx(thickness - 2.0)
    assert cut.left_at(width + 1.0, thickness) == thickness


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ({"angle": 8.0, "cove": 40.0}, "by a bevel or by a cove"),
        ({}, "by a bevel or by a cove"),
        ({"angle": 8.0, "flat": 50.0}, "can't have a flat of 50 mm"),
        ({"cove": 20.0}, "does not reach across the 40 mm"),
        ({"angle": 25.0}, "13.0 mm is the most it may rise"),
    ],
)
def test_raised_edges_that_cannot_be(sizes, said) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(CutError, match=said):
        Part(panel(300.0, 200.0, 19.0)).cut(RaisedEdge(edge="near", width=40.0, tongue=6.0, **sizes))


def test_a_flat_too_fine_to_be_made_is_none() -> None:
    part = Part(panel(420.0, 300.0, 20.0))

    def raised(flat: float) -> Part:
        edges = ("near", "right", "far", "left")
        return part.cut(*(RaisedEdge(edge=e, width=25.0, tongue=5.0, flat=flat, angle=2.0) for e in edges))

    assert taken(raised(0.002)) == pytest.approx(taken(raised(0.0)), rel=1e-4)
