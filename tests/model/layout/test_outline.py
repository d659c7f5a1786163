"""Outlines of lines and true arcs, against polygons of fine facets measured by shapely."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import nearest_points

from model.errors import DesignError
from model.layout.outline import Edge, Outline, circle, rectangle, ring_sector, rounded

FINE = 1e-3  # sagitta of the facets that stand in for an outline


@st.composite
def rounded_polygons(draw: st.DrawFn) -> Outline:
    """Star-shaped polygons with hollow and full corners, each rounded as far as its sides allow."""
    count = draw(st.integers(3, 8))
    reaches = [draw(st.floats(60, 300)) for _ in range(count)]
    corners = [(r * math.cos(math.tau * n / count), r * math.sin(math.tau * n / count)) for n, r in enumerate(reaches)]
    radii = [draw(st.floats(0, 8)) for _ in range(count)]
    try:
        return rounded(corners, radii, [f"edge {n}" for n in range(count)])
    except DesignError:
        assume(False)
        raise


@st.composite
def ring_sectors(draw: st.DrawFn) -> Outline:
    inner, width = draw(st.floats(300, 3000)), draw(st.floats(20, 250))
    return ring_sector(inner, inner + width, draw(st.floats(3, 80)), draw(st.floats(0, 15)))


outlines = st.one_of(rounded_polygons(), ring_sectors())
directions = st.floats(0, math.tau).map(lambda a: (math.cos(a), math.sin(a)))


def polygon(outline: Outline) -> Polygon:
    return Polygon(outline.points(FINE))


@given(outlines)
def test_area_and_perimeter_are_those_of_fine_facets(outline: Outline) -> None:
    facets = polygon(outline)
    assert facets.is_valid
    assert outline.area == pytest.approx(facets.area, abs=FINE * outline.perimeter)
    assert outline.perimeter == pytest.approx(facets.length, rel=1e-5)


@given(outlines, directions)
def test_extent_reaches_as_far_as_the_facets(outline: Outline, direction: tuple[float, float]) -> None:
    along = [direction[0] * x + direction[1] * y for x, y in polygon(outline).exterior.coords]

    assert outline.extent(direction) == pytest.approx((min(along), max(along)), abs=2 * FINE)


@given(outlines, directions, st.floats(0.1, 0.9))
def test_extent_within_a_half_plane_is_that_of_the_clipped_polygon(
    outline: Outline, normal: tuple[float, float], share: float
) -> None:
    low, high = outline.extent(normal)
    offset = low + share * (high - low)
    across = (-normal[1], normal[0])
    far = 1e5
    foot = (offset * normal[0], offset * normal[1])
    corners = [
        (foot[0] + s * far * across[0] - b * normal[0], foot[1] + s * far * across[1] - b * normal[1])
        for s, b in ((-1, 0), (1, 0), (1, far), (-1, far))
    ]
    clipped = polygon(outline).intersection(Polygon(corners))
    pieces = getattr(clipped, "geoms", [clipped])
    along = [across[0] * x + across[1] * y for piece in pieces for x, y in piece.exterior.coords]

    found = outline.extent(across, [(normal, offset)])

    # where the line just grazes an arc, a facet's sagitta moves the crossing by its square root
    assert found == pytest.approx((min(along), max(along)), abs=0.5)


@given(outlines)
def test_bounds_are_those_of_the_facets(outline: Outline) -> None:
    assert outline.bounds == pytest.approx(polygon(outline).bounds, abs=2 * FINE)


@given(outlines, st.floats(-0.2, 1.2), st.floats(-0.2, 1.2))
def test_contains_agrees_with_the_facets(outline: Outline, s: float, t: float) -> None:
    x0, y0, x1, y1 = outline.bounds
    p = (x0 + s * (x1 - x0), y0 + t * (y1 - y0))
    facets = polygon(outline)
    assume(facets.exterior.distance(Point(p)) > 2 * FINE)

    assert outline.contains(p) == facets.contains(Point(p))


@given(outlines, directions, st.floats(0.05, 0.95))
def test_crossings_lie_on_the_line_and_on_the_edge(outline: Outline, normal: tuple[float, float], share: float) -> None:
    low, high = outline.extent(normal)
    offset = low + share * (high - low)
    found = [p for e in outline.edges for p in e.crossings(normal, offset)]

    assert len(found) >= 2
    for p in found:
        assert normal[0] * p[0] + normal[1] * p[1] == pytest.approx(offset, abs=1e-6)
        assert polygon(outline).exterior.distance(Point(p)) < 2 * FINE


@given(outlines, directions)
def test_furthest_holds_the_furthest_point_of_every_edge(outline: Outline, direction: tuple[float, float]) -> None:
    for edge in outline.edges:
        reach = max(direction[0] * x + direction[1] * y for x, y in edge.furthest(direction))
        on_edge = [edge.point(n / 200) for n in range(201)]
        assert reach >= max(direction[0] * x + direction[1] * y for x, y in on_edge) - 1e-6


@given(outlines, st.floats(50, 500))
def test_mirrored_twice_is_the_same(outline: Outline, width: float) -> None:
    once = outline.mirrored(width, str.upper)
    twice = once.mirrored(width, str.lower)

    assert once.area == pytest.approx(outline.area)
    assert twice.names == outline.names
    assert twice.bulges == outline.bulges
    assert [c for p in twice.corners for c in p] == pytest.approx([c for p in outline.corners for c in p])


@given(outlines, st.floats(50, 500))
def test_mirrored_edges_keep_their_names(outline: Outline, width: float) -> None:
    by_name = {e.name: e for e in outline.edges if e.straight}
    for edge in outline.mirrored(width).edges:
        if edge.straight and list(outline.names).count(edge.name) == 1:
            was = by_name[edge.name]
            assert edge.start == pytest.approx((was.end[0], width - was.end[1]))
            assert edge.end == pytest.approx((was.start[0], width - was.start[1]))


@given(outlines, st.floats(-180, 180), st.floats(-500, 500), st.floats(-500, 500))
def test_turned_and_moved_keep_the_shape(outline: Outline, degrees: float, dx: float, dy: float) -> None:
    there = outline.turned(degrees).moved(dx, dy)
    back = there.moved(-dx, -dy).turned(-degrees)

    assert there.area == pytest.approx(outline.area)
    assert there.perimeter == pytest.approx(outline.perimeter)
    assert there.names == outline.names
    assert [c for p in back.corners for c in p] == pytest.approx([c for p in outline.corners for c in p], abs=1e-9)


@given(st.floats(-3, 3).filter(lambda b: abs(b) > 0.01), st.floats(0, 1))
def test_an_arc_runs_through_its_points_at_its_radius_and_in_its_direction(bulge: float, t: float) -> None:
    edge = Edge((10.0, 20.0), (110.0, 50.0), bulge)
    p, step = edge.point(t), 1e-6
    q = edge.point(t + step)

    assert math.dist(p, edge.centre) == pytest.approx(edge.radius)
    assert edge.point(0) == pytest.approx(edge.start)
    assert edge.point(1) == pytest.approx(edge.end)
    travelled = math.dist(p, q)
    assert ((q[0] - p[0]) / travelled, (q[1] - p[1]) / travelled) == pytest.approx(edge.direction(t), abs=1e-4)


@given(st.floats(100, 3000), st.floats(10, 200), st.floats(2, 80), st.floats(0, 20))
def test_ring_sector_ends_stand_off_the_radial_line_by_the_offset(
    inner: float, width: float, half_angle: float, offset: float
) -> None:
    sector = ring_sector(inner, inner + width, half_angle, offset)
    (right,) = sector.named("right")
    a = math.radians(half_angle)
    outward = (math.cos(a), -math.sin(a))  # square to the radial line at +half_angle

    for p in (right.start, right.end):
        assert outward[0] * p[0] + outward[1] * p[1] == pytest.approx(offset, abs=1e-6)
    assert math.hypot(*right.start) == pytest.approx(inner)
    assert math.hypot(*right.end) == pytest.approx(inner + width)
    assert sector.named("front")[0].radius == pytest.approx(inner)
    assert sector.named("back")[0].radius == pytest.approx(inner + width)


def test_rounded_square_has_the_area_of_the_formula() -> None:
    square = rounded([(0, 0), (100, 0), (100, 100), (0, 100)], [10] * 4, ("near", "right", "far", "left"))

    assert square.area == pytest.approx(100**2 - (4 - math.pi) * 10**2)
    assert {e.name for e in square.edges} == {"near", "right", "far", "left"}
    assert sorted(e.name for e in square.edges if e.straight) == ["far", "left", "near", "right"]


def test_rounded_refuses_radii_that_do_not_fit() -> None:
    with pytest.raises(DesignError, match=r"corner radii 30 and 30 mm don't fit on a side 50\.0 mm long.*smaller"):
        rounded([(0, 0), (50, 0), (50, 100), (0, 100)], [30, 30, 0, 0])


def test_circle_is_round() -> None:
    assert circle((3, 4), 10).area == pytest.approx(math.pi * 25)
    assert circle((3, 4), 10).bounds == pytest.approx((-2, -1, 8, 9))


def test_a_name_that_no_edge_bears_is_refused_with_those_there_are() -> None:
    with pytest.raises(DesignError, match=r'no edge is called "top"; there are: near, right, far, left'):
        rectangle(10, 10).named("top")


@pytest.mark.parametrize(
    ("corners", "message"),
    [
        (((0, 0),), "at least two corners"),
        (((0, 0), (0, 0), (5, 5)), "two corners in the same place"),
        (((0, 0), (0, 5), (5, 5)), "run counter-clockwise"),
    ],
)
def test_what_is_no_outline_is_refused(corners: tuple[tuple[float, float], ...], message: str) -> None:
    with pytest.raises(DesignError, match=message):
        Outline(corners)


def test_facets_leave_the_arc_by_no_more_than_the_sagitta() -> None:
    wheel = circle((0, 0), 200)
    for sagitta in (1.0, 0.1, 0.01):
        ring = LineString([*wheel.points(sagitta), wheel.points(sagitta)[0]])
        nearest, _ = nearest_points(ring, Point(0, 0))
        assert 100 - math.hypot(nearest.x, nearest.y) <= sagitta + 1e-9


@pytest.mark.parametrize("turn", [0.0, 90.0, 37.0, 180.0])
def test_a_disc_holds_the_line_between_its_two_halves(turn: float) -> None:
    disc = circle((0.0, 0.0), 100.0).turned(turn)
    chord = disc.edges[0]
    for t in (0.1, 0.5, 0.9):
        (ax, ay), (bx, by) = chord.start, chord.end
        assert disc.contains((ax + t * (bx - ax), ay + t * (by - ay)))
        assert not disc.contains((ax + (t + 1.0) * (bx - ax), ay + (t + 1.0) * (by - ay)))
